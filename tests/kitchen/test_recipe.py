"""A batch of a recipe: its factor, weights, percentages and what to buy, against sums done by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from tests.printed import english
from trainer.kitchen.recipe import Ingredient, Recipe, as_written, batch_of, portions_for
from trainer.recipe_math.printing import written
from trainer.recipe_math.quantity import Quantity, QuantityProblem


def weighed(name: str, amount: str, unit: str = "lb", **more: Any) -> Ingredient:
    """Return an ingredient that is weighed."""
    much = Quantity.of(amount, unit)
    return replace(Ingredient(name, name.capitalize(), much, much), **more)


def recipe(*ingredients: Ingredient, portion: str = "1", loss: str = "0") -> Recipe:
    """Return a recipe of these ingredients, with portions in pounds."""
    return Recipe(
        id="made_up",
        title="Made up",
        makes="A plate a guest",
        portion=Quantity.of(portion, "lb"),
        portion_source="house",
        loss=Fraction(loss),
        loss_text="",
        ingredients=ingredients,
        method=(),
        hazards=(),
        techniques=(),
        source="house",
    )


DURUM = recipe(
    weighed("durum", "7", is_flour=True),
    weighed("semolina", "3", is_flour=True),
    replace(
        weighed("eggs", "10", "egg", water_share=Fraction("0.76"), allergens=("egg",)), weight=Quantity.of(500, "g")
    ),
    weighed("water", "2", water_share=Fraction(1)),
)


def test_a_card_for_100_makes_348() -> None:
    """1 lb 4 oz x 3.48 = 4.35 lb, printed 4 lb 5 1/2 oz (Armed Forces Recipe Service, General Information No. 1)."""
    hundred = recipe(weighed("beef", "1.25"), portion="0.0125")
    (line,) = batch_of(hundred, 348).lines
    assert batch_of(hundred, 348).factor == Fraction("3.48")
    assert line.weight == Quantity.of("4.35", "lb")
    assert english(written(line.weight, "us")) == "4 lb 5 1/2 oz"


def test_the_loss_is_made_up_for() -> None:
    """40 portions of 6 oz with 4 % lost: 240 oz / 0.96 = 250 oz, 15 lb 10 oz. Worked by hand."""
    beef = recipe(weighed("beef", "10"), portion="0.375", loss="0.04")
    assert batch_of(beef, 40).weight == Quantity.of(250, "oz")


def test_the_recipe_as_written_gives_only_full_portions() -> None:
    """10 lb less 5 % is 9.5 lb: 9 full pounds, never 10. Served portions are rounded down (common practice)."""
    assert recipe(weighed("beef", "10"), loss="0.05").portions == 9


def test_as_written_every_amount_is_the_cards() -> None:
    """The card itself: times 1, with the full portions it gives and what is over left in."""
    batch = as_written(recipe(weighed("beef", "10"), loss="0.05"))
    assert (batch.portions, batch.weight) == (9, Quantity.of(10, "lb"))
    assert batch.factor == 1


def test_percentages_go_by_all_flour_together() -> None:
    """Durum 70, semolina 30 (Baker's percentages, common practice); 500 g of egg on 4535.9237 g is 11.02 in 100."""
    lines = {line.ingredient.id: line.percentage for line in batch_of(DURUM, 20).lines}
    assert [lines[name] for name in ("durum", "semolina", "water")] == [Fraction(70), Fraction(30), Fraction(20)]
    assert lines["eggs"] is not None
    assert float(lines["eggs"]) == pytest.approx(11.0231, abs=1e-4)


def test_hydration_counts_the_water_in_eggs_and_not_their_solids() -> None:
    """(907.18 + 0.76 x 500) / 4535.92 = 28.38 in 100, worked by hand; a batch twice the size is no wetter."""
    hydration = batch_of(DURUM, 20).hydration
    assert hydration is not None
    assert float(hydration) == pytest.approx(28.378, abs=1e-3)
    assert batch_of(DURUM, 40).hydration == hydration


def test_without_flour_there_are_no_percentages() -> None:
    """Baker's percentages are of flour: a sauce has none."""
    batch = batch_of(recipe(weighed("beef", "10")), 4)
    assert batch.hydration is None
    assert batch.flour is None
    assert batch.lines[0].percentage is None


def test_what_is_trimmed_is_bought_as_purchased() -> None:
    """8 lb of edible portion at 80 percent: buy 10 lb (common practice)."""
    carrots = recipe(weighed("carrots", "8", edible_share=Fraction(4, 5)))
    assert batch_of(carrots, 8).lines[0].to_buy == Quantity.of(10, "lb")


def test_counted_things_are_bought_whole() -> None:
    """10 eggs times 1.25 is 12.5: buy 13, and weigh 625 g. What is bought is rounded up."""
    eggs = replace(weighed("eggs", "10", "egg"), weight=Quantity.of(500, "g"))
    batch = batch_of(replace(recipe(eggs), portion=Quantity.of(500, "g")), 1)
    assert batch.factor == 1
    larger = batch_of(replace(recipe(eggs), portion=Quantity.of(125, "g")), 5)
    assert larger.lines[0].to_buy == Quantity.of(13, "egg")
    assert larger.lines[0].weight == Quantity.of(625, "g")


def test_allergens_of_all_ingredients_are_named_once() -> None:
    """A batch has every allergen of what goes into it."""
    flour = weighed("flour", "1", allergens=("wheat", "gluten"))
    assert recipe(flour, weighed("semolina", "1", allergens=("wheat",))).allergens == ("wheat", "gluten")


@pytest.mark.parametrize(
    ("guests", "percent", "portions"), [(64, "45", 29), (40, "100", 40), (1, "1", 1), (3, "50", 2)]
)
def test_guests_make_portions_rounded_up(guests: int, percent: str, portions: int) -> None:
    """64 x 0.45 = 28.8: make 29, since nobody gets a part of a portion."""
    assert portions_for(guests, Fraction(percent)) == portions


@pytest.mark.parametrize("portions", [0, -3, 20_001])
def test_a_batch_for_nobody_or_for_a_town_is_refused(portions: int) -> None:
    """The message names the number and the rule."""
    with pytest.raises(QuantityProblem, match=f"{portions} portions is no batch: from 1 to 20000"):
        batch_of(DURUM, portions)


@pytest.mark.parametrize(("guests", "percent"), [(0, "50"), (40, "0"), (40, "101")])
def test_guests_and_their_part_are_possible(guests: int, percent: str) -> None:
    """At least one guest, and a part above 0 and up to 100 in the hundred."""
    with pytest.raises(QuantityProblem):
        portions_for(guests, Fraction(percent))
