"""Plans and closed services: which shifts follow from them, and on which day; what speaks against who stood where.

The days are counted by hand on a calendar; that a week begins on Monday as day 1 is ISO 8601.
"""

from __future__ import annotations

import json
from datetime import date, timedelta
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content
from tests.kitchen.test_practice import ASKED, cleared, found
from tests.printed import english
from trainer.kitchen.book import THE_BOOK
from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.disparities import disparities
from trainer.kitchen.nights import Place
from trainer.kitchen.record import AsKnown
from trainer.kitchen.services import THE_THREE
from trainer.kitchen.week import Need
from trainer.kitchen.week_typed import wrong_week

D = date
DUE = D(2026, 6, 4)
"""The first day out of practice of who was cleared on 5 March and did not work: 90 days later is 3 June."""


def plans(scribe: Scribe, when: date, days: list[date], **line: Any) -> str:
    """Write a plan in which Ada runs the cold side at dinner on some days."""
    told = {"service": "dinner", "cook": "ada", "station": "cold_side", "as": "runs", **line}
    despite = told.pop("despite", None)
    lines = [{"day": f"{day}", **told} for day in days]
    reasons = [{**one, "reason": "x"} for one in lines] if despite else []
    body = {
        "from": f"{min(days)}",
        "to": f"{max(days)}",
        "plan": json.dumps({"lines": lines, "in_charge": [], "away": []}),
        "despite": reasons,
        "replaces": [],
    }
    return scribe.write("plan_published", THE_BOOK, when, body)


def closes(scribe: Scribe, when: date, *stood: dict[str, str], wrong: tuple[dict[str, str], ...] = ()) -> str:
    """Write that dinner of a day was closed."""
    body = {"as_planned": False, "stood": list(stood), "disparities": list(wrong), "guests": 80, "proof": None}
    return scribe.write("service_stood", THE_BOOK, when, {"service": "dinner", **body})


def ran(station: str = "cold_side", cook: str = "ada", how: str = "runs") -> dict[str, str]:
    """Return that a cook stood at a station."""
    return {"cook": cook, "station": station, "as": how}


THREE = [D(2026, 5, 1), D(2026, 5, 8), D(2026, 5, 15)]


def test_three_services_closed_keep_a_cook_in_practice() -> None:
    """Three in 90 days: the first of them, of 1 May, counts to 30 July."""
    scribe = cleared()
    for day in THREE:
        closes(scribe, day, ran())
    good = found(scribe, D(2026, 7, 30))
    assert (good.state, good.until) == ("due again", D(2026, 7, 30))
    assert not found(scribe, D(2026, 7, 31)).is_cleared
    assert any(english(held.text) == "In practice: 3 shifts in 90 days." for held in good.held)


@pytest.mark.parametrize(
    "stood",
    [ran("grill"), ran(cook="bo"), ran(how="trails")],
    ids=["another station", "another cook", "trailed, and nobody signed it"],
)
def test_what_is_no_run_of_the_station_does_not_count(stood: dict[str, str]) -> None:
    """Only the cook's own runs of that station are practice."""
    scribe = cleared()
    for day in THREE:
        closes(scribe, day, stood)
    assert found(scribe, DUE).state == "lapsed"


def test_a_run_with_something_against_it_does_not_count() -> None:
    """Who stood there without being cleared does not come back into practice by it."""
    scribe = cleared()
    for day in THREE:
        closes(scribe, day, ran(), wrong=({"cook": "ada", "station": "cold_side", "state": "lapsed", "reason": "x"},))
    assert found(scribe, DUE).state == "lapsed"


def test_a_shift_signed_and_closed_counts_once() -> None:
    """The same service, once by an assessor's signature and once by its closing, is one shift."""
    scribe = cleared()
    for day in THREE[:2]:
        scribe.works("ada", "cold_side", day)
        closes(scribe, day, ran())
    assert found(scribe, DUE).state == "cleared"  # two supervised ones within 30 days bring somebody back
    scribe = cleared()
    scribe.works("ada", "cold_side", THREE[0])
    for day in THREE[:2]:
        closes(scribe, day, ran())
    assert found(scribe, DUE).state == "lapsed"


def test_services_closed_bring_nobody_back() -> None:
    """Out of practice, two services run within 30 days are no supervised shifts."""
    scribe = cleared()
    for day in (D(2026, 7, 1), D(2026, 7, 2)):
        closes(scribe, day, ran())
    assert found(scribe, D(2026, 7, 3)).state == "lapsed"


def as_known(scribe: Scribe, on: date, known: date) -> Clearance:
    """Return Ada's clearance on a day by what was known on another."""
    station = scribe.content.stations["cold_side"]
    return clearance_of(scribe.people["ada"], station, scribe.progress(), scribe.content, AsKnown(on, known))


def test_a_service_nobody_closed_counts_as_planned_after_24_hours() -> None:
    """Dinner ends at 23:00, so that of 4 June counts by the end of the 5th, and the cell says how many are not sure."""
    scribe = cleared()
    for day in THREE[:2]:
        closes(scribe, day, ran())
    plans(scribe, D(2026, 6, 1), [D(2026, 6, 3)])
    assert found(scribe, DUE).is_cleared
    assert as_known(scribe, DUE, DUE).is_cleared
    assert not as_known(scribe, DUE, D(2026, 6, 3)).is_cleared
    text = next(english(held.text) for held in found(scribe, DUE).held if "In practice" in english(held.text))
    assert text == "In practice: 3 shifts in 90 days. Planned and not confirmed: 1 of them."


def test_a_service_that_ends_after_midnight_counts_a_day_later() -> None:
    """From 17:00 to 00:30: it ends on the 4th, and 24 hours later it is the 5th."""
    scribe = cleared()
    for day in THREE[:2]:
        closes(scribe, day, ran())
    hours = {"service": "dinner", "opens": "17:00", "closes": "00:30", "guests": 80, "needs": []}
    wednesday = {"weekday": 3, **hours}  # 3 June 2026 is a Wednesday
    scribe.write("services_set", THE_BOOK, THREE[2], {"since": "2026-05-15", "weekly": [wednesday], "days": []})
    plans(scribe, D(2026, 6, 1), [D(2026, 6, 3)])
    assert not as_known(scribe, DUE, D(2026, 6, 4)).is_cleared
    assert as_known(scribe, DUE, D(2026, 6, 5)).is_cleared


@pytest.mark.parametrize("line", [{"as": "trails"}, {"despite": True}, {"cook": "bo"}, {"station": "grill"}])
def test_what_was_planned_otherwise_does_not_count(line: dict[str, Any]) -> None:
    """Not a trail, not a place taken despite what was missing, not somebody else's."""
    scribe = cleared()
    closes(scribe, THREE[0], ran())  # the book tells of shifts, so that practice is asked
    plans(scribe, D(2026, 5, 1), THREE, **line)
    assert found(scribe, DUE).state == "lapsed"


def test_a_closing_takes_the_place_of_the_plan() -> None:
    """Planned three times; twice somebody else stood."""
    scribe = cleared()
    plans(scribe, D(2026, 5, 1), THREE)
    assert found(scribe, DUE).is_cleared
    for day in THREE[:2]:
        closes(scribe, day, ran(cook="bo"))
    assert found(scribe, DUE).state == "lapsed"


def test_a_later_plan_takes_the_place_of_the_earlier_and_a_void_gives_it_back() -> None:
    """The last plan of a day says who was on."""
    scribe = cleared()
    plans(scribe, D(2026, 5, 1), THREE)
    later = plans(scribe, D(2026, 5, 1), THREE, cook="bo")
    assert found(scribe, DUE).state == "lapsed"
    scribe.write("entry_voided", THE_BOOK, D(2026, 5, 20), {"entry": later, "reason": "x", "counts": "never"})
    assert found(scribe, DUE).is_cleared


def test_the_last_closing_of_a_service_counts() -> None:
    """One that was voided and closed again is as it was closed last."""
    scribe = cleared()
    for day in THREE:
        first = closes(scribe, day, ran(cook="bo"))
        scribe.write("entry_voided", THE_BOOK, day, {"entry": first, "reason": "x"})
        closes(scribe, day, ran())
    assert found(scribe, DUE).is_cleared


def test_practice_is_asked_from_the_first_service_closed() -> None:
    """A book that tells of no shift asks nobody; from 90 days after the first service closed it does."""
    scribe = Scribe(content=small_content(cold_side={"practice": ASKED}))
    scribe.joins("ada", D(2026, 3, 5))
    scribe.clears_for_cold_side("ada", D(2026, 3, 5))
    assert scribe.clearance("ada", "cold_side", D(2026, 12, 1)).is_cleared
    closes(scribe, D(2026, 3, 10), ran(cook="bo"))
    assert scribe.clearance("ada", "cold_side", D(2026, 6, 7)).is_cleared  # 10 March and 90 days is 8 June
    assert not scribe.clearance("ada", "cold_side", D(2026, 6, 8)).is_cleared


DAY = D(2026, 3, 2)
STATES = {
    ("ada", "grill"): "cleared",
    ("ada", "saute"): "due again",
    ("bo", "grill"): "studying",
    ("cy", "grill"): "not allowed",
}


def at(cook: str, station: str, *, runs: bool = True) -> Place:
    """Return a place at dinner."""
    return Place(DAY, "dinner", cook, station, runs)


def against(*stood: Place, needs: tuple[Need, ...] | None = ()) -> list[tuple[str, str, str]]:
    """Return what speaks against some places."""
    states = disparities(stood, lambda cook, station: STATES.get((cook, station), "not on the board"), needs)
    return [one[:3] for one in states]


def test_what_speaks_against_a_place() -> None:
    """Uncleared, barred, gone; who trails need not be cleared, but may not be barred."""
    assert against(at("ada", "grill")) == []
    assert against(at("bo", "grill")) == [("bo", "grill", "studying")]
    assert against(at("bo", "grill", runs=False)) == []
    assert against(at("cy", "grill", runs=False)) == [("cy", "grill", "not allowed")]
    assert against(at("dot", "grill", runs=False)) == [("dot", "grill", "not on the board")]
    assert against(at("ada", "grill"), needs=None) == [("", "", "no service")]


def test_two_stations_need_a_need_that_joins_them() -> None:
    """One hand for grill and sauté together lets a cook hold both; two hands, one each, do not."""
    both = (at("ada", "grill"), at("ada", "saute"))
    assert against(*both) == [("ada", "saute", "two stations")]
    assert against(*both, needs=(Need(("grill",), 1), Need(("saute",), 1))) == [("ada", "saute", "two stations")]
    assert against(*both, needs=(Need(("grill", "saute"), 1),)) == []
    assert against(at("ada", "grill"), at("ada", "saute", runs=False)) == []


LINE = {"weekday": 2, "service": "dinner", "opens": "17:00", "closes": "23:00", "guests": 80, "needs": []}
NEED = {"stations": ["grill"], "hands": 1}


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ([], "The services are an object with “since”, “weekly” and “days”."),
        ({"since": "3 March"}, "since: “3 March” is no day. Write year, month, day, like 2026-11-03."),
        ({"until": 1}, "services: “until” is not known. Known: days, since, weekly."),
        ({"weekly": [LINE | {"weekday": 0}]}, "weekly[0].weekday: “0”. Monday is 1, Sunday 7."),
        ({"weekly": [LINE | {"weekday": True}]}, "weekly[0].weekday: “True”. Monday is 1, Sunday 7."),
        (
            {"weekly": [LINE | {"service": "brunch"}]},
            "weekly[0].service: “brunch”. There are: breakfast, lunch, dinner.",
        ),
        ({"weekly": [LINE | {"opens": "25:00"}]}, "weekly[0].opens: “25:00” is no time. Write it like 17:30."),
        ({"weekly": [LINE | {"guests": -1}]}, "weekly[0].guests: “-1”. A whole number up to 10000."),
        ({"weekly": [LINE, LINE]}, "weekly[1]: “2 dinner” stands there twice."),
        (
            {"weekly": [LINE | {"needs": [NEED | {"stations": []}]}]},
            "weekly[0].needs[0]: a list of “stations” and “hands”.",
        ),
        (
            {"weekly": [LINE | {"needs": [NEED | {"stations": ["fry"]}]}]},
            "weekly[0].needs[0]: there is no station “fry”. There are: grill, saute.",
        ),
        (
            {"weekly": [LINE | {"needs": [NEED | {"hands": 0}]}]},
            "weekly[0].needs[0].hands: “0”. A whole number from 1 to 100.",
        ),
        (
            {"days": [{"day": "2026-03-03", "service": "dinner"}]},
            "days[0]: a day has either “closed” true or its own “needs”.",
        ),
        (
            {"weekly": [LINE | {"closes": "16:00"}]},
            "weekly[0]: It opens at 17:00 and would close at 16:00. One that goes on past midnight closes by 04:00.",
        ),
        (
            {"weekly": [LINE, LINE | {"service": "lunch", "opens": "12:00", "closes": "17:01"}]},
            "weekly[1]: dinner, 17:00 to 23:00, and lunch, 12:00 to 17:01, overlap. One closes before the next opens.",
        ),
    ],
)
def test_what_is_typed_wrong_is_named_with_its_rule(told: Any, words: str) -> None:
    """Where it stands, the value, what is asked."""
    whole = {"since": "2026-03-02", "weekly": [], "days": [], **told} if isinstance(told, dict) else told
    assert english(wrong_week(whole, ["grill", "saute"], THE_THREE)) == words


def test_one_service_ends_as_the_next_begins() -> None:
    """A minute past midnight of Sunday is Monday's, and a shift across midnight is no mistake (common practice)."""
    late = LINE | {"weekday": 7, "closes": "04:00"}
    early = LINE | {"weekday": 1, "service": "breakfast", "opens": "04:00", "closes": "11:00"}
    told = {"since": f"{DAY}", "weekly": [late, early], "days": []}
    assert not wrong_week(told, [], THE_THREE)
    told["weekly"] = [late, early | {"opens": "03:59"}]
    assert "overlap" in english(wrong_week(told, [], THE_THREE))


def test_services_typed_right_are_taken() -> None:
    """A week with a need that joins two stations, and a day closed."""
    joined = {"stations": ["grill", "saute"], "hands": 1}
    closed = {"day": f"{DAY + timedelta(days=1)}", "service": "lunch", "closed": True}
    assert not wrong_week(
        {"since": f"{DAY}", "weekly": [LINE | {"needs": [joined]}], "days": [closed]},
        ["grill", "saute"],
        THE_THREE,
    )
