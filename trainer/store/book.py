"""The record book: entries added at its end, never changed, each sealed with the hash of the one before it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from trainer.kitchen.book import FIRST, KINDS, Entry, NewEntry, canonical, entry_hash, moment_text
from trainer.store.book_check import COLUMNS, BookCheck, verify_file
from trainer.store.connections import Connections
from trainer.store.identity import moment, new_id
from trainer.store.problems import BookRefuses, DamagedKitchen, KeyReused

LONGEST_NAME = 200  # of a cook's id, a key
LONGEST_BODY = 1_000_000


class Book:
    """The entries of one kitchen. Several threads and processes may add to it; the file's lock gives the order."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def append(self, deed: NewEntry) -> Entry:
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
            self._connections.watch.wrote(entry.seq, entry.hash)
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
        found = [_entry(row) for row in self._connections.read(sql, (self._kitchen, seq))]
        if found and not self._connections.is_writing():
            self._connections.watch.read([(entry.seq, entry.previous, entry.hash) for entry in (found[0], found[-1])])
        return found

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


def _refuse_what_is_not_plain(deed: NewEntry) -> None:
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


def _the_same(there: Entry, deed: NewEntry) -> Entry:
    """Return the entry already kept under the deed's key, if the deed says the same."""
    kept = (there.kind, there.cook, there.by, canonical(there.body))
    if kept != (deed.kind, deed.cook, deed.by, canonical(deed.body)):
        raise KeyReused(f"Key {deed.key!r} was used for entry {there.seq} ({there.kind}) with other content.")
    return there


def _sealed(deed: NewEntry, kitchen: str, seq: int, previous: str) -> Entry:
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
