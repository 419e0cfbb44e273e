"""Whether a log of readings shows that food passed each gate of cooling in time: an estimate, in floats.

Between two readings nobody looked, so the time of a crossing is known only to lie between them: each gate gets the
least and the most time it can have taken, and "not shown" where that does not decide.

Caution: nothing here says that food is safe. What a missed gate, or one the log does not show, means for the food is
for the local code and the person in charge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from trainer.messages import Text, message
from trainer.recipe_math.cooling import Gate, start_text
from trainer.recipe_math.estimates import METRIC, TimedReading, Writing, hours_text, in_order

_NOT_KNOWN = message("what happened between the readings, and away from the probe: the middle cools last")


class Shows(StrEnum):
    """What a log shows about one gate."""

    MET = "met"
    MISSED = "missed"
    STILL_COOLING = "still cooling"
    NOT_SHOWN = "not shown"
    NOT_BEGUN = "not begun"


@dataclass(frozen=True, slots=True)
class GateLog:
    """What a log shows about one gate, the least and most minutes taken so far or in all, and what is left.

    None for the most means that the beginning was not seen; `minutes_left` is there only while the food still cools.
    """

    gate: Gate
    shows: Shows
    at_least_minutes: float
    at_most_minutes: float | None
    minutes_left: float | None
    reason: str
    not_known: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class _Taken:
    """The bounds on a time: at least (exactly that, or more than that), and at most."""

    at_least: float
    at_most: float | None
    may_be_at_least: bool
    reached: bool


def judged(readings: Sequence[TimedReading], gates: Sequence[Gate], writing: Writing = METRIC) -> tuple[GateLog, ...]:
    """Return what the readings show about each gate, judged apart; the limit itself is in time.

    The clock begins when the food first falls through the first temperature of the gate, or with the first reading
    where the gate has none; warming again does not stop it: after reheating, begin a new log. A reading of exactly a
    gate's temperature is its crossing. At least one reading, in order of time (QuantityProblem). Rule: FDA Food Code
    2022, section 3-501.14, with gates as passed in.

    >>> fda = (Gate(57, 21, 120, "stage one"), Gate(57, 5, 360, "in all"))
    >>> log = [TimedReading(0, 57), TimedReading(130, 21), TimedReading(300, 5)]
    >>> [str(gate.shows) for gate in judged(log, fda)]
    ['missed', 'met']
    """
    ordered = in_order(readings, at_least=1)
    return tuple(_judged(ordered, gate, writing) for gate in gates)


def _judged(readings: tuple[TimedReading, ...], gate: Gate, writing: Writing) -> GateLog:
    begun = _begun(readings, gate)
    if begun is None:
        reason = f"The food has not fallen below {start_text(gate, writing)}."
        return GateLog(gate, Shows.NOT_BEGUN, 0.0, None, None, reason, (_NOT_KNOWN,))
    taken = _taken(readings, begun, gate)
    shows = _shows(taken, gate.within_minutes)
    left = None
    if shows is Shows.STILL_COOLING and taken.at_most is not None:
        left = gate.within_minutes - taken.at_most
    reason, not_known = _reason(shows, taken, gate, writing), _not_known(readings, begun)
    return GateLog(gate, shows, taken.at_least, taken.at_most, left, reason, not_known)


def _begun(readings: tuple[TimedReading, ...], gate: Gate) -> int | None:
    """Return the place of the first reading at which the clock runs; None where it has not begun."""
    if gate.from_celsius is None:
        return 0
    start = gate.from_celsius
    return next((at for at, reading in enumerate(readings) if reading.celsius < start), None)


def _taken(readings: tuple[TimedReading, ...], begun: int, gate: Gate) -> _Taken:
    """Return the least and most time from the first temperature to the last, or to the last reading."""
    before = readings[0] if gate.from_celsius is None else readings[begun - 1] if begun else None
    began_on_the_mark = before is not None and gate.from_celsius in {None, before.celsius}
    latest_start = before.minutes if before and began_on_the_mark else readings[begun].minutes
    reached = next((at for at in range(begun, len(readings)) if readings[at].celsius <= gate.to_celsius), None)
    ended_on_the_mark = reached is not None and readings[reached].celsius == gate.to_celsius
    end = readings[-1 if reached is None else reached]
    earliest_end = end if reached is None or ended_on_the_mark else readings[max(0, reached - 1)]
    at_least = max(0.0, earliest_end.minutes - latest_start)
    at_most = None if before is None else end.minutes - before.minutes
    return _Taken(at_least, at_most, ended_on_the_mark, reached is not None)


def _shows(taken: _Taken, limit: float) -> Shows:
    if taken.at_least > limit or (taken.at_least == limit and not taken.may_be_at_least):
        return Shows.MISSED
    if taken.at_most is None:
        return Shows.NOT_SHOWN
    if taken.reached:
        return Shows.MET if taken.at_most <= limit else Shows.NOT_SHOWN
    return Shows.STILL_COOLING if taken.at_most < limit else Shows.NOT_SHOWN


def _reason(shows: Shows, taken: _Taken, gate: Gate, writing: Writing) -> str:
    limit, to = hours_text(gate.within_minutes), writing.limit(gate.to_celsius)
    least = hours_text(taken.at_least)
    if shows is Shows.MISSED:
        return f"{to} took {least} or more; the limit is {limit}."
    if taken.at_most is None:
        return f"No reading shows when the food fell through {start_text(gate, writing)}."
    most = hours_text(taken.at_most)
    took = "took" if taken.reached else "is not reached after"
    return {
        Shows.MET: f"{to} within {most} at the most; the limit is {limit}.",
        Shows.STILL_COOLING: f"Not yet at {to} after {most} at the most; the limit is {limit}.",
        Shows.NOT_SHOWN: f"{to} {took} {least} to {most}, the readings do not show which; the limit is {limit}.",
    }[shows]


def _not_known(readings: tuple[TimedReading, ...], begun: int) -> tuple[Text, ...]:
    cooling = readings[begun:]
    rises = [
        message(
            "why the food was warmer at {later} min than at {earlier} min",
            later=f"{after.minutes:g}",
            earlier=f"{before.minutes:g}",
        )
        for before, after in pairwise(cooling)
        if after.celsius > before.celsius
    ]
    return (_NOT_KNOWN, *rises)
