"""The coming nights tell a manager how many closed services were run by somebody not cleared."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.web.conftest import NOON
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import THE_BOOK, NewEntry

LIMIT = "Of 100 services, how many may be run by somebody not cleared"


def close_nights(k: Kitchen, number: int, uncleared: int) -> None:
    """Write so many closed dinners, one a day, with somebody in training at a station at the first of them."""
    stood = [{"cook": "ana", "station": "pasta_room", "as": "runs"}]
    against = [{"cook": "ana", "station": "pasta_room", "state": "studying", "reason": "A full house."}]
    for day in range(number):
        body = {"service": "dinner", "as_planned": False, "stood": stood, "guests": 64, "proof": None}
        found = against if day < uncleared else []
        on = (NOON - timedelta(days=day + 1)).date()
        deed = NewEntry("service_stood", NOON, THE_BOOK, "cleo", {**body, "disparities": found}, f"close-{day}", on)
        k.file.book.append(deed)


@pytest.mark.parametrize(
    ("number", "uncleared", "told"),
    [
        (0, 0, ""),
        (12, 2, "run by somebody not cleared: 2. Too few to say more: 12 of 30 services."),
        (30, 2, "Of 100 services, between 2 and 21 would be. The house's limit is 10 in 100."),
        (30, 15, "Of 100 services, between 33 and 67 would be. That is above the house's limit of 10 in 100"),
    ],
)
def test_the_share_is_told_from_thirty_services_on(
    kitchen: Kitchen, cleo: Hands, number: int, uncleared: int, told: str
) -> None:
    """Wilson at 95 percent, by hand with z 1.96: 2 of 30 is 1.8 to 21.3 in 100, 15 of 30 is 33.2 to 66.8."""
    close_nights(kitchen, number, uncleared)
    page = cleo.open("/nights")
    assert told in page.work
    assert ("run by somebody not cleared" in page.work) == bool(number)
    is_alarm = any("above the house's limit" in one.get_text() for one in page.soup.select("main b"))
    assert is_alarm == (uncleared == 15)


def test_the_limit_is_the_houses_own(kitchen: Kitchen, cleo: Hands) -> None:
    """11 of 30 (36.7 in 100) is above 10 and not above 40; a manager sets it, and the change is shown first."""
    close_nights(kitchen, 30, 11)
    assert "above the house's limit of 10 in 100" in cleo.open("/nights").work
    cleo.open("/settings")
    for typed, problem in (("51", "51 in 100 is not 1 to 50."), ("many", "“many” is not a whole number.")):
        page = cleo.press("Show what changes", {LIMIT: typed}, language="en", units_first="us", decimal_mark=".")
        assert page.problems[0].startswith(problem)
        assert page.field(LIMIT)["value"] == typed
    page = cleo.press("Show what changes", {LIMIT: "40"}, language="en", units_first="us", decimal_mark=".")
    assert "of 100: 10 → 40." in page.work
    cleo.press("Save this change", language="en", units_first="us", decimal_mark=".")
    assert kitchen.file.book.of_kind("kitchen_set")[-1].body["not_cleared_in_100"] == 40
    page = cleo.open("/nights")
    assert "The house's limit is 40 in 100." in page.work
    assert "above the house's limit" not in page.work
