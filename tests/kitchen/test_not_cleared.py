"""The share of services run by somebody not cleared: counts, the interval from 30 services on, the house's limit."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest

from trainer.kitchen.nights import Disparity, Place, ServiceStood
from trainer.kitchen.not_cleared import NotCleared, run_not_cleared

TODAY = date(2026, 11, 3)


def service(on: date, state: str = "", *, runs: bool = True) -> ServiceStood:
    """Return a service at which Ana stood at the grill; *state* is what spoke against that."""
    stood = (Place(on, "dinner", "ana", "grill", runs), Place(on, "dinner", "bo", "fry", runs=True))
    against = (Disparity("ana", "grill", state, "A full house."),) if state else ()
    return ServiceStood("e", 1, on, "cleo", "dinner", False, stood, against, 80)


def test_only_who_ran_a_station_and_was_not_cleared_counts() -> None:
    """Five services, two of them: one in training, one whose clearance had lapsed. Who trailed, or held two, may."""
    nights = [
        service(TODAY),
        service(TODAY, "studying"),
        service(TODAY, "lapsed"),
        service(TODAY, "stood down", runs=False),
        service(TODAY, "two stations"),
    ]
    assert run_not_cleared(nights, TODAY) == NotCleared(2, 5)


def test_ninety_days_count() -> None:
    """5 August is the 91st day back from 3 November, 6 August the 90th (counted on a calendar); no day to come does."""
    days = [date(2026, 8, 5), date(2026, 8, 6), TODAY, TODAY + timedelta(days=1)]
    assert run_not_cleared([service(day, "lapsed") for day in days], TODAY) == NotCleared(2, 2)


@pytest.mark.parametrize(
    ("number", "services", "low", "high"), [(15, 148, "0.0624", "0.1605"), (81, 263, "0.2553", "0.3662")]
)
def test_the_interval_is_the_published_one(number: int, services: int, low: str, high: str) -> None:
    """Newcombe (1998), Statistics in Medicine 17:857-872, method 3, 95 percent (from memory)."""
    found = NotCleared(number, services).likely
    assert abs(found.low - Fraction(low)) <= Fraction("0.00006")
    assert abs(found.high - Fraction(high)) <= Fraction("0.00006")


@pytest.mark.parametrize(
    ("number", "services", "limit", "is_above"),
    [
        (3, 30, 10, False),
        (4, 30, 10, True),
        (10, 99, 10, True),
        (29, 29, 10, False),
        (4, 30, 14, False),
        (1, 30, 3, True),
    ],
)
def test_the_limit_counts_from_thirty_services_on(number: int, services: int, limit: int, is_above: bool) -> None:
    """By hand: 3 in 30 is ten in 100 itself, 4 in 30 (13.3) above it and below 14, 10 in 99 above by a hair, 1 in 30
    (3.3) above 3; 29 services are too few.
    """
    assert NotCleared(number, services).is_above(limit) is is_above
