"""How far two who judge the same agree: how many pairs it takes, and the share with its interval."""

from __future__ import annotations

from fractions import Fraction

import pytest
from scipy.stats import binom, binomtest

from trainer.kitchen.agreement import FEWEST_PAIRS, Agreement, fewest_to_find


def test_eleven_pairs_find_one_in_five_with_nine_in_ten() -> None:
    """By hand: 0.8 to the 10th is 0.107, to the 11th 0.086. The same as scipy's binomial distribution says."""
    assert FEWEST_PAIRS == 11
    assert binom.pmf(0, FEWEST_PAIRS, 0.2) < 0.1 <= binom.pmf(0, FEWEST_PAIRS - 1, 0.2)


@pytest.mark.parametrize(("share", "certainty"), [("0.05", "0.95"), ("0.1", "0.9"), ("0.5", "0.75"), ("0.9", "0")])
def test_so_many_find_one_and_one_less_does_not(share: str, certainty: str) -> None:
    """Against scipy; 59 for 5 in 100 at 95 percent is the attribute sample that tables of auditors print (AICPA)."""
    number = fewest_to_find(Fraction(share), Fraction(certainty))
    assert 1 - binom.pmf(0, number, float(share)) >= float(certainty) - 1e-12
    assert number == 0 or 1 - binom.pmf(0, number - 1, float(share)) < float(certainty)
    assert share != "0.05" or number == 59


@pytest.mark.parametrize(("pairs", "is_enough"), [(0, False), (10, False), (11, True)])
def test_a_share_takes_eleven_pairs(pairs: int, is_enough: bool) -> None:
    """However they came out."""
    assert Agreement(pairs, pairs).is_enough is is_enough


@pytest.mark.parametrize(("same", "pairs"), [(11, 11), (10, 11), (0, 11), (182, 263)])
def test_the_share_that_does_not_hold_lies_in_wilsons_interval(same: int, pairs: int) -> None:
    """As scipy works it out; 81 of 263 is 0.2553 to 0.3662 in Newcombe (1998), Statistics in Medicine 17:857-872."""
    found, oracle = Agreement(same, pairs).apart, binomtest(pairs - same, pairs).proportion_ci(method="wilson")
    assert (float(found.low), float(found.high)) == pytest.approx((oracle.low, oracle.high), abs=1e-8)
    if pairs == 263:
        assert (round(oracle.low, 4), round(oracle.high, 4)) == (0.2553, 0.3662)
