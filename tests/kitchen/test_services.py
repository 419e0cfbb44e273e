"""The services of a day: one list, and which of them the wall shows at an hour."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from itertools import pairwise

import pytest

from trainer.kitchen.services import STANDARD, THE_THREE, day_served

DAY = date(2026, 3, 3)
TO_THREE, TO_ELEVEN = datetime.combine(DAY, time(15)), datetime.combine(DAY, time(23))


def test_the_services_stand_in_one_list() -> None:
    """Every id has one entry, in the sequence of the day, and none runs into the next."""
    assert THE_THREE.ids == ("breakfast", "lunch", "dinner")
    assert all(one.opens < one.closes for one in STANDARD)
    assert all(one.closes <= other.opens for one, other in pairwise(STANDARD))


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
    found = THE_THREE.at({"dinner": TO_ELEVEN, "lunch": TO_THREE}, datetime.combine(DAY, at))
    assert found
    assert found.id == shown


def test_a_day_shows_only_what_it_holds() -> None:
    """At lunch time of a day with dinner alone, dinner is next; a day with nothing planned has none."""
    found = THE_THREE.at({"dinner": TO_ELEVEN}, datetime.combine(DAY, time(12)))
    assert found
    assert found.id == "dinner"
    assert THE_THREE.at({}, TO_THREE) is None
    assert [one.id for one in THE_THREE.among(["dinner", "breakfast", "tea"])] == ["breakfast", "dinner"]


@pytest.mark.parametrize(("day", "hour", "served"), [(3, 0, 2), (3, 3, 2), (3, 4, 3), (3, 23, 3), (1, 1, 28)])
def test_the_night_belongs_to_the_day_before(day: int, hour: int, served: int) -> None:
    """No service begins before four in the morning, so what was worked by then is of the day before."""
    assert day_served(datetime(2026, 3, day, hour, 59 if hour == 3 else 0, tzinfo=UTC)).day == served
