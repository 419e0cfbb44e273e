"""Heat in food from what it is made of, and the temperature of a mixture: an estimate, in floats.

The curves are those of Choi and Okos (1986), Food Engineering and Process Applications vol. 1, pp. 93-101. They hold
for unfrozen food from 0 to 150 °C. Tried on published heat capacities they come within 3 percent for milk, oil, butter
and seven vegetables, and lie up to 15 percent high against older tables of egg, cream and flour: how far sources lie
apart is in `food_heat`. A mixture is worked out as if no heat were lost and nothing boiled off, so a real pot ends
cooler: read a thermometer.

Caution: hot liquids and pans burn, and water thrown on a hot pan spits. What is worked out here says nothing about
whether food is cooked.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields
from fractions import Fraction
from types import MappingProxyType
from typing import Self

from trainer.messages import message
from trainer.recipe_math.estimates import a_temperature, above_zero, degrees, finite
from trainer.recipe_math.figures import rounded_half_up
from trainer.recipe_math.quantity import QuantityProblem

Curve = tuple[float, float, float]
"""c0 + c1 T + c2 T^2, with T in celsius."""

WATER: Curve = (4.1762, -9.0864e-5, 5.4731e-6)
"""Heat capacity of water, kJ/(kg K): Choi and Okos as tabled by Ibarz and Barbosa-Cánovas; 0.2 percent low at 20 °C."""
ICE: Curve = (2.0623, 6.0769e-3, 0.0)
"""Heat capacity of ice, kJ/(kg K): Choi and Okos; the slope is from memory."""
KJ_TO_MELT_A_KG = 334.0
"""Heat that melts 1 kg of ice at 0 °C: OpenStax College Physics 2e, section 14.3."""
COLDEST_CELSIUS, HOTTEST_CELSIUS = 0, 150
BETWEEN_CELSIUS = 40

_HEAT: Mapping[str, Curve] = MappingProxyType(
    {
        "protein": (2.0082, 1.2089e-3, -1.3129e-6),
        "fat": (1.9842, 1.4733e-3, -4.8008e-6),
        "carbohydrate": (1.5488, 1.9625e-3, -5.9399e-6),
        "fibre": (1.8459, 1.8306e-3, -4.6509e-6),
        "ash": (1.0926, 1.8896e-3, -3.6817e-6),
    }
)
_DENSITY: Mapping[str, Curve] = MappingProxyType(
    {
        "water": (997.18, 3.1439e-3, -3.7574e-3),
        "protein": (1329.9, -0.5184, 0.0),
        "fat": (925.59, -0.41757, 0.0),
        "carbohydrate": (1599.1, -0.31046, 0.0),
        "fibre": (1311.5, -0.36589, 0.0),
        "ash": (2423.8, -0.28063, 0.0),
    }
)
_NOT_KNOWN_OF_A_MIXTURE = (
    "heat lost to the air, and to a pot or bowl that is not among the parts",
    "steam that leaves, and heat taken up by melting fat or setting egg",
    "how evenly it is stirred: where hot meets cold it is hotter than the mixture",
)


@dataclass(frozen=True, slots=True)
class Composition:
    """What 100 g of a food hold, in grams, as food tables print it; the carbohydrate has its fibre in it.

    Tables round, so the parts may come to anything from 95 to 105 and are taken as shares of their sum.
    """

    water: float
    protein: float = 0.0
    fat: float = 0.0
    carbohydrate: float = 0.0
    fibre: float = 0.0
    ash: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what no food is made of."""
        for field in fields(self):
            if finite(getattr(self, field.name), message("{name} in grams", name=field.name)) < 0:
                raise QuantityProblem(
                    message(
                        "{grams} g of {name} is not possible: 0 or more.",
                        grams=f"{getattr(self, field.name):g}",
                        name=field.name,
                    )
                )
        if self.fibre > self.carbohydrate:
            raise QuantityProblem(
                message(
                    "{fibre} g of fibre is more than the carbohydrate: it is counted inside it.",
                    fibre=f"{self.fibre:g}",
                )
            )
        if not 95 <= self._sum() <= 105:
            raise QuantityProblem(
                message("The parts come to {sum} g: 100 g of food hold 100 g, give or take 5.", sum=f"{self._sum():g}")
            )

    def shares(self) -> dict[str, float]:
        """Return the share of each component, fibre apart from the rest of the carbohydrate; together they are 1.

        >>> Composition(water=50, carbohydrate=50, fibre=10).shares()["carbohydrate"]
        0.4
        """
        parts = {field.name: getattr(self, field.name) / self._sum() for field in fields(self)}
        return parts | {"carbohydrate": parts["carbohydrate"] - parts["fibre"]}

    def _sum(self) -> float:
        return self.water + self.protein + self.fat + self.carbohydrate + self.ash


PURE_WATER = Composition(water=100)


def heat_capacity(food: Composition, celsius: float, water: Curve = WATER) -> float:
    """Return the heat capacity of a food in kJ/(kg K): what warms 1 kg by 1 °C.

    The sum of the components by weight. Unfrozen, from 0 to 150 °C (QuantityProblem). *water* picks between two printed
    curves for water. Source: Choi and Okos (1986).

    >>> round(heat_capacity(Composition(water=0, fat=100), 20), 3)
    2.012
    """
    return _at(heat_curve(food, water), _in_range(celsius))


def heat_curve(food: Composition, water: Curve = WATER) -> Curve:
    """Return the heat capacity of a food as one curve over the temperature; source and limits as `heat_capacity`.

    >>> heat_curve(PURE_WATER) == WATER
    True
    """
    shares, curves = food.shares(), {**_HEAT, "water": water}
    c0, c1, c2 = (sum(share * curves[name][power] for name, share in shares.items()) for power in range(3))
    return c0, c1, c2


def heat_beside_water(food: Composition) -> Fraction:
    """Return how much heat a food holds gram for gram beside water, whose heat is 1, to two places.

    Taken at 40 °C, between a cold egg and a hot liquid. Errors and source as `heat_capacity`.

    >>> heat_beside_water(Composition(water=88.13, protein=3.15, fat=3.25, carbohydrate=4.80, ash=0.67))
    Fraction(93, 100)
    """
    ratio = heat_capacity(food, BETWEEN_CELSIUS) / heat_capacity(PURE_WATER, BETWEEN_CELSIUS)
    return Fraction(rounded_half_up(Fraction(ratio) * 100), 100)


def density(food: Composition, celsius: float) -> float:
    """Return the density of a food without air, in kg/m³ (grams in a litre).

    The volumes of the components are added. For liquids and solid pieces: a powder, a foam or a dough holds air and
    weighs less. Errors and source as `heat_capacity`.

    >>> round(density(Composition(water=0, fat=100), 20))
    917
    """
    _in_range(celsius)
    return 1 / sum(share / _at(_DENSITY[name], celsius) for name, share in food.shares().items())


@dataclass(frozen=True, slots=True)
class Part:
    """One thing that goes into a mixture: grams, celsius, and its heat capacity in kJ/(kg K) as a curve."""

    grams: float
    celsius: float
    heat: Curve

    def __post_init__(self) -> None:
        """Refuse a part without weight, or one that takes up no heat."""
        above_zero(self.grams, message("a weight in grams"))
        above_zero(_at(self.heat, a_temperature(self.celsius)), "a heat capacity")

    @classmethod
    def of_food(cls, food: Composition, grams: float, celsius: float) -> Self:
        """Return a part whose heat capacity follows from what it is made of; unfrozen, up to 150 °C.

        >>> Part.of_food(PURE_WATER, grams=500, celsius=95).grams
        500
        """
        return cls(grams, _in_range(celsius), heat_curve(food))

    def kilojoules_to(self, celsius: float) -> float:
        """Return the heat that brings this part to a temperature; below zero where it gives heat off.

        >>> Part(500, 20, (4.0, 0.0, 0.0)).kilojoules_to(30)
        20.0
        """
        return self.grams / 1000 * (_area(self.heat, celsius) - _area(self.heat, self.celsius))


@dataclass(frozen=True, slots=True)
class Ice:
    """Ice that goes into a mixture: grams, and its celsius, which is 0 or below."""

    grams: float
    celsius: float = 0.0

    def __post_init__(self) -> None:
        """Refuse ice above 0 °C."""
        above_zero(self.grams, message("a weight in grams"))
        if a_temperature(self.celsius) > 0:
            raise QuantityProblem(
                message("Ice at {celsius} is water: give it as water.", celsius=degrees(self.celsius))
            )


@dataclass(frozen=True, slots=True)
class Mixture:
    """What the parts come to: celsius when all is one temperature, grams of ice left, and what is not known."""

    celsius: float
    ice_left_grams: float
    not_known: tuple[str, ...]


def mixed(parts: Sequence[Part], ice: Ice | None = None) -> Mixture:
    """Return the temperature at which the heat given off equals the heat taken up, and the ice that has not melted.

    Ice warms to 0 °C, melts (334 kJ/kg) and goes on as water. Nothing is lost to the air: a real mixture of hot food
    ends cooler, and hotter for a moment where the hot part lands. At least one part; with ice, none of the others is
    below 0 °C, and what would freeze is refused (QuantityProblem). Energy balance: OpenStax College Physics 2e,
    sections 14.2 and 14.3.

    >>> water, pan = Part(250, 20, (4.186, 0.0, 0.0)), Part(500, 150, (0.900, 0.0, 0.0))
    >>> round(mixed([water, pan]).celsius, 1)
    59.1
    """
    if not parts:
        raise QuantityProblem(message("There is nothing to mix: give at least one part."))
    if ice is None:
        low, high = min(part.celsius for part in parts), max(part.celsius for part in parts)
        return Mixture(_balance(lambda celsius: _taken_up(parts, celsius), low, high), 0.0, _NOT_KNOWN_OF_A_MIXTURE)
    return _mixed_with_ice(parts, ice)


def _mixed_with_ice(parts: Sequence[Part], ice: Ice) -> Mixture:
    if min(part.celsius for part in parts) < 0:
        raise QuantityProblem(message("With ice, no other part may be below 0 °C: what freezes is not worked out."))
    kilograms = ice.grams / 1000
    warming = kilograms * (_area(ICE, 0) - _area(ICE, ice.celsius))
    melting = kilograms * KJ_TO_MELT_A_KG
    left_to_melt = -_taken_up(parts, 0) - warming
    if left_to_melt < 0:
        raise QuantityProblem(
            message("The ice is cold enough to freeze some of the rest: what freezes is not worked out.")
        )
    if left_to_melt <= melting:
        return Mixture(0.0, ice.grams * (1 - left_to_melt / melting), _NOT_KNOWN_OF_A_MIXTURE)
    together = [*parts, Part(ice.grams, 0.0, WATER)]
    high = max(part.celsius for part in parts)
    found = _balance(lambda celsius: _taken_up(together, celsius) + warming + melting, 0, high)
    return Mixture(found, 0.0, _NOT_KNOWN_OF_A_MIXTURE)


def _taken_up(parts: Sequence[Part], celsius: float) -> float:
    return sum(part.kilojoules_to(celsius) for part in parts)


def _balance(surplus: Callable[[float], float], low: float, high: float) -> float:
    """Return where the heat balance is even, by halving: it rises with the temperature."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if surplus(middle) > 0 else (middle, high)
    return (low + high) / 2


def _at(curve: Curve, celsius: float) -> float:
    return curve[0] + curve[1] * celsius + curve[2] * celsius**2


def _area(curve: Curve, celsius: float) -> float:
    """Return the area under the curve from 0 °C."""
    return curve[0] * celsius + curve[1] * celsius**2 / 2 + curve[2] * celsius**3 / 3


def _in_range(celsius: float) -> float:
    if not COLDEST_CELSIUS <= finite(celsius, message("a temperature in celsius")) <= HOTTEST_CELSIUS:
        raise QuantityProblem(
            message(
                "{celsius} is outside the curves: they hold for unfrozen food, 0 to 150 °C.", celsius=degrees(celsius)
            )
        )
    return celsius
