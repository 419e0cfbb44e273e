"""Parts per million, the scale of a sanitizer's test strip, against the definition of a mass fraction."""

from __future__ import annotations

from fractions import Fraction

from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.printing import both_ways
from trainer.recipe_math.quantity import Quantity


def test_a_percent_is_ten_thousand_parts_in_a_million() -> None:
    """One in a hundred is 10 000 in a million; 1 mg in 1 kg is one part, and so is 1 mg in a litre of water."""
    assert Quantity.of(1, "%").to("ppm").amount == 10_000
    assert Quantity.of(1, "mg").base / Quantity.of(1, "kg").base == Fraction(1, 1_000_000)
    assert Quantity.of(1, "ppm").base == Fraction(1, 1_000_000)


def test_parts_per_million_read_the_same_in_both_systems() -> None:
    """A test strip has one scale."""
    fifty = parse_quantity("50 parts per million", decimal_mark=".")
    assert (both_ways(fifty), both_ways(fifty, "metric")) == ("50 ppm", "50 ppm")
