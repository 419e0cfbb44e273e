"""The degrees Celsius that stand beside a local code's limit in Fahrenheit, and the readings of a log judged by them.

A code that says 135 °F says 57 °C beside it (FDA Food Code 2022, section 3-501.14: 57 °C, 21 °C and 5 °C), though
135 °F is 57.222 °C. A thermometer in Celsius that shows the code's own figure shows the limit, and so does one that
shows anything between the two, as in `reading_units.admits`: a hotter start is never less.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.recipe_math.estimates import TimedReading
from trainer.recipe_math.figures import rounded_half_up


def metric_figure(limit: float) -> int:
    """Return the whole degrees Celsius of a limit (in celsius), as a code prints them beside degrees Fahrenheit.

    >>> [metric_figure((fahrenheit - 32) / 1.8) for fahrenheit in (135, 70, 41)]
    [57, 21, 5]
    """
    return rounded_half_up(Fraction(limit))


def read_by_the_code(readings: Iterable[TimedReading], limits: Sequence[float]) -> tuple[TimedReading, ...]:
    """Return the readings of a log, each in Celsius between a limit and its metric figure at that limit (in celsius).

    >>> log = [Reading(0, 57.1, is_celsius=True), Reading(9, 56, is_celsius=True)]
    >>> [round(reading.celsius, 2) for reading in read_by_the_code(log, [57.22])]
    [57.22, 56]
    """
    return tuple(replace(reading, celsius=_celsius_of(reading, limits)) for reading in readings)


def _celsius_of(reading: TimedReading, limits: Sequence[float]) -> float:
    if not reading.is_celsius:
        return reading.celsius
    return next((limit for limit in limits if _is_at(limit, reading.celsius)), reading.celsius)


def _is_at(limit: float, celsius: float) -> bool:
    """Return whether a temperature is a limit, its metric figure, or between the two."""
    low, high = sorted((limit, metric_figure(limit)))
    return low <= celsius <= high
