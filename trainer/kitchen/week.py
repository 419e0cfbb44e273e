"""The week's services: on which weekdays, from when to when, for how many guests, with which hands where."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any

from trainer.kitchen.services import HouseServices

UNCONFIRMED_AFTER = timedelta(hours=24)
"""How long after its end a service that nobody closed counts as planned."""


@dataclass(frozen=True, slots=True)
class Need:
    """So many hands at a set of stations: each of them holds all of these stations at once."""

    stations: tuple[str, ...]
    hands: int


@dataclass(frozen=True, slots=True)
class ServiceHours:
    """One service of a weekday, 1 Monday to 7 Sunday (ISO 8601).

    One that closes no later than it opens ends the day after.
    """

    weekday: int
    service: str
    opens: time
    closes: time
    guests: int
    needs: tuple[Need, ...]


@dataclass(frozen=True, slots=True)
class OneDay:
    """A day that is not like its weekday: a service closed then, or with other needs."""

    day: date
    service: str
    is_closed: bool
    needs: tuple[Need, ...]


@dataclass(frozen=True, slots=True)
class Week:
    """What a house asks of its services from a day on, as its entry says."""

    entry: str
    on: date
    since: date
    weekly: tuple[ServiceHours, ...]
    days: tuple[OneDay, ...]

    def hours(self, day: date, service: str) -> ServiceHours | None:
        """Return a service of a day as its weekday has it; None where that weekday has none."""
        asked = (day.isoweekday(), service)
        return next((one for one in self.weekly if (one.weekday, one.service) == asked), None)

    def needs(self, day: date, service: str) -> tuple[Need, ...] | None:
        """Return what a service of a day needs; None where it is not held."""
        own = next((one for one in self.days if (one.day, one.service) == (day, service)), None)
        if own is not None:
            return None if own.is_closed else own.needs
        found = self.hours(day, service)
        return found.needs if found else None


def week_of(entry: str, on: date, body: Mapping[str, Any]) -> Week:
    """Return what an entry's body asks of the services."""
    weekly = tuple(
        ServiceHours(
            one["weekday"],
            one["service"],
            time.fromisoformat(one["opens"]),
            time.fromisoformat(one["closes"]),
            one["guests"],
            _needs(one["needs"]),
        )
        for one in body["weekly"]
    )
    days = tuple(
        OneDay(date.fromisoformat(one["day"]), one["service"], bool(one.get("closed")), _needs(one.get("needs") or ()))
        for one in body["days"]
    )
    return Week(entry, on, date.fromisoformat(body["since"]), weekly, days)


def _needs(told: Collection[Mapping[str, Any]]) -> tuple[Need, ...]:
    return tuple(Need(tuple(one["stations"]), one["hands"]) for one in told)


def hours_of(week: Week | None, day: date, service: str, house: HouseServices) -> tuple[datetime, datetime]:
    """Return when a service of a day opens and closes by the kitchen's own clock; with no hours set, the usual ones."""
    found = week.hours(day, service) if week else None
    return _on(day, *((found.opens, found.closes) if found else house.usual_hours(service)))


def _on(day: date, opens: time, closes: time) -> tuple[datetime, datetime]:
    return datetime.combine(day, opens), datetime.combine(day + timedelta(days=closes <= opens), closes)


def earliest_of(week: Week | None, day: date, service: str, house: HouseServices) -> time:
    """Return before which hour nobody can have worked at a service of a day, by the kitchen's own clock."""
    found = week.hours(day, service) if week else None
    usual = house.earliest(service)
    return min(usual, found.opens) if found else usual


def counts_from(week: Week | None, day: date, service: str) -> date:
    """Return the day by whose end a service that nobody closes counts as planned.

    One without hours in the book counts as one that ends on its own day: the usual hours are no part of the book.
    """
    found = week.hours(day, service) if week else None
    ends = _on(day, found.opens, found.closes)[1] if found else datetime.combine(day, time.max)
    return (ends + UNCONFIRMED_AFTER).date()


def is_joined(stations: Collection[str], needs: Collection[Need]) -> bool:
    """Return whether one hand may hold all these stations at a service: one alone, or all of them within one need."""
    return len(set(stations)) < 2 or any(set(stations) <= set(need.stations) for need in needs)
