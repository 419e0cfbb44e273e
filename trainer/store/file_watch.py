"""Notices when the file under a running program is not the one it opened: exchanged, moved, deleted or damaged.

SQLite itself goes on writing to a file that was moved away, and cannot tell a file copied over its own. So before a
transaction writes, and again before it may be said to be saved, the file and its journal must be the ones opened (by
device and inode), the kitchen must have its id, and the last entry seen must have its hash. The file's size and times
change only where the journal is folded into it. `Connections` does that by itself and counts it in the file's own head
(its application id); any other change is looked into: the count and the size never fall, and the whole book is checked.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from trainer.messages import Text, message
from trainer.store.book_check import BookCheck, verify_file
from trainer.store.engine import engine
from trainer.store.problems import ReadingOnly

Place = tuple[int, int]
"""A file's device and inode."""
Stamp = tuple[int, int, int]
"""A file's size, and when its content and its inode changed."""

EXCHANGED = message("The file under this server was exchanged. Reading only.")
GONE = message("The file under this server was moved or deleted. Reading only.")
JOURNAL_GONE = message("The journal beside the book was moved or deleted. Reading only.")
DAMAGED = message("The book is damaged. Reading only.")
JOURNALS = ("-wal", "-shm")


class FileWatch:
    """What one process knows of the file it opened. Used under the lock of anyone who writes; `read` by any thread."""

    def __init__(self, path: Path, *, has_journals: bool) -> None:
        self.path, self._file = path, os.fspath(path)
        self.kitchen = ""
        self.journal_size = 0
        self._journals = tuple(f"{path}{ending}" for ending in JOURNALS) if has_journals else ()
        self._place: Place | None = None
        self._journal_places: tuple[Place, ...] = ()
        self._stamp: Stamp = (0, 0, 0)
        self._folds = 0
        self._last = (0, "")
        self._pending = (0, "")
        self._lock = threading.Lock()
        self._stopped: Text = ""
        self._bad: tuple[Stamp, Text] | None = None

    def opening(self) -> None:
        """Refuse to open a file that is another one than this process opened before."""
        if self._place is not None:
            self._demand_the_file()

    def opened(self, *, is_first: bool) -> None:
        """Note which file was opened; `is_first` where no other connection of this process holds its journal."""
        if self._place is None:
            found = _status(self.path)
            self._place, self._stamp = (found.st_dev, found.st_ino), _stamp_of(found)
            self._folds = self._folds_in_file()
        if is_first:
            self._journal_places = tuple(_place_of(path) for path in self._journals)
        self.opening()

    def journals_closed(self) -> None:
        """The last connection was closed, and took the journal with it: the next one begins another."""
        self._journal_places = ()

    def forget(self) -> None:
        """Everything was closed: whatever is opened next is the book, as when a program starts."""
        self._place, self._stamp, self._bad, self._stopped = None, (0, 0, 0), None, ""
        self._journal_places, self._last, self._pending = (), (0, ""), (0, "")

    def stop_writing(self, reason: Text) -> None:
        """Refuse every write from now on, for this reason."""
        self._stopped = reason

    def reason_not_to_write(self) -> Text:
        """Return why nothing can be written, as far as one look at the folder tells; "" where it can."""
        if self._place is None:
            return self._stopped  # closed: there is no file to lose
        try:
            self._demand_the_file()
        except ReadingOnly as problem:
            return problem.reason
        if self._bad is not None and self._bad[0] == _stamp_of(_status(self.path)):
            return self._bad[1]
        return self._stopped

    def demand_unchanged(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Raise `ReadingOnly` unless a transaction just begun is in the file and the book this process knows."""
        if self._stopped:
            raise ReadingOnly(self._stopped)
        self.demand_only_we_touched_it()
        self.demand_the_book(connection)

    def demand_still_there(self) -> None:
        """Raise `ReadingOnly` unless what was just committed went into the file that is in its place."""
        if self._journals:
            self.demand_only_we_touched_it()
        else:
            self._demand_the_file()

    def changed_by_us(self) -> None:
        """Take the file as it is now for what this program made of it."""
        self._stamp = _stamp_of(_status(self.path))
        self._folds = max(self._folds, self._folds_in_file())

    def begin_at(self, seq: int, own_hash: str) -> None:
        """Note where the book ended when it was opened."""
        self._last = (seq, own_hash) if seq else (0, "")

    def wrote(self, seq: int, own_hash: str) -> None:
        """Note an entry put into the open transaction: known once that is committed."""
        self._pending = (seq, own_hash)

    def committed(self) -> None:
        """The open transaction was kept: its last entry must be there from now on."""
        with self._lock:
            self._last, self._pending = max(self._last, self._pending), (0, "")

    def taken_back(self) -> None:
        """The open transaction was taken back, and its entries with it."""
        self._pending = (0, "")

    def read(self, entries: Sequence[tuple[int, str, str]]) -> None:
        """Note entries that were read (seq, previous hash, own hash; first and last of an unbroken run).

        They count only where they follow on from what is known: another book's entries never stand in for it.
        """
        (first, before, first_hash), (last, _, last_hash) = entries[0], entries[-1]
        with self._lock:
            seq, known = self._last
            follows = {0: "", first - 1: before, first: first_hash, last: last_hash}.get(seq)
            if last > seq and (seq == 0 or follows == known):
                self._last = (last, last_hash)

    def _demand_the_file(self) -> os.stat_result:
        """Return the file's status; raise `ReadingOnly` where it or its journal is not the one that was opened.

        A book never gets shorter. A new connection to an empty file would drop the journal, and the entries in it.
        """
        try:
            found = os.stat(self._file)
        except OSError as problem:
            raise ReadingOnly(GONE) from problem
        if (found.st_dev, found.st_ino) != self._place or found.st_size < self._stamp[0]:
            raise ReadingOnly(EXCHANGED)
        for path, place in zip(self._journals, self._journal_places, strict=False):
            try:
                journal = os.stat(path)
            except OSError as problem:
                raise ReadingOnly(JOURNAL_GONE) from problem
            if (journal.st_dev, journal.st_ino) != place:
                raise ReadingOnly(JOURNAL_GONE)
            if path is self._journals[0]:
                self.journal_size = journal.st_size
        return found

    def demand_the_book(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Raise `ReadingOnly` unless the kitchen has its id and the last entry known its hash."""
        if not self.kitchen:
            return
        seq, known = self._last
        sql = (
            "SELECT (SELECT kitchen FROM settings WHERE kitchen = ?),"
            " (SELECT hash FROM book WHERE kitchen = ? AND seq = ?)"
        )
        kitchen, own_hash = connection.execute(sql, (self.kitchen, self.kitchen, seq)).fetchone()
        if kitchen != self.kitchen or (seq and own_hash != known):
            raise ReadingOnly(EXCHANGED)

    def demand_only_we_touched_it(self) -> None:
        """Raise `ReadingOnly` where another person changed the file, and it is not whole or not the book known here."""
        stamp = _stamp_of(self._demand_the_file())
        if stamp == self._stamp:
            return
        if self._bad is None or self._bad[0] != stamp:
            has_fallen = 0 <= self._folds_in_file() < self._folds
            self._bad = (stamp, EXCHANGED if has_fallen else self._wrong_with_the_book())
        if self._bad[1]:
            raise ReadingOnly(self._bad[1])
        self._stamp, self._folds = stamp, max(self._folds, self._folds_in_file())

    def _folds_in_file(self) -> int:
        """Return how often the journal was folded into the file, by its own head; -1 where it alone cannot be read.

        Only the engine may open the file: anyone who else closes it drops every lock this process has on it. Opened as
        immutable, it looks at the file alone, past the journal, which it would drop beside an empty file.
        """
        connection = None
        try:
            connection = engine.connect(f"{self.path.resolve().as_uri()}?mode=ro&immutable=1", uri=True)
            return int(connection.execute("PRAGMA application_id").fetchone()[0])
        except engine.Error:
            return -1  # half folded, on a full disk: with the journal it is whole, and only the whole is judged
        finally:
            if connection is not None:
                connection.close()

    def _wrong_with_the_book(self) -> Text:
        """Return what is wrong with the book as a new connection sees it, or ""."""
        seq, known = self._last
        check = verify_file(self.path, known)
        if check.problems:
            return damage_in_words(check)
        is_another = check.kitchen not in ("", self.kitchen) or (seq and check.up_to != seq)
        return EXCHANGED if is_another else ""


def damage_in_words(check: BookCheck) -> Text:
    """Return in one sentence what a check found damaged: from which entry on, where that can be told."""
    seqs = [problem.seq for problem in check.problems if problem.seq]
    return message("The book is damaged from entry {seq} on. Reading only.", seq=f"{min(seqs):,}") if seqs else DAMAGED


def _status(path: Path) -> os.stat_result:
    """Return a file's status; raise `ReadingOnly` where it is not there."""
    try:
        return path.stat()
    except OSError as problem:
        raise ReadingOnly(GONE) from problem


def _place_of(path: str) -> Place:
    """Return where a file lies; nowhere for one that is not there."""
    try:
        found = Path(path).stat()
    except OSError:
        return (0, 0)
    return (found.st_dev, found.st_ino)


def _stamp_of(found: os.stat_result) -> Stamp:
    """Return what changes about a file when it is written to."""
    return (found.st_size, found.st_mtime_ns, found.st_ctime_ns)
