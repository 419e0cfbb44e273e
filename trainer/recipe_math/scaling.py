"""Recipes made larger or smaller: the factor by what is wanted, by portion, or by what is on hand, and its use.

The factor is kept exact; round the scaled amounts, never the factor. Temperatures and times do not scale: a batch twice
the size bakes at the same heat, and how long it takes is watched, not worked out.
"""

from __future__ import annotations

from fractions import Fraction

from trainer.messages import message
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word

Much = Quantity | Fraction | int
"""An amount with its unit, or a plain count."""

_DOES_NOT_SCALE = frozenset({"temperature", "temperature difference", "duration", "share"})


def factor_by_yield(old: Much, new: Much) -> Fraction:
    """Return by how much to multiply a recipe that makes *old* so that it makes *new*.

    Two counts, or two quantities of one kind. Both must be above zero: QuantityProblem; WrongDimension for two kinds.
    Example: Armed Forces Recipe Service, General Information No. 1: a card for 100, 348 portions wanted.

    >>> factor_by_yield(100, 348)
    Fraction(87, 25)
    """
    return ratio(new, old)


def factor_by_portion(old: tuple[Much, Much], new: tuple[Much, Much]) -> Fraction:
    """Return the factor where both the number of portions and their size change; each is (portions, size of one).

    Errors as `factor_by_yield`. Example: Armed Forces Recipe Service, General Information No. 1: a card for 100
    portions of 1 cup, 348 portions of 3/4 cup wanted: 2.61.

    >>> factor_by_portion((100, Quantity.of(1, "cup")), (348, Quantity.of("3/4", "cup")))
    Fraction(261, 100)
    """
    return ratio(new[0], old[0]) * ratio(new[1], old[1])


def factor_by_ingredient(called_for: Much, on_hand: Much) -> Fraction:
    """Return the factor that uses up what is on hand of the ingredient that sets the size of the batch.

    Errors as `factor_by_yield`. Example: Armed Forces Recipe Service, General Information No. 1, card 1(3): the card
    calls for 30 lb, 102 lb are on hand.

    >>> factor_by_ingredient(Quantity.of(30, "lb"), Quantity.of(102, "lb"))
    Fraction(17, 5)
    """
    return ratio(on_hand, called_for)


def scaled(quantity: Quantity, factor: Fraction | int) -> Quantity:
    """Return the quantity multiplied by a factor, exactly, in its own unit.

    The factor must be above zero (QuantityProblem). Temperatures, differences, times and percentages are refused
    (WrongDimension): they stay as they are. Example: Armed Forces Recipe Service, General Information No. 1.

    >>> print(scaled(Quantity.of("1.25", "lb"), Fraction("3.48")))
    4.35 lb
    """
    if quantity.unit.dimension in _DOES_NOT_SCALE:
        raise WrongDimension(
            message(
                "{quantity} does not grow with the batch: a {kind} is not scaled.",
                quantity=quantity,
                kind=kind_word(quantity.unit),
            )
        )
    if factor <= 0:
        raise QuantityProblem(message("A factor of {factor} makes no recipe: it must be above zero.", factor=factor))
    return quantity * factor


def ratio(much: Much, of: Much) -> Fraction:
    """Return how many times *of* goes into *much*; both above zero (QuantityProblem), of one kind (WrongDimension).

    >>> ratio(Quantity.of(1, "lb"), Quantity.of(4, "oz"))
    Fraction(4, 1)
    """
    for given in (much, of):
        if (given.amount if isinstance(given, Quantity) else given) <= 0:
            raise QuantityProblem(message("{given} is no size for a batch: it must be above zero.", given=given))
    if isinstance(much, Quantity) and isinstance(of, Quantity):
        return much / of
    if isinstance(much, Quantity) or isinstance(of, Quantity):
        raise WrongDimension(
            message("{much} and {of} cannot be compared: give both a unit, or neither.", much=much, of=of)
        )
    return Fraction(much) / of
