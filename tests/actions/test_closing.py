"""Closing a service: as planned in one act, or who stood where; what speaks against it, and what is refused."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

import pytest

from tests.actions.crew import NOON, TODAY, Crew, refused, saved
from tests.actions.test_planning import DINNER, publish, rows, set_week
from tests.printed import english
from trainer.actions.closing import Closing, close_service
from trainer.actions.correcting import Correction, void_entry
from trainer.actions.erasing import Erasure, erase_person, held_about
from trainer.actions.outcome import Outcome
from trainer.actions.people_on_record import Written
from trainer.kitchen.book import LOCAL, THE_BOOK
from trainer.kitchen.nights import Place
from trainer.kitchen.proof import Proof
from trainer.store.acting import acting_on


@pytest.fixture(autouse=True)
def _after_dinner(crew: Crew) -> None:
    """Plan Sous at the cold side with Ada beside, and let it be 22:00 in New York."""
    rows(crew, (TODAY, "sous", "cold_side"), (TODAY, "ada", "cold_side"))
    saved(publish(crew))
    crew.later(hours=10)


def at(cook: str, station: str = "cold_side", *, runs: bool = True, beside: str = "") -> Place:
    """Return a place at tonight's dinner."""
    return Place(TODAY, "dinner", cook, station, runs, beside)


def close(crew: Crew, *stood: Place, by: str = "sous", **more: Any) -> Outcome:
    """Close tonight's dinner: as planned, or as somebody says."""
    closing = Closing(**{"day": TODAY, "service": "dinner", "as_planned": not stood, "stood": stood, **more})
    return close_service(crew.k, by=by, closing=closing, now=crew.now, key=crew.key())


def test_a_service_is_closed_as_planned_without_a_proof(crew: Crew) -> None:
    """The entry keeps who stood, so that nobody has to look at the plan; it happened on the day of the service."""
    crew.later(hours=12)  # the next morning
    with acting_on("tablet", Proof("pin", crew.now, "tablet")):
        entry = saved(close(crew))
    assert (entry.kind, entry.cook, entry.happened, entry.day) == (
        "service_stood",
        THE_BOOK,
        TODAY,
        TODAY + timedelta(days=1),
    )
    assert entry.body == {
        "service": "dinner",
        "as_planned": True,
        "stood": [
            {"cook": "ada", "station": "cold_side", "as": "trails"},
            {"cook": "sous", "station": "cold_side", "as": "runs"},
        ],
        "disparities": [],
        "guests": None,
        "proof": None,
    }


def test_who_differed_is_signed(crew: Crew) -> None:
    """What was typed carries the proof of whoever typed it; on the machine itself it says so."""
    with acting_on("tablet", Proof("pin", crew.now, "tablet")):
        entry = saved(close(crew, at("sous"), at("ada", runs=False, beside="sous"), guests=64))
    assert entry.body["proof"]["how"] == "pin"
    assert (entry.body["as_planned"], entry.body["guests"]) == (False, 64)
    saved(void_entry(crew.k, by="sous", correction=Correction(entry.id, ""), now=crew.now, key=crew.key()))
    assert saved(close(crew, at("sous"), by=LOCAL)).body["proof"]["how"] == "local"


def test_what_speaks_against_a_place_is_written_down_with_a_reason(crew: Crew) -> None:
    """Uncleared, a minor at a machine, a leaver, two stations no need joins: none is refused, each asks why."""
    crew.joins("kid", "cook", born=date(2010, 1, 1))
    crew.joins("gone", "cook")
    crew.write("cook_left", "gone", {"reason": "x"})
    stood = (at("ben"), at("kid", "pasta_room"), at("gone", runs=False), at("sous"), at("sous", "grill"))
    no = refused(close(crew, *stood))
    assert (english(no.reason), no.field) == ("Ben, Cold side: not started.", "reasons")
    states = {
        ("ben", "cold_side"): ["not started"],
        ("kid", "pasta_room"): ["not allowed"],
        ("gone", "cold_side"): ["not on the board"],
        ("sous", "grill"): ["not allowed", "two stations"],
    }
    reasons = {(*place, state): f"Because of {state}." for place, each in states.items() for state in each}
    entry = saved(close(crew, *stood, reasons=reasons))
    found: dict[tuple[str, str], list[str]] = {}
    for one in entry.body["disparities"]:
        assert one["reason"] == f"Because of {one['state']}."
        found.setdefault((one["cook"], one["station"]), []).append(one["state"])
    assert found == states


def test_two_stations_that_a_need_joins_are_no_disparity(crew: Crew) -> None:
    """One hand for cold side and grill together, set for the next Monday on; then two hands, one each."""
    crew.later(days=7)
    crew.write("certificate_shown", "sous", first_aid())
    joined = DINNER | {"weekday": 1, "needs": [{"stations": ["cold_side", "grill"], "hands": 1}]}
    saved(set_week(crew, since="2026-03-09", weekly=[joined]))
    monday = date(2026, 3, 9)
    both = (at("sous")._replace(day=monday), at("sous", "grill")._replace(day=monday))
    entry = saved(close(crew, *both, day=monday))
    assert entry.body["disparities"] == []


def first_aid() -> Mapping[str, Any]:
    """Return the certificate the grill asks for."""
    return {"certificate": "first_aid", "number": "1", "issued": "2026-01-01", "expires": None}


def test_a_service_the_house_does_not_hold_is_a_disparity(crew: Crew) -> None:
    """Breakfast was served all the same; the reason says why."""
    crew.later(hours=14)
    saved(set_week(crew, since="2026-03-03", weekly=[DINNER]))
    tuesday: dict[str, Any] = {"day": date(2026, 3, 3), "service": "breakfast"}
    place = Place(tuesday["day"], "breakfast", "sous", "cold_side", runs=True)
    assert english(refused(close(crew, place, **tuesday)).reason) == (
        "The service itself: a service that is not held that day."
    )
    entry = saved(close(crew, place, **tuesday, reasons={("", "", "no service"): "A wedding."}))
    assert entry.body["disparities"] == [{"cook": "", "station": "", "state": "no service", "reason": "A wedding."}]


def test_the_reason_the_plan_gives_stands(crew: Crew) -> None:
    """Ada runs the station though she is not cleared: why is in the plan, and one tap closes the service."""
    crew.now = NOON
    despite = {(TODAY, "dinner", "ada"): "Sous stands behind her."}
    saved(publish(crew, replaces=True, despite=despite))
    crew.later(hours=10)
    (one,) = saved(close(crew)).body["disparities"]
    assert (one["cook"], one["state"], one["reason"]) == ("ada", "not started", "Sous stands behind her.")


def test_a_service_is_closed_once_and_again_after_a_void(crew: Crew) -> None:
    """The refusal names the entry; voided, the service is closed as it was."""
    first = saved(close(crew))
    no = refused(close(crew, at("ben")))
    assert english(no.reason) == f"dinner on 2 March 2026 is closed already, in entry {first.seq} by Sous."
    assert english(no.who_can) == "To put it right, void that entry, then close the service again."
    correction = Correction(first.id, "Ben jumped in.")
    saved(void_entry(crew.k, by="mara", correction=correction, now=crew.later(hours=1), key=crew.key()))
    reasons = {("ben", "cold_side", "not started"): "Nobody else was there."}
    saved(close(crew, at("ben"), reasons=reasons))
    (one,) = crew.k.progress().nights.closings(TODAY, TODAY).values()
    assert [place.cook for place in one.stood] == ["ben"]


@pytest.mark.parametrize(
    ("stood", "more", "words"),
    [
        ((), {"service": "brunch"}, "“brunch”: there are breakfast, lunch and dinner."),
        ((), {"service": "lunch"}, "No plan is published for lunch on 2 March 2026."),
        (
            (),
            {"day": TODAY + timedelta(days=1)},
            "dinner on 3 March 2026 is still to come: it begins no earlier than 15:00.",
        ),
        ((), {"day": date(2026, 1, 2)}, "2 January 2026 was 59 days ago. A service is closed within 31 days."),
        ((), {"by": "ben"}, "Ben is neither assessor nor manager."),
        ((), {"as_planned": False}, "Nobody stood anywhere: name who stood where."),
        ((at("ghost"),), {}, "There is no cook “ghost”."),
        ((at("sous", "fry"),), {}, "There is no station “fry”. There are: pasta_room, cold_side, grill."),
        ((at("sous"), at("sous")), {}, "Sous stands at cold_side twice."),
        ((at("ada", runs=False, beside="ben"),), {}, "Ben did not run cold_side, so nobody trailed beside them."),
        ((at("sous"),), {"guests": 10_001}, "10001 guests: a service has 10000 at most."),
    ],
)
def test_what_cannot_be_closed_is_refused_with_the_rule(
    crew: Crew, stood: tuple[Place, ...], more: dict[str, Any], words: str
) -> None:
    """Nothing is written."""
    assert english(refused(close(crew, *stood, **more)).reason) == words
    assert crew.entries("service_stood") == []


def test_a_service_does_not_close_before_the_house_opens_it(crew: Crew) -> None:
    """Where hours are set, they count: at 17:00 dinner that opens at 18:00 is still to come."""
    crew.now = NOON
    saved(set_week(crew, weekly=[DINNER | {"weekday": 1, "opens": "18:00"}]))
    crew.later(hours=5)
    no = refused(close(crew))
    assert english(no.reason) == "dinner on 2 March 2026 is still to come: it begins no earlier than 18:00."


def test_what_was_written_about_somebody_goes_when_they_are_erased(crew: Crew) -> None:
    """The reason beside their name is dropped with everything else; the reason about somebody else stays."""
    reasons = {("ben", "cold_side", "not started"): "Alone that night.", ("ada", "cold_side", "not started"): "Too."}
    entry = saved(close(crew, at("ben"), at("ada"), reasons=reasons))
    assert held_about(crew.k, "ben").texts
    crew.write("cook_left", "ben", {"reason": "x"})
    saved(erase_person(crew.k, erasure=Erasure("ben", "asked for it"), written=Written("mara", crew.now, crew.key())))
    found = crew.k.file.book.find(entry.id)
    assert found is not None
    assert [one["reason"] for one in found.body["disparities"]] == ["text erased", "Too."]
