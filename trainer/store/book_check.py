"""Checks a book from its first entry to its last, each kitchen in a file on its own.

What is checked: each entry, the chain, the tree, the texts kept beside it, the guards, and a head kept elsewhere.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from trainer.kitchen.book import FIRST, digest_of
from trainer.kitchen.short_head import OldHead, ShortHead, read_head
from trainer.messages import Text, message
from trainer.store.book_rows import COLUMNS, COLUMNS_BEFORE
from trainer.store.book_walk import GUARDS_LOST, BookProblem, KitchenCheck, KitchenWalk
from trainer.store.engine import engine
from trainer.store.guards import GUARDS, GUARDS_BEFORE
from trainer.store.reading import reading

__all__ = ["BookCheck", "BookProblem", "KitchenCheck", "verify_file"]


@dataclass(frozen=True, slots=True)
class BookCheck:
    """What a check of a file found: every kitchen in it, and what is wrong with the file as a whole.

    Where a check value kept elsewhere was looked for: `up_to` is the entry it is of, or `not_found` says why not;
    `weak` says so of one that another book could be made to fit.
    """

    kitchens: tuple[KitchenCheck, ...]
    in_file: tuple[BookProblem, ...] = ()
    up_to: int = 0
    not_found: Text = ""
    weak: Text = ""

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
    def short_head(self) -> str:
        """Return the first kitchen's head as it is printed; "" for a book without entries."""
        return self.kitchens[0].short_head if self.kitchens else ""

    @property
    def kitchen(self) -> str:
        """Return the first kitchen's id; "" for a file without entries."""
        return self.kitchens[0].kitchen if self.kitchens else ""


def verify_file(path: Path, kept_head: str = "") -> BookCheck:
    """Return what a check of the books in a file finds; a file that cannot be read is a finding, never an error.

    Seen: an entry changed, moved, taken out or put in; a text the book names changed; a file cut short; damage to the
    tables, indexes and guards; entries taken off the end, unless the head kept in the file was set back as well. Not
    seen without *kept_head*: a whole book written again by a person who owns the file. With *kept_head*, a short head
    written down elsewhere, the first entries must still be those it was made of; with one of an older sheet, the first
    12 signs or more of an entry's hash, that entry must still be there. `up_to` and `not_found` say how this went.
    """
    if not path.is_file():
        return BookCheck((), (BookProblem(0, f"There is no file {path}."),))
    sought = read_head(kept_head)
    try:
        return _checked(path, sought, str)
    except engine.OperationalError:  # text that cannot be decoded: each byte is looked at as it stands
        return _checked(path, sought, _as_it_stands)


def _as_it_stands(raw: bytes) -> str:
    """Return a text with each byte that is no UTF-8 in its place."""
    return raw.decode("utf-8", "surrogateescape")


def _checked(path: Path, sought: ShortHead | OldHead | Text, text_factory: Any) -> BookCheck:  # noqa: ANN401 - SQLite's
    """Return what a check finds, with text read in one way; a text that this cannot read is raised."""
    found = _FileWalk(sought)
    try:
        with reading(path) as connection:
            connection.text_factory = text_factory
            found.walk(connection)
    except (engine.Error, ValueError, OverflowError) as problem:
        if text_factory is str and "decode" in str(problem).lower():
            raise engine.OperationalError(str(problem)) from problem
        found.note_unreadable(problem)
    return found.result()


def check_end(path: Path, kitchen: str, most: int = 1000) -> BookCheck:
    """Return what a check of a kitchen's last entries and head finds; what stands before them is not looked at.

    It is quick in a book of any length.
    """
    walk = KitchenWalk(kitchen)
    try:
        with reading(path) as connection:
            connection.text_factory = _as_it_stands
            sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? ORDER BY seq DESC LIMIT ?"  # noqa: S608 - fixed columns
            rows = connection.execute(sql, (kitchen, most)).fetchall()[::-1]
            if rows:
                walk.count, walk.previous, walk.edition = rows[0][1] - 1, rows[0][12], rows[0][14]
            for row in rows:
                walk.take(row)
            head = connection.execute("SELECT seq, hash FROM heads WHERE kitchen = ?", (kitchen,)).fetchone()
            if (head or (0, FIRST)) != (walk.count, walk.previous):
                walk.note(0, message("the head kept beside the book is that of another book"))
    except (engine.Error, ValueError, TypeError) as problem:
        walk.note(walk.count + 1, f"the file cannot be read here ({problem})")
    return BookCheck((walk.result(),))


class _FileWalk:
    """Walks every kitchen's book in a file, then what lies beside the books."""

    def __init__(self, sought: ShortHead | OldHead | Text) -> None:
        self.sought = sought
        self.kitchens: list[KitchenWalk] = []
        self.in_file: list[BookProblem] = []

    def walk(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Walk the books, then the heads, texts, guards and the file itself."""
        is_old = not connection.execute("SELECT 1 FROM pragma_table_info('book') WHERE name = 'day'").fetchall()
        columns = COLUMNS_BEFORE if is_old else COLUMNS
        begins = self.sought.signs if isinstance(self.sought, OldHead) else ""
        walk = None
        for row in connection.execute(f"SELECT {columns} FROM book ORDER BY kitchen, seq"):  # noqa: S608 - fixed columns
            if walk is None or row[0] != walk.kitchen:
                walk = KitchenWalk(str(row[0]), begins)
                self.kitchens.append(walk)
            walk.take(row)
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
            gone = KitchenWalk(kitchen)
            gone.note(0, message("the book has {count} entries and its head says {seq}", count=0, seq=seq))
            self.kitchens.append(gone)

    def _read_papers(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Work out the digest of every text kept beside the books, and look for those that entries name."""
        by_kitchen: Mapping[str, KitchenWalk] = {walk.kitchen: walk for walk in self.kitchens}
        there: dict[str, set[str]] = {walk.kitchen: set() for walk in self.kitchens}
        for kitchen, digest, text in connection.execute("SELECT kitchen, hash, bytes FROM papers"):
            there.setdefault(kitchen, set()).add(digest)
            if not isinstance(text, bytes) or digest_of(text) != digest:
                words = message("a text kept beside the book was changed: {digest}", digest=str(digest)[:12])
                if kitchen in by_kitchen:
                    by_kitchen[kitchen].note(0, words)
                else:
                    self.in_file.append(BookProblem(0, words))
        for walk in self.kitchens:
            walk.compare_texts(there[walk.kitchen])

    def _note_file_damage(self, connection: Any, *, is_old: bool) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Ask the engine for damage to tables and indexes; a guard that is lost or reads otherwise counts as damage."""
        found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check(5)")]
        if found != ["ok"]:
            self.in_file.append(BookProblem(0, message("the file is damaged: {found}", found="; ".join(found)[:500])))
        if not _guards_are_whole(connection, is_old=is_old):
            self.in_file.append(BookProblem(0, GUARDS_LOST))

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
        found = self._found()
        up_to = 0
        if len(found) == 1:
            walk, seq = found[0]
            broken = min((p.seq for p in (*walk.problems, *self.in_file)), default=seq + 1)
            up_to = seq if seq < broken else 0
        weak = WEAK if isinstance(self.sought, OldHead) and self.sought.is_weak and up_to else ""
        return BookCheck(checks, tuple(self.in_file), up_to, self._not_found(len(found)), weak)

    def _found(self) -> list[tuple[KitchenWalk, int]]:
        """Return every entry the check value looked for can be of: a short head's last one, where the tree says so."""
        if not isinstance(self.sought, ShortHead):
            return [(walk, seq) for walk in self.kitchens for seq in walk.found]
        size = self.sought.size
        longest = [walk for walk in self.kitchens if len(walk.leaves) >= size]
        return [(walk, size) for walk in longest if ShortHead.of(size, walk.root(size)) == self.sought]

    def _not_found(self, times: int) -> Text:
        """Return why the check value looked for is of no entry, or of no single one; "" where all is well."""
        if isinstance(self.sought, OldHead):
            return _old_not_found(self.sought, times)
        if not isinstance(self.sought, ShortHead):
            return self.sought
        if times:
            return "" if times == 1 else message("More than one kitchen in this file has this check value.")
        size, most = self.sought.size, max((len(walk.leaves) for walk in self.kitchens), default=0)
        if size > most:
            return message(
                "This check value is of {size} entries, and the book has {count}: its end was cut off, or the value is "
                "another kitchen's.",
                size=f"{size:,}",
                count=f"{most:,}",
            )
        return message(
            "The first {size} entries are not those this check value was made of: the book was rewritten, or the value "
            "is another kitchen's.",
            size=f"{size:,}",
        )


WEAK = message(
    "This is a short value of an older sheet, and weak: another book could be made to fit it. Print a new one."
)


def _old_not_found(sought: OldHead, times: int) -> Text:
    """Return why the first signs of a hash are of no entry, or of no single one; "" where they are of one."""
    if times == 1 or sought.signs == FIRST:
        return ""
    if times:
        return message(
            "More than one entry has a check value that begins with {head}. Type more of it.", head=sought.signs
        )
    return message(
        "No entry has a check value that begins with {head}. Compare it sign by sign with the paper. "
        "If it is the same, the end of the book was cut off or rewritten.",
        head=sought.signs,
    )


def _guards_are_whole(connection: Any, *, is_old: bool) -> bool:  # noqa: ANN401 - either SQLite module's connection
    """Return whether every guard of the book is there and reads as it was written."""
    found = dict(connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'"))
    guards = GUARDS_BEFORE if is_old else GUARDS
    return all(" ".join(found.get(name, "").split()) == " ".join(sql.split()) for name, sql in guards.items())
