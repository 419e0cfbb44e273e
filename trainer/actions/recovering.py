"""The recovery sheet: a way back for a manager who lost their secret, and a second person for one who is alone.

A sheet is used once. Whoever uses it is shown the next one at once, and the book says so. Only a command on the machine
itself makes one without the sheet before: a page that did would let whoever is signed in be their own second person.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import datetime

from trainer.actions.clock_watch import after_the_last, refused_by_clock
from trainer.actions.confirming import confirm
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.signing_in import is_manager, must_wait, set_secret
from trainer.actions.two_people import RECOVERY, Second, waiting
from trainer.kitchen.book import LOCAL, THE_BOOK, Entry, NewEntry, moment_text
from trainer.kitchen.entitlement import A_MANAGER
from trainer.kitchen.recovery_signs import BITS, SheetSigns, read_sheet, sheet_text
from trainer.messages import message
from trainer.store.identity import new_id
from trainer.store.people import Secret
from trainer.store.recovery_sheets import KeptSheet
from trainer.store.secret_hash import hash_secret, is_right
from trainer.store.throttle import pair_of

NO_SHEET = Refused(
    message("No recovery sheet is good in this kitchen."),
    message("On the machine itself, trainer recover --new-sheet prints one."),
    "sheet",
)
WRONG_SHEET = Refused(
    message("That is not the recovery sheet that is good now. A sheet that was used is dead."), "", "sheet"
)
NOTHING_WAITS = Refused(message("Nothing waits for a second person. The sheet was not used."), "", "sheet")


@dataclass(frozen=True, slots=True)
class NewSheet:
    """A sheet to be printed, shown this once, with the moment it was made and what became of the one before.

    `entry` says so in the book; None for the first sheet of a kitchen. `done` is what was entered by it.
    """

    signs: str
    made_at: datetime
    entry: Entry | None = None
    done: tuple[Outcome, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetTyped:
    """A sheet's signs as typed, by whom (a manager's id), and on which device (`local`: the machine itself)."""

    signs: str
    by: str
    device: str


def first_sheet(k: Kitchen, now: datetime) -> NewSheet:
    """Return the sheet a new kitchen begins with."""
    signs = sheet_text(secrets.randbits(BITS))
    k.file.recovery_sheets.keep(KeptSheet(hash_secret(signs), now))
    return NewSheet(signs, now)


def new_sheet_here(k: Kitchen, *, now: datetime, key: str) -> NewSheet | Refused:
    """Return a new sheet made on the machine itself; the one before is dead, and its wrong tries are forgotten."""
    refused = refused_by_clock(k, now)
    if refused is not None:
        return refused
    with k.file.writing():
        made = _next_sheet(k, NewEntry("recovery_used", k.moment(now), THE_BOOK, LOCAL, {"for": "sheet"}, key))
    k.file.throttle.clear_person(RECOVERY)
    return made


def secret_by_sheet(k: Kitchen, *, typed: SheetTyped, secret: str, now: datetime, key: str) -> NewSheet | Refused:
    """Return the next sheet after a manager set a new secret by the one they typed; what they had open is closed.

    A secret that will not do leaves the sheet as it was.
    """
    found = _right_sheet(k, typed, now)
    if isinstance(found, Refused):
        return found
    with k.file.writing():
        if k.file.recovery_sheets.current() != found:
            return WRONG_SHEET
        now = k.moment(now)
        before = k.file.people.secret_of(typed.by)
        kept = set_secret(k, person=typed.by, secret=secret, now=now)
        if isinstance(kept, Refused):
            return kept
        _enter_secret(k, typed.by, before, now)
        return _next_sheet(k, NewEntry("recovery_used", now, typed.by, typed.by, {"for": "secret"}, key))


def _enter_secret(k: Kitchen, person: str, before: Secret | None, now: datetime) -> None:
    after, closed = k.file.people.secret_of(person), k.file.sessions.close_all_of(person)
    kinds = {"from": before.kind if before else "none", "to": after.kind if after else "none"}
    deed = NewEntry("secret_changed", now, person, person, {**kinds, "sessions_closed": closed}, new_id(now))
    k.file.book.append(after_the_last(k, deed))
    k.file.first_codes.drop(person)


def second_by_sheet(k: Kitchen, *, typed: SheetTyped, now: datetime, key: str) -> NewSheet | Refused:
    """Return the next sheet after the one typed stood as the second person for all that waits; a code is shown with it.

    What can no longer be entered stays where it is, with its refusal among what was done.
    """
    found = _right_sheet(k, typed, now)
    if isinstance(found, Refused):
        return found
    with k.file.writing():
        if k.file.recovery_sheets.current() != found:
            return WRONG_SHEET
        drafts = waiting(k)
        if not drafts:
            return NOTHING_WAITS
        proof = {"how": "recovery_sheet", "at": moment_text(now), "device": typed.device, "secret_since": ""}
        word = Second(RECOVERY, proof)
        done = tuple(confirm(k, draft=draft.id, second=word, now=now) for draft in drafts)
        entry = NewEntry("recovery_used", k.moment(now), typed.by, typed.by, {"for": "second"}, key)
        return _next_sheet(k, entry, done)


def _right_sheet(k: Kitchen, typed: SheetTyped, now: datetime) -> KeptSheet | Refused:
    """Return the sheet that is good, where it is the one typed; a slip of the fingers is told, and counts for nobody.

    Wrong sheets are counted for the sheet on this device, as wrong secrets are for a person.
    """
    if not is_manager(k, typed.by, now):
        return Refused(message("The recovery sheet is for managers."), A_MANAGER, "person")
    signs, kept = read_sheet(typed.signs), k.file.recovery_sheets.current()
    if not isinstance(signs, SheetSigns):
        return Refused(signs, "", "sheet")
    if kept is None:
        return NO_SHEET
    throttle, pair = k.file.throttle, pair_of(RECOVERY, typed.device)
    with throttle.one_at_a_time(pair):
        standing = throttle.standing(pair)
        if standing.must_wait(now):
            return must_wait(standing, now, "sheet")
        if not is_right(kept.hash, signs):
            throttle.count_wrong(pair, now)
            return WRONG_SHEET
        throttle.clear(pair)
    return refused_by_clock(k, now) or kept


def _next_sheet(k: Kitchen, used: NewEntry, done: tuple[Outcome, ...] = ()) -> NewSheet:
    """Return a new sheet in place of the one before, and enter that it was used, with when the new one was made."""
    made = first_sheet(k, used.at)
    body = {**used.body, "new_sheet": moment_text(used.at)}
    deed = NewEntry(used.kind, used.at, used.cook, used.by, body, used.key)
    return NewSheet(made.signs, used.at, k.file.book.append(after_the_last(k, deed)), done)
