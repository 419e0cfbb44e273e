"""Clocks for food that is held: how long it was out of its limits, time as the control, and the last day on a mark.

Limits are passed in, since codes differ: the FDA Food Code 2022 has 41 and 135 °F in section 3-501.16, four and six
hours in 3-501.19, seven days in 3-501.17. Moments carry a time zone and days are calendar days, both exact;
temperatures are plain celsius, an estimate, in floats, as good as the thermometer.

Caution: a clock says how much time has gone, never that food is safe. Food whose time is up, or cannot be shown, is for
the local code and the person in charge; smell and taste show nothing. Time as the control is not for people who are
highly susceptible, and asks for a written procedure and a mark on the container.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from enum import StrEnum
from itertools import pairwise

from trainer.recipe_math.estimates import a_temperature, above_zero, degrees, hours_text
from trainer.recipe_math.quantity import QuantityProblem


class Clock(StrEnum):
    """How a clock of time as the control stands."""

    RUNNING = "running"
    TIME_IS_UP = "time is up"
    LIMIT_BROKEN = "limit broken"


@dataclass(frozen=True, slots=True)
class TimedReading:
    """One look at a thermometer: when, with its time zone, and what it showed in celsius."""

    at: datetime
    celsius: float

    def __post_init__(self) -> None:
        """Refuse a moment without a time zone."""
        _moment(self.at)
        a_temperature(self.celsius)


@dataclass(frozen=True, slots=True)
class HoldingLimit:
    """Where food is held: cold at most so warm, or hot at least so warm (one of the two), and where that is read.

    The limit itself is inside.
    """

    source: str
    at_most_celsius: float | None = None
    at_least_celsius: float | None = None

    def __post_init__(self) -> None:
        """Refuse a limit with no side or with two."""
        if (self.at_most_celsius is None) == (self.at_least_celsius is None):
            raise QuantityProblem("A holding limit is either at most or at least so warm: give one of the two.")

    def holds(self, celsius: float) -> bool:
        """Return whether a reading is inside the limit; the limit itself is.

        >>> HoldingLimit("a local code", at_most_celsius=5).holds(5)
        True
        """
        if self.at_most_celsius is not None:
            return celsius <= self.at_most_celsius
        return self.at_least_celsius is not None and celsius >= self.at_least_celsius


@dataclass(frozen=True, slots=True)
class Spell:
    """A time out of the limit: the last good reading before, the readings out, the first good one after.

    None where there is no good reading: nobody looked before the first one, and after the last the food may be out.
    """

    good_until: datetime | None
    first_out: datetime
    last_out: datetime
    good_from: datetime | None

    @property
    def at_least_minutes(self) -> float:
        """Return how long it was out for certain: from the first to the last reading out."""
        return _minutes(self.first_out, self.last_out)

    @property
    def at_most_minutes(self) -> float | None:
        """Return how long it can have been out: from good to good; None where either end was not seen."""
        if self.good_until is None or self.good_from is None:
            return None
        return _minutes(self.good_until, self.good_from)


@dataclass(frozen=True, slots=True)
class TimeRule:
    """Time as the control: so many minutes, how cold or hot the food begins, and how warm it may ever get.

    At least one beginning is given. All limits are themselves inside.
    """

    source: str
    within_minutes: float
    begins_at_most_celsius: float | None = None
    begins_at_least_celsius: float | None = None
    never_above_celsius: float | None = None

    def __post_init__(self) -> None:
        """Refuse a rule without time or without a beginning."""
        above_zero(self.within_minutes, "a time limit in minutes")
        if self.begins_at_most_celsius is None and self.begins_at_least_celsius is None:
            raise QuantityProblem("A time rule says how cold or how hot the food is when its clock begins.")

    def may_begin_at(self, celsius: float) -> bool:
        """Return whether food at this temperature may go under the rule.

        >>> TimeRule("a local code", 240, begins_at_most_celsius=5, begins_at_least_celsius=57).may_begin_at(30)
        False
        """
        cold = self.begins_at_most_celsius is not None and celsius <= self.begins_at_most_celsius
        hot = self.begins_at_least_celsius is not None and celsius >= self.begins_at_least_celsius
        return cold or hot


@dataclass(frozen=True, slots=True)
class TimeControl:
    """A running clock: how it stands, until when, minutes left (0 when up), the reasons, and what is not known."""

    clock: Clock
    until: datetime
    minutes_left: float
    reasons: tuple[str, ...]
    not_known: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DateMark:
    """The last day food may be kept, and which day of keeping a day is: the day of preparation is day one."""

    prepared: date
    last_day: date
    days_frozen: int

    def is_past_on(self, on: date) -> bool:
        """Return whether the last day is over; on the last day it is not.

        >>> date_mark(date(2026, 3, 2), 7).is_past_on(date(2026, 3, 8))
        False
        """
        return on > self.last_day


def spells_outside(readings: Sequence[TimedReading], limit: HoldingLimit) -> tuple[Spell, ...]:
    """Return each time the food was out of its limit, with how long at least and at most.

    Between two readings nobody looked, so a spell may be as long as from the good reading before to the good one after.
    Readings in order of time (QuantityProblem). Limits: FDA Food Code 2022, section 3-501.16, or the local code.

    >>> nine = datetime(2026, 3, 2, 9, tzinfo=UTC)
    >>> log = [TimedReading(nine + timedelta(hours=hour), celsius) for hour, celsius in enumerate([4, 8, 4])]
    >>> spells_outside(log, HoldingLimit("a local code", at_most_celsius=5))[0].at_most_minutes
    120.0
    """
    for before, after in pairwise(readings):
        if _minutes(before.at, after.at) <= 0:
            raise QuantityProblem(f"The reading of {after.at} does not follow the one before: put them in order.")
    spells: list[Spell] = []
    good: datetime | None = None
    out: list[datetime] = []
    for reading in readings:
        if not limit.holds(reading.celsius):
            out.append(reading.at)
            continue
        if out:
            spells.append(Spell(good, out[0], out[-1], reading.at))
        good, out = reading.at, []
    return (*spells, Spell(good, out[0], out[-1], None)) if out else tuple(spells)


def time_control(rule: TimeRule, began: TimedReading, now: datetime, warmest: float | None = None) -> TimeControl:
    """Return how the clock stands for food kept by time instead of temperature; the last minute is inside.

    The clock began when the food left its limit, at the reading then. *warmest* is the highest celsius seen since.
    A food that began too warm, or got too warm, has broken the limit whatever the clock says. *now* has a time zone and
    is not before the beginning (QuantityProblem). Rule: FDA Food Code 2022, section 3-501.19, with limits passed in.

    >>> rule = TimeRule("a local code", 240, begins_at_most_celsius=5, begins_at_least_celsius=57)
    >>> noon = datetime(2026, 3, 2, 12, tzinfo=UTC)
    >>> time_control(rule, TimedReading(noon, 57), noon + timedelta(hours=3)).minutes_left
    60.0
    """
    gone = _minutes(began.at, _moment(now))
    if gone < 0:
        raise QuantityProblem(f"{now} is before the clock began, at {began.at}.")
    until = (began.at.astimezone(UTC) + timedelta(minutes=rule.within_minutes)).astimezone(began.at.tzinfo)
    broken = _limits_broken(rule, began.celsius, warmest)
    left = max(0.0, rule.within_minutes - gone)
    not_known = _not_known_of(rule, warmest)
    if broken:
        return TimeControl(Clock.LIMIT_BROKEN, until, 0.0, broken, not_known)
    limit = hours_text(rule.within_minutes)
    if gone > rule.within_minutes:
        return TimeControl(
            Clock.TIME_IS_UP, until, left, (f"{hours_text(gone)} have gone; {limit} is all.",), not_known
        )
    return TimeControl(Clock.RUNNING, until, left, (f"{hours_text(left)} of {limit} are left.",), not_known)


def date_mark(prepared: date, days: int, frozen: Iterable[tuple[date, date]] = ()) -> DateMark:
    """Return the last day for food kept so many days, the day of preparation counted as day one.

    The whole days between going into the freezer and coming out do not count; both of those days do. At least one day;
    spans in the freezer lie one after another, from the day of preparation on (QuantityProblem). Rule: FDA Food Code
    2022, sections 3-501.17 and 3-501.18, where it is 7 days at 41 °F; the local code may have fewer.

    >>> date_mark(date(2026, 3, 2), 7).last_day
    datetime.date(2026, 3, 8)
    """
    if days < 1:
        raise QuantityProblem(f"{days} days is no time to keep food: the day of preparation is day one.")
    last, paused, free_from = prepared + timedelta(days=days - 1), 0, prepared
    for went_in, came_out in sorted(frozen):
        if went_in < free_from or came_out < went_in:
            raise QuantityProblem(f"In the freezer from {went_in} to {came_out} does not fit the days around it.")
        if went_in > last:
            raise QuantityProblem(f"On {went_in}, when it was to be frozen, the last day {last} was over.")
        away = max(0, (came_out - went_in).days - 1)
        last, paused, free_from = last + timedelta(days=away), paused + away, came_out
    return DateMark(prepared, last, paused)


def combined_day(prepared: Iterable[date]) -> date:
    """Return the day that counts for combined food: that of the part prepared first; at least one (QuantityProblem).

    Rule: FDA Food Code 2022, section 3-501.17(D)(3), from memory.

    >>> combined_day([date(2026, 3, 4), date(2026, 3, 2)])
    datetime.date(2026, 3, 2)
    """
    days = sorted(prepared)
    if not days:
        raise QuantityProblem("No day of preparation is given: there must be at least one.")
    return days[0]


def _limits_broken(rule: TimeRule, began_celsius: float, warmest: float | None) -> tuple[str, ...]:
    broken = []
    if not rule.may_begin_at(began_celsius):
        broken.append(f"It began at {degrees(began_celsius)}, where the rule does not let food begin.")
    ceiling = rule.never_above_celsius
    if (
        ceiling is not None
        and max(began_celsius, began_celsius if warmest is None else a_temperature(warmest)) > ceiling
    ):
        broken.append(f"It was above {degrees(ceiling)}, which it may never be under this rule.")
    return tuple(broken)


def _not_known_of(rule: TimeRule, warmest: float | None) -> tuple[str, ...]:
    always = "whether the food had been out of its limits before this clock began"
    if rule.never_above_celsius is None:
        return (always,)
    seen = "how warm the food got" if warmest is None else "how warm the food got between the readings"
    return (always, seen)


def _minutes(start: datetime, end: datetime) -> float:
    return (end.astimezone(UTC) - start.astimezone(UTC)).total_seconds() / 60


def _moment(at: datetime) -> datetime:
    if at.utcoffset() is None:
        raise QuantityProblem(f"{at} has no time zone: a clock that changes in spring would lose an hour.")
    return at
