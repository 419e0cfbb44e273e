"""Quantiles agree with scipy, figure by figure, and with what statistics handbooks print."""

from __future__ import annotations

from fractions import Fraction

import pytest
from scipy.stats import norm

from trainer.recipe_math.quantiles import (
    as_fraction,
    normal_quantile,
    two_sided,
)
from trainer.recipe_math.quantity import QuantityProblem


@pytest.mark.parametrize("percent", [1, 5, 50, 80, 90, 95, 97.5, 99, 99.9])
def test_normal_quantiles_agree_with_scipy(percent: float) -> None:
    """Outside check: scipy.stats.norm, to ten decimals."""
    level = Fraction(str(percent)) / 100
    assert abs(float(normal_quantile(level)) - norm.ppf(percent / 100)) <= 1e-9


def test_a_two_sided_confidence_leaves_half_on_either_side() -> None:
    """By hand: 95 percent leaves 2.5 on either side; e-Handbook 7.2.4.1 prints 1.645 for 90."""
    assert two_sided(Fraction("0.95")) == Fraction("0.975")
    assert abs(normal_quantile(two_sided(Fraction("0.90"))) - Fraction("1.645")) < Fraction("0.0005")


def test_a_float_becomes_the_fraction_of_its_decimals() -> None:
    """By hand: 1/3 to four decimals is 3333 in ten thousand."""
    assert as_fraction(1 / 3, 4) == Fraction(3333, 10_000)


@pytest.mark.parametrize("level", [Fraction(0), Fraction(1), Fraction(95), Fraction(-1, 2)])
def test_a_level_is_neither_never_nor_always(level: Fraction) -> None:
    """95 for 95 percent is refused."""
    for use in (normal_quantile, two_sided):
        with pytest.raises(QuantityProblem, match="95 percent is 19/20"):
            use(level)
