"""Factors for tolerance limits: within mean give or take k standard deviations lies at least so much of all portions.

Worked out as an estimate, in floats, and handed back as fractions of five decimals. All of it supposes weights that
scatter like a normal distribution. Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.6.3.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import exp, lgamma, log, sqrt
from statistics import NormalDist

from trainer.recipe_math.quantiles import as_fraction
from trainer.recipe_math.quantity import QuantityProblem

MOST_WEIGHED = 1000
SUREST = Fraction("0.999")
_PLACES = 5
_SLICES = 4000
_HALVINGS = 60
_NORMAL = NormalDist()


def two_sided_factor(number: int, share: Fraction, confidence: Fraction) -> Fraction:
    """Return k2 (Howe's): mean give or take k2 x s holds at least this share, with this confidence.

    3 to 1000 weighed; share and confidence from 0.5 to 0.999 (QuantityProblem). Source: e-Handbook,
    section 7.2.6.3: 43 weighed, 0.90 of all, 0.99 sure: 2.217.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(two_sided_factor(43, Fraction("0.90"), Fraction("0.99")), 3)
    '2.217'
    """
    _refuse_odd(number, share, confidence)
    degrees, z = number - 1, _NORMAL.inv_cdf((1 + float(share)) / 2)
    return as_fraction(z * sqrt(degrees * (1 + 1 / number) / chi_square(1 - float(confidence), degrees)), _PLACES)


def one_sided_factor(number: int, share: Fraction, confidence: Fraction) -> Fraction:
    """Return k1: at least this share lies above mean - k1 x s, with this confidence. By the non-central t.

    Ranges as `two_sided_factor`. Good to four decimals. Source: e-Handbook, section 7.2.6.3: 43 weighed: 1.8740.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(one_sided_factor(43, Fraction("0.90"), Fraction("0.99")), 3)
    '1.874'
    """
    _refuse_odd(number, share, confidence)
    z, root, wanted = _NORMAL.inv_cdf(float(share)), sqrt(number), float(confidence)
    spreads = _spreads(number - 1)

    def surer(k: float) -> bool:
        return sum(weight * _NORMAL.cdf(root * (k * spread - z)) for spread, weight in spreads) >= wanted

    return as_fraction(_halved(surer), _PLACES)


def one_sided_factor_by_hand(number: int, share: Fraction, confidence: Fraction) -> Fraction:
    """Return k1 by Natrella's formula, for a pocket calculator: a little high for few weighed.

    Ranges as `two_sided_factor`; where too few are weighed for the confidence the formula breaks down and says so
    (QuantityProblem). Source: e-Handbook, section 7.2.6.3: 43 weighed, 1.8752; 6 weighed, 5.2808 against 4.4111.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(one_sided_factor_by_hand(6, Fraction("0.90"), Fraction("0.99")), 4)
    '5.2808'
    """
    _refuse_odd(number, share, confidence)
    z, sure = _NORMAL.inv_cdf(float(share)), _NORMAL.inv_cdf(float(confidence))
    a, b = 1 - sure**2 / (2 * (number - 1)), z**2 - sure**2 / number
    if a <= 0:
        raise QuantityProblem(f"{number} weighed are too few for this formula: use `one_sided_factor`, or weigh more.")
    return as_fraction((z + sqrt(z**2 - a * b)) / a, _PLACES)


def chi_square(level: float, degrees: int) -> float:
    """Return the value a chi-square with these degrees of freedom stays below with this probability; an estimate.

    Source: e-Handbook, section 7.2.6.3: 0.01, 42 degrees: 23.650.

    >>> round(chi_square(0.01, 42), 3)
    23.65
    """
    return 2 * _halved(lambda half: _gamma_share(degrees / 2, half) >= level)


def _gamma_share(shape: float, value: float) -> float:
    """Return the regularised lower incomplete gamma function, by its series."""
    term = total = 1 / shape
    step = shape
    while term > total / 10**17:
        step += 1
        term *= value / step
        total += term
    return min(total * exp(shape * log(value) - value - lgamma(shape)), 1.0)


def _halved(enough: Callable[[float], bool]) -> float:
    """Return the least value for which this holds, above zero: doubled until it is enough, then halved down."""
    low, high = 0.0, 1.0
    while not enough(high):
        low, high = high, 2 * high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high


def _spreads(degrees: int) -> list[tuple[float, float]]:
    """Return spreads a sample may show, over the true one, each with its chance: Simpson's rule on chi's density."""
    top = 1 + 12 / sqrt(2 * degrees)
    width = top / _SLICES
    scale = log(2) + degrees / 2 * log(degrees / 2) - lgamma(degrees / 2)
    chances = []
    for place in range(1, _SLICES + 1):
        spread = place * width
        density = exp(scale + (degrees - 1) * log(spread) - degrees * spread**2 / 2)
        weight = 1 if place == _SLICES else 4 if place % 2 else 2
        chances.append((spread, weight * density * width / 3))
    return chances


def _refuse_odd(number: int, share: Fraction, confidence: Fraction) -> None:
    if not 3 <= number <= MOST_WEIGHED:
        raise QuantityProblem(f"{number} weighed give no factor: it takes 3 to {MOST_WEIGHED}.")
    for given in (share, confidence):
        if not Fraction(1, 2) <= given <= SUREST:
            raise QuantityProblem(f"A share or confidence of {given} has no factor here: it is from 0.5 to 0.999.")
