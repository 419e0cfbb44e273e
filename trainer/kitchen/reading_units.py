"""In which units a reading may be keyed in, which of them a reader is told beside the line, and the line in each."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from trainer.kitchen.technique import Limit
from trainer.recipe_math.figures import is_short_decimal
from trainer.recipe_math.quantity import Quantity, Unit
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS, unit

System = Literal["us", "metric"]
SYMBOLS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "temperature": ("°F", "°C"),
        "mass": ("lb", "oz", "kg", "g"),
        "volume": ("qt", "cup", "fl oz", "L", "mL"),
        "length": ("in", "cm", "mm"),
        "duration": ("h", "min", "s"),
        "share": ("ppm", "%"),
    }
)
"""The units an instrument of a kitchen shows, by what it measures; the larger before the smaller."""
POUND, KILOGRAM, LITRE, TEN_CENTIMETRES, HALF_HOUR, MINUTE = 453, 1000, 1000, 100, 1800, 60


def line_end(limit: Limit) -> Quantity | None:
    """Return one value of a line, for its unit and its size: the target, else the highest, else the lowest."""
    return next((end for end in (limit.target, limit.highest, limit.lowest) if end is not None), None)


def system_of(found: Unit) -> System:
    """Return the system of measures a unit belongs to."""
    return "metric" if found.system == "metric" else "us"


def reading_units(limit: Limit, system: System) -> tuple[str, ...]:
    """Return the units a reading may be keyed in, the one told beside the line first: the reader's own.

    The line's own unit where it is of the reader's system, else the one its size is told in; then the smaller one that
    goes with it, and the other system's. Times, and shares of a liquid, read the same in both systems.

    >>> from trainer.recipe_math.parsing import parse_quantity
    >>> cold = Limit("cold", None, parse_quantity("41 F"), None, "food_code_2022")
    >>> reading_units(cold, "us"), reading_units(cold, "metric")
    (('°F', '°C'), ('°C', '°F'))
    """
    end = line_end(limit)
    if end is None:
        return ()
    dimension, own = end.unit.dimension, end.unit.symbol
    if dimension == "duration":
        return _times(end)
    if dimension not in _BY_SYSTEM:
        return (own,)
    other: System = "us" if system == "metric" else "metric"
    keys = [*_in_system(end, system), *_in_system(end, other)]
    return tuple(dict.fromkeys(keys))


def _times(end: Quantity) -> tuple[str, ...]:
    """Return the line's own unit of time and those beside it that a person may have timed in."""
    own = end.unit.symbol if end.unit.symbol in SYMBOLS["duration"] else "h"
    beside = {"s": ("min",), "min": ("s",) if end.base < HALF_HOUR else ("h", "s"), "h": ("min",)}
    return (own, *beside[own])


def _in_system(end: Quantity, system: System) -> tuple[str, ...]:
    """Return the units of one system for an amount of this size; the line's own first where it is of this system."""
    found = next(symbols for least, symbols in _BY_SYSTEM[end.unit.dimension][system] if end.base >= least)
    own = end.unit.symbol
    if system_of(end.unit) != system or own in found[:1]:
        return found
    return (own, *(symbol for symbol in found if symbol != own))


_BY_SYSTEM: Mapping[str, Mapping[System, tuple[tuple[int, tuple[str, ...]], ...]]] = MappingProxyType(
    {
        "temperature": {"us": ((-300, ("°F",)),), "metric": ((-300, ("°C",)),)},
        "mass": {
            "us": ((POUND, ("lb", "oz")), (0, ("oz",))),
            "metric": ((KILOGRAM, ("kg", "g")), (0, ("g",))),
        },
        "volume": {"us": ((0, ("fl oz",)),), "metric": ((LITRE, ("L", "mL")), (0, ("mL",)))},
        "length": {"us": ((0, ("in",)),), "metric": ((TEN_CENTIMETRES, ("cm",)), (0, ("mm",)))},
    }
)
"""From which size on (in the base unit) a reading is keyed in which units, the one told first."""


def admits(limit: Limit, value: Quantity) -> bool:
    """Return whether a reading lies inside a line, or inside the line as its own system is told it.

    The page tells 155 °F as 68 °C, as the FDA Food Code 2022, section 3-401.11(A)(2), does; nobody whose probe shows
    68 °C is told that it should have been 68 °C.
    """
    system = system_of(value.unit)
    ends = [told_in(end, system) if end is not None else None for end in (limit.lowest, limit.highest)]
    lowest, highest = ends
    as_told = (lowest is None or value >= lowest) and (highest is None or value <= highest)
    return limit.admits(value) or as_told


def told_in(end: Quantity, system: System) -> Quantity:
    """Return an end of a line as a page tells it in one system of measures: rounded as `recipe_math.printing` rounds.

    In its own system it stays as it is wherever two decimals hold it.
    """
    own = system_of(end.unit) == system
    if own and is_short_decimal(end.amount):
        return end
    step = _step(end, system)
    return end if step is None else Quantity(to_nearest(end.to(step.unit).amount, step.amount), step.unit)


def _step(end: Quantity, system: System) -> Quantity | None:
    """Return the step an amount of this size is told in; None where it is told as it is."""
    table = _STEPS.get((end.unit.dimension, system), ())
    size = abs(end.base)
    found = next(((amount, symbol) for most, amount, symbol in table if size < most), None)
    return Quantity(Fraction(found[0]), UNITS[found[1]]) if found else None


_ENDLESS = 10**9
_STEPS: Mapping[tuple[str, System], tuple[tuple[int, str, str], ...]] = MappingProxyType(
    {
        ("temperature", "us"): ((_ENDLESS, "1", "°F"),),
        ("temperature", "metric"): ((_ENDLESS, "1", "°C"),),
        ("mass", "us"): ((int(2 * unit("oz").factor), "1/100", "oz"), (_ENDLESS, "1/4", "oz")),
        ("mass", "metric"): (
            (1, "1/100", "g"),
            (10, "1/10", "g"),
            (10_000, "1", "g"),
            (_ENDLESS, "10", "g"),
        ),
        ("volume", "metric"): ((1, "1/100", "mL"), (10, "1/10", "mL"), (10_000, "1", "mL"), (_ENDLESS, "10", "mL")),
        ("length", "us"): ((_ENDLESS, "1/16", "in"),),
        ("length", "metric"): ((10, "1/10", "mm"), (_ENDLESS, "1", "mm")),
    }
)
"""The steps of the table at the head of `recipe_math.printing`, by size in the base unit."""
