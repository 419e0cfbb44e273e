"""Food that cools: how long to each gate by Newton's law of cooling: an estimate, in floats.

A gate is a limit of a code: from one temperature to another within a time. Gates are passed in, since codes differ and
change: the FDA Food Code 2022, section 3-501.14(A), has two, which are judged apart: 135 to 70 °F within 2 hours, and
135 to 41 °F within 6 hours in all. Food that reaches 41 °F in time still misses the first gate if 70 °F came late.
Food made from things at ambient temperature has one, section 3-501.14(B): to 41 °F within 4 hours.

Caution: nothing here says that food is safe. A forecast is no reading; measure the thickest part with a thin probe.
What a missed gate means for the food is for the local code and the person in charge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log

from trainer.messages import Text, message
from trainer.recipe_math.estimates import (
    METRIC,
    TimedReading,
    Writing,
    a_temperature,
    above_zero,
    degrees,
    finite,
    hours_text,
    in_order,
)
from trainer.recipe_math.quantity import QuantityProblem

SLACK_MINUTES = 1e-6
"""Two estimates this near are one: a forecast of exactly 2 hours is within 2 hours."""
_NOT_KNOWN_OF_A_FORECAST = (
    message("whether the surroundings stay at one temperature: a full or opened refrigerator warms"),
    message("the middle of the food, which cools later than where the probe was, unless it is stirred"),
    message("what changes on the way: a lid, another pan, ice, a new place"),
)


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
        above_zero(self.within_minutes, "a time limit in minutes")
        a_temperature(self.to_celsius)
        if self.from_celsius is not None and self.to_celsius >= a_temperature(self.from_celsius):
            raise QuantityProblem(f"A gate leads down: {degrees(self.from_celsius)} to {degrees(self.to_celsius)}.")


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
        if finite(minutes, "a time in minutes") < self.first_minutes:
            raise QuantityProblem(f"{minutes:g} min is before the first reading: the curve begins there.")
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


@dataclass(frozen=True, slots=True)
class Forecast:
    """How long one gate is expected to take (None: never), whether that is within its limit, why, what is not known."""

    gate: Gate
    minutes: float | None
    within_limit: bool
    reason: str
    not_known: tuple[Text, ...]


def start_text(gate: Gate, writing: Writing = METRIC) -> str:
    """Return where the clock of a gate begins, in words.

    >>> start_text(Gate(60, 5, 360, "a local code")), start_text(Gate(None, 5, 240, "a local code"))
    ('60 °C (140 °F)', 'when it is made')
    """
    return "when it is made" if gate.from_celsius is None else writing.degrees(gate.from_celsius)


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


def reaches_gate_after(fit: NewtonFit, gate: Gate) -> float | None:
    """Return how many minutes the food takes from the first temperature of a gate to its last; None for never.

    Never where the surroundings are no colder than the gate. The food must be cooling (QuantityProblem).

    >>> food = fitted([TimedReading(0, 80), TimedReading(10, 50)], surroundings_celsius=5)
    >>> round(reaches_gate_after(food, Gate(60, 10, 120, "a local code")))
    47
    """
    if fit.first_gap_celsius < 0:
        raise QuantityProblem("The food is warming toward its surroundings: it passes no gate of cooling.")
    begins = fit.first_minutes if gate.from_celsius is None else fit.minutes_until(gate.from_celsius)
    ends = fit.minutes_until(gate.to_celsius)
    return None if begins is None or ends is None else ends - begins


def forecasts(fit: NewtonFit, gates: Sequence[Gate], writing: Writing = METRIC) -> tuple[Forecast, ...]:
    """Return a forecast for each gate, judged apart: within one says nothing about another. Errors as above.

    >>> two = (Gate(57.2, 21.1, 120, "stage one"), Gate(57.2, 5, 360, "in all"))
    >>> food = fitted([TimedReading(0, 57.2), TimedReading(120, 21.1)], surroundings_celsius=3.3)
    >>> [forecast.within_limit for forecast in forecasts(food, two)]
    [True, False]
    """
    return tuple(_forecast(fit, gate, writing) for gate in gates)


def _forecast(fit: NewtonFit, gate: Gate, writing: Writing) -> Forecast:
    minutes = reaches_gate_after(fit, gate)
    miss = writing.apart(fit.largest_miss_celsius)
    known = f"worked out from {fit.readings} readings, the worst {miss} off the curve"
    not_known = (known, *_NOT_KNOWN_OF_A_FORECAST)
    to = writing.degrees(gate.to_celsius)
    if minutes is None:
        around = writing.degrees(fit.surroundings_celsius)
        return Forecast(gate, None, False, f"In surroundings of {around} it never reaches {to}.", not_known)
    within = minutes <= gate.within_minutes + SLACK_MINUTES
    limit = hours_text(gate.within_minutes)
    compared = "within" if within else "over"
    return Forecast(gate, minutes, within, f"{to} after {hours_text(minutes)}: {compared} {limit}.", not_known)


def _line(across: Sequence[float], up: Sequence[float]) -> tuple[float, float]:
    """Return level and slope of the line of least squares."""
    count = len(across)
    middle, height = sum(across) / count, sum(up) / count
    spread = sum((x - middle) ** 2 for x in across)
    slope = sum((x - middle) * (y - height) for x, y in zip(across, up, strict=True)) / spread
    return height - slope * middle, slope
