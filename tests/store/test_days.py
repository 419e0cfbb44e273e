"""Which day it is in the kitchen when an entry is written."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from trainer.store.identity import day_in


@pytest.mark.parametrize(
    ("at", "day"),
    [
        (datetime(2026, 3, 9, 3, 30, tzinfo=UTC), date(2026, 3, 8)),
        (datetime(2026, 3, 9, 4, 0, tzinfo=UTC), date(2026, 3, 9)),
        (datetime(2026, 3, 8, 4, 59, tzinfo=UTC), date(2026, 3, 7)),
        (datetime(2026, 11, 1, 3, 59, tzinfo=UTC), date(2026, 10, 31)),
        (datetime(2026, 11, 1, 4, 59, tzinfo=UTC), date(2026, 11, 1)),
    ],
)
def test_days_are_the_kitchens_own(at: datetime, day: date) -> None:
    """03:30 UTC is still the day before in New York on the nights the clocks change in 2026 (tz database)."""
    assert day_in("America/New_York", at) == day
