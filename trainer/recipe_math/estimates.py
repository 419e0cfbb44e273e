"""What the estimates of heat and time share: checked plain numbers, readings, and how they are written.

What works with these is an estimate, in floats: temperatures in celsius, times in minutes, weights in grams.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import isfinite
from typing import Literal

from trainer.messages import Text, joined, message
from trainer.recipe_math.figures import number_text, rounded_half_up
from trainer.recipe_math.printing import written
from trainer.recipe_math.quantity import Quantity, QuantityProblem

ABSOLUTE_ZERO_CELSIUS = -273.15


@dataclass(frozen=True, slots=True)
class TimedReading:
    """One look at a thermometer: minutes on a clock that starts anywhere, and what it showed in celsius.

    `is_celsius` is whether it showed degrees Celsius, and was not worked out from Fahrenheit.
    """

    minutes: float
    celsius: float
    is_celsius: bool = False

    def __post_init__(self) -> None:
        """Refuse what no clock or thermometer shows."""
        finite(self.minutes, message("a time in minutes"))
        a_temperature(self.celsius)


def in_celsius(temperature: Quantity) -> float:
    """Return a temperature as a plain number of celsius; WrongDimension for anything else.

    >>> in_celsius(Quantity.of(212, "°F"))
    100.0
    """
    return float(temperature.to("°C").amount)


def in_minutes(duration: Quantity) -> float:
    """Return a duration as a plain number of minutes; WrongDimension for anything else.

    >>> in_minutes(Quantity.of(2, "h"))
    120.0
    """
    return float(duration.to("min").amount)


def finite(value: float, what: Text) -> float:
    """Return the number; NaN and infinity are refused (QuantityProblem names *what* was meant).

    >>> finite(20, "a weight")
    20
    """
    if not isfinite(value):
        raise QuantityProblem(message("{value} is not {what}: give a number.", value=f"{value:g}", what=what))
    return value


def above_zero(value: float, what: Text) -> float:
    """Return the number where it is finite and above zero; otherwise QuantityProblem.

    >>> above_zero(20, "a weight in grams")
    20
    """
    if finite(value, what) <= 0:
        raise QuantityProblem(message("{value} is not {what}: it must be above zero.", value=f"{value:g}", what=what))
    return value


def a_temperature(celsius: float) -> float:
    """Return the temperature where there can be one: above -273.15 °C; otherwise QuantityProblem.

    >>> a_temperature(-18)
    -18
    """
    if finite(celsius, message("a temperature in celsius")) <= ABSOLUTE_ZERO_CELSIUS:
        raise QuantityProblem(
            message("{celsius} °C is not a temperature: nothing is that cold.", celsius=f"{celsius:g}")
        )
    return celsius


def in_order(readings: Sequence[TimedReading], at_least: int) -> tuple[TimedReading, ...]:
    """Return the readings where there are enough, each later than the one before; otherwise QuantityProblem.

    >>> len(in_order([TimedReading(0, 60), TimedReading(30, 40)], at_least=2))
    2
    """
    if len(readings) < at_least:
        few = message(
            "{readings} readings are too few: give at least {needed}.", readings=len(readings), needed=at_least
        )
        raise QuantityProblem(few)
    for before, after in pairwise(readings):
        if after.minutes <= before.minutes:
            raise QuantityProblem(
                message(
                    "The reading at {minutes} min does not follow the one before: put in order.",
                    minutes=f"{after.minutes:g}",
                )
            )
    return tuple(readings)


@dataclass(frozen=True, slots=True)
class Writing:
    """How estimates are written for a reader: which units stand first, and the decimal mark."""

    first: Literal["us", "metric"] = "metric"
    decimal_mark: str = "."

    def degrees(self, celsius: float) -> str:
        """Return a temperature written both ways, to a tenth of a degree.

        >>> Writing("us").degrees(21.1111)
        '70 °F (21.1 °C)'
        """
        return self._both(Fraction(celsius) * 9 / 5 + 32, "°F", Fraction(celsius), "°C")

    def limit(self, celsius: float) -> str:
        """Return a limit of a code written both ways, in whole degrees, as a code prints it: 57 °C beside 135 °F.

        >>> Writing().limit(57.2222), Writing("us").limit(21.1111)
        ('57 °C (135 °F)', '70 °F (21 °C)')
        """
        return self._both(Fraction(celsius) * 9 / 5 + 32, "°F", Fraction(celsius), "°C", 0)

    def apart(self, celsius: float) -> str:
        """Return how far two temperatures lie apart, written both ways, to a tenth of a degree.

        >>> Writing().apart(2.5)
        '2.5 °C (4.5 °F)'
        """
        return self._both(Fraction(celsius) * 9 / 5, "°F", Fraction(celsius), "°C")

    def weight(self, grams: float) -> Text:
        """Return a weight written both ways, rounded as it is weighed out.

        >>> Writing("us").weight(60)
        '2 oz (60 g)'
        """
        us, metric = (written(Quantity.of(Fraction(grams), "g"), system, self.decimal_mark) for system in SYSTEMS)
        first, second = (us, metric) if self.first == "us" else (metric, us)
        return joined([first, joined(["(", second, ")"], "")])

    def _both(self, us: Fraction, us_unit: str, metric: Fraction, metric_unit: str, places: int = 1) -> str:
        sides = [
            f"{number_text(value, places, self.decimal_mark)} {unit}"
            for value, unit in ((us, us_unit), (metric, metric_unit))
        ]
        first, second = sides if self.first == "us" else reversed(sides)
        return f"{first} ({second})"


METRIC = Writing()
SYSTEMS = ("us", "metric")


def degrees(celsius: float) -> str:
    """Return a temperature written both ways, celsius first, to a tenth of a degree.

    >>> degrees(21.1111)
    '21.1 °C (70 °F)'
    """
    return METRIC.degrees(celsius)


def hours_text(minutes: float) -> str:
    """Return a time as hours and minutes, to a tenth of a minute.

    >>> hours_text(130), hours_text(45.25)
    ('2 h 10 min', '45.3 min')
    """
    tenths = Fraction(rounded_half_up(Fraction(minutes) * 10), 10)
    hours, rest = divmod(tenths, 60)
    parts = [f"{hours} h"] if hours else []
    return " ".join([*parts, f"{number_text(rest, 1)} min"] if rest or not hours else parts)
