"""Which journal the book is kept with, and how the engine's errors are told."""

from __future__ import annotations

import os
import threading
from pathlib import Path

import pytest

from tests.store.kitchens import deed, new_kitchen, run_python
from trainer.store.connections import Connections, engine, in_plain_words, journal_of, wal_is_sound
from trainer.store.problems import BookRefuses, CannotSave, DamagedKitchen


@pytest.mark.parametrize(
    ("version", "sound"),
    [
        ((3, 40, 1), False),
        ((3, 44, 5), False),
        ((3, 44, 6), True),
        ((3, 45, 9), False),
        ((3, 50, 6), False),
        ((3, 50, 7), True),
        ((3, 51, 2), False),
        ((3, 51, 3), True),
        ((3, 53, 4), True),
        ((4, 0, 0), True),
    ],
)
def test_write_ahead_logging_only_where_it_is_sound(version: tuple[int, int, int], sound: bool) -> None:
    """SQLite release notes: the WAL-reset fault was fixed in 3.51.3, and in 3.44.6 and 3.50.7 (from memory)."""
    assert wal_is_sound(version) is sound
    assert journal_of(version) == (("WAL", "FULL") if sound else ("DELETE", "EXTRA"))


def test_the_book_is_kept_with_the_settings_of_its_library(tmp_path: Path) -> None:
    """Journal and syncing are set on the connection that writes, as is the guard against silent replacement."""
    read = new_kitchen(tmp_path)._connections.read
    mode, synchronous = journal_of(engine.sqlite_version_info)
    assert read("PRAGMA journal_mode") == [(mode.lower(),)]
    assert read("PRAGMA synchronous") == [({"FULL": 2, "EXTRA": 3}[synchronous],)]
    assert read("PRAGMA recursive_triggers") == [(1,)]


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("database or disk is full", CannotSave),
        ("disk I/O error", CannotSave),
        ("attempt to write a readonly database", CannotSave),
        ("database is locked", CannotSave),
        ("database disk image is malformed", DamagedKitchen),
        ("file is not a database", DamagedKitchen),
    ],
)
def test_errors_of_the_disk_are_told_in_plain_words(said: str, kind: type[Exception]) -> None:
    """Each comes out as one of ours; CannotSave is an OSError, which the edges know."""
    assert isinstance(in_plain_words(engine.OperationalError(said), Path("k.db")), kind)
    assert issubclass(CannotSave, OSError)


def test_an_unknown_error_comes_back_as_it_was() -> None:
    """What we do not understand is not dressed up."""
    problem = engine.OperationalError("near SELEKT")
    assert in_plain_words(problem, Path("k.db")) is problem
    assert isinstance(in_plain_words(engine.IntegrityError("x"), Path("k.db")), BookRefuses)


def test_each_thread_has_its_own_connection_and_ended_threads_leave_none(tmp_path: Path) -> None:
    """Connections are never shared between threads, and do not pile up."""
    file = new_kitchen(tmp_path)
    for number in range(1, 6):
        thread = threading.Thread(target=file.book.append, args=(deed(number),))
        thread.start()
        thread.join()
    assert len(file.book.since(0)) == 5
    assert len(file._connections._all) <= 2


@pytest.mark.skipif(not hasattr(os, "fork"), reason="there is no fork on this system")
@pytest.mark.filterwarnings("ignore:This process:DeprecationWarning")
def test_a_forked_child_opens_its_own_connection(tmp_path: Path) -> None:
    """No connection is carried over a fork (SQLite, "How To Corrupt An SQLite Database File", section 2.6)."""
    file = new_kitchen(tmp_path)
    file.book.append(deed(1))
    child = os.fork()
    if child == 0:
        try:
            file.book.append(deed(2))
            os._exit(0)
        finally:
            os._exit(1)
    assert os.waitpid(child, 0)[1] == 0
    file.book.append(deed(3))
    assert [entry.key for entry in file.book.since(0)] == ["key-1", "key-2", "key-3"]
    assert file.verify().is_whole


def test_nested_writing_is_one_transaction(tmp_path: Path) -> None:
    """The inner one does not commit the outer one's work."""
    connections = Connections(tmp_path / "k.db", make=True)
    connections.write("CREATE TABLE t (n INTEGER)")

    def write_and_fail() -> None:
        with connections.writing():
            with connections.writing():
                connections.write("INSERT INTO t VALUES (1)")
            raise RuntimeError

    with pytest.raises(RuntimeError):
        write_and_fail()
    assert connections.read("SELECT * FROM t") == []
    connections.close()


CROWD = """
import sys, threading
from pathlib import Path
from trainer.store.kitchen_file import KitchenFile
file = KitchenFile.open(Path(sys.argv[1]))
for _ in range(40):
    crowd = [threading.Thread(target=file.book.head) for _ in range(24)]
    [one.start() for one in crowd], [one.join() for one in crowd]
file.close()
"""


def test_many_threads_that_come_and_go_close_each_connection_once(tmp_path: Path) -> None:
    """Two that closed the same one at a time took the whole process down: nothing was lost, and everybody waited."""
    file = new_kitchen(tmp_path)
    file.close()
    outcome = run_python(CROWD, str(file.folder))
    assert (outcome.returncode, outcome.stderr) == (0, "")
