"""Addresses under which calendars are read without signing in: one a person and kind, kept as its hash alone."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, cast

from trainer.kitchen.book import moment_text
from trainer.store.connections import Connections
from trainer.store.identity import moment, new_token, token_hash

FeedOf = Literal["own", "kitchen"]
"""What a calendar shows: one's own shifts and days, or those of everybody."""


@dataclass(frozen=True, slots=True)
class CalendarFeed:
    """An address that was made for a person, and when; one that was withdrawn says when that was."""

    person: str
    of: FeedOf
    made_at: datetime
    withdrawn_at: datetime | None


class CalendarFeeds:
    """The addresses of one kitchen; a new one of the same person and kind withdraws the one before."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def make(self, person: str, of: FeedOf, at: datetime) -> str:
        """Return the secret part of a new address; it is nowhere kept, so it is shown this once."""
        secret = new_token()
        with self._connections.writing():
            self.withdraw(person, of, at)
            self._connections.write(
                "INSERT INTO calendar_feeds (kitchen, token_hash, person, of, made_at) VALUES (?, ?, ?, ?, ?)",
                (self._kitchen, token_hash(secret), person, of, moment_text(at)),
            )
        return secret

    def withdraw(self, person: str, of: FeedOf, at: datetime) -> None:
        """Let the address of a person answer no more."""
        self._connections.write(
            "UPDATE calendar_feeds SET withdrawn_at = ?"
            " WHERE kitchen = ? AND person = ? AND of = ? AND withdrawn_at IS NULL",
            (moment_text(at), self._kitchen, person, of),
        )

    def find(self, secret: str) -> CalendarFeed | None:
        """Return what the secret part of an address leads to; None where there never was such an address."""
        return self._first("token_hash = ?", token_hash(secret))

    def current(self, person: str, of: FeedOf) -> CalendarFeed | None:
        """Return the address of a person that answers; None where there is none."""
        return self._first("person = ? AND of = ? AND withdrawn_at IS NULL", person, of)

    def _first(self, where: str, *values: str) -> CalendarFeed | None:
        sql = f"SELECT person, of, made_at, withdrawn_at FROM calendar_feeds WHERE kitchen = ? AND {where}"  # noqa: S608
        for person, of, made_at, withdrawn_at in self._connections.read(sql, (self._kitchen, *values)):
            ended = moment(withdrawn_at) if withdrawn_at else None
            return CalendarFeed(person, cast("FeedOf", of), moment(made_at), ended)
        return None
