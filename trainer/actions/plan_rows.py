"""The planned rows of one service changed by hand: who is at which station, before a plan is published."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.like_last_week import mark_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.planning import not_a_manager
from trainer.actions.saving import not_on_roster
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.nights import Place
from trainer.kitchen.spans import in_words
from trainer.messages import message
from trainer.store.shifts import PlannedShift

Row = tuple[str, str]
"""A cook and a station."""


@dataclass(frozen=True, slots=True)
class ServiceRows:
    """Who is to be at which station at a service of a day, in place of the rows whose mark was seen."""

    day: date
    service: str
    rows: tuple[Row, ...]
    seen: str


def rows_of(k: Kitchen, day: date, service: str) -> tuple[Place, ...]:
    """Return the planned rows of a service."""
    found = (one for one in k.file.shifts.on(day) if one.sitting == service)
    return tuple(Place(one.on, one.sitting, one.cook, one.station, runs=True) for one in found)


def set_rows(k: Kitchen, *, by: str, wanted: ServiceRows, now: datetime) -> Refused | None:
    """Put these rows in place of a service's, all or none; return why not, or None.

    By a manager, for today and days to come. Refused where somebody else changed the rows since they were looked at,
    unless they are these already. Whether somebody may stand there is judged when the plan is shown and published.
    """
    with k.file.writing():
        now = k.moment(now)
        today = k.today(now)
        new = [Place(wanted.day, wanted.service, cook, station, runs=True) for cook, station in wanted.rows]
        there = rows_of(k, wanted.day, wanted.service)
        refusal = (
            refused_by_clock(k, now) or not_a_manager(by, k.day(today)) or _wrong(wanted, k.day(wanted.day), today)
        )
        if refusal or mark_of(there) == mark_of(new):
            return refusal
        if mark_of(there) != wanted.seen:
            words = message("Since you looked, this service was planned otherwise. Nothing was changed.")
            return Refused(words, message("What is planned now is above; what you chose is still here."))
        _put(k, there, new)
    return None


def _put(k: Kitchen, there: Iterable[Place], new: Iterable[Place]) -> None:
    for one in there:
        k.file.shifts.remove(_shift(one))
    k.file.shifts.add(_shift(one) for one in new)


def _shift(place: Place) -> PlannedShift:
    return PlannedShift(place.day, place.service, place.cook, place.station)


def _wrong(wanted: ServiceRows, day: Snapshot, today: date) -> Refused | None:
    """Return what no row may say: a day that is over, nobody on the roster, no station, a cook twice."""
    if wanted.day < today:
        words = message("{day} is over. A plan is published for today and days to come.", day=in_words(wanted.day))
        return Refused(words)
    cooks = [cook for cook, _ in wanted.rows]
    for cook, station in wanted.rows:
        if cooks.count(cook) > 1:
            return Refused(message("{cook} is there twice: at one service a cook has one place.", cook=day.name(cook)))
        if station not in day.rules.stations:
            return Refused(message("There is no station “{station}”.", station=station))
        refusal = not_on_roster(cook, day)
        if refusal:
            return refusal
    return None
