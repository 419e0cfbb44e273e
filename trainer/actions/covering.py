"""Who covers the services of a day: the plan, each planned place judged, and who of those on stands where."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass, replace
from datetime import date, time, timedelta

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.cover import Cover, cover
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.planned import LOOK_AHEAD, Judged, Planned, judge
from trainer.kitchen.services import SERVICE_IDS, Service, service_at, services_in
from trainer.kitchen.technique import Content


@dataclass(frozen=True, slots=True)
class ServiceCover:
    """One service of one day: what is planned, judged, and who stands where.

    `can` has for each cook who is on the stations they are cleared for; `free` may be called for a station.
    """

    on: date
    service: Service
    judged: tuple[Judged, ...]
    cover: Cover
    can: Mapping[str, Set[str]]
    free: Mapping[str, tuple[str, ...]]

    def beside(self, station: str) -> tuple[Judged, ...]:
        """Return the places planned at a station of those who stand at none in this service."""
        seated = {cook for one in self.cover.stations for cook in one.standing}
        return tuple(one for one in self.judged if one.planned.station == station and one.planned.cook not in seated)

    def standing_at(self, station: str) -> tuple[str, ...]:
        """Return who stands at a station: its hands, then others planned there who are cleared for it."""
        one = self.cover.at(station)
        more = [judged.planned.cook for judged in self.beside(station) if judged.verdict == "may stand"]
        return (*(one.standing if one else ()), *more)

    def no_hands_at(self, station: str) -> frozenset[str]:
        """Return who is planned at a station and counts as no hand there."""
        return frozenset(one.planned.cook for one in self.beside(station) if one.verdict != "may stand")

    def can_come(self, stations: Iterable[str]) -> tuple[str, ...]:
        """Return who is cleared for one of these stations and not on at this service."""
        return tuple(dict.fromkeys(cook for station in stations for cook in self.free[station]))


def planned_on(k: Kitchen, on: date) -> tuple[Planned, ...]:
    """Return who is planned where on a day: by the plan published for it, else by the planned rows."""
    plan = k.progress().nights.plan(on, on, on)
    if plan is None:
        return tuple(Planned(shift.cook, shift.station, shift.sitting) for shift in k.file.shifts.on(on))
    places = (place for place in plan.places if place.day == on)
    found = [Planned(place.cook, place.station, place.service) for place in places]
    return tuple(sorted(found, key=lambda one: (SERVICE_IDS.index(one.service), one.station, one.cook)))


def days_planned(k: Kitchen, first: date, last: date) -> list[date]:
    """Return the days on which anybody is planned, from the first day to the last."""
    nights, rows = k.progress().nights, {shift.on for shift in k.file.shifts.between(first, last)}
    days = (first + timedelta(days=number) for number in range((last - first).days + 1))
    plans = ((day, nights.plan(day, day, day)) for day in days)
    return [day for day, plan in plans if (day in rows if plan is None else day in {one.day for one in plan.places})]


def services_of(k: Kitchen, on: date, content: Content | None = None) -> tuple[ServiceCover, ...]:
    """Return the services planned on a day, in the sequence of the day; reasons are in the words of *content*.

    A station needs one hand at a service whose plan names it; a station the plan leaves out does not run then.
    """
    planned, day = planned_on(k, on), replace(k.day(on), content=content or k.content)
    cleared = {
        row.cook.id: frozenset(found.station for found in row.clearances if found.is_cleared)
        for row in k.board(on).rows
    }
    judged = [judge(one, day) for one in planned]
    return tuple(
        _covered(day, service, tuple(one for one in judged if one.planned.service == service.id), cleared)
        for service in services_in(one.service for one in planned)
    )


def service_to_show(
    k: Kitchen, today: date, at: time, content: Content | None = None
) -> tuple[ServiceCover | None, tuple[ServiceCover, ...]]:
    """Return the service that runs or comes next, looking 14 days ahead, and all of its day; None with no plan."""
    days = days_planned(k, today, today + LOOK_AHEAD)
    if not days:
        return None, ()
    found = services_of(k, days[0], content)
    wanted = service_at((one.service.id for one in found), at if days[0] == today else time.min)
    return next((one for one in found if one.service == wanted), None), found


def _covered(
    day: Snapshot, service: Service, judged: tuple[Judged, ...], cleared: Mapping[str, Set[str]]
) -> ServiceCover:
    """Return one service with those on seated: everybody planned in it who is on the roster and works a station."""
    here = {one.planned.cook: cleared[one.planned.cook] for one in judged if one.planned.cook in cleared}
    places = {one.planned.cook: one.planned.station for one in judged}
    needs = {station: 1 for station in day.content.stations if station in places.values()}
    free = {
        station: tuple(cook for cook, may in cleared.items() if station in may and cook not in here)
        for station in needs
    }
    return ServiceCover(day.on, service, judged, cover(needs, here, places), here, free)
