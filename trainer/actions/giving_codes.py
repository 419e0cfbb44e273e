"""First codes: who gives them to whom, and for whom they take two people.

Whoever has a code of somebody who signs for others could sign in their name. So a code for an assessor or a manager is
made only at the word of two, and shown to the second of them: whoever asked never sees it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.saving import append, unusable_key
from trainer.actions.secret_rules import random_code
from trainer.actions.two_people import (
    POWER,
    Asked,
    Second,
    Waits,
    keep_waiting,
    need_of,
    said_by,
    until_of,
    waiting,
    waiting_for,
)
from trainer.kitchen.book import NewEntry, moment_text
from trainer.kitchen.entitlement import A_MANAGER, ANOTHER_MANAGER, Snapshot
from trainer.messages import message
from trainer.store.drafts import Draft
from trainer.store.first_codes import KeptCode
from trainer.store.identity import new_id
from trainer.store.secret_hash import hash_secret

FIRST_CODE_GOOD = timedelta(hours=24)


@dataclass(frozen=True, slots=True)
class FirstCode(Saved):
    """A one-time code for a person's first sign-in, to be shown once; its entry is in the book."""

    person: str
    code: str
    good_until: datetime


def first_code(k: Kitchen, *, by: str, cook: str, now: datetime, key: str = "") -> FirstCode | Waits | Refused:
    """Return a one-time code of 8 digits, good for 24 hours; it ends the secret the person has only when it is used.

    One for an assessor or a manager who has a secret waits for a second manager, who is shown it. Where nobody can be
    the second, an assessor's is made at once, and a manager's when it is asked for again a day later.
    """
    with k.file.writing():
        day = k.day(k.today(now))
        refused = _may_not_give(k, by, cook, day) or refused_by_clock(k, now)
        if refused is not None:
            return refused
        if not _gives_power(k, cook, day):
            return _made(k, NewEntry("first_code_given", now, cook, by, {}, new_id(now)), {})
        asked = Asked("code", cook, by, {}, key or new_id(now), waits_alone="manager" in day.roles(cook))
        return _asked_for(k, asked, day, now)


def _asked_for(k: Kitchen, asked: Asked, day: Snapshot, now: datetime) -> FirstCode | Waits | Refused:
    """Return the code where nobody can be the second, at once or once its day is over; else what waits."""
    need, there = need_of(k, asked, day), _waits_already(k, asked)
    until = until_of(there) if there else None
    if need == "nobody" or (need == "a day" and until is not None and until <= now):
        deed = NewEntry("first_code_given", now, asked.cook, asked.by, {}, new_id(now))
        made = _made(k, deed, said_by(None, there.at) if there and until else {"second": None})
        if there is not None and not isinstance(made, Refused):
            k.file.drafts.delete(there.id)
        return made
    if there is not None and need == "a day" and until is None:  # the second it waited for has gone: a day from now
        k.file.drafts.delete(there.id)
        there = None
    wrong = unusable_key(k, asked.key) if there is None else None
    return wrong or keep_waiting(k, asked, need, now)


def _waits_already(k: Kitchen, asked: Asked) -> Draft | None:
    """Return what waits already of a code the same manager asked for."""
    same = (one for one in waiting(k) if (one.about, one.cook, one.by) == (asked.act, asked.cook, asked.by))
    return next(same, None)


def enter_code(k: Kitchen, draft: Draft, second: Second | None, now: datetime) -> Outcome:
    """Return a code that waited, made now, for whoever is the second; asked of the kitchen again."""
    refused = _may_not_give(k, draft.by, draft.cook, k.day(k.today(now)))
    if refused is not None:
        return refused
    deed = NewEntry("first_code_given", now, draft.cook, draft.by, {}, draft.id)
    return _made(k, deed, said_by(second, draft.at))


def codes_asked(k: Kitchen, *, person: str) -> tuple[Draft, ...]:
    """Return the codes for a person that are asked for and wait, oldest first."""
    return tuple(one for one in waiting(k) if (one.about, one.cook) == ("code", person))


def code_is_due(k: Kitchen, draft: str, now: datetime) -> bool:
    """Return whether a code that waited its day may be made now by whoever asked for it."""
    found = waiting_for(k, draft)
    until = until_of(found) if found is not None and found.about == "code" else None
    if found is None or until is None or until > now:
        return False
    asked = Asked("code", found.cook, found.by, {}, found.id, waits_alone=True)
    return need_of(k, asked, k.day(k.today(now))) == "a day"


def _gives_power(k: Kitchen, cook: str, day: Snapshot) -> bool:
    """Return whether a code opens the name of somebody who signs for others, and has had a secret to do it with."""
    return bool(POWER & day.roles(cook)) and k.file.people.secret_of(cook) is not None


def _may_not_give(k: Kitchen, by: str, cook: str, day: Snapshot) -> Refused | None:
    if "manager" not in day.roles(by):
        return Refused(message("Only a manager gives out a first code."), A_MANAGER)
    if by == cook:
        return Refused(message("Nobody gives themselves a first code."), ANOTHER_MANAGER)
    if cook not in k.people():
        return Refused(message("There is nobody with this id on the roster."), field="cook")
    return None


def _made(k: Kitchen, deed: NewEntry, said: Mapping[str, Any]) -> FirstCode | Refused:
    """Return a new code, entered and kept in place of an earlier one; the waits after wrong tries are over."""
    good_until, code = deed.at + FIRST_CODE_GOOD, random_code()
    body = {"until": moment_text(good_until), **said}
    outcome = append(k, NewEntry(deed.kind, deed.at, deed.cook, deed.by, body, deed.key))
    if isinstance(outcome, Refused):
        return outcome
    k.file.first_codes.give(deed.cook, KeptCode(hash_secret(code), good_until))
    k.file.throttle.clear_person(deed.cook)
    return FirstCode(outcome.entry, deed.cook, code, good_until)
