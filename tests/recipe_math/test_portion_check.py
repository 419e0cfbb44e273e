"""Weighed portions show a mean, a spread and a share inside, and how sure that share is."""

from __future__ import annotations

from fractions import Fraction
from statistics import stdev

import pytest
from scipy.stats import binomtest

from trainer.recipe_math.portion_check import PortionTarget, check_portions
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


def grams(*amounts: int | str) -> list[Quantity]:
    return [Quantity.of(amount, "g") for amount in amounts]


PASTA = PortionTarget(Quantity.of(170, "g"), Quantity.of(5, "g"))
TEN = (168, 172, 171, 177, 169, 170, 173, 163, 174, 170)


def test_ten_portions_are_counted_inside_and_on_either_side() -> None:
    """By hand: 163 is below 165, 177 above 175; the sum is 1707."""
    check = check_portions(grams(*TEN), PASTA)
    assert (check.weighed, check.inside, check.too_light, check.too_heavy) == (10, 8, 1, 1)
    assert check.mean == Quantity.of("170.7", "g")
    assert check.off_target() == Quantity.of("0.7", "g")
    assert (check.lightest, check.heaviest) == (Quantity.of(163, "g"), Quantity.of(177, "g"))
    assert float(check.deviation.amount) == pytest.approx(stdev(TEN), abs=1e-9)


def test_the_share_inside_comes_with_wilsons_interval() -> None:
    """Outside check: scipy.stats.binomtest, method wilson, 8 of 10, 95 and 80 percent."""
    for confidence in ("0.95", "0.80"):
        check = check_portions(grams(*TEN), PASTA, Fraction(confidence))
        expected = binomtest(8, 10).proportion_ci(float(confidence), method="wilson")
        assert check.share == Fraction(4, 5)
        assert float(check.likely.low) == pytest.approx(expected.low, abs=2e-9)
        assert float(check.likely.high) == pytest.approx(expected.high, abs=2e-9)


def test_the_tolerance_is_good_to_its_last_gram_and_in_any_unit() -> None:
    """House rule, both ends included. By hand: 6 oz give or take 1/4: 5 3/4 and 6 1/4 pass, 163 g is 5.7496 oz."""
    ounces = PortionTarget(Quantity.of(6, "oz"), Quantity.of("1/4", "oz"))
    assert ounces.is_inside(Quantity.of("5.75", "oz"))
    assert ounces.is_inside(Quantity.of("6.25", "oz"))
    assert not ounces.is_inside(Quantity.of(163, "g"))
    check = check_portions([*grams(163), Quantity.of("6.25", "oz"), Quantity.of("5.75", "oz")], ounces)
    assert (check.inside, check.too_light, check.too_heavy) == (2, 1, 0)


def test_the_spread_is_that_of_a_sample() -> None:
    """By hand: 14, 16 and 18 lie 2, 0 and 2 from their mean; the root of 8 over 2 is 2."""
    target = PortionTarget(Quantity.of(14, "g"), Quantity.of(6, "g"))
    check = check_portions(grams(14, 16, 18), target)
    assert check.deviation == Quantity.of(2, "g")


def test_portions_all_alike_are_still_only_two() -> None:
    """The share inside is not certain: 2 of 2 may be 34 percent of all."""
    check = check_portions(grams(170, 170), PASTA)
    assert check.share == 1
    assert float(check.likely.low) == pytest.approx(binomtest(2, 2).proportion_ci(method="wilson").low, abs=2e-9)


def test_a_target_lets_no_empty_plate_through() -> None:
    """The message names both figures."""
    for weight, tolerance in ((0, 5), (170, 0), (170, -5)):
        with pytest.raises(QuantityProblem, match="no target"):
            PortionTarget(Quantity.of(weight, "g"), Quantity.of(tolerance, "g"))
    with pytest.raises(QuantityProblem, match="empty plate"):
        PortionTarget(Quantity.of(170, "g"), Quantity.of(170, "g"))
    with pytest.raises(WrongDimension):
        PortionTarget(Quantity.of(170, "g"), Quantity.of(1, "cup"))


def test_one_portion_and_misread_weights_are_refused() -> None:
    """A scale that was not set to zero shows less than nothing."""
    with pytest.raises(QuantityProblem, match="at least two"):
        check_portions(grams(170), PASTA)
    with pytest.raises(QuantityProblem, match="misread"):
        check_portions(grams(170, -3), PASTA)
    with pytest.raises(WrongDimension):
        check_portions([Quantity.of(1, "cup")] * 2, PASTA)
