"""A station's coming 90 days: the count of each day, what is thin or too few, and what turns it."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content, with_technique
from trainer.kitchen.clearance import clearance_of
from trainer.kitchen.coming_days import ClearedDays, Stretch, Strip, cleared_days, coming, need_at, strip_of
from trainer.kitchen.record import AsKnown
from trainer.kitchen.spans import Span
from trainer.kitchen.technique import Edition, Practice

D = date
TODAY = D(2027, 2, 1)


def cleared(scribe: Scribe, station: str) -> list[ClearedDays]:
    """Return when each cook is cleared at a station."""
    place, progress = scribe.content.stations[station], scribe.progress()
    people = scribe.people.values()
    return [cleared_days(who, (place,), progress, scribe.content, coming(TODAY))[station] for who in people]


def strip(scribe: Scribe, station: str = "cold_side", today: date = TODAY) -> Strip:
    """Return a station's strip."""
    need = need_at(station, scribe.progress().nights, today)
    return strip_of(station, cleared(scribe, station), need, coming(today))


def counted(found: Strip) -> list[tuple[date, int, str]]:
    """Return from which day how many are cleared, and what that is."""
    return [(one.since, one.cleared, one.level) for one in found.stretches]


def turns(found: Strip) -> list[tuple[date, str, bool, list[str]]]:
    """Return the turns, with what was or is missing."""
    return [(one.on, one.cook, one.is_gain, [r.what for r in one.missing]) for one in found.turns]


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe whose cooks were cleared on the cold side on 2 March and 20 April 2026, for twelve months."""
    scribe = Scribe()
    for cook, signed in (("ada", D(2026, 3, 2)), ("ben", D(2026, 4, 20))):
        scribe.joins(cook)
        scribe.clears_for_cold_side(cook, signed)
    return scribe


def test_a_sign_off_of_twelve_months_ends_on_its_day_and_the_next_has_one_less(scribe: Scribe) -> None:
    """2 March 2026 counts to 2 March 2027; with one hand needed, two are enough, one is thin, none too few."""
    found = strip(scribe)
    assert counted(found) == [(TODAY, 2, "enough"), (D(2027, 3, 3), 1, "thin"), (D(2027, 4, 21), 0, "short")]
    assert turns(found) == [
        (D(2027, 3, 3), "ada", False, ["practical:cold_sauces"]),
        (D(2027, 4, 21), "ben", False, ["practical:cold_sauces"]),
    ]


def test_a_strip_is_ninety_days_without_a_gap(scribe: Scribe) -> None:
    """1 February 2027 and 89 days more end on 1 May (counted on a calendar: 28 + 31 + 30 days, and one)."""
    found = strip(scribe)
    assert (found.stretches[0].since, found.stretches[-1].until) == (TODAY, D(2027, 5, 1))
    assert all(one.until + timedelta(days=1) == following.since for one, following in pairwise(found.stretches))


def test_a_birthday_brings_a_hand(scribe: Scribe) -> None:
    """Born on 10 March 2009: 18 on 10 March 2027, and not a day before (29 CFR 570.62 asks for 18 years)."""
    scribe.content = small_content(cold_side={"minimum_age": 18})
    scribe.joins("kim", born=D(2009, 3, 10))
    scribe.clears_for_cold_side("kim", D(2026, 12, 1))
    assert turns(strip(scribe))[1] == (D(2027, 3, 10), "kim", True, ["age"])
    assert counted(strip(scribe))[1:3] == [(D(2027, 3, 3), 1, "thin"), (D(2027, 3, 10), 2, "enough")]


def test_a_void_known_today_takes_a_sign_off_out_of_all_days(scribe: Scribe) -> None:
    """What was voided counts on no day of the strip."""
    sign_off = next(e.id for e in scribe.entries if e.cook == "ada" and e.kind == "practical_watched")
    scribe.voids(sign_off, TODAY)
    assert counted(strip(scribe))[0] == (TODAY, 1, "thin")


def needs(hands: int, day: str = "") -> dict[str, object]:
    """Return services of the house: dinner on Mondays with so many hands, or so many on one day alone."""
    hours = {"weekday": 1, "service": "dinner", "opens": "18:00", "closes": "23:00", "guests": 80}
    told = [{"stations": ["cold_side"], "hands": hands}]
    days = [{"day": day, "service": "dinner", "needs": told}] if day else []
    weekly = [{**hours, "needs": [{"stations": ["cold_side"], "hands": 1}] if day else told}]
    return {"since": "2026-01-01", "weekly": weekly, "days": days}


def test_what_the_house_needs_decides_what_is_thin(scribe: Scribe) -> None:
    """Two hands needed: two cleared are thin, one is too few."""
    scribe.write("services_set", "kitchen", D(2026, 2, 1), needs(2))
    assert counted(strip(scribe))[:2] == [(TODAY, 2, "thin"), (D(2027, 3, 3), 1, "short")]


def test_a_day_that_needs_more_is_a_stretch_of_its_own(scribe: Scribe) -> None:
    """A feast with three hands on 14 February is too few for that day alone."""
    scribe.write("services_set", "kitchen", D(2026, 2, 1), needs(3, "2027-02-14"))
    feast = next(one for one in strip(scribe).stretches if one.level == "short")
    assert feast == Stretch(D(2027, 2, 14), D(2027, 2, 14), 2, 3)


@pytest.mark.parametrize("station", ["cold_side", "grill", "pasta_room"])
def test_each_day_counts_as_the_clearances_of_that_day_do(station: str) -> None:
    """Asked day by day by what was known today, as many are cleared: with papers, an edition to come, and practice."""
    scribe = Scribe()
    practice = Practice(shifts=2, days=40, return_shifts=1, return_days=30)
    scribe.content = small_content(cold_side={"practice": practice}, grill={"minimum_age": 18})
    first = scribe.content.techniques["pasta_nesting"].editions[0]
    editions = (first, Edition(2, D(2027, 3, 20), "", sign_offs_hold=False))
    scribe.content = with_technique(scribe.content, "pasta_nesting", editions=editions)
    for number in range(6):
        cook = f"cook{number}"
        scribe.joins(cook, born=D(2009, 1, 28) + timedelta(days=9 * number))
        begun = D(2026, 2, 20) + timedelta(days=17 * number)
        scribe.clears_for_cold_side(cook, begun)
        scribe.clears_for_pasta_room(cook, begun, expires=D(2027, 2, 5) + timedelta(days=11 * number))
        scribe.shows(cook, "first_aid", begun, begun, D(2027, 4, 20) - timedelta(days=13 * number))
        for back in range(number):
            day = TODAY - timedelta(days=30 - 4 * back)
            scribe.works(cook, "cold_side", day)
    progress, place = scribe.progress(), scribe.content.stations[station]
    for one in strip(scribe, station).stretches:
        for number in range((one.until - one.since).days + 1):
            known = AsKnown(one.since + timedelta(days=number), TODAY)
            people = scribe.people.values()
            states = [clearance_of(who, place, progress, scribe.content, known).is_cleared for who in people]
            assert sum(states) == one.cleared, known


def test_runs_that_touch_are_one() -> None:
    """A clearance that goes on over a change of the rules turns on no day."""
    days = coming(TODAY)
    found = strip_of("grill", [ClearedDays((Span(TODAY, days.until),), ())], lambda _: 1, days)
    assert found == Strip("grill", (Stretch(TODAY, days.until, 1, 1),), ())
