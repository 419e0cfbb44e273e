"""Signing in and out, and proving oneself again. Time comes in; only the edge reads a clock."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta

from trainer.actions import secret_rules
from trainer.actions.clock_watch import after_the_last, may_run_ahead, refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.two_people import POWER
from trainer.kitchen.book import PROGRAM, Entry, NewEntry
from trainer.kitchen.entitlement import A_MANAGER, ANOTHER_MANAGER
from trainer.messages import message, plural
from trainer.store.first_codes import KeptCode
from trainer.store.identity import new_id
from trainer.store.people import Secret, SecretKind
from trainer.store.problems import BookRefuses
from trainer.store.secret_hash import hash_secret, is_right
from trainer.store.sessions import Session
from trainer.store.throttle import DISABLED_AT, FREE_TRIES, PersonOnDevice, WaitState, pair_of

COOK_IDLE_MINUTES = 15
MANAGER_IDLE_MINUTES = 30
PROOF_MINUTES = 2  # how long a proof is good for signing
NO_MATCH = Refused(message("That name and secret do not go together."), field="secret")
NOT_MANAGER = message("Only a manager may do this.")


@dataclass(frozen=True, slots=True)
class NewSession:
    """A session just opened: its token for the cookie, and whether the person must first choose a secret."""

    token: str
    person: str
    must_choose: bool


@dataclass(frozen=True, slots=True)
class Done:
    """It is done, and there is nothing more to say."""


def codes_to_tell(k: Kitchen, *, person: str) -> tuple[Entry, ...]:
    """Return the entries of first codes given for a person of which they were not told yet, oldest first."""
    told = k.file.first_codes.told_up_to(person)
    return tuple(entry for entry in codes_given(k, person=person) if entry.seq > told)


def codes_given(k: Kitchen, *, person: str) -> tuple[Entry, ...]:
    """Return the entries of all first codes given for a person, oldest first."""
    lines = [line.entry for line in k.progress().record(person).noted if line.kind == "first_code_given"]
    return tuple(entry for entry in map(k.file.book.find, lines) if entry is not None)


def codes_told(k: Kitchen, *, person: str) -> None:
    """Note that a person was told of every first code given for them by now."""
    k.file.first_codes.tell(person, k.file.book.end()[0])


def sign_in(k: Kitchen, *, device: str, person: str, secret: str, now: datetime) -> NewSession | Refused:
    """Return the token of a new session, on an enrolled device (its id) and with the right secret.

    An unknown person, one who has left and a wrong secret get the same answer after the same work. A first code opens
    once, and ends the secret they had; where it is the only one they were not told of, it tells itself.
    """
    if not _is_enrolled(k, device):
        return Refused(message("This device is not enrolled."), A_MANAGER)
    kept = proved_as(k, pair=pair_of(person, device), person=person, secret=secret, now=now, with_code=True)
    if isinstance(kept, Refused):
        return kept
    if kept.kind == "first_code" and not _used_up(k, person, kept, now):
        return NO_MATCH
    k.file.sessions.drop_old(now)
    token = k.file.sessions.open(person, device, now, _idle_minutes(k, person, now), kept)
    k.file.devices.note_use(device, person, now)
    return NewSession(token, person, kept.must_change)


def prove_again(k: Kitchen, *, token: str, secret: str, now: datetime) -> Session | Refused:
    """Return the session with its proof renewed, after the right secret: what signing asks for after two minutes."""
    session = k.file.sessions.find(token, now)
    if session is None:
        return Refused(message("You are signed out. Sign in again."))
    kept = proved(k, device=session.device, person=session.person, secret=secret, now=now)
    if isinstance(kept, Refused):
        return kept
    k.file.sessions.prove(token, now, kept)
    return k.file.sessions.find(token, now) or Refused(message("You are signed out. Sign in again."))


def proved_within(session: Session, minutes: int, now: datetime) -> bool:
    """Return whether the person gave their secret within the last *minutes*, the last moment included."""
    return timedelta(0) <= now - session.proved_at <= timedelta(minutes=minutes)


def session_of(k: Kitchen, *, token: str, now: datetime) -> Session | None:
    """Return the live session of a token and start its idle time again; None once the person has left the roster."""
    session = k.file.sessions.seen(token, now)
    return session if session is not None and session_counts(k, session, now) else None


def session_counts(k: Kitchen, session: Session, now: datetime) -> bool:
    """Return whether the person of a session is on the roster today."""
    return k.people().get(session.person) is not None and bool(k.progress().roles(session.person, k.today(now)))


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
    refused = refused_by_clock(k, now)
    if refused is not None:
        return refused
    with k.file.writing():
        before = k.file.people.secret_of(session.person)
        outcome = set_secret(k, person=session.person, secret=secret, now=now)
        if isinstance(outcome, Done):
            k.file.sessions.prove(token, now, k.file.people.secret_of(session.person))
            _enter_change(k, session.person, before, token, now)
    return outcome


def _enter_change(k: Kitchen, person: str, before: Secret | None, token: str, now: datetime) -> None:
    """Enter that a person chose another secret, and close what they have open elsewhere.

    OWASP ASVS 5.0.0, 7.4.3 (from memory): after a factor was changed, all other sessions can be ended.
    """
    after = k.file.people.secret_of(person)
    closed = k.file.sessions.close_all_of(person, but=token)
    kinds = {"from": before.kind if before else "none", "to": after.kind if after else "none"}
    body = {**kinds, "sessions_closed": closed}
    deed = NewEntry("secret_changed", k.moment(now), person, person, body, new_id(now))
    k.file.book.append(after_the_last(k, deed))


def set_secret(k: Kitchen, *, person: str, secret: str, now: datetime | None = None) -> Done | Refused:
    """Keep a secret for a person if the rules allow it; for the command line, whose user owns the kitchen's files.

    With *now* it is kept since when the secret is theirs: a signature says so for a day.
    """
    who = k.people().get(person)
    if who is None:
        return Refused(message("There is nobody with this id on the roster."), field="person")
    own = secret_rules.without_gaps(secret)
    wrong = secret_rules.validate(own, who.born, (who.name, *who.name.split(), k.file.settings.name))
    if wrong:
        return Refused(wrong, field="secret")
    kind: SecretKind = "pin" if secret_rules.is_pin(own) else "passphrase"
    k.file.people.set_secret(person, Secret(hash_secret(own), kind, False, since=now))
    k.file.throttle.clear_person(person)
    return Done()


def let_try_again(k: Kitchen, *, by: str, now: datetime, person: str) -> Done | Refused:
    """Clear the wrong tries of a person on every device: a manager may, but not their own."""
    if not is_manager(k, by, now):
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


def proved_as(  # noqa: PLR0913 - who, by what, when, whose tries are counted, and whether a first code will do
    k: Kitchen, *, pair: PersonOnDevice, person: str, secret: str, now: datetime, with_code: bool = False
) -> Secret | Refused:
    """Return the person's kept secret after the right one was given, or why not; a pair's tries come one by one.

    Where *with_code*, a first code that is good will do as well: it comes back as a secret that must be changed.
    """
    throttle = k.file.throttle
    with throttle.one_at_a_time(pair):
        standing = throttle.standing(pair)
        if standing.must_wait(now):
            return must_wait(standing, now)
        found = _matching(k, person, secret_rules.without_gaps(secret), now, with_code=with_code)
        here = bool(k.progress().roles(person, k.today(now)))
        if found is None or not here:
            _enter_lock(k, pair, person, throttle.count_wrong(pair, now).wrong, now)
            return NO_MATCH
        if standing.wrong:
            throttle.clear(pair)
        return found


def _matching(k: Kitchen, person: str, typed: str, now: datetime, *, with_code: bool) -> Secret | None:
    """Return the secret or the first code of a person that was typed; None where it is neither."""
    kept, code = k.file.people.secret_of(person), k.file.first_codes.of(person) if with_code else None
    if is_right(kept.hash if kept else "", typed):
        return kept
    if code is None or not is_right(code.hash, typed) or now >= code.good_until or _lacks_second(k, person, kept, now):
        return None
    return Secret(code.hash, "first_code", True, code.good_until, now)


def _lacks_second(k: Kitchen, person: str, kept: Secret | None, now: datetime) -> bool:
    """Return whether a code was given for somebody before they had power over others, and they have it by now.

    It was one manager's word then; who has no secret yet has signed nothing that could be forged with it.
    """
    given = codes_given(k, person=person)
    has_power = bool(POWER & k.progress().roles(person, k.today(now)))
    return has_power and kept is not None and bool(given) and "second" not in given[-1].body


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
    """Use up a first code, and with it the secret the person had; of two who give it at once, return True to one."""
    with k.file.writing():
        if not k.file.first_codes.use_up(person, KeptCode(code.hash, code.good_until or now)):
            return False
        k.file.people.set_secret(person, Secret("", "first_code", True, now, now))
        k.file.sessions.close_all_of(person)
        if len(codes_to_tell(k, person=person)) == 1:
            codes_told(k, person=person)
    return True


def must_wait(standing: WaitState, now: datetime, field: str = "secret") -> Refused:
    """Return how long to wait, in words, at the field that was typed into."""
    if standing.is_disabled or standing.until is None:
        return Refused(message("Too many wrong tries. A manager must open this again."), "", field)
    seconds = max(1, -(-int((standing.until - now).total_seconds() * 1000) // 1000))
    wait = plural("{number} second", "{number} seconds", seconds)
    if seconds >= 120:
        wait = plural("{number} minute", "{number} minutes", -(-seconds // 60))
    at_once = message("A manager can let you try at once.")
    return Refused(message("Too many wrong tries. Wait {wait}, then try again.", wait=wait), at_once, field)


def is_manager(k: Kitchen, person: str, now: datetime) -> bool:
    """Return whether a person is a manager today."""
    return "manager" in k.progress().roles(person, k.today(now))


def _is_enrolled(k: Kitchen, device: str) -> bool:
    """Return whether a device id is enrolled and not revoked."""
    return k.file.devices.get(device) is not None


def _idle_minutes(k: Kitchen, person: str, now: datetime) -> int:
    """Return after how many idle minutes a person is signed out."""
    return MANAGER_IDLE_MINUTES if is_manager(k, person, now) else COOK_IDLE_MINUTES
