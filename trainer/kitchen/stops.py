"""A stop: something unsafe was seen in a practical, so the cook is off every station that asks for the technique.

A stop stands until a manager releases it; no sign-off lifts it. A stop of an older program, which did not keep when a
practical was begun, has also ended with a sign-off of that program on a later day: nobody could release one then.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from trainer.kitchen.record import CookRecord, StopReleased, Watched

RETRY_DAYS = 1
"""How many days after its release a cook may be watched again at the earliest: a retry of the same day shows what was
just seen. That it waits, and that training comes first: 10 CFR 55.35(a); the length is the house's own."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A practical that was stopped, and the line that ended the stop; None while it stands."""

    line: Watched
    end: StopReleased | Watched | None


def stops(record: CookRecord, technique: str) -> tuple[Stop, ...]:
    """Return every stop of a technique in a cook's record, in the order of the book."""
    lines = [line for line in record.watched if line.technique == technique]
    return tuple(Stop(line, _end_of(line, lines, record)) for line in lines if line.verdict == "stopped")


def standing_stops(record: CookRecord, technique: str) -> tuple[Watched, ...]:
    """Return the stops of a technique that stand at the end of a record, in the order of the book."""
    return tuple(stop.line for stop in stops(record, technique) if stop.end is None)


def retry_day(record: CookRecord, technique: str) -> date | None:
    """Return the first day a cook may be watched again after the stops that were released; None where nothing waits."""
    ends = (stop.end for stop in stops(record, technique))
    days = [end.retry_from for end in ends if isinstance(end, StopReleased) and end.retry_from is not None]
    return max(days, default=None)


def is_after_every_stop(line: Watched, earlier: Iterable[Stop]) -> bool:
    """Return whether a practical was begun, and signed, after every stop before it had ended."""
    return all(_is_over(stop, line) for stop in earlier if stop.line.seq < line.seq)


def _is_over(stop: Stop, line: Watched) -> bool:
    end = stop.end
    return end is not None and end.seq <= line.seq and (line.started is None or line.started >= end.at)


def _end_of(stop: Watched, lines: Sequence[Watched], record: CookRecord) -> StopReleased | Watched | None:
    """Return the first line that ends a stop."""
    ends: list[StopReleased | Watched] = [one for one in record.released if one.stop == stop.entry]
    if stop.started is None:
        signed = (line for line in lines if line.verdict == "meets it" and line.started is None)
        ends += [line for line in signed if line.seq > stop.seq and line.on > stop.on]
    return min(ends, key=lambda end: end.seq, default=None)
