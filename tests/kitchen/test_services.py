"""The services of a day: one list, and which of them the wall shows at an hour."""

from __future__ import annotations

from datetime import time
from itertools import pairwise
from typing import get_args

import pytest

from trainer.kitchen.services import SERVICE_IDS, SERVICES, ServiceId, service_at, services_in


def test_the_services_stand_in_one_list() -> None:
    """Every id has one entry, in the sequence of the day, and none runs into the next."""
    assert get_args(ServiceId) == SERVICE_IDS
    assert all(one.opens < one.closes for one in SERVICES)
    assert all(one.closes <= other.opens for one, other in pairwise(SERVICES))


@pytest.mark.parametrize(
    ("at", "shown"),
    [
        (time(9), "lunch"),
        (time(11), "lunch"),
        (time(14, 59), "lunch"),
        (time(15), "dinner"),
        (time(17), "dinner"),
        (time(23, 30), "dinner"),
    ],
)
def test_the_service_that_runs_or_the_next(at: time, shown: str) -> None:
    """Lunch ends at three and dinner is next; the day's last one stays until the day ends."""
    found = service_at(["dinner", "lunch"], at)
    assert found
    assert found.id == shown


def test_a_day_shows_only_what_it_holds() -> None:
    """At lunch time of a day with dinner alone, dinner is next; a day with nothing planned has none."""
    found = service_at(["dinner"], time(12))
    assert found
    assert found.id == "dinner"
    assert service_at([], time(12)) is None
    assert [one.id for one in services_in(["dinner", "breakfast", "tea"])] == ["breakfast", "dinner"]
