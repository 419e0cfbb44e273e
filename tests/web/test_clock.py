"""A clock nobody can believe, on the pages: a band says so, and somebody who may types today's date."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import write
from trainer.actions.open_kitchen import Kitchen


@pytest.fixture
def jumped(kitchen: Kitchen, clock: Clock) -> None:
    """Let the clock be set two hours ahead on a machine that just started."""
    write(kitchen, "technique_read", "dev", {"technique": "nests", "edition": 1}, days=0)
    kitchen.keep_time(clock, lambda: 0.0)
    clock.pass_by(hours=2)


SET = "This machine's clock was set ahead by 2 hours while the program ran."


@pytest.mark.usefixtures("jumped")
def test_a_cook_is_told_whom_to_ask(sign_in: Callable[[str], Hands]) -> None:
    """On every page, before anything is filled in; the page with the date is not for them."""
    ana = sign_in("ana")
    page = ana.open("/rail")
    assert SET in page.work
    assert "A manager or an assessor types today's date" in page.work
    assert ana.open("/clock").status == 403


@pytest.mark.usefixtures("jumped")
@pytest.mark.parametrize("person", ["bo", "cleo"])
def test_an_assessor_and_a_manager_type_the_date(sign_in: Callable[[str], Hands], person: str) -> None:
    """The page shows the time and never the date; then the band is gone and acts are saved."""
    hands = sign_in(person)
    hands.open("/bench")
    hands.follow("Type today's date")
    assert "It shows 14:00 in the kitchen." in hands.page.work
    assert "Nov" not in hands.page.work
    assert hands.press("The clock is right", {"Today's date": "2026-11-03"}).path != "/clock"
    assert SET not in hands.open("/bench").work


@pytest.mark.usefixtures("jumped")
def test_another_date_and_none_are_refused_where_they_are_typed(sign_in: Callable[[str], Hands]) -> None:
    """What was typed stays."""
    cleo = sign_in("cleo")
    cleo.open("/clock")
    page = cleo.press("The clock is right", {"Today's date": "2026-11-02"})
    assert page.problems == [
        "This machine's clock says 3 November 2026, not 2 November 2026. "
        "Set the clock right, or mend the date; then send it again."
    ]
    assert page.field("Today's date")["value"] == "2026-11-02"
    assert cleo.press("The clock is right", {"Today's date": "3.11."}).problems == [
        "“3.11.” is not a day. Write year, month, day, like 2026-11-03."
    ]
    assert cleo.press("The clock is right", {"Today's date": ""}).problems == ["Type today's date."]


def test_a_clock_behind_cannot_be_talked_right(cleo: Hands, clock: Clock) -> None:
    """It is set right on the machine."""
    clock.pass_by(days=-200)
    page = cleo.open("/clock")
    assert "Set the clock right" in page.work
    assert not page.soup.find("form", id="clock")


def test_a_kitchen_whose_clock_runs_well_shows_no_band(cleo: Hands) -> None:
    """And the page says that nothing is wrong."""
    assert "clock" not in cleo.open("/cooks").work
    assert "Nothing is wrong with this machine's clock." in cleo.open("/clock").work
