"""Weights and shares as recipes and foods write them."""

from __future__ import annotations

from fractions import Fraction

from trainer.content.kinds import Kind
from trainer.content.lines import amount
from trainer.content.mapping_reader import MappingReader
from trainer.content.nodes import Node
from trainer.recipe_math.quantity import Quantity

MASS, SHARE = "mass", "share"


def weight() -> Kind:
    """Return a weight above nothing."""

    def check(found: Quantity, node: Node, name: str, at: MappingReader) -> Quantity | None:
        if is_weight(found):
            return found
        at.diagnostics.add(node.line, f"{name} is {found}, not a weight.", "Write a weight: 500 g, 6.5 oz.")
        return None

    return amount().then("weight, 6.5 oz", check)


def percent() -> Kind:
    """Return a share from above nothing to all of it."""

    def check(found: Quantity, node: Node, name: str, at: MappingReader) -> Fraction | None:
        if found.unit.dimension == SHARE and 0 < found.base <= 1:
            return found.base
        message = f"{name} is {found}, not a share above 0 and up to 100 %."
        at.diagnostics.add(node.line, message, "Write a share in percent: 89 %.")
        return None

    return amount().then("share, 89 %", check)


def is_weight(quantity: Quantity) -> bool:
    """Return whether a quantity is a weight above nothing."""
    return quantity.unit.dimension == MASS and quantity.amount > 0
