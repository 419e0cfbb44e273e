"""Reads a quantity somebody typed the way the kitchen writes numbers."""

from __future__ import annotations

from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.refusals import Ambiguous


def read_quantity(text: str, unit: str, decimal_mark: str | None = None) -> Quantity:
    """Return what was typed; a bare number is in *unit*.

    A comma and a point are both read as a decimal mark. The kitchen's own mark settles only what could be read two
    ways, such as 1,500. Raises `QuantityProblem` with the value and the rule.

    >>> str(read_quantity("4,4", "oz", "."))
    '4.4 oz'
    """
    try:
        return parse_quantity(text, default_unit=unit)
    except Ambiguous:
        if decimal_mark is None:
            raise
        return parse_quantity(text, default_unit=unit, decimal_mark=decimal_mark)
