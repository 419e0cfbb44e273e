"""Heat that kills: D and z, the log reduction they give, and a published table looked up: an estimate, in floats.

D is the time that kills 90 percent at one temperature; z is by how many celsius D falls to a tenth. Both belong to one
organism in one food, as measured: sugar, salt and dry surfaces can make D ten times longer.

Caution: nothing here says that food is safe. Cooking times and temperatures come from the local code, not from these
functions; a kitchen that wants to cook by D and z needs a licensed process authority and an approved plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import expm1, log, log10

from trainer.recipe_math.estimates import Reading, a_temperature, above_zero, finite, in_order
from trainer.recipe_math.quantity import QuantityProblem

MOST_TENFOLDS = 300
_NOT_KNOWN = (
    "the time to come up to temperature, and any lag before the kill begins",
    "the coldest place in the food",
    "whether this organism in this food is as heat resistant as the one measured",
)


@dataclass(frozen=True, slots=True)
class HeatResistance:
    """D in minutes at a temperature and z in celsius, of one organism in one food, and who measured it."""

    d_minutes: float
    at_celsius: float
    z_celsius: float
    source: str

    def __post_init__(self) -> None:
        """Refuse a D or z that is not above zero."""
        above_zero(self.d_minutes, "a D in minutes")
        above_zero(self.z_celsius, "a z in celsius")
        a_temperature(self.at_celsius)

    def d_at(self, celsius: float) -> float:
        """Return D in minutes at another temperature: a tenth for every z warmer.

        The line holds near where it was measured; far from there it is a guess, and out of all reach it is refused
        (QuantityProblem).

        >>> HeatResistance(4.0, 60, 5, "an example").d_at(65)
        0.4
        """
        return self.d_minutes * _tenfolds((self.at_celsius - a_temperature(celsius)) / self.z_celsius)


@dataclass(frozen=True, slots=True)
class Reduction:
    """By how many powers of ten the count falls, the D it was worked out with, and what is not known."""

    logs: float
    d_minutes: float
    not_known: tuple[str, ...]

    @property
    def share_left(self) -> float:
        """Return the share that is left: 0.1 after one log."""
        return float(10.0**-self.logs)


@dataclass(frozen=True, slots=True)
class TimeTable:
    """A published table of seconds by whole Fahrenheit, coolest first: its name, where it is read, what it covers."""

    name: str
    source: str
    covers: str
    rows: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class LookedUp:
    """The seconds and the row they are printed in (None: no row is so cool), why that row, and what is not known."""

    seconds: int | None
    row_fahrenheit: int | None
    reason: str
    not_known: tuple[str, ...]


def log_reduction(resistance: HeatResistance, minutes: float, celsius: float) -> Reduction:
    """Return the log reduction of a time at one temperature: minutes over D there.

    No come-up, no cooling down, no lag. Zero minutes or more (QuantityProblem). Source of the rule: OpenStax
    Microbiology, section 13.1 (D), and D x 10^((T ref - T) / z).

    >>> round(log_reduction(HeatResistance(3, 65, 5, "an example"), minutes=15, celsius=65).logs, 6)
    5.0
    """
    if finite(minutes, "a time in minutes") < 0:
        raise QuantityProblem(f"{minutes} min is not a time: it must be zero or more.")
    d_minutes = resistance.d_at(celsius)
    return Reduction(minutes / d_minutes, d_minutes, _NOT_KNOWN)


def minutes_for(resistance: HeatResistance, logs: float, celsius: float) -> float:
    """Return the minutes at one temperature that give so many logs: logs x D there. Above zero (QuantityProblem).

    >>> minutes_for(HeatResistance(3, 65, 5, "an example"), logs=5, celsius=65)
    15.0
    """
    return above_zero(logs, "a number of logs") * resistance.d_at(celsius)


def survivors(count: float, logs: float) -> float:
    """Return how many of a count are left on average after so many logs; below one, it is the odds that one is left.

    Count above zero, logs zero or more (QuantityProblem).

    >>> survivors(1_000_000, 5)
    10.0
    """
    if finite(logs, "a number of logs") < 0:
        raise QuantityProblem(f"{logs} logs is not a reduction: it must be zero or more.")
    return above_zero(count, "a count") * _tenfolds(-logs)


def fitted_resistance(measured: Sequence[tuple[float, float]], at_celsius: float, source: str) -> HeatResistance:
    """Return D at a temperature, and z, from measured pairs of (celsius, D in minutes).

    Through two it goes exactly; through more, by least squares on log10 of D. At least two, not all at one temperature,
    and D falling as it gets warmer (QuantityProblem).

    >>> round(fitted_resistance([(60, 0.28), (62.2, 0.087)], 60, "Schuman and Sheldon (1997)").z_celsius, 2)
    4.33
    """
    if len({celsius for celsius, _ in measured}) < 2:
        raise QuantityProblem("z needs D at two temperatures at least.")
    logs = [log10(above_zero(d_minutes, "a D in minutes")) for _, d_minutes in measured]
    warmth = [a_temperature(celsius) for celsius, _ in measured]
    middle, height = sum(warmth) / len(warmth), sum(logs) / len(logs)
    spread = sum((celsius - middle) ** 2 for celsius in warmth)
    slope = sum((c - middle) * (d - height) for c, d in zip(warmth, logs, strict=True)) / spread
    if slope >= 0:
        raise QuantityProblem("D does not fall as it gets warmer: no z follows from these.")
    return HeatResistance(_tenfolds(height + slope * (at_celsius - middle)), at_celsius, -1 / slope, source)


def equivalent_minutes(profile: Sequence[Reading], at_celsius: float, z_celsius: float) -> float:
    """Return how many minutes at one temperature kill as much as a run of readings, straight between one and the next.

    The sum of 10^((T - T ref) / z) over time. At least two readings, in order (QuantityProblem). What happened between
    the readings is not known; warming up fast and cooling slowly both bend the line.

    >>> round(equivalent_minutes([Reading(0, 50), Reading(10, 65)], at_celsius=60, z_celsius=50 / 9), 3)
    12.751
    """
    above_zero(z_celsius, "a z in celsius")
    ordered = in_order(profile, at_least=2)
    return sum(_stretch(before, after, a_temperature(at_celsius), z_celsius) for before, after in pairwise(ordered))


def looked_up(table: TimeTable, fahrenheit: float) -> LookedUp:
    """Return the seconds a published table prints for a temperature: the row at it, or the next cooler one.

    Never worked out between rows or beyond them: a temperature below the first row has no time (None), one above the
    last takes the last. Zero seconds means on reaching it.

    >>> looked_up(ROAST_7_LOG, 136.9).seconds
    1920
    """
    finite(fahrenheit, "a temperature in Fahrenheit")
    not_known = ("the coldest place in the food", f"food the table does not cover: it is for {table.covers}")
    rows = [row for row in table.rows if row[0] <= fahrenheit]
    if not rows:
        return LookedUp(None, None, f"{table.name} begins at {table.rows[0][0]} °F: there is no time below.", not_known)
    row, seconds = rows[-1]
    return LookedUp(seconds, row, f"{table.name}, row {row} °F; {table.source}.", not_known)


def _stretch(before: Reading, after: Reading, at_celsius: float, z_celsius: float) -> float:
    """Return the equivalent minutes of one straight stretch, in closed form."""
    begins = (after.minutes - before.minutes) * _tenfolds((before.celsius - at_celsius) / z_celsius)
    rise = log(10) * (after.celsius - before.celsius) / z_celsius
    _tenfolds(rise / log(10))
    return begins if rise == 0 else begins * expm1(rise) / rise


def _tenfolds(power: float) -> float:
    if abs(power) > MOST_TENFOLDS:
        raise QuantityProblem(f"10 to the {power:.0f} is out of all reach: the temperatures lie too far apart.")
    return float(10.0**power)


_FSIS = "FSIS Compliance Guidelines, Appendix A (1999, 64 FR 732); later editions and the local code may differ"
_ROASTS = "cooked beef, roast beef and cooked corned beef in whole pieces, not for poultry or ground meat"
_FROM_130 = (
    (130, 6720, 7260), (131, 5340, 5820), (132, 4260, 4620), (133, 3360, 3720), (134, 2700, 2820), (135, 2160, 2220),
    (136, 1680, 1920), (137, 1380, 1440), (138, 1080, 1140), (139, 900, 900), (140, 720, 720), (141, 540, 600),
    (142, 480, 480), (143, 360, 360), (144, 300, 300), (145, 240, 240), (146, 169, 182), (147, 134, 144),
    (148, 107, 115), (149, 85, 91), (150, 67, 72), (151, 54, 58), (152, 43, 46), (153, 34, 37), (154, 27, 29),
    (155, 22, 23), (156, 17, 19), (157, 14, 15), (158, 0, 0), (159, 0, 0), (160, 0, 0),
)  # fmt: skip
ROAST_65_LOG = TimeTable("6.5 log Salmonella", _FSIS, _ROASTS, tuple((row[0], row[1]) for row in _FROM_130))
"""The column for 6.5 logs; it follows D and z within its rounding."""
ROAST_7_LOG = TimeTable("7 log Salmonella", _FSIS, _ROASTS, tuple((row[0], row[2]) for row in _FROM_130))
"""The column for 7 logs; it is not 7/6.5 times the other, so it is looked up and never worked out."""
