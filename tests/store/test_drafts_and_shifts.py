"""Drafts stay until they are finished or dropped; planned shifts are kept by day, sitting and cook."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from tests.store.kitchens import NOON, new_kitchen
from trainer.store.drafts import Draft
from trainer.store.kitchen_file import KitchenFile
from trainer.store.shifts import PlannedShift

SITTING = Draft("d1", "sitting", "saute", "ana", "ana", {"answers": ["12 g", None]}, NOON)
PRACTICAL = Draft("d2", "practical", "saute", "ana", "bo", {}, NOON + timedelta(minutes=1))
DAY = date(2026, 12, 1)
SHIFT = PlannedShift(DAY, "dinner", "ana", "grill")


def test_a_draft_outlives_the_program(tmp_path: Path) -> None:
    """It is there after the kitchen was closed and opened again."""
    file = new_kitchen(tmp_path)
    file.drafts.put(SITTING)
    file.close()
    assert KitchenFile.open(tmp_path).drafts.get("d1") == SITTING


def test_a_later_state_takes_the_place_of_the_earlier(tmp_path: Path) -> None:
    """One draft, one state."""
    drafts = new_kitchen(tmp_path).drafts
    later = replace(SITTING, body={"answers": []})
    drafts.put(SITTING)
    drafts.put(later)
    assert drafts.list() == (later,)


def test_drafts_are_found_by_kind_cook_and_writer(tmp_path: Path) -> None:
    """Oldest first; dropping one twice is no error."""
    drafts = new_kitchen(tmp_path).drafts
    drafts.put(PRACTICAL)
    drafts.put(SITTING)
    assert drafts.list() == (SITTING, PRACTICAL)
    assert drafts.list("practical") == (PRACTICAL,)
    assert drafts.list(cook="ana", by="bo") == (PRACTICAL,)
    drafts.delete("d2")
    drafts.delete("d2")
    assert drafts.list() == (SITTING,)
    assert drafts.get("d2") is None


def test_a_cook_has_one_station_a_sitting(tmp_path: Path) -> None:
    """A new plan for the same sitting takes the place of the old; the same plan again changes nothing."""
    shifts = new_kitchen(tmp_path).shifts
    assert shifts.add([SHIFT]) == 1
    assert shifts.add([SHIFT]) == 0
    assert shifts.add([replace(SHIFT, station="saute")]) == 1
    assert [shift.station for shift in shifts.all()] == ["saute"]


def test_a_days_shifts_come_with_lunch_first(tmp_path: Path) -> None:
    """Then by station; other days stay out."""
    shifts = new_kitchen(tmp_path).shifts
    lunch = replace(SHIFT, sitting="lunch", cook="bo")
    other = replace(SHIFT, on=DAY + timedelta(days=1))
    shifts.add([SHIFT, lunch, other])
    assert shifts.on(DAY) == (lunch, SHIFT)
    shifts.remove(SHIFT)
    assert shifts.on(DAY) == (lunch,)
    assert shifts.between(DAY, DAY + timedelta(days=1)) == (lunch, other)
