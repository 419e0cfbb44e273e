"""Services ahead without somebody: what holds by itself, what with a call, what not at all."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from trainer.actions.covering import ServiceCover, days_planned, services_of
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.cover import Cover, cover
from trainer.kitchen.technique import Content

Outcome = Literal["holds", "with a call", "does not hold"]
"""What becomes of a service: those on can be seated, or with somebody cleared who is not on, or not even then."""


@dataclass(frozen=True, slots=True)
class Absence:
    """A service without one of those who are on: what becomes of it, who moves, and who could be called for what.

    `calls` are cooks who are not on, each with the place they would take.
    """

    service: ServiceCover
    cook: str
    outcome: Outcome
    seated: Cover
    calls: tuple[tuple[str, str], ...] = ()


def services_ahead(k: Kitchen, first: date, days: int, content: Content | None = None) -> tuple[ServiceCover, ...]:
    """Return every service that is planned in so many days from the first on, in their sequence."""
    planned = days_planned(k, first, first + timedelta(days=days - 1))
    return tuple(found for day in planned for found in services_of(k, day, content))


def absences_of(services: Iterable[ServiceCover], cook: str) -> tuple[Absence, ...]:
    """Return what becomes of each service that a cook is on at, if that cook does not come."""
    return tuple(absence(found, cook) for found in services if cook in found.can)


def absence(found: ServiceCover, cook: str) -> Absence:
    """Return what becomes of a service without one of those who are on."""
    seated = _seated(found, {cook})
    if seated.holds:
        return Absence(found, cook, "holds", seated)
    called = _seated(found, {cook}, everybody=True)
    calls = tuple((one, place.station) for place in called.stations for one in place.standing if one not in found.can)
    return Absence(found, cook, "with a call" if called.holds else "does not hold", called, calls)


def not_replaced(found: ServiceCover) -> tuple[str, ...]:
    """Return those without whom a service that holds would not, whoever was called: nobody else is cleared."""
    if not found.cover.holds:
        return ()
    return tuple(cook for cook in found.can if absence(found, cook).outcome == "does not hold")


def _seated(found: ServiceCover, gone: Collection[str], *, everybody: bool = False) -> Cover:
    """Return who stands where without some cooks; with *everybody*, those who are free come too."""
    needs = {one.station: one.hands for one in found.cover.stations}
    here = {cook: may for cook, may in found.can.items() if cook not in gone}
    planned = {
        one.planned.cook: place.station for one in found.judged if (place := found.cover.at(one.planned.station))
    }
    if everybody:
        free = dict.fromkeys(cook for cooks in found.free.values() for cook in cooks if cook not in gone)
        here |= {cook: frozenset(place for place in needs if cook in found.free[place]) for cook in free}
    return cover(needs, here, planned)
