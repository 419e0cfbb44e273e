"""What to buy: from edible portion to as purchased, whole packs, and what the edible portion costs.

A share is a plain fraction of one: 80 percent is Fraction(4, 5).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from trainer.messages import message
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.scaling import Much, ratio


def edible_share(as_purchased: Quantity, trim: Quantity) -> Fraction:
    """Return the share of what was purchased that can be used once the trim is off.

    The trim is between nothing and all of it (QuantityProblem), of the same kind (WrongDimension). Example: The
    Ultimate Guide to Recipe Calculation (Culinary Institute of America): 80 oz of carrots, 8.8 oz of trim: 89 percent.

    >>> edible_share(Quantity.of(80, "oz"), Quantity.of("8.8", "oz"))
    Fraction(89, 100)
    """
    return _good_share(1 - trim / as_purchased)


def amount_to_buy(edible: Quantity, edible_share: Fraction) -> Quantity:
    """Return how much to purchase so that *edible* is left: edible portion divided by its share, exactly.

    The share is above 0 and at most 1 (QuantityProblem). Round up to what is sold with `packs_to_buy`. Two steps of
    loss are two calls, or one with the shares multiplied. Common practice.

    >>> print(amount_to_buy(Quantity.of(8, "lb"), Fraction(4, 5)))
    10 lb
    """
    return edible / _good_share(edible_share)


def units_for_servings(per_hundred: Much, servings: int, size_ratio: Fraction) -> Much:
    """Return how much to purchase: units for 100 servings x servings / 100 x wanted size / listed size.

    Nothing is rounded; buy whole units with `packs_to_buy`. Source: the formula of the USDA Food Buying Guide training
    slides; corn, 3.0 No. 10 cans per 100 servings of 1/4 cup, 460 servings of 1/2 cup.

    >>> units_for_servings(Fraction(3), 460, Fraction(2))
    Fraction(138, 5)
    """
    return per_hundred * (Fraction(servings, 100) * size_ratio)


def packs_to_buy(need: Much, per_pack: Much) -> int:
    """Return how many whole packs cover the need: always rounded up.

    Two counts or two quantities of one kind (WrongDimension), both above zero (QuantityProblem). Source: USDA Food
    Buying Guide training slides, 27.6 cans: buy 28.

    >>> packs_to_buy(Fraction("27.6"), 1), packs_to_buy(Quantity.of(30, "lb"), Quantity.of(10, "lb"))
    (28, 3)
    """
    return ceil(ratio(need, per_pack))


@dataclass(frozen=True, slots=True)
class OrderLine:
    """What is ordered for a need: so many packs of so much, and what is left over, in the unit of a pack."""

    needed: Quantity
    packs: int
    pack: Quantity

    @property
    def ordered(self) -> Quantity:
        """Return how much comes in altogether.

        >>> print(order_line(Quantity.of(12, "kg"), Fraction(4, 5), Quantity.of(10, "kg")).ordered)
        20 kg
        """
        return self.pack * self.packs

    @property
    def left_over(self) -> Quantity:
        """Return what comes in above the need.

        >>> print(order_line(Quantity.of(12, "kg"), Fraction(4, 5), Quantity.of(10, "kg")).left_over)
        5 kg
        """
        return self.ordered - self.needed


def order_line(edible: Quantity, edible_share: Fraction, pack: Quantity) -> OrderLine:
    """Return how many packs of so much cover an edible need after the loss: needed is as purchased.

    Errors as `amount_to_buy` and `packs_to_buy`. Example: USDA Food Buying Guide training slides: 27.6 No. 10 cans are
    28; here by weight, 12 kg edible at 80 percent in bags of 10 kg.

    >>> line = order_line(Quantity.of(12, "kg"), Fraction(4, 5), Quantity.of(10, "kg"))
    >>> print(line.packs, line.needed)
    2 15 kg
    """
    needed = amount_to_buy(edible, edible_share)
    return OrderLine(needed, packs_to_buy(needed, pack), pack)


@dataclass(frozen=True, slots=True)
class Pack:
    """What something is bought in, whole: the name of the unit (carton, case) and what one holds."""

    unit: str
    holds: Quantity


@dataclass(frozen=True, slots=True)
class PackOrder:
    """What is ordered for a need: how many of each pack, the largest first, and what is over."""

    packs: tuple[tuple[int, Pack], ...]
    over: Quantity


def ordered_in(needed: Quantity, packs: Sequence[Pack]) -> PackOrder:
    """Return whole packs that cover a need as purchased, rounded up once, in the smallest pack there is.

    The packs come smallest first (at least one). As many of the largest as the need fills, then of the next; the rest
    is rounded up, and where that would fill a larger pack it is one of those. Rounding up: USDA Food Buying Guide
    training slides, 27.6 cans: buy 28.

    >>> carton, case = Pack("carton", Quantity.of(2, "lb")), Pack("case", Quantity.of(30, "lb"))
    >>> order = ordered_in(Quantity.of(33, "lb"), [carton, case])
    >>> [(number, pack.unit) for number, pack in order.packs], str(order.over)
    ([(1, 'case'), (2, 'carton')], '1 lb')
    """
    smallest, *larger = packs
    numbers = {pack.unit: 0 for pack in reversed(packs)}
    left = needed
    for pack in reversed(larger):
        numbers[pack.unit] = floor(left / pack.holds)
        left = left - pack.holds * numbers[pack.unit]
    numbers[smallest.unit] = ceil(left / smallest.holds)
    for below, above in pairwise(packs):
        if below.holds * numbers[below.unit] >= above.holds:
            numbers[above.unit], numbers[below.unit] = numbers[above.unit] + 1, 0
    counted = tuple((numbers[pack.unit], pack) for pack in reversed(packs) if numbers[pack.unit])
    bought = sum((pack.holds.to(smallest.holds.unit.symbol) * number for number, pack in counted), smallest.holds * 0)
    return PackOrder(counted, bought - needed)


def edible_cost(price: Quantity, edible_share: Fraction) -> Quantity:
    """Return what a unit of edible portion costs where a unit as purchased costs *price*; not rounded.

    Errors as `amount_to_buy`. Common practice: $10 a pound at 80 percent is $12.50 a pound.

    >>> print(edible_cost(Quantity.of(10, "$"), Fraction(4, 5)))
    12.5 $
    """
    return price / _good_share(edible_share)


def _good_share(share: Fraction) -> Fraction:
    if not 0 < share <= 1:
        raise QuantityProblem(
            message(
                "A share of {share} is not usable: it must be above 0 and at most 1 (80 percent is 4/5).", share=share
            )
        )
    return share
