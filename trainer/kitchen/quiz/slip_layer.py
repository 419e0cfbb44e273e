"""Slips that any sum may show: a unit, a decimal point or a clock read wrongly, the sum itself being right.

Each slip is known by the numbers it would give. One that lies within two tolerances of the key, or of what a wrong
method of the family gives, is no slip here: it could not be told from it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from trainer.kitchen.quiz.question import Answer, Question
from trainer.recipe_math.quantity import Quantity, Unit
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS

POINT, UNIT, SHARE, CLOCK, POUNDS_AND_OUNCES = "slip_point", "slip_unit", "slip_share", "slip_clock", "slip_lb_oz"
_BY_THE_DAY = frozenset({"days", "weeks"})
_BY_SIXTEEN = frozenset({"lb", "oz", "cup", "Tbsp", "pt", "fl oz"})
_BY_DIMENSION = {
    "mass": ("slip_x1000", 1000),
    "volume": ("slip_x1000", 1000),
    "share": ("slip_x100", 100),
    "money": ("slip_x100", 100),
    "length": ("slip_x100", 100),
    "duration": ("slip_x60", 60),
}
_QUARTER = Fraction(1, 4)
_POINT_READ = Fraction(1, 400)
"""How near a number must come that was made of two figures with a point between: it was typed, not worked out."""


class Slip(NamedTuple):
    """One slip: its name, the value it gives in the unit asked for, and how near counts as that value."""

    name: str
    value: Fraction
    reach: Fraction


def slip_shown(question: Question, read: Quantity, value: Fraction, has_unit: bool) -> str | None:
    """Return the name of the one slip that gives this value; None where none does, or where two do.

    *read* is the answer as typed, *has_unit* whether a unit was typed with it, *value* the amount in the unit asked.
    """
    answer = question.answer
    if answer.value == 0:
        return None
    found = {slip.name for slip in slips_of(question, value)}
    asked = UNITS[answer.unit]
    if has_unit and read.unit.symbol != asked.symbol and answer.accepts(read.amount):
        found.add(UNIT)
    if SHARE in found:
        found = {SHARE} if asked.symbol == "%" and has_unit else {*found} - {SHARE}
    return found.pop() if len(found) == 1 else None


def slips_of(question: Question, near: Fraction | None = None) -> list[Slip]:
    """Return the slips of a question that can be told from its key and from its wrong methods.

    With a value, those alone that it comes near to: so few that hardly any has to be told from anything.
    """
    answer, others = question.answer, [wrong.value for wrong in question.wrong_methods]
    slips = (slip for slip in _slips(answer) if slip.name not in question.off)
    close = slips if near is None else (slip for slip in slips if abs(near - slip.value) <= slip.reach)
    return [slip for slip in close if _lies_apart(slip, answer, others)]


def _lies_apart(slip: Slip, answer: Answer, others: list[Fraction]) -> bool:
    least = 2 * max(slip.reach, answer.tolerance)
    return all(abs(slip.value - other) > least for other in (answer.value, *others))


def _slips(answer: Answer) -> Iterator[Slip]:
    asked = UNITS[answer.unit]
    dimension = asked.dimension.split(":")[0]
    yield from _times(answer, POINT, 10)
    if asked.symbol == "%":  # a share typed bare is asked again
        yield Slip("slip_x100", 100 * answer.value, 100 * answer.tolerance)
        yield Slip(SHARE, answer.value / 100, answer.tolerance / 100)
    elif dimension in _BY_DIMENSION and asked.symbol not in _BY_THE_DAY:
        yield from _times(answer, *_BY_DIMENSION[dimension])
    if asked.symbol in _BY_SIXTEEN:
        yield from _times(answer, "slip_x16", 16)
    if asked.symbol in {"lb", "oz"}:
        yield from _ounces_with_a_point(answer.value, asked)
    if dimension == "duration" and asked.symbol not in _BY_THE_DAY:
        yield from _clock_with_a_point(answer.value)


def _times(answer: Answer, name: str, factor: int) -> tuple[Slip, Slip]:
    """Return the key so many times too large and too small, what counts as near growing with it."""
    up = Slip(name, answer.value * factor, answer.tolerance * factor)
    return up, Slip(name, answer.value / factor, answer.tolerance / factor)


def _ounces_with_a_point(value: Fraction, asked: Unit) -> Iterator[Slip]:
    """Yield 6 lb 12 oz written as 6.12 and read as 6 and 12 tenths, in the unit asked for."""
    pounds = value * asked.factor / UNITS["lb"].factor
    whole, rest = divmod(pounds, 1)
    ounces = to_nearest(16 * rest, _QUARTER)
    if whole and ounces:
        to_asked = UNITS["lb"].factor / asked.factor
        for part in {ounces / 10, ounces / 100}:
            yield Slip(POUNDS_AND_OUNCES, (whole + part) * to_asked, _POINT_READ * to_asked)


def _clock_with_a_point(value: Fraction) -> Iterator[Slip]:
    """Yield 2 h 27 min written as 2.27, and 2 min 30 s as 2.30: bare, and in the larger unit."""
    large, small = divmod(to_nearest(value, Fraction(1)), 60)
    if large and small:
        written = large + small / 100
        yield Slip(CLOCK, written, _POINT_READ)
        yield Slip(CLOCK, 60 * written, 60 * _POINT_READ)
    minutes, rest = divmod(value, 1)
    seconds = to_nearest(60 * rest, Fraction(1))
    if seconds and minutes:
        yield Slip(CLOCK, minutes + seconds / 100, _POINT_READ)
