"""Tolerance factors agree with the handbook that prints them and with scipy."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest
from scipy.stats import chi2, nct, norm

from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.tolerance_factors import (
    chi_square,
    one_sided_factor,
    one_sided_factor_by_hand,
    two_sided_factor,
)

NINETY, SURE = Fraction("0.90"), Fraction("0.99")


def test_the_factors_of_forty_three_wafers() -> None:
    """NIST/SEMATECH e-Handbook 7.2.6.3: N = 43, p = 0.90, 0.99 sure: k2 2.217, k1 1.8740 (1.8752 by hand)."""
    assert abs(two_sided_factor(43, NINETY, SURE) - Fraction("2.217")) <= Fraction("0.0005")
    assert abs(one_sided_factor(43, NINETY, SURE) - Fraction("1.8740")) <= Fraction("0.00006")
    assert abs(one_sided_factor_by_hand(43, NINETY, SURE) - Fraction("1.8752")) <= Fraction("0.00005")


def test_the_factors_of_six() -> None:
    """NIST/SEMATECH e-Handbook 7.2.6.3: N = 6: 5.2808 by the formula, 4.4111 by the non-central t."""
    assert abs(one_sided_factor_by_hand(6, NINETY, SURE) - Fraction("5.2808")) <= Fraction("0.00005")
    assert abs(one_sided_factor(6, NINETY, SURE) - Fraction("4.4111")) <= Fraction("0.00005")


def test_the_chi_square_of_the_same_page() -> None:
    """NIST/SEMATECH e-Handbook 7.2.6.3: the 0.01 quantile with 42 degrees: 23.650."""
    assert chi_square(0.01, 42) == pytest.approx(23.650, abs=0.0005)


@pytest.mark.parametrize("degrees", [1, 2, 5, 30, 150, 999])
@pytest.mark.parametrize("level", [0.0001, 0.05, 0.5, 0.99])
def test_chi_square_agrees_with_scipy(degrees: int, level: float) -> None:
    """Outside check: scipy.stats.chi2.ppf."""
    assert chi_square(level, degrees) == pytest.approx(chi2.ppf(level, degrees), rel=1e-9)


@pytest.mark.parametrize("number", [3, 5, 10, 50, 300, 1000])
@pytest.mark.parametrize(
    ("share", "confidence"), [("0.5", "0.9"), ("0.9", "0.95"), ("0.99", "0.999"), ("0.999", "0.99")]
)
def test_factors_agree_with_scipy(number: int, share: str, confidence: str) -> None:
    """Outside check: scipy's non-central t for k1 (four decimals), Howe's formula with its quantiles for k2."""
    p, sure = float(share), float(confidence)
    k1 = nct.ppf(sure, number - 1, norm.ppf(p) * sqrt(number)) / sqrt(number)
    k2 = norm.ppf((1 + p) / 2) * sqrt((number - 1) * (1 + 1 / number) / chi2.ppf(1 - sure, number - 1))
    assert float(one_sided_factor(number, Fraction(share), Fraction(confidence))) == pytest.approx(k1, rel=1e-4)
    assert float(two_sided_factor(number, Fraction(share), Fraction(confidence))) == pytest.approx(k2, abs=1e-5)


def test_the_formula_says_where_it_breaks_down() -> None:
    """By hand: 3 weighed, 0.99 sure: 1 - 2.326 squared / 4 is below zero, whatever the share."""
    for number, share in ((3, NINETY), (3, Fraction("0.5"))):
        with pytest.raises(QuantityProblem, match="too few"):
            one_sided_factor_by_hand(number, share, SURE)


@pytest.mark.parametrize("factor", [one_sided_factor, one_sided_factor_by_hand, two_sided_factor])
def test_what_has_no_factor_is_refused(factor: object) -> None:
    """The message names the value."""
    assert callable(factor)
    for number in (2, 1001):
        with pytest.raises(QuantityProblem, match="3 to 1000"):
            factor(number, NINETY, SURE)
    for share, confidence in ((Fraction(90), SURE), (NINETY, Fraction("0.4")), (NINETY, Fraction("0.9995"))):
        with pytest.raises(QuantityProblem, match="from 0"):
            factor(10, share, confidence)
