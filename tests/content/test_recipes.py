"""The recipes of Quernstone: what common practice says of the dough, and that every recipe warns of what can hurt."""

from __future__ import annotations

import pytest

from tests.content.measured import line
from tests.printed import english
from trainer.kitchen.recipe import batch_of
from trainer.kitchen.technique import Content
from trainer.recipe_math.printing import written
from trainer.recipe_math.quantity import Quantity

RECIPES = {
    "breaded_fish",
    "durum_dough",
    "custard_base",
    "fries",
    "grilled_fish",
    "pan_sauce",
    "pasta_water",
    "pastry_custard",
    "rendered_pork",
    "shallot_dressing",
    "yolk_one_plate",
    "yolk_sauce_base",
}
PLATES = {"yolk_pasta"}


def test_the_recipes_are_there(content: Content) -> None:
    """Quernstone keeps these, and plates made of them."""
    assert content.recipes.keys() == RECIPES | PLATES


def test_the_dough_is_the_one_the_trade_makes(content: Content) -> None:
    """7 lb durum flour, 3 lb semolina, ten large eggs (500 g), a little over 3 lb of liquid: common practice."""
    weights = {line.id: line.weight for line in content.recipes["durum_dough"].ingredients}
    assert (weights["durum"], weights["semolina"]) == (Quantity.of(7, "lb"), Quantity.of(3, "lb"))
    assert weights["eggs"] == Quantity.of(500, "g")
    liquid = weights["eggs"] + weights["water"]
    assert Quantity.of(3, "lb") < liquid < Quantity.of("3.25", "lb")


def test_the_dough_is_between_what_plants_and_small_machines_use(content: Content) -> None:
    """25 to 27 parts of water in plants (Foods 2022, 11(3):256, Table 1), 30 to 33 for small machines (a maker)."""
    hydration = batch_of(content.recipes["durum_dough"], 40).hydration
    assert hydration is not None
    assert 25 < hydration < 33


def test_yolk_for_forty_is_bought_by_the_carton(content: Content) -> None:
    """40 plates of 1.5 oz, 4 % lost: 2 lb 4 1/4 oz of yolk; two cartons of 2 lb, 1 lb 11 3/4 oz over. By hand:
    62.5 oz of base × 408 g of yolk / 702.84 g in a batch = 36.28 oz; 64 - 36.28 = 27.72 oz, and no egg is counted.
    """
    yolks = next(
        line for line in batch_of(content.recipes["yolk_sauce_base"], 40).lines if line.ingredient.id == "yolks"
    )
    assert yolks.to_buy == Quantity.of(2, "carton")
    assert yolks.over is not None
    assert english(written(yolks.weight, "us")) == "2 lb 4 1/4 oz"
    assert english(written(yolks.over, "us")) == "1 lb 11 3/4 oz"
    assert "egg" not in yolks.weight.unit.symbol


def test_its_first_caution_is_about_the_egg_it_uses(content: Content) -> None:
    """§ 3-302.13: a bowl for the shift is pasteurized; § 3-401.11(A)(1)(a): raw yolk for one order, 145 °F, 15 s."""
    caution = content.recipes["yolk_sauce_base"].hazards[0].caution
    assert caution.startswith("A bowl for the shift is pasteurized yolk")
    assert "145 °F" in caution
    assert "15 seconds" in caution


@pytest.mark.parametrize(("nests", "fills"), [(1, 1), (40, 1), (42, 1), (43, 2), (84, 2), (85, 3)])
def test_pasta_water_is_filled_again_and_not_multiplied(content: Content, nests: int, fills: int) -> None:
    """Six nests at once, seven batches a fill (J Sci Food Agric 99(6):3017): 42 nests; 3 gal and 4 oz each time."""
    batch = batch_of(content.recipes["pasta_water"], nests)
    assert batch.fills == fills
    assert [str(line.amount) for line in batch.lines] == ["3 gal", "4 oz"]


def test_the_technique_uses_the_pot_of_the_recipe(content: Content) -> None:
    """What goes in at once and how long a fill lasts stand in the recipe; the technique names them."""
    bath, technique = content.recipes["pasta_water"].bath, content.techniques["pasta_water"]
    assert bath is not None
    assert (line(technique, "at_once").highest, line(technique, "batches").highest) == (bath.takes, bath.batches)


def test_the_water_is_as_salt_as_the_text_says(content: Content) -> None:
    """10 g of salt in a litre: Professional cooking text, pasta in quantity."""
    water, salt = content.recipes["pasta_water"].ingredients
    assert float(salt.weight.to("g").amount / water.amount.to("L").amount) == pytest.approx(10, abs=0.1)


@pytest.mark.parametrize("name", sorted(RECIPES))
def test_a_recipe_warns_of_what_can_hurt_and_makes_a_batch(content: Content, name: str) -> None:
    """Heat, blades, machines, allergens, raw egg: each recipe has a caution, a method, and a batch for 40."""
    found = content.recipes[name]
    assert found.hazards
    assert found.method
    assert found.portions >= 1
    batch = batch_of(found, 40)
    assert sum((line.weight for line in batch.lines[1:]), batch.lines[0].weight) == batch.weight


@pytest.mark.parametrize("name", ["durum_dough", "yolk_one_plate", "yolk_sauce_base", "pastry_custard"])
def test_what_holds_egg_says_so(content: Content, name: str) -> None:
    """Egg is an allergen under both lists of law, and raw egg is cautioned."""
    found = content.recipes[name]
    assert "egg" in found.allergens
    assert "raw_egg" in {hazard.mark for hazard in found.hazards}
