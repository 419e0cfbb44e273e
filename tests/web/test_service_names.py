"""The names of the services, as a manager sets them and everybody reads them."""

from __future__ import annotations

import pytest

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands
from tests.web.test_board import TODAY
from tests.web.test_night import plan
from trainer.actions.house_services import change_services
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.planning import PlanWanted, publish_plan, set_services
from trainer.kitchen.own_services import ServiceWanted

ADD = {
    "Name (English)": "Late table",
    "Name (Español)": "Mesa tardía",
    "Usually opens": "22:00",
    "Usually closes": "02:00",
}


@pytest.fixture
def late(kitchen: Kitchen, clock: Clock) -> Kitchen:
    """Return the kitchen with a late table of its own tonight, Bo and Ana planned at it."""
    wanted = ServiceWanted("", (("en", "Late table"), ("es", "Mesa tardía")), "22:00", "02:00")
    change_services(kitchen, by="cleo", changes=[wanted], now=clock(), key="late")
    plan(kitchen, ("late_table", "bo", "pasta_room"), ("late_table", "ana", "pasta_room"))
    publish_plan(kitchen, by="cleo", wanted=PlanWanted(TODAY, TODAY), now=clock(), key="tonight")
    return kitchen


@pytest.fixture
def at_eleven(late: Kitchen, clock: Clock) -> Kitchen:
    """Return it at eleven at night; ask for it before anybody signs in."""
    clock.pass_by(hours=11)
    return late


def test_a_manager_adds_a_service_from_the_services_of_the_week(kitchen: Kitchen, cleo: Hands) -> None:
    """It is on the list, in the day's sequence, and offered where its weekdays are set."""
    cleo.open("/services")
    cleo.follow("Names of the services")
    seen = cleo.press("Save", ADD)
    assert "Saved" in str(seen.soup)
    assert "Late table, usually 22:00 to 02:00" in seen.work
    assert kitchen.services.ids[-1] == "late_table"
    assert "Late table" in [one.get_text() for one in cleo.open("/services").soup.select("#service option")]
    assert "Late table" in [one.get_text() for one in cleo.open("/services/one-day").soup.select("#service option")]
    assert cleo.open("/settings").link("Names of the services") == "/services/names"


def test_what_is_wrong_is_said_and_all_that_was_typed_stays(cleo: Hands) -> None:
    """At its field and on top, with the value and the rule."""
    cleo.open("/services/names")
    seen = cleo.press("Save", {**ADD, "Name (English)": "Dinner"})
    assert (seen.status, seen.problems) == (400, ["“Dinner” is a service already. Write another name."])
    assert seen.field("Name (Español)")["value"] == "Mesa tardía"
    seen = cleo.press("Save", {"Name (English)": "Late table", "Usually closes": "half past"})
    assert seen.problems == ["“half past” is no time. Write it like 17:30."]


def test_one_of_the_three_is_called_otherwise(kitchen: Kitchen, cleo: Hands) -> None:
    """The form holds what it is called; the new name stands on the page of the week too."""
    hours = {"weekday": 2, "service": "lunch", "opens": "11:00", "closes": "15:00", "guests": 9, "needs": []}
    told = {"since": f"{TODAY}", "weekly": [hours], "days": []}
    set_services(kitchen, by="cleo", told=told, now=NOON, key="week")
    seen = cleo.open("/services/names?service=lunch")
    assert seen.field("Name (Español)")["value"] == "almuerzo"
    seen = cleo.press("Save", {"Name (English)": "Brunch", "Name (Español)": ""})
    assert "Brunch, usually 11:00 to 15:00" in seen.work
    assert "Tuesdays, Brunch 11:00 to 15:00" in cleo.open("/services").work
    assert "Services: breakfast, Brunch and dinner" in cleo.open("/book").work


def test_a_service_is_taken_off_the_list_and_put_back(kitchen: Kitchen, cleo: Hands) -> None:
    """Off the list it is offered no more; one that is gone from the page already is named."""
    cleo.open("/services/names")
    seen = cleo.press("Take it off the list: Lunch, usually 11:00 to 15:00")
    assert "Off the list" in seen.work
    assert "Lunch" not in [one.get_text() for one in cleo.open("/services").soup.select("#service option")]
    cleo.open("/services/names")
    cleo.press("Put it back: Lunch, usually 11:00 to 15:00")
    assert kitchen.services.ids == ("breakfast", "lunch", "dinner")
    hours = {"weekday": 2, "service": "lunch", "opens": "11:00", "closes": "15:00", "guests": 9, "needs": []}
    told = {"since": f"{TODAY}", "weekly": [hours], "days": []}
    set_services(kitchen, by="cleo", told=told, now=NOON, key="week")
    seen = cleo.press("Take it off the list: Lunch, usually 11:00 to 15:00")
    assert seen.status == 400
    assert seen.problems == ["Lunch is held: Tuesdays. Take it off these days first, in Services of the week."]


def test_only_a_manager_names_services(bo: Hands) -> None:
    """An assessor has no such page."""
    assert bo.open("/services/names").status == 403


@pytest.mark.parametrize(("language", "word"), [("en", "Late table"), ("es", "Mesa tardía")])
def test_a_manager_reads_the_houses_own_name(late: Kitchen, cleo: Hands, language: str, word: str) -> None:
    """In their own language: on the plan, its rows, the board, the list."""
    keep_own_language(late, person="cleo", language=language, units="")
    day = TODAY.isoformat()
    for address in (f"/plan?since={day}&until={day}", f"/plan/{day}/late_table", "/board", "/services/names"):
        assert word in cleo.open(address).work, address


@pytest.mark.parametrize(("language", "word"), [("en", "Late table"), ("es", "Mesa tardía")])
def test_an_assessor_signs_and_closes_under_the_houses_own_name(
    at_eleven: Kitchen, bo: Hands, language: str, word: str
) -> None:
    """In their own language: where a shift is signed, and where the service is closed."""
    keep_own_language(at_eleven, person="bo", language=language, units="")
    assert word in bo.open("/shifts-worked/new").work
    assert word in bo.open("/services/close").work
    assert word in bo.open(f"/services/{TODAY}/late_table/close").work
