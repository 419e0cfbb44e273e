"""Plans and services as the book tells of them: who was planned where, who stood, and which shifts follow from that.

A service that was closed is as its entry says. One that was not counts as it was planned, 24 hours after its end, and
says that nobody confirmed it. Either way a run of a station is practice; only an assessor's signature makes a shift a
supervised one. Nothing but entries decides.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, NamedTuple

from trainer.kitchen.book import Entry
from trainer.kitchen.papers import Erased
from trainer.kitchen.record import NOTHING_LATE, Ledger, Void
from trainer.kitchen.week import Week, counts_from, week_of

NIGHT_KINDS = frozenset({"services_set", "plan_published", "service_stood"})


class Place(NamedTuple):
    """One cook at one station for one service of a day: `runs` it, or trails beside somebody."""

    day: date
    service: str
    cook: str
    station: str
    runs: bool
    beside: str = ""


@dataclass(frozen=True, slots=True)
class PlanPublished:
    """A plan of the days from `since` to `until`; `despite` has the reasons for places taken though something lacks.

    `in_charge` is the person in charge, by day; `away` are cooks with the days they are away. `seq` is its place in the
    book.
    """

    entry: str
    seq: int
    on: date
    by: str
    since: date
    until: date
    places: tuple[Place, ...]
    despite: Mapping[Place, str]
    in_charge: Mapping[date, str]
    away: tuple[tuple[str, date, date], ...]
    replaces: tuple[str, ...]

    def covers(self, day: date) -> bool:
        """Return whether the plan says who is on on a day."""
        return self.since <= day <= self.until


class Disparity(NamedTuple):
    """Somebody who stood where something spoke against it: the `state` of that, and the reason given for it.

    Of a service that was not to be held `cook` and `station` are empty.
    """

    cook: str
    station: str
    state: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class ServiceStood:
    """A service as it was closed: who stood where, and what spoke against it."""

    entry: str
    seq: int
    on: date
    by: str
    service: str
    as_planned: bool
    stood: tuple[Place, ...]
    disparities: tuple[Disparity, ...]
    guests: int | None

    @property
    def runs(self) -> Iterator[Place]:
        """Yield the places of those who ran a station with nothing against it."""
        against = {(one.cook, one.station) for one in self.disparities}
        return (one for one in self.stood if one.runs and (one.cook, one.station) not in against)


@dataclass(frozen=True, slots=True)
class StationRun:
    """A station run at a service: confirmed by whoever closed it, or, not confirmed, as it was planned."""

    entry: str
    worked_on: date
    station: str
    sitting: str
    is_confirmed: bool


@dataclass(frozen=True)
class Nights:
    """Everything the book says of services and plans, and what decides which of it counts."""

    weeks: tuple[Week, ...] = ()
    plans: tuple[PlanPublished, ...] = ()
    closed: tuple[ServiceStood, ...] = ()
    ledger: Ledger = NOTHING_LATE
    _runs: dict[tuple[date, date], Mapping[str, tuple[StationRun, ...]]] = field(
        default_factory=dict, compare=False, repr=False
    )
    """What was worked out for the last day asked about, so that a whole board asks once."""

    def with_entry(self, entry: Entry) -> Nights:
        """Return them with one entry more."""
        written = {**self.ledger.written, entry.id: entry.day} if entry.happened < entry.day else self.ledger.written
        later = replace(self, ledger=replace(self.ledger, written=written), _runs={})
        if entry.kind == "services_set":
            return replace(later, weeks=(*self.weeks, week_of(entry.id, entry.happened, entry.body)))
        if entry.kind == "plan_published":
            return replace(later, plans=(*self.plans, _plan(entry)))
        return replace(later, closed=(*self.closed, _stood(entry)))

    def asking(self, week: Week) -> Nights:
        """Return them as they would be with one week more, which no entry says yet."""
        return replace(self, weeks=(*self.weeks, week), _runs={})

    def with_void(self, entry: str, void: Void) -> Nights:
        """Return them with a void of one of their entries."""
        old = self.ledger.voids
        voids = {**old, entry: (*old.get(entry, ()), void)}
        return replace(self, ledger=replace(self.ledger, voids=voids), _runs={})

    def holds_entry(self, entry: str) -> bool:
        """Return whether one of them came from this entry."""
        return any(line.entry == entry for lines in (self.weeks, self.plans, self.closed) for line in lines)

    def week(self, day: date, on: date, known: date) -> Week | None:
        """Return what the house asked of the services of a day; None where it never said."""
        counting = self.ledger.counting(self.weeks, on, known)
        return next((week for week in reversed(counting) if week.since <= day), None)

    def plan(self, day: date, on: date, known: date) -> PlanPublished | None:
        """Return the plan of a day: the last one published for it; None where there is none."""
        counting = self.ledger.counting(self.plans, on, known)
        return next((plan for plan in reversed(counting) if plan.covers(day)), None)

    def closings(self, on: date, known: date) -> Mapping[tuple[date, str], ServiceStood]:
        """Return every service that was closed, by day and service: as it was closed last."""
        return {(one.on, one.service): one for one in self.ledger.counting(self.closed, on, known)}

    def first_closed(self, on: date, known: date) -> date | None:
        """Return the day of the first service that was closed; None where none was."""
        return min((day for day, _ in self.closings(on, known)), default=None)

    def runs_of(self, cook: str, on: date, known: date) -> tuple[StationRun, ...]:
        """Return the stations a cook has run by a day, by what was known on another."""
        if (on, known) not in self._runs:
            self._runs.clear()
            self._runs[on, known] = self._worked_out(on, known)
        return self._runs[on, known].get(cook, ())

    def _worked_out(self, on: date, known: date) -> Mapping[str, tuple[StationRun, ...]]:
        found: dict[str, list[StationRun]] = {}
        closings = self.closings(on, known)
        for one in closings.values():
            for place in one.runs:
                run = StationRun(one.entry, place.day, place.station, place.service, is_confirmed=True)
                found.setdefault(place.cook, []).append(run)
        for plan, place in self.unclosed(on, known):
            run = StationRun(plan.entry, place.day, place.station, place.service, is_confirmed=False)
            found.setdefault(place.cook, []).append(run)
        return {cook: tuple(dict.fromkeys(runs)) for cook, runs in found.items()}

    def unclosed(self, on: date, known: date) -> Iterator[tuple[PlanPublished, Place]]:
        """Yield the places of services that nobody closed in time, and that count as planned."""
        closings, weeks = self.closings(on, known), self.ledger.counting(self.weeks, on, known)
        for plan, place in self._planned_runs(on, known):
            if place.day > on or (place.day, place.service) in closings:
                continue
            week = next((week for week in reversed(weeks) if week.since <= place.day), None)
            if counts_from(week, place.day, place.service) <= known:
                yield plan, place

    def _planned_runs(self, on: date, known: date) -> Iterator[tuple[PlanPublished, Place]]:
        """Yield who was planned to run a station, each day by its last plan, without those who lacked something."""
        counting = self.ledger.counting(self.plans, on, known)
        for number, plan in enumerate(counting):
            later = counting[number + 1 :]
            for place in plan.places:
                if place.runs and place not in plan.despite and not any(one.covers(place.day) for one in later):
                    yield plan, place


def _plan(entry: Entry) -> PlanPublished:
    """Return a plan as its entry and the paper of its lines tell it; of a paper that was dropped nothing is left."""
    body = entry.body
    told = {} if isinstance(body["plan"], Erased) else json.loads(body["plan"])
    places = tuple(place_of(one) for one in told.get("lines", ()))
    reasons = {(one["day"], one["service"], one["cook"], one["station"]): one["reason"] for one in body["despite"]}
    keys = {place: (f"{place.day}", place.service, place.cook, place.station) for place in places}
    return PlanPublished(
        entry.id,
        entry.seq,
        entry.happened,
        entry.by,
        date.fromisoformat(body["from"]),
        date.fromisoformat(body["to"]),
        places,
        {place: reasons[key] for place, key in keys.items() if key in reasons},
        {date.fromisoformat(one["day"]): one["cook"] for one in told.get("in_charge", ())},
        tuple(_away(one) for one in told.get("away", ())),
        tuple(body["replaces"]),
    )


def _away(one: Mapping[str, Any]) -> tuple[str, date, date]:
    return one["cook"], date.fromisoformat(one["from"]), date.fromisoformat(one["to"])


def _stood(entry: Entry) -> ServiceStood:
    """Return a closed service as its entry tells it."""
    b = entry.body
    stood = tuple(place_of({**one, "day": f"{entry.happened}", "service": b["service"]}) for one in b["stood"])
    against = tuple(Disparity(one["cook"], one["station"], one["state"], one["reason"]) for one in b["disparities"])
    return ServiceStood(
        entry.id, entry.seq, entry.happened, entry.by, b["service"], b["as_planned"], stood, against, b["guests"]
    )


def place_of(told: Mapping[str, Any]) -> Place:
    """Return a place as a plan or a closed service keeps it."""
    runs, beside = told["as"] == "runs", told.get("beside", "")
    return Place(date.fromisoformat(told["day"]), told["service"], told["cook"], told["station"], runs, beside)


def place_told(place: Place, *, dated: bool = True) -> dict[str, str]:
    """Return a place as a plan keeps it, or, without its day and service, as a closed service does."""
    when = {"day": place.day.isoformat(), "service": place.service} if dated else {}
    told = {**when, "cook": place.cook, "station": place.station, "as": "runs" if place.runs else "trails"}
    return {**told, "beside": place.beside} if place.beside else told


def plan_text(places: Iterable[Place], in_charge: Mapping[date, str], away: Iterable[tuple[str, date, date]]) -> str:
    """Return the paper of a plan: JSON of its lines, of who is in charge by day, and of who is away."""
    told = {
        "lines": [place_told(place) for place in places],
        "in_charge": [{"day": day.isoformat(), "cook": cook} for day, cook in sorted(in_charge.items())],
        "away": [{"cook": cook, "from": first.isoformat(), "to": last.isoformat()} for cook, first, last in away],
    }
    return json.dumps(told, separators=(",", ":"), ensure_ascii=False)
