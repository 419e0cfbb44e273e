"""Salt in water by weight, brines, and how much sanitizer concentrate makes a solution of so many parts per million.

A percentage is a number out of a hundred. Here salt is a percentage of the whole brine, not of the water alone: 100 g
of salt in 1 L is 9.1 percent of the brine and 10 percent on the water.

Caution: the sum for a sanitizer is a check on a label, never a recipe. Make it as the label of the product says, within
what the local code allows for food-contact surfaces; test it with the strip made for it; never mix it with another
cleaner or with anything sour (chlorine gas); wear what the label says; keep it marked and away from food. Too strong
poisons, too weak does nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from trainer.messages import message
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word

MILLION = 1_000_000


def salt_for_water(water: Quantity, percent: Fraction) -> Quantity:
    """Return the salt that makes this much water a brine of so many percent of the whole.

    A weight (WrongDimension) above zero, the percentage above 0 and below 100 (QuantityProblem).

    >>> print(salt_for_water(Quantity.of(950, "g"), Fraction(5)))
    50 g
    """
    _refuse_percent(percent)
    return _some(_weight(water)) * (percent / (100 - percent))


@dataclass(frozen=True, slots=True)
class Concentrate:
    """A sanitizer as bottled: the percentage of what works in it, from its label; above 0, at most 100."""

    percent: Fraction

    def __post_init__(self) -> None:
        """Refuse a strength that no bottle has."""
        if not 0 < self.percent <= 100:
            raise QuantityProblem(
                message(
                    "A concentrate of {percent} percent does not exist: read the label; it is above 0, at most 100.",
                    percent=self.percent,
                )
            )

    @property
    def ppm(self) -> Fraction:
        """Return the strength in parts per million.

        >>> Concentrate(Fraction("5.25")).ppm
        Fraction(52500, 1)
        """
        return self.percent / 100 * MILLION


def concentrate_for(solution: Quantity, ppm: Fraction, concentrate: Concentrate) -> Quantity:
    """Return how much concentrate is in a solution of so many parts per million; fill up with water to the volume.

    Volume of the solution times wanted strength over bottled strength. Volume (WrongDimension) above zero, strength
    above zero and below that of the bottle (QuantityProblem). A check on the label only: see the caution of this
    module. Weight and volume are taken as one, as labels do.

    >>> print(concentrate_for(Quantity.of(10, "L"), Fraction(100), Concentrate(Fraction(5))).to("mL"))
    20 mL
    """
    if not 0 < ppm < concentrate.ppm:
        raise QuantityProblem(
            message(
                "{wanted} ppm cannot be made of {bottled} ppm: it is above zero and weaker than the bottle.",
                wanted=number_text(ppm),
                bottled=number_text(concentrate.ppm),
            )
        )
    return _some(_volume(solution)) * (ppm / concentrate.ppm)


def _refuse_percent(percent: Fraction) -> None:
    if not 0 < percent < 100:
        raise QuantityProblem(
            message("A brine of {percent} percent is not possible: it is above 0 and below 100.", percent=percent)
        )


def _weight(quantity: Quantity) -> Quantity:
    if quantity.unit.dimension != "mass":
        raise WrongDimension(
            message(
                "{quantity} is {kind}: weigh it; a spoon of salt has no one weight.",
                quantity=quantity,
                kind=kind_word(quantity.unit),
            )
        )
    return quantity


def _volume(quantity: Quantity) -> Quantity:
    if quantity.unit.dimension != "volume":
        raise WrongDimension(
            message("{quantity} is {kind}: a volume is wanted.", quantity=quantity, kind=kind_word(quantity.unit))
        )
    return quantity


def _some(quantity: Quantity) -> Quantity:
    if quantity.amount <= 0:
        raise QuantityProblem(message("{quantity} is nothing to work with: it must be above zero.", quantity=quantity))
    return quantity
