"""Food that cools: how long to each gate by Newton's law of cooling: an estimate, in floats.

A gate is a limit of a code: from one temperature to another within a time. Gates are passed in, since codes differ and
change: the FDA Food Code 2022, section 3-501.14(A), has two, which are judged apart: 135 to 70 °F within 2 hours, and
135 to 41 °F within 6 hours in all. Food that reaches 41 °F in time still misses the first gate if 70 °F came late.
Food made from things at ambient temperature has one, section 3-501.14(B): to 41 °F within 4 hours.

Real food does not keep to the one curve: what is to be expected is a window of time, in `cooling_forecast`.

Caution: nothing here says that food is safe. A curve is no reading; measure the thickest part with a thin probe.
What a missed gate means for the food is for the local code and the person in charge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log

from trainer.messages import message
from trainer.recipe_math.estimates import (
    METRIC,
    TimedReading,
    Writing,
    a_temperature,
    above_zero,
    degrees,
    finite,
    in_order,
)
from trainer.recipe_math.quantity import QuantityProblem


@dataclass(frozen=True, slots=True)
class Gate:
    """A limit for cooling: from celsius to celsius within minutes, and the edition and section it is read in.

    From None the clock begins when the food is made, which is the first reading.
    """

    from_celsius: float | None
    to_celsius: float
    within_minutes: float
    source: str

    def __post_init__(self) -> None:
        """Refuse a gate that leads upward or leaves no time."""
        above_zero(self.within_minutes, message("a time limit in minutes"))
        a_temperature(self.to_celsius)
        if self.from_celsius is not None and self.to_celsius >= a_temperature(self.from_celsius):
            raise QuantityProblem(
                message(
                    "A gate leads down: {from_celsius} to {to_celsius}.",
                    from_celsius=degrees(self.from_celsius),
                    to_celsius=degrees(self.to_celsius),
                )
            )


@dataclass(frozen=True, slots=True)
class NewtonFit:
    """A curve toward the surroundings: the gap to them shrinks by the same share each minute.

    `largest_miss_celsius` is how far the worst reading lies from the curve; with two readings it is nothing, and shows
    nothing.
    """

    surroundings_celsius: float
    first_minutes: float
    first_gap_celsius: float
    rate_per_minute: float
    largest_miss_celsius: float
    readings: int

    def celsius_at(self, minutes: float) -> float:
        """Return the temperature at a time on the clock of the readings, from the first reading on (QuantityProblem).

        >>> round(fitted([TimedReading(0, 80), TimedReading(10, 50)], surroundings_celsius=20).celsius_at(20), 6)
        35.0
        """
        if finite(minutes, message("a time in minutes")) < self.first_minutes:
            raise QuantityProblem(
                message("{minutes} min is before the first reading: the curve begins there.", minutes=f"{minutes:g}")
            )
        return self.surroundings_celsius + self.first_gap_celsius * exp(
            -self.rate_per_minute * (minutes - self.first_minutes)
        )

    def minutes_until(self, celsius: float) -> float | None:
        """Return when a temperature is met, on the clock of the readings; None where the curve never gets there.

        The surroundings themselves are never reached. Before the first reading it is worked back.

        >>> round(fitted([TimedReading(0, 80), TimedReading(10, 50)], surroundings_celsius=20).minutes_until(35), 6)
        20.0
        """
        share = (a_temperature(celsius) - self.surroundings_celsius) / self.first_gap_celsius
        return None if share <= 0 else self.first_minutes - log(share) / self.rate_per_minute


def start_text(gate: Gate, writing: Writing = METRIC) -> str:
    """Return where the clock of a gate begins, in words.

    >>> start_text(Gate(60, 5, 360, "a local code")), start_text(Gate(None, 5, 240, "a local code"))
    ('60 °C (140 °F)', 'when it is made')
    """
    return "when it is made" if gate.from_celsius is None else writing.limit(gate.from_celsius)


def fitted(readings: Sequence[TimedReading], surroundings_celsius: float, writing: Writing = METRIC) -> NewtonFit:
    """Return the curve of Newton's law of cooling through two or more readings, for steady surroundings.

    Through two it goes exactly; through more, by least squares on the logarithm of the gap. Works for warming too. At
    least two readings, in order of time, all on one side of the surroundings and moving toward them (QuantityProblem).
    Source: OpenStax College Algebra 2e, section 6.7. It suits thin or stirred food; a deep pan follows it late.

    >>> round(fitted([TimedReading(0, 80), TimedReading(10, 50)], surroundings_celsius=20).rate_per_minute, 4)
    0.0693
    """
    ordered = in_order(readings, at_least=2)
    gaps = [reading.celsius - a_temperature(surroundings_celsius) for reading in ordered]
    if min(gaps) <= 0 <= max(gaps):
        around = writing.degrees(surroundings_celsius)
        raise QuantityProblem(
            message(
                "The readings must all be above, or all below, the surroundings at {temperature}.", temperature=around
            )
        )
    start = ordered[0].minutes
    level, slope = _line([reading.minutes - start for reading in ordered], [log(abs(gap)) for gap in gaps])
    if slope >= 0:
        raise QuantityProblem(message("The readings do not move toward the surroundings: no time follows from them."))
    first_gap = exp(level) if gaps[0] > 0 else -exp(level)
    fit = NewtonFit(surroundings_celsius, start, first_gap, -slope, 0.0, len(ordered))
    miss = max(abs(fit.celsius_at(reading.minutes) - reading.celsius) for reading in ordered)
    return NewtonFit(surroundings_celsius, start, first_gap, -slope, miss, len(ordered))


def _line(across: Sequence[float], up: Sequence[float]) -> tuple[float, float]:
    """Return level and slope of the line of least squares."""
    count = len(across)
    middle, height = sum(across) / count, sum(up) / count
    spread = sum((x - middle) ** 2 for x in across)
    slope = sum((x - middle) * (y - height) for x, y in zip(across, up, strict=True)) / spread
    return height - slope * middle, slope
