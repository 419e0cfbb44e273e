"""Salt in water by weight, brines, and how much sanitizer concentrate makes a solution of so many parts per million.

A percentage is a number out of a hundred. Two ways of saying it are in use, and a cook must know which one a recipe
means: salt as a percentage of the whole brine, or on the water alone. 100 g of salt in 1 L is 9.1 percent of the brine
and 10 percent on the water.

Caution: the sum for a sanitizer is a check on a label, never a recipe. Make it as the label of the product says, within
what the local code allows for food-contact surfaces; test it with the strip made for it; never mix it with another
cleaner or with anything sour (chlorine gas); wear what the label says; keep it marked and away from food. Too strong
poisons, too weak does nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from trainer.recipe_math.figures import number_text
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.scaling import ratio

MILLION = 1_000_000


def salt_percent(salt: Quantity, water: Quantity) -> Fraction:
    """Return the salt as a percentage of the whole brine, by weight: salt over salt and water.

    Both weights (WrongDimension), above zero (QuantityProblem). A litre of water weighs a kilogram near enough.

    >>> salt_percent(Quantity.of(50, "g"), Quantity.of(950, "g"))
    Fraction(5, 1)
    """
    return 100 * ratio(_weight(salt), _weight(water) + salt)


def salt_on_water_percent(salt: Quantity, water: Quantity) -> Fraction:
    """Return the salt as a percentage on the water alone, by weight. Errors as `salt_percent`.

    >>> salt_on_water_percent(Quantity.of(100, "g"), Quantity.of(1, "kg"))
    Fraction(10, 1)
    """
    return 100 * ratio(_weight(salt), _weight(water))


def salt_for_brine(brine: Quantity, percent: Fraction) -> Quantity:
    """Return the salt in a brine of this weight, salt and water together; the rest is water.

    The percentage is above 0 and below 100 (QuantityProblem), of the whole brine; the brine a weight (WrongDimension).

    >>> print(salt_for_brine(Quantity.of(1, "kg"), Fraction(5)).to("g"))
    50 g
    """
    _refuse_percent(percent)
    return _some(_weight(brine)) * (percent / 100)


def salt_for_water(water: Quantity, percent: Fraction) -> Quantity:
    """Return the salt that makes this much water a brine of so many percent of the whole. Errors as `salt_for_brine`.

    >>> print(salt_for_water(Quantity.of(950, "g"), Fraction(5)))
    50 g
    """
    _refuse_percent(percent)
    return _some(_weight(water)) * (percent / (100 - percent))


def salt_for_equilibrium(food: Quantity, water: Quantity, percent: Fraction) -> Quantity:
    """Return the salt for food left in its brine until both taste alike: so many percent of food, water and salt.

    It takes all of the food as if it were water, as kitchens do; how long that takes is not worked out. Curing with
    nitrite is no matter for this sum: follow the product's rule and the local code. Errors as `salt_for_brine`. Common
    practice.

    >>> print(salt_for_equilibrium(Quantity.of(990, "g"), Quantity.of(970, "g"), Fraction(2)))
    40 g
    """
    return salt_for_water(_some(_weight(food)) + _some(_weight(water)), percent)


def salt_for_volume(water: Quantity, per_litre: Quantity) -> Quantity:
    """Return the salt for a pot of water by volume, from a weight of salt a litre.

    Water a volume, salt a weight (WrongDimension), both above zero (QuantityProblem). Sources disagree for pasta: 10
    g/L in an Italian cookery article, 25 g on 4 L in a professional text, 5 oz on 12 gal on Armed Forces card E-4.

    >>> print(salt_for_volume(Quantity.of(4, "L"), Quantity.of("6.25", "g")))
    25 g
    """
    return _some(_weight(per_litre)) * _some(_volume(water)).over(Quantity.of(1, "L"))


@dataclass(frozen=True, slots=True)
class Concentrate:
    """A sanitizer as bottled: the percentage of what works in it, from its label; above 0, at most 100."""

    percent: Fraction

    def __post_init__(self) -> None:
        """Refuse a strength that no bottle has."""
        if not 0 < self.percent <= 100:
            raise QuantityProblem(
                f"A concentrate of {self.percent} percent does not exist: read the label; it is above 0, at most 100."
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
        told = f"{number_text(ppm)} ppm cannot be made of {number_text(concentrate.ppm)} ppm"
        raise QuantityProblem(f"{told}: it is above zero and weaker than the bottle.")
    return _some(_volume(solution)) * (ppm / concentrate.ppm)


def strength_of(poured: Quantity, solution: Quantity, concentrate: Concentrate) -> Fraction:
    """Return the parts per million that a poured amount of concentrate gives in this much solution, water included.

    Both volumes (WrongDimension), above zero; no more poured than there is solution (QuantityProblem). A test strip
    decides, not this sum: chlorine fades with heat, light and dirt. Caution: see this module.

    >>> strength_of(Quantity.of(20, "mL"), Quantity.of(10, "L"), Concentrate(Fraction(5)))
    Fraction(100, 1)
    """
    share = ratio(_volume(poured), _volume(solution))
    if share > 1:
        raise QuantityProblem(f"{poured} is more than the {solution} it is in: give the whole solution.")
    return share * concentrate.ppm


def _refuse_percent(percent: Fraction) -> None:
    if not 0 < percent < 100:
        raise QuantityProblem(f"A brine of {percent} percent is not possible: it is above 0 and below 100.")


def _weight(quantity: Quantity) -> Quantity:
    if quantity.unit.dimension != "mass":
        raise WrongDimension(f"{quantity} is {quantity.unit.dimension}: weigh it; a spoon of salt has no one weight.")
    return quantity


def _volume(quantity: Quantity) -> Quantity:
    if quantity.unit.dimension != "volume":
        raise WrongDimension(f"{quantity} is {quantity.unit.dimension}: a volume is wanted.")
    return quantity


def _some(quantity: Quantity) -> Quantity:
    if quantity.amount <= 0:
        raise QuantityProblem(f"{quantity} is nothing to work with: it must be above zero.")
    return quantity
