"""Egg bases and hot liquids for tempering: what they are made of, and how warm the base gets as liquid goes in.

Caution: raw egg and hot liquid. An estimate, and no word on whether egg is safe: the local code decides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from trainer.messages import Text, message
from trainer.recipe_math.estimates import METRIC, Writing, in_celsius
from trainer.recipe_math.food_heat import FOODS, TRIED_AT_CELSIUS, FoodHeat
from trainer.recipe_math.heat import COLDEST_CELSIUS, HOTTEST_CELSIUS, Composition, Part, density, heat_capacity, mixed
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.tempering import (
    MCGEE,
    WHITE,
    YOLK,
    EggState,
    HeatSpread,
    Pour,
    SettingBand,
    Tempering,
    egg_state,
    most_ladles,
    tempered,
)

MARGIN_CELSIUS = 2.0
"""How far below the band the base stays: texts differ by 2 to 3 °C on where it begins."""
STEPS = 48


@dataclass(frozen=True, slots=True)
class Food:
    """What a base or a liquid is called, and what is known of its heat, with the source."""

    name: Text
    known: FoodHeat

    @property
    def made_of(self) -> Composition:
        """Return what 100 g of it are made of."""
        return self.known.made_of


@dataclass(frozen=True, slots=True)
class Base:
    """An egg base: its food, and the band in which it sets."""

    food: Food
    band: SettingBand


BASES: Mapping[str, Base] = MappingProxyType(
    {
        "yolks": Base(Food(message("Yolks"), FOODS["yolk"]), YOLK),
        "whole": Base(Food(message("Whole eggs"), FOODS["whole_egg"]), SettingBand(WHITE.thickens_celsius, 73, MCGEE)),
    }
)
LIQUIDS: Mapping[str, Food] = MappingProxyType(
    {
        "water": Food(message("Water or thin stock"), FOODS["water"]),
        "milk": Food(message("Whole milk"), FOODS["milk"]),
        "cream": Food(message("Heavy cream"), FOODS["heavy_cream"]),
    }
)


@dataclass(frozen=True, slots=True)
class Bowl:
    """The base in its bowl: what, how much, how warm."""

    base: Base
    amount: Quantity
    temperature: Quantity


@dataclass(frozen=True, slots=True)
class Pot:
    """The hot liquid: what, how much there is, how hot, and how much one ladle holds."""

    liquid: Food
    amount: Quantity
    temperature: Quantity
    ladle: Quantity


@dataclass(frozen=True, slots=True)
class TemperingView:
    """The ladles, the curve of (grams of liquid, celsius of the base) to the last of the liquid, and the band.

    `most_ladles` is how many can go in before the egg may begin to set (None: all of the liquid can), and `all_at_once`
    how the egg stands with all of the liquid in it, at `all_celsius` and at most `all_at_most_celsius`.
    """

    tempering: Tempering
    curve: tuple[tuple[float, float], ...]
    band: SettingBand
    margin_celsius: float
    most_ladles: int | None
    all_celsius: float
    all_at_most_celsius: float
    all_at_once: EggState


def tempering_of(bowl: Bowl, pot: Pot, until: Quantity, writing: Writing = METRIC) -> TemperingView:
    """Return ladle by ladle how warm the base gets, and the whole curve, past where the ladles must stop.

    The hot liquid is hotter than the base, and what the base is to reach lies above it (QuantityProblem). Amounts are
    weights or volumes; a volume is weighed by the density of what it is (Choi and Okos, 1986). *writing* says which
    units the reason gives first.
    """
    cold, hot, wanted = (in_celsius(each) for each in (bowl.temperature, pot.temperature, until))
    _refuse_unknown_heat((bowl.temperature, pot.temperature), writing)
    if hot <= cold:
        raise QuantityProblem(
            message(
                "The liquid at {hot} is no hotter than the base at {cold}.", hot=pot.temperature, cold=bowl.temperature
            )
        )
    if wanted <= cold:
        raise QuantityProblem(
            message("The base is at {now} already, and {wanted} was asked for.", now=bowl.temperature, wanted=until)
        )
    base = Part.of_food(bowl.base.food.made_of, grams_of(bowl.amount, bowl.base.food, cold), cold)
    liquid = Part.of_food(pot.liquid.made_of, grams_of(pot.amount, pot.liquid, hot), hot)
    band, spread = bowl.base.band, spread_of(bowl.base.food, pot.liquid)
    pour = Pour(grams_of(pot.ladle, pot.liquid, hot), wanted, MARGIN_CELSIUS, spread)
    done = tempered(base, liquid, pour, band, writing)
    mix, at_most = mixed([base, liquid]).celsius, spread.warmest(base, liquid)
    most = most_ladles(base, liquid, pour, band)
    state = egg_state(mix, at_most, band)
    return TemperingView(done, _curve(base, liquid), band, MARGIN_CELSIUS, most, mix, at_most, state)


def spread_of(egg: Food, liquid: Food) -> HeatSpread:
    """Return how far published figures of this egg and this liquid lie from their curves, as shares.

    >>> spread = spread_of(BASES["yolks"].food, LIQUIDS["milk"])
    >>> round(spread.egg_least, 2), round(spread.liquid_most, 2)
    (0.9, 1.0)
    """
    least, most = egg.known.span()[0], liquid.known.span()[1]
    own, other = (heat_capacity(food.made_of, TRIED_AT_CELSIUS) for food in (egg, liquid))
    return HeatSpread(least / own, most / other)


def _refuse_unknown_heat(temperatures: Sequence[Quantity], writing: Writing) -> None:
    """Refuse what lies outside the curves of how foods take up heat."""
    for typed in temperatures:
        if not COLDEST_CELSIUS <= in_celsius(typed) <= HOTTEST_CELSIUS:
            coldest, hottest = writing.degrees(COLDEST_CELSIUS), writing.degrees(HOTTEST_CELSIUS)
            raise QuantityProblem(
                message(
                    "At {typed} nothing is known of the food: give {coldest} to {hottest}.",
                    typed=typed,
                    coldest=coldest,
                    hottest=hottest,
                )
            )


def grams_of(amount: Quantity, food: Food, celsius: float) -> float:
    """Return what an amount weighs in grams: a weight as it is, a volume by the density of the food when so warm.

    Anything else is WrongDimension.

    >>> round(grams_of(Quantity.of(1, "L"), LIQUIDS["water"], 20))
    996
    """
    if amount.unit.dimension == "volume":
        return float(amount.to("L").amount) * density(food.made_of, celsius)
    return float(amount.to("g").amount)


def _curve(base: Part, liquid: Part) -> tuple[tuple[float, float], ...]:
    poured = [liquid.grams * step / STEPS for step in range(1, STEPS + 1)]
    warmed = ((grams, mixed([base, Part(grams, liquid.celsius, liquid.heat)]).celsius) for grams in poured)
    return ((0.0, base.celsius), *warmed)
