"""A kitchen of an earlier program is brought up to date: its book says once what it did not say before."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, datetime
from itertools import groupby

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.people_on_record import deeds_for_everybody
from trainer.actions.publishing import first_standard
from trainer.actions.teaching import Draft
from trainer.kitchen.book import LOCAL, Entry, NewEntry, digest_of

KEY = "upgrade to edition 2"


def needs_upgrade(k: Kitchen) -> bool:
    """Return whether a kitchen's book has published no standard yet."""
    return not k.file.book.of_kind("standard_published")


def upgrade(k: Kitchen, *, draft: Draft, now: datetime) -> int:
    """Return how many entries the upgrade wrote, all in one transaction; 0 where another process was quicker.

    The days of the old entries and the tree over them are written down as they are now, the content files become the
    first standard, which holds for every day before it too, and everybody's name and age are on record from here. None
    of it says when anything happened: with a clock nobody can believe it takes the last entry's moment.
    """
    with k.file.writing():
        if not needs_upgrade(k):
            return 0
        book, last = k.file.book, k.file.book.last_at()
        at = last if last and (last > now or refused_by_clock(k, now)) else now
        old = book.since(0)
        if any(entry.edition == 1 for entry in old):
            book.append(_upgraded(k, old, at))
        standard = first_standard(k, draft=draft, by=LOCAL, now=at, key=f"{KEY}: standard")
        book.append(replace(standard, body={**standard.body, "not_kept_before": True}) if old else standard)
        for deed in deeds_for_everybody(k, at):
            book.append(deed)
        return book.head().seq - len(old)


def _upgraded(k: Kitchen, old: list[Entry], now: datetime) -> NewEntry:
    """Return what the book says of its entries of edition 1."""
    head = k.file.book.head()
    days = days_of(old)
    body = {
        "from": 1,
        "size": head.seq,
        "hash": head.hash,
        "root": head.root.hex(),
        "zone": k.file.settings.timezone,
        "days": digest_of(days),
    }
    return NewEntry("book_upgraded", now, LOCAL, LOCAL, body, KEY, papers=(days,))


def days_of(old: list[Entry]) -> bytes:
    """Return the days of entries as a text: each day with the number of its last entry, in order."""
    by_day = groupby(old, key=lambda entry: entry.day)
    last: list[tuple[int, date]] = [(max(entry.seq for entry in entries), day) for day, entries in by_day]
    return json.dumps([[seq, day.isoformat()] for seq, day in last], separators=(",", ":")).encode()
