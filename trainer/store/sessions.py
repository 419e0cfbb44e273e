"""Enrolled devices and open sessions. Only the SHA-256 of a token is kept: anyone who reads the file cannot step in."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from trainer.kitchen.book import moment_text
from trainer.store.connections import Connections
from trainer.store.identity import moment, new_id, new_token, token_hash
from trainer.store.problems import CannotSave

ABSOLUTE = timedelta(hours=12)
WRITE_AGAIN_AFTER = timedelta(seconds=30)  # a page view within this of the last is not written down


@dataclass(frozen=True, slots=True)
class Device:
    """A tablet or phone the kitchen trusts to show its pages, until it is revoked."""

    id: str
    name: str
    enrolled_at: datetime
    by: str
    revoked_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Session:
    """A person signed in on a device. `proved_at` is when they last gave their secret."""

    person: str
    device: str
    opened_at: datetime
    seen_at: datetime
    proved_at: datetime
    idle_minutes: int

    def is_live(self, at: datetime) -> bool:
        """Return whether the session still counts: under 12 hours old in all, and not idle for too long."""
        idle = timedelta(minutes=self.idle_minutes)
        return self.opened_at <= at < self.opened_at + ABSOLUTE and at < self.seen_at + idle


class Devices:
    """The enrolled devices of one kitchen."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def enrol(self, name: str, by: str, at: datetime) -> tuple[Device, str]:
        """Return a new device and its 256-bit secret, which is shown to the device once and kept nowhere."""
        device, secret = Device(new_id(at), name, at, by), new_token()
        self._connections.write(
            'INSERT INTO devices (kitchen, id, name, token_hash, enrolled_at, "by") VALUES (?,?,?,?,?,?)',
            (self._kitchen, device.id, name, token_hash(secret), moment_text(at), by),
        )
        return device, secret

    def find(self, secret: str) -> Device | None:
        """Return the device with this secret; None when there is none, or it was revoked."""
        found = self._read("AND token_hash = ? AND revoked_at IS NULL", token_hash(secret))
        return found[0] if found else None

    def all(self) -> tuple[Device, ...]:
        """Return every device ever enrolled, revoked ones included, oldest first."""
        return self._read("")

    def revoke(self, device_id: str, at: datetime) -> None:
        """Trust a device no longer and close what is open on it, at once."""
        with self._connections.writing():
            self._connections.write(
                "UPDATE devices SET revoked_at = ? WHERE kitchen = ? AND id = ? AND revoked_at IS NULL",
                (moment_text(at), self._kitchen, device_id),
            )
            self._connections.write("DELETE FROM sessions WHERE kitchen = ? AND device = ?", (self._kitchen, device_id))

    def _read(self, where: str, *values: str) -> tuple[Device, ...]:
        """Return the devices a condition picks."""
        sql = f'SELECT id, name, enrolled_at, "by", revoked_at FROM devices WHERE kitchen = ? {where} ORDER BY id'  # noqa: S608
        return tuple(_device(row) for row in self._connections.read(sql, (self._kitchen, *values)))


class Sessions:
    """The open sessions of one kitchen, kept on the server: closing one bites at once."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def open(self, person: str, device: str, at: datetime, idle_minutes: int) -> str:
        """Return the token of a new session; the person has just proved themselves."""
        token, now = new_token(), moment_text(at)
        self._connections.write(
            "INSERT INTO sessions (kitchen, token_hash, person, device, opened_at, seen_at, proved_at, idle_minutes)"
            " VALUES (?,?,?,?,?,?,?,?)",
            (self._kitchen, token_hash(token), person, device, now, now, now, idle_minutes),
        )
        return token

    def find(self, token: str, at: datetime) -> Session | None:
        """Return the live session of a token, or None. It is not touched: see `seen`."""
        sql = (
            "SELECT person, device, opened_at, seen_at, proved_at, idle_minutes FROM sessions"
            " WHERE kitchen = ? AND token_hash = ?"
        )
        rows = self._connections.read(sql, (self._kitchen, token_hash(token)))
        session = _session(rows[0]) if rows else None
        return session if session is not None and session.is_live(at) else None

    def seen(self, token: str, at: datetime) -> Session | None:
        """Return the live session of a token and start its idle time again, where the disk takes it."""
        session = self.find(token, at)
        if session is not None and at - session.seen_at >= WRITE_AGAIN_AFTER:
            with suppress(CannotSave):
                self._set("seen_at = ?", (moment_text(at),), token)
        return session

    def prove(self, token: str, at: datetime) -> None:
        """Note that the person gave their secret again at this moment."""
        self._set("seen_at = ?, proved_at = ?", (moment_text(at), moment_text(at)), token)

    def close(self, token: str) -> None:
        """Close one session."""
        self._connections.write(
            "DELETE FROM sessions WHERE kitchen = ? AND token_hash = ?", (self._kitchen, token_hash(token))
        )

    def close_all_of(self, person: str) -> int:
        """Close every session of a person, on whatever device; return how many."""
        sql = "DELETE FROM sessions WHERE kitchen = ? AND person = ?"
        return self._connections.write(sql, (self._kitchen, person))

    def close_all(self) -> None:
        """Close every session of the kitchen: everybody signs in again."""
        self._connections.write("DELETE FROM sessions WHERE kitchen = ?", (self._kitchen,))

    def drop_old(self, at: datetime) -> int:
        """Drop the sessions past their 12 hours; return how many."""
        before = moment_text(at - ABSOLUTE)
        return self._connections.write(
            "DELETE FROM sessions WHERE kitchen = ? AND opened_at <= ?", (self._kitchen, before)
        )

    def _set(self, what: str, values: tuple[str, ...], token: str) -> None:
        """Change columns of one session."""
        sql = f"UPDATE sessions SET {what} WHERE kitchen = ? AND token_hash = ?"  # noqa: S608 - fixed columns
        self._connections.write(sql, (*values, self._kitchen, token_hash(token)))


def _device(row: tuple[Any, ...]) -> Device:
    """Return a row as a device."""
    device_id, name, enrolled_at, by, revoked_at = row
    return Device(device_id, name, moment(enrolled_at), by, moment(revoked_at) if revoked_at else None)


def _session(row: tuple[Any, ...]) -> Session:
    """Return a row as a session."""
    person, device, opened_at, seen_at, proved_at, idle_minutes = row
    return Session(person, device, moment(opened_at), moment(seen_at), moment(proved_at), idle_minutes)
