"""Enrolled devices and open sessions. Only the SHA-256 of a token is kept: anyone who reads the file cannot step in."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, cast

from trainer.kitchen.book import moment_text
from trainer.kitchen.proof import How, Proof
from trainer.store.connections import Connections
from trainer.store.identity import moment, new_id, new_token, token_hash
from trainer.store.people import Secret
from trainer.store.problems import CannotSave

ABSOLUTE = timedelta(hours=12)
WRITE_AGAIN_AFTER = timedelta(seconds=30)  # a page view within this of the last is not written down


@dataclass(frozen=True, slots=True)
class Device:
    """A tablet or phone the kitchen trusts to show its pages, until it is revoked.

    `owner` is whose own phone it is; "" where it is shared.
    """

    id: str
    name: str
    enrolled_at: datetime
    by: str
    revoked_at: datetime | None = None
    owner: str = ""


@dataclass(frozen=True, slots=True)
class Invitation:
    """A code with which one more device may be enrolled: only its argon2id hash, who made it, and how long it is good.

    `by` is a manager, or `local` where it was made on the machine itself.
    """

    hash: str
    by: str
    good_until: datetime


@dataclass(frozen=True, slots=True)
class Session:
    """A person signed in on a device. `proved_at` is when they last gave their secret, `how` which kind of it.

    Of a session of an older program `how` is nothing.
    """

    person: str
    device: str
    opened_at: datetime
    seen_at: datetime
    proved_at: datetime
    idle_minutes: int
    how: str = ""
    secret_since: datetime | None = None

    @property
    def proof(self) -> Proof | None:
        """Return how the person proved last who they are; None where that was not kept."""
        if not self.how:
            return None
        return Proof(cast("How", self.how), self.proved_at, self.device, self.secret_since)

    @property
    def ends_at(self) -> datetime:
        """Return when the session ends, however busy it is."""
        return self.opened_at + ABSOLUTE

    def is_live(self, at: datetime) -> bool:
        """Return whether the session still counts: under 12 hours old in all, and not idle for too long."""
        idle = timedelta(minutes=self.idle_minutes)
        return self.opened_at <= at < self.ends_at and at < self.seen_at + idle


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

    def give_to(self, device_id: str, owner: str) -> None:
        """Keep whose own phone a device is; with "" it is shared again."""
        sql = "UPDATE devices SET owner = ? WHERE kitchen = ? AND id = ?"
        self._connections.write(sql, (owner or None, self._kitchen, device_id))

    def note_use(self, device_id: str, person: str, at: datetime) -> None:
        """Keep when a person signed in on a device last."""
        sql = "INSERT OR REPLACE INTO device_uses (kitchen, device, person, at) VALUES (?,?,?,?)"
        self._connections.write(sql, (self._kitchen, device_id, person, moment_text(at)))

    def users_of(self, device_id: str) -> dict[str, datetime]:
        """Return who has signed in on a device and when last, the last one first."""
        sql = "SELECT person, at FROM device_uses WHERE kitchen = ? AND device = ? ORDER BY at DESC, person"
        return {person: moment(at) for person, at in self._connections.read(sql, (self._kitchen, device_id))}

    def get(self, device_id: str) -> Device | None:
        """Return a device by its id; None when there is none, or it was revoked."""
        found = self._read("AND id = ? AND revoked_at IS NULL", device_id)
        return found[0] if found else None

    def invite(self, invitation: Invitation) -> None:
        """Keep the code a new device is enrolled with, in place of an earlier one."""
        self._connections.write(
            'INSERT OR REPLACE INTO invitations (kitchen, hash, "by", good_until) VALUES (?,?,?,?)',
            (self._kitchen, invitation.hash, invitation.by, moment_text(invitation.good_until)),
        )

    def invitation(self) -> Invitation | None:
        """Return the invitation that was made last and is not used up, good or not; None where there is none."""
        sql = 'SELECT hash, "by", good_until FROM invitations WHERE kitchen = ?'
        rows = self._connections.read(sql, (self._kitchen,))
        return Invitation(rows[0][0], rows[0][1], moment(rows[0][2])) if rows else None

    def use_up(self, invitation: Invitation) -> bool:
        """Take an invitation away; of two who use it at once, return True to one."""
        sql = "DELETE FROM invitations WHERE kitchen = ? AND hash = ?"
        return self._connections.write(sql, (self._kitchen, invitation.hash)) > 0

    def _read(self, where: str, *values: str) -> tuple[Device, ...]:
        """Return the devices a condition picks."""
        columns = 'id, name, enrolled_at, "by", revoked_at, owner'
        sql = f"SELECT {columns} FROM devices WHERE kitchen = ? {where} ORDER BY id"  # noqa: S608 - fixed columns
        return tuple(_device(row) for row in self._connections.read(sql, (self._kitchen, *values)))


class Sessions:
    """The open sessions of one kitchen, kept on the server: closing one bites at once."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def open(self, person: str, device: str, at: datetime, idle_minutes: int, secret: Secret | None = None) -> str:
        """Return the token of a new session; the person has just proved themselves, by this secret."""
        token, now = new_token(), moment_text(at)
        how, since = _told(secret)
        self._connections.write(
            "INSERT INTO sessions (kitchen, token_hash, person, device, opened_at, seen_at, proved_at, idle_minutes,"
            " how, secret_since) VALUES (?,?,?,?,?,?,?,?,?,?)",
            (self._kitchen, token_hash(token), person, device, now, now, now, idle_minutes, how, since),
        )
        return token

    def find(self, token: str, at: datetime) -> Session | None:
        """Return the live session of a token, or None. It is not touched: see `seen`."""
        session = self.kept(token)
        return session if session is not None and session.is_live(at) else None

    def kept(self, token: str) -> Session | None:
        """Return the session of a token, idle for too long or not; None once it was closed or dropped."""
        sql = (
            "SELECT person, device, opened_at, seen_at, proved_at, idle_minutes, how, secret_since FROM sessions"
            " WHERE kitchen = ? AND token_hash = ?"
        )
        rows = self._connections.read(sql, (self._kitchen, token_hash(token)))
        return _session(rows[0]) if rows else None

    def seen(self, token: str, at: datetime) -> Session | None:
        """Return the live session of a token and start its idle time again, where the disk takes it."""
        session = self.find(token, at)
        if session is not None and at - session.seen_at >= WRITE_AGAIN_AFTER:
            with suppress(CannotSave):
                self._set("seen_at = ?", (moment_text(at),), token)
        return session

    def prove(self, token: str, at: datetime, secret: Secret | None = None) -> None:
        """Note that the person gave this secret again at this moment."""
        values = (moment_text(at), moment_text(at), *_told(secret))
        self._set("seen_at = ?, proved_at = ?, how = ?, secret_since = ?", values, token)

    def close(self, token: str) -> None:
        """Close one session."""
        self._connections.write(
            "DELETE FROM sessions WHERE kitchen = ? AND token_hash = ?", (self._kitchen, token_hash(token))
        )

    def close_all_of(self, person: str, but: str = "") -> int:
        """Close every session of a person, on whatever device, but for one (its token); return how many."""
        sql = "DELETE FROM sessions WHERE kitchen = ? AND person = ? AND token_hash <> ?"
        return self._connections.write(sql, (self._kitchen, person, token_hash(but)))

    def close_all(self) -> None:
        """Close every session of the kitchen: everybody signs in again."""
        self._connections.write("DELETE FROM sessions WHERE kitchen = ?", (self._kitchen,))

    def drop_old(self, at: datetime) -> int:
        """Drop the sessions past their 12 hours; return how many."""
        before = moment_text(at - ABSOLUTE)
        return self._connections.write(
            "DELETE FROM sessions WHERE kitchen = ? AND opened_at <= ?", (self._kitchen, before)
        )

    def _set(self, what: str, values: tuple[str | None, ...], token: str) -> None:
        """Change columns of one session."""
        sql = f"UPDATE sessions SET {what} WHERE kitchen = ? AND token_hash = ?"  # noqa: S608 - fixed columns
        self._connections.write(sql, (*values, self._kitchen, token_hash(token)))


def _device(row: tuple[Any, ...]) -> Device:
    """Return a row as a device."""
    device_id, name, enrolled_at, by, revoked_at, owner = row
    return Device(device_id, name, moment(enrolled_at), by, moment(revoked_at) if revoked_at else None, owner or "")


def _session(row: tuple[Any, ...]) -> Session:
    """Return a row as a session."""
    person, device, opened_at, seen_at, proved_at, idle_minutes, how, since = row
    moments = (moment(opened_at), moment(seen_at), moment(proved_at))
    return Session(person, device, *moments, idle_minutes, how, moment(since) if since else None)


def _told(secret: Secret | None) -> tuple[str, str | None]:
    """Return a secret's kind and since when it is its owner's, as kept."""
    if secret is None:
        return "", None
    return secret.kind, moment_text(secret.since) if secret.since else None
