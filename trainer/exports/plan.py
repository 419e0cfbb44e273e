"""The plan as a table and as events of a calendar: who is where, at which service, from when to when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from trainer.actions.covering import planned_on
from trainer.exports.asking import Asked
from trainer.exports.tables import Cell, Table
from trainer.kitchen.planned import Planned
from trainer.kitchen.week import hours_of
from trainer.messages import message

PLAN_HEADS = (
    message("Day"),
    message("Service"),
    message("From"),
    message("To"),
    message("Station"),
    message("Cook"),
    message("How"),
    message("Beside"),
    message("In charge"),
)


@dataclass(frozen=True, slots=True)
class PlannedHours:
    """A planned place with its hours on the kitchen's own clock, which may end the day after.

    `runs` is None where no plan was published that would say so.
    """

    day: date
    place: Planned
    starts: datetime
    ends: datetime
    runs: bool | None
    beside: str
    in_charge: str


def planned_hours(asked: Asked, last: date) -> Iterator[PlannedHours]:
    """Yield every planned place from the day asked about to the last one, in the sequence of the days."""
    on = asked.on
    nights = asked.k.progress().nights
    while on <= last:
        week, plan = nights.week(on, on, on), nights.plan(on, on, on)
        kept = {(one.cook, one.station, one.service): one for one in plan.places if one.day == on} if plan else {}
        for place in planned_on(asked.k, on):
            one = kept.get((place.cook, place.station, place.service))
            yield PlannedHours(
                on,
                place,
                *hours_of(week, on, place.service, asked.k.services),
                one.runs if one else None,
                one.beside if one else "",
                plan.in_charge.get(on, "") if plan else "",
            )
        on += timedelta(days=1)


def plan_tables(asked: Asked, last: date) -> tuple[Table, ...]:
    """Return the plan from the day asked about to the last one, a row a place."""
    rows = (_row(asked, one) for one in planned_hours(asked, last))
    return (Table(message("Plan"), PLAN_HEADS, rows),)


def _row(asked: Asked, one: PlannedHours) -> tuple[Cell, ...]:
    place = one.place
    way = None if one.runs is None else message("runs it") if one.runs else message("trails")
    hours = f"{one.starts:%H:%M}", f"{one.ends:%H:%M}"
    people = (asked.person(cook) if cook else None for cook in (one.beside, one.in_charge))
    return (
        one.day,
        asked.k.services.word(place.service),
        *hours,
        asked.station(place.station),
        asked.person(place.cook),
        way,
        *people,
    )
