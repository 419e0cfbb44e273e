"""What does not grow in proportion when a batch does: seasoning, water that steams off, time in another depth.

Each is a first guess, to be tasted or measured, and says where it comes from.

- Seasoning: a spice maker's handbook, "Scaling up recipes": spices and salt in proportion; herbs, nutmeg and mace in
  proportion to twice the recipe, then half of the first amount for each further recipe; hot red pepper a quarter.
- Leavener: in proportion; it is weighed, never rounded (see `rounding_guide`). A deeper batter takes longer to set.
- Water lost: by the open surface and the time at one boil, not by the batch (the rate of evaporation goes with the
  surface: OpenStax College Physics 2e, section 13.6, in words).
- Time by depth: `thickness.guess_for_thickness`.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from trainer.messages import message
from trainer.recipe_math.bakeware import Floor
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.scaling import scaled

DOUBLE = 2


class Grows(StrEnum):
    """How a seasoning grows beyond twice the recipe."""

    SPICE = "spice"
    HERB = "herb"
    HOT_PEPPER = "hot pepper"


SHARE_BEYOND_DOUBLE: Mapping[Grows, Fraction] = MappingProxyType(
    {Grows.SPICE: Fraction(1), Grows.HERB: Fraction(1, 2), Grows.HOT_PEPPER: Fraction(1, 4)}
)
"""How much of the first amount each further recipe takes."""


def first_seasoning(amount: Quantity, factor: Fraction | int, grows: Grows) -> Quantity:
    """Return how much of a seasoning to begin with in a batch so many times the recipe; then taste.

    Up to twice the recipe in proportion; beyond it each further recipe takes only a share of the first amount. The
    factor is above zero (QuantityProblem).

    >>> [str(first_seasoning(Quantity.of(2, "tsp"), 5, kind)) for kind in Grows]
    ['10 tsp', '7 tsp', '5.5 tsp']
    """
    if factor <= DOUBLE:
        return scaled(amount, factor)
    return scaled(amount, DOUBLE + (factor - DOUBLE) * SHARE_BEYOND_DOUBLE[grows])


def water_lost(lost: Quantity, old: Floor, new: Floor, time_ratio: Fraction = Fraction(1)) -> Quantity:
    """Return how much water steams off another pot: what the old one lost x open surfaces x times, at the same boil.

    The loss and the ratio are above zero (QuantityProblem).

    >>> from trainer.recipe_math.bakeware import circular
    >>> print(water_lost(Quantity.of(1, "L"), circular(Quantity.of(20, "cm")), circular(Quantity.of(40, "cm"))))
    4 L
    """
    return scaled(lost, new.over(old) * _some(time_ratio))


def time_to_reduce(time: Quantity, pots: tuple[Floor, Floor], batch: Fraction) -> Quantity:
    """Return how long a batch so many times as large takes to reduce as far, in another pot, at the same boil.

    *pots* are the old and the new open surface. Twice the stock in the same pot takes twice the time. The time is
    above zero, and so is the batch (QuantityProblem).

    >>> from trainer.recipe_math.bakeware import circular
    >>> small, wide = circular(Quantity.of(20, "cm")), circular(Quantity.of(40, "cm"))
    >>> print(time_to_reduce(Quantity.of(30, "min"), (small, wide), Fraction(2)))
    15 min
    """
    old, new = pots
    return time * (_some(batch) / new.over(old))


def _some(ratio: Fraction) -> Fraction:
    if ratio <= 0:
        raise QuantityProblem(message("A ratio of {ratio} means nothing: it must be above zero.", ratio=ratio))
    return ratio
