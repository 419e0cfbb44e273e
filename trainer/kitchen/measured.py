"""One reading of a measured point: what was typed, read against the line it is held to, and kept with its unit."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.kitchen.reading import read_quantity
from trainer.kitchen.technique import Limit
from trainer.recipe_math.estimates import in_minutes
from trainer.recipe_math.quantity import Quantity, QuantityProblem, Unit
from trainer.recipe_math.refusals import Ambiguous
from trainer.recipe_math.saying import say

CLOCK_LINE_MINUTES = 15


@dataclass(frozen=True, slots=True)
class Measured:
    """One reading as it is kept, and whether it lies inside the line."""

    kept: str
    is_inside: bool


def measured(limit: Limit, text: str, decimal_mark: str | None = None) -> Measured | str:
    """Return one reading, or the rule it breaks; a reading without a unit is in the line's own."""
    own = unit_of(limit)
    if own is None:
        return say("the line {line} has no value to measure against: tick the point.", line=limit.id)
    try:
        kept = _settled(limit, own, text, decimal_mark)
        value = read_quantity(kept, own.symbol, decimal_mark).whole()
    except QuantityProblem as problem:
        return str(getattr(problem, "rule", problem))
    if value.unit.dimension != own.dimension:
        return say(
            "{unit} measures something else; this point is measured in {own}.", unit=value.unit.symbol, own=own.symbol
        )
    return Measured(_with_unit(kept, own, decimal_mark), limit.admits(value))


def unit_of(limit: Limit) -> Unit | None:
    """Return the unit a line is in; None where it has no value."""
    return next((end.unit for end in _ends(limit)), None)


def clock_unit(limit: Limit) -> str:
    """Return what the first figure of a clock such as 1:30 is for a line: ``min``, ``h``, or empty where it is asked.

    Minutes where the line ends within a quarter of an hour, hours where it is in hours. On a line of half an hour it
    is asked back: an hour and a half taken for a minute and a half would pass.
    """
    ends = _ends(limit)
    if not ends or any(end.unit.dimension != "duration" for end in ends):
        return ""
    if all(end.unit.symbol == "h" for end in ends):
        return "h"
    return "min" if all(in_minutes(end) <= CLOCK_LINE_MINUTES for end in ends) else ""


def takes_a_clock(limit: Limit) -> bool:
    """Return whether a clock is handy for a reading: on a line of less than a minute parts of a second are handier."""
    return bool(clock_unit(limit)) and any(in_minutes(end) >= 1 for end in _ends(limit))


def _ends(limit: Limit) -> tuple[Quantity, ...]:
    return tuple(end for end in (limit.target, limit.highest, limit.lowest) if end is not None)


def _settled(limit: Limit, own: Unit, text: str, decimal_mark: str | None) -> str:
    """Return the text, or the one of its two readings that the line settles: its own degrees, a clock of minutes."""
    try:
        read_quantity(text, own.symbol, decimal_mark)
    except Ambiguous as problem:
        wanted = clock_unit(limit) if own.dimension == "duration" else own.symbol
        ways = {way: read_quantity(way, own.symbol, decimal_mark).unit.symbol for way in problem.readings}
        meant = [way for way, symbol in ways.items() if symbol == wanted]
        if len(meant) != 1:
            raise
        return meant[0]
    return text


def _with_unit(text: str, own: Unit, decimal_mark: str | None) -> str:
    """Return a reading with its unit, so that the record says what was measured when the checklist has changed."""
    try:
        read_quantity(text, None, decimal_mark)
    except QuantityProblem:
        return f"{text} {own.symbol}"
    return text
