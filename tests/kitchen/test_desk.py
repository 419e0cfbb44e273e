"""The desk's facts: who can be watched on this shift, which supervised shifts a plan proposes."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from trainer.kitchen.desk import Proposed, Shift, minutes_of, next_together, proposed_shifts, when_to_watch
from trainer.kitchen.nights import Place
from trainer.kitchen.record import Watched
from trainer.kitchen.standard_cost import MINUTES_A_PRACTICAL

DAY = date(2026, 11, 28)
FIVE, ELEVEN = datetime(2026, 11, 28, 17, 0), datetime(2026, 11, 28, 23, 0)  # noqa: DTZ001 - the kitchen's own clock
DINNER = Shift(FIVE, ELEVEN, frozenset({"ana", "bo"}))


@pytest.mark.parametrize(
    ("minutes_before", "takes", "when"),
    [
        (60, 50, "now"),
        (50, 50, "now"),
        (49, 50, "no time"),
        (-30, 5, "no time"),
        (-359, 5, "no time"),
        (-360, 5, "now"),
    ],
)
def test_time_enough_before_the_service(minutes_before: int, takes: int, when: str) -> None:
    """It ends by the minute the service opens; while that runs nobody is watched; afterwards there is time again."""
    assert when_to_watch("ana", takes, DINNER, FIVE - timedelta(minutes=minutes_before), may=True) == when


def test_who_is_not_on_is_not_watched_now() -> None:
    """And what I may not sign is said first."""
    early = FIVE - timedelta(hours=3)
    assert when_to_watch("eve", 15, DINNER, early, may=True) == "not on"
    assert when_to_watch("eve", 15, DINNER, early, may=False) == "not mine"


def test_with_no_plan_anybody_may_be_watched() -> None:
    """Nothing says who is here, so nothing is in the way."""
    assert when_to_watch("eve", 15, None, FIVE, may=True) == "now"


def test_the_next_service_both_work() -> None:
    """The first that has not opened yet."""
    lunch = Shift(FIVE + timedelta(hours=18), ELEVEN, frozenset({"ana"}))
    later = Shift(FIVE + timedelta(hours=24), ELEVEN, frozenset({"ana", "bo"}))
    assert next_together((DINNER, lunch, later), ("ana", "bo"), FIVE) == later
    assert next_together((DINNER, lunch), ("ana", "bo"), FIVE) is None


def watched(minutes: int, verdict: str = "meets it") -> Watched:
    """Return a practical that took so long."""
    at = datetime(2026, 11, 1, 12, 0, tzinfo=UTC)
    return Watched("e", at, at.date(), "nests", 1, "pasta", verdict, "bo", 1, started=at - timedelta(minutes=minutes))


def test_a_practical_takes_as_long_as_it_took_here() -> None:
    """The median of those timed; with fewer than three, or of others, the usual time."""
    assert minutes_of([watched(30), watched(50), watched(40)], "nests") == 40
    assert minutes_of([watched(30), watched(50)], "nests") == MINUTES_A_PRACTICAL
    assert minutes_of([watched(30), watched(50), watched(40)], "sauce") == MINUTES_A_PRACTICAL


def test_one_left_open_over_night_and_a_stop_tell_nothing() -> None:
    """They are left out of the median."""
    found = [watched(30), watched(50), watched(40), watched(13 * 60), watched(2, "stopped")]
    assert minutes_of(found, "nests") == 40


def place(cook: str, station: str, *, runs: bool = True, beside: str = "") -> Place:
    """Return a place of the dinner."""
    return Place(DAY, "dinner", cook, station, runs, beside)


def test_who_is_not_cleared_worked_beside_somebody_who_is() -> None:
    """Ana trails beside Bo; Cy is cleared at the grill and works no supervised shift; Eve has nobody beside."""
    cleared = {("bo", "pasta"), ("cy", "grill")}
    ana = place("ana", "pasta", runs=False)
    places = (ana, place("bo", "pasta"), place("cy", "grill"), place("eve", "saute", runs=False))
    assert proposed_shifts(places, lambda cook, station: (cook, station) in cleared) == (Proposed(ana, "bo"),)


def test_who_is_named_beside_counts_first_where_cleared() -> None:
    """Named and cleared; else whoever ran the station and is."""
    ana = place("ana", "pasta", runs=False, beside="dev")
    places = (ana, place("bo", "pasta"), place("dev", "pasta"))
    both, one = {("bo", "pasta"), ("dev", "pasta")}, {("bo", "pasta")}
    assert [found.beside for found in proposed_shifts(places, lambda *at: at in both)] == ["dev"]
    assert [found.beside for found in proposed_shifts(places, lambda *at: at in one)] == ["bo", "bo"]
