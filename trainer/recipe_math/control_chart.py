"""Limits for a chart of daily samples: outside them something has changed, inside them it is the usual scatter.

Weigh a few portions of one thing every day, chart the mean and the standard deviation of each sample, and look for a
cause only where a point leaves its limits. The factors are worked out as an estimate, in floats, and handed back as
fractions of five decimals. Source of the method: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.1.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import exp, lgamma, sqrt

from trainer.recipe_math.quantiles import as_fraction
from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.statistics import Interval, mean, sample_deviation

_PLACES = 5


@dataclass(frozen=True, slots=True)
class ChartFactors:
    """The factors of a chart for samples of one size, under the names every table of them uses: c4, A3, B3, B4."""

    c4: Fraction
    a3: Fraction
    b3: Fraction
    b4: Fraction


@dataclass(frozen=True, slots=True)
class ChartLimits:
    """Where the means and the standard deviations of samples lie when nothing has changed, and their middles."""

    mean: Fraction
    means: Interval
    deviation: Fraction
    deviations: Interval


def chart_factors(size: int) -> ChartFactors:
    """Return the chart factors for samples of 2 to 100 (QuantityProblem), to five decimals.

    Source: e-Handbook, section 6.3.2.1; The Handbook for Quality Management (Pyzdek), Appendix B prints them.

    >>> from trainer.recipe_math.figures import number_text
    >>> factors = chart_factors(5)
    >>> number_text(factors.c4, 4), number_text(factors.a3, 3), number_text(factors.b3), number_text(factors.b4, 3)
    ('0.94', '1.427', '0', '2.089')
    """
    if not 2 <= size <= 100:
        raise QuantityProblem(f"Samples of {size} have no chart factors: weigh 2 to 100 at a time.")
    c4 = sqrt(2 / (size - 1)) * exp(lgamma(size / 2) - lgamma((size - 1) / 2))
    reach = 3 * sqrt(1 - c4**2) / c4
    return ChartFactors(
        *(as_fraction(one, _PLACES) for one in (c4, 3 / (c4 * sqrt(size)), max(0, 1 - reach), 1 + reach))
    )


def chart_limits(samples: Sequence[Sequence[Fraction]]) -> ChartLimits:
    """Return the limits from past samples, all of one size, of at least two weighings each (QuantityProblem).

    Means lie within the mean of means give or take A3 x the mean deviation; deviations from B3 to B4 times it. Common
    practice asks for twenty samples or more.

    >>> limits = chart_limits([[Fraction(99), Fraction(101)], [Fraction(100), Fraction(102)]])
    >>> limits.mean
    Fraction(201, 2)
    """
    sizes = {len(sample) for sample in samples}
    if len(sizes) != 1:
        raise QuantityProblem("A chart needs at least one sample, and samples all of one size.")
    factors = chart_factors(sizes.pop())
    middle = mean([mean(sample) for sample in samples])
    spread = mean([sample_deviation(sample) for sample in samples])
    reach = factors.a3 * spread
    return ChartLimits(
        middle, Interval(middle - reach, middle + reach), spread, Interval(factors.b3 * spread, factors.b4 * spread)
    )
