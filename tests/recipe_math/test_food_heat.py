"""The heat that foods hold: the curve, and how far published figures lie from it and from each other."""

from __future__ import annotations

import pytest

from trainer.recipe_math.food_heat import FOODS, FoodHeat
from trainer.recipe_math.heat import PURE_WATER, heat_capacity
from trainer.recipe_math.quantity import QuantityProblem

PUBLISHED = [
    # Geankoplis, Transport Processes and Separation Process Principles, 4th ed., App. A.4-1
    ("milk", 3.85), ("butter", 2.30), ("olive_oil", 2.01), ("flour", 1.80), ("flour", 1.88), ("heavy_cream", 3.06),
    ("water", 4.185), ("yolk", 2.81), ("egg_white", 3.85),  # the last two from memory
    # Earle, Unit Operations in Food Processing, App. 7; Cengel and Boles, 8th ed., Table A-3
    ("whole_egg", 3.2), ("milk", 3.9), ("milk", 3.79),
    # ASHRAE Handbook Refrigeration, ch. 19, Table 3, from memory
    ("yolk", 3.05), ("whole_egg", 3.63), ("egg_white", 3.91), ("butter", 2.40),
    ("sugar", 1.24),  # NIST Chemistry WebBook, sucrose, from memory
]  # fmt: skip


@pytest.mark.parametrize(("food", "published"), PUBLISHED)
def test_every_published_figure_lies_in_the_span(food: str, published: float) -> None:
    """From the least to the most, in kJ/(kg K), the curve taken in."""
    low, high = FOODS[food].span()
    assert low <= published <= high
    assert low <= heat_capacity(FOODS[food].made_of, 20) <= high


@pytest.mark.parametrize(
    ("food", "off"), [("whole_egg", 0.14), ("yolk", 0.11), ("flour", 0.08), ("heavy_cream", 0.06), ("sugar", 0.28)]
)
def test_the_curve_is_as_high_as_the_head_of_the_module_says(food: str, off: float) -> None:
    """3.65 over 3.2, 3.12 over 2.81, 1.95 over 1.80, 3.25 over 3.06 kJ/(kg K) by hand; sugar 1.586 over 1.24."""
    assert heat_capacity(FOODS[food].made_of, 20) / FOODS[food].published[0] - 1 == pytest.approx(off, abs=0.01)


def test_a_span_that_runs_backwards_is_refused() -> None:
    """The least is no more than the most, and above zero."""
    with pytest.raises(QuantityProblem, match="runs backwards"):
        FoodHeat(PURE_WATER, (4.2, 4.1), "nobody")
    with pytest.raises(QuantityProblem, match="above zero"):
        FoodHeat(PURE_WATER, (0, 4.1), "nobody")
