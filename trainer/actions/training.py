"""Which training would help most: the least time after which any one person may be missing at the services to come."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import combinations

from trainer.actions.absences import services_ahead
from trainer.actions.covering import ServiceCover
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.training_waits import Wait, wait_of
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.places import stations_at
from trainer.kitchen.requirements import Missing
from trainer.kitchen.rings import Ring, ring_of
from trainer.kitchen.standard_cost import seconds_of
from trainer.kitchen.technique import Content
from trainer.kitchen.training_plan import Line, Situation, fewest_hours, is_needed

MINUTES_A_SHIFT = 30
"""What a supervised shift takes of the time of whoever stands beside: common practice."""
MOST_SITUATIONS = 1_000
"""Services with two missing that are looked at for a ring; of more, every so many."""
TRAINED = frozenset({"reading", "quiz", "practical", "shifts", "practice"})
"""What training brings; whoever lacks anything else for a station is not proposed for it."""
WATCHED = frozenset({"practical", "shifts", "practice"})
"""Of that, what somebody stands beside for."""


@dataclass(frozen=True, slots=True)
class Training:
    """One cook trained for one station: what is missing there, the minutes it takes, and a service that shows why.

    `without` is who is missing at that service, "" where it would be short with everybody there. Of the minutes
    `watching` are somebody's beside the cook: practicals and supervised shifts. `wait` says from which day.
    """

    cook: str
    station: str
    missing: tuple[Missing, ...]
    minutes: int
    service: ServiceCover
    without: str
    watching: int
    wait: Wait


@dataclass(frozen=True, slots=True)
class RingAdvised:
    """Cooks who would learn one station more, each with the minutes it takes, so that all stations stand in a ring.

    Told where that brings nearly all there is to gain at the services looked at, with any two people missing.
    """

    learns: tuple[tuple[str, str, int], ...]
    brings: Ring

    @property
    def minutes(self) -> int:
        """Return what the whole ring takes."""
        return sum(minutes for *_, minutes in self.learns)


@dataclass(frozen=True, slots=True)
class TrainingPlan:
    """The trainings with the nearest reason first, and the services looked at; `short` places stay empty even so."""

    trainings: tuple[Training, ...]
    services: tuple[ServiceCover, ...]
    short: int
    ring: RingAdvised | None = None

    @property
    def minutes(self) -> int:
        """Return what the whole plan takes."""
        return sum(one.minutes for one in self.trainings)


def training_plan(
    k: Kitchen, first: date, days: int, content: Content | None = None, out: Collection[tuple[str, str]] = ()
) -> TrainingPlan:
    """Return the plan for the services of so many days; *out* are cooks with stations they shall not be trained for.

    At each service any one of those on may be missing. Those left fill the places where they are enough; else others
    who are not away come too. A clearance that ends before a service is no help there.
    """
    services = services_ahead(k, first, days, content)
    return _Planning(k, services, out, first).plan() if services else TrainingPlan((), (), 0)


class _Planning:
    """One plan being worked out: cooks and places by number."""

    def __init__(
        self, k: Kitchen, services: Sequence[ServiceCover], out: Collection[tuple[str, str]], first: date
    ) -> None:
        self.k, self.services, self.out, self.first = k, services, out, first
        board = k.board(services[-1].on)
        self.cells = {(row.cook.id, cell.station): cell for row in board.rows for cell in row.clearances}
        self.cooks = [row.cook.id for row in board.rows]
        self.places = list(dict.fromkeys(place.station for found in services for place in found.cover.stations))
        self.number = {cook: number for number, cook in enumerate(self.cooks)}
        self.content = k.content

    def plan(self) -> TrainingPlan:
        """Return the plan."""
        told = {one: (found, "".join(gone)) for found in self.services for one, gone in self._situations(found)}
        able, costs = self._able(), self._costs()
        lines, short = fewest_hours(able, costs, told)
        found = []
        for line in lines:
            telling = sorted(told, key=lambda one: self._is_far_fetched(*told[one], self.places[line[1]]))
            shown = is_needed(line, lines, able, telling)
            service, gone = told[shown] if shown else (self.services[0], "")
            found += [self._training(line[0], station, service, gone) for station in self._stations_lacked(line)]
        found.sort(key=lambda one: (one.service.on, one.cook, one.station))
        return TrainingPlan(tuple(found), tuple(self.services), short, self._ring(able, costs))

    def _ring(self, able: Sequence[Set[int]], costs: Mapping[Line, int]) -> RingAdvised | None:
        """Return the ring of second stations; None where it would bring less than nearly all."""
        missing_two = dict.fromkeys(
            one for found in self.services for one, gone in self._situations(found, missing=2) if gone
        )
        every = -(-len(missing_two) // MOST_SITUATIONS) or 1
        found = ring_of(able, costs, list(missing_two)[::every])
        if found is None or not found.brings_nearly_all:
            return None
        return RingAdvised(
            tuple(
                (self.cooks[line[0]], station, self._minutes(self.cells[self.cooks[line[0]], station]))
                for line in found.lines
                for station in self._stations_lacked(line)
            ),
            found,
        )

    def _situations(self, found: ServiceCover, missing: int = 1) -> Iterable[tuple[Situation, tuple[str, ...]]]:
        """Yield a service with those who are on, then without each one (or two) of them; too few, and others come."""
        hands = tuple((self.places.index(one.station), one.hands) for one in found.cover.stations)
        on = [cook for cook in found.can if cook in self.number]
        away = self._away(found.on)
        at_home = [cook for cook in self.cooks if cook not in away and cook not in found.can]
        for gone in ((), *combinations(on, missing)):
            here = [cook for cook in on if cook not in gone]
            crew = here if len(here) >= sum(count for _, count in hands) else [*here, *at_home]
            yield Situation(hands, sum(1 << self.number[cook] for cook in crew)), gone

    def _is_far_fetched(self, found: ServiceCover, gone: str, place: str) -> bool:
        """Return whether somebody is missing who could not have stood at the place: another reason is told first."""
        return bool(gone) and place not in found.can[gone]

    def _away(self, on: date) -> frozenset[str]:
        plan = self.k.progress().nights.plan(on, on, on)
        return frozenset(cook for cook, first, last in plan.away if first <= on <= last) if plan else frozenset()

    def _able(self) -> list[set[int]]:
        """Return for each place those who may stand there at every service that needs it."""
        return [
            {number for cook, number in self.number.items() if all(_may(found, cook, place) for found in self.services)}
            for place in self.places
        ]

    def _costs(self) -> Mapping[Line, int]:
        costs = {}
        for at, place in enumerate(self.places):
            for cook, number in self.number.items():
                cells = [self.cells.get((cook, station)) for station in stations_at(place)]
                lacking = [cell for cell in cells if cell is not None and not cell.is_cleared]
                is_asked = all(cell is not None and self._may_be_trained(cell) for cell in cells)
                if lacking and is_asked:
                    costs[number, at] = sum(self._minutes(cell) for cell in lacking)
        return costs

    def _may_be_trained(self, cell: Clearance) -> bool:
        """Return whether training alone brings a clearance, and nobody took the line out."""
        is_out = (cell.cook, cell.station) in self.out
        return cell.is_cleared or (not is_out and all(one.what.partition(":")[0] in TRAINED for one in cell.missing))

    def _minutes(self, cell: Clearance, of: Set[str] = TRAINED) -> int:
        """Return what is missing of these kinds of work takes, one minute at least."""
        seconds = 0
        for missing in cell.missing:
            kind, _, technique = missing.what.partition(":")
            if kind not in of:
                continue
            if kind in ("shifts", "practice"):
                seconds += self._shifts_left(cell) * MINUTES_A_SHIFT * 60
            else:
                seconds += seconds_of(kind, technique, self.content)
        return max(1, round(seconds / 60))

    def _shifts_left(self, cell: Clearance) -> int:
        station = self.content.stations.get(cell.station)
        worked = sum(one.station == cell.station for one in self.k.progress().record(cell.cook).shifts)
        return max(1, (station.supervised_shifts if station else 1) - worked)

    def _stations_lacked(self, line: Line) -> list[str]:
        cook, place = self.cooks[line[0]], self.places[line[1]]
        return [station for station in stations_at(place) if not self.cells[cook, station].is_cleared]

    def _training(self, cook: int, station: str, service: ServiceCover, gone: str) -> Training:
        cell = self.cells[self.cooks[cook], station]
        beside = self._minutes(cell, WATCHED) if any(_kind(one) in WATCHED for one in cell.missing) else 0
        wait = wait_of(cell.cook, cell.missing, self.k.day(self.first))
        return Training(cell.cook, station, cell.missing, self._minutes(cell), service, gone, beside, wait)


def watched_by(trainings: Sequence[Training], weekly: int, today: date) -> tuple[date, ...]:
    """Return by which day there was time to watch each training, the first ones first, with so many minutes a week.

    What waits takes its own weeks from the day on which it can begin.
    """
    spent, days = 0, []
    for one in trainings:
        spent += one.watching
        days.append(max(today + _weeks(spent, weekly), one.wait.begins + _weeks(one.watching, weekly)))
    return tuple(days)


def _weeks(minutes: int, weekly: int) -> timedelta:
    """Return the whole weeks that minutes fill; none where a week has no minutes."""
    return timedelta(weeks=-(-minutes // weekly) if weekly else 0)


def _kind(missing: Missing) -> str:
    return missing.what.partition(":")[0]


def _may(found: ServiceCover, cook: str, place: str) -> bool:
    """Return whether a cook may stand at a place of a service; at one it does not need, anybody may."""
    needed = found.cover.at(stations_at(place)[0])
    if needed is None or needed.station != place:
        return True
    return place in found.can.get(cook, ()) or cook in found.free[place]
