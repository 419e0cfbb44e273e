"""Days without a plan, planned as the same weekdays of the week before: who comes along, who is left out and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.covering import planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.planning import MOST_DAYS, LeftOut, judged_place, not_a_manager, replace_runs
from trainer.kitchen.book import canonical, digest_of
from trainer.kitchen.nights import Place
from trainer.kitchen.technique import Content
from trainer.messages import message, plural
from trainer.store.shifts import PlannedShift

WEEK = timedelta(days=7)
Away = tuple[tuple[str, date, date], ...]


@dataclass(frozen=True, slots=True)
class LastWeek:
    """What the week before would bring to some days: places, those of them who are not cleared, and who is left out."""

    days: tuple[date, ...]
    places: tuple[Place, ...]
    trailing: tuple[LeftOut, ...]
    left_out: tuple[LeftOut, ...]

    @property
    def mark(self) -> str:
        """Return what stands for the places as they were seen, so that no others are taken over."""
        return mark_of(self.places)


@dataclass(frozen=True, slots=True)
class TakeOver:
    """The days to plan as the week before, who is away on them, and the mark of the places that were shown."""

    days: tuple[date, ...]
    away: Away
    seen: str


def mark_of(places: Iterable[Place]) -> str:
    """Return a digest of who is at which station at which service of which day."""
    told = sorted(f"{one.day} {one.service} {one.cook} {one.station}" for one in places)
    return digest_of(canonical({"places": told}).encode())


def free_days(k: Kitchen, since: date, until: date, today: date) -> tuple[date, ...]:
    """Return the days, today or later, that no plan was published for and on which nobody is planned."""
    last = min(until, since + timedelta(days=MOST_DAYS - 1))
    rows, nights = {shift.on for shift in k.file.shifts.between(since, last)}, k.progress().nights
    days = (since + timedelta(days=number) for number in range((last - since).days + 1))
    return tuple(day for day in days if day >= today and day not in rows and nights.plan(day, today, today) is None)


def like_last_week(
    k: Kitchen, days: Iterable[date], away: Away, today: date, content: Content | None = None
) -> LastWeek:
    """Return what the week before would bring to these days; reasons are in the words of *content*.

    Left out are those who left, who are away (as given here, or in a plan that counts), and who may not be at that
    station at all on that day. Who is not cleared there comes along, and trails.
    """
    wanted = tuple(days)
    gone = (*away, *_away_by_plans(k, today))
    places: list[Place] = []
    trailing: list[LeftOut] = []
    left_out: list[LeftOut] = []
    seen: set[tuple[date, str, str]] = set()
    for place in (place for day in wanted for place in _week_before(k, day)):
        verdict, reason = judged_place(k, place, gone, today, content)
        key = place.day, place.service, place.cook
        if not _is_offered(k, place.service):
            left_out.append(LeftOut(place, message("This service is off the house's list.")))
        elif verdict == "kept away":
            left_out.append(LeftOut(place, reason))
        elif key in seen:
            left_out.append(LeftOut(place, message("At two stations of that service: only the first is taken over.")))
        else:
            seen.add(key)
            places.append(replace_runs(place, runs=verdict != "learns"))
            trailing += [LeftOut(places[-1], reason)] if verdict == "learns" else []
    return LastWeek(wanted, tuple(places), tuple(trailing), tuple(left_out))


def take_over(k: Kitchen, *, by: str, wanted: TakeOver, now: datetime) -> int | Refused:
    """Return how many places of the week before were planned, all or none, on days that are still without a plan.

    By a manager. Refused where somebody else planned one of the days since, or the places are no longer those that were
    shown. Sent twice, the second time finds the places there and changes nothing.
    """
    with k.file.writing():
        now = k.moment(now)
        today = k.today(now)
        refusal = refused_by_clock(k, now) or not_a_manager(by, k.day(today))
        if refusal:
            return refusal
        there = [shift for day in wanted.days for shift in k.file.shifts.on(day)]
        rows = [Place(one.on, one.sitting, one.cook, one.station, runs=True) for one in there]
        if rows and mark_of(rows) == wanted.seen:
            return len(rows)
        found = like_last_week(k, wanted.days, wanted.away, today)
        refusal = _not_free(k, wanted, len(rows), today) or _changed(found, wanted)
        if refusal:
            return refusal
        return k.file.shifts.add(PlannedShift(one.day, one.service, one.cook, one.station) for one in found.places)


def _is_offered(k: Kitchen, service: str) -> bool:
    found = k.services.find(service)
    return found is None or found.is_offered


def _week_before(k: Kitchen, day: date) -> Iterator[Place]:
    """Yield the places of the same weekday of the week before, on the day itself."""
    for one in planned_on(k, day - WEEK):
        yield Place(day, one.service, one.cook, one.station, runs=True)


def _away_by_plans(k: Kitchen, today: date) -> Away:
    """Return who is away and when, by the plans that count and that no other took the place of."""
    nights = k.progress().nights
    plans = nights.ledger.counting(nights.plans, today, today)
    replaced = {entry for plan in plans for entry in plan.replaces}
    return tuple(away for plan in plans if plan.entry not in replaced for away in plan.away)


def _not_free(k: Kitchen, wanted: TakeOver, planned: int, today: date) -> Refused | None:
    if wanted.days and all(day in free_days(k, day, day, today) for day in wanted.days):
        return None
    words = plural(
        "Since you looked, these days were planned: {number} place. Nothing was changed.",
        "Since you looked, these days were planned: {number} places. Nothing was changed.",
        planned,
    )
    return Refused(words, message("Look at what is planned now."))


def _changed(found: LastWeek, wanted: TakeOver) -> Refused | None:
    if found.places and found.mark == wanted.seen:
        return None
    words = message("Since you looked, the week before or the people have changed. Nothing was planned.")
    return Refused(words, message("Look at the plan again."))
