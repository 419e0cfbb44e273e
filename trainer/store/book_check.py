"""Checks a book from its first entry to its last, each kitchen in a file on its own.

What is checked: each entry, the chain, the tree, the texts kept beside it, the guards, and a head kept elsewhere.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from trainer.kitchen.book import EDITION, FIRST, FORM, KINDS, digest_of, entry_hash, typed_head, unreadable_head
from trainer.kitchen.tree import Peaks, as_bytes, leaf_of, root_of, with_leaf
from trainer.messages import Text, message
from trainer.store.book_rows import COLUMNS, COLUMNS_BEFORE, hashed_columns
from trainer.store.engine import engine
from trainer.store.guards import GUARDS, GUARDS_BEFORE

MOST_PROBLEMS = 20  # named of one kitchen


@dataclass(frozen=True, slots=True)
class BookProblem:
    """An entry at which a book does not hold together (0: the file, or the book as a whole), and why."""

    seq: int
    problem: Text


@dataclass(frozen=True, slots=True)
class KitchenCheck:
    """What the check of one kitchen's book found: its entries, the last one's hash, the tree's root, the problems."""

    kitchen: str
    entries: int
    head: str
    root: bytes
    problems: tuple[BookProblem, ...]


@dataclass(frozen=True, slots=True)
class BookCheck:
    """What a check of a file found: every kitchen in it, and what is wrong with the file as a whole.

    Where a check value kept elsewhere was looked for: `up_to` is the entry it is of, or `not_found` says why not.
    """

    kitchens: tuple[KitchenCheck, ...]
    in_file: tuple[BookProblem, ...] = ()
    up_to: int = 0
    not_found: Text = ""

    @property
    def problems(self) -> tuple[BookProblem, ...]:
        """Return every problem, the file's own last."""
        return (*(problem for each in self.kitchens for problem in each.problems), *self.in_file)

    @property
    def is_whole(self) -> bool:
        """Return whether nothing was found wrong."""
        return not self.problems and not self.not_found

    @property
    def entries(self) -> int:
        """Return how many entries the first kitchen's book has."""
        return self.kitchens[0].entries if self.kitchens else 0

    @property
    def head(self) -> str:
        """Return the hash of the last entry of the first kitchen's book."""
        return self.kitchens[0].head if self.kitchens else FIRST

    @property
    def kitchen(self) -> str:
        """Return the first kitchen's id; "" for a file without entries."""
        return self.kitchens[0].kitchen if self.kitchens else ""


def verify_file(path: Path, kept_head: str = "") -> BookCheck:
    """Return what a check of the books in a file finds; a file that cannot be read is a finding, never an error.

    Seen: an entry changed, moved, taken out or put in; a text the book names changed; a file cut short; damage to the
    tables, indexes and guards; entries taken off the end, unless the head kept in the file was set back as well. Not
    seen without *kept_head*: a whole book written again by a person who owns the file. With *kept_head*, the check
    value of an entry written down elsewhere or its first 12 signs, that entry must still be there; how the check went
    stands in `up_to` and `not_found`.
    """
    if not path.is_file():
        return BookCheck((), (BookProblem(0, f"There is no file {path}."),))
    found = _FileWalk(typed_head(kept_head))
    connection = None
    try:
        connection = _read_only(path)
        found.walk(connection)
    except (engine.Error, ValueError, OverflowError) as problem:
        found.note_unreadable(problem)
    finally:
        if connection is not None:
            connection.close()
    return found.result()


def _read_only(path: Path) -> Any:  # noqa: ANN401 - either SQLite module's connection
    """Return a connection that reads text as it stands, valid or not, so that a flipped bit is seen and not refused."""
    connection = engine.connect(path.resolve().as_uri() + "?mode=ro", uri=True, timeout=15, isolation_level=None)
    connection.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
    return connection


@dataclass(slots=True)
class _Walk:
    """Walks one kitchen's rows from the first to the last, and notes each place where they do not hold together."""

    kitchen: str
    sought: str = ""
    count: int = 0
    leaves: int = 0
    previous: str = FIRST
    edition: int = 1
    peaks: Peaks = ()
    found: list[int] = field(default_factory=list)
    problems: list[BookProblem] = field(default_factory=list)

    def note(self, seq: int, problem: Text) -> None:
        """Note a problem, up to as many as anybody reads."""
        if len(self.problems) < MOST_PROBLEMS:
            self.problems.append(BookProblem(seq, problem))

    def take(self, row: tuple[Any, ...]) -> None:
        """Check one row against the one before it."""
        wrong = self._wrong_with(row)
        if wrong:
            self.note(row[1] if isinstance(row[1], int) else self.count + 1, wrong)
        own_hash = str(row[13])
        self.peaks = with_leaf(self.peaks, self.leaves, _leaf(own_hash))
        self.leaves += 1
        self.count = row[1] if isinstance(row[1], int) and row[1] > self.count else self.count + 1
        self.previous = own_hash
        self.edition = row[14] if isinstance(row[14], int) else self.edition
        if self.sought and own_hash.startswith(self.sought):
            self.found.append(self.count)

    def _wrong_with(self, row: tuple[Any, ...]) -> Text:
        """Return what is wrong with a row, or ""."""
        kitchen, seq, *texts, edition = row
        if not isinstance(seq, int) or not all(isinstance(text, str) for text in (kitchen, *texts)):
            return message("a column holds something that is not text")
        if seq != self.count + 1:
            return message("an entry is missing before this one: {due} was due", due=self.count + 1)
        if row[12] != self.previous:
            return message("it does not follow the entry before it: one of the two was changed")
        if edition not in (1, EDITION) or edition < self.edition or (edition == 1 and (row[5] + row[6] + row[9])):
            return message("its edition was changed, or it was written by a newer program")
        if entry_hash(hashed_columns(row)) != row[13]:
            return message("what it says does not match its check value: it was changed")
        return _unknown(row[3], row[10])

    def compare_head(self, head: tuple[Any, ...] | None) -> None:
        """Compare the entries with the head kept beside them."""
        if head is None:
            self.note(0, message("the head kept beside the book is not there"))
        elif head[0] != self.leaves:
            words = message("the book has {count} entries and its head says {seq}", count=self.leaves, seq=head[0])
            self.note(0, words)
        elif head[1:] != (self.previous, as_bytes(self.peaks)):
            self.note(0, message("the head kept beside the book is that of another book"))

    def result(self) -> KitchenCheck:
        """Return the outcome for this kitchen."""
        return KitchenCheck(self.kitchen, self.leaves, self.previous, root_of(self.peaks), tuple(self.problems))


def _leaf(own_hash: str) -> bytes:
    """Return the leaf of an entry; of one whose check value is damaged, that of the damaged text."""
    try:
        return leaf_of(own_hash)
    except ValueError:
        return leaf_of(digest_of(own_hash.encode("utf-8", "surrogateescape")))


def _unknown(kind: str, body: str) -> Text:
    """Return what this program does not know about an entry that is whole, or ""."""
    if kind not in KINDS:
        return message("there is no kind of entry {kind}", kind=repr(kind))
    said = json.loads(body)
    return "" if said.get(FORM, 1) <= EDITION else message("its form was written by a newer program")


class _FileWalk:
    """Walks every kitchen's book in a file, then what lies beside the books."""

    def __init__(self, sought: str) -> None:
        self.unreadable = unreadable_head(sought) if sought else ""
        self.sought = "" if self.unreadable else sought
        self.kitchens: list[_Walk] = []
        self.in_file: list[BookProblem] = []

    def walk(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Walk the books, then the heads, texts, guards and the file itself."""
        is_old = not connection.execute("SELECT 1 FROM pragma_table_info('book') WHERE name = 'day'").fetchall()
        columns = COLUMNS_BEFORE if is_old else COLUMNS
        for row in connection.execute(f"SELECT {columns} FROM book ORDER BY kitchen, seq"):  # noqa: S608 - fixed columns
            if not self.kitchens or row[0] != self.kitchens[-1].kitchen:
                self.kitchens.append(_Walk(str(row[0]), self.sought))
            self.kitchens[-1].take(row)
        if not is_old:
            self._compare_heads(connection)
            self._read_papers(connection)
        self._note_file_damage(connection, is_old=is_old)

    def _compare_heads(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        rows = connection.execute("SELECT kitchen, seq, hash, frontier FROM heads")
        heads = {kitchen: tuple(rest) for kitchen, *rest in rows}
        for walk in self.kitchens:
            walk.compare_head(heads.pop(walk.kitchen, None))
        for kitchen, (seq, *_) in heads.items():
            gone = _Walk(kitchen)
            gone.note(0, message("the book has {count} entries and its head says {seq}", count=0, seq=seq))
            self.kitchens.append(gone)

    def _read_papers(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Work out the digest of every text kept beside the books."""
        by_kitchen: Mapping[str, _Walk] = {walk.kitchen: walk for walk in self.kitchens}
        for kitchen, digest, text in connection.execute("SELECT kitchen, hash, bytes FROM papers"):
            if not isinstance(text, bytes) or digest_of(text) != digest:
                words = message("a text kept beside the book was changed: {digest}", digest=str(digest)[:12])
                if kitchen in by_kitchen:
                    by_kitchen[kitchen].note(0, words)
                else:
                    self.in_file.append(BookProblem(0, words))

    def _note_file_damage(self, connection: Any, *, is_old: bool) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Ask the engine for damage to tables and indexes; a guard that is lost or reads otherwise counts as damage."""
        found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check(5)")]
        if found != ["ok"]:
            self.in_file.append(BookProblem(0, message("the file is damaged: {found}", found="; ".join(found)[:500])))
        if not _guards_are_whole(connection, is_old=is_old):
            words = message("the guards that refuse changes to the book are not all there")
            self.in_file.append(BookProblem(0, words))

    def note_unreadable(self, problem: Exception) -> None:
        """Note that the file could not be read on."""
        words = f"the file cannot be read here ({problem})"
        if self.kitchens:
            self.kitchens[-1].note(self.kitchens[-1].count + 1, words)
        else:
            self.in_file.append(BookProblem(1, words))

    def result(self) -> BookCheck:
        """Return the outcome, with what became of the check value looked for."""
        checks = tuple(walk.result() for walk in self.kitchens)
        found = [(walk, seq) for walk in self.kitchens for seq in walk.found]
        up_to = 0
        if len(found) == 1:
            walk, seq = found[0]
            broken = min((p.seq for p in (*walk.problems, *self.in_file)), default=seq + 1)
            up_to = seq if seq < broken else 0
        return BookCheck(checks, tuple(self.in_file), up_to, self._not_found(len(found)))

    def _not_found(self, times: int) -> Text:
        """Return why the check value looked for is of no entry, or of no single one; "" where all is well."""
        if self.unreadable or not self.sought or self.sought == FIRST or times == 1:
            return self.unreadable
        if times:
            return message(
                "More than one entry has a check value that begins with {head}. Type more of it.", head=self.sought
            )
        return message(
            "No entry has a check value that begins with {head}. Compare it sign by sign with the paper. "
            "If it is the same, the end of the book was cut off or rewritten.",
            head=self.sought,
        )


def _guards_are_whole(connection: Any, *, is_old: bool) -> bool:  # noqa: ANN401 - either SQLite module's connection
    """Return whether every guard of the book is there and reads as it was written."""
    found = dict(connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'"))
    guards = GUARDS_BEFORE if is_old else GUARDS
    return all(" ".join(found.get(name, "").split()) == " ".join(sql.split()) for name, sql in guards.items())
