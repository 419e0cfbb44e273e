"""The lapses page: what ends in 30, 60 and 90 days, in three groupings, and the practical that could be booked."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import clear, study
from trainer.actions.open_kitchen import Kitchen
from trainer.store.shifts import PlannedShift

IN_40_DAYS = 325
"""Days after the sign-off: it is good for twelve months, so 40 of them are left (2026-11-03 and on, no leap day)."""


@pytest.fixture
def manager(kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]) -> Hands:
    """Return Cleo on a day when Ana's practical of the nests has about 40 days left."""
    clear(kitchen, "ana", days=0)
    clear(kitchen, "bo", days=0)
    clock.pass_by(days=IN_40_DAYS)
    study(kitchen, "ana", days=-IN_40_DAYS + 30)
    study(kitchen, "bo", days=-IN_40_DAYS + 30)
    return sign_in("cleo")


def test_what_ends_in_40_days_is_in_60_and_not_in_30(manager: Hands) -> None:
    """The page opens on 30 days; each period says how many it has."""
    page = manager.open("/lapses")
    assert "Nothing ends in the coming 30 days." in page.work
    assert page.link("in 60 days, 2") == "/lapses?days=60&by=person"
    sixty = manager.open("/lapses?days=60")
    assert "2 things end in the coming 60 days, for 2 cooks." in sixty.work
    assert [one.get_text() for one in sixty.soup.select("h2")] == ["Ana Pardo", "Bo Lind"]


@pytest.mark.parametrize(("by", "titles"), [("technique", ["Pasta nesting"]), ("station", ["Pasta room"])])
def test_the_same_by_technique_and_by_station(manager: Hands, by: str, titles: list[str]) -> None:
    """Every line stands under what it belongs to."""
    page = manager.open(f"/lapses?days=60&by={by}")
    assert [one.get_text() for one in page.soup.select("h2")] == titles
    assert len(page.soup.select(".ahead > li")) == 2


def test_a_practical_is_offered_on_a_shift_both_work(manager: Hands, kitchen: Kitchen) -> None:
    """Ana and Bo, who may sign, are on in three days; nobody but Bo may sign, and nobody signs their own."""
    assert "No shift together in the coming 14 days. May sign: Bo Lind." in manager.open("/lapses?days=60").work
    on = (NOON + timedelta(days=IN_40_DAYS + 3)).date()
    kitchen.file.shifts.add([PlannedShift(on, "dinner", who, "pasta_room") for who in ("ana", "bo")])
    page = manager.open("/lapses?days=60")
    assert "before 17:00: Bo Lind is on too and may sign." in page.work
    assert "Nobody may sign it today." in page.work


def test_the_board_leads_to_it_and_a_cook_does_not_see_it(cleo: Hands, ana: Hands) -> None:
    """One press from the board; it is the manager's."""
    assert cleo.open("/board").link("What lapses") == "/lapses"
    assert ana.open("/lapses").status == 403
