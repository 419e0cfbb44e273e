"""Who people are: names, birth dates and secrets. They are here alone, never in the book, so a person can be erased."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from types import MappingProxyType
from typing import Any, Literal

from trainer.kitchen.book import moment_text
from trainer.kitchen.names import name_key
from trainer.kitchen.progress import Person
from trainer.store.connections import Connections
from trainer.store.identity import day_or_none, moment, token_hash
from trainer.store.problems import NumberTaken

SecretKind = Literal["pin", "passphrase", "first_code"]
LONGEST_NAME = 120
HELD = (
    ("people", "id"),
    ("secrets", "person"),
    ("sessions", "person"),
    ("first_codes", "person"),
    ("drafts", "cook"),
    ("drafts", '"by"'),
    ("demo_cast", "person"),
    ("device_uses", "person"),
    ("words_seen", "person"),
)
"""The tables that hold something of a person, and under which column; what stands in the book stays."""


@dataclass(frozen=True, slots=True)
class Listed:
    """A person as the kitchen lists them: `number` is the kitchen's own staff number, leading zeros and all."""

    person: Person
    number: str | None = None
    started: date | None = None


@dataclass(frozen=True, slots=True)
class Secret:
    """A person's kept secret: only its argon2id hash, and since when it is theirs where that was kept.

    After a first code there is none to open with: one must be chosen.
    """

    hash: str
    kind: SecretKind
    must_change: bool
    good_until: datetime | None = None
    since: datetime | None = None


def tidy(name: str) -> str:
    """Return a name in Unicode form C with single spaces (Unicode Standard Annex 15)."""
    return unicodedata.normalize("NFC", " ".join(name.split()))


def comparable(name: str) -> str:
    """Return what two spellings of one name have in common: form C, case folded, single spaces."""
    return tidy(name).casefold()


@dataclass(frozen=True, slots=True)
class _Everybody:
    """The rows of everybody as they were read, and what was made of them."""

    rows: Sequence[tuple[Any, ...]]
    listed: tuple[Listed, ...]
    by_id: Mapping[str, Person]


class People:
    """The people of one kitchen, joined to the book by id alone."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen
        self._kept: _Everybody | None = None

    def add(self, person: Person, number: str | None = None, started: date | None = None) -> None:
        """Keep a new person; the id is permanent and never used again, the number is theirs alone."""
        with self._connections.writing():
            self._refuse_a_taken_number(number, person.id)
            self._connections.write(
                "INSERT INTO people (kitchen, id, number, name, born, language, units, look, started)"
                " VALUES (?,?,?,?,?,?,?,?,?)",
                (self._kitchen, person.id, number, *_columns(person), _day(started)),
            )

    def change(self, person: Person, number: str | None = None, started: date | None = None) -> None:
        """Keep a person's new name, birth date, language, units and look, and number and first day where given."""
        with self._connections.writing():
            self._refuse_a_taken_number(number, person.id)
            self._connections.write(
                "UPDATE people SET name = ?, born = ?, language = ?, units = ?, look = ?, number = coalesce(?, number),"
                " started = coalesce(?, started) WHERE kitchen = ? AND id = ?",
                (*_columns(person), number, _day(started), self._kitchen, person.id),
            )

    def rename(self, person_id: str, name: str) -> None:
        """Keep a person's new name."""
        values = (tidy(name), self._kitchen, person_id)
        self._connections.write("UPDATE people SET name = ? WHERE kitchen = ? AND id = ?", values)

    def erase(self, person_id: str) -> None:
        """Take out a person's name, birth date, secret, sessions, waits and drafts; the book stays, and verifies."""
        with self._connections.writing():
            for table, column in HELD:
                sql = f"DELETE FROM {table} WHERE kitchen = ? AND {column} = ?"  # noqa: S608 - fixed names
                self._connections.write(sql, (self._kitchen, person_id))
            sql = "DELETE FROM throttle WHERE kitchen = ? AND person = ?"
            self._connections.write(sql, (self._kitchen, token_hash(person_id)))
            sql = "UPDATE devices SET owner = NULL WHERE kitchen = ? AND owner = ?"
            self._connections.write(sql, (self._kitchen, person_id))

    def all(self) -> Mapping[str, Person]:
        """Return everybody by id, in order of name."""
        return self._read_all().by_id

    def listed(self) -> tuple[Listed, ...]:
        """Return everybody with number and first day, in order of name."""
        return self._read_all().listed

    def _read_all(self) -> _Everybody:
        """Return everybody, put in sequence anew only where a row is another one than when they were last read."""
        sql = "SELECT id, name, born, language, units, look, number, started FROM people WHERE kitchen = ?"
        rows, kept = self._connections.read(sql, (self._kitchen,)), self._kept
        if kept is None or kept.rows != rows:
            listed = sorted(map(_listed, rows), key=lambda one: (name_key(one.person.name), one.person.id))
            by_id = MappingProxyType({one.person.id: one.person for one in listed})
            kept = self._kept = _Everybody(rows, tuple(listed), by_id)
        return kept

    def find(self, person_id: str) -> Person | None:
        """Return a person, or None."""
        sql = "SELECT id, name, born, language, units, look, number, started FROM people WHERE kitchen = ? AND id = ?"
        rows = self._connections.read(sql, (self._kitchen, person_id))
        return _listed(rows[0]).person if rows else None

    def set_secret(self, person_id: str, secret: Secret) -> None:
        """Keep a person's secret, in place of any they had."""
        good_until = moment_text(secret.good_until) if secret.good_until else None
        since = moment_text(secret.since) if secret.since else None
        self._connections.write(
            "INSERT OR REPLACE INTO secrets (kitchen, person, hash, kind, must_change, good_until, since)"
            " VALUES (?,?,?,?,?,?,?)",
            (self._kitchen, person_id, secret.hash, secret.kind, int(secret.must_change), good_until, since),
        )

    def secret_of(self, person_id: str) -> Secret | None:
        """Return a person's kept secret, or None."""
        sql = "SELECT hash, kind, must_change, good_until, since FROM secrets WHERE kitchen = ? AND person = ?"
        rows = self._connections.read(sql, (self._kitchen, person_id))
        if not rows:
            return None
        own_hash, kind, must_change, *moments = rows[0]
        return Secret(own_hash, kind, bool(must_change), *(moment(text) if text else None for text in moments))

    def _refuse_a_taken_number(self, number: str | None, person_id: str) -> None:
        """Raise `NumberTaken` where the number belongs to another person."""
        sql = "SELECT name FROM people WHERE kitchen = ? AND number = ? AND id <> ?"
        rows = self._connections.read(sql, (self._kitchen, number, person_id)) if number is not None else []
        if rows:
            raise NumberTaken(f"Number {number!r} belongs to {rows[0][0]}.")


def _columns(person: Person) -> tuple[str, str | None, str, str, str]:
    """Return a person's own columns."""
    return tidy(person.name), _day(person.born), person.language, person.units, person.look


def _day(day: date | None) -> str | None:
    """Return a day as kept."""
    return day.isoformat() if day else None


def _listed(row: tuple[Any, ...]) -> Listed:
    """Return a row as a listed person."""
    person_id, name, born, language, units, look, number, started = row
    return Listed(Person(person_id, name, day_or_none(born), language, units, look), number, day_or_none(started))
