"""Devices, first codes, signing in and out, and proving oneself again. Time comes in; only the edge reads a clock."""

from __future__ import annotations

import secrets
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta

from trainer.actions import secret_rules
from trainer.actions.clock_watch import after_the_last, may_run_ahead
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.kitchen.book import PROGRAM, NewEntry
from trainer.kitchen.entitlement import A_MANAGER, ANOTHER_MANAGER
from trainer.messages import message, plural
from trainer.store.identity import new_id
from trainer.store.people import Secret, SecretKind
from trainer.store.problems import BookRefuses
from trainer.store.secret_hash import hash_secret, is_right
from trainer.store.sessions import Device, Session
from trainer.store.throttle import DISABLED_AT, FREE_TRIES, PersonOnDevice, WaitState, pair_of

COOK_IDLE_MINUTES = 15
MANAGER_IDLE_MINUTES = 30
PROOF_MINUTES = 2  # how long a proof is good for signing
FIRST_CODE_GOOD = timedelta(hours=24)
FIRST_CODE_DIGITS = 8
NO_MATCH = Refused(message("That name and secret do not go together."), field="secret")
NOT_MANAGER = message("Only a manager may do this.")


@dataclass(frozen=True, slots=True)
class Enrolled:
    """A device just enrolled; `secret` goes into its cookie now and is kept nowhere else."""

    device: Device
    secret: str


@dataclass(frozen=True, slots=True)
class NewSession:
    """A session just opened: its token for the cookie, and whether the person must first choose a secret."""

    token: str
    person: str
    must_choose: bool


@dataclass(frozen=True, slots=True)
class FirstCode:
    """A one-time code for a person's first sign-in, to be shown once."""

    person: str
    code: str
    good_until: datetime


@dataclass(frozen=True, slots=True)
class Done:
    """It is done, and there is nothing more to say."""


def enrol_device(k: Kitchen, *, name: str, by: str, now: datetime) -> Enrolled | Refused:
    """Return the enrolled device: a manager may, and in a demo kitchen any device may enrol itself."""
    if not k.file.settings.is_demo and not _is_manager(k, by, now):
        return Refused(message("Only a manager may enrol a device."), A_MANAGER)
    tidy = " ".join(name.split())[:80]
    if not tidy or not tidy.isprintable():
        return Refused(message("Give the device a name that tells it from the others."), field="name")
    return Enrolled(*k.file.devices.enrol(tidy, by or "demo", now))


def revoke_device(k: Kitchen, *, device: str, by: str, now: datetime) -> Done | Refused:
    """Trust a device no longer, at once; everybody signed in on it is signed out."""
    if not _is_manager(k, by, now):
        return Refused(NOT_MANAGER, A_MANAGER)
    k.file.devices.revoke(device, now)
    return Done()


def first_code(k: Kitchen, *, by: str, cook: str, now: datetime) -> FirstCode | Refused:
    """Return a one-time code of 8 digits, good for 24 hours; the secret the person had no longer works."""
    if not _is_manager(k, by, now):
        return Refused(message("Only a manager gives out a first code."), A_MANAGER)
    if by == cook:
        return Refused(message("Nobody gives themselves a first code."), ANOTHER_MANAGER)
    if cook not in k.people():
        return Refused(message("There is nobody with this id on the roster."), field="cook")
    code = _fresh_code()
    good_until = now + FIRST_CODE_GOOD
    with k.file.writing():
        k.file.people.set_secret(cook, Secret(hash_secret(code), "first_code", True, good_until))
        k.file.sessions.close_all_of(cook)
        k.file.throttle.clear_person(cook)
    return FirstCode(cook, code, good_until)


def sign_in(k: Kitchen, *, device: str, person: str, secret: str, now: datetime) -> NewSession | Refused:
    """Return the token of a new session, on an enrolled device (its id) and with the right secret.

    An unknown person, one who has left and a wrong secret get the same answer after the same work.
    """
    if not _is_enrolled(k, device):
        return Refused(message("This device is not enrolled."), A_MANAGER)
    kept = proved(k, device=device, person=person, secret=secret, now=now)
    if isinstance(kept, Refused):
        return kept
    if kept.kind == "first_code" and not _used_up(k, person, kept, now):
        return NO_MATCH
    k.file.sessions.drop_old(now)
    token = k.file.sessions.open(person, device, now, _idle_minutes(k, person, now))
    return NewSession(token, person, kept.must_change)


def prove_again(k: Kitchen, *, token: str, secret: str, now: datetime) -> Session | Refused:
    """Return the session with its proof renewed, after the right secret: what signing asks for after two minutes."""
    session = k.file.sessions.find(token, now)
    if session is None:
        return Refused(message("You are signed out. Sign in again."))
    kept = proved(k, device=session.device, person=session.person, secret=secret, now=now)
    if isinstance(kept, Refused):
        return kept
    k.file.sessions.prove(token, now)
    return k.file.sessions.find(token, now) or Refused(message("You are signed out. Sign in again."))


def proved_within(session: Session, minutes: int, now: datetime) -> bool:
    """Return whether the person gave their secret within the last *minutes*, the last moment included."""
    return timedelta(0) <= now - session.proved_at <= timedelta(minutes=minutes)


def session_of(k: Kitchen, *, token: str, now: datetime) -> Session | None:
    """Return the live session of a token and start its idle time again; None once the person has left the roster."""
    session = k.file.sessions.seen(token, now)
    if session is None or k.people().get(session.person) is None:
        return None
    return session if k.progress().roles(session.person, k.today(now)) else None


def must_choose(k: Kitchen, *, person: str) -> bool:
    """Return whether a person signed in with a first code and has not chosen a secret of their own yet."""
    kept = k.file.people.secret_of(person)
    return kept is None or kept.must_change


def choose_secret(k: Kitchen, *, token: str, secret: str, now: datetime) -> Done | Refused:
    """Keep the secret a signed-in person chose; asked within two minutes of a proof, or after a first code."""
    session = k.file.sessions.find(token, now)
    if session is None:
        return Refused(message("You are signed out. Sign in again."))
    if not must_choose(k, person=session.person) and not proved_within(session, PROOF_MINUTES, now):
        return Refused(message("Give the secret you have now first."), field="secret")
    outcome = set_secret(k, person=session.person, secret=secret)
    if isinstance(outcome, Done):
        k.file.sessions.prove(token, now)
    return outcome


def set_secret(k: Kitchen, *, person: str, secret: str) -> Done | Refused:
    """Keep a secret for a person if the rules allow it; for the command line, whose user owns the kitchen's files."""
    who = k.people().get(person)
    if who is None:
        return Refused(message("There is nobody with this id on the roster."), field="person")
    own = secret_rules.without_gaps(secret)
    wrong = secret_rules.validate(own, who.born, (who.name, *who.name.split(), k.file.settings.name))
    if wrong:
        return Refused(wrong, field="secret")
    kind: SecretKind = "pin" if secret_rules.is_pin(own) else "passphrase"
    k.file.people.set_secret(person, Secret(hash_secret(own), kind, False))
    k.file.throttle.clear_person(person)
    return Done()


def let_try_again(k: Kitchen, *, by: str, now: datetime, person: str) -> Done | Refused:
    """Clear the wrong tries of a person on every device: a manager may, but not their own."""
    if not _is_manager(k, by, now):
        return Refused(NOT_MANAGER, A_MANAGER)
    if person == by:
        return Refused(message("Nobody clears their own wrong tries."), ANOTHER_MANAGER)
    k.file.throttle.clear_person(person)
    return Done()


def sign_out(k: Kitchen, *, token: str) -> Done:
    """Close the session at once; a token that is closed already is no error."""
    k.file.sessions.close(token)
    return Done()


def proved(k: Kitchen, *, device: str, person: str, secret: str, now: datetime) -> Secret | Refused:
    """Return the person's kept secret after the right one was given on a device, or why not.

    Every wrong try is counted for this person on this device; a right one clears the count.
    """
    return proved_as(k, pair=pair_of(person, device), person=person, secret=secret, now=now)


def proved_as(k: Kitchen, *, pair: PersonOnDevice, person: str, secret: str, now: datetime) -> Secret | Refused:
    """Return the person's kept secret after the right one was given, or why not; a pair's tries come one by one."""
    throttle = k.file.throttle
    with throttle.one_at_a_time(pair):
        standing = throttle.standing(pair)
        if standing.must_wait(now):
            return _must_wait(standing, now)
        kept = k.file.people.secret_of(person)
        matches = is_right(kept.hash if kept else "", secret_rules.without_gaps(secret))
        expired = kept is not None and kept.good_until is not None and now >= kept.good_until
        here = bool(k.progress().roles(person, k.today(now)))
        if kept is None or not matches or expired or not here:
            _enter_lock(k, pair, person, throttle.count_wrong(pair, now).wrong, now)
            return NO_MATCH
        if standing.wrong:
            throttle.clear(pair)
        return kept


def _enter_lock(k: Kitchen, pair: PersonOnDevice, person: str, wrong: int, now: datetime) -> None:
    """Enter into the book that a person on the roster must wait on a device for the first time, or is closed there.

    A clock behind the last entry does not keep it out, one that may run ahead does: the book is not moved there for it.
    A book that will not take it keeps nobody from being told to wait.
    """
    is_lock = wrong in (FREE_TRIES, DISABLED_AT) and not pair.is_address and not may_run_ahead(k, now)
    if is_lock and k.progress().roles(person, k.today(now)):
        deed = NewEntry("locked_out", now, person, PROGRAM, {"device": pair.device, "wrong": wrong}, new_id(now))
        with suppress(BookRefuses):
            k.file.book.append(after_the_last(k, deed))


def _used_up(k: Kitchen, person: str, code: Secret, now: datetime) -> bool:
    """Use up a first code; of two who give it at once, return True to one."""
    with k.file.writing():
        if k.file.people.secret_of(person) != code:
            return False
        k.file.people.set_secret(person, Secret("", "first_code", True, now))
    return True


def _must_wait(standing: WaitState, now: datetime) -> Refused:
    """Return how long to wait, in words."""
    if standing.is_disabled or standing.until is None:
        return Refused(message("Too many wrong tries. A manager must open this again."), "", "secret")
    seconds = max(1, -(-int((standing.until - now).total_seconds() * 1000) // 1000))
    wait = plural("{number} second", "{number} seconds", seconds)
    if seconds >= 120:
        wait = plural("{number} minute", "{number} minutes", -(-seconds // 60))
    at_once = message("A manager can let you try at once.")
    return Refused(message("Too many wrong tries. Wait {wait}, then try again.", wait=wait), at_once, "secret")


def _is_manager(k: Kitchen, person: str, now: datetime) -> bool:
    """Return whether a person is a manager today."""
    return "manager" in k.progress().roles(person, k.today(now))


def _is_enrolled(k: Kitchen, device: str) -> bool:
    """Return whether a device id is enrolled and not revoked."""
    return any(known.id == device and known.revoked_at is None for known in k.file.devices.all())


def _idle_minutes(k: Kitchen, person: str, now: datetime) -> int:
    """Return after how many idle minutes a person is signed out."""
    return MANAGER_IDLE_MINUTES if _is_manager(k, person, now) else COOK_IDLE_MINUTES


def _fresh_code() -> str:
    """Return a random code that is not a silly one."""
    while True:
        code = f"{secrets.randbelow(10**FIRST_CODE_DIGITS):0{FIRST_CODE_DIGITS}d}"
        if not secret_rules.validate(code, None):
            return code
