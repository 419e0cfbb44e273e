"""The record book: entries added at its end, never changed, each sealed with the hash of the one before it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from trainer.kitchen.book import FIRST, KINDS, Deed, Entry, canonical, entry_hash, moment_text
from trainer.recipe_math.saying import say
from trainer.store.connections import Connections, engine
from trainer.store.identity import moment, new_id
from trainer.store.problems import BookRefuses, DamagedKitchen, KeyReused

COLUMNS = 'seq, kitchen, id, kind, at, cook, "by", body, key, previous, hash'
LONGEST_NAME = 200  # of a cook's id, a key
LONGEST_BODY = 1_000_000


@dataclass(frozen=True, slots=True)
class BookProblem:
    """The first entry at which the book no longer holds together (0: the file as a whole), and why."""

    seq: int
    problem: str


@dataclass(frozen=True, slots=True)
class BookCheck:
    """What a check found: how many entries it could read, the hash of the last one, and every problem."""

    entries: int
    head: str
    problems: tuple[BookProblem, ...]

    @property
    def is_whole(self) -> bool:
        """Return whether nothing was found wrong."""
        return not self.problems


class Book:
    """The entries of one kitchen. Several threads and processes may add to it; the file's lock gives the order."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def append(self, deed: Deed) -> Entry:
        """Return the deed's entry once it is durably kept; "saved" may be said when this returns, and not before.

        The same key sent again with the same content returns the entry already there and writes nothing; with other
        content it raises `KeyReused`. `at` does not count as content: a second try is later than the first.
        """
        _refuse_what_is_not_plain(deed)
        with self._connections.writing():
            there = self._where("key", deed.key)
            if there is not None:
                return _the_same(there, deed)
            seq, previous = self.end()
            entry = _sealed(deed, self._kitchen, seq + 1, previous)
            self._connections.write(f"INSERT INTO book ({COLUMNS}) VALUES (?,?,?,?,?,?,?,?,?,?,?)", _row(entry))  # noqa: S608
        return entry

    def end(self) -> tuple[int, str]:
        """Return the last entry's seq and hash; 0 and 64 zeros for an empty book."""
        sql = "SELECT seq, hash FROM book WHERE kitchen = ? ORDER BY seq DESC LIMIT 1"
        rows = self._connections.read(sql, (self._kitchen,))
        return (int(rows[0][0]), str(rows[0][1])) if rows else (0, FIRST)

    def last_at(self) -> datetime | None:
        """Return the moment of the last entry; None for an empty book."""
        rows = self._connections.read(
            "SELECT at FROM book WHERE kitchen = ? ORDER BY seq DESC LIMIT 1", (self._kitchen,)
        )
        return moment(str(rows[0][0])) if rows else None

    def since(self, seq: int) -> list[Entry]:
        """Return the entries after *seq*, in order; `since(0)` is the whole book."""
        sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? AND seq > ? ORDER BY seq"  # noqa: S608 - fixed columns
        return [_entry(row) for row in self._connections.read(sql, (self._kitchen, seq))]

    def find(self, entry_id: str) -> Entry | None:
        """Return the entry with this id, or None."""
        return self._where("id", entry_id)

    def find_key(self, key: str) -> Entry | None:
        """Return the entry saved under this idempotency key, or None."""
        return self._where("key", key)

    def _where(self, column: str, value: str) -> Entry | None:
        """Return the one entry with this id or key, or None."""
        sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? AND {column} = ?"  # noqa: S608 - fixed columns
        rows = self._connections.read(sql, (self._kitchen, value))
        return _entry(rows[0]) if rows else None

    def verify(self, kept_head: str = "") -> BookCheck:
        """Return what a check of the whole book finds; see `verify_file` for what it can and cannot see."""
        return verify_file(self._connections.path, kept_head)


def verify_file(path: Path, kept_head: str = "") -> BookCheck:
    """Return what a check of the book in a file finds; a file that cannot be read is a finding, never an error.

    Seen: an entry changed, moved, taken out of the middle or put in; a file cut short inside its pages; damage to the
    tables and indexes. Not seen without *kept_head*: the last entries taken off the end, or a whole book written anew
    by somebody who owns the file. With *kept_head*, the check value of an entry written down elsewhere, that entry
    must still be there.
    """
    if not path.is_file():
        return BookCheck(0, FIRST, (BookProblem(0, f"There is no file {path}."),))
    walk = _Walk()
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
    return walk.result(kept_head)


def _read_only(path: Path) -> Any:  # noqa: ANN401 - either SQLite module's connection
    """Return a connection that reads text as it stands, valid or not, so that a flipped bit is seen and not refused."""
    connection = engine.connect(path.resolve().as_uri() + "?mode=ro", uri=True, timeout=15, isolation_level=None)
    connection.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
    return connection


class _Walk:
    """Walks the rows from the first to the last and notes where the chain breaks: only the first break is named."""

    def __init__(self) -> None:
        self.count = 0
        self.previous = FIRST
        self.kitchen = ""
        self.heads: set[str] = set()
        self.problems: list[BookProblem] = []

    def note(self, seq: int, problem: str) -> None:
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
        self.heads.add(self.previous)

    def _wrong_with(self, row: tuple[Any, ...]) -> str:
        """Return what is wrong with a row, or ""."""
        if not isinstance(row[0], int) or not all(isinstance(text, str) for text in row[1:]):
            return say("a column holds something that is not text")
        if row[0] != self.count + 1:
            return say("an entry is missing before this one: {due} was due", due=self.count + 1)
        if row[9] != self.previous:
            return say("it does not follow the entry before it: one of the two was changed")
        if entry_hash((str(row[0]), *row[1:10])) != row[10]:
            return say("what it says does not match its check value: it was changed")
        return "" if row[3] in KINDS else say("there is no kind of entry {kind}", kind=repr(row[3]))

    def note_file_damage(self, connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
        """Ask the engine for damage to tables and indexes; a lost guard counts as damage."""
        found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check(5)")]
        if found != ["ok"]:
            self.note(0, say("the file is damaged: {found}", found="; ".join(found)[:500]))
        guards = connection.execute("SELECT count(*) FROM sqlite_schema WHERE type='trigger' AND tbl_name='book'")
        if guards.fetchone()[0] != 4:
            self.note(0, say("the guards that refuse changes to the book are not all there"))

    def result(self, kept_head: str) -> BookCheck:
        """Return the outcome, with the kept check value looked for."""
        if kept_head and kept_head != FIRST and kept_head not in self.heads:
            self.note(
                self.count + 1,
                say("the entry with the check value you kept is not there: the end was cut or rewritten"),
            )
        return BookCheck(self.count, self.previous, tuple(self.problems))


def _refuse_what_is_not_plain(deed: Deed) -> None:
    """Raise `BookRefuses` for a deed that could not be written down the same everywhere."""
    if deed.kind not in KINDS:
        raise BookRefuses(f"There is no kind of entry {deed.kind!r}.")
    if deed.at.tzinfo is None:
        raise BookRefuses("An entry's moment needs a time zone.")
    for name, text in (("cook", deed.cook), ("by", deed.by), ("key", deed.key)):
        if not text or len(text) > LONGEST_NAME or not text.isprintable():
            raise BookRefuses(f"An entry's {name} has 1 to {LONGEST_NAME} printable characters; this is {text[:40]!r}.")
    for value in _leaves(deed.body):
        if not (value is None or isinstance(value, str | int)):
            raise BookRefuses(f"An entry holds texts and whole numbers, not {value!r}.")
    _refuse_unwritable(canonical(deed.body))


def _refuse_unwritable(body: str) -> None:
    """Raise `BookRefuses` for a body that is too long, or holds half a character."""
    try:
        size = len(body.encode("utf-8"))
    except UnicodeEncodeError as problem:
        raise BookRefuses("An entry's text holds half a character (a lone surrogate).") from problem
    if size > LONGEST_BODY:
        raise BookRefuses(f"An entry holds at most {LONGEST_BODY} bytes; this one has {size}.")


def _leaves(value: object) -> Iterator[object]:
    """Yield every value in a body that is neither list nor mapping; a mapping's keys must be texts."""
    if isinstance(value, Mapping):
        for name, inner in value.items():
            yield from (_leaves(inner) if isinstance(name, str) else (object(),))
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from _leaves(inner)
    else:
        yield value


def _the_same(there: Entry, deed: Deed) -> Entry:
    """Return the entry already kept under the deed's key, if the deed says the same."""
    kept = (there.kind, there.cook, there.by, canonical(there.body))
    if kept != (deed.kind, deed.cook, deed.by, canonical(deed.body)):
        raise KeyReused(f"Key {deed.key!r} was used for entry {there.seq} ({there.kind}) with other content.")
    return there


def _sealed(deed: Deed, kitchen: str, seq: int, previous: str) -> Entry:
    """Return the deed as the entry that follows *previous*."""
    entry_id, at, body = new_id(deed.at), moment_text(deed.at), canonical(deed.body)
    columns = (str(seq), kitchen, entry_id, deed.kind, at, deed.cook, deed.by, body, deed.key, previous)
    kept: Mapping[str, Any] = json.loads(body)
    return Entry(
        seq, kitchen, entry_id, deed.kind, moment(at), deed.cook, deed.by, kept, deed.key, previous, entry_hash(columns)
    )


def _row(entry: Entry) -> tuple[str | int, ...]:
    """Return an entry as its columns."""
    e, at, body = entry, moment_text(entry.at), canonical(entry.body)
    return (e.seq, e.kitchen, e.id, e.kind, at, e.cook, e.by, body, e.key, e.previous, e.hash)


def _entry(row: tuple[Any, ...]) -> Entry:
    """Return a row as an entry; raise `DamagedKitchen` where it cannot be one."""
    seq, kitchen, entry_id, kind, at, cook, by, body, key, previous, own_hash = row
    try:
        when, said = moment(at), json.loads(body)
    except (ValueError, TypeError) as problem:
        raise DamagedKitchen(f"Entry {seq} of the book cannot be read. Check it with: trainer book verify") from problem
    return Entry(seq, kitchen, entry_id, kind, when, cook, by, said, key, previous, own_hash)
