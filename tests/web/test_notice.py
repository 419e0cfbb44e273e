"""The notice on illness: it waits on one's own page, is read and said so with one press, and stands in the record."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace

import pytest

from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.notices import HEALTH_REPORTING, NOTICES
from trainer.kitchen.papers import paper_text
from trainer.web.cook import notice

LINK, BUTTON = "Read the notice on illness", "I have read it and will tell"


def test_it_waits_until_it_is_read_and_holds_nothing_up(ana: Hands, kitchen: Kitchen) -> None:
    """FDA Food Code 2022, 2-103.11(O) (from memory): informed in a verifiable manner. Who, when, and which text."""
    before = ana.open("/rail")
    assert before.soup.select_one(".bar a, .bar button") is not None
    page = ana.follow(LINK)
    assert "a sore throat with fever" in page.work
    assert ana.press(BUTTON).path == "/rail"
    assert "Saved" in ana.page.soup.get_text()
    assert LINK not in ana.page.work
    (entry,) = kitchen.file.book.of_kind("notice_read")
    assert (entry.cook, entry.by) == ("ana", "ana")
    assert (entry.body["notice"], entry.body["edition"]) == ("health_reporting", 1)
    kept = kitchen.file.book.paper(entry.body["shown"])
    assert kept is not None
    assert json.loads(paper_text(kept))["lines"][0] == "Ill? Tell the person in charge"
    assert "You read this edition on" in ana.open("/health-notice").work


def test_it_stands_in_the_record_and_in_the_book(ana: Hands, cleo: Hands) -> None:
    """In the list of what is done, on the sheet that is printed, and as an entry in words."""
    ana.open("/health-notice")
    ana.press(BUTTON)
    assert "Ill? Tell the person in charge Read edition 1" in ana.open("/record").work
    assert "“Ill? Tell the person in charge”, edition 1, read" in ana.open("/cooks/ana/record").work
    assert "Notice read and understood" in cleo.open("/book").work


def test_said_twice_is_written_once(ana: Hands, kitchen: Kitchen) -> None:
    """From a page that was open twice."""
    first = ana.open("/health-notice")
    ana.press(BUTTON)
    ana.page = first
    assert "You have said so already." in ana.press(BUTTON, key="another").problems
    assert len(kitchen.file.book.of_kind("notice_read")) == 1


def test_a_manager_and_a_sous_chef_read_it_too(sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """The person in charge is a food employee as well."""
    for who in ("bo", "cleo"):
        hands = sign_in(who)
        hands.open("/health-notice")
        assert hands.press(BUTTON).status == 200
    assert {entry.cook for entry in kitchen.file.book.of_kind("notice_read")} == {"bo", "cleo"}


def test_a_new_edition_is_read_anew(ana: Hands, monkeypatch: pytest.MonkeyPatch) -> None:
    """It waits again, and a page left open on the old words is refused."""
    ana.open("/health-notice")
    ana.press(BUTTON)
    old = ana.open("/health-notice")
    assert old.work
    newer = replace(HEALTH_REPORTING, edition=2)
    monkeypatch.setattr(notice, "HEALTH_REPORTING", newer)
    monkeypatch.setitem(NOTICES, newer.id, newer)
    assert ana.open("/rail").link(LINK)
    page = ana.open("/health-notice")
    form = page.soup.select_one("form.bar")
    assert form is not None
    form["action"] = "/health-notice/1"
    assert "The notice has changed since you opened it. Read it once more." in ana.press(BUTTON).problems
