"""Doughs: baker's percentages both ways, hydration with the water in eggs, flour from the dough wanted.

A percentage here is a number out of a hundred of the flour: Fraction(58) is 58 percent. All flours together are 100.

A worked batch (common practice: 7 lb durum flour and 3 lb semolina take a little over 3 lb of liquid, of which ten
large eggs are a little over 1 lb; ten minutes of mixing; portions of 6 to 7 oz). Take 3 lb 2 oz of liquid:

>>> from trainer.recipe_math.portions import portions_from
>>> flour = Quantity.of(7, "lb") + Quantity.of(3, "lb")
>>> eggs = Quantity.of(500, "g")                          # ten large without shells, 1.10 lb
>>> water = Quantity.of("3.125", "lb") - eggs             # what is left to pour, 2.02 lb
>>> number_text(hydration(flour, [Liquid(water), Liquid(eggs, Fraction("0.76"))]))
'28.6'
>>> dough = flour + eggs + water                          # 13 lb 2 oz
>>> portions_from(dough, Quantity.of(7, "oz")), portions_from(dough, Quantity.of(6, "oz"))
(30, 35)

So the batch is 31.25 parts of liquid but 28.6 parts of water on 100 of flour: counting eggs as water says 31.25,
forgetting them 20.2. Between 3 lb and 3 lb 4 oz of liquid the hydration runs from 27.4 to 29.9 percent. The tests work
these out by hand.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from trainer.messages import message
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word


@dataclass(frozen=True, slots=True)
class Liquid:
    """A weight of something wet, and the share of it that is water: water 1, whole egg 0.76."""

    weight: Quantity
    water_share: Fraction = Fraction(1)

    def water(self) -> Quantity:
        """Return the weight of water in it. The share is from 0 to 1 (QuantityProblem).

        >>> print(Liquid(Quantity.of(500, "g"), Fraction("0.76")).water())
        380 g
        """
        if not 0 <= self.water_share <= 1:
            raise QuantityProblem(
                message(
                    "A water share of {water_share} is not possible: it is from 0 to 1.", water_share=self.water_share
                )
            )
        return self.weight * self.water_share


def bakers_percentages(ingredients: Mapping[str, Quantity], flours: Collection[str]) -> dict[str, Fraction]:
    """Return each ingredient as a percentage of all flour together, in the order given.

    *flours* names which ingredients are flour; there is at least one, above zero (QuantityProblem). All are weights
    (WrongDimension). Example: Baker's Math slide set: 23 lb of water on 40 lb of flour is 57.5 percent.

    >>> bakers_percentages({"flour": Quantity.of(40, "lb"), "water": Quantity.of(23, "lb")}, ["flour"])["water"]
    Fraction(115, 2)
    """
    missing = [name for name in flours if name not in ingredients]
    if missing:
        raise QuantityProblem(message("There is no {names} among the ingredients.", names=", ".join(missing)))
    flour = _all_together([ingredients[name] for name in flours])
    share = 100 / flour
    return {name: share * _grams(weight) for name, weight in ingredients.items()}


def weight_from_percentages(flour: Quantity, percentages: Mapping[str, Fraction]) -> dict[str, Quantity]:
    """Return the weight of each ingredient, in the flour's unit, from its percentage of the flour.

    The flour is a weight above zero; no percentage is negative (QuantityProblem). Example: Baker's Math slide set,
    salt at 1.75 percent of 40 lb.

    >>> print(weight_from_percentages(Quantity.of(40, "lb"), {"salt": Fraction("1.75")})["salt"])
    0.7 lb
    """
    _all_together([flour])
    _refuse_negative(percentages)
    return {name: flour * (percent / 100) for name, percent in percentages.items()}


def flour_for_dough(dough: Quantity, percentages: Mapping[str, Fraction]) -> Quantity:
    """Return the flour that gives this weight of dough; *percentages* hold everything in the dough, the flour too.

    Dough x 100 / sum of the percentages. The flours must come to exactly 100 by themselves, which the sum cannot show,
    so a sum below 100 is refused (QuantityProblem). Example: baking note, 908 g of dough at 172 percent, 528 g flour.

    >>> parts = {"flour": Fraction(100), "water": Fraction(70), "salt": Fraction(2)}
    >>> number_text(flour_for_dough(Quantity.of(908, "g"), parts).amount, 0)
    '528'
    """
    _all_together([dough])
    _refuse_negative(percentages)
    total = sum(percentages.values(), Fraction(0))
    if total < 100:
        raise QuantityProblem(
            message("The percentages come to {total}: with the flour they are at least 100.", total=number_text(total))
        )
    return dough * (100 / total)


def hydration(flour: Quantity, liquids: Iterable[Liquid]) -> Fraction:
    """Return the water in all liquids as a percentage of the flour, egg water counted, egg solids not.

    The flour is every flour together, a weight above zero (QuantityProblem); liquids are weights too (WrongDimension).
    The moisture already in the flour is not counted, as bakers do. Whole egg: 0.76 of its weight, give or take 0.01.

    >>> egg, water = Liquid(Quantity.of(450, "g"), Fraction("0.76")), Liquid(Quantity.of(50, "g"))
    >>> hydration(Quantity.of(1000, "g"), [egg, water])
    Fraction(196, 5)
    """
    grams = _all_together([flour])
    return 100 * sum((_grams(liquid.water()) for liquid in liquids), Fraction(0)) / grams


def _all_together(weights: Iterable[Quantity]) -> Fraction:
    """Return the sum of weights in grams; it must be above zero."""
    total = sum((_grams(weight) for weight in weights), Fraction(0))
    if total <= 0:
        raise QuantityProblem(message("A dough needs flour: its weight must be above zero."))
    return total


def _grams(quantity: Quantity) -> Fraction:
    if quantity.unit.dimension != "mass":
        raise WrongDimension(
            message(
                "{quantity} is {kind}: weigh it, baker's percentages go by weight.",
                quantity=quantity,
                kind=kind_word(quantity.unit),
            )
        )
    return quantity.base


def _refuse_negative(percentages: Mapping[str, Fraction]) -> None:
    for name, percent in percentages.items():
        if percent < 0:
            raise QuantityProblem(
                message(
                    "{name} at {percent} percent: no percentage is negative.", name=name, percent=number_text(percent)
                )
            )
