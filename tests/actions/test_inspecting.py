"""The inspector's sheet: who is in charge and on, with which papers; what is missing comes first, as the book said."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import timedelta
from types import MappingProxyType
from typing import Any

import pytest

from tests.actions.crew import TODAY, Crew, saved
from tests.printed import english
from trainer.actions.certifying import Paper, show_certificate
from trainer.actions.inspecting import InspectionSheet, inspection
from trainer.actions.inspection_gaps import gaps
from trainer.actions.noticing import NoticeSeen, acknowledge_notice
from trainer.exports.inspection import as_data, as_lines
from trainer.kitchen.book import THE_BOOK
from trainer.kitchen.certificates import FOOD_PROTECTION_MANAGER
from trainer.kitchen.nights import Place, plan_text
from trainer.kitchen.technique import CertificateAsked


def plan(crew: Crew, charge: str, *places: tuple[str, bool], days: int = 0) -> None:
    """Publish the plan of one dinner on the cold side."""
    day = TODAY + timedelta(days=days)
    lines = [Place(day, "dinner", cook, "cold_side", runs) for cook, runs in places]
    text = plan_text(lines, {day: charge} if charge else {}, ())
    body = {"from": day.isoformat(), "to": day.isoformat(), "plan": text, "despite": [], "replaces": []}
    crew.write("plan_published", THE_BOOK, body)


def certify(crew: Crew, cook: str, days: int = 400) -> None:
    """Show a food protection manager's certificate that ends in so many days."""
    ends = TODAY + timedelta(days=days)
    paper = Paper(cook, FOOD_PROTECTION_MANAGER.id, "FPM-7", TODAY - timedelta(days=900), ends)
    saved(show_certificate(crew.k, by="mara", paper=paper, now=crew.now, key=crew.key()))


def read(crew: Crew, *cooks: str) -> None:
    """Let cooks read the notice on illness."""
    for cook in cooks:
        seen = NoticeSeen("health_reporting", 1, "en", ["Ill?"])
        saved(acknowledge_notice(crew.k, by=cook, seen=seen, now=crew.now, key=crew.key()))


def sheet(crew: Crew, days: int = 0, **asked: Any) -> InspectionSheet:
    """Return the sheet of a day."""
    return inspection(crew.k, on=TODAY + timedelta(days=days), now=crew.now, **asked)


def said(found: InspectionSheet) -> list[str]:
    """Return what is missing, in English."""
    return [english(one.words) for one in gaps(found)]


@pytest.fixture
def on(crew: Crew) -> Crew:
    """Return the crew with Sous in charge, running the cold side, and Ada beside."""
    cold = replace(crew.k.content.techniques["cold_sauces"], id="allergens", title="Allergens")
    crew.k.content = replace(
        crew.k.content, techniques=MappingProxyType({**crew.k.content.techniques, "allergens": cold})
    )
    plan(crew, "sous", ("sous", True), ("ada", False))
    return crew


def test_what_is_missing_comes_first_with_what_to_do(on: Crew) -> None:
    """FDA Food Code 2022, 2-102.12(A), 2-103.11(N) and (O) (from memory): certificate, allergens, notice."""
    found = sheet(on)
    assert said(found)[0] == "Sous is in charge, with no food protection manager certificate on record."
    assert "Notice on illness not read: Sous, Ada." in said(found)
    assert "Allergens not signed off: Sous, Ada." in said(found)
    assert all(english(one.act) for one in gaps(found))
    assert english([*as_lines(found)][1]).endswith("things are missing")


def test_with_everything_there_nothing_is_missing(on: Crew) -> None:
    """Certified, read, signed: the numbers and last days stand in the table."""
    certify(on, "sous")
    read(on, "sous", "ada")
    for cook in ("sous", "ada"):
        on.clears(cook, technique="allergens")
    found = sheet(on)
    papers = {one.standing.asked.id for person in found.people for one in person.papers if not one.standing.counts}
    assert [one.what for one in gaps(found)] == [f"certificate:{paper}" for paper in sorted(papers)]
    assert found.charge is not None
    assert (found.charge.manager_paper.number, found.charge.manager_paper.standing.state) == ("FPM-7", "good")
    assert [person.notice is not None for person in found.people] == [True, True]


def test_nobody_in_charge_is_said_before_all_else(crew: Crew) -> None:
    """FDA Food Code 2022, 2-101.11: a person in charge is present at all hours of operation."""
    plan(crew, "", ("sous", True))
    assert said(sheet(crew))[0].startswith("Nobody is named in charge on")


def test_a_certificate_that_ended_says_when_and_who_on_holds_one(on: Crew) -> None:
    """Its last day counts, the day after does not; the station's own rule gives it grace."""
    certify(on, "sous", days=3)
    certify(on, "ada")
    plan(on, "sous", ("sous", True), ("ada", False), days=4)
    on.later(days=4)
    gap = gaps(sheet(on, 4))[0]
    assert "ended on" in english(gap.words)
    assert english(gap.act).endswith("On too, with one: Ada.")
    cold = on.k.content.stations["cold_side"]
    asked = CertificateAsked(FOOD_PROTECTION_MANAGER.id, "FPM", bars=False, grace_days=10)
    stations = {**on.k.content.stations, "cold_side": replace(cold, certificates=(*cold.certificates, asked))}
    on.k.content = replace(on.k.content, stations=MappingProxyType(stations))
    charge = sheet(on, 4).charge
    assert charge is not None
    assert charge.manager_paper.standing.state == "on grace"
    assert charge.manager_paper.standing.counts_to == TODAY + timedelta(days=13)


def test_who_runs_a_station_uncleared_is_named_and_who_trails_is_not(on: Crew) -> None:
    """Ada beside Sous is training; Ada alone is a finding."""
    assert not [one for one in gaps(sheet(on)) if one.what == "clearance" and "ada" in one.cooks]
    plan(on, "sous", ("ada", True))
    words = [english(one.words) for one in gaps(sheet(on)) if one.what == "clearance"]
    assert words == ["Ada runs Cold side and is not cleared there."]


def test_a_past_day_is_as_the_book_said_then(on: Crew) -> None:
    """Papers, readings and sign-offs of later days change nothing on it, word for word."""
    on.later(days=1)
    before = as_data(sheet(on))
    certify(on, "sous")
    read(on, "sous", "ada")
    on.clears("ada", technique="allergens")
    after = as_data(sheet(on))
    for told in (before, after):
        del told["head"], told["at"]
    assert json.dumps(before) == json.dumps(after)


def test_a_closed_service_lists_who_stood(on: Crew) -> None:
    """Ben stood in for Ada."""
    stood = [{"cook": who, "station": "cold_side", "as": "runs"} for who in ("sous", "ben")]
    body = {"service": "dinner", "as_planned": False, "stood": stood, "disparities": [], "guests": None, "proof": None}
    on.write("service_stood", THE_BOOK, body)
    found = sheet(on)
    assert found.stood
    assert {one.cook for one in found.people} == {"sous", "ben"}


def test_a_day_without_a_plan_lists_the_roster(crew: Crew) -> None:
    """And says so."""
    found = sheet(crew)
    assert found.service is None
    assert {"ada", "sous"} <= {one.cook for one in found.people}
    assert said(found)[-1] == "No service is planned on this day: everybody on the roster is listed."
