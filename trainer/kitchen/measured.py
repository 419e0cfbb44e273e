"""One reading of a measured point: what was typed, read once as a number with its unit, and held to its line."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from trainer.kitchen.plausible import plausible_range
from trainer.kitchen.reading import read_quantity
from trainer.kitchen.reading_units import SYMBOLS, admits, line_end
from trainer.kitchen.technique import Limit
from trainer.messages import Text, message
from trainer.recipe_math.estimates import in_minutes
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.quantity import Quantity, QuantityProblem, Unit
from trainer.recipe_math.refusals import Ambiguous, NotAQuantity
from trainer.recipe_math.units import UNITS

CLOCK_LINE_MINUTES = 15


@dataclass(frozen=True, slots=True)
class Typed:
    """One reading as it was keyed in: `unit` is the one the page told beside its field, empty for the line's own.

    `answered` is the reading a person said it was, after it was asked back.
    """

    text: str
    unit: str = ""
    answered: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """How much in which unit, the text as typed, and the text as the record keeps it: never without its unit."""

    number: Fraction
    unit: Unit
    typed: str
    kept: str

    @property
    def value(self) -> Quantity:
        """Return the reading as a quantity."""
        return Quantity(self.number, self.unit)


def read(limit: Limit, typed: Typed, decimal_mark: str | None = None) -> Reading | Text:
    """Return one reading, or the rule it breaks; a bare number is in the unit told beside its field.

    What is beyond physics is refused here: less than nothing, colder than anything can be.
    """
    own = unit_of(limit)
    if own is None:
        return message("the line {line} has no value to measure against: tick the point.", line=limit.id)
    told = UNITS.get(typed.unit, own) if typed.unit else own
    if told.dimension != own.dimension:
        return _another_kind(told, own)
    try:
        kept = _settled(limit, told, _with_unit(typed.text, told, decimal_mark), decimal_mark)
        value = read_quantity(kept, told.symbol, decimal_mark).whole()
    except QuantityProblem as problem:
        return problem.rule if isinstance(problem, NotAQuantity) else problem.reason
    if value.unit.dimension != own.dimension:
        return _another_kind(value.unit, own)
    return Reading(value.amount, value.unit, typed.text, kept)


def is_inside(limit: Limit, reading: Reading) -> bool:
    """Return whether a reading meets its line; both ends count as inside."""
    return admits(limit, reading.value)


def ways_to_read(limit: Limit, reading: Reading, decimal_mark: str | None = None) -> tuple[str, ...]:
    """Return what a reading that no kitchen could show may have been, as it was typed first; empty where it could.

    >>> from trainer.recipe_math.parsing import parse_quantity
    >>> cold = Limit("cold", None, parse_quantity("41 F"), None, "food_code_2022")
    >>> ways_to_read(cold, read(cold, Typed("8", "°F")))
    ('8 °F', '8 °C')
    """
    found = plausible_range(limit)
    if found is None or found.holds(reading.value):
        return ()
    symbols = SYMBOLS.get(reading.unit.dimension, ())
    others = [Quantity(reading.number, UNITS[symbol]) for symbol in symbols if symbol != reading.unit.symbol]
    mark = decimal_mark or "."
    likely = (f"{number_text(other.amount, 4, mark)} {other.unit.symbol}" for other in others if found.holds(other))
    return (reading.kept, *likely)


def unit_of(limit: Limit) -> Unit | None:
    """Return the unit a line is in; None where it has no value."""
    end = line_end(limit)
    return end.unit if end is not None else None


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


def _ends(limit: Limit) -> tuple[Quantity, ...]:
    return tuple(end for end in (limit.target, limit.highest, limit.lowest) if end is not None)


def _another_kind(found: Unit, own: Unit) -> Text:
    return message(
        "{unit} measures something else; this point is measured in {own}.", unit=found.symbol, own=own.symbol
    )


def _settled(limit: Limit, told: Unit, text: str, decimal_mark: str | None) -> str:
    """Return the text, or the one of its two readings that is settled: the degrees told, a clock of the line's own."""
    try:
        read_quantity(text, told.symbol, decimal_mark)
    except Ambiguous as problem:
        wanted = clock_unit(limit) if told.dimension == "duration" else told.symbol
        ways = {way: read_quantity(way, told.symbol, decimal_mark).unit.symbol for way in problem.readings}
        meant = [way for way, symbol in ways.items() if symbol == wanted]
        if len(meant) != 1:
            raise
        return meant[0]
    return text


def _with_unit(text: str, told: Unit, decimal_mark: str | None) -> str:
    """Return a reading with its unit, also where only its last number is bare: 4 lb 14 beside ounces."""
    if not text[-1:].isdigit():
        return text
    whole = f"{text} {told.symbol}"
    try:
        read_quantity(whole, None, decimal_mark)
    except QuantityProblem:
        return text
    return whole
