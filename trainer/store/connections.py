"""One connection a thread to a kitchen's SQLite file, one writer at a time, and errors put into plain words."""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from trainer.store.engine import engine
from trainer.store.file_watch import DAMAGED, GONE, FileWatch
from trainer.store.problems import BookRefuses, CannotSave, DamagedKitchen, ReadingOnly

BUSY_SECONDS = 15
FOLD_AFTER = 100  # transactions, or
FOLD_AT = 4_000_000  # bytes of new journal, it is folded into the file; and after the first one of every program
MOST_FOLDS = 2**31 - 1
__all__ = ["Connections", "engine", "in_plain_words", "journal_of", "wal_is_sound"]

Value = str | int | bytes | None
SOUND_BACK_PORTS = {(3, 44): 6, (3, 50): 7}
SETTINGS = ("recursive_triggers=ON", "secure_delete=ON")  # the first for the guards, the second: erased is gone
NO_ROOM = ("full", "disk i/o error", "readonly", "unable to open", "locked", "file too large")
BROKEN = ("malformed", "not a database", "could not decode", "schema", "no such table", "no such column")


def wal_is_sound(version: tuple[int, int, int]) -> bool:
    """Return whether write-ahead logging may be used: from 3.51.3 on, or in the 3.44.6 and 3.50.7 back-ports."""
    return version >= (3, 51, 3) or version[2] >= SOUND_BACK_PORTS.get(version[:2], 1000)


def journal_of(version: tuple[int, int, int]) -> tuple[str, str]:
    """Return the journal mode and the synchronous setting that lose no acknowledged entry under a library version."""
    return ("WAL", "FULL") if wal_is_sound(version) else ("DELETE", "EXTRA")


def in_plain_words(problem: Exception, path: Path) -> Exception:
    """Return the engine's error as one of ours, in plain words; an error we do not know comes back as it was."""
    text = str(problem).lower()
    if isinstance(problem, engine.IntegrityError):
        return BookRefuses(str(problem))
    if any(sign in text for sign in NO_ROOM):
        return CannotSave(f"The disk would not take it ({problem}).")
    if any(sign in text for sign in BROKEN):
        return DamagedKitchen(
            f"{path} is damaged and cannot be read ({problem}). Keep a copy of it as it is, then take "
            "the last good backup with: trainer restore FILE"
        )
    return problem


class Connections:
    """The connections to one file. Safe to share between threads; after a fork the child opens its own."""

    def __init__(self, path: Path, *, make: bool = False) -> None:
        """Take the file at *path*; one that is not there is made only where *make* says so."""
        self.path = path
        self._make = make
        mode, self._synchronous = journal_of(engine.sqlite_version_info)
        self._mode = mode
        self.watch = FileWatch(path, has_journals=mode == "WAL")
        self._since_folded, self._fold_at = FOLD_AFTER, FOLD_AT
        self._local = threading.local()
        self._writer = threading.RLock()
        self._all: list[tuple[threading.Thread, Any]] = []
        self._listing = threading.Lock()  # of the list of all: a connection is closed once, by one thread
        self._process = os.getpid()

    def _open(self) -> Any:  # noqa: ANN401 - either SQLite module's connection
        """Return a new connection with the journal and the guards set."""
        self.watch.opening()
        connection = engine.connect(
            f"{self.path.resolve().as_uri()}?mode={'rwc' if self._make else 'rw'}",
            uri=True,
            timeout=BUSY_SECONDS,
            isolation_level=None,
            check_same_thread=False,
            cached_statements=64,
        )
        lines = (f"journal_mode={self._mode}", f"synchronous={self._synchronous}", *SETTINGS)
        try:
            for line in (*lines, "wal_autocheckpoint=0", "schema_version"):  # the last one opens the journal
                connection.execute(f"PRAGMA {line}").fetchall()
            self._make = False
            self.watch.opened(is_first=not self._all)
        except (engine.Error, ReadingOnly):
            connection.close()
            raise
        return connection

    def _mine(self) -> Any:  # noqa: ANN401 - either SQLite module's connection
        """Return this thread's connection, opening it at the first use in this process."""
        if self._process != os.getpid():
            self._local, self._writer, self._all = threading.local(), threading.RLock(), []
            self._listing = threading.Lock()
            self._process = os.getpid()
        if getattr(self._local, "connection", None) is None:
            try:
                self._local.connection = self._open()
            except ReadingOnly:
                return self._still_open()
            self._list_mine()
        return self._local.connection

    def _still_open(self) -> Any:  # noqa: ANN401 - either SQLite module's connection
        """Return a connection that still has the file which is no longer in its place, to read from.

        Nothing is written through it by another thread than its own: a write is refused before it begins.
        """
        if not self._all:
            raise ReadingOnly(GONE)
        return self._all[0][1]

    def is_writing(self) -> bool:
        """Return whether this thread has a transaction open."""
        connection = getattr(self._local, "connection", None)
        return connection is not None and bool(connection.in_transaction)

    def _list_mine(self) -> None:
        """Put this thread's connection on the list, and close those of threads that have ended."""
        with self._listing:
            ended = [pair for pair in self._all if not pair[0].is_alive()]
            self._all = [pair for pair in self._all if pair not in ended]
            self._all.append((threading.current_thread(), self._local.connection))
        for _, connection in ended:
            connection.close()

    def _drop(self) -> None:
        """Close this thread's connection, so that the next use starts again: after a failed sync nothing is trusted."""
        connection = getattr(self._local, "connection", None)
        self._local.connection = None
        if connection is not None:
            with self._listing:
                self._all = [pair for pair in self._all if pair[1] is not connection]
            with suppress(engine.Error):
                connection.close()
            if not self._all:
                self.watch.journals_closed()

    def _plain(self, problem: Exception) -> Exception:
        """Return an error of the engine as one of ours; drop the connection where it cannot be trusted."""
        plain = in_plain_words(problem, self.path)
        if isinstance(plain, CannotSave | DamagedKitchen):
            self._drop()
        return plain

    @contextmanager
    def _told_plainly(self) -> Iterator[None]:
        """Run the body; raise the engine's errors as ours."""
        try:
            yield
        except engine.Error as problem:
            raise self._plain(problem) from problem

    def read(self, sql: str, values: Sequence[Value] = ()) -> list[tuple[Any, ...]]:
        """Return all rows of a query; inside `writing` it sees what that transaction wrote.

        A text asked for that UTF-8 cannot write (half a character) is in no row.
        """
        try:
            rows: list[tuple[Any, ...]] = self._mine().execute(sql, values).fetchall()
        except UnicodeEncodeError:
            return []
        except UnicodeDecodeError as problem:  # the engine's own message quotes a broken name in the file
            raise self._plain(engine.DatabaseError("malformed")) from problem
        except engine.Error as problem:
            raise self._plain(problem) from problem
        return rows

    def write(self, sql: str, values: Sequence[Value] = ()) -> int:
        """Run one statement that changes something, in its own transaction unless one is open; return rows changed."""
        if not self.is_writing():
            with self.writing():
                return self.write(sql, values)
        try:
            return int(self._mine().execute(sql, values).rowcount)
        except engine.Error as problem:
            raise self._plain(problem) from problem

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Hold the write lock and one transaction: all the body writes is kept, or none of it. May be nested."""
        with self._writer, self._refusing_what_is_damaged():
            if self.is_writing():
                yield
                return
            self.watch.opening()
            connection = self._mine()
            connection.execute("BEGIN IMMEDIATE")
            try:
                self.watch.demand_unchanged(connection)
                yield
                self.watch.demand_only_we_touched_it()
                connection.execute("COMMIT")
            except BaseException:
                self.watch.taken_back()
                with suppress(engine.Error):
                    if connection.in_transaction:
                        connection.execute("ROLLBACK")
                raise
            self._after_commit(connection)

    @contextmanager
    def _refusing_what_is_damaged(self) -> Iterator[None]:
        """Run the body that writes; damage found on the way leaves the book for reading only."""
        try:
            with self._told_plainly():
                yield
        except DamagedKitchen as problem:
            raise ReadingOnly(DAMAGED) from problem

    def _after_commit(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Make sure that what was committed can be said to be saved; now and then fold the journal into the file."""
        self.watch.demand_still_there()
        self.watch.committed()
        if self._mode != "WAL":
            self.watch.demand_the_book(connection)  # every commit changes the file: what is in it tells more
            self.watch.changed_by_us()
        self._since_folded += 1
        if self._mode == "WAL" and (self._since_folded >= FOLD_AFTER or self.watch.journal_size > self._fold_at):
            self._since_folded, self._fold_at = 0, self.watch.journal_size + FOLD_AT
            with suppress(engine.Error):  # what was committed is saved; the journal can be folded another time
                self._fold(connection)

    def _fold(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Fold the journal into the file, and count that in the file's head: an older copy put over it has less."""
        folds = int(connection.execute("PRAGMA application_id").fetchone()[0])
        connection.execute(f"PRAGMA application_id = {min(folds + 1, MOST_FOLDS)}")
        connection.execute("PRAGMA wal_checkpoint(PASSIVE)").fetchall()
        self.watch.changed_by_us()

    def wipe(self) -> None:
        """Empty the journal into the file, so that what was just taken out is nowhere on the disk under this kitchen.

        Where another program reads at this moment, the journal is emptied at its next folding.
        """
        if self._mode == "WAL":
            with self._writer, self._told_plainly():
                connection = self._mine()
                self._fold(connection)
                connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
                self.watch.changed_by_us()

    def borrowed(self) -> Any:  # noqa: ANN401 - either SQLite module's connection
        """Return this thread's connection itself, for migrations, checks and backups."""
        with self._told_plainly():
            return self._mine()

    def close(self) -> None:
        """Close every connection of this process; the object opens new ones if it is used again."""
        everything, self._all = self._all, []
        self._local = threading.local()
        for _, connection in everything:
            connection.close()
        self.watch.forget()
