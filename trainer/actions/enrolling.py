"""The devices a kitchen trusts: a code invites one more, the device types it, and a manager may revoke it.

A device nobody enrolled meets no door for a name and a passphrase: a stranger on the network has nothing to guess but a
code of 8 digits that is good for ten minutes and once (OWASP ASVS 5.0.0, 6.5.1 to 6.5.5 and 6.6.3, from memory: a code
is random, used once, short-lived, and tries at it are slowed down).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.secret_rules import random_code, without_gaps
from trainer.actions.signing_in import NOT_MANAGER, Done, is_manager, must_wait
from trainer.kitchen.book import LOCAL, NewEntry
from trainer.kitchen.entitlement import A_MANAGER
from trainer.messages import message
from trainer.store.acting import acting_on
from trainer.store.identity import new_id
from trainer.store.secret_hash import hash_secret, is_right
from trainer.store.sessions import Device, Invitation
from trainer.store.throttle import address_pair

INVITATION_GOOD = timedelta(minutes=10)
NO_CODE = Refused(message("That code does not open this. It is good for ten minutes, and once."), field="code")
NEEDS_NAME = Refused(message("Give the device a name that tells it from the others."), field="name")
Way = Literal["invitation", "local"]


@dataclass(frozen=True, slots=True)
class Enrolled:
    """A device just enrolled; `secret` goes into its cookie now and is kept nowhere else."""

    device: Device
    secret: str


@dataclass(frozen=True, slots=True)
class Invited:
    """A code for one new device, to be shown once."""

    code: str
    good_until: datetime


@dataclass(frozen=True, slots=True)
class AtTheDoor:
    """What is typed on a device nobody has enrolled: the code, a name for the device, and from which address."""

    code: str
    name: str
    address: str


def invite_device(k: Kitchen, *, by: str, now: datetime) -> Invited | Refused:
    """Return a code with which one new device may be enrolled; an earlier one is good no more.

    A manager makes it, or a command on the machine itself.
    """
    if by != LOCAL and not is_manager(k, by, now):
        return Refused(message("Only a manager may enrol a device."), A_MANAGER)
    invited = Invited(random_code(), now + INVITATION_GOOD)
    k.file.devices.invite(Invitation(hash_secret(invited.code), by, invited.good_until))
    return invited


def enrol_with_code(k: Kitchen, *, given: AtTheDoor, now: datetime) -> Enrolled | Refused:
    """Return the device, enrolled with the code of an invitation that is good and was not used.

    Wrong codes are counted for the address alone: what a stranger types there makes nobody wait anywhere else, and the
    address itself waits and is never closed.
    """
    if not _tidy(given.name):
        return NEEDS_NAME
    pair, throttle = address_pair(given.address), k.file.throttle
    with throttle.one_at_a_time(pair):
        standing = throttle.standing(pair)
        if standing.must_wait(now):
            return must_wait(standing, now, "code")
        invitation = k.file.devices.invitation()
        matches = is_right(invitation.hash if invitation else "", without_gaps(given.code))
        if invitation is None or not matches or not _is_good(k, invitation, now):
            throttle.count_wrong(pair, now)
            return NO_CODE
        throttle.clear(pair)
    return _enrolled_with(k, invitation, given.name, now)


def _is_good(k: Kitchen, invitation: Invitation, now: datetime) -> bool:
    """Return whether an invitation still counts: in time, and of somebody who is a manager still."""
    in_time = timedelta(0) < invitation.good_until - now <= INVITATION_GOOD
    return in_time and (invitation.by == LOCAL or is_manager(k, invitation.by, now))


def _enrolled_with(k: Kitchen, invitation: Invitation, name: str, now: datetime) -> Enrolled | Refused:
    """Return the device, with the invitation used up in the same transaction; of two at once the second is refused."""
    way: Way = "local" if invitation.by == LOCAL else "invitation"
    with k.file.writing():
        refused = refused_by_clock(k, now)
        if refused is not None:
            return refused
        if not k.file.devices.use_up(invitation):
            return NO_CODE
        return _enrolled(k, _tidy(name), invitation.by, now, way)


def enrol_device(k: Kitchen, *, name: str, by: str, now: datetime) -> Enrolled | Refused:
    """Return the enrolled device, without a code: a manager vouches, and in a demo kitchen any device enrols itself."""
    if not k.file.settings.is_demo and not is_manager(k, by, now):
        return Refused(message("Only a manager may enrol a device."), A_MANAGER)
    if not _tidy(name):
        return NEEDS_NAME
    with k.file.writing():
        if refused_by_clock(k, now) is None:
            return _enrolled(k, _tidy(name), by or LOCAL, now, "local")
        if k.file.settings.is_demo:
            return Enrolled(*k.file.devices.enrol(_tidy(name), by or LOCAL, now))
    return refused_by_clock(k, now) or NEEDS_NAME


def _enrolled(k: Kitchen, name: str, by: str, now: datetime, way: Way) -> Enrolled:
    """Return a new device, with its entry; the entry comes from the device itself."""
    made = Enrolled(*k.file.devices.enrol(name, by, now))
    body = {"device": made.device.id, "name": name, "way": way}
    with acting_on(made.device.id):
        k.file.book.append(NewEntry("device_enrolled", k.moment(now), by, by, body, new_id(now)))
    return made


def revoke_device(k: Kitchen, *, device: str, by: str, now: datetime) -> Done | Refused:
    """Trust a device no longer, at once; everybody signed in on it is signed out. It is an entry in the book.

    A clock nobody can believe does not keep a lost device trusted: it is entered where the book takes it.
    """
    if not is_manager(k, by, now):
        return Refused(NOT_MANAGER, A_MANAGER)
    with k.file.writing():
        refused = refused_by_clock(k, now)
        k.file.devices.revoke(device, now)
        if refused is None:
            k.file.book.append(NewEntry("device_revoked", k.moment(now), by, by, {"device": device}, new_id(now)))
    return Done()


def _tidy(name: str) -> str:
    """Return a device's name with single spaces, no longer than its label; nothing where it cannot be printed."""
    tidy = " ".join(name.split())[:80]
    return tidy if tidy.isprintable() else ""
