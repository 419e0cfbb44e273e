"""Stopwatches at the points of a practical: what one shows, what reading it gives, and how a reading was timed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Literal

from trainer.kitchen.measured import Reading, Typed, read
from trainer.kitchen.practical import A_LOOK, PointSeen
from trainer.kitchen.reading_units import line_end
from trainer.kitchen.technique import Point

TimedBy = Literal["watch", "hand", ""]
"""How a reading was timed; empty where it is no time, or where how is not known."""
TENTHS_BELOW = 10
"""Seconds: a shorter time is read in tenths, since a machine has to stop within four seconds."""


@dataclass(frozen=True, slots=True)
class Stopwatch:
    """A stopwatch at one reading of a point (0 is the first): when it was started, and stopped; None while it runs."""

    reading: int
    started: datetime
    stopped: datetime | None = None

    def gone(self, now: datetime) -> timedelta:
        """Return the time it shows: never less than nothing, though a clock was set back."""
        return max(timedelta(0), (self.stopped or now) - self.started)

    @property
    def shown(self) -> str:
        """Return what it showed when it was stopped, with its units; empty while it runs.

        >>> from datetime import UTC
        >>> noon = datetime(2026, 11, 3, 12, tzinfo=UTC)
        >>> Stopwatch(0, noon, noon + timedelta(minutes=98, seconds=7.9)).shown
        '1 h 38 min 7 s'
        >>> Stopwatch(0, noon, noon + timedelta(seconds=3.46)).shown
        '3.4 s'
        """
        return _in_units(self.gone(self.stopped)) if self.stopped else ""


def pressed_start(watches: Iterable[Stopwatch], reading: int, now: datetime) -> tuple[Stopwatch, ...]:
    """Return the watches with that of a reading started anew; one that runs goes on, whoever presses twice."""
    kept = tuple(watches)
    if any(one.reading == reading and one.stopped is None for one in kept):
        return kept
    return (*(one for one in kept if one.reading != reading), Stopwatch(reading, now))


def pressed_stop(watches: Iterable[Stopwatch], reading: int, now: datetime) -> tuple[Stopwatch, ...]:
    """Return the watches with that of a reading stopped; the second of two taps that started it stops nothing."""
    return tuple(
        replace(one, stopped=now) if one.reading == reading and one.stopped is None and one.gone(now) >= A_LOOK else one
        for one in watches
    )


def is_timed(point: Point, reading: int) -> bool:
    """Return whether a reading of a point is taken with a stopwatch: a point that is timed, the time of a pair."""
    if not point.lines or point.judged not in ("timed", "pair"):
        return False
    end = line_end(point.line_of(reading))
    return end is not None and end.unit.dimension == "duration"


def with_how_timed(
    point: Point, seen: PointSeen, watches: Sequence[Stopwatch], decimal_mark: str | None = None
) -> PointSeen:
    """Return what was seen with how each of its readings was timed: by the watch where it is what the watch showed.

    Of a stop only some readings may have been taken, so how they were timed is not known.
    """
    if len(seen.readings) != point.pieces * len(point.lines):
        return seen
    shown = {one.reading: one.shown for one in watches}
    timed = tuple(
        _timed_by(point, place, text, shown.get(place, ""), decimal_mark) for place, text in enumerate(seen.readings)
    )
    return replace(seen, timed=timed) if any(timed) else seen


def is_same_time(point: Point, place: int, one: Typed, other: Typed, decimal_mark: str | None = None) -> bool:
    """Return whether two readings are the same time: 90 s and 1 min 30 s are."""
    first, second = (read(point.line_of(place), typed, decimal_mark) for typed in (one, other))
    return isinstance(first, Reading) and isinstance(second, Reading) and first.value.base == second.value.base


def _timed_by(point: Point, place: int, text: str, shown: str, decimal_mark: str | None) -> TimedBy:
    if not is_timed(point, place):
        return ""
    return "watch" if shown and is_same_time(point, place, Typed(text), Typed(shown), decimal_mark) else "hand"


def _in_units(gone: timedelta) -> str:
    """Return a time as a stopwatch is read: 1 h 38 min 7 s, 17 s, 3.4 s; what is not whole yet is left out."""
    tenths = gone // timedelta(seconds=0.1)
    if tenths < TENTHS_BELOW * 10:
        return f"{tenths // 10}.{tenths % 10} s" if tenths % 10 else f"{tenths // 10} s"
    minutes, seconds = divmod(tenths // 10, 60)
    parts = ((minutes // 60, "h"), (minutes % 60, "min"), (seconds, "s"))
    return " ".join(f"{number} {unit}" for number, unit in parts if number)
