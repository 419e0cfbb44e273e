"""Checks a book from its first entry to its last: each entry, the chain, tables and guards, a head kept elsewhere."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from trainer.kitchen.book import FIRST, KINDS, entry_hash, typed_head, unreadable_head
from trainer.messages import Text, message
from trainer.store.engine import engine

COLUMNS = 'seq, kitchen, id, kind, at, cook, "by", body, key, previous, hash'


@dataclass(frozen=True, slots=True)
class BookProblem:
    """The first entry at which the book no longer holds together (0: the file as a whole), and why."""

    seq: int
    problem: Text


@dataclass(frozen=True, slots=True)
class BookCheck:
    """What a check found: how many entries it could read, the hash of the last one, every problem, whose book it is.

    Where a check value kept elsewhere was looked for: `up_to` is the entry it is of, or `not_found` says why not.
    """

    entries: int
    head: str
    problems: tuple[BookProblem, ...]
    up_to: int = 0
    not_found: Text = ""
    kitchen: str = ""

    @property
    def is_whole(self) -> bool:
        """Return whether nothing was found wrong."""
        return not self.problems and not self.not_found


def verify_file(path: Path, kept_head: str = "") -> BookCheck:
    """Return what a check of the book in a file finds; a file that cannot be read is a finding, never an error.

    Seen: an entry changed, moved, taken out of the middle or put in; a file cut short inside its pages; damage to the
    tables and indexes. Not seen without *kept_head*: the last entries taken off the end, or a whole book written again
    by a person who owns the file. With *kept_head*, the check value of an entry written down elsewhere or its first 12
    signs, that entry must still be there; how the check went stands in `up_to` and `not_found`.
    """
    if not path.is_file():
        return BookCheck(0, FIRST, (BookProblem(0, f"There is no file {path}."),))
    walk = _Walk(typed_head(kept_head))
    connection = None
    try:
        connection = _read_only(path)
        for row in connection.execute(f"SELECT {COLUMNS} FROM book ORDER BY kitchen, seq"):  # noqa: S608 - fixed columns
            walk.take(row)
        walk.note_file_damage(connection)
    except (engine.Error, ValueError, OverflowError) as problem:
        walk.note(walk.count + 1, f"the file cannot be read here ({problem})")
    finally:
        if connection is not None:
            connection.close()
    return walk.result()


def _read_only(path: Path) -> Any:  # noqa: ANN401 - either SQLite module's connection
    """Return a connection that reads text as it stands, valid or not, so that a flipped bit is seen and not refused."""
    connection = engine.connect(path.resolve().as_uri() + "?mode=ro", uri=True, timeout=15, isolation_level=None)
    connection.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
    return connection


class _Walk:
    """Walks the rows from the first to the last and notes where the chain breaks: only the first break is named."""

    def __init__(self, sought: str) -> None:
        self.sought = sought
        self.unreadable = unreadable_head(sought) if sought else ""
        self.count = 0
        self.previous = FIRST
        self.kitchen = ""
        self.found: list[int] = []
        self.problems: list[BookProblem] = []

    def note(self, seq: int, problem: Text) -> None:
        """Note a problem."""
        self.problems.append(BookProblem(seq, problem))

    def take(self, row: tuple[Any, ...]) -> None:
        """Check one row against the one before it."""
        seq, kitchen = row[0], row[1]
        if kitchen != self.kitchen:
            self.kitchen, self.previous, self.count = str(kitchen), FIRST, 0
        wrong = "" if self.problems else self._wrong_with(row)
        if wrong:
            self.note(seq if isinstance(seq, int) else self.count + 1, wrong)
        self.count += 1
        self.previous = str(row[-1])
        if self.sought and not self.unreadable and self.previous.startswith(self.sought):
            self.found.append(self.count)

    def _wrong_with(self, row: tuple[Any, ...]) -> Text:
        """Return what is wrong with a row, or ""."""
        if not isinstance(row[0], int) or not all(isinstance(text, str) for text in row[1:]):
            return message("a column holds something that is not text")
        if row[0] != self.count + 1:
            return message("an entry is missing before this one: {due} was due", due=self.count + 1)
        if row[9] != self.previous:
            return message("it does not follow the entry before it: one of the two was changed")
        if entry_hash((str(row[0]), *row[1:10])) != row[10]:
            return message("what it says does not match its check value: it was changed")
        return "" if row[3] in KINDS else message("there is no kind of entry {kind}", kind=repr(row[3]))

    def note_file_damage(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Ask the engine for damage to tables and indexes; a lost guard counts as damage."""
        found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check(5)")]
        if found != ["ok"]:
            self.note(0, message("the file is damaged: {found}", found="; ".join(found)[:500]))
        guards = connection.execute("SELECT count(*) FROM sqlite_schema WHERE type='trigger' AND tbl_name='book'")
        if guards.fetchone()[0] != 4:
            self.note(0, message("the guards that refuse changes to the book are not all there"))

    def result(self) -> BookCheck:
        """Return the outcome, with what became of the check value looked for."""
        broken_at = min((problem.seq for problem in self.problems), default=self.count + 1)
        up_to = self.found[0] if len(self.found) == 1 and self.found[0] < broken_at else 0
        return BookCheck(self.count, self.previous, tuple(self.problems), up_to, self._not_found(), self.kitchen)

    def _not_found(self) -> Text:
        """Return why the check value looked for is of no entry, or of no single one; "" where all is well."""
        if not self.sought or self.sought == FIRST or len(self.found) == 1:
            return ""
        if self.found:
            return message(
                "More than one entry has a check value that begins with {head}. Type more of it.", head=self.sought
            )
        return self.unreadable or message(
            "No entry has a check value that begins with {head}. Compare it sign by sign with the paper. "
            "If it is the same, the end of the book was cut off or rewritten.",
            head=self.sought,
        )
