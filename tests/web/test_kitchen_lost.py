"""The kitchen's file is lost while it is served: nobody is told Saved, the pages say so, and reading goes on."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.printed import english
from tests.store.kitchens import tampered
from tests.store.test_file_exchanged import copy_an_old_one_over, delete, empty, move, put_an_old_one_in_its_place
from tests.web.conftest import NOON
from tests.web.hands import Hands
from tests.web.kitchen_people import clear
from trainer.actions.open_kitchen import Kitchen
from trainer.store.backup import back_up
from trainer.store.book_check import BookCheck, BookProblem, KitchenCheck
from trainer.store.kitchen_file import KitchenFile
from trainer.store.last_copy import last_copy, note_copy

Lose = Callable[[Path, Path], None]


@pytest.fixture
def old(kitchen: Kitchen, prepared: Path, tmp_path: Path) -> Path:
    """Return the database as it was before the server was started."""
    (tmp_path / "kept").mkdir()
    clear(kitchen, "bo")
    return Path(shutil.copy(prepared / "kitchen.db", tmp_path / "kept" / "old.db"))


@pytest.mark.parametrize("lose", [move, delete, put_an_old_one_in_its_place, copy_an_old_one_over, empty])
def test_what_is_sent_after_the_file_is_lost_is_refused_in_a_plain_sentence(
    ana: Hands, kitchen: Kitchen, old: Path, lose: Lose
) -> None:
    """503, Reading only, what it means for what was typed, what to do next; and never "Saved"."""
    ana.go_through("nests")
    lose(kitchen.file.folder, old)
    page = ana.press("I have read edition 2")
    assert page.status == 503
    assert page.heading == "Reading only"
    assert "Take this as not saved" in page.work
    assert "trainer restore FILE" in page.work
    assert "Reading only." in page.work


@pytest.mark.parametrize("lose", [move, delete, put_an_old_one_in_its_place])
def test_reading_goes_on_and_every_page_says_why_nothing_can_be_saved(
    cleo: Hands, ana: Hands, kitchen: Kitchen, old: Path, lose: Lose
) -> None:
    """The board, the book, a step: as before, under a band."""
    lose(kitchen.file.folder, old)
    for hands, path in ((cleo, "/board"), (cleo, "/book"), (ana, "/techniques/nests/steps/1"), (ana, "/rail")):
        page = hands.open(path)
        assert (page.status, page.path) == (200, path)
        band = page.soup.select_one("main > .band:not([data-waiting])")
        assert band is not None
        assert "Reading only. Nothing can be saved now." in band.get_text(" ")


def test_a_whole_kitchen_has_no_band(cleo: Hands) -> None:
    """No ceremony where nothing is wrong."""
    assert cleo.open("/board").soup.select_one("main > .band:not([data-waiting])") is None


def test_a_book_found_damaged_at_the_start_is_only_read(
    ana: Hands, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`serve` checks the whole book in the background; from then on nothing is written."""
    ana.go_through("nests")
    changed = KitchenCheck("k", 9, "0" * 64, b"", (BookProblem(7, "it was changed"),))
    found = BookCheck((changed,), (BookProblem(0, "the file is damaged"),))
    monkeypatch.setattr(kitchen.file, "verify", lambda: found)
    kitchen.file.check_while_open()
    page = ana.press("I have read edition 2")
    assert page.status == 503
    assert "The book is damaged from entry 7 on. Reading only. No backup of it is known." in page.work


def test_the_last_entries_are_held_against_the_head_before_anybody_is_served(
    ana: Hands, cleo: Hands, kitchen: Kitchen, tmp_path: Path
) -> None:
    """An entry of the last thousand was changed: 503 with its number and the last good backup, a band on the board."""
    ana.go_through("nests")
    back_up(kitchen.file, tmp_path / "copies", NOON)
    entries = kitchen.file.book.end()[0]
    book = tampered(kitchen.file.path, "UPDATE book SET cook = 'zoe' WHERE seq = 3")
    assert not kitchen.file.check_end().problems
    (tmp_path / "other").mkdir()
    book.rename(tmp_path / "other" / "kitchen.db")
    damaged = KitchenFile.open(tmp_path / "other")
    note_copy(damaged.folder, last_copy(kitchen.file.folder))
    damaged.check_end()
    words = f"The book is damaged from entry 3 on. Reading only. Last good backup: 3 Nov 2026 12:00, {entries} entries."
    assert english(damaged.reading_only()) == words
    kitchen.file._connections.watch.stop_writing(damaged.reading_only())
    page = ana.press("I have read edition 2")
    assert (page.status, words in page.work) == (503, True)
    band = cleo.open("/board").soup.select_one("main > .band:not([data-waiting])")
    assert band is not None
    assert words in " ".join(band.get_text(" ").split())
    damaged.close()


def test_a_file_put_back_in_its_place_is_written_again(ana: Hands, kitchen: Kitchen, tmp_path: Path) -> None:
    """The same form sent once more is saved, and counts once."""
    path = kitchen.file.path
    page = ana.go_through("nests")
    path.rename(tmp_path / "away.db")
    assert ana.press("I have read edition 2").status == 503
    os.rename(tmp_path / "away.db", path)
    ana.go_through("nests")
    assert ana.press("I have read edition 2").status == 200
    assert page.status == 200
    assert [entry.kind for entry in kitchen.file.book.since(0)].count("technique_read") == 1
