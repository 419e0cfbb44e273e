"""A station's coming days: how many are cleared on each if nothing more is written, where it gets thin, and why."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby
from typing import Literal

from trainer.kitchen.clearance import Asking, asking_of
from trainer.kitchen.nights import Nights
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.record import AsKnown
from trainer.kitchen.requirements import Requirement
from trainer.kitchen.spans import ONE_DAY, Span
from trainer.kitchen.technique import Content, Station
from trainer.kitchen.week import Need, Week

DAYS = 90
"""How far ahead a strip looks, today among them."""
Level = Literal["enough", "thin", "short"]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Days in a row on which as many are cleared as on the first of them, and as many hands are needed."""

    since: date
    until: date
    cleared: int
    need: int

    @property
    def level(self) -> Level:
        """Return whether one can be missing, none can, or there are too few already."""
        if self.cleared < self.need:
            return "short"
        return "thin" if self.cleared == self.need else "enough"


@dataclass(frozen=True, slots=True)
class Turn:
    """The first day on which a cook is cleared at a station, or is no longer, and what was or is missing of it."""

    on: date
    cook: str
    is_gain: bool
    missing: tuple[Requirement, ...] = ()


@dataclass(frozen=True, slots=True)
class Strip:
    """One station's coming days: stretches without a gap, and each day on which a cook is cleared or lapses."""

    station: str
    stretches: tuple[Stretch, ...]
    turns: tuple[Turn, ...]


def coming(first: date) -> Span:
    """Return the days of a strip that begins on a day."""
    return Span(first, first + timedelta(days=DAYS - 1))


@dataclass(frozen=True, slots=True)
class ClearedDays:
    """The days to come on which a cook is cleared at a station, as runs, and each day on which that turns."""

    runs: tuple[Span, ...]
    turns: tuple[Turn, ...]


def cleared_days(
    person: Person, stations: Iterable[Station], progress: Progress, content: Content, days: Span
) -> Mapping[str, ClearedDays]:
    """Return by station when a cook is cleared within some days, by what is known on the first of them.

    Worked out for all these days at once: no entry is of a day still to come.
    """
    asked = {station.id: station for station in stations}
    asking = asking_of(person, asked, progress, content, AsKnown(days.since, days.since))
    return {name: _cleared_days(person.id, name, asking, days) for name in asked}


def _cleared_days(cook: str, station: str, asking: Asking, days: Span) -> ClearedDays:
    runs = tuple(asking.cleared_within(station, days))
    gained = [run.since for run in runs if run.since > days.since]
    lost = [run.until + ONE_DAY for run in runs if run.until < days.until]
    gains = (Turn(day, cook, True, asking.not_met(station, day - ONE_DAY)) for day in gained)
    losses = (Turn(day, cook, False, asking.not_met(station, day)) for day in lost)
    return ClearedDays(runs, (*gains, *losses))


def strip_of(station: str, cooks: Sequence[ClearedDays], need: Callable[[date], int], days: Span) -> Strip:
    """Return a station's strip from the days on which each cook is cleared there, and the hands it needs on a day."""
    every = [days.since + timedelta(days=number) for number in range((days.until - days.since).days + 1)]
    counts = [(sum(any(run.holds(day) for run in one.runs) for one in cooks), need(day), day) for day in every]
    rows = [(count, hands, list(row)) for (count, hands), row in groupby(counts, key=lambda one: one[:2])]
    stretches = tuple(Stretch(row[0][2], row[-1][2], count, hands) for count, hands, row in rows)
    turns = sorted((turn for one in cooks for turn in one.turns), key=lambda turn: (turn.on, turn.cook))
    return Strip(station, stretches, tuple(turns))


def need_at(station: str, nights: Nights, today: date) -> Callable[[date], int]:
    """Return the hands a station needs on a day, as the house says today: the most of any service of that week.

    A day that is not like its weekday may need more. Where the house set nothing, one hand.
    """

    def need(day: date) -> int:
        week = nights.week(day, today, today)
        return max(1, *_hands(station, week, day)) if week else 1

    return need


def _hands(station: str, week: Week, day: date) -> Iterator[int]:
    """Yield 0, and the hands of each service of the week, and of the day itself where it is not like its weekday."""
    yield 0
    for hours in week.weekly:
        yield _at(station, hours.needs)
    for service in {own.service for own in week.days}:
        yield _at(station, week.needs(day, service) or ())


def _at(station: str, needs: Sequence[Need]) -> int:
    return sum(one.hands for one in needs if station in one.stations)
