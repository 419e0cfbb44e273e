"""Recipes grow and shrink by an exact factor."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.scaling import (
    factor_by_ingredient,
    factor_by_portion,
    factor_by_yield,
    scaled,
)

AFRS = "Armed Forces Recipe Service, General Information No. 1"
BY_COUNT = [
    (100, 348, "3.48", AFRS),
    (100, 333, "3.33", "US Navy training manual NAVEDTRA 14163, p. 110"),
    (10, 15, "1.5", "Procedure for converting total yield, example 1 (professional-cooking text)"),
    (8, 18, "2.25", "Procedure for changing portion sizes (the same text)"),
]


@pytest.mark.parametrize(("old", "new", "factor", "source"), BY_COUNT, ids=[row[3] for row in BY_COUNT])
def test_the_factor_is_what_is_wanted_over_what_the_card_makes(old: int, new: int, factor: str, source: str) -> None:
    """Wanted portions over the card's portions."""
    assert source
    assert factor_by_yield(old, new) == Fraction(factor)


def test_the_factor_works_on_weights_of_any_unit() -> None:
    """Measuring ingredients and changing formula yields (slide set): 85 oz to 156 oz is 1.83 (156/85 exactly)."""
    assert factor_by_yield(Quantity.of(85, "oz"), Quantity.of("9.75", "lb")) == Fraction(156, 85)


def test_portions_of_another_size_multiply_into_the_factor() -> None:
    """Armed Forces Recipe Service, General Information No. 1: 3/4 x 348 / 100 = 2.61."""
    card, wanted = (100, Quantity.of(1, "cup")), (348, Quantity.of("3/4", "cup"))
    assert factor_by_portion(card, wanted) == Fraction("2.61")


def test_what_is_on_hand_sets_the_batch() -> None:
    """Armed Forces Recipe Service, card 1(3) item 4: 102 lb on hand, 30 lb called for: 3.40."""
    assert factor_by_ingredient(Quantity.of(30, "lb"), Quantity.of(102, "lb")) == Fraction("3.40")


SCALED = [
    ("1.25", "lb", Fraction("3.48"), "4.35", AFRS),
    ("2.25", "cup", Fraction(1020, 60), "38.25", "OpenStax, Contemporary Mathematics, section 5.4"),
    ("350", "g", Fraction(4), "1400", "OpenStax, Contemporary Mathematics, section 9.4, example 8"),
    ("0.5", "cup", Fraction(10, 4), "1.25", "OpenStax, Prealgebra 2e, section 6.5, exercise"),
    ("2.5", "cup", Fraction(3, 2), "3.75", "Procedure for converting total yield: 30 fl oz"),
]


@pytest.mark.parametrize(("amount", "unit", "factor", "result", "source"), SCALED, ids=[row[4] for row in SCALED])
def test_an_amount_is_multiplied_exactly(amount: str, unit: str, factor: Fraction, result: str, source: str) -> None:
    """The factor is never rounded, only what is printed."""
    assert source
    assert scaled(Quantity.of(amount, unit), factor) == Quantity.of(result, unit)


def test_a_card_by_the_table_of_ounces_strays_by_its_two_places() -> None:
    """Armed Forces Recipe Service, General Information No. 1: 2 lb 10 oz is 2.63 lb there, 2.625 exactly."""
    exact = Quantity.of(42, "oz").to("lb").amount
    assert exact == Fraction("2.625")
    assert abs(exact - Fraction("2.63")) <= Fraction("0.005")
    by_table = scaled(Quantity.of("2.63", "lb"), Fraction("3.48"))
    assert abs((by_table - scaled(Quantity.of(exact, "lb"), Fraction("3.48"))).amount) <= Fraction("3.48") * Fraction(
        "0.005"
    )


@pytest.mark.parametrize("text", ["°C", "min", "%", "°F difference"])
def test_heat_time_and_shares_do_not_grow_with_the_batch(text: str) -> None:
    """Common practice: twice the dough is not baked twice as hot or twice as long."""
    with pytest.raises(WrongDimension, match="does not grow"):
        scaled(Quantity.of(20, text), 2)


def test_a_factor_and_a_batch_are_above_zero() -> None:
    """The message names the value."""
    with pytest.raises(QuantityProblem, match="factor of 0"):
        scaled(Quantity.of(1, "lb"), 0)
    with pytest.raises(QuantityProblem, match="0 is no size"):
        factor_by_yield(0, 100)
    with pytest.raises(QuantityProblem, match="-1 lb is no size"):
        factor_by_yield(Quantity.of(1, "lb"), Quantity.of(-1, "lb"))


def test_a_weight_is_not_compared_with_a_bare_count() -> None:
    """Both have a unit or neither has."""
    for old, new in ((Quantity.of(1, "lb"), 2), (2, Quantity.of(1, "lb"))):
        with pytest.raises(WrongDimension, match="or neither"):
            factor_by_yield(old, new)
