"""The measured lines of a technique, as the tests of its values ask for them."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from trainer.kitchen.technique import Limit, Technique
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import Quantity

Part = Literal["target", "lowest", "highest"]


def lines_of(technique: Technique) -> dict[str, Limit]:
    """Return the measured lines of a technique by id."""
    return {limit.id: limit for limit in technique.standard}


def line(technique: Technique, name: str) -> Limit:
    """Return a measured line of a technique."""
    return lines_of(technique)[name]


def value(technique: Technique, name: str, unit: str = "", part: Part = "target") -> Fraction:
    """Return the target of a line, or one of its ends, exactly: in a unit, or in the base unit of its kind."""
    return number(line(technique, name), unit, part)


def number(limit: Limit, unit: str = "", part: Part = "target") -> Fraction:
    """Return the target of a line, or one of its ends, as `value` does."""
    found: Quantity | None = getattr(limit, part)
    assert found is not None, f"{limit.id} has no {part}"
    return found.to(unit).amount if unit else found.base


def same(found: Quantity | None, printed: str | None) -> bool:
    """Return whether a quantity is the printed one, in whatever unit; or neither is there."""
    if found is None or printed is None:
        return found is None and printed is None
    return found.base == parse_quantity(printed, decimal_mark=".").base
