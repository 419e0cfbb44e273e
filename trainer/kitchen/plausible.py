"""What a probe, a scale, a watch or a ruler can show in a kitchen, by the kind of line a reading is held to.

A reading outside is not refused: it is asked back before it is judged, and counts once a person says that it was so.
Every range is common practice of the house, wide enough for food that fails its line, and narrow enough that a number
in the other unit falls outside where the two can be told apart at all: 72 typed as °F beside hot cream was 72 °C.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from trainer.kitchen.technique import Limit
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import unit

TIMES = 5
"""A weight, a volume or a length is within a fifth and five times its line: the units of the two systems lie further
apart (oz and g by 28, lb and oz by 16, in and mm by 25)."""
MOST_PPM = 1000


@dataclass(frozen=True, slots=True)
class PlausibleRange:
    """The lowest and the highest reading a kitchen could show at one line; both ends are inside."""

    lowest: Quantity
    highest: Quantity

    def holds(self, value: Quantity) -> bool:
        """Return whether a reading may be judged as it is."""
        return self.lowest <= value <= self.highest


def plausible_range(limit: Limit) -> PlausibleRange | None:
    """Return what can be shown at a line; None where nothing is known of its kind.

    >>> from trainer.recipe_math.parsing import parse_quantity
    >>> cream = Limit("cream", parse_quantity("155 F"), None, None, "food_code_2022")
    >>> found = plausible_range(cream)
    >>> str(found.lowest), found.holds(parse_quantity("72 F")), found.holds(parse_quantity("72 °C"))
    ('100 °F', False, True)
    """
    ends = [end for end in (limit.lowest, limit.highest, limit.target) if end is not None]
    if not ends:
        return None
    dimension = ends[0].unit.dimension
    if dimension == "temperature":
        return _by_steps(_TEMPERATURES, sum((end.base for end in ends), Fraction(0)) / len(ends))
    if dimension == "duration":
        return _by_steps(_DURATIONS, max(end.base for end in ends))
    if dimension == "share":
        return _between(0, 100, "%") if ends[0].unit.symbol == "%" else _between(0, MOST_PPM, "ppm")
    if dimension in ("mass", "volume", "length"):
        return _around(limit, ends)
    return None


def _around(limit: Limit, ends: list[Quantity]) -> PlausibleRange:
    """Return a fifth of the least end to five times the greatest; a gap that has only a most may be closed."""
    least, most = min(ends), max(ends)
    may_be_nothing = least.unit.dimension == "length" and limit.lowest is None
    return PlausibleRange(least * 0 if may_be_nothing else least / TIMES, most * TIMES)


def _between(low: Fraction | int | str, high: Fraction | int | str, symbol: str) -> PlausibleRange:
    return PlausibleRange(Quantity(Fraction(low), unit(symbol)), Quantity(Fraction(high), unit(symbol)))


def _by_steps(steps: tuple[tuple[int, PlausibleRange], ...], value: Fraction) -> PlausibleRange:
    """Return the range of the first kind that a line still belongs to; the last kind takes every other."""
    return next((found for most, found in steps if value <= most), steps[-1][1])


_TEMPERATURES = (
    (-7, _between(-40, 60, "°F")),  # frozen food, down to a blast freezer
    (12, _between(23, 88, "°F")),  # cold food, ice water: from frozen at the edge to a pan left out on a hot day
    (34, _between(32, 140, "°F")),  # the room, dough, water to wash in
    (104, _between(100, 212, "°F")),  # hot food, custards, meat: nothing with water in it is hotter than boiling
    (204, _between(140, 400, "°F")),  # fat
    (538, _between(200, 900, "°F")),  # a bar, a stone: read with a surface thermometer
)
"""By the middle of the line in °C, within what the instrument shows."""
_DURATIONS = (
    (119, _between("0.5", 900, "s")),  # a stopwatch: washing hands, stopping a machine
    (3599, _between(10, 14_400, "s")),  # a kitchen timer
    (43_200, _between(5, 1440, "min")),  # times on a label: cooling, holding
    (604_800, _between(1, 744, "h")),  # days on a label
)
"""By the longest end of the line in seconds."""
