"""Reads what a person typed, whichever decimal mark their hand knows."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TypeVar

from trainer.recipe_math.parsing import parse_number, parse_quantity
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.refusals import Ambiguous

ReadT = TypeVar("ReadT")


def read_quantity(text: str, unit: str | None, decimal_mark: str | None = None, *, kind: str | None = None) -> Quantity:
    """Return the quantity that was typed; a bare number is in *unit*, and is refused where that is None.

    *kind* is what is asked for where no unit says so, as in `parse_quantity`.

    A comma and a point are both read as a decimal mark. The kitchen's own mark settles only what could be read two
    ways, such as 1,500. Raises `QuantityProblem` with the value and the rule.

    >>> str(read_quantity("4,4", "oz", "."))
    '4.4 oz'
    """
    return _either_mark(
        lambda mark: parse_quantity(text, default_unit=unit, decimal_mark=mark, kind=kind), decimal_mark
    )


def read_number(text: str, decimal_mark: str | None = None) -> Fraction:
    """Return the plain number that was typed; the marks count as in `read_quantity`.

    >>> read_number("4,4", ".")
    Fraction(22, 5)
    """
    return _either_mark(lambda mark: parse_number(text, decimal_mark=mark), decimal_mark)


def _either_mark(read: Callable[[str | None], ReadT], decimal_mark: str | None) -> ReadT:
    """Return what is read with no mark in mind, and where that can be read two ways, with the kitchen's own."""
    try:
        return read(None)
    except Ambiguous:
        if decimal_mark is None:
            raise
        return read(decimal_mark)
