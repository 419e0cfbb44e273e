"""A kitchen's settings in its book: at the beginning, and at each change; a change of the zone moves no past day."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from tests.actions.crew import NOON, TODAY, Crew, refused, saved
from tests.kitchen.kitchen_for_tests import small_content
from tests.printed import english
from trainer.actions.kitchen_settings import change_settings, enter_settings
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome
from trainer.actions.roster import first_manager
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings


def changes(crew: Crew, **settings: str | int) -> Outcome:
    """Change some settings by a command."""
    wanted = replace(crew.k.file.settings, **settings)  # type: ignore[arg-type]
    return change_settings(crew.k, settings=wanted, now=crew.now, key=crew.key())


def test_what_a_book_begins_with_is_all_of_the_settings(tmp_path: Path) -> None:
    """By the first manager, who set them."""
    file = KitchenFile.create(tmp_path, Settings("", "Green Door", "Europe/Rome", "es", "metric", ","))
    k = Kitchen(file, small_content())
    manager = saved(first_manager(k, name="Ida Brandt", now=NOON, key="first")).cook
    entry = saved(enter_settings(k, by=manager, now=NOON, key="settings"))
    assert (entry.by, entry.cook) == (manager, manager)
    assert entry.body == {
        "name": "Green Door",
        "zone": "Europe/Rome",
        "units_first": "metric",
        "decimal_mark": ",",
        "languages": ["es"],
        "services": ["breakfast", "lunch", "dinner"],
        "independence": "shown",
        "currency": "USD",
        "own_phone": "study",
        "pin_hours": 12,
        "not_cleared_in_100": 10,
    }
    file.close()


def test_a_change_is_an_entry_by_the_machine(crew: Crew) -> None:
    """All of the settings as they are then."""
    entry = saved(changes(crew, name="New Name", units_first="metric"))
    assert (entry.by, entry.body["name"], entry.body["units_first"]) == ("local", "New Name", "metric")
    assert KitchenFile.open(crew.k.file.folder).settings.name == "New Name"


@pytest.mark.parametrize("zone", ["Pacific/Kiritimati", "Pacific/Niue", "Asia/Kathmandu"])
def test_another_zone_moves_none_of_fifty_past_boards(crew: Crew, zone: str) -> None:
    """East, west, and by a quarter of an hour (tz database); nor does it in another process."""
    crew.clears("ada")
    crew.later(days=20)
    crew.clears("ben")
    days = [TODAY + timedelta(days=number) for number in range(-30, 20)]
    before = [crew.k.board(on) for on in days]
    saved(changes(crew, timezone=zone))
    assert [crew.k.board(on) for on in days] == before
    other = Kitchen(KitchenFile.open(crew.k.file.folder), crew.k.content)
    assert [other.board(on) for on in days] == before
    assert other.today(datetime(2026, 6, 1, 10, 30, tzinfo=UTC)) in (
        date(2026, 6, 2),
        date(2026, 5, 31),
        date(2026, 6, 1),
    )
    other.file.close()


def test_settings_that_make_no_sense_and_the_same_ones_are_refused(crew: Crew) -> None:
    """By the value; nothing is entered."""
    end = crew.k.file.book.end()
    assert "Mars/Olympus" in english(refused(changes(crew, timezone="Mars/Olympus")).reason)
    assert "already" in english(refused(changes(crew)).reason)
    crew.later(days=-1)
    assert "clock is behind" in english(refused(changes(crew, name="New Name")).reason)
    assert crew.k.file.book.end() == end
    assert crew.k.file.settings.name == "Quernstone"


@pytest.mark.parametrize(("limit", "is_taken"), [(0, False), (1, True), (50, True), (51, False)])
def test_the_limit_of_services_run_by_somebody_not_cleared_is_one_to_fifty(
    crew: Crew, limit: int, is_taken: bool
) -> None:
    """It is kept and entered; another is refused by its value, and nothing changes."""
    outcome = changes(crew, not_cleared_in_100=limit)
    if is_taken:
        assert saved(outcome).body["not_cleared_in_100"] == limit
        assert KitchenFile.open(crew.k.file.folder).settings.not_cleared_in_100 == limit
    else:
        assert f"not {limit}." in english(refused(outcome).reason)
        assert crew.k.file.settings.not_cleared_in_100 == 10
