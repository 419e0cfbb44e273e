"""What a sous chef may read of the kitchen, and only read: the board, why a cell says so, people, stations."""

from __future__ import annotations

import pytest

from tests.web.hands import Hands
from tests.web.kitchen_people import clear, sign, study, write
from tests.web.test_night import plan
from trainer.actions.open_kitchen import Kitchen

READ_ONLY = ("/board", "/board/dev/pasta_room", "/board/ana/saute", "/cooks", "/cooks/dev", "/cooks/ana", "/stations")


@pytest.fixture
def at_work(kitchen: Kitchen) -> Kitchen:
    """Return a kitchen with somebody cleared, somebody off a station, somebody stopped, and a plan for today."""
    clear(kitchen, "bo")
    study(kitchen, "dev")
    sign(kitchen, "dev", by="bo")
    study(kitchen, "ana")
    write(kitchen, "stood_down", "dev", {"station": "pasta_room", "reason": "Guard left open."}, by="cleo", days=1)
    stopped = {"technique": "sauce", "edition": 1, "station": "saute", "points": [], "verdict": "stopped"}
    write(kitchen, "practical_watched", "ana", {**stopped, "reasons": [], "note": ""}, by="bo", days=2)
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "saute"))
    return kitchen


@pytest.mark.parametrize("path", READ_ONLY)
def test_a_sous_chef_reads_what_the_manager_reads(bo: Hands, ana: Hands, at_work: Kitchen, path: str) -> None:
    """The page opens for an assessor, and not for a cook."""
    assert at_work
    assert bo.open(path).status == 200
    assert ana.open(path).status == 403


@pytest.mark.parametrize("path", READ_ONLY)
def test_no_link_leads_a_sous_chef_to_a_closed_door(bo: Hands, at_work: Kitchen, path: str) -> None:
    """Every link in the work of such a page is a page the reader may open: what only a manager does is not offered."""
    assert at_work
    page = bo.open(path)
    links = {str(one["href"]) for one in page.soup.select("main a[href^='/']")}
    assert {link: status for link in links if (status := bo.client.get(link).status_code) == 403} == {}


def test_the_board_is_one_press_from_the_desk(bo: Hands) -> None:
    """It stands in the header of every page."""
    assert bo.open("/ready").link("Board") == "/board"
