"""A kitchen made by an earlier edition of the program is brought up to date when it is opened, whole or not at all."""

from __future__ import annotations

import shutil
import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from tests.store.kitchens import deed, new_kitchen, tampered
from tests.store.older_book import write_old
from trainer.kitchen.services import THE_THREE
from trainer.store import schema
from trainer.store.book_check import verify_file
from trainer.store.identity import token_hash
from trainer.store.kitchen_file import KitchenFile
from trainer.store.throttle import pair_of

ENTRIES = 20


@pytest.fixture
def first_edition(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder with a kitchen as the first edition left it: a person in it, and a book."""
    with monkeypatch.context() as patch:
        patch.setattr(schema, "MIGRATIONS", schema.MIGRATIONS[:1])
        patch.setattr(schema, "EDITION", 1)
        file = new_kitchen(tmp_path / "old")
        file._connections.write(
            "INSERT INTO people (kitchen, id, number, name, born, language, started)"
            " VALUES (?, 'ana', '007', 'Ana Pardo', '2000-02-29', 'es', '2026-01-05')",
            (file.settings.kitchen,),
        )
        file.close()
    write_old(tmp_path / "old" / "kitchen.db", [deed(number) for number in range(1, ENTRIES + 1)])
    return tmp_path / "old"


def shape_of(folder: Path) -> tuple[int, list[tuple[str, ...]]]:
    """Return the edition of a kitchen's tables, and every column with its type, default and place in the key."""
    with sqlite3.connect(folder / "kitchen.db") as connection:
        (edition,) = connection.execute("PRAGMA user_version").fetchone()
        columns = connection.execute(
            'SELECT t.name, c.name, c.type, c."notnull", c.pk FROM pragma_table_list t JOIN pragma_table_info(t.name) c'
            " WHERE t.schema = 'main' AND t.name NOT LIKE 'sqlite%' AND t.name NOT LIKE '\\_%' ESCAPE '\\'"
            " ORDER BY 1, 2"
        ).fetchall()
    connection.close()
    return edition, columns


def test_everybody_and_every_entry_are_still_there(first_edition: Path) -> None:
    """Names, numbers and the chain of the book, and a new column that says nothing yet and can be written."""
    file = KitchenFile.open(first_edition)
    (listed,) = file.people.listed()
    assert (listed.person.name, listed.number, listed.person.language) == ("Ana Pardo", "007", "es")
    assert str(listed.person.born) == "2000-02-29"
    assert listed.person.units == ""
    file.people.change(replace(listed.person, units="metric"))
    assert file.people.all()["ana"].units == "metric"
    check = file.verify()
    assert (check.entries, check.problems) == (ENTRIES, ())
    file.close()


def test_an_older_kitchen_has_the_limit_every_kitchen_had(first_edition: Path) -> None:
    """Ten services in a hundred run by somebody not cleared, as the program said for all of them before."""
    file = KitchenFile.open(first_edition)
    assert file.settings.not_cleared_in_100 == 10
    file.close()


def test_an_older_kitchen_has_the_three_services(first_edition: Path) -> None:
    """Breakfast, lunch and dinner, called as ever, as every kitchen had them before."""
    file = KitchenFile.open(first_edition)
    assert file.settings.services == THE_THREE
    file.close()


def test_its_tables_are_those_of_a_new_kitchen(first_edition: Path, tmp_path: Path) -> None:
    """Anyone who opens an old kitchen and anyone who makes a new one work on the same tables."""
    assert shape_of(first_edition)[0] == 1
    KitchenFile.open(first_edition).close()
    new_kitchen(tmp_path / "new").close()
    assert shape_of(first_edition) == shape_of(tmp_path / "new")


def test_a_step_that_fails_leaves_the_old_kitchen(first_edition: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Old or new, never between; the next start tries again."""
    before = shape_of(first_edition)

    def broken(_: object) -> None:
        raise sqlite3.OperationalError("power gone")

    with monkeypatch.context() as patch:
        patch.setattr(schema, "MIGRATIONS", (*schema.MIGRATIONS, broken))
        with pytest.raises(Exception, match="power gone"):
            KitchenFile.open(first_edition)
    assert shape_of(first_edition) == before
    KitchenFile.open(first_edition).close()
    assert shape_of(first_edition)[0] == schema.EDITION


def test_whoever_an_older_program_had_locked_out_may_try_again(first_edition: Path) -> None:
    """It counted for whole persons and whole tablets; those counts lock nobody any more."""
    with sqlite3.connect(first_edition / "kitchen.db") as connection:
        (kitchen,) = connection.execute("SELECT kitchen FROM settings").fetchone()
        for who in ("person:" + token_hash("ana"), "device:tablet"):
            connection.execute("INSERT INTO throttle VALUES (?, ?, 100, '2099-01-01T00:00:00.000Z')", (kitchen, who))
    connection.close()
    file = KitchenFile.open(first_edition)
    assert file.throttle.standing(pair_of("ana", "tablet")).wrong == 0
    file.close()


def test_a_demo_made_by_an_older_program_keeps_its_cast(first_edition: Path) -> None:
    """Anyone who has a PIN in it by then is made up; in a kitchen that is no demo nobody is."""
    for is_demo, cast in ((0, frozenset()), (1, {"ana"})):
        folder = first_edition.with_name(f"copy-{is_demo}")
        shutil.copytree(first_edition, folder)
        with sqlite3.connect(folder / "kitchen.db") as connection:
            connection.execute("UPDATE settings SET is_demo = ?", (is_demo,))
            connection.execute("INSERT INTO secrets SELECT kitchen, 'ana', 'a hash', 'pin', 0, NULL FROM settings")
            connection.execute("INSERT INTO secrets SELECT kitchen, 'bo', 'x', 'first_code', 1, NULL FROM settings")
        connection.close()
        file = KitchenFile.open(folder)
        assert file.demo_cast.all() == cast
        file.close()


def test_entries_of_an_old_book_stay_as_they_were_hashed(first_edition: Path) -> None:
    """What is there keeps its hash and is read as edition 1; what comes next follows on from it, as edition 2."""
    with sqlite3.connect(first_edition / "kitchen.db") as connection:
        before = [row[0] for row in connection.execute("SELECT hash FROM book ORDER BY seq")]
    connection.close()
    file = KitchenFile.open(first_edition)
    added = file.book.append(deed(ENTRIES + 1))
    entries = file.book.since(0)
    assert [entry.hash for entry in entries[:-1]] == before
    assert {(entry.edition, entry.device) for entry in entries[:-1]} == {(1, "")}
    assert (added.edition, added.previous, added.device) == (2, before[-1], "local")
    assert file.verify().is_whole
    file.close()


def test_an_old_book_can_be_checked_before_it_is_brought_up_to_date(first_edition: Path) -> None:
    """A copy from an earlier program is verified as it stands, and a change in it is found."""
    path = first_edition / "kitchen.db"
    assert (verify_file(path).is_whole, verify_file(path).entries) == (True, ENTRIES)
    changed = tampered(path, "UPDATE book SET cook = 'bo' WHERE seq = 7")
    assert verify_file(changed).problems[0].seq == 7
