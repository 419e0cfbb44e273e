"""Enrolling a device that nobody is signed in on yet: a manager gives name and passphrase on the device itself."""

from __future__ import annotations

from datetime import datetime

from trainer.actions import signing_in
from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Refused
from trainer.actions.signing_in import Enrolled
from trainer.store.people import comparable

AT_THE_DOOR = "not enrolled"  # wrong tries from devices nobody has enrolled are counted together


def enrol_with_proof(k: OpenKitchen, *, name: str, manager: str, secret: str, now: datetime) -> Enrolled | Refused:
    """Return the enrolled device, after the manager of that name (or id) proved themselves on it.

    A name nobody has, a cook's name and a wrong secret get the same answer after the same work.
    """
    found = _manager_named(k, manager, now)
    proved = signing_in.proved(k, device=AT_THE_DOOR, person=found, secret=secret, now=now)
    if isinstance(proved, Refused):
        return proved
    if "manager" not in k.progress().roles(found, k.today(now)):
        return signing_in.NO_MATCH
    outcome = signing_in.enrol_device(k, name=name, by=found, now=now)
    if isinstance(outcome, Refused) and outcome.field == "name":
        return Refused(outcome.reason, outcome.who_can, "label")
    return outcome


def _manager_named(k: OpenKitchen, name: str, now: datetime) -> str:
    """Return the id of the one manager with this name or id; the text itself where there is none, or more than one."""
    managers = [who for who in k.people().values() if "manager" in k.progress().roles(who.id, k.today(now))]
    named = [who.id for who in managers if name == who.id or comparable(who.name) == comparable(name)]
    return named[0] if len(named) == 1 else name
