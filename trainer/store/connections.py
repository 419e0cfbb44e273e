"""One connection a thread to a kitchen's SQLite file, one writer at a time, and errors put into plain words."""

from __future__ import annotations

import os
import sqlite3 as standard_sqlite
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from trainer.store.problems import BookRefuses, CannotSave, DamagedKitchen

try:
    from pysqlite3 import dbapi2 as engine
except ImportError:  # no wheel for this machine: the interpreter's own library, with the careful journal
    engine = standard_sqlite

BUSY_SECONDS = 15
__all__ = ["Connections", "engine", "in_plain_words", "journal_of", "wal_is_sound"]

Value = str | int | None
SOUND_BACK_PORTS = {(3, 44): 6, (3, 50): 7}
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
            f"{path} is damaged and cannot be read ({problem}). Keep a copy of it as it is, then restore a backup."
        )
    return problem


class Connections:
    """The connections to one file. Safe to share between threads; after a fork the child opens its own."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._local = threading.local()
        self._writer = threading.RLock()
        self._all: list[tuple[threading.Thread, Any]] = []
        self._process = os.getpid()

    def _open(self) -> Any:  # noqa: ANN401 - either SQLite module's connection
        """Return a new connection with the journal and the guards set."""
        connection = engine.connect(
            str(self.path), timeout=BUSY_SECONDS, isolation_level=None, check_same_thread=False, cached_statements=64
        )
        mode, synchronous = journal_of(engine.sqlite_version_info)
        try:
            for line in (f"journal_mode={mode}", f"synchronous={synchronous}", "recursive_triggers=ON"):
                connection.execute(f"PRAGMA {line}").fetchall()
        except engine.Error:
            connection.close()
            raise
        return connection

    def _mine(self) -> Any:  # noqa: ANN401 - either SQLite module's connection
        """Return this thread's connection, opening it at the first use in this process."""
        if self._process != os.getpid():
            self._local, self._writer, self._all = threading.local(), threading.RLock(), []
            self._process = os.getpid()
        if getattr(self._local, "connection", None) is None:
            self._local.connection = self._open()
            self._close_left_behind()
            self._all.append((threading.current_thread(), self._local.connection))
        return self._local.connection

    def _close_left_behind(self) -> None:
        """Close the connections of threads that have ended."""
        for thread, connection in list(self._all):
            if not thread.is_alive():
                connection.close()
                with suppress(ValueError):
                    self._all.remove((thread, connection))

    def _drop(self) -> None:
        """Close this thread's connection, so that the next use starts anew: after a failed sync nothing is trusted."""
        connection = getattr(self._local, "connection", None)
        self._local.connection = None
        if connection is not None:
            self._all = [pair for pair in self._all if pair[1] is not connection]
            with suppress(engine.Error):
                connection.close()

    @contextmanager
    def _told_plainly(self) -> Iterator[None]:
        """Run the body; raise the engine's errors as ours, and drop the connection where it cannot be trusted."""
        try:
            yield
        except engine.Error as problem:
            plain = in_plain_words(problem, self.path)
            if isinstance(plain, CannotSave | DamagedKitchen):
                self._drop()
            raise plain from problem

    def read(self, sql: str, values: Sequence[Value] = ()) -> list[tuple[Any, ...]]:
        """Return all rows of a query; inside `writing` it sees what that transaction wrote.

        A text asked for that UTF-8 cannot write (half a character) is in no row.
        """
        with self._told_plainly():
            try:
                rows: list[tuple[Any, ...]] = self._mine().execute(sql, values).fetchall()
            except UnicodeEncodeError:
                return []
            except UnicodeDecodeError as problem:  # the engine's own message quotes a broken name in the file
                raise engine.DatabaseError("malformed") from problem
            return rows

    def write(self, sql: str, values: Sequence[Value] = ()) -> int:
        """Run one statement that changes something, in its own transaction unless one is open; return rows changed."""
        with self.writing():
            return int(self._mine().execute(sql, values).rowcount)

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Hold the write lock and one transaction: all the body writes is kept, or none of it. May be nested."""
        with self._writer, self._told_plainly():
            connection = self._mine()
            if connection.in_transaction:
                yield
                return
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield
                connection.execute("COMMIT")
            except BaseException:
                with suppress(engine.Error):
                    if connection.in_transaction:
                        connection.execute("ROLLBACK")
                raise

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
