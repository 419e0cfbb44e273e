"""Enrolling a device that nobody is signed in on yet: a manager gives name and passphrase on the device itself."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.actions import signing_in
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.signing_in import Enrolled
from trainer.store.people import comparable
from trainer.store.throttle import address_pair


@dataclass(frozen=True, slots=True)
class AtTheDoor:
    """What is typed on a device nobody has enrolled: a manager's name (or id) and secret, from which address."""

    manager: str
    secret: str
    address: str


def enrol_with_proof(k: Kitchen, *, name: str, given: AtTheDoor, now: datetime) -> Enrolled | Refused:
    """Return the enrolled device, after the manager of that name (or id) proved themselves on it.

    A name nobody has, a cook's name and a wrong secret get the same answer after the same work. Wrong tries are counted
    for the address alone: what a stranger types there keeps no manager off a device of the kitchen, nor off this page
    from anywhere else, and the address itself waits and is never closed.
    """
    found = _manager_named(k, given.manager, now)
    pair = address_pair(given.address)
    proved = signing_in.proved_as(k, pair=pair, person=found, secret=given.secret, now=now)
    if isinstance(proved, Refused):
        return proved
    if "manager" not in k.progress().roles(found, k.today(now)):
        return signing_in.NO_MATCH
    outcome = signing_in.enrol_device(k, name=name, by=found, now=now)
    if isinstance(outcome, Refused) and outcome.field == "name":
        return Refused(outcome.reason, outcome.who_can, "label")
    return outcome


def _manager_named(k: Kitchen, name: str, now: datetime) -> str:
    """Return the id of the one manager with this name or id; the text itself where there is none, or more than one."""
    managers = [who for who in k.people().values() if "manager" in k.progress().roles(who.id, k.today(now))]
    named = [who.id for who in managers if name == who.id or comparable(who.name) == comparable(name)]
    return named[0] if len(named) == 1 else name
