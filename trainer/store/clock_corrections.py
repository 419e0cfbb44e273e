"""Entries of a clock that ran ahead: from which day and moment they count, as a later entry says."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import date, datetime

from trainer.kitchen.book import FIRST, Entry
from trainer.store.connections import Connections
from trainer.store.identity import moment


@dataclass(frozen=True, slots=True)
class Correction:
    """The entries from `first` to `last` (their numbers) count from `day`, and as of `at` at the latest."""

    first: int
    last: int
    day: date
    at: datetime


class Corrections:
    """The corrections of one book, read once and then as the book grows. Safe to share between threads."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen
        self._known: tuple[int, str, tuple[Correction, ...]] = (0, FIRST, ())  # up to which entry, with its hash

    def catch_up(self, seq: int, own_hash: str) -> None:
        """Take in the corrections up to the book's last entry; what was read in a transaction undone is forgotten."""
        up_to, known_hash, found = self._known
        if (seq, own_hash) == (up_to, known_hash):
            return
        if not self._is_there(up_to, known_hash):
            up_to, found = 0, ()
        sql = "SELECT body FROM book WHERE kitchen = ? AND seq > ? AND kind = 'clock_corrected' ORDER BY seq"
        bodies = [json.loads(row[0]) for row in self._connections.read(sql, (self._kitchen, up_to))]
        later = (Correction(b["first"], b["last"], date.fromisoformat(b["day"]), moment(b["at"])) for b in bodies)
        self._known = (seq, own_hash, (*found, *later))

    def _is_there(self, seq: int, own_hash: str) -> bool:
        """Return whether an entry is still in the book."""
        sql = "SELECT 1 FROM book WHERE kitchen = ? AND seq = ? AND hash = ?"
        return seq == 0 or bool(self._connections.read(sql, (self._kitchen, seq, own_hash)))

    def applied_to(self, entry: Entry) -> Entry:
        """Return an entry with the day and moment it counts from; the newest correction of it decides."""
        *_, known = self._known
        found = next((one for one in reversed(known) if one.first <= entry.seq <= one.last), None)
        if found is None:
            return entry
        day = min(entry.day, found.day)
        return replace(entry, at=min(entry.at, found.at), day=day, happened=min(entry.happened, day))
