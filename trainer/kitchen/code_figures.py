"""The degrees Celsius that stand beside a local code's limit in Fahrenheit, and readings judged by them.

A code that says 135 °F says 57 °C beside it (FDA Food Code 2022, section 3-501.14: 57 °C, 21 °C and 5 °C), though
135 °F is 57.222 °C. A thermometer of whole degrees that shows the code's own figure shows the limit, and so does one of
tenths that shows 57.2.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.recipe_math.estimates import Reading
from trainer.recipe_math.figures import rounded_half_up
from trainer.recipe_math.quantity import Quantity

PLACES = (0, 1)
"""Thermometers in a kitchen show whole degrees Celsius, or tenths."""


def metric_figure(limit: Quantity) -> int:
    """Return the whole degrees Celsius of a limit of temperature, as a code prints them; WrongDimension for another.

    >>> [metric_figure(Quantity.of(limit, "°F")) for limit in (135, 70, 41)]
    [57, 21, 5]
    """
    return rounded_half_up(limit.to("°C").amount)


def as_the_code_reads(reading: Quantity, limit: Quantity) -> Quantity:
    """Return the limit where a reading in Celsius is its metric figure, whole or to the tenth; else the reading.

    So 57 °C and 57.2 °C are 135 °F, while 57.1 °C, 56 °C and 134 °F stay what they are, as does a reading or a limit
    that is no temperature.

    >>> str(as_the_code_reads(Quantity.of(57, "°C"), Quantity.of(135, "°F")))
    '135 °F'
    """
    places = celsius_places(reading)
    if places is None or limit.unit.dimension != reading.unit.dimension:
        return reading
    return limit if reading.amount == _to_places(limit.to("°C").amount, places) else reading


def celsius_places(reading: Quantity) -> int | None:
    """Return the decimal places of a reading in Celsius, none or one; None for a finer one or another unit.

    >>> [celsius_places(Quantity.of(text, "°C")) for text in ("57", "57.2", "57.22")]
    [0, 1, None]
    """
    if reading.unit.symbol != "°C":
        return None
    return next((places for places in PLACES if _to_places(reading.amount, places) == reading.amount), None)


def read_by_the_code(readings: Iterable[Reading], limits: Sequence[float]) -> tuple[Reading, ...]:
    """Return the readings of a log, each that is the metric figure of a limit (in celsius) at that limit.

    >>> log = [Reading(0, 57, 0), Reading(9, 56, 0)]
    >>> [round(reading.celsius, 2) for reading in read_by_the_code(log, [57.22])]
    [57.22, 56]
    """
    return tuple(replace(reading, celsius=_celsius_of(reading, limits)) for reading in readings)


def _celsius_of(reading: Reading, limits: Sequence[float]) -> float:
    places = reading.celsius_places
    if places is None:
        return reading.celsius
    shown = _to_places(Fraction(reading.celsius), places)
    return next((limit for limit in limits if _to_places(Fraction(limit), places) == shown), reading.celsius)


def _to_places(value: Fraction, places: int) -> Fraction:
    return Fraction(rounded_half_up(value * 10**places), 10**places)
