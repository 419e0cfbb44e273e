"""Mean, spread, shares with their intervals, and how a spread compares with its limits, for weighings on a bench.

Figures go in and come out as exact fractions. What has a root or a quantile in it is rounded to nine decimals, once, at
the end; none of it goes through floats but the normal quantile. An interval says how far a share found on a few pieces
may lie from the share of all of them; with ten pieces it is wide, and that is the point of showing it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import comb, isqrt

from trainer.recipe_math.quantiles import normal_quantile, normal_share_below, t_quantile, two_sided
from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.saying import say

CONFIDENCE = Fraction("0.95")
MOST_COUNTED = 300
"""Exact intervals are worked out for no more pieces than this; Wilson's is as good long before."""
_STEP = Fraction(1, 10**9)


@dataclass(frozen=True, slots=True)
class Interval:
    """From the low end to the high end, both included."""

    low: Fraction
    high: Fraction


def mean(values: Sequence[Fraction]) -> Fraction:
    """Return the mean, exactly. There is at least one value (QuantityProblem).

    >>> mean([Fraction(5), Fraction(6), Fraction(10)])
    Fraction(7, 1)
    """
    if not values:
        raise QuantityProblem("No value has no mean: give at least one.")
    return sum(values, Fraction(0)) / len(values)


def sample_deviation(values: Sequence[Fraction]) -> Fraction:
    """Return the standard deviation of a sample, to nine decimals: squares about the mean over n - 1.

    At least two values (QuantityProblem). NIST Handbook 133 and the e-Handbook of Statistical Methods use n - 1.

    >>> sample_deviation([Fraction(2), Fraction(4), Fraction(6)])
    Fraction(2, 1)
    """
    if len(values) < 2:
        raise QuantityProblem(say("{number} value has no spread: give at least two.", number=len(values)))
    middle = mean(values)
    squares = sum(((value - middle) ** 2 for value in values), Fraction(0))
    return _rounded(square_root(squares / (len(values) - 1)))


def mean_interval(values: Sequence[Fraction], confidence: Fraction = CONFIDENCE) -> Interval:
    """Return the interval for the mean of all, from a sample: mean give or take t x s / root of n, to nine decimals.

    Two to 121 values, confidence 0.80, 0.90, 0.95, 0.98 or 0.99 (QuantityProblem). It supposes values that scatter like
    a normal distribution. Common practice.

    >>> around = mean_interval([Fraction(98), Fraction(100), Fraction(102)])
    >>> around.low + around.high == 200
    True
    """
    middle, number = mean(values), len(values)
    reach = sample_deviation(values) * t_quantile(two_sided(confidence), number - 1) / square_root(Fraction(number))
    return Interval(_rounded(middle - reach), _rounded(middle + reach))


def wilson_interval(count: int, of: int, confidence: Fraction = CONFIDENCE) -> Interval:
    """Return Wilson's interval, to nine decimals, for the share that *count* pieces out of *of* stand for.

    Never below 0 nor above 1, and not a point even when all or none are inside. The count is from 0 to *of*, of which
    there is at least one; the confidence between 0 and 1 (QuantityProblem). For one side only, see `wilson_lower`.
    Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1.

    >>> from trainer.recipe_math.figures import number_text
    >>> inside = wilson_interval(18, 20)
    >>> number_text(inside.low, 3), number_text(inside.high, 3)
    ('0.699', '0.972')
    """
    return _wilson(count, of, two_sided(confidence))


def wilson_lower(count: int, of: int, confidence: Fraction = CONFIDENCE) -> Fraction:
    """Return the share there is at least, with this confidence on one side, to nine decimals. As `wilson_interval`.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(wilson_lower(26, 200), 5)
    '0.09577'
    """
    return _wilson(count, of, confidence).low


def wilson_upper(count: int, of: int, confidence: Fraction = CONFIDENCE) -> Fraction:
    """Return the share there is at most, with this confidence on one side, to nine decimals. As `wilson_interval`.

    >>> wilson_upper(26, 200) == 1 - wilson_lower(174, 200)
    True
    """
    return _wilson(count, of, confidence).high


def exact_interval(count: int, of: int, confidence: Fraction = CONFIDENCE) -> Interval:
    """Return the exact binomial interval (Clopper and Pearson), to nine decimals, widened outward in the last.

    Found by halving, on exact binomial sums: wider than Wilson's, never below the confidence. Errors as
    `wilson_interval`; at most 300 pieces. Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1,
    which takes 90 percent for 4 out of 20.

    >>> from trainer.recipe_math.figures import number_text
    >>> found = exact_interval(4, 20, Fraction("0.90"))
    >>> number_text(found.low, 4), number_text(found.high, 4)
    ('0.0714', '0.401')
    """
    one_side = two_sided(confidence)
    return Interval(exact_lower(count, of, one_side), exact_upper(count, of, one_side))


def exact_lower(count: int, of: int, confidence: Fraction = CONFIDENCE) -> Fraction:
    """Return the share there is at least, exactly, with this confidence on one side. As `exact_interval`.

    >>> exact_lower(0, 20)
    Fraction(0, 1)
    """
    _refuse_miscount(count, of)
    return 1 - exact_upper(of - count, of, confidence)


def exact_upper(count: int, of: int, confidence: Fraction = CONFIDENCE) -> Fraction:
    """Return the share there is at most, exactly, with this confidence on one side. As `exact_interval`.

    >>> exact_upper(20, 20)
    Fraction(1, 1)
    """
    _refuse_miscount(count, of)
    if of > MOST_COUNTED:
        raise QuantityProblem(f"{of} pieces are too many for the exact interval ({MOST_COUNTED}): use Wilson's.")
    left_out = 1 - _confidence(confidence)
    low, high = 0, 10**9
    while high - low > 1:
        middle = (low + high) // 2
        if chance_at_most(count, of, middle * _STEP) <= left_out:
            high = middle
        else:
            low = middle
    return high * _STEP


def chance_at_most(count: int, of: int, share: Fraction) -> Fraction:
    """Return the chance, exactly, of at most *count* pieces out of *of* where each has this share's chance.

    Also how likely a sampling plan with this acceptance number lets a lot pass. Share from 0 to 1, counts as
    `wilson_interval` (QuantityProblem). Source: the binomial distribution.

    >>> chance_at_most(0, 3, Fraction(1, 2))
    Fraction(1, 8)
    """
    _refuse_miscount(count, of)
    if not 0 <= share <= 1:
        raise QuantityProblem(f"A chance of {share} is not possible: it is from 0 to 1.")
    yes, whole = share.numerator, share.denominator
    ways = sum(comb(of, some) * yes**some * (whole - yes) ** (of - some) for some in range(count + 1))
    return Fraction(ways, whole**of)


def cp(limits: Interval, deviation: Fraction) -> Fraction:
    """Return Cp: the width of the limits over six standard deviations, exactly. It says nothing about the middle.

    The deviation is above zero, the high limit above the low one (QuantityProblem). Source: NIST/SEMATECH e-Handbook
    of Statistical Methods, section 6.1.6: limits 8 and 20, deviation 2: 1.0.

    >>> cp(Interval(Fraction(8), Fraction(20)), Fraction(2))
    Fraction(1, 1)
    """
    _refuse_no_width(limits, deviation)
    return (limits.high - limits.low) / (6 * deviation)


def cpk(middle: Fraction, limits: Interval, deviation: Fraction) -> Fraction:
    """Return Cpk: from the mean to the nearer limit over three standard deviations; below zero where it lies outside.

    Errors as `cp`. Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.1.6: mean 16: 0.6667.

    >>> cpk(Fraction(16), Interval(Fraction(8), Fraction(20)), Fraction(2))
    Fraction(2, 3)
    """
    _refuse_no_width(limits, deviation)
    return min(limits.high - middle, middle - limits.low) / (3 * deviation)


def share_outside(cp_of_centred: Fraction) -> Fraction:
    """Return the share that falls outside both limits, to ten decimals, where the mean is central and all is normal.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.1.6: 0.27 percent at a Cp of 1.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(100 * share_outside(Fraction(1)), 2)
    '0.27'
    """
    return 2 * normal_share_below(-3 * cp_of_centred)


def square_root(value: Fraction) -> Fraction:
    """Return the square root to twelve decimals; the value is not negative (QuantityProblem).

    >>> square_root(Fraction(9, 4)), square_root(Fraction(2))
    (Fraction(3, 2), Fraction(1414213562373, 1000000000000))
    """
    if value < 0:
        raise QuantityProblem(f"{value} has no square root: it is negative.")
    twice = isqrt(4 * value.numerator * 10**24 // value.denominator)
    return Fraction((twice + 1) // 2, 10**12)


def _wilson(count: int, of: int, level: Fraction) -> Interval:
    _refuse_miscount(count, of)
    share, square = Fraction(count, of), normal_quantile(level) ** 2
    weight = 1 + square / of
    middle = (share + square / (2 * of)) / weight
    reach = square_root(square * (share * (1 - share) / of + square / (4 * of * of))) / weight
    if level < Fraction(1, 2):
        reach = -reach
    return Interval(_rounded(middle - reach), _rounded(middle + reach))


def _refuse_miscount(count: int, of: int) -> None:
    if of < 1:
        raise QuantityProblem(f"{of} pieces show nothing: give at least one.")
    if not 0 <= count <= of:
        raise QuantityProblem(f"{count} out of {of} is a miscount: it is from 0 to {of}.")


def _refuse_no_width(limits: Interval, deviation: Fraction) -> None:
    if limits.high <= limits.low:
        raise QuantityProblem(f"Limits from {limits.low} to {limits.high} leave no room: the high one is above.")
    if deviation <= 0:
        raise QuantityProblem(f"A deviation of {deviation} compares with nothing: it must be above zero.")


def _confidence(confidence: Fraction) -> Fraction:
    if not 0 < confidence < 1:
        raise QuantityProblem(f"A confidence of {confidence} is not possible: it lies between 0 and 1.")
    return confidence


def _rounded(value: Fraction) -> Fraction:
    return to_nearest(value, _STEP)
