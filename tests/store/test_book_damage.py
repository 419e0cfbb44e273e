"""A check of the book finds what was changed, moved, taken out or damaged, and says at which entry."""

from __future__ import annotations

import secrets
import shutil
import sqlite3
from contextlib import closing, suppress
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Any

import pytest

from tests.printed import english
from tests.store.kitchens import closed_book, deed, new_kitchen, run_python, tampered
from trainer.kitchen.book import FIRST, digest_of
from trainer.kitchen.tree import as_bytes, leaf_of, peaks_of
from trainer.store.book_check import check_end, verify_file
from trainer.store.engine import engine
from trainer.store.guards import GUARDS
from trainer.store.kitchen_file import KitchenFile, verify_folder
from trainer.store.problems import CannotSave, DamagedKitchen, KitchenProblem, NotAKitchen

FLIPS = 400


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a closed book of 60 entries, the same bytes in every run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(secrets, "randbits", Random(1).getrandbits)  # noqa: S311 - ids that can be made again
        patch.setattr(secrets, "token_hex", lambda _: "0123456789abcdef")
        return closed_book(tmp_path_factory.mktemp("damage") / "k", 60)


def test_a_whole_book_is_whole(book: Path) -> None:
    """Nothing is found in a book nobody touched, and the head is the last entry's hash."""
    check = verify_folder(book.parent)
    assert (check.is_whole, check.entries, len(check.head)) == (True, 60, 64)


def test_an_empty_book_is_whole(tmp_path: Path) -> None:
    """A new kitchen's book holds nothing wrong."""
    file = new_kitchen(tmp_path)
    assert (file.verify().is_whole, file.verify().head) == (True, FIRST)


COLUMN_CHANGES = {
    "kitchen": "'other'",
    "id": "'other'",
    "kind": "'watch_asked'",
    "at": "'2026-11-25T12:00:00.001Z'",
    "day": "'2026-11-26'",
    "happened": "'2026-11-24'",
    "cook": "'bo'",
    '"by"': "'bo'",
    "device": "'other'",
    "body": "'{}'",
    "key": "'other'",
    "previous": f"'{FIRST}'",
    "hash": f"'{FIRST}'",
    "edition": "3",
}


@pytest.mark.parametrize("column", COLUMN_CHANGES)
def test_a_change_in_any_column_is_found_at_its_entry(book: Path, column: str) -> None:
    """Every column is under the seal; the first entry that no longer fits is named."""
    change = f"UPDATE book SET {column} = {COLUMN_CHANGES[column]} WHERE seq = 17"  # noqa: S608 - fixed texts
    first = verify_file(tampered(book, change)).problems[0].seq
    assert first == (18 if column == "kitchen" else 17)  # one moved to another kitchen is missed before the next


def test_an_entry_taken_out_of_the_middle_is_found(book: Path) -> None:
    """The gap is named."""
    check = verify_file(tampered(book, "DELETE FROM book WHERE seq = 30"))
    assert check.problems[0].seq == 31
    assert "30 was due" in english(check.problems[0].problem)


def test_two_entries_that_changed_places_are_found(book: Path) -> None:
    """Order is under the seal too."""
    check = verify_file(
        tampered(
            book,
            "UPDATE book SET seq = 1000 WHERE seq = 20",
            "UPDATE book SET seq = 20 WHERE seq = 21",
            "UPDATE book SET seq = 21 WHERE seq = 1000",
        )
    )
    assert check.problems[0].seq == 20


def test_lost_guards_are_found(book: Path) -> None:
    """A book whose guards were dropped is not whole, though every entry fits."""
    check = verify_file(tampered(book, keep_guards=False))
    assert "guards" in english(check.problems[0].problem)


def test_a_cut_end_is_seen_unless_the_kept_head_is_set_back_too(book: Path) -> None:
    """A cut end does not fit the head beside the book; anyone who mends that too is found by a value kept elsewhere."""
    head = verify_file(book).head
    cut = tampered(book, "DELETE FROM book WHERE seq > 50")
    assert "has 50 entries and its head says 60" in english(verify_file(cut).problems[0].problem)
    assert verify_file(cut).entries == 50
    with closing(sqlite3.connect(cut)) as read:
        hashes = [row[0] for row in read.execute("SELECT hash FROM book ORDER BY seq")]
    peaks = as_bytes(peaks_of(map(leaf_of, hashes))).hex()
    aside = cut.rename(cut.with_name("cut.db"))
    mend = f"UPDATE heads SET seq = 50, hash = '{hashes[-1]}', frontier = x'{peaks}'"  # noqa: S608
    mended = tampered(aside, mend)
    assert verify_file(mended).is_whole
    assert "was cut off or rewritten" in english(verify_file(mended, head).not_found)


def test_a_text_kept_beside_the_book_is_held_to_its_digest(tmp_path: Path) -> None:
    """A text changed by a person who owns the file is named, and the kitchen it belongs to with it."""
    file = new_kitchen(tmp_path)
    file.book.append(replace(deed(1), papers=(b"Boil for 90 s",)))
    assert file.book.paper(digest_of(b"Boil for 90 s")) == b"Boil for 90 s"
    file.close()
    check = verify_file(tampered(tmp_path / "kitchen.db", "UPDATE papers SET bytes = CAST('Boil for 9 s' AS BLOB)"))
    assert ["a text kept beside the book was changed" in english(found.problem) for found in check.problems] == [True]


def test_each_kitchen_in_a_file_is_walked_on_its_own(book: Path, tmp_path: Path) -> None:
    """Of two kitchens in one file, three entries changed in one are all named, and the other is called whole."""
    other = closed_book(tmp_path, 50)
    both = tampered(book)
    with closing(sqlite3.connect(both)) as connection:
        connection.execute("ATTACH ? AS other", (str(other),))
        for guard in GUARDS:
            connection.execute(f"DROP TRIGGER {guard}")
        for table in ("book", "heads"):
            connection.execute(f"INSERT INTO {table} SELECT * FROM other.{table}")  # noqa: S608 - fixed names
        connection.execute(
            "UPDATE book SET cook = 'bo' WHERE seq IN (3, 9, 40) AND kitchen IN (SELECT kitchen FROM other.settings)"
        )
        for sql in GUARDS.values():
            connection.execute(sql)
        connection.commit()
        (changed,) = connection.execute("SELECT kitchen FROM other.settings").fetchone()
    found = {check.kitchen: check for check in verify_file(both).kitchens}
    assert [problem.seq for problem in found.pop(changed).problems] == [3, 9, 40]
    assert [(check.problems, check.entries) for check in found.values()] == [((), 60)]


def test_a_check_value_vouches_only_for_what_stands_before_a_change(book: Path) -> None:
    """Entry 30 was changed: a value of entry 20 still vouches up to there, one of entry 40 for nothing."""
    with closing(sqlite3.connect(book)) as read:
        hashes = [row[0] for row in read.execute("SELECT hash FROM book ORDER BY seq")]
    changed = tampered(book, "UPDATE book SET body = '{}' WHERE seq = 30")
    assert verify_file(changed, hashes[19][:12]).up_to == 20
    assert verify_file(changed, hashes[39][:12]).up_to == 0
    assert not verify_file(changed, hashes[19][:12]).is_whole


def test_two_entries_that_begin_alike_are_asked_apart(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Signs that fit more than one entry vouch for none (made likely here by taking one sign)."""
    monkeypatch.setattr("trainer.kitchen.short_head.FEWEST_OLD", 1)
    with closing(sqlite3.connect(book)) as read:
        firsts = [row[0] for row in read.execute("SELECT substr(hash, 1, 1) FROM book")]
    check = verify_file(book, max(firsts, key=firsts.count))
    assert check.up_to == 0
    assert "Type more of it" in english(check.not_found)


def test_a_check_value_kept_earlier_still_fits_after_more_entries(tmp_path: Path) -> None:
    """A head written down last week is still in the book this week."""
    file = new_kitchen(tmp_path)
    kept = file.book.append(deed(1)).hash
    file.book.append(deed(2))
    assert file.verify(kept).is_whole


def _rows(path: Path) -> list[tuple[Any, ...]] | None:
    """Return what any reader would read of the book, or None where it cannot."""
    connection = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    connection.text_factory = bytes
    try:
        return connection.execute("SELECT * FROM book ORDER BY kitchen, seq").fetchall()
    except (sqlite3.Error, UnicodeDecodeError):  # the second when the library quotes a broken name
        return None
    finally:
        connection.close()


def test_every_flipped_bit_that_a_reader_would_see_is_found(book: Path, tmp_path: Path) -> None:
    """One bit at a time, anywhere in the file: if what is read of the book changed, the check is not whole."""
    rng = Random(3_14)  # noqa: S311 - places to flip, made again from the same seed
    clean = book.read_bytes()
    before = _rows(book)
    seen = missed = 0
    path = tmp_path / "flipped.db"
    for _ in range(FLIPS):
        bit = rng.randrange(len(clean) * 8)
        flipped = bytearray(clean)
        flipped[bit // 8] ^= 1 << bit % 8
        path.write_bytes(flipped)
        check = verify_file(path)
        if _rows(path) != before:
            seen += 1
            missed += check.is_whole
    assert seen > 50
    assert missed == 0


@pytest.mark.parametrize("seq", [1, 31, 60])
def test_the_end_of_a_book_is_checked_by_itself(book: Path, seq: int) -> None:
    """The last thirty against the head: what was changed among them is named, what stands before is not seen."""
    changed = tampered(book, f"UPDATE book SET cook = 'bo' WHERE seq = {seq}")  # noqa: S608
    found = check_end(changed, "0123456789abcdef", 30)
    assert [problem.seq for problem in found.problems] == ([seq] if seq > 30 else [])


def test_a_cut_end_is_seen_by_the_quick_check(book: Path) -> None:
    """The head beside the book says where it ended; an empty book has none."""
    assert not check_end(book, "0123456789abcdef").problems
    assert check_end(tampered(book, "DELETE FROM book WHERE seq > 50"), "0123456789abcdef").problems
    assert check_end(tampered(book, "DELETE FROM book"), "0123456789abcdef").problems
    assert not check_end(book, "another").problems
    assert check_end(book.with_name("none.db"), "0123456789abcdef").problems


@pytest.mark.parametrize("folded", [True, False])
def test_a_book_on_a_disk_that_cannot_be_written_to_is_checked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, folded: bool
) -> None:
    """Where the journal cannot be opened, the file is read alone, or with its journal elsewhere: every entry counts.

    As SQLite does on such a disk (sqlite.org, Write-Ahead Logging, Read-Only Databases), here by a refusing engine.
    """
    file = new_kitchen(tmp_path / "k")
    for number in range(1, 6):
        file.book.append(deed(number))
    if folded:
        file.close()
    connect, place = engine.connect, (tmp_path / "k").as_uri()

    def refusing(address: str, **settings: Any) -> Any:
        if address.startswith(place) and "immutable" not in address:
            raise engine.OperationalError("unable to open database file")
        return connect(address, **settings)

    monkeypatch.setattr(engine, "connect", refusing)
    check = verify_file(tmp_path / "k" / "kitchen.db")
    assert (check.entries, check.is_whole) == (5, True)


def test_a_flipped_bit_never_ends_in_a_traceback(book: Path, tmp_path: Path) -> None:
    """Whatever bit it is, opening the kitchen and reading its book works, or is refused in plain words."""
    rng = Random(2_71)  # noqa: S311 - places to flip, made again from the same seed
    clean = book.read_bytes()
    for turn in range(FLIPS):
        folder = tmp_path / str(turn)
        folder.mkdir()
        bit = rng.randrange(len(clean) * 8)
        flipped = bytearray(clean)
        flipped[bit // 8] ^= 1 << bit % 8
        (folder / "kitchen.db").write_bytes(flipped)
        with suppress(KitchenProblem, CannotSave):
            file = KitchenFile.open(folder)
            file.book.since(0)
            file.close()


def test_a_file_cut_short_at_any_page_is_found_without_a_traceback(book: Path, tmp_path: Path) -> None:
    """However much of the file is gone, the check says so in words, and opening it is refused in words."""
    clean = book.read_bytes()
    for size in range(0, len(clean), 4096):
        folder = tmp_path / str(size)
        folder.mkdir()
        (folder / "kitchen.db").write_bytes(clean[:size])
        assert not verify_folder(folder).is_whole
        with suppress(DamagedKitchen, NotAKitchen):  # anything else would be a traceback for anyone who opens it
            KitchenFile.open(folder).close()


def test_a_file_that_is_no_database_is_named_plainly(tmp_path: Path) -> None:
    """The message names the file and says what to do."""
    (tmp_path / "kitchen.db").write_bytes(b"this was a shopping list\n" * 400)
    with pytest.raises(DamagedKitchen, match="is damaged and cannot be read"):
        KitchenFile.open(tmp_path)
    assert verify_folder(tmp_path).problems[0].seq == 1


def test_a_missing_file_is_a_finding(tmp_path: Path) -> None:
    """There is nothing to check, and the check says so."""
    assert "There is no file" in english(verify_folder(tmp_path).problems[0].problem)


WITH_THE_OWN_LIBRARY = """
import sys; sys.modules["pysqlite3"] = None
from pathlib import Path
from trainer.store.kitchen_file import KitchenFile, Settings
from trainer.store.connections import engine
from tests.store.kitchens import fill
file = KitchenFile.create(Path(sys.argv[1]), Settings("", "Quernstone"))
fill(file, 3)
read = file._connections.read
print(engine.__name__, read("PRAGMA journal_mode")[0][0], read("PRAGMA synchronous")[0][0], file.verify().is_whole)
"""


def test_the_interpreters_own_library_keeps_a_book_as_well(tmp_path: Path) -> None:
    """Where the newer library is not installed, the book is kept with the journal that is safe in any edition."""
    outcome = run_python(WITH_THE_OWN_LIBRARY, str(tmp_path / "k"))
    assert outcome.stderr == ""
    name, mode, synchronous, whole = outcome.stdout.split()
    assert (name, whole) == ("sqlite3", "True")
    assert (mode, synchronous) in {("delete", "3"), ("wal", "2")}
    assert verify_folder(tmp_path / "k").entries == 3


def test_a_backup_is_whole_and_appears_at_once(book: Path, tmp_path: Path) -> None:
    """A copy made of an open kitchen verifies and ends at the same entry; no half copy is left behind."""
    folder = tmp_path / "k"
    folder.mkdir()
    shutil.copy(book, folder / "kitchen.db")
    file = KitchenFile.open(folder)
    file.back_up(tmp_path / "copy.db")
    assert verify_file(tmp_path / "copy.db", file.verify().head).is_whole
    assert not list(tmp_path.glob("*.part"))
