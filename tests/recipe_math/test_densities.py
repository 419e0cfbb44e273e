"""Weight from volume and back, by what a measure weighs; never without how far it may be off."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.densities import DENSITIES, Density, volume_of, weight_of
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.units import unit

PRINTED = {
    # g/mL, worked out apart from this program from USDA SR26 (2013), file WEIGHT, at 236.588 mL a cup
    "water": "1.002", "milk": "1.031", "cream": "1.006", "yolk": "1.027", "olive_oil": "0.913", "canola_oil": "0.921",
    "vinegar": "1.01", "wine": "0.998", "tamari": "1.217", "honey": "1.433", "mayonnaise": "0.93", "mustard": "1.052",
    "butter": "0.959", "flour": "0.528", "semolina": "0.706", "sugar": "0.845", "brown_sugar": "0.93",
    "powdered_sugar": "0.507", "cornstarch": "0.541", "cocoa": "0.364", "rice": "0.782", "salt": "1.234",
    "grated_cheese": "0.423", "baking_powder": "0.933", "baking_soda": "0.933",
}  # fmt: skip


@pytest.mark.parametrize(("food", "printed"), PRINTED.items())
def test_densities_are_those_of_the_table(food: str, printed: str) -> None:
    """To three places."""
    assert number_text(DENSITIES[food].grams_per_millilitre, 3) == printed
    assert set(PRINTED) == set(DENSITIES)


def test_a_volume_and_its_weight_come_back() -> None:
    """Two cups of sugar weigh 400 g (USDA SR26, 200 g a cup), and 400 g are two cups."""
    sugar = weight_of(Quantity.of(2, "cup"), "sugar")
    assert sugar.about == Quantity.of(400, "g")
    assert (sugar.least, sugar.most) == (Quantity.of(360, "g"), Quantity.of(440, "g"))
    assert volume_of(sugar.about, "sugar").about == Quantity.of(2, "cup")


def test_what_cannot_be_is_refused() -> None:
    """A food that is not known, the wrong kind, nothing at all, and a density that is none."""
    with pytest.raises(QuantityProblem, match="'clouds'"):
        weight_of(Quantity.of(1, "cup"), "clouds")
    with pytest.raises(WrongDimension, match="give a weight or a volume"):
        weight_of(Quantity.of(1, "lb"), "flour")
    with pytest.raises(QuantityProblem, match="above zero"):
        volume_of(Quantity.of(0, "g"), "flour")
    with pytest.raises(QuantityProblem, match="no weight of a measure"):
        Density(DENSITIES["salt"].name, Fraction(0), Quantity(Fraction(1), unit("cup")), Fraction(5), "nobody")
