"""Rounding by purpose: down for what is served, up for what is bought, nearest for what is weighed, cents for money.

Round once, at the end. A value halfway between two steps goes away from zero in `to_nearest`.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from trainer.messages import message
from trainer.recipe_math.figures import rounded_half_up
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word

CENT = Fraction(1, 100)


def to_nearest(value: Fraction, step: Fraction) -> Fraction:
    """Return the nearest multiple of a step; halfway goes away from zero.

    For what is weighed or measured. Raises QuantityProblem where the step is not above zero. The Armed Forces Recipe
    Service (General Information No. 1, card 1(2)) rounds ounces so, to the nearest quarter.

    >>> to_nearest(Fraction("5.60"), Fraction(1, 4)), to_nearest(Fraction(1, 8), Fraction(1, 4))
    (Fraction(11, 2), Fraction(1, 4))
    """
    return rounded_half_up(value / _good(step)) * step


def down_to(value: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """Return the multiple of a step at or below: for what can be served.

    >>> down_to(Fraction("33.95"))
    Fraction(33, 1)
    """
    return floor(value / _good(step)) * step


def up_to(value: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """Return the multiple of a step at or above: for what must be bought (27.6 cans: buy 28).

    The example is the corn of the USDA Food Buying Guide training slides.

    >>> up_to(Fraction("27.6"))
    Fraction(28, 1)
    """
    return ceil(value / _good(step)) * step


def weighed(quantity: Quantity, step: Quantity) -> Quantity:
    """Return the quantity as a scale with this division shows it, in the scale's own unit.

    Raises WrongDimension where the scale shows another kind.

    >>> print(weighed(Quantity.of("16.34", "oz"), Quantity.of("0.1", "oz")))
    16.3 oz
    """
    return Quantity(to_nearest(quantity.to(step.unit).amount, step.amount), step.unit)


def to_cents(money: Quantity) -> Quantity:
    """Return an amount of money in whole cents, halfway up.

    Raises WrongDimension for anything but money.

    >>> print(to_cents(Quantity.of("11.1333", "$")))
    11.13 $
    """
    if not money.unit.dimension.startswith("money:"):
        raise WrongDimension(message("{money} is {kind}, not money.", money=money, kind=kind_word(money.unit)))
    return Quantity(to_nearest(money.base, CENT) / money.unit.factor, money.unit)


def _good(step: Fraction) -> Fraction:
    if step <= 0:
        raise QuantityProblem(message("A step of {step} rounds nothing: it must be above zero.", step=step))
    return step
