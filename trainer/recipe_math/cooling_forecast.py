"""What is to be expected of each gate while food cools: a window of time, never one moment: an estimate, in floats.

Caution: nothing here says that food is safe. Food is expected in time only where the latest moment is in time too; what
the window does not settle is left open, and is to be acted on as if it were late.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from trainer.messages import Text, message
from trainer.recipe_math.cooling import Gate
from trainer.recipe_math.cooling_window import CoolingPan, Window, window
from trainer.recipe_math.estimates import TimedReading, in_order

SLACK_MINUTES = 1e-6
"""Two estimates this near are one: a forecast of exactly 2 hours is within 2 hours."""
_NOT_KNOWN = (
    message("whether the surroundings stay at one temperature: a full or opened refrigerator warms"),
    message("the middle of the food, which cools later than where the probe was, unless it is stirred"),
    message("what changes on the way: a lid, another pan, ice, a new place"),
)


class Expected(StrEnum):
    """What the window leads to expect of a gate."""

    IN_TIME = "in time"
    LATE = "late"
    OPEN = "open"
    NEVER = "never"


@dataclass(frozen=True, slots=True)
class Forecast:
    """When a gate is passed, at the earliest and latest, on the clock of the readings and as minutes in all.

    None where an end cannot be said; `NEVER` where it is no colder around the food than the gate asks.
    """

    gate: Gate
    at: Window
    in_all: Window
    expected: Expected
    not_known: tuple[Text, ...] = _NOT_KNOWN


def forecasts(
    readings: Sequence[TimedReading], around_celsius: float, gates: Sequence[Gate], pan: CoolingPan
) -> tuple[Forecast, ...]:
    """Return a forecast for each gate, judged apart: within one says nothing about another.

    At least two readings of food that cools, in order of time (QuantityProblem).

    >>> two = (Gate(57.2, 21.1, 120, "stage one"), Gate(57.2, 5, 360, "in all"))
    >>> log = [TimedReading(0, 58), TimedReading(20, 35)]
    >>> [str(found.expected) for found in forecasts(log, 0, two, CoolingPan(50, is_open=False))]
    ['in time', 'in time']
    """
    ordered = in_order(readings, at_least=2)
    return tuple(_forecast(ordered, around_celsius, gate, pan) for gate in gates)


def _forecast(readings: Sequence[TimedReading], around: float, gate: Gate, pan: CoolingPan) -> Forecast:
    at = window(readings, around, gate.to_celsius, pan)
    if gate.to_celsius <= around:
        return Forecast(gate, at, at, Expected.NEVER)
    begun = _begun(readings, around, gate, pan)
    in_all = Window(_apart(at.earliest, begun.latest), _apart(at.latest, begun.earliest))
    return Forecast(gate, at, in_all, _expected(in_all, gate.within_minutes + SLACK_MINUTES))


def _begun(readings: Sequence[TimedReading], around: float, gate: Gate, pan: CoolingPan) -> Window:
    """Return when the clock of a gate began: between two readings, or still to come."""
    if gate.from_celsius is None:
        return Window(readings[0].minutes, readings[0].minutes)
    start = gate.from_celsius
    below = next((at for at, reading in enumerate(readings) if reading.celsius < start), None)
    if below is None:
        return window(readings, around, start, pan)
    before = readings[max(0, below - 1)]
    if before.celsius == start:
        return Window(before.minutes, before.minutes)
    return Window(before.minutes, readings[below].minutes)


def _apart(end: float | None, begin: float | None) -> float | None:
    return None if end is None or begin is None else max(0.0, end - begin)


def _expected(in_all: Window, limit: float) -> Expected:
    if in_all.earliest is not None and in_all.earliest > limit:
        return Expected.LATE
    return Expected.IN_TIME if in_all.latest is not None and in_all.latest <= limit else Expected.OPEN
