"""A house's own services: how they are named, changed and kept; what a name or hours of one may be."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import time
from typing import Any

from trainer.kitchen.names import plain
from trainer.kitchen.services import NIGHT_ENDS, STANDARD, THE_THREE, HouseServices, Service
from trainer.kitchen.week_typed import closes_too_late
from trainer.messages import Text, message

MOST_LETTERS, MOST_SERVICES = 24, 8
BEGINS_A_FORMULA = ("=", "+", "-", "@")
"""What a spreadsheet takes for the beginning of a formula (OWASP, CSV Injection; from memory)."""
HOURS_BEFORE = 2
"""So long before it usually opens an own service can have begun; the three have hours of their own for that."""
Names = tuple[tuple[str, str], ...]
"""A language's tag and the name in it, the kitchen's own language first."""


def own_service(service: str, names: Names, opens: time, closes: time, *, is_offered: bool = True) -> Service:
    """Return a service of a house: one of the three with other names or hours, or one of its own.

    Without names one of the three keeps the program's words.
    """
    usual = next((one for one in STANDARD if one.id == service), None)
    title, heading = (usual.title, usual.heading) if usual else (service, service)
    if names:
        title, heading = (
            _in_languages(names),
            _in_languages([(tag, name[:1].upper() + name[1:]) for tag, name in names]),
        )
    is_usual = usual is not None and (usual.opens, usual.closes) == (opens, closes)
    earliest = usual.earliest if usual and is_usual else _earliest(opens)
    return Service(service, title, heading, opens, closes, earliest, names, is_offered)


def _earliest(opens: time) -> time:
    """Return when a service that opens then can have begun: no earlier than the night ends."""
    return time(opens.hour - HOURS_BEFORE, opens.minute) if opens.hour - HOURS_BEFORE >= NIGHT_ENDS.hour else NIGHT_ENDS


def _in_languages(names: Iterable[tuple[str, str]]) -> Text:
    """Return a name that prints in the reader's language; in one without a name as the kitchen calls it.

    The pattern has all names and leaves out all but one, which its translation does for another: so it is the
    catalogue that chooses, as for every sentence.
    """
    told = dict(names)
    first = next(iter(told.values()))
    if len(set(told.values())) == 1:
        return first
    return message("{en}{es:.0}", en=told.get("en", first), es=told.get("es", first))


@dataclass(frozen=True, slots=True)
class ServiceWanted:
    """A service as a house wants it: its names and usual hours as they were typed. `id` is "" for a new one."""

    id: str
    names: Names
    opens: str
    closes: str


@dataclass(frozen=True, slots=True)
class Wrong:
    """What is wrong with a service, and in which field it was typed."""

    words: Text
    field: str = ""


def with_wanted(
    house: HouseServices, wanted: ServiceWanted, words: Mapping[str, Collection[str]]
) -> HouseServices | Wrong:
    """Return the services with one named, or one more; or the first thing wrong with it.

    *words* has how the program calls the three in every language: a house that calls one so names it no more.
    """
    names = tuple((tag, " ".join(name.split())) for tag, name in wanted.names)
    names = tuple((tag, name) for number, (tag, name) in enumerate(names) if name or not number)
    wrong = _wrong_names(names, wanted.id, house, words) or _wrong_hours(wanted)
    if wrong:
        return wrong
    there = house.find(wanted.id)
    if there is None and len(house.offered) >= MOST_SERVICES:
        return Wrong(_too_many())
    program = {plain(word) for word in words.get(wanted.id, ())}
    new = own_service(
        there.id if there else _new_id(names[0][1], house.ids),
        () if all(plain(name) in program for _, name in names) else names,
        time.fromisoformat(wanted.opens),
        time.fromisoformat(wanted.closes),
        is_offered=there is None or there.is_offered,
    )
    return _with(house, new)


def with_listed(house: HouseServices, service: str, *, is_offered: bool) -> HouseServices | Wrong:
    """Return the services with one put back on the list or taken off it; its name goes on being read."""
    found = house.find(service)
    if found is None:
        return Wrong(message("“{service}”: there are {known}.", service=service[:40], known=house.in_words()))
    if is_offered and not found.is_offered and len(house.offered) >= MOST_SERVICES:
        return Wrong(_too_many())
    if not is_offered and [one.id for one in house.offered] == [service]:
        return Wrong(message("{service} is the only one: a house has at least one service.", service=found.heading))
    return _with(house, replace(found, is_offered=is_offered))


def _with(house: HouseServices, new: Service) -> HouseServices:
    """Return the services with one in place of the one it was, in the sequence of the day."""
    return HouseServices(_in_sequence([*(one for one in house.known if one.id != new.id), new]))


def _in_sequence(services: Iterable[Service]) -> tuple[Service, ...]:
    return tuple(sorted(services, key=lambda one: (one.opens, one.closes, one.id)))


def _too_many() -> Text:
    return message("A house has {most} services at most. Take one off the list first.", most=MOST_SERVICES)


def _wrong_names(
    names: Names, service: str, house: HouseServices, words: Mapping[str, Collection[str]]
) -> Wrong | None:
    others = [one for one in house.known if one.id != service]
    called = [(one, [name for _, name in one.names] or words.get(one.id, ())) for one in others]
    taken = {plain(name): one for one, told in called for name in told}
    for number, (_, name) in enumerate(names):
        found = _wrong_name(name) or _taken(name, taken.get(plain(name)))
        if found:
            return Wrong(found, "second" if number else "name")
    return None


def _wrong_name(name: str) -> Text:
    """Return what is wrong with a name by itself; "" when nothing is."""
    if not any(sign.isalnum() for sign in name):
        return message("“{typed}”: a name has at least one letter.", typed=name) if name else message("Write the name.")
    if len(name) > MOST_LETTERS:
        return message(
            "“{typed}” has {length} letters; a name has {most} at most.",
            typed=name[:60],
            length=len(name),
            most=MOST_LETTERS,
        )
    if name.startswith(BEGINS_A_FORMULA):
        return message("“{typed}”: a spreadsheet takes it for a formula. Begin with a letter.", typed=name)
    if not name.isprintable():
        return message("“{typed}” holds a sign that cannot be printed.", typed="".join(filter(str.isprintable, name)))
    return ""


def _taken(name: str, by: Service | None) -> Text:
    """Return that another service is called so; "" where none is."""
    if by is None:
        return ""
    if by.is_offered:
        return message("“{typed}” is a service already. Write another name.", typed=name)
    return message("“{typed}” is off the list. Put it back there, or write another name.", typed=name)


def _wrong_hours(wanted: ServiceWanted) -> Wrong | None:
    for field, typed in (("opens", wanted.opens), ("closes", wanted.closes)):
        if not re.fullmatch(r"([01][0-9]|2[0-3]):[0-5][0-9]", typed):
            return Wrong(message("“{typed}” is no time. Write it like 17:30.", typed=typed[:40]), field)
    if time.fromisoformat(wanted.opens) < NIGHT_ENDS:
        words = message(
            "It opens at {opens}. A day begins at {begins}: what runs before that belongs to the day before.",
            opens=wanted.opens,
            begins=f"{NIGHT_ENDS:%H:%M}",
        )
        return Wrong(words, "opens")
    late = closes_too_late({"opens": wanted.opens, "closes": wanted.closes})
    return Wrong(late, "closes") if late else None


def _new_id(name: str, ids: Iterable[str]) -> str:
    """Return an id made from a name: small letters without marks, which no service of the house has."""
    there, base = set(ids), re.sub(r"[^a-z0-9]+", "_", plain(name)).strip("_") or "service"
    return next(id for id in (base, *(f"{base}_{number}" for number in range(2, len(there) + 3))) if id not in there)


def services_told(house: HouseServices) -> list[dict[str, Any]]:
    """Return the services as the settings and the book keep them; nothing of the three as they always were."""
    return [] if house == THE_THREE else [_told(one) for one in house.known]


def _told(one: Service) -> dict[str, Any]:
    told: dict[str, Any] = {"id": one.id, "names": dict(one.names), "opens": f"{one.opens:%H:%M}"}
    told["closes"] = f"{one.closes:%H:%M}"
    return told if one.is_offered else {**told, "off": True}


def services_of_house(told: Iterable[Mapping[str, Any]]) -> HouseServices:
    """Return the services from what was kept of them; the three where nothing was."""
    kept = [
        own_service(
            one["id"],
            tuple(one["names"].items()),
            time.fromisoformat(one["opens"]),
            time.fromisoformat(one["closes"]),
            is_offered=not one.get("off"),
        )
        for one in told
    ]
    return HouseServices(_in_sequence(kept)) if kept else THE_THREE
