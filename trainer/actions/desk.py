"""What the sous chef's desk is made of: shifts to sign from the plan, one proof for the list, and what I signed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import final

from trainer.actions.covering import days_planned, planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.working import SupervisedShift, work_shift
from trainer.kitchen.book import Entry, Kind
from trainer.kitchen.desk import Proposed, Shift, proposed_shifts
from trainer.kitchen.entitlement import WRITER_MAY_VOID_FOR, Snapshot, is_slip, may_sign_at
from trainer.kitchen.nights import Place
from trainer.kitchen.planned import LOOK_AHEAD
from trainer.kitchen.record import ShiftWorked
from trainer.kitchen.services import day_served
from trainer.kitchen.week import hours_of
from trainer.messages import message

SIGNED: tuple[Kind, ...] = ("practical_watched", "shift_worked", "stood_down", "help_given", "technique_taught")
"""What a sous chef writes at work and may take back for ten minutes."""
NOTHING = message("Tick at least one shift.")
LOOKED_THROUGH, A_SHIFT_AGO = 60, timedelta(hours=16)


@dataclass(frozen=True, slots=True)
class ShiftsOf:
    """The shifts to sign of one service, its guests where known, and when it ends."""

    day: date
    service: str
    shifts: tuple[Proposed, ...]
    guests: int | None
    closes: datetime


def shifts_to_sign(k: Kitchen, *, by: str, now: datetime) -> tuple[ShiftsOf, ...]:
    """Return the shifts of yesterday and today that a person may sign and nobody has, by service, the latest first.

    *now* is a moment of the kitchen's own clock. Services that are not over yet are among them.
    """
    last = day_served(now)
    found = [_of_day(k, by, day) for day in (last, last - timedelta(days=1))]
    return tuple(one for services in found for one in services if one.shifts)


def _of_day(k: Kitchen, by: str, day: date) -> Iterator[ShiftsOf]:
    nights, then, today = k.progress().nights, k.day(day), k.day(k.progress().last_day or day)
    week, closings = nights.week(day, day, day), nights.closings(today.on, today.on)
    for service in reversed(k.services.ids):
        closed = closings.get((day, service))
        places = closed.stood if closed else tuple(_planned(k, day, service))
        shifts = [one for one in proposed_shifts(places, _cleared(then)) if _may_sign(by, one, then, today)]
        hours = week.hours(day, service) if week else None
        guests = closed.guests if closed and closed.guests else hours.guests if hours else None
        yield ShiftsOf(day, service, tuple(shifts), guests, hours_of(week, day, service, k.services)[1])


def _planned(k: Kitchen, day: date, service: str) -> Iterator[Place]:
    """Yield who is planned at a service: by its plan, else by the planned rows."""
    plan = k.progress().nights.plan(day, day, day)
    if plan is not None:
        yield from (one for one in plan.places if (one.day, one.service) == (day, service))
        return
    for row in planned_on(k, day):
        if row.service == service:
            yield Place(day, service, row.cook, row.station, True)


def _cleared(then: Snapshot) -> Callable[[str, str], bool]:
    stations = then.rules.stations

    def is_cleared(cook: str, station: str) -> bool:
        return station in stations and then.is_cleared(cook, stations[station])

    return is_cleared


def _may_sign(by: str, one: Proposed, then: Snapshot, today: Snapshot) -> bool:
    """Return whether a shift is this person's to sign, not written yet, and of a cook who might stand there."""
    place = one.place
    station, person = then.rules.stations.get(place.station), then.people.get(place.cook)
    if station is None or person is None or not may_sign_at(by, place.cook, place.station, today).may:
        return False
    if then.clearance(person, station).state in ("not allowed", "stood down"):
        return False
    return not any(_is_same(line, place) for line in today.record(place.cook).shifts)


def _is_same(line: ShiftWorked, place: Place) -> bool:
    return (line.station, line.worked_on, line.sitting) == (place.station, place.day, place.service)


@final
class _OneRefused(Exception):
    def __init__(self, refused: Refused) -> None:
        super().__init__()
        self.refused = refused


def sign_shifts(k: Kitchen, *, by: str, shifts: Sequence[SupervisedShift], now: datetime, key: str) -> Outcome:
    """Return the last of the saved `shift_worked` of a list shown whole; where one is refused, none is written."""
    outcome: Outcome = Refused(NOTHING)
    try:
        with k.file.writing():
            for shift in shifts:
                one = f"{key}:{shift.cook}:{shift.worked_on}:{shift.sitting}"
                outcome = work_shift(k, by=by, shift=shift, now=now, key=one)
                if isinstance(outcome, Refused):
                    raise _OneRefused(outcome)
    except _OneRefused as problem:
        return problem.refused
    return outcome


@dataclass(frozen=True, slots=True)
class MySigned:
    """An entry somebody signed lately, and to when its writer may take it back; None where that is over."""

    entry: Entry
    until: datetime | None


def signed_lately(k: Kitchen, *, by: str, now: datetime) -> tuple[MySigned, ...]:
    """Return what a person signed in the hours of one shift, the newest first; what was voided is left out."""
    progress = k.progress()
    mine = (one for one in k.file.book.newest_of(SIGNED, LOOKED_THROUGH) if one.by == by and now - one.at < A_SHIFT_AGO)
    standing = (one for one in mine if progress.voided_on(one.id, one.cook) is None)
    return tuple(MySigned(one, one.at + WRITER_MAY_VOID_FOR if is_slip(by, one, now) else None) for one in standing)


def coming_shifts(k: Kitchen, now: datetime) -> tuple[Shift, ...]:
    """Return the services of the coming days with their hours and who is on, in sequence; from the plans."""
    nights, first = k.progress().nights, now.date()
    found = []
    for day in days_planned(k, first, first + LOOK_AHEAD):
        week, rows = nights.week(day, day, day), planned_on(k, day)
        for service in k.services.ids:
            on = frozenset(row.cook for row in rows if row.service == service)
            found += [Shift(*hours_of(week, day, service, k.services), on)] if on else []
    return tuple(found)
