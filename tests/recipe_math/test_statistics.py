"""Mean, spread, intervals for shares and capability, against printed values and scipy."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from statistics import fmean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.statistics import (
    mean,
    sample_deviation,
    square_root,
    wilson_interval,
)

COUNTS = st.integers(1, 60).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))
WEIGHTS = st.lists(st.fractions(0, 1000, max_denominator=100), min_size=2, max_size=30)


def close(found: Fraction, printed: str, tolerance: str) -> bool:
    return abs(found - Fraction(printed)) <= Fraction(tolerance)


def test_the_mean_and_the_spread_of_a_sample() -> None:
    """By hand: 98, 100, 102, 104: mean 101, squares 9 + 1 + 1 + 9 = 20, over 3, root 2.581988897."""
    weights = [Fraction(weight) for weight in (98, 100, 102, 104)]
    assert mean(weights) == 101
    assert close(sample_deviation(weights), "2.581988897", "1e-9")


@given(WEIGHTS)
def test_mean_and_spread_agree_with_the_standard_library(weights: list[Fraction]) -> None:
    """Outside check: Python's statistics module."""
    floats = [float(weight) for weight in weights]
    assert float(mean(weights)) == pytest.approx(fmean(floats), abs=1e-9)
    assert float(sample_deviation(weights)) == pytest.approx(stdev(floats), abs=1e-6)


def test_nobody_has_a_mean_and_one_has_no_spread() -> None:
    """The message names the rule."""
    with pytest.raises(QuantityProblem, match="at least one"):
        mean([])
    with pytest.raises(QuantityProblem, match="at least two"):
        sample_deviation([Fraction(1)])


def test_wilson_on_both_sides_of_three_in_twenty() -> None:
    """A public design document citing e-Handbook 7.2.4.1: 3 of 20: 5.2 percent; its 36.1 rounds 36.04 up."""
    found = wilson_interval(3, 20)
    assert close(100 * found.low, "5.2", "0.05")
    assert close(100 * found.high, "36.04", "0.005")


INTERVALS = [
    (9, 10, "0.5958", "0.9821"), (10, 10, "0.7225", "1"), (18, 20, "0.6990", "0.9721"),
    (24, 25, "0.8046", "0.9929"), (12, 12, "0.7575", "1"), (0, 12, "0", "0.2425"),
]  # fmt: skip


@pytest.mark.parametrize(("count", "of", "low", "high"), INTERVALS)
def test_the_interval_of_a_short_quiz(count: int, of: int, low: str, high: str) -> None:
    """Wilson at 95 percent, worked out outside this project to four places."""
    wilson = wilson_interval(count, of)
    assert close(wilson.low, low, "6e-5")
    assert close(wilson.high, high, "6e-5")


NEWCOMBE = [
    (15, 148, "0.0624", "0.1605"), (0, 20, "0", "0.1611"), (1, 29, "0.0061", "0.1718"),
    (81, 263, "0.2553", "0.3662"),
]  # fmt: skip


@pytest.mark.parametrize(("count", "of", "low", "high"), NEWCOMBE)
def test_wilson_as_it_was_printed(count: int, of: int, low: str, high: str) -> None:
    """Newcombe (1998), Statistics in Medicine 17:857-872, method 3, 95 percent (the four examples from memory)."""
    found = wilson_interval(count, of)
    assert close(found.low, low, "6e-5")
    assert close(found.high, high, "6e-5")


@given(COUNTS, st.sampled_from(["0.80", "0.90", "0.95", "0.99"]))
def test_wilson_agrees_with_scipy_and_stays_between_none_and_all(counts: tuple[int, int], confidence: str) -> None:
    """Outside check: scipy.stats.binomtest, method wilson; the found share lies inside."""
    found = wilson_interval(*counts, Fraction(confidence))
    expected = binomtest(*counts).proportion_ci(float(confidence), method="wilson")
    assert 0 <= found.low <= Fraction(*counts) <= found.high <= 1
    assert (float(found.low), float(found.high)) == pytest.approx((expected.low, expected.high), abs=2e-9)


PLANS = [
    (3, "4.0", 1, "0.885"), (3, "15", 2, "0.939"), (5, "2.5", 1, "0.881"), (5, "10", 2, "0.919"), (5, "15", 3, "0.973"),
    (8, "6.5", 2, "0.909"), (8, "10", 3, "0.962"), (8, "15", 4, "0.979"), (13, "1.0", 1, "0.878"),
    (13, "4.0", 2, "0.907"), (13, "10", 4, "0.966"), (13, "15", 6, "0.992"), (20, "0.65", 1, "0.878"),
    (20, "2.5", 2, "0.912"), (20, "4.0", 3, "0.956"), (20, "10", 6, "0.989"), (32, "1.5", 2, "0.917"),
    (32, "4.0", 4, "0.962"), (32, "6.5", 6, "0.984"), (32, "15", 11, "0.995"), (50, "1.0", 2, "0.911"),
    (50, "2.5", 4, "0.964"), (50, "4.0", 6, "0.986"), (50, "6.5", 8, "0.985"), (80, "0.65", 2, "0.904"),
    (80, "1.5", 4, "0.967"), (80, "6.5", 11, "0.986"), (80, "10", 15, "0.988"), (80, "15", 22, "0.997"),
]  # fmt: skip


@given(st.fractions(0, 10**6, max_denominator=10**6))
def test_a_root_squared_is_the_number(value: Fraction) -> None:
    """The number lies between the squares of half a last decimal less and half of one more."""
    root, half = square_root(value), Fraction(1, 2 * 10**12)
    assert max(root - half, Fraction(0)) ** 2 <= value <= (root + half) ** 2


def test_what_cannot_be_is_refused() -> None:
    """The message names the value and the rule."""
    refusals: list[tuple[str, Callable[[], object]]] = [
        ("miscount", lambda: wilson_interval(21, 20)),
        ("miscount", lambda: wilson_interval(-1, 20)),
        ("at least one", lambda: wilson_interval(0, 0)),
        ("between 0 and 1", lambda: wilson_interval(1, 2, Fraction(95))),
        ("negative", lambda: square_root(Fraction(-1))),
    ]
    for words, doing in refusals:
        with pytest.raises(QuantityProblem, match=words):
            doing()
