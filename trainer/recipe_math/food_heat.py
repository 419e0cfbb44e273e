"""What foods are made of and how much heat they hold, with how far published figures lie apart: an estimate, in floats.

Compositions: USDA Standard Reference 26 (2013), by NDB number. Heat capacities were read in Geankoplis, Transport
Processes and Separation Process Principles, 4th ed., App. A.4-1; Earle, Unit Operations in Food Processing, App. 7;
Cengel and Boles, Thermodynamics, 8th ed., Table A-3. From memory: ASHRAE Handbook Refrigeration, ch. 19, Table 3, yolk
in Geankoplis, and sugar (NIST Chemistry WebBook, solid sucrose at 25 °C: 425 J/(mol K), 342.3 g/mol).

The curves of Choi and Okos in `heat` are tried against these: within 3 percent on milk, oil, butter and vegetables, but
high against the older tables, by 6 percent on cream, 8 on flour, 11 on yolk, 14 on whole egg; and dry sugar, which is a
crystal, holds a fifth less than the curve says. So a food has a least and a most, and what rests on its heat has too.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from trainer.messages import message
from trainer.recipe_math.estimates import above_zero
from trainer.recipe_math.figures import rounded_half_up
from trainer.recipe_math.heat import PURE_WATER, Composition, heat_beside_water, heat_capacity
from trainer.recipe_math.quantity import QuantityProblem

TRIED_AT_CELSIUS = 20


@dataclass(frozen=True, slots=True)
class FoodHeat:
    """What 100 g of a food are made of, and the least and most heat capacity published for it, in kJ/(kg K)."""

    made_of: Composition
    published: tuple[float, float]
    source: str

    def __post_init__(self) -> None:
        """Refuse a least above the most."""
        least, most = self.published
        if above_zero(least, message("a heat capacity")) > most:
            raise QuantityProblem(
                message(
                    "A heat capacity from {least} to {most} kJ/(kg K) runs backwards.",
                    least=f"{least:g}",
                    most=f"{most:g}",
                )
            )

    def span(self) -> tuple[float, float]:
        """Return the least and most heat capacity at 20 °C, the curve's own value taken in.

        >>> low, high = FOODS["yolk"].span()
        >>> low, round(high, 2)
        (2.81, 3.12)
        """
        own = heat_capacity(self.made_of, TRIED_AT_CELSIUS)
        return min(own, self.published[0]), max(own, self.published[1])


def least_heat_beside_water(food: FoodHeat) -> Fraction:
    """Return the least heat that any source has a food hold, gram for gram beside water, to two places.

    >>> least_heat_beside_water(FOODS["yolk"]), least_heat_beside_water(FOODS["whole_egg"])
    (Fraction(17, 25), Fraction(77, 100))
    """
    low = food.span()[0] / heat_capacity(food.made_of, TRIED_AT_CELSIUS)
    return Fraction(rounded_half_up(heat_beside_water(food.made_of) * Fraction(low) * 100), 100)


_SR26 = "USDA Standard Reference 26 (2013)"
FOODS: Mapping[str, FoodHeat] = MappingProxyType(
    {
        "water": FoodHeat(PURE_WATER, (4.184, 4.185), "pure water"),
        "yolk": FoodHeat(Composition(52.31, 15.86, 26.54, 3.59, 0, 1.71), (2.81, 3.05), f"{_SR26}, NDB 01125"),
        "whole_egg": FoodHeat(Composition(76.15, 12.56, 9.51, 0.72, 0, 1.06), (3.2, 3.63), f"{_SR26}, NDB 01123"),
        "egg_white": FoodHeat(Composition(87.57, 10.90, 0.17, 0.73, 0, 0.63), (3.85, 3.91), f"{_SR26}, NDB 01124"),
        "milk": FoodHeat(Composition(88.13, 3.15, 3.25, 4.80, 0, 0.67), (3.79, 3.90), f"{_SR26}, NDB 01077"),
        "heavy_cream": FoodHeat(Composition(57.71, 2.05, 37.00, 2.79, 0, 0.45), (3.06, 3.27), f"{_SR26}, NDB 01053"),
        "butter": FoodHeat(Composition(17.94, 0.85, 81.11, 0.06, 0, 0.04), (2.30, 2.40), f"{_SR26}, NDB 01145"),
        "olive_oil": FoodHeat(Composition(0, 0, 100), (2.01, 2.01), f"{_SR26}, NDB 04053"),
        "flour": FoodHeat(Composition(11.92, 10.33, 0.98, 76.31, 2.7, 0.47), (1.80, 1.88), f"{_SR26}, NDB 20481"),
        "sugar": FoodHeat(Composition(0, 0, 0, 100), (1.24, 1.25), f"{_SR26}, NDB 19335, as pure sucrose"),
    }
)
"""Foods by name: what a cook warms, cools and mixes, as far as sources were found."""
