"""Slows down whoever guesses secrets: a person's tries and a device's tries are counted apart.

Five wrong tries without a right one: 30 seconds; each further one doubles it, to 15 minutes; the hundredth disables
until a manager resets. NIST SP 800-63B-4, section 3.2.2, allows at most 100 in a row (from memory). A try is counted
before it is looked at, so tries sent side by side count as well; a right one takes the person's own wrong tries off
both counts, so nobody can clear a device's count with a secret of their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from trainer.kitchen.book import moment_text
from trainer.store.connections import Connections
from trainer.store.identity import moment, token_hash

FREE_TRIES = 5
DISABLED_AT = 100
SHORTEST = timedelta(seconds=30)
LONGEST = timedelta(minutes=15)


@dataclass(frozen=True, slots=True)
class Standing:
    """How many wrong tries stand against a person or a device, and until when it must wait."""

    wrong: int = 0
    until: datetime | None = None

    @property
    def is_disabled(self) -> bool:
        """Return whether only a manager can open it again."""
        return self.wrong >= DISABLED_AT

    def must_wait(self, at: datetime) -> bool:
        """Return whether no try may be made now."""
        return self.is_disabled or (self.until is not None and at < self.until)


def wait_after(wrong: int) -> timedelta:
    """Return how long to wait after this many wrong tries in a row.

    >>> [int(wait_after(n).total_seconds()) for n in (4, 5, 6, 9, 10, 40)]
    [0, 30, 60, 480, 900, 900]
    """
    if wrong < FREE_TRIES:
        return timedelta(0)
    doublings = min(wrong - FREE_TRIES, 10)
    return min(SHORTEST * (1 << doublings), LONGEST)


def person_key(person: str) -> str:
    """Return the name a person's tries are counted under; any text may be asked for, so it is hashed."""
    return "person:" + token_hash(person)


def device_key(device: str) -> str:
    """Return the name a device's tries are counted under."""
    return "device:" + device


class Throttle:
    """The counts of one kitchen."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def standing(self, who: str) -> Standing:
        """Return the standing of a person or device (see `person_key`, `device_key`)."""
        sql = "SELECT wrong, until FROM throttle WHERE kitchen = ? AND who = ?"
        rows = self._connections.read(sql, (self._kitchen, who))
        return Standing(int(rows[0][0]), moment(rows[0][1]) if rows[0][1] else None) if rows else Standing()

    def count_try(self, person: str, device: str, at: datetime) -> Standing | None:
        """Count a try as wrong until it proves right and return None; or return the standing that forbids it."""
        with self._connections.writing():
            for who in (person_key(person), device_key(device)):
                standing = self.standing(who)
                if standing.must_wait(at):
                    return standing
            for who in (person_key(person), device_key(device)):
                self._set(who, self.standing(who).wrong + 1, at)
        return None

    def forget(self, person: str, device: str, at: datetime) -> None:
        """After a right secret: take the person's wrong tries off their own count and off the device's."""
        with self._connections.writing():
            own = self.standing(person_key(person)).wrong
            left = max(0, self.standing(device_key(device)).wrong - own)
            self.reset(person_key(person))
            self.reset(device_key(device))
            if left:
                self._set(device_key(device), left, at)

    def reset(self, who: str) -> None:
        """Clear a count: what a manager does for a person or device that is disabled."""
        self._connections.write("DELETE FROM throttle WHERE kitchen = ? AND who = ?", (self._kitchen, who))

    def _set(self, who: str, wrong: int, at: datetime) -> None:
        """Keep a count and the moment until which it makes wait."""
        wait = wait_after(wrong)
        until = moment_text(at + wait) if wait else None
        self._connections.write(
            "INSERT OR REPLACE INTO throttle (kitchen, who, wrong, until) VALUES (?,?,?,?)",
            (self._kitchen, who, wrong, until),
        )
