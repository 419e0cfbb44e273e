"""The page of the standard: a manager looks at the cost, publishes, and the board says what is drafted."""

from __future__ import annotations

from pathlib import Path

import pytest
from flask import Flask

from tests.store.small_kitchen import change, small_kitchen
from tests.web.conftest import NOON, PASSPHRASE, Clock
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.teaching import Teaching
from trainer.actions.upgrading import upgrade

WORDS, STRUCTURE = "techniques/rolling/en.yaml", "techniques/rolling/technique.yaml"


@pytest.fixture
def drafts(kitchen: Kitchen, app: Flask, tmp_path: Path) -> Path:
    """Return the folder the kitchen's files are in, with what they say published."""
    del app
    folder = small_kitchen(tmp_path / "content")
    kitchen.teaching = Teaching(kitchen.file, folder)
    assert upgrade(kitchen, draft=kitchen.teaching.draft(), now=NOON)
    return folder


def test_nothing_is_to_be_published_while_the_files_are_as_published(cleo: Hands, drafts: Path) -> None:
    """The page says so, and has no button."""
    page = cleo.open("/standard")
    assert "There is nothing to publish." in page.work
    assert "Standard 1, from 3 November 2026 on. Published on 3 November 2026 by this machine." in page.work
    assert not page.soup.select("form#publish")
    assert "drafted" not in cleo.open("/board").work


def test_a_manager_sees_the_cost_proves_themselves_and_publishes(cleo: Hands, drafts: Path) -> None:
    """A change of words: one press and the secret; the board tells of the draft before, and no longer after."""
    change(drafts, WORDS, "title: Rolling", "title: Rolling out")
    assert cleo.open("/board").link("Changes are drafted, not published.") == "/standard"
    page = cleo.open("/standard")
    assert "Only words and drawings change: nobody loses a clearance." in page.work
    assert WORDS in page.work
    cleo.press("Publish standard 2", {"Your PIN or passphrase": PASSPHRASE})
    assert "Standard 2, from 3 November 2026 on. Published on 3 November 2026 by Cleo Mbeki." in cleo.page.work
    assert "drafted" not in cleo.open("/board").work


def test_a_day_is_asked_for_and_one_gone_by_is_refused(cleo: Hands, drafts: Path) -> None:
    """The cost is that of the day asked about; a day that has gone by or is none is named with the rule."""
    change(drafts, WORDS, "title: Rolling", "title: Rolling out")
    assert "from 1 December 2026 on" in cleo.open("/standard?since=2026-12-01").work
    assert "1 November 2026 has gone by" in cleo.open("/standard?since=2026-11-01").work
    assert "“soon” is not a day." in cleo.open("/standard?since=soon").work
    cleo.open("/standard?since=2026-12-01")
    cleo.press("Publish standard 2", {"Your PIN or passphrase": PASSPHRASE})
    assert "Standard 2, from 1 December 2026 on." in cleo.page.work


def test_files_changed_while_the_page_was_open_are_shown_anew(cleo: Hands, drafts: Path) -> None:
    """What was looked at is what is published, or nothing."""
    change(drafts, WORDS, "title: Rolling", "title: Rolling out")
    cleo.open("/standard")
    change(drafts, STRUCTURE, "sign_off_months: 12", "sign_off_months: 6")
    cleo.press("Publish standard 2", {"Your PIN or passphrase": PASSPHRASE})
    assert cleo.page.status == 400
    assert "Something has changed since the preview" in cleo.page.work
    assert STRUCTURE in cleo.page.work
    cleo.press("Publish standard 2", {"Your PIN or passphrase": PASSPHRASE})
    assert "Standard 2, from 3 November 2026 on." in cleo.page.work


def test_a_wrong_secret_publishes_nothing(cleo: Hands, drafts: Path) -> None:
    """The day typed stays."""
    change(drafts, WORDS, "title: Rolling", "title: Rolling out")
    cleo.open("/standard?since=2026-12-01")
    cleo.press("Publish standard 2", {"Your PIN or passphrase": "not this one at all"})
    assert cleo.page.status == 400
    assert "from 1 December 2026 on. It changes" in cleo.page.work
    assert "Standard 2, from" not in cleo.page.work.split("Published")[-1]


def test_files_with_a_fault_say_what_to_do(cleo: Hands, drafts: Path) -> None:
    """Nothing can be published until they are mended; what was published goes on."""
    change(drafts, STRUCTURE, "scored_needed: 1", "scored_needed: 9")
    assert "trainer content check" in cleo.open("/standard").work
    assert not cleo.page.soup.select("form#publish")


def test_a_cook_and_an_assessor_do_not_get_the_page(ana: Hands, bo: Hands, drafts: Path, clock: Clock) -> None:
    """It is a manager's."""
    del drafts, clock
    assert ana.open("/standard").status == 403
    assert bo.open("/standard").status == 403


def test_the_page_is_told_in_spanish(cleo: Hands, kitchen: Kitchen, drafts: Path) -> None:
    """Its own words are; a file's path stays as it is."""
    change(drafts, WORDS, "title: Rolling", "title: Rolling out")
    keep_own_language(kitchen, person="cleo", language="es", units="us")
    page = cleo.open("/standard")
    assert page.heading == "La norma"
    assert "La norma 2 contaría desde el 3 de noviembre de 2026. Cambia estos archivos:" in page.work
    assert "Solo cambian palabras y dibujos: nadie pierde un permiso." in page.work
    assert "Publicada el 3 de noviembre de 2026 por esta máquina." in page.work
