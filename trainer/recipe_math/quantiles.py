"""Quantiles of the normal distribution, for intervals about a share.

Worked out by the standard library (an estimate, in floats) and handed back as fractions of ten decimals.
"""

from __future__ import annotations

from fractions import Fraction
from statistics import NormalDist

from trainer.messages import message
from trainer.recipe_math.quantity import QuantityProblem

PLACES = 10


def normal_quantile(level: Fraction) -> Fraction:
    """Return the value that a standard normal stays below with this probability, to ten decimals.

    The level lies between 0 and 1, neither of them (QuantityProblem). NIST/SEMATECH e-Handbook of Statistical Methods,
    section 7.2.4.1, uses 1.645 for 95 percent.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(normal_quantile(Fraction("0.95")), 3)
    '1.645'
    """
    _refuse_certain(level)
    return as_fraction(NormalDist().inv_cdf(float(level)))


def two_sided(confidence: Fraction) -> Fraction:
    """Return the one-sided level that leaves the same on either side: 0.975 for a confidence of 0.95.

    The confidence lies between 0 and 1, neither of them (QuantityProblem).

    >>> two_sided(Fraction("0.95"))
    Fraction(39, 40)
    """
    _refuse_certain(confidence)
    return (1 + confidence) / 2


def as_fraction(figure: float, places: int = PLACES) -> Fraction:
    """Return a float as the fraction of its decimals.

    >>> as_fraction(0.125, 2)
    Fraction(3, 25)
    """
    return Fraction(f"{figure:.{places}f}")


def _refuse_certain(level: Fraction) -> None:
    if not 0 < level < 1:
        raise QuantityProblem(
            message("A level of {level} is not possible: it lies between 0 and 1 (95 percent is 19/20).", level=level)
        )
