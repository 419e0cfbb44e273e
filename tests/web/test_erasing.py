"""A manager erases somebody who has left, on a page that says what goes and what stays."""

from __future__ import annotations

import json

import pytest

from tests.web.conftest import PASSPHRASE, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import clear, write
from trainer.actions.open_kitchen import Kitchen

SECRET = "Your PIN or passphrase"


@pytest.fixture
def gone(kitchen: Kitchen, clock: Clock) -> str:
    """Return Ana, who was cleared for the pasta room, and left three days ago."""
    clear(kitchen, "ana")
    write(kitchen, "cook_left", "ana", {"reason": "Moved to Duluth"}, by="cleo", days=3)
    assert clock.at
    return "ana"


def erase(cleo: Hands, **changes: str) -> None:
    """Fill in the page and press the button."""
    cleo.open("/cooks/ana/erase")
    cleo.press("Erase", {SECRET: PASSPHRASE}, **{"why": "asked for it", "saved": "yes", **changes})


def test_somebody_who_left_is_erased(cleo: Hands, kitchen: Kitchen, gone: str) -> None:
    """From the person's page; afterwards the book and the boards of before say erased person, in both languages."""
    page = cleo.open(cleo.open(f"/cooks/{gone}").link("Erase this person"))
    assert "every text about them (2 now)" in page.work
    held = cleo.client.get(page.link("Save all that is held about them"))
    assert "attachment" in held.headers["Content-Disposition"]
    assert json.loads(held.get_data(as_text=True))["person"]["name"] == "Ana Pardo"
    erase(cleo)
    assert cleo.page.path == "/book"
    assert "Person erased: erased person" in cleo.page.work
    assert "Reason: text erased" in cleo.page.work
    board = cleo.open("/board?on=2026-10-30")
    assert "erased person" in board.work
    assert "Ana Pardo" not in board.soup.get_text()
    cleo.open("/language")
    kitchen.file.people.change(type(kitchen.people()["cleo"])("cleo", "Cleo Mbeki", None, "es"))
    assert "persona borrada" in cleo.open("/board?on=2026-10-30").work
    assert "Motivo: texto borrado" in cleo.open("/book").work
    assert kitchen.file.verify().is_whole


def test_without_saving_first_nobody_is_erased(cleo: Hands, kitchen: Kitchen, gone: str) -> None:
    """Nor without the secret; what was chosen stays chosen."""
    cleo.open(f"/cooks/{gone}/erase")
    sent = {i["name"]: i.get("value", "") for i in cleo.page.soup.select("form input") if i["name"] != "saved"}
    data = {**sent, "why": "asked for it", "secret": PASSPHRASE}
    answer = cleo.client.post(f"/cooks/{gone}/erase", data=data).get_data(as_text=True)
    assert "Save all that is held about them first. Nothing was erased." in answer
    cleo.open(f"/cooks/{gone}/erase")
    page = cleo.press("Erase", why="asked for it", saved="yes")
    assert page.problems == ["Type your PIN or passphrase again. Nothing was saved yet."]
    assert "ana" in kitchen.file.people.all()


def test_who_is_on_the_roster_cannot_be_erased(cleo: Hands, kitchen: Kitchen) -> None:
    """The page says what comes first, and has no button."""
    page = cleo.open("/cooks/bo/erase")
    assert "Take Bo Lind off the roster first." in page.work
    assert not [button for button in page.soup.find_all("button") if button.get_text(strip=True) == "Erase"]
    assert "Nobody erases themselves." in cleo.open("/cooks/cleo/erase").work
    assert kitchen.file.book.of_kind("person_erased") == []


def test_only_a_manager_opens_what_is_held(bo: Hands) -> None:
    """Neither the file nor the page is for anybody else."""
    assert bo.open("/cooks/ana/held").status == 403
    assert bo.open("/cooks/ana/erase").status == 403
