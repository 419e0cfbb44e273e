"""Slows down anyone who guesses secrets: wrong tries are counted for one person on one device, and for nobody else.

Five wrong tries without a right one: 30 seconds; each further one doubles it, to 15 minutes; the hundredth closes that
person on that device until a manager opens it. NIST SP 800-63B-4, section 3.2.2, allows at most 100 in a row (from
memory). One try at a time is looked at for a pair, and it is counted once it is known to be wrong: tries sent side by
side gain nothing, and a program that ends in mid-check counts nothing.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta

from trainer.kitchen.book import moment_text
from trainer.store.connections import Connections
from trainer.store.identity import moment, token_hash

FREE_TRIES = 5
DISABLED_AT = 100
SHORTEST = timedelta(seconds=30)
LONGEST = timedelta(minutes=15)
ADDRESS_KEPT = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class WaitState:
    """How many wrong tries stand against a pair, and until when it must wait."""

    wrong: int = 0
    until: datetime | None = None

    @property
    def is_disabled(self) -> bool:
        """Return whether only a manager can open it again."""
        return self.wrong >= DISABLED_AT

    def must_wait(self, at: datetime) -> bool:
        """Return whether no try may be made now.

        A wait far longer than its count asks for was begun by a clock that was set back since, and is over. Tries sent
        side by side, whose moments were read before the wait began, do not get past it.
        """
        if self.is_disabled or self.until is None or self.wrong < FREE_TRIES:
            return self.is_disabled
        return timedelta(0) < self.until - at <= wait_after(self.wrong) + LONGEST


@dataclass(frozen=True, slots=True)
class PersonOnDevice:
    """Whose tries are counted together: a person (hashed, as any text may be asked for) on a device.

    Where no device is enrolled yet, the pair is nobody at an address: it waits, and is never closed.
    """

    person: str
    device: str

    @property
    def is_address(self) -> bool:
        """Return whether this is an address at which no device is enrolled."""
        return not self.person


def pair_of(person: str, device: str) -> PersonOnDevice:
    """Return the pair of a person and an enrolled device."""
    return PersonOnDevice(token_hash(person), device)


def address_pair(address: str) -> PersonOnDevice:
    """Return the pair of the caller from an address."""
    return PersonOnDevice("", "address:" + token_hash(address))


def wait_after(wrong: int) -> timedelta:
    """Return how long to wait after this many wrong tries in a row.

    >>> [int(wait_after(n).total_seconds()) for n in (4, 5, 6, 9, 10, 40)]
    [0, 30, 60, 480, 900, 900]
    """
    if wrong < FREE_TRIES:
        return timedelta(0)
    doublings = min(wrong - FREE_TRIES, 10)
    return min(SHORTEST * (1 << doublings), LONGEST)


class Throttle:
    """The counts of one kitchen. Safe to share between threads."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen
        self._guard = threading.Lock()
        self._checks: dict[PersonOnDevice, tuple[threading.Lock, int]] = {}  # with how many hold it or wait for it

    @contextmanager
    def one_at_a_time(self, pair: PersonOnDevice) -> Iterator[None]:
        """Run the body while no other thread is in it for the same pair."""
        with self._guard:
            lock, users = self._checks.get(pair, (threading.Lock(), 0))
            self._checks[pair] = (lock, users + 1)
        try:
            with lock:
                yield
        finally:
            with self._guard:
                lock, users = self._checks.pop(pair)
                if users > 1:
                    self._checks[pair] = (lock, users - 1)

    def standing(self, pair: PersonOnDevice) -> WaitState:
        """Return how a pair stands."""
        sql = "SELECT wrong, until FROM throttle WHERE kitchen = ? AND person = ? AND device = ?"
        rows = self._connections.read(sql, (self._kitchen, pair.person, pair.device))
        return WaitState(int(rows[0][0]), moment(rows[0][1])) if rows else WaitState()

    def count_wrong(self, pair: PersonOnDevice, at: datetime) -> WaitState:
        """Count a try that was wrong, and return how the pair stands now."""
        with self._connections.writing():
            wrong = self.standing(pair).wrong + 1
            if pair.is_address:
                wrong = min(wrong, DISABLED_AT - 1)
                self._drop_old_addresses(at)
            standing = WaitState(wrong, at + wait_after(wrong))
            self._connections.write(
                "INSERT OR REPLACE INTO throttle (kitchen, person, device, wrong, until) VALUES (?,?,?,?,?)",
                (self._kitchen, pair.person, pair.device, wrong, moment_text(at + wait_after(wrong))),
            )
        return standing

    def clear(self, pair: PersonOnDevice) -> None:
        """Forget the wrong tries of a pair: after a right secret."""
        self._connections.write(
            "DELETE FROM throttle WHERE kitchen = ? AND person = ? AND device = ?",
            (self._kitchen, pair.person, pair.device),
        )

    def clear_person(self, person: str) -> None:
        """Forget the wrong tries of a person on every device."""
        self._connections.write(
            "DELETE FROM throttle WHERE kitchen = ? AND person = ?", (self._kitchen, token_hash(person))
        )

    def _drop_old_addresses(self, at: datetime) -> None:
        """Forget the addresses that have not been heard of for a day, so that strangers do not fill the disk."""
        self._connections.write(
            "DELETE FROM throttle WHERE kitchen = ? AND person = '' AND until < ?",
            (self._kitchen, moment_text(at - ADDRESS_KEPT)),
        )
