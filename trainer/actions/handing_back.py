"""The coming places of somebody who leaves, handed back in the same act; who could take each; and taking it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby
from typing import Any
from zoneinfo import ZoneInfo

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.covering import planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.planning import judged_place, not_a_manager
from trainer.actions.saving import append, not_on_roster
from trainer.kitchen.book import THE_BOOK, NewEntry
from trainer.kitchen.names import name_key
from trainer.kitchen.nights import Place, PlanPublished, plan_text
from trainer.kitchen.week import Week, hours_of
from trainer.messages import message
from trainer.store.shifts import PlannedShift

FARTHEST = timedelta(days=400)
"""How far ahead anybody is looked for in a plan."""


@dataclass(frozen=True, slots=True)
class OpenPlace:
    """A place that was handed back and is still to be taken: who left it, and who is cleared there and free."""

    day: date
    service: str
    station: str
    left_by: str
    can_take: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Taking:
    """Which open place is taken, by whom."""

    day: date
    service: str
    station: str
    cook: str


def coming_places(k: Kitchen, cook: str, now: datetime) -> tuple[Place, ...]:
    """Return where a cook is planned at services that have not begun, by the plan of each day, else by its rows."""
    return tuple(place for day in _days(k, cook, now) for place in _places(k, cook, day, now))


def told_back(k: Kitchen, cook: str, now: datetime) -> list[dict[str, Any]]:
    """Return what the entry of a leaving says of the places handed back.

    Those at which the cook was a hand, and how many others are planned at the same: the place is open while there are
    no more than these.
    """
    today = k.today(now)
    hands = (
        place
        for place in coming_places(k, cook, now)
        if place.runs and judged_place(k, place, (), today)[0] == "may stand"
    )
    return [
        {
            "day": place.day.isoformat(),
            "service": place.service,
            "station": place.station,
            "others": len(_planned_at(k, place.day, place.service, place.station) - {cook}),
        }
        for place in hands
    ]


def hand_back(k: Kitchen, cook: str, by: str, now: datetime, key: str) -> None:
    """Take a cook out of the planned rows and the published plans of services that have not begun.

    Each plan is published anew for its coming days, without the cook; a line of who is in charge goes too. Call it in
    the transaction of the leaving.
    """
    today = k.today(now)
    days = [day for day in _days(k, cook, now) if k.progress().nights.plan(day, today, today)]
    for shift in _rows(k, cook, now):
        k.file.shifts.remove(shift)
    for number, (plan, wanted) in enumerate(_runs_of_days(k, days, today)):
        append(
            k, NewEntry("plan_published", now, THE_BOOK, by, _without(k, cook, plan, wanted, now), f"{key}:{number}")
        )


def open_places(k: Kitchen, now: datetime) -> tuple[OpenPlace, ...]:
    """Return the places that leavers handed back and nobody has taken, the next first."""
    found: dict[tuple[date, str, str], OpenPlace] = {}
    for entry in k.file.book.of_kind("cook_left"):
        for told in entry.body.get("places", ()):
            day, service, station = date.fromisoformat(told["day"]), told["service"], told["station"]
            if _is_to_come(k, day, service, now) and len(_planned_at(k, day, service, station)) <= told["others"]:
                free = _can_take(k, day, service, station)
                found[day, service, station] = OpenPlace(day, service, station, entry.cook, free)
    return tuple(sorted(found.values(), key=lambda one: (_opens(k, one.day, one.service), one.station)))


def take_place(k: Kitchen, *, by: str, taking: Taking, now: datetime, key: str) -> Refused | None:
    """Let a cook take an open place: a planned row more, and where a plan is published, that day's plan with it.

    By a manager. Refused where somebody else took it since, or the cook is no longer cleared and free. Return None
    where it was done, now or with the same form before.
    """
    with k.file.writing():
        now = k.moment(now)
        day = k.day(k.today(now))
        if taking.cook in _planned_at(k, taking.day, taking.service, taking.station):
            return None
        refusal = (
            refused_by_clock(k, now)
            or not_a_manager(by, day)
            or not_on_roster(taking.cook, day)
            or _not_open(k, taking, now)
        )
        if refusal:
            return refusal
        k.file.shifts.add([PlannedShift(taking.day, taking.service, taking.cook, taking.station)])
        plan = k.progress().nights.plan(taking.day, day.on, day.on)
        if plan is not None:
            append(k, NewEntry("plan_published", now, THE_BOOK, by, _with(plan, taking), key))
    return None


def _not_open(k: Kitchen, taking: Taking, now: datetime) -> Refused | None:
    asked = taking.day, taking.service, taking.station
    found = next((one for one in open_places(k, now) if (one.day, one.service, one.station) == asked), None)
    if found is None:
        there = _planned_at(k, *asked)
        names = ", ".join(sorted((k.people()[cook].name for cook in there if cook in k.people()), key=name_key))
        words = message("This place is open no more. Planned there: {names}.", names=names or message("nobody"))
        return Refused(words, message("Nothing was changed here."))
    if taking.cook not in found.can_take:
        words = message("{cook} is not cleared and free for this place any more.", cook=k.people()[taking.cook].name)
        return Refused(words, message("Choose somebody else."))
    return None


def _rows(k: Kitchen, cook: str, now: datetime) -> list[PlannedShift]:
    """Return a cook's planned rows at services that have not begun."""
    today = k.today(now)
    rows = k.file.shifts.between(today, today + FARTHEST)
    return [one for one in rows if one.cook == cook and _is_to_come(k, one.on, one.sitting, now)]


def _days(k: Kitchen, cook: str, now: datetime) -> list[date]:
    """Return the days on which a cook is planned, in charge or away, today or later."""
    today, nights = k.today(now), k.progress().nights
    found = {row.on for row in _rows(k, cook, now)}
    for plan in nights.ledger.counting(nights.plans, today, today):
        found |= {place.day for place in plan.places if place.cook == cook}
        found |= {day for day, charge in plan.in_charge.items() if charge == cook}
    return sorted(day for day in found if today <= day <= today + FARTHEST)


def _places(k: Kitchen, cook: str, day: date, now: datetime) -> Iterator[Place]:
    today = k.today(now)
    plan = k.progress().nights.plan(day, today, today)
    rows = (Place(one.on, one.sitting, one.cook, one.station, runs=True) for one in k.file.shifts.on(day))
    for place in plan.places if plan else rows:
        if place.cook == cook and place.day == day and _is_to_come(k, day, place.service, now):
            yield place


def _runs_of_days(k: Kitchen, days: list[date], today: date) -> Iterator[tuple[PlanPublished, list[date]]]:
    """Yield each plan with the days it decides, those that follow each other together."""
    nights = k.progress().nights
    plans = [(number, day, nights.plan(day, today, today)) for number, day in enumerate(days)]
    known = {day: plan for _, day, plan in plans if plan is not None}
    for _, run in groupby(plans, lambda one: (one[1].toordinal() - one[0], one[2].entry if one[2] else "")):
        wanted = [day for _, day, _ in run]
        yield known[wanted[0]], wanted


def _without(k: Kitchen, cook: str, plan: PlanPublished, days: list[date], now: datetime) -> dict[str, Any]:
    """Return the body of a plan of these days without a cook, where the service has not begun."""
    stay = [
        place
        for place in plan.places
        if place.day in days and (place.cook != cook or not _is_to_come(k, place.day, place.service, now))
    ]
    charge = {day: who for day, who in plan.in_charge.items() if day in days and who != cook}
    return _body(plan, days, stay, charge)


def _with(plan: PlanPublished, taking: Taking) -> dict[str, Any]:
    """Return the body of a plan of one day with one place more."""
    more = Place(taking.day, taking.service, taking.cook, taking.station, runs=True)
    gone = (taking.day, taking.service, taking.cook)
    stay = [place for place in plan.places if place.day == taking.day and place[:3] != gone]
    charge = {day: who for day, who in plan.in_charge.items() if day == taking.day}
    return _body(plan, [taking.day], [*stay, more], charge)


def _body(plan: PlanPublished, days: list[date], places: list[Place], charge: Mapping[date, str]) -> dict[str, Any]:
    away = [one for one in plan.away if one[1] <= days[-1] and one[2] >= days[0]]
    return {
        "from": days[0].isoformat(),
        "to": days[-1].isoformat(),
        "plan": plan_text(places, charge, away),
        "despite": [_reason(place, plan.despite[place]) for place in places if place in plan.despite],
        "replaces": [plan.entry],
    }


def _reason(place: Place, reason: str) -> dict[str, str]:
    day, service, cook, station = place[:4]
    return {"day": day.isoformat(), "service": service, "cook": cook, "station": station, "reason": reason}


def _planned_at(k: Kitchen, day: date, service: str, station: str) -> set[str]:
    """Return who is planned at a station at a service of a day."""
    return {one.cook for one in planned_on(k, day) if (one.service, one.station) == (service, station)}


def _can_take(k: Kitchen, day: date, service: str, station: str) -> tuple[str, ...]:
    """Return who is cleared for a station on a day, and not on at that service, nor away, by name."""
    on = {one.cook for one in planned_on(k, day) if one.service == service}
    plan = k.progress().nights.plan(day, day, day)
    away = {cook for cook, first, last in (plan.away if plan else ()) if first <= day <= last}
    cleared = (
        row.cook
        for row in k.board(day).rows
        if any(one.station == station and one.is_cleared for one in row.clearances)
    )
    return tuple(cook.id for cook in sorted(cleared, key=lambda one: name_key(one.name)) if cook.id not in on | away)


def _week(k: Kitchen, day: date) -> Week | None:
    return k.progress().nights.week(day, day, day)


def _is_to_come(k: Kitchen, day: date, service: str, now: datetime) -> bool:
    """Return whether a service of a day has not begun by a moment."""
    at = now.astimezone(ZoneInfo(k.file.settings.timezone)).replace(tzinfo=None)
    return _opens(k, day, service) > at


def _opens(k: Kitchen, day: date, service: str) -> datetime:
    return hours_of(_week(k, day), day, service, k.services)[0]
