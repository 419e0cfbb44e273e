"""Who covers the services of a day: the plan, each planned place judged, and who of those on stands where."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Set
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.cover import Cover, cover
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.places import joined_place, stations_at
from trainer.kitchen.planned import LOOK_AHEAD, Judged, Planned, judge
from trainer.kitchen.services import HouseServices, Service
from trainer.kitchen.technique import Content
from trainer.kitchen.week import Week, hours_of


@dataclass(frozen=True, slots=True)
class ServiceCover:
    """One service of one day: what is planned, judged, and who stands where.

    `can` has for each cook who is on the stations they are cleared for; `free` may be called for a station. It opens
    and closes by the kitchen's own clock.
    """

    on: date
    service: Service
    opens: datetime
    closes: datetime
    judged: tuple[Judged, ...]
    cover: Cover
    can: Mapping[str, Set[str]]
    free: Mapping[str, tuple[str, ...]]

    def beside(self, station: str) -> tuple[Judged, ...]:
        """Return the places planned at a station, or at one of a joined place, of those who stand at none."""
        seated = {cook for one in self.cover.stations for cook in one.standing}
        return tuple(
            one for one in self.judged if one.planned.station in stations_at(station) and one.planned.cook not in seated
        )

    def standing_at(self, station: str) -> tuple[str, ...]:
        """Return who stands at a station: its hands, then others planned there who are cleared for it."""
        one = self.cover.at(stations_at(station)[0])
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
    return tuple(sorted(found, key=lambda one: (k.services.sequence(one.service), one.station, one.cook)))


def places_to_take(k: Kitchen, cook: str, on: date, at: datetime, content: Content) -> tuple[Judged, ...]:
    """Return where a cook is planned on a day, service by service, once each is over no more; reasons in *content*.

    *at* is a moment of the kitchen's own clock.
    """
    hours, day = _hours(k, on), replace(k.day(on), content=content)
    mine = (one for one in planned_on(k, on) if one.cook == cook)
    return tuple(judge(one, day) for one in mine if hours[one.service][1] > at.replace(tzinfo=None))


def days_planned(k: Kitchen, first: date, last: date) -> list[date]:
    """Return the days on which anybody is planned, from the first day to the last."""
    nights, rows = k.progress().nights, {shift.on for shift in k.file.shifts.between(first, last)}
    days = (first + timedelta(days=number) for number in range((last - first).days + 1))
    plans = ((day, nights.plan(day, day, day)) for day in days)
    return [day for day, plan in plans if (day in rows if plan is None else day in {one.day for one in plan.places})]


def services_of(
    k: Kitchen, on: date, content: Content | None = None, without: Collection[str] = ()
) -> tuple[ServiceCover, ...]:
    """Return the services planned on a day, in the sequence of the day; reasons are in the words of *content*.

    The hands are those the house set for the service, and one for every other station its plan names; where the house
    set none, one for each station of the plan. *Without* are cooks who do not come, whatever the plan says.
    """
    return _services(k.services, *_planned(k, on, content, without), without)


def services_with(
    k: Kitchen, on: date, week: Week, content: Content | None = None
) -> Iterator[tuple[ServiceCover, ServiceCover]]:
    """Yield each service planned on a day as it is, and as it would be if the house asked for another week."""
    day, judged, cleared = _planned(k, on, content, ())
    other = replace(day, progress=day.progress.asking(week))
    yield from zip(*(_services(k.services, one, judged, cleared, ()) for one in (day, other)), strict=True)


def _planned(
    k: Kitchen, on: date, content: Content | None, without: Collection[str]
) -> tuple[Snapshot, list[Judged], Mapping[str, Set[str]]]:
    """Return the day, everybody planned on it, judged, and the stations each cook who comes is cleared for."""
    day = replace(k.day(on), content=content or k.content)
    cleared = {
        row.cook.id: frozenset(found.station for found in row.clearances if found.is_cleared)
        for row in k.board(on).rows
        if row.cook.id not in without
    }
    judged = [
        Judged(one, "may stand") if one.station in cleared.get(one.cook, ()) else judge(one, day)
        for one in planned_on(k, on)
    ]
    return day, judged, cleared


def _services(
    house: HouseServices,
    day: Snapshot,
    judged: list[Judged],
    cleared: Mapping[str, Set[str]],
    without: Collection[str],
) -> tuple[ServiceCover, ...]:
    week = day.progress.nights.week(day.on, day.on, day.on)
    found = []
    for service in house.among(one.planned.service for one in judged):
        planned = tuple(one for one in judged if one.planned.service == service.id)
        hours = hours_of(week, day.on, service.id, house)
        found.append(_covered(day, (service, *hours), planned, cleared, without))
    return tuple(found)


def service_to_show(
    k: Kitchen, today: date, at: datetime, content: Content | None = None
) -> tuple[ServiceCover | None, tuple[ServiceCover, ...]]:
    """Return the service that runs or comes next, looking 14 days ahead, and all of its day; None with no plan.

    *at* is a moment of the kitchen's own clock. A service that goes on after midnight is shown to its end.
    """
    at = at.replace(tzinfo=None)
    night = today - timedelta(days=1)
    days = [
        *(night for _, closes in _hours(k, night).values() if closes > at),
        *days_planned(k, today, today + LOOK_AHEAD),
    ]
    if not days:
        return None, ()
    found = services_of(k, days[0], content)
    wanted = k.services.at({one.service.id: one.closes for one in found}, at)
    return next((one for one in found if one.service == wanted), None), found


def service_after(k: Kitchen, found: ServiceCover, content: Content | None = None) -> ServiceCover | None:
    """Return the service planned next after one, looking 14 days ahead from its day; None where there is none."""
    for day in days_planned(k, found.on, found.on + LOOK_AHEAD):
        for one in services_of(k, day, content):
            if one.opens > found.opens:
                return one
    return None


def _hours(k: Kitchen, on: date) -> dict[str, tuple[datetime, datetime]]:
    """Return the services planned on a day with their hours."""
    week = k.progress().nights.week(on, on, on)
    return {one.service: hours_of(week, on, one.service, k.services) for one in planned_on(k, on)}


def _covered(
    day: Snapshot,
    service: tuple[Service, datetime, datetime],
    judged: tuple[Judged, ...],
    cleared: Mapping[str, Set[str]],
    without: Collection[str],
) -> ServiceCover:
    """Return one service with those on seated: everybody planned in it who is on the roster and works a station."""
    needs = _needs(day, service[0].id, {one.planned.station for one in judged})
    place_of = {station: place for place in needs for station in stations_at(place)}
    may = {cook: _places_of(stations, needs) for cook, stations in cleared.items()}
    on = tuple(one for one in judged if one.planned.cook not in without)
    here = {one.planned.cook: may[one.planned.cook] for one in on if one.planned.cook in may}
    places = {one.planned.cook: place_of[one.planned.station] for one in on if one.planned.station in place_of}
    free = {place: tuple(cook for cook, held in may.items() if place in held and cook not in here) for place in needs}
    return ServiceCover(day.on, *service, on, cover(needs, here, places), here, free)


def _needs(day: Snapshot, service: str, planned: Set[str]) -> Mapping[str, int]:
    """Return the hands each place needs: as the house set them, then one for each other station that is planned."""
    week = day.progress.nights.week(day.on, day.on, day.on)
    set_by_house = (week.needs(day.on, service) if week else None) or ()
    needs = {joined_place(need.stations): need.hands for need in set_by_house}
    named = {station for place in needs for station in stations_at(place)}
    more = [station for station in day.content.stations if station in planned and station not in named]
    return {**needs, **dict.fromkeys(more, 1)}


def _places_of(stations: Set[str], needs: Iterable[str]) -> frozenset[str]:
    """Return a cook's stations, and the joined places of which the cook is cleared for every station."""
    return frozenset({*stations, *(place for place in needs if stations >= set(stations_at(place)))})
