"""Mean, spread, and shares with their intervals, for weighings on a bench.

Figures go in and come out as exact fractions. What has a root or a quantile in it is rounded to nine decimals, once, at
the end; none of it goes through floats but the normal quantile. An interval says how far a share found on a few pieces
may lie from the share of all of them; with ten pieces it is wide, and that is the point of showing it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt, lcm

from trainer.messages import message
from trainer.recipe_math.quantiles import normal_quantile, two_sided
from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.rounding import to_nearest

CONFIDENCE = Fraction("0.95")
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
        raise QuantityProblem(message("No value has no mean: give at least one."))
    under = lcm(*(value.denominator for value in values))  # added as whole numbers over one denominator, for speed
    total = sum(value.numerator * (under // value.denominator) for value in values)
    return Fraction(total, under * len(values))


def sample_deviation(values: Sequence[Fraction]) -> Fraction:
    """Return the standard deviation of a sample, to nine decimals: squares about the mean over n - 1.

    At least two values (QuantityProblem). NIST Handbook 133 and the e-Handbook of Statistical Methods use n - 1.

    >>> sample_deviation([Fraction(2), Fraction(4), Fraction(6)])
    Fraction(2, 1)
    """
    if len(values) < 2:
        raise QuantityProblem(message("{number} value has no spread: give at least two.", number=len(values)))
    middle = mean(values)
    squares = sum(((value - middle) ** 2 for value in values), Fraction(0))
    return _rounded(square_root(squares / (len(values) - 1)))


def wilson_interval(count: int, of: int, confidence: Fraction = CONFIDENCE) -> Interval:
    """Return Wilson's interval, to nine decimals, for the share that *count* pieces out of *of* stand for.

    Never below 0 nor above 1, and not a point even when all or none are inside. The count is from 0 to *of*, of which
    there is at least one; the confidence between 0 and 1 (QuantityProblem).
    Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1.

    >>> from trainer.recipe_math.figures import number_text
    >>> inside = wilson_interval(18, 20)
    >>> number_text(inside.low, 3), number_text(inside.high, 3)
    ('0.699', '0.972')
    """
    return _wilson(count, of, two_sided(confidence))


def square_root(value: Fraction) -> Fraction:
    """Return the square root to twelve decimals; the value is not negative (QuantityProblem).

    >>> square_root(Fraction(9, 4)), square_root(Fraction(2))
    (Fraction(3, 2), Fraction(1414213562373, 1000000000000))
    """
    if value < 0:
        raise QuantityProblem(message("{value} has no square root: it is negative.", value=value))
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
        raise QuantityProblem(message("{of} pieces show nothing: give at least one.", of=of))
    if not 0 <= count <= of:
        raise QuantityProblem(message("{count} out of {of} is a miscount: it is from 0 to {of}.", count=count, of=of))


def _rounded(value: Fraction) -> Fraction:
    return to_nearest(value, _STEP)
