"""All dishes of tonight together: parts once, loss at each level, pots, order and time, against sums done by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.kitchen.test_recipe import recipe, weighed
from trainer.kitchen.production import Production, Wanted, production_of
from trainer.kitchen.recipe import Bath, BathUse, Ingredient, Part, Recipe
from trainer.recipe_math.buying import Pack
from trainer.recipe_math.quantity import Quantity, QuantityProblem

CARTON, CASE = Pack("carton", Quantity.of(2, "lb")), Pack("case", Quantity.of(30, "lb"))
YOLK = weighed("yolk", "58", "oz", food="yolk", packs=(CARTON, CASE))
BASE = replace(
    recipe(YOLK, weighed("cheese", "42", "oz", edible_share=Fraction("0.95")), loss="0.04"),
    id="base",
    title="Base",
    portion=Quantity.of("1.5", "oz"),
    ready_in=Quantity.of(30, "min"),
)
DOUGH = replace(
    recipe(weighed("flour", "10")),
    id="dough",
    title="Dough",
    portion=Quantity.of("6.5", "oz"),
    ready_in=Quantity.of(3, "h"),
)
POT = replace(
    recipe(replace(weighed("water", "10"), is_bought=False), weighed("salt", "4", "oz")),
    id="pot",
    title="Pot",
    bath=Bath(Quantity.of(6, "nest"), Quantity.of(7, "batch")),
)


def plate(*parts: Part, id: str = "plate", each: int = 1) -> Recipe:
    """Return a plate of parts, cooked in the pot."""
    whole = sum((part.amount for part in parts[1:]), parts[0].amount)
    assert POT.bath is not None
    use = BathUse(POT, POT.bath, Fraction(each))
    return replace(recipe(), id=id, title=id.capitalize(), portion=whole, parts=parts, baths=(use,))


def one(base: str = "1.5", id: str = "plate") -> Recipe:
    """Return a plate of a nest and a spoon of base."""
    return plate(Part(DOUGH, DOUGH.portion, "nest"), Part(BASE, Quantity.of(base, "oz")), id=id)


def needed(made: Production, name: str) -> Quantity:
    """Return what is ordered of one thing."""
    return next(row.needed for row in made.order if row.ingredient.id == name)


def begun(made: Production) -> list[tuple[str, int]]:
    """Return what is made, with the minutes before service it is begun."""
    return [(prep.recipe.id, int(prep.before.base / 60)) for prep in made.preps]


def test_forty_plates_of_base_are_3_lb_14_1_2_oz_in_the_bowl() -> None:
    """40 × 1.5 oz ÷ 0.96 = 62.5 oz, 3 lb 14 1/2 oz: worked by hand."""
    made = production_of([Wanted(one(), 40)])
    base = next(prep for prep in made.preps if prep.recipe.id == "base")
    assert base.ready == Quantity.of(60, "oz")
    assert base.batch.weight == Quantity.of("62.5", "oz")


def test_trim_is_made_up_for_below_the_loss() -> None:
    """42 in 100 of the base is cheese: 62.5 × 0.42 = 26.25 oz; 95 in 100 of it is left: 27.63 oz bought. By hand."""
    assert float(needed(production_of([Wanted(one(), 40)]), "cheese").to("oz").amount) == pytest.approx(
        27.632, abs=0.001
    )


def test_a_part_of_two_dishes_is_made_once() -> None:
    """40 × 1.5 oz and 20 × 3 oz are 120 oz of base, and one batch: 125 oz."""
    made = production_of([Wanted(one(), 40), Wanted(one("3", id="other"), 20)])
    bases = [prep for prep in made.preps if prep.recipe.id == "base"]
    assert [(prep.ready, prep.batch.weight) for prep in bases] == [(Quantity.of(120, "oz"), Quantity.of(125, "oz"))]
    assert bases[0].feeds == ("Plate", "Other")


def test_what_is_a_dish_and_a_part_is_added_up() -> None:
    """10 spoons by themselves and 40 in plates: 50 × 1.5 = 75 oz."""
    made = production_of([Wanted(BASE, 10), Wanted(one(), 40)])
    assert [prep.ready for prep in made.preps if prep.recipe.id == "base"] == [Quantity.of(75, "oz")]


def test_packs_are_rounded_up_once_over_all_dishes() -> None:
    """36.25 and 36.25 oz of yolk are 72.5: 3 cartons of 32, not 2 and 2; 23.5 oz over. By hand."""
    made = production_of([Wanted(one(), 40), Wanted(one(id="other"), 40)])
    row = next(row for row in made.order if row.ingredient.id == "yolk")
    assert row.needed == Quantity.of("72.5", "oz")
    assert row.order is not None
    assert [(number, pack.unit) for number, pack in row.order.packs] == [(3, "carton")]
    assert row.order.over == Quantity.of("23.5", "oz")


def test_the_same_food_in_two_recipes_is_one_line() -> None:
    """What has the same food is the same thing; what has none is a thing of its own recipe."""
    sauce = replace(recipe(replace(YOLK, id="yolks"), weighed("cheese", "1")), id="sauce", title="Sauce")
    made = production_of([Wanted(one(), 40), Wanted(sauce, 1)])
    assert [row.ingredient.food for row in made.order].count("yolk") == 1
    assert [row.ingredient.id for row in made.order].count("cheese") == 2


def test_counts_are_added_before_they_are_rounded() -> None:
    """12.5 eggs and 12.5 eggs are 25, in one tray of 30, with 5 over; not 13 and 13."""
    tray = Pack("tray", Quantity.of(30, "egg"))
    eggs = Ingredient("eggs", "Eggs", Quantity.of("12.5", "egg"), Quantity.of(1, "lb"), food="egg", packs=(tray,))
    two = [replace(recipe(eggs), id=id) for id in ("one", "two")]
    (row,) = production_of([Wanted(each, 1) for each in two]).order
    assert row.needed == Quantity.of(25, "egg")
    assert row.order is not None
    assert row.order.over == Quantity.of(5, "egg")


@pytest.mark.parametrize(
    ("plates", "batches", "fills", "salt"),
    [(40, 7, 1, 4), (42, 7, 1, 4), (43, 8, 2, 8), (84, 14, 2, 8), (85, 15, 3, 12)],
)
def test_a_pot_is_filled_by_the_batch(plates: int, batches: int, fills: int, salt: int) -> None:
    """Six nests at once, seven batches a fill (J Sci Food Agric 99(6):3017); 4 oz of salt each time. By hand."""
    made = production_of([Wanted(one(), plates)])
    (pot,) = made.pots
    assert (pot.batches, pot.fills) == (batches, fills)
    assert needed(made, "salt") == Quantity.of(salt, "oz")


def test_two_dishes_share_a_pot() -> None:
    """20 and 20 nests are 40 in one pot: 7 batches, not 4 and 4."""
    (pot,) = production_of([Wanted(one(), 20), Wanted(one(id="other"), 20)]).pots
    assert (pot.batches, pot.fills) == (7, 1)


def test_the_water_holds_what_is_cooked_in_it() -> None:
    """From the first batch on the pot has the dough's allergens (common practice): it is no pot for a guest without."""
    dough = replace(DOUGH, ingredients=(weighed("flour", "10", allergens=("wheat",)),))
    (pot,) = production_of([Wanted(plate(Part(dough, dough.portion, "nest"), Part(BASE, BASE.portion)), 40)]).pots
    assert pot.held == ("wheat",)


def test_what_runs_from_the_tap_is_not_ordered() -> None:
    """Water is no line of an order."""
    assert "water" not in {row.ingredient.id for row in production_of([Wanted(one(), 40)]).order}


def test_what_takes_longest_is_begun_first() -> None:
    """Three hours before the dough, half an hour before the base, the plate last: by what each recipe says."""
    made = production_of([Wanted(one(), 40)])
    assert begun(made) == [("dough", 180), ("base", 30), ("plate", 0)]


def test_a_part_is_ready_before_what_it_goes_into_is_begun() -> None:
    """A stock of 2 h in a sauce of 30 min is begun 2 h 30 min before."""
    stock = replace(DOUGH, id="stock", ready_in=Quantity.of(2, "h"))
    sauce = replace(BASE, id="sauce", ingredients=(), parts=(Part(stock, Quantity.of(1, "lb")),))
    made = production_of([Wanted(sauce, 4)])
    assert begun(made) == [("stock", 150), ("sauce", 30)]


@pytest.mark.parametrize("portions", [0, 20_001])
def test_a_dish_for_nobody_or_for_a_town_is_refused(portions: int) -> None:
    """The message names the number and the rule."""
    with pytest.raises(QuantityProblem, match=f"{portions} portions is no batch"):
        production_of([Wanted(one(), portions)])
