"""What a measure of a food weighs, and how far it may be off: weight from volume and back, never to the last gram.

Weights of measures: USDA National Nutrient Database for Standard Reference, Release 26 (2013), file WEIGHT, by NDB
number. How far off: a liquid reads alike to 2 in a hundred, what is spooned and leveled to 5 (common practice); what
is poured dry (flour, sugar, salt, rice, grated cheese) weighs by how it is filled, to 10 (from memory). Kosher salt
differs twofold by brand, so it is not here. A scale is better than any of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from trainer.messages import Message, Text, message
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word
from trainer.recipe_math.units import UNITS

LIQUID, SPOONED, BULK = (Fraction(percent) for percent in (2, 5, 10))


@dataclass(frozen=True, slots=True)
class Density:
    """What one measure of a food weighs, by how many percent a measure may be off, and where it is read."""

    name: Message
    grams: Fraction
    measure: Quantity
    off_percent: Fraction
    source: Text

    def __post_init__(self) -> None:
        """Refuse a measure that weighs nothing, and one that may be off by all of it."""
        if self.grams <= 0 or not 0 <= self.off_percent < 100:
            raise QuantityProblem(
                message(
                    "{grams} g, give or take {percent} %, is no weight of a measure.",
                    grams=self.grams,
                    percent=self.off_percent,
                )
            )

    @property
    def grams_per_millilitre(self) -> Fraction:
        """Return the density in grams a millilitre, exactly.

        >>> from trainer.recipe_math.figures import number_text
        >>> number_text(DENSITIES["honey"].grams_per_millilitre, 3)
        '1.433'
        """
        return self.grams / self.measure.to("mL").amount


@dataclass(frozen=True, slots=True)
class Between:
    """An amount as it is on the whole, and the least and most it may be."""

    least: Quantity
    about: Quantity
    most: Quantity


def weight_of(volume: Quantity, food: str) -> Between:
    """Return what a volume of a food weighs, in grams. A food that is not known: QuantityProblem.

    >>> flour = weight_of(Quantity.of(1, "cup"), "flour")
    >>> print(flour.about, "from", flour.least, "to", flour.most)
    125 g from 112.5 g to 137.5 g
    """
    _refuse_kind(volume, "volume")
    density = _known(food)
    return _between(volume.base * density.grams_per_millilitre, "g", density)


def volume_of(weight: Quantity, food: str) -> Between:
    """Return the volume that a weight of a food takes up, in millilitres. Errors as `weight_of`.

    >>> print(volume_of(Quantity.of(200, "g"), "sugar").about.to("cup"))
    1 cup
    """
    _refuse_kind(weight, "mass")
    density = _known(food)
    return _between(weight.base / density.grams_per_millilitre, "mL", density)


def _between(amount: Fraction, symbol: str, density: Density) -> Between:
    off = density.off_percent / 100
    return Between(*(Quantity(amount * share, UNITS[symbol]) for share in (1 - off, Fraction(1), 1 + off)))


def _known(food: str) -> Density:
    if food not in DENSITIES:
        raise QuantityProblem(
            message(
                "What a measure of {food} weighs is not known: there are {foods}.",
                food=repr(food),
                foods=", ".join(DENSITIES),
            )
        )
    return DENSITIES[food]


def _refuse_kind(quantity: Quantity, dimension: str) -> None:
    if quantity.unit.dimension != dimension:
        raise WrongDimension(
            message(
                "{quantity} is {kind}: give a weight or a volume.", quantity=quantity, kind=kind_word(quantity.unit)
            )
        )
    if quantity.amount <= 0:
        raise QuantityProblem(message("{quantity} is nothing: it must be above zero.", quantity=quantity))


def _of(name: Message, grams: str, measure: str, off: Fraction, ndb: str) -> Density:
    return Density(
        name, Fraction(grams), Quantity.of(1, measure), off, message("USDA SR26 (2013), NDB {number}", number=ndb)
    )


DENSITIES: Mapping[str, Density] = MappingProxyType(
    {
        "water": _of(message("Water"), "237", "cup", LIQUID, "14429"),
        "milk": _of(message("Whole milk"), "244", "cup", LIQUID, "01077"),
        "cream": _of(message("Heavy cream"), "238", "cup", LIQUID, "01053"),
        "yolk": _of(message("Yolks"), "243", "cup", LIQUID, "01125"),
        "olive_oil": _of(message("Olive oil"), "216", "cup", LIQUID, "04053"),
        "canola_oil": _of(message("Canola oil"), "218", "cup", LIQUID, "04582"),
        "vinegar": _of(message("Red wine vinegar"), "239", "cup", LIQUID, "02068"),
        "wine": _of(message("Wine"), "29.5", "fl oz", LIQUID, "14084"),
        "tamari": _of(message("Tamari"), "18", "Tbsp", LIQUID, "16124"),
        "honey": _of(message("Honey"), "339", "cup", LIQUID, "19296"),
        "mayonnaise": _of(message("Mayonnaise"), "220", "cup", SPOONED, "04025"),
        "mustard": _of(message("Mustard"), "249", "cup", SPOONED, "02046"),
        "butter": _of(message("Butter"), "227", "cup", LIQUID, "01145"),
        "flour": _of(message("Flour"), "125", "cup", BULK, "20481"),
        "semolina": _of(message("Semolina"), "167", "cup", BULK, "20466"),
        "sugar": _of(message("Sugar"), "200", "cup", BULK, "19335"),
        "brown_sugar": _of(message("Brown sugar, packed"), "220", "cup", BULK, "19334"),
        "powdered_sugar": _of(message("Powdered sugar"), "120", "cup", BULK, "19336"),
        "cornstarch": _of(message("Cornstarch"), "128", "cup", BULK, "20027"),
        "cocoa": _of(message("Cocoa"), "86", "cup", BULK, "19165"),
        "rice": _of(message("Rice, raw"), "185", "cup", BULK, "20044"),
        "salt": _of(message("Table salt"), "292", "cup", BULK, "02047"),
        "grated_cheese": _of(message("Grated hard cheese"), "100", "cup", BULK, "01032"),
        "baking_powder": _of(message("Baking powder"), "4.6", "tsp", BULK, "18369"),
        "baking_soda": _of(message("Baking soda"), "4.6", "tsp", BULK, "18372"),
    }
)
"""What a measure weighs, by food."""
