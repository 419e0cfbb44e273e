"""Practice: how often a station is worked to stay cleared, when it is asked, and how somebody comes back.

That a licence is kept by shifts worked and brought back by shifts beside somebody: 10 CFR 55.53(e) and (f). The numbers
are the house's own, and the days here are counted on a calendar.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content
from tests.printed import english
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.next_acts import next_acts
from trainer.kitchen.next_change import next_change
from trainer.kitchen.rules import content_of, rules_of
from trainer.kitchen.technique import Practice, Station

D = date
CLEARED = D(2026, 3, 5)
ASKED = Practice(shifts=3, days=90, return_shifts=2, return_days=30)
"""Three shifts in 90 days; to come back two within 30."""
NO_WAY_BACK = replace(ASKED, return_days=1)
"""The same, and what is worked on two days that follow each other alone brings somebody back."""
LONG_AGO = D(2025, 11, 1)


def cleared(shifts: Iterable[date] = (), *, asked: Practice = ASKED, first_in_the_book: date = LONG_AGO) -> Scribe:
    """Return a scribe whose cook was cleared on the cold side on 5 March 2026 and worked there on these days.

    Somebody else worked the first shift of the book, long enough ago for practice to be asked by then.
    """
    scribe = Scribe(content=small_content(cold_side={"practice": asked, "warn_days": 10}))
    scribe.joins("bo", first_in_the_book)
    scribe.works("bo", "grill", first_in_the_book)
    scribe.joins("ada", CLEARED)
    scribe.clears_for_cold_side("ada", CLEARED)
    for day in shifts:
        scribe.works("ada", "cold_side", day)
    return scribe


def found(scribe: Scribe, on: date, station: str = "cold_side") -> Clearance:
    """Return the clearance on a day."""
    return scribe.clearance("ada", station, on)


def test_who_is_newly_cleared_has_the_days_to_get_into_practice() -> None:
    """90 days after 5 March 2026 is 3 June; the day after, no shift was worked."""
    scribe = cleared()
    assert found(scribe, D(2026, 6, 3)).is_cleared
    late = found(scribe, D(2026, 6, 4))
    assert (late.state, late.until) == ("lapsed", D(2026, 6, 3))
    assert english(late.reason) == "Out of practice from 4 June 2026: 3 shifts in 90 days."
    (act,) = next_acts(late.missing)
    words = "The cook works 2 more shifts beside a cleared cook within 30 days; an assessor writes it down."
    assert english(act.act) == words


def test_the_outlook_says_when_practice_ends_and_when_all_else_would() -> None:
    """The sign-off is good to 5 March 2027; with one shift on 1 May, two more are wanted by 4 June."""
    scribe = cleared([D(2026, 5, 1)])
    seen = found(scribe, D(2026, 5, 2))
    assert (seen.state, seen.until, seen.due) == ("cleared", D(2026, 6, 3), "")
    words = "Cleared to 5 March 2027; out of practice from 4 June 2026 without 2 more shifts."
    assert english(seen.outlook) == words


def test_close_to_its_end_practice_is_due_again_and_says_so() -> None:
    """Ten days of warning before 3 June: from 24 May."""
    scribe = cleared()
    assert found(scribe, D(2026, 5, 23)).state == "cleared"
    near = found(scribe, D(2026, 5, 24))
    assert near.state == "due again"
    assert english(near.due) == "Cleared to 5 March 2027; out of practice from 4 June 2026 without 3 more shifts."


def test_three_shifts_keep_it_for_ninety_days_from_the_first_of_them() -> None:
    """1 May, 10 May, 2 June: the 90 days after 1 May end on 30 July."""
    scribe = cleared([D(2026, 5, 1), D(2026, 5, 10), D(2026, 6, 2)], asked=NO_WAY_BACK)
    assert found(scribe, D(2026, 6, 2)).until == D(2026, 7, 30)
    assert found(scribe, D(2026, 7, 30)).is_cleared
    assert not found(scribe, D(2026, 7, 31)).is_cleared


def test_shifts_at_another_station_keep_no_practice() -> None:
    """Each station for itself."""
    scribe = cleared()
    for day in (1, 2, 3):
        scribe.works("ada", "grill", D(2026, 5, day))
    assert not found(scribe, D(2026, 6, 4)).is_cleared


def test_two_services_of_one_day_are_two_shifts() -> None:
    """Lunch and dinner are worked one by one."""
    scribe = cleared([D(2026, 5, 1)] * 3)
    assert found(scribe, D(2026, 7, 30)).is_cleared


def test_two_supervised_shifts_within_thirty_days_bring_back_who_was_away() -> None:
    """Away from June; 1 and 31 December are 30 days apart: back on the 31st, for 90 days, to 31 March 2027."""
    scribe = cleared([D(2026, 12, 1)])
    scribe.content = small_content(cold_side={"practice": ASKED, "warn_days": 0})
    assert not found(scribe, D(2026, 12, 30)).is_cleared
    scribe.works("ada", "cold_side", D(2026, 12, 31))
    assert found(scribe, D(2026, 12, 31)).until == D(2027, 3, 5)
    scribe.watched("ada", "cold_sauces", D(2027, 1, 4))
    assert found(scribe, D(2027, 1, 4)).until == D(2027, 3, 31)


def test_two_shifts_further_apart_bring_nobody_back() -> None:
    """30 November and 31 December are 31 days apart."""
    scribe = cleared([D(2026, 11, 30), D(2026, 12, 31)])
    assert not found(scribe, D(2026, 12, 31)).is_cleared


def test_a_book_without_a_shift_asks_for_no_practice() -> None:
    """Nothing could be told from it."""
    scribe = Scribe(content=small_content(cold_side={"practice": ASKED}))
    scribe.joins("ada", CLEARED)
    scribe.clears_for_cold_side("ada", CLEARED)
    assert found(scribe, D(2027, 3, 5)).until == D(2027, 3, 5)


def test_practice_is_asked_once_the_book_has_told_of_shifts_for_as_long_as_one_counts() -> None:
    """The first shift on 1 May 2026: 90 days later is 30 July, so on 29 July nobody is out of practice."""
    scribe = cleared(first_in_the_book=D(2026, 5, 1))
    scribe.entries.sort(key=lambda entry: entry.at)
    scribe.entries = [replace(entry, seq=place) for place, entry in enumerate(scribe.entries, 1)]
    assert found(scribe, D(2026, 7, 29)).is_cleared
    assert found(scribe, D(2026, 7, 29)).until == D(2026, 7, 29)
    assert not found(scribe, D(2026, 7, 30)).is_cleared


def test_practice_is_asked_from_the_standard_that_asks_for_it() -> None:
    """Published for 1 July: the days before stay as they were, on that day who has not worked is out of practice."""
    scribe = cleared()
    asked, plain = scribe.content, small_content(cold_side={"warn_days": 10})
    for number, content, since in ((1, plain, D(2025, 10, 1)), (2, asked, D(2026, 7, 1))):
        body = {"number": number, "since": f"{since}", "rules": rules_of(content), "texts": ""}
        scribe.write("standard_published", "mara", D(2026, 3, 6), body)
    assert found(scribe, D(2026, 6, 30)).is_cleared
    assert not found(scribe, D(2026, 7, 1)).is_cleared


def test_who_was_never_cleared_is_not_asked_for_practice() -> None:
    """A new hire reads what is left to learn, and no word of practice."""
    scribe = cleared()
    scribe.joins("eli", CLEARED)
    new = scribe.clearance("eli", "cold_side", D(2027, 1, 1))
    assert (new.state, {missing.what.partition(":")[0] for missing in new.missing}) == (
        "not started",
        {"reading", "practical"},
    )


def test_the_first_day_out_of_practice_is_a_change_to_come() -> None:
    """It is told with its reason."""
    scribe, place = cleared(), "cold_side"
    station = scribe.content.stations[place]
    comes = next_change(scribe.people["ada"], station, scribe.progress(), scribe.content, D(2026, 5, 25))
    assert comes is not None
    assert (comes.on, comes.after) == (D(2026, 6, 4), "lapsed")
    assert english(comes.because) == "Out of practice from 4 June 2026: 3 shifts in 90 days."


def test_a_voided_shift_keeps_no_practice() -> None:
    """As if it had not been worked."""
    scribe = cleared([D(2026, 5, 1), D(2026, 5, 10)], asked=NO_WAY_BACK)
    last = scribe.works("ada", "cold_side", D(2026, 6, 2))
    assert found(scribe, D(2026, 6, 10)).is_cleared
    scribe.voids(last, D(2026, 6, 9))
    assert not found(scribe, D(2026, 6, 10)).is_cleared


def test_no_station_asks_for_practice_unless_it_says_so() -> None:
    """And its rules say nothing of it."""
    assert all(station.practice is None for station in small_content().stations.values())
    assert all("practice" not in station for station in rules_of(small_content())["stations"])


@pytest.mark.parametrize("practice", [None, ASKED])
def test_practice_is_kept_in_the_rules(practice: Practice | None) -> None:
    """It comes back as it was asked."""
    content = small_content(cold_side={"practice": practice})
    kept: Station = content_of(rules_of(content)).stations["cold_side"]
    assert kept.practice == practice


def test_a_shift_on_the_last_day_counts_and_one_a_day_later_comes_too_late() -> None:
    """Three from 1 May are good to 30 July: a fourth on that day keeps the run whole, on 1 August it is broken."""
    shifts, last = [D(2026, 5, 1), D(2026, 5, 10), D(2026, 5, 20)], D(2026, 7, 30)
    on, late = last + timedelta(days=1), last + timedelta(days=2)
    assert found(cleared([*shifts, last], asked=NO_WAY_BACK), on).is_cleared
    assert not found(cleared([*shifts, late], asked=NO_WAY_BACK), on).is_cleared
