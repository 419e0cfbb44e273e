"""A dough planned from what is wanted of it: preferment, hydration with egg water counted, and the water's temperature.

A percentage is a number out of a hundred of all the flour, the flour of the preferment with it.

The water's temperature is the sum bakers do: the dough wanted times the number of things that set it, less each of them
and less what the mixer adds. It holds for one mixer, one speed and one time: measure the friction of your own.

Caution: hands and sleeves stay out of a mixer that turns; it is cleaned only when it is unplugged. Raw flour and egg
are not eaten.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from trainer.messages import message
from trainer.recipe_math.dough import Liquid, weight_from_percentages
from trainer.recipe_math.quantity import TEMPERATURE_DIFFERENCE, Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.units import UNITS


@dataclass(frozen=True, slots=True)
class Preferment:
    """A part of the flour that is mixed the day before: its share of all flour and its own water, both in percent."""

    flour_percent: Fraction
    water_percent: Fraction

    def __post_init__(self) -> None:
        """Refuse more flour than there is, and water below nothing."""
        if not 0 <= self.flour_percent <= 100 or self.water_percent < 0:
            raise QuantityProblem(
                message(
                    "A preferment of {flour} % of the flour at {water} % water is not possible.",
                    flour=self.flour_percent,
                    water=self.water_percent,
                )
            )


NO_PREFERMENT = Preferment(Fraction(0), Fraction(0))


@dataclass(frozen=True, slots=True)
class DoughPlan:
    """What to weigh: for the preferment, and for the dough beside it. Water is what is poured, egg water counted."""

    preferment_flour: Quantity
    preferment_water: Quantity
    flour: Quantity
    water: Quantity
    others: Mapping[str, Quantity]
    dough: Quantity


def planned(
    flour: Quantity,
    hydration: Fraction,
    others: Mapping[str, Fraction],
    preferment: Preferment = NO_PREFERMENT,
    wet: Iterable[Liquid] = (),
) -> DoughPlan:
    """Return what to weigh for a dough of so much flour at a hydration, in the flour's unit.

    *others* are salt, yeast and the like, in percent of the flour; *wet* is egg and other wet things whose water
    counts. Where they and the preferment bring more water than is wanted: QuantityProblem, as for a flour of nothing.

    >>> fifth = Preferment(Fraction(20), Fraction(100))
    >>> plan = planned(Quantity.of(1000, "g"), Fraction(65), {"salt": Fraction(2)}, fifth)
    >>> print(plan.preferment_water, plan.flour, plan.water, plan.others["salt"], plan.dough)
    200 g 800 g 450 g 20 g 1670 g
    """
    weights = weight_from_percentages(flour, {**others, "water": hydration})
    all_water = weights.pop("water")
    early = flour * (preferment.flour_percent / 100)
    early_water = early * (preferment.water_percent / 100)
    liquids = list(wet)
    left = all_water - early_water
    for liquid in liquids:
        left -= liquid.water()
    if left.amount < 0:
        raise QuantityProblem(
            message(
                "{water} of water is more than a dough at {percent} % takes: less egg, or a drier preferment.",
                water=all_water - left,
                percent=hydration,
            )
        )
    dough = sum([*weights.values(), *(liquid.weight for liquid in liquids)], flour + early_water + left)
    return DoughPlan(early, early_water, flour - early, left, MappingProxyType(weights), dough)


def water_temperature(wanted: Quantity, parts: Iterable[Quantity], friction: Quantity) -> Quantity:
    """Return how warm the water must be for a dough of a temperature: wanted x (parts + 1) - the parts - the friction.

    *parts* are the temperatures of flour, room and, where there is one, preferment; *friction* is what mixing adds, a
    difference times the number of all parts, as bakers note it. Water that would be ice or steam: QuantityProblem, with
    what it comes to. Common practice: 76 °F wanted, flour 70, room 72, friction 26: water of 60 °F.

    >>> degrees = [Quantity.of(each, "°F") for each in (76, 70, 72)]
    >>> print(water_temperature(degrees[0], degrees[1:], Quantity.of(26, "°F difference")))
    60 °F
    """
    if friction.unit.dimension != TEMPERATURE_DIFFERENCE:
        raise WrongDimension(message("{friction} is no difference of temperatures.", friction=friction))
    unit = wanted.unit
    known = [part.to(unit).amount for part in parts]
    warmth = wanted.amount * (len(known) + 1) - sum(known) - friction.base / unit.factor
    water = Quantity(warmth, unit)
    if not 0 < water.to("°C").amount < 100:
        raise QuantityProblem(
            message("The water comes to {water}: chill or warm the flour, or use ice by weight.", water=water)
        )
    return water


def friction_of(dough: Quantity, water: Quantity, parts: Iterable[Quantity]) -> Quantity:
    """Return what mixing added, from a dough that was measured: dough x (parts + 1) - the parts - the water.

    >>> degrees = [Quantity.of(each, "°F") for each in (76, 60, 70, 72)]
    >>> print(friction_of(degrees[0], degrees[1], degrees[2:]))
    26 °F difference
    """
    unit = dough.unit
    known = [part.to(unit).amount for part in (water, *parts)]
    return Quantity(dough.amount * len(known) - sum(known), UNITS[f"{unit.symbol} difference"])
