"""Whose names a shared tablet offers: who is on tonight, then everybody else; found by a few letters."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from trainer.actions.covering import planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.names import is_called, name_key
from trainer.kitchen.progress import Person
from trainer.kitchen.services import day_served


@dataclass(frozen=True, slots=True)
class NamesOffered:
    """The people of a device's door. `tonight` and `others` are in the order they are shown; `number` is of them all.

    Where what was typed fits nobody, `is_found` is False and everybody is offered.
    """

    tonight: tuple[Person, ...]
    others: tuple[Person, ...]
    number: int
    is_found: bool


def names_offered(k: Kitchen, *, device: str, typed: str, now: datetime) -> NamesOffered:
    """Return who may be at a device: on tonight first, in either half who used this device last, then by name."""
    people = k.people()
    here = [people[cook] for cook in k.progress().cooks_on(k.today(now)) if cook in people]
    used = {person: place for place, person in enumerate(k.file.devices.users_of(device))}
    ordered = sorted(here, key=lambda one: (used.get(one.id, len(used)), name_key(one.name), one.id))
    found = [one for one in ordered if is_called(one.name, typed)]
    served = day_served(now.astimezone(ZoneInfo(k.file.settings.timezone)))
    on = {one.cook for one in planned_on(k, served)}
    shown = found or ordered
    return NamesOffered(
        tonight=tuple(one for one in shown if one.id in on),
        others=tuple(one for one in shown if one.id not in on),
        number=len(here),
        is_found=bool(found),
    )
