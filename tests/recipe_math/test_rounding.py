"""Rounding follows the purpose: down to serve, up to buy, nearest to weigh, cents for money."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.rounding import down_to, to_cents, to_nearest, up_to, weighed


def test_what_is_bought_rounds_up() -> None:
    """USDA Food Buying Guide training slides: 27.6 cans, buy 28."""
    assert up_to(Fraction("27.6")) == 28
    assert up_to(Fraction(28)) == 28


def test_what_is_served_rounds_down() -> None:
    """Common practice: 33.95 portions are 33."""
    assert down_to(Fraction("33.95")) == 33


def test_what_is_weighed_rounds_to_the_nearest_step_and_halves_go_up() -> None:
    """Armed Forces Recipe Service, card 1(2): 5.60 oz is 5 1/2 to the quarter."""
    assert to_nearest(Fraction("5.60"), Fraction(1, 4)) == Fraction(11, 2)
    assert to_nearest(Fraction("0.125"), Fraction(1, 4)) == Fraction(1, 4)
    assert to_nearest(Fraction("-0.125"), Fraction(1, 4)) == Fraction(-1, 4)


def test_a_scale_shows_its_own_division() -> None:
    """Foundations of Cost Control (Traster), chapter 2 slides, example 2c: 16.34 oz on a 0.1 oz scale is 16.3."""
    assert weighed(Quantity.of("16.34", "oz"), Quantity.of("0.1", "oz")) == Quantity.of("16.3", "oz")
    assert str(weighed(Quantity.of(1, "lb"), Quantity.of(5, "g"))) == "455 g"
    with pytest.raises(WrongDimension):
        weighed(Quantity.of(1, "cup"), Quantity.of(5, "g"))


def test_money_rounds_to_cents_and_half_a_cent_goes_up() -> None:
    """Butcher test card: 66.80 for 6 lb is 11.13 a pound."""
    assert to_cents(Quantity.of("66.80", "$") / 6) == Quantity.of("11.13", "$")
    assert to_cents(Quantity.of("0.005", "$")) == Quantity.of(1, "¢")
    with pytest.raises(WrongDimension, match="not money"):
        to_cents(Quantity.of(1, "lb"))


@pytest.mark.parametrize("step", [Fraction(0), Fraction(-1)])
def test_a_step_is_above_zero(step: Fraction) -> None:
    """Nothing can be rounded to a multiple of nothing."""
    for rounding in (to_nearest, down_to, up_to):
        with pytest.raises(QuantityProblem, match="above zero"):
            rounding(Fraction(1), step)
