"""Reductions: strength, the salt at the end, and the least time, against printed values and sums done by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.reduction import least_time, salt_to_finish, strength_after

FOUR, ONE = Quantity.of(4, "kg"), Quantity.of(1, "kg")


def test_a_quarter_left_is_four_times_as_salty() -> None:
    """4 kg with 2 g of salt a kilogram become 1 kg with 8: worked by hand."""
    assert strength_after(Fraction(2), FOUR, ONE) == 8


def test_the_rest_of_the_salt_goes_in_last() -> None:
    """1 g a kilogram in 4 kg are 4 g; 8 wanted in 1 kg: 4 g more. None where it is there already."""
    assert salt_to_finish(FOUR, ONE, Fraction(1), Fraction(8)) == Quantity.of(4, "g")
    assert salt_to_finish(FOUR, ONE, Fraction(2), Fraction(8)) == Quantity.of(0, "g")
    with pytest.raises(QuantityProblem, match="12 g of salt in a kilogram, above 8"):
        salt_to_finish(FOUR, ONE, Fraction(3), Fraction(8))


def test_three_kilograms_of_water_take_an_hour_at_two_kilowatts() -> None:
    """3 kg × 2.26 MJ = 6.8 MJ, 57 min at 2 kW into the pan (latent heat from memory; by hand 3,390 s = 56.5 min)."""
    assert float(least_time(FOUR, ONE, Fraction(2)).to("min").amount) == pytest.approx(56.5, abs=0.5)


@pytest.mark.parametrize(
    ("before", "after", "problem"), [(ONE, FOUR, QuantityProblem), (ONE, Quantity.of(1, "L"), WrongDimension)]
)
def test_what_is_no_reduction_is_refused(before: Quantity, after: Quantity, problem: type[Exception]) -> None:
    """It ends as less of the same kind."""
    with pytest.raises(problem):
        strength_after(Fraction(2), before, after)
    with pytest.raises(problem):
        least_time(before, after, Fraction(2))


def test_no_heat_drives_nothing_off() -> None:
    """A power above zero."""
    with pytest.raises(QuantityProblem, match="0 kW"):
        least_time(FOUR, ONE, Fraction(0))
