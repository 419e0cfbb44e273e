"""One's own phone: a device that remembers one person, and what their PIN of this shift still opens there.

A device is shared until somebody says that it is theirs. On their own phone an idle session is not over: for some hours
after the PIN it opens what the kitchen has set (studying, or asking to be watched as well), and nothing else. Whatever
is signed, given, taken or lifted needs a session that is not idle, and asks for the secret besides.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.signing_in import NOT_MANAGER, Done, is_manager, session_counts
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import A_MANAGER
from trainer.kitchen.progress import Person
from trainer.messages import message
from trainer.store.identity import new_id
from trainer.store.sessions import Session

SHARED_FOR = timedelta(days=30)
"""A device somebody else signed in on within so long is shared, whatever anybody says of it."""


def owner_of(k: Kitchen, *, device: str, now: datetime) -> Person | None:
    """Return whose own phone a device is; None where it is shared, revoked, or its owner is not on the roster today."""
    found = k.file.devices.get(device)
    if found is None or not found.owner or not k.progress().roles(found.owner, k.today(now)):
        return None
    return k.people().get(found.owner)


def others_on(k: Kitchen, *, device: str, person: str, now: datetime) -> bool:
    """Return whether somebody else signed in on a device lately: then it is no one's own phone."""
    uses = k.file.devices.users_of(device)
    return any(who != person and now - at < SHARED_FOR for who, at in uses.items())


def make_own(k: Kitchen, *, device: str, person: str, now: datetime) -> Done | Refused:
    """Keep that a device is the own phone of a person who is signed in on it; what changes is an entry in the book."""
    if k.file.devices.get(device) is None:
        return Refused(message("This device is not enrolled."), A_MANAGER)
    owner = owner_of(k, device=device, now=now)
    if owner is not None and owner.id != person:
        words = message("This is the own phone of {name}. Make it shared first.", name=owner.name)
        return Refused(words, A_MANAGER)
    if others_on(k, device=device, person=person, now=now):
        words = message(
            "Somebody else signed in here within the last {days} days, so it stays shared.", days=SHARED_FOR.days
        )
        return Refused(words)
    if owner is None:
        _changed(k, NewEntry("phone_made_own", now, person, person, {"device": device}, new_id(now)), owner=person)
    return Done()


def share_again(k: Kitchen, *, device: str, by: str, now: datetime) -> Done | Refused:
    """Let a device remember nobody any more, at once; its owner may say so, and a manager. It is an entry."""
    found = k.file.devices.get(device)
    if found is not None and found.owner != by and not is_manager(k, by, now):
        return Refused(NOT_MANAGER, A_MANAGER)
    if found is not None and found.owner:
        _changed(k, NewEntry("phone_shared", now, found.owner, by, {"device": device}, new_id(now)), owner="")
    return Done()


def _changed(k: Kitchen, deed: NewEntry, *, owner: str) -> None:
    """Keep whose phone a device is; entered where the book takes it, since no clock keeps a lost phone its owner's."""
    with k.file.writing():
        refused = refused_by_clock(k, deed.at)
        k.file.devices.give_to(deed.body["device"], owner)
        if refused is None:
            k.file.book.append(replace(deed, at=k.moment(deed.at)))


def remembered(k: Kitchen, *, token: str, device: str, now: datetime) -> Session | None:
    """Return the idle session that is good for studying still: its owner's, on their own phone, within the shift.

    It is not touched: only the secret makes it whole again. A session that is not idle is none of these.
    """
    settings, session = k.file.settings, k.file.sessions.kept(token)
    if session is None or session.device != device or session.is_live(now) or settings.own_phone == "nothing":
        return None
    owner = owner_of(k, device=device, now=now)
    in_time = session.opened_at <= now < session.opened_at + timedelta(hours=settings.pin_hours)
    is_owners = owner is not None and owner.id == session.person
    return session if is_owners and in_time and session_counts(k, session, now) else None
