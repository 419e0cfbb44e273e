"""The record book: entries added at its end, never changed, each sealed with the hash of the one before it."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from trainer.kitchen.book import (
    EDITION,
    FIRST,
    FORM,
    KINDS,
    PROGRAM,
    THE_BOOK,
    Entry,
    Kind,
    NewEntry,
    canonical,
    digest_of,
    entry_hash,
    moment_text,
)
from trainer.kitchen.papers import MARK, texts_apart, with_texts
from trainer.kitchen.rules import are_known
from trainer.kitchen.short_head import ShortHead
from trainer.kitchen.tree import Peaks, as_bytes, from_bytes, leaf_of, peaks_of, root_of, with_leaf
from trainer.store.acting import LOCAL_DEVICE, acting_device, acting_on
from trainer.store.book_check import BookCheck, verify_file
from trainer.store.book_rows import COLUMNS, HASH, KEEP_HEAD, MARKS, NAMES, hashed_columns
from trainer.store.clock_corrections import Corrections
from trainer.store.connections import Connections
from trainer.store.identity import day_in, moment, new_id, new_salt
from trainer.store.problems import BookRefuses, DamagedKitchen, KeyReused

ROWS_AT_ONCE = 1000
LONGEST_NAME = 200  # of a cook's id, a key
LONGEST_BODY = 1_000_000
Row = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Head:
    """Where a book ends: how many entries it has, the last one's hash, the tree over all, the last moment and day."""

    seq: int
    hash: str
    peaks: Peaks
    at: datetime | None
    day: date

    @property
    def root(self) -> bytes:
        """Return the one value that stands for all entries."""
        return root_of(self.peaks)

    @property
    def short(self) -> str:
        """Return the head as it is printed; "" for an empty book."""
        return ShortHead.of(self.seq, self.root).as_text() if self.seq else ""


NO_HEAD = Head(0, FIRST, (), None, date.min)


class Book:
    """The entries of one kitchen. Several threads and processes may add to it; the file's lock gives the order.

    Where `closes_days` is set, as in every kitchen that is served or commanded, a new day's first entry follows a
    `day_closed` with the head of all before it.
    """

    def __init__(self, connections: Connections, kitchen: str, timezone: str = "UTC") -> None:
        """Take the book of one kitchen; `timezone` (an IANA name) says which day it is when an entry is written."""
        self._connections = connections
        self._kitchen = kitchen
        self.timezone = timezone
        self.closes_days = False
        self._old_days: tuple[tuple[int, date], ...] | None = None
        self._corrections = Corrections(connections, kitchen)

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
            head = self.head()
            if self.closes_days and head.seq and day_in(self.timezone, deed.at) > head.day:
                head = self._closed(head, deed.at)
            return self._added(deed, head)

    def _added(self, deed: NewEntry, head: Head) -> Entry:
        """Return the deed's entry once it follows the head, in the transaction that is open."""
        entry, row, papers = self._sealed(deed, head)
        self._connections.write(f"INSERT INTO book ({COLUMNS}) VALUES ({MARKS})", row)  # noqa: S608
        self._keep_papers((*deed.papers, *papers))
        self._keep_head(entry, head)
        self._connections.watch.wrote(entry.seq, entry.hash)
        if entry.kind == "book_upgraded":
            self._old_days = None
        return entry

    def as_next(self, deed: NewEntry) -> Entry:
        """Return the entry a deed would become now; nothing is written."""
        entry, _, _ = self._sealed(deed, self.head())
        return entry

    def _closed(self, head: Head, at: datetime) -> Head:
        """Return the head after the entry of the program that says where the book stood when the day before ended."""
        body = {"size": head.seq, "root": head.root.hex()}
        with acting_on(LOCAL_DEVICE):
            self._added(NewEntry("day_closed", at, THE_BOOK, PROGRAM, body, f"day-closed-{head.seq}"), head)
        return self.head()

    def _sealed(self, deed: NewEntry, head: Head) -> tuple[Entry, Row, tuple[bytes, ...]]:
        """Return the deed as the entry that follows the head, the row it is kept as, and what people wrote in it.

        Its day never falls behind the last one's; only what corrects a clock that ran ahead sets the day back.
        """
        own_day = day_in(self.timezone, deed.at)
        day = own_day if deed.kind == "clock_corrected" else max(head.day, own_day)
        happened = deed.happened or day
        if happened > day:
            raise BookRefuses(f"What is claimed for {happened} cannot be entered on {day}: the day is still to come.")
        entry_id, at, plain = new_id(deed.at), moment_text(deed.at), canonical(deed.body)
        kept, papers = texts_apart(deed.kind, json.loads(plain), new_salt)
        row: Row = (
            self._kitchen, head.seq + 1, entry_id, deed.kind, at, day.isoformat(), happened.isoformat(), deed.cook,
            deed.by, acting_device(), canonical({**kept, FORM: EDITION}), deed.key, head.hash, "", EDITION,
        )  # fmt: skip
        own_hash = entry_hash(hashed_columns(row))
        entry = Entry(
            head.seq + 1, self._kitchen, entry_id, deed.kind, moment(at), deed.cook, deed.by, json.loads(plain),
            deed.key, head.hash, own_hash, day, happened, acting_device(), EDITION,
        )  # fmt: skip
        return entry, (*row[:HASH], own_hash, *row[HASH + 1 :]), papers

    def _keep_papers(self, papers: Iterable[bytes]) -> None:
        """Keep texts beside the book; one that is there already stays as it is."""
        for text in papers:
            values = (self._kitchen, digest_of(text), text)
            self._connections.write("INSERT OR IGNORE INTO papers (kitchen, hash, bytes) VALUES (?, ?, ?)", values)

    def _keep_head(self, entry: Entry, before: Head) -> None:
        """Note where the book ends now."""
        peaks = as_bytes(with_leaf(before.peaks, before.seq, leaf_of(entry.hash)))
        values = (self._kitchen, entry.seq, entry.hash, peaks, moment_text(entry.at), entry.day.isoformat())
        self._connections.write(KEEP_HEAD, values)

    def head(self) -> Head:
        """Return where the book ends."""
        sql = "SELECT seq, hash, frontier, at, day FROM heads WHERE kitchen = ?"
        rows = self._connections.read(sql, (self._kitchen,))
        if not rows:
            return NO_HEAD
        seq, own_hash, frontier, at, day = rows[0]
        return Head(seq, own_hash, from_bytes(frontier), moment(at), date.fromisoformat(day))

    def last_closed(self) -> ShortHead | None:
        """Return the head that stands in the newest `day_closed`; None where no day was closed."""
        sql = "SELECT body FROM book WHERE kitchen = ? AND kind = 'day_closed' ORDER BY seq DESC LIMIT 1"
        rows = self._connections.read(sql, (self._kitchen,))
        said = json.loads(rows[0][0]) if rows else None
        return ShortHead.of(said["size"], bytes.fromhex(said["root"])) if said else None

    def root_at(self, size: int) -> bytes | None:
        """Return the root of the tree over the first *size* entries; None where there are fewer."""
        sql = "SELECT hash FROM book WHERE kitchen = ? AND seq <= ? ORDER BY seq"
        hashes = [row[0] for row in self._connections.read(sql, (self._kitchen, size))]
        return root_of(peaks_of(map(leaf_of, hashes))) if len(hashes) == size else None

    def end(self) -> tuple[int, str]:
        """Return the last entry's seq and hash; 0 and 64 zeros for an empty book."""
        rows = self._connections.read("SELECT seq, hash FROM heads WHERE kitchen = ?", (self._kitchen,))
        return rows[0] if rows else (0, FIRST)

    def last_at(self) -> datetime | None:
        """Return the moment of the last entry; None for an empty book."""
        return self.head().at

    def day_at(self, now: datetime) -> date:
        """Return the kitchen's day at a moment: today in its zone, and never before the last entry's day."""
        return max(self.head().day, day_in(self.timezone, now))

    def paper(self, digest: str) -> bytes | None:
        """Return a text kept beside the book; None where there is none, or it was dropped."""
        sql = "SELECT bytes FROM papers WHERE kitchen = ? AND hash = ?"
        rows = self._connections.read(sql, (self._kitchen, digest))
        return bytes(rows[0][0]) if rows else None

    def rows(self) -> Iterator[dict[str, Any]]:
        """Yield every entry in order, its columns by name as they are kept."""
        for start in range(0, self.end()[0], ROWS_AT_ONCE):
            sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? AND seq > ? AND seq <= ? ORDER BY seq"  # noqa: S608
            for row in self._connections.read(sql, (self._kitchen, start, start + ROWS_AT_ONCE)):
                yield dict(zip(NAMES, row, strict=True))

    def papers(self) -> Iterator[tuple[str, bytes]]:
        """Yield every text kept beside the book, under its digest."""
        for (digest,) in self._connections.read("SELECT hash FROM papers WHERE kitchen = ?", (self._kitchen,)):
            text = self.paper(digest)
            if text is not None:
                yield digest, text

    def drop_paper(self, digest: str) -> None:
        """Take away a text kept beside the book, for good; an entry says so (`paper_dropped`)."""
        self._connections.write("DELETE FROM papers WHERE kitchen = ? AND hash = ?", (self._kitchen, digest))

    def rows_about(self, cook: str) -> list[tuple[Any, ...]]:
        """Return the rows of the entries about a person as they are kept, in order; see `hashed_columns`."""
        sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? AND cook = ? ORDER BY seq"  # noqa: S608 - fixed columns
        return self._connections.read(sql, (self._kitchen, cook))

    def since(self, seq: int) -> list[Entry]:
        """Return the entries after *seq*, in order; `since(0)` is the whole book."""
        sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? AND seq > ? ORDER BY seq"  # noqa: S608 - fixed columns
        found = self._entries(sql, (self._kitchen, seq))
        if found and not self._connections.is_writing():
            self._connections.watch.read([(entry.seq, entry.previous, entry.hash) for entry in (found[0], found[-1])])
        return found

    def find(self, entry_id: str) -> Entry | None:
        """Return the entry with this id, or None."""
        return self._where("id", entry_id)

    def numbered(self, seq: int) -> Entry | None:
        """Return the entry with this number, or None."""
        return self._where("seq", seq)

    def numbers_of(self, entries: Collection[str]) -> list[int]:
        """Return the numbers of the entries with these ids, in the order named; an id that is not there is passed over.

        A list goes in as one JSON text: SQLite bounds how many values a query takes.
        """
        sql = "SELECT id, seq FROM book WHERE kitchen = ? AND id IN (SELECT value FROM json_each(?))"
        numbers = dict(self._connections.read(sql, (self._kitchen, json.dumps(list(entries)))))
        return [numbers[one] for one in entries if one in numbers]

    def find_key(self, key: str) -> Entry | None:
        """Return the entry saved under this idempotency key, or None."""
        return self._where("key", key)

    def of_kind(self, kind: Kind) -> list[Entry]:
        """Return all entries of a kind, in order."""
        sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? AND kind = ? ORDER BY seq"  # noqa: S608 - fixed columns
        return self._entries(sql, (self._kitchen, kind))

    def newest_of(self, kinds: Collection[Kind], most: int) -> list[Entry]:
        """Return so many of the entries of some kinds, the newest first."""
        marks = ",".join("?" * len(kinds))
        sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? AND kind IN ({marks}) ORDER BY seq DESC LIMIT ?"  # noqa: S608
        return self._entries(sql, (self._kitchen, *kinds, most))

    def _where(self, column: str, value: str | int) -> Entry | None:
        """Return the one entry with this id, number or key, or None."""
        sql = f"SELECT {COLUMNS} FROM book WHERE kitchen = ? AND {column} = ?"  # noqa: S608 - fixed columns
        found = self._entries(sql, (self._kitchen, value))
        return found[0] if found else None

    def _entries(self, sql: str, values: tuple[str | int, ...]) -> list[Entry]:
        """Return the entries a query finds; those of a clock that ran ahead with the day and moment they count from."""
        rows = self._connections.read(sql, values)
        if rows:
            self._corrections.catch_up(*self.end())
        return [self._corrections.applied_to(self._entry(row)) for row in rows]

    def _entry(self, row: tuple[Any, ...]) -> Entry:
        """Return a row as an entry; raise `DamagedKitchen` where it cannot be one."""
        kitchen, seq, entry_id, kind, at, day, happened, cook, by, device, body, key, previous, own_hash, edition = row
        try:
            when, said = moment(at), json.loads(body)
            on = date.fromisoformat(day) if edition > 1 else self._day_of_old(seq, when)
            claimed = date.fromisoformat(happened) if edition > 1 else on
        except (ValueError, TypeError) as problem:
            words = f"Entry {seq} of the book cannot be read. Check it with: trainer book verify"
            raise DamagedKitchen(words) from problem
        if MARK in body:
            said = with_texts(said, self.paper)
        if not _is_known(kind, said):
            raise DamagedKitchen(f"Entry {seq} of the book ({kind}) was written by a newer program. Use that one.")
        return Entry(
            seq, kitchen, entry_id, kind, when, cook, by, said, key, previous, own_hash, on, claimed, device, edition
        )

    def _day_of_old(self, seq: int, at: datetime) -> date:
        """Return the day of an entry of edition 1: as it was noted when the book was upgraded."""
        if self._old_days is None:
            self._old_days = self._noted_days()
        noted = next((day for last, day in self._old_days if seq <= last), None)
        return noted or day_in(self.timezone, at)

    def _noted_days(self) -> tuple[tuple[int, date], ...]:
        """Return the days of the entries of edition 1, each with the last entry of that day."""
        sql = "SELECT body FROM book WHERE kitchen = ? AND kind = 'book_upgraded' ORDER BY seq LIMIT 1"
        rows = self._connections.read(sql, (self._kitchen,))
        paper = self.paper(json.loads(rows[0][0])["days"]) if rows else None
        return tuple((last, date.fromisoformat(day)) for last, day in json.loads(paper)) if paper else ()

    def verify(self, kept_head: str = "") -> BookCheck:
        """Return what a check of the whole book finds; see `verify_file` for what it can and cannot see."""
        return verify_file(self._connections.path, kept_head)


def _is_known(kind: str, body: dict[str, Any]) -> bool:
    """Return whether this program reads such an entry; takes the edition of its form out of the body."""
    is_known = kind in KINDS and body.pop(FORM, 1) <= EDITION
    return is_known and (kind != "standard_published" or are_known(body["rules"]))


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
