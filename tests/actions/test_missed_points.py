"""From the signature to the board: a point missed in a sign-off, and an edition that lets it pass no more."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from tests.actions.crew import EVERY_POINT, NOON, TODAY, crew_in, saved
from tests.kitchen.kitchen_for_tests import small_content, with_technique
from tests.printed import english
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.watching import Look
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.technique import Content, Edition

SINCE = TODAY + timedelta(days=60)
TOO_LONG = (*EVERY_POINT[:2], Look("boil", None, ("120 s",)), EVERY_POINT[3])


def newer_content() -> Content:
    """Return the small content with a later edition of cold sauces: boil is critical in it, and named by it."""
    content = small_content()
    technique = content.techniques["cold_sauces"]
    checklist = tuple(replace(p, critical=p.critical or p.id == "boil") for p in technique.checklist)
    edition = Edition(2, SINCE, "The boil is needed always.", True, unless_missed=("boil",))
    return with_technique(content, "cold_sauces", editions=(*technique.editions, edition), checklist=checklist)


def ada_on(kitchen: Kitchen, on: date) -> Clearance:
    """Return Ada's clearance at the cold side."""
    row = next(row for row in kitchen.board(on).rows if row.cook.id == "ada")
    return next(found for found in row.clearances if found.station == "cold_side")


def test_who_missed_it_stops_counting_from_that_day_and_nobody_else(tmp_path: Path) -> None:
    """Ada boiled too long and was signed off, as the checklist then let her; Sous and all past boards stay."""
    crew = crew_in(tmp_path)
    practical = crew.begins_practical()
    crew.sees(practical, *TOO_LONG)
    assert saved(crew.signs(practical)).body["verdict"] == "meets it"
    past = [TODAY + timedelta(days=day) for day in range((SINCE - TODAY).days)]
    before = [ada_on(crew.k, day) for day in past]
    assert all(found.is_cleared for found in before)
    crew.k = Kitchen(crew.k.file, newer_content())
    assert [ada_on(crew.k, day) for day in past] == before
    found = ada_on(crew.k, SINCE)
    assert found.state == "lapsed"
    assert "boiled in time" in english(found.reason)
    sous = next(row for row in crew.k.board(SINCE).rows if row.cook.id == "sous")
    assert any(each.is_cleared for each in sous.clearances)


def test_the_same_practical_is_not_yet_by_the_newer_checklist(tmp_path: Path) -> None:
    """And shown again with the point met, it counts."""
    crew = crew_in(tmp_path, newer_content())
    crew.now = NOON + (SINCE - TODAY)
    practical = crew.begins_practical()
    crew.sees(practical, *TOO_LONG)
    assert saved(crew.signs(practical)).body["verdict"] == "not yet"
    again = crew.begins_practical()
    crew.sees(again)
    assert saved(crew.signs(again)).body["verdict"] == "meets it"
    assert ada_on(crew.k, SINCE).is_cleared
