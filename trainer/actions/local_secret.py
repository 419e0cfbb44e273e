"""Setting a person's secret on the machine itself: who may run commands there owns its files anyway."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.actions.clock_watch import after_the_last, refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.signing_in import set_secret
from trainer.kitchen.book import LOCAL, Entry, NewEntry
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class SecretChanged:
    """The entry that says so, and how many sessions were closed."""

    entry: Entry
    sessions_closed: int


def change_secret_here(k: Kitchen, *, person: str, secret: str, now: datetime, key: str) -> SecretChanged | Refused:
    """Keep a new secret for a person on the roster, close their sessions, clear their waits, and enter it.

    All of it or none. Only the kinds of the two secrets stand in the book; who sat at the machine cannot be known, so
    the entry is by the machine.
    """
    refused = refused_by_clock(k, now)
    if refused is not None:
        return refused
    if not k.progress().is_on_roster(person, k.today(now)):
        return Refused(message("{name} is not on the roster.", name=k.day(k.today(now)).name(person)), field="person")
    with k.file.writing():
        before = k.file.people.secret_of(person)
        outcome = set_secret(k, person=person, secret=secret, now=now)
        if isinstance(outcome, Refused):
            return outcome
        after = k.file.people.secret_of(person)
        closed = k.file.sessions.close_all_of(person)
        body = {
            "from": before.kind if before else "none",
            "to": after.kind if after else "none",
            "sessions_closed": closed,
        }
        deed = NewEntry("secret_changed", now, person, LOCAL, body, key)
        return SecretChanged(k.file.book.append(after_the_last(k, deed)), closed)
