"""Mean, spread, intervals for shares and capability, against printed values and scipy."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import sqrt
from statistics import fmean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta, binom, binomtest, norm, t

from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.statistics import (
    Interval,
    chance_at_most,
    cp,
    cpk,
    exact_interval,
    exact_lower,
    exact_upper,
    mean,
    mean_interval,
    sample_deviation,
    share_outside,
    square_root,
    wilson_interval,
    wilson_lower,
    wilson_upper,
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


def test_the_mean_of_all_lies_within_t_times_s_over_root_n() -> None:
    """Outside check: scipy.stats.t.interval on ten weighings."""
    weights = [168, 172, 171, 177, 169, 170, 173, 166, 174, 170]
    found = mean_interval([Fraction(weight) for weight in weights])
    low, high = t.interval(0.95, 9, fmean(weights), stdev(weights) / sqrt(10))
    assert float(found.low) == pytest.approx(low, abs=1e-5)
    assert float(found.high) == pytest.approx(high, abs=1e-5)


def test_nobody_has_a_mean_and_one_has_no_spread() -> None:
    """The message names the rule."""
    with pytest.raises(QuantityProblem, match="at least one"):
        mean([])
    with pytest.raises(QuantityProblem, match="at least two"):
        sample_deviation([Fraction(1)])


def test_wilson_on_one_side_as_the_handbook_sets_it_up() -> None:
    """NIST/SEMATECH e-Handbook 7.2.4.1: 26 of 200, one-sided 95 percent: 0.09577 (value: statsmodels 0.15.0)."""
    assert close(wilson_lower(26, 200), "0.09577", "5e-6")


def test_wilson_on_both_sides_of_three_in_twenty() -> None:
    """A public design document citing e-Handbook 7.2.4.1: 3 of 20: 5.2 percent; its 36.1 rounds 36.04 up."""
    found = wilson_interval(3, 20)
    assert close(100 * found.low, "5.2", "0.05")
    assert close(100 * found.high, "36.04", "0.005")


INTERVALS = [
    (9, 10, "0.5958", "0.9821", "0.5550", "0.9975"), (10, 10, "0.7225", "1", "0.6915", "1"),
    (18, 20, "0.6990", "0.9721", "0.6830", "0.9877"), (24, 25, "0.8046", "0.9929", "0.7965", "0.9990"),
    (12, 12, "0.7575", "1", "0.7354", "1"), (0, 12, "0", "0.2425", "0", "0.2646"),
]  # fmt: skip


@pytest.mark.parametrize(("count", "of", "low", "high", "exact_low", "exact_high"), INTERVALS)
def test_both_intervals_of_a_short_quiz(  # noqa: PLR0917 - a row of a table
    count: int, of: int, low: str, high: str, exact_low: str, exact_high: str
) -> None:
    """Wilson, and Clopper and Pearson, at 95 percent, worked out outside this project to four places."""
    wilson, exact = wilson_interval(count, of), exact_interval(count, of)
    assert close(wilson.low, low, "6e-5")
    assert close(wilson.high, high, "6e-5")
    assert close(exact.low, exact_low, "6e-5")
    assert close(exact.high, exact_high, "6e-5")


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


@given(COUNTS, st.sampled_from(["0.20", "0.50", "0.95"]))
def test_wilson_on_one_side_is_the_formula(counts: tuple[int, int], confidence: str) -> None:
    """e-Handbook 7.2.4.1's formula with the signed quantile of scipy.stats.norm; both sides mirror each other."""
    count, of = counts
    share, z = count / of, norm.ppf(float(confidence))
    middle, reach = share + z * z / (2 * of), z * sqrt(share * (1 - share) / of + z * z / (4 * of * of))
    expected = (middle - reach) / (1 + z * z / of)
    assert float(wilson_lower(count, of, Fraction(confidence))) == pytest.approx(expected, abs=2e-9)
    assert wilson_upper(of - count, of, Fraction(confidence)) == 1 - wilson_lower(count, of, Fraction(confidence))


def test_the_exact_interval_of_four_in_twenty() -> None:
    """e-Handbook 7.2.4.1 sets up 90 percent for 4 of 20; values by scipy 1.17.1: 0.0714 to 0.4010."""
    found = exact_interval(4, 20, Fraction("0.90"))
    assert close(found.low, "0.0714", "5e-5")
    assert close(found.high, "0.4010", "5e-5")


@given(COUNTS, st.sampled_from(["0.80", "0.95", "0.99"]))
def test_the_exact_interval_agrees_with_the_beta_distribution(counts: tuple[int, int], confidence: str) -> None:
    """Outside check: Clopper and Pearson by scipy.stats.beta.ppf, to nine decimals, never narrower."""
    count, of = counts
    left = (1 - float(confidence)) / 2
    low = beta.ppf(left, count, of - count + 1) if count else 0
    high = beta.ppf(1 - left, count + 1, of - count) if count < of else 1
    found = exact_interval(count, of, Fraction(confidence))
    assert (float(found.low), float(found.high)) == pytest.approx((low, high), abs=2e-9)


@given(COUNTS)
def test_the_exact_interval_never_leaves_out_more_than_it_says(counts: tuple[int, int]) -> None:
    """Clopper and Pearson's definition: at the high end so few, at the low end so many, have at most 2.5 percent."""
    (count, of), left = counts, Fraction("0.025")
    found = exact_interval(count, of)
    assert count == of or chance_at_most(count, of, found.high) <= left
    assert count == 0 or 1 - chance_at_most(count - 1, of, found.low) <= left


def test_three_hundred_pieces_are_the_most_the_exact_interval_takes() -> None:
    """Beyond it Wilson's is as good; the message says so."""
    assert exact_upper(0, 300) < Fraction(1, 100)
    with pytest.raises(QuantityProblem, match="Wilson"):
        exact_upper(0, 301)


PLANS = [
    (3, "4.0", 1, "0.885"), (3, "15", 2, "0.939"), (5, "2.5", 1, "0.881"), (5, "10", 2, "0.919"), (5, "15", 3, "0.973"),
    (8, "6.5", 2, "0.909"), (8, "10", 3, "0.962"), (8, "15", 4, "0.979"), (13, "1.0", 1, "0.878"),
    (13, "4.0", 2, "0.907"), (13, "10", 4, "0.966"), (13, "15", 6, "0.992"), (20, "0.65", 1, "0.878"),
    (20, "2.5", 2, "0.912"), (20, "4.0", 3, "0.956"), (20, "10", 6, "0.989"), (32, "1.5", 2, "0.917"),
    (32, "4.0", 4, "0.962"), (32, "6.5", 6, "0.984"), (32, "15", 11, "0.995"), (50, "1.0", 2, "0.911"),
    (50, "2.5", 4, "0.964"), (50, "4.0", 6, "0.986"), (50, "6.5", 8, "0.985"), (80, "0.65", 2, "0.904"),
    (80, "1.5", 4, "0.967"), (80, "6.5", 11, "0.986"), (80, "10", 15, "0.988"), (80, "15", 22, "0.997"),
]  # fmt: skip


@pytest.mark.parametrize(("taken", "percent", "reject_at", "passes"), PLANS)
def test_a_published_sampling_plan_mostly_passes_a_lot_at_its_level(
    taken: int, percent: str, reject_at: int, passes: str
) -> None:
    """MIL-STD-105E, codes B to J: sample, level and rejection number; chances by scipy 1.17.1, three decimals."""
    found = chance_at_most(reject_at - 1, taken, Fraction(percent) / 100)
    assert close(found, passes, "0.0005")


def test_the_chance_of_a_plan_to_four_decimals() -> None:
    """32 taken, 2 allowed, 2.5 percent bad: 0.9548 by scipy 1.17.1."""
    assert close(chance_at_most(2, 32, Fraction("0.025")), "0.9548", "5e-5")


@given(COUNTS, st.fractions(0, 1, max_denominator=50))
def test_binomial_chances_agree_with_scipy(counts: tuple[int, int], share: Fraction) -> None:
    """Outside check: scipy.stats.binom.cdf."""
    assert float(chance_at_most(*counts, share)) == pytest.approx(binom.cdf(*counts, float(share)), abs=1e-9)


def test_capability_as_the_handbook_works_it_out() -> None:
    """NIST/SEMATECH e-Handbook 6.1.6: limits 8 and 20, mean 16, deviation 2: Cp 1.0, Cpk 0.6667."""
    limits = Interval(Fraction(8), Fraction(20))
    assert cp(limits, Fraction(2)) == 1
    assert close(cpk(Fraction(16), limits, Fraction(2)), "0.6667", "5e-5")
    assert cpk(Fraction(12), limits, Fraction(2)) == cpk(Fraction(16), limits, Fraction(2))
    assert cpk(Fraction(14), limits, Fraction(2)) == 1
    assert close(cpk(Fraction(10), limits, Fraction(2)), "0.3333", "5e-5")
    assert cpk(Fraction(22), limits, Fraction(2)) < 0


def test_the_share_outside_follows_from_a_centred_capability() -> None:
    """NIST/SEMATECH e-Handbook 6.1.6 table: 64 per million goes with four deviations, a Cp of 4/3."""
    assert close(10**6 * share_outside(Fraction(4, 3)), "64", "1")


@given(st.fractions(0, 10**6, max_denominator=10**6))
def test_a_root_squared_is_the_number(value: Fraction) -> None:
    """The number lies between the squares of half a last decimal less and half of one more."""
    root, half = square_root(value), Fraction(1, 2 * 10**12)
    assert max(root - half, Fraction(0)) ** 2 <= value <= (root + half) ** 2


def test_what_cannot_be_is_refused() -> None:
    """The message names the value and the rule."""
    level = Interval(Fraction(8), Fraction(20))
    refusals: list[tuple[str, Callable[[], object]]] = [
        ("miscount", lambda: wilson_interval(21, 20)),
        ("miscount", lambda: exact_lower(-1, 20)),
        ("at least one", lambda: wilson_lower(0, 0)),
        ("between 0 and 1", lambda: wilson_upper(1, 2, Fraction(95))),
        ("between 0 and 1", lambda: exact_upper(1, 2, Fraction(0))),
        ("from 0 to 1", lambda: chance_at_most(1, 2, Fraction(3, 2))),
        ("above zero", lambda: cp(level, Fraction(0))),
        ("leave no room", lambda: cpk(Fraction(1), Interval(Fraction(8), Fraction(8)), Fraction(1))),
        ("negative", lambda: square_root(Fraction(-1))),
    ]
    for words, doing in refusals:
        with pytest.raises(QuantityProblem, match=words):
            doing()
