"""Copies made by themselves: every night, and before an older kitchen is brought up to date."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.store.kitchens import NOON, deed, fill, new_kitchen
from tests.store.older_book import write_old
from trainer.store import backup, schema
from trainer.store.backup import BEFORE_EDITION, NIGHTLY, back_up, copies_in, drop_older, unpack
from trainer.store.kitchen_file import KitchenFile
from trainer.store.last_copy import LastCopy, is_due, last_copy, note_failure
from trainer.store.problems import CannotSave, DamagedKitchen


@pytest.fixture
def older(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of a kitchen an older program wrote, with a book of twenty entries."""
    with monkeypatch.context() as patch:
        patch.setattr(schema, "MIGRATIONS", schema.MIGRATIONS[:4])
        patch.setattr(schema, "EDITION", 4)
        new_kitchen(tmp_path / "old").close()
    write_old(tmp_path / "old" / "kitchen.db", [deed(number) for number in range(1, 21)])
    return tmp_path / "old"


def edition(folder: Path) -> int:
    """Return the edition of a kitchen's tables."""
    with closing(sqlite3.connect(folder / "kitchen.db")) as connection:
        return int(connection.execute("PRAGMA user_version").fetchone()[0])


def test_an_older_kitchen_is_copied_whole_before_it_changes(older: Path, tmp_path: Path) -> None:
    """Its copy is named by the edition to come, checked, holds the tables of before, and is made once."""
    KitchenFile.open(older).close()
    KitchenFile.open(older).close()
    assert edition(older) == schema.EDITION
    (copy,) = copies_in(tmp_path / "old-backups", f"{BEFORE_EDITION}-{schema.EDITION}")
    assert unpack(copy, tmp_path / "out").entries == 20
    assert edition(tmp_path / "out") == 4
    assert last_copy(older).path == str(copy.resolve())


def test_where_nothing_can_be_written_beside_the_kitchen_the_copy_lies_in_it(older: Path, tmp_path: Path) -> None:
    """A folder of a service, whose parent is somebody else's."""
    (tmp_path / "old-backups").write_text("in the way")
    KitchenFile.open(older).close()
    assert len(list((older / "backups").glob("before-edition-*.zip"))) == 1


def test_a_kitchen_that_cannot_be_copied_is_not_changed(older: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk: refused with what to do, and the file is as the older program left it."""

    def full(*args: object, **extra: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(backup, "_written", full)
    before = (older / "kitchen.db").read_bytes()
    with pytest.raises(CannotSave, match="Free some room on the disk, then start again"):
        KitchenFile.open(older)
    assert (older / "kitchen.db").read_bytes() == before


def test_a_damaged_kitchen_of_an_older_program_is_not_brought_up_to_date(older: Path) -> None:
    """New tables would hide what is wrong: the message names the entry and the way out."""
    with closing(sqlite3.connect(older / "kitchen.db")) as connection, connection:
        connection.execute("DROP TRIGGER book_is_never_changed")
        connection.execute("UPDATE book SET cook = 'bo' WHERE seq = 7")
    with pytest.raises(DamagedKitchen, match=r"from entry 7 on.*trainer restore FILE"):
        KitchenFile.open(older)
    assert edition(older) == 4


NEW_YORK = "America/New_York"


@pytest.mark.parametrize(
    ("last", "now", "due"),
    [
        ("2026-11-25T09:05", "2026-11-26T08:59", False),  # 03:59 in New York
        ("2026-11-25T09:05", "2026-11-26T09:00", True),  # 04:00
        ("2026-11-26T09:00", "2026-11-26T22:00", False),
        ("2026-11-20T09:05", "2026-11-26T15:00", True),  # off for days
        ("2026-03-07T09:01", "2026-03-08T07:59", False),  # 8 March has no 02:00 to 03:00: 03:59 is 07:59 UTC
        ("2026-03-07T09:01", "2026-03-08T08:00", True),
        ("2026-10-31T08:01", "2026-11-01T08:59", False),  # 1 November has 01:00 twice: 04:00 is 09:00 UTC
        ("2026-10-31T08:01", "2026-11-01T09:00", True),
    ],
)
def test_a_copy_is_due_after_four_in_the_morning_of_the_kitchen(last: str, now: str, due: bool) -> None:
    """Once a night by the kitchen's own clock, summer time or not (IANA time zones, America/New_York, 2026)."""
    made, at = (datetime.fromisoformat(text).replace(tzinfo=UTC) for text in (last, now))
    assert is_due(made, at, NEW_YORK) is due
    assert is_due(None, at, NEW_YORK)


def test_nightly_copies_push_out_nightly_copies_alone(tmp_path: Path) -> None:
    """What somebody made by hand, and what was made before new tables, stays."""
    file = new_kitchen(tmp_path / "kitchen")
    fill(file, 3)
    by_hand, _ = back_up(file, tmp_path / "copies", NOON)
    nights = [back_up(file, tmp_path / "copies", NOON.replace(day=day), NIGHTLY)[0] for day in (26, 27, 28)]
    assert drop_older(tmp_path / "copies", file.settings.kitchen, 2, NIGHTLY) == nights[:1]
    assert sorted((tmp_path / "copies").iterdir()) == sorted([by_hand, *nights[1:]])


def test_what_is_known_of_the_last_copy_outlives_the_program(tmp_path: Path) -> None:
    """When, where, how many entries, with which head; a later failure stands beside it; a broken note says nothing."""
    file = new_kitchen(tmp_path / "kitchen")
    fill(file, 3)
    path, manifest = back_up(file, tmp_path / "copies", NOON)
    found = last_copy(file.folder)
    assert (found.made(), found.path, found.entries) == (NOON, str(path), 3)
    assert found.short_head == manifest.short_head
    note_failure(file.folder, NOON, "No space left on device")
    assert (last_copy(file.folder).failed, last_copy(file.folder).made()) == ("No space left on device", NOON)
    back_up(file, tmp_path / "copies", NOON)
    assert not last_copy(file.folder).failed
    (file.folder / "last_copy.json").write_text('{"at": "yesterday"}')
    assert last_copy(file.folder) == LastCopy()
