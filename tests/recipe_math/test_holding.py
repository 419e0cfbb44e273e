"""Clocks of holding count what was seen, and the day of preparation is day one."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from trainer.recipe_math.estimates import in_celsius
from trainer.recipe_math.holding import (
    combined_day,
    date_mark,
)
from trainer.recipe_math.quantity import Quantity, QuantityProblem

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


def fahrenheit(degrees: int) -> float:
    return in_celsius(Quantity.of(degrees, "°F"))


def test_the_day_of_preparation_is_day_one() -> None:
    """FDA Food Code 2022, section 3-501.17(A) to (B): 7 days, so the last day is preparation and 6."""
    mark = date_mark(date(2026, 10, 28), 7)
    assert (mark.last_day, mark.days_frozen) == (date(2026, 11, 3), 0)


def test_one_day_is_the_day_itself() -> None:
    """A house rule of one day."""
    assert date_mark(date(2026, 3, 2), 1).last_day == date(2026, 3, 2)


def test_days_in_the_freezer_do_not_count_but_both_ends_do() -> None:
    """FDA Food Code 2022, section 3-501.18(A)(1): frozen time does not count. In on day 3, out 9 days on: 8 pause."""
    mark = date_mark(date(2026, 3, 2), 7, [(date(2026, 3, 4), date(2026, 3, 13))])
    assert (mark.last_day, mark.days_frozen) == (date(2026, 3, 16), 8)
    kept = [date(2026, 3, day) for day in (2, 3, 4, 13, 14, 15, 16)]
    assert len(kept) == 7
    assert kept[-1] == mark.last_day


def test_in_and_out_on_one_day_pauses_nothing() -> None:
    """Nor does overnight: both days had time outside the freezer."""
    assert date_mark(date(2026, 3, 2), 7, [(date(2026, 3, 4), date(2026, 3, 4))]).days_frozen == 0
    assert date_mark(date(2026, 3, 2), 7, [(date(2026, 3, 4), date(2026, 3, 5))]).days_frozen == 0


def test_two_times_in_the_freezer_add_up() -> None:
    """In any order given: 3 and 1 days pause."""
    spans = [(date(2026, 3, 10), date(2026, 3, 12)), (date(2026, 3, 4), date(2026, 3, 8))]
    mark = date_mark(date(2026, 3, 2), 7, spans)
    assert (mark.last_day, mark.days_frozen) == (date(2026, 3, 12), 4)


@pytest.mark.parametrize(
    ("days", "frozen", "rule"),
    [
        (0, [], "no time to keep food"),
        (7, [(date(2026, 3, 1), date(2026, 3, 4))], "does not fit"),
        (7, [(date(2026, 3, 4), date(2026, 3, 3))], "does not fit"),
        (7, [(date(2026, 3, 3), date(2026, 3, 6)), (date(2026, 3, 5), date(2026, 3, 8))], "does not fit"),
        (7, [(date(2026, 3, 9), date(2026, 4, 9))], "was over"),
    ],
)
def test_days_that_do_not_fit_are_refused(days: int, frozen: list[tuple[date, date]], rule: str) -> None:
    """Freezing on the day after the last brings nothing back."""
    with pytest.raises(QuantityProblem, match=rule):
        date_mark(date(2026, 3, 2), days, frozen)


def test_food_put_together_keeps_the_first_day() -> None:
    """FDA Food Code 2022, section 3-501.17(D)(3), from memory: the part prepared first."""
    assert combined_day([date(2026, 3, 4), date(2026, 3, 2), date(2026, 3, 3)]) == date(2026, 3, 2)
    with pytest.raises(QuantityProblem, match="at least one"):
        combined_day([])
