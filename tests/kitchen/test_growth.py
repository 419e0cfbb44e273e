"""How an ingredient grows, kind by kind, against sums done by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.kitchen.test_recipe import recipe, weighed
from trainer.kitchen.recipe import BEFORE_THE_END, PORTIONED, Bath, BathUse, Growth, Ingredient, Recipe, batch_of
from trainer.recipe_math.quantity import Quantity

BEEF = weighed("beef", "10")


def of(growth: Growth, amount: str, unit: str = "oz") -> Ingredient:
    """Return an ingredient that grows in a way of its own; a leaf weighs a gram."""
    much = Quantity.of(amount, unit)
    weight = Quantity.of(1, "g") if unit == "egg" else much
    return Ingredient("other", "Other", much, weight, growth=growth)


def amount_in(made_for: int, *ingredients: Ingredient, loss: str = "0") -> Quantity:
    """Return how much of the last ingredient goes into so many portions of a pound."""
    return batch_of(recipe(*ingredients, loss=loss), made_for).lines[-1].amount


@pytest.mark.parametrize(("portions", "leaves"), [(1, 1), (10, 2), (12, 2), (13, 3), (20, 4)])
def test_a_bay_leaf_is_whole(portions: int, leaves: int) -> None:
    """Two leaves in ten pounds: to the nearest leaf, one at the least (common practice). 13 × 0.2 = 2.6, so three."""
    assert amount_in(portions, BEEF, of(Growth.WHOLE, "2", "egg")) == Quantity.of(leaves, "egg")


def test_a_leaf_is_no_part_of_the_weight() -> None:
    """It is taken out again: ten portions of a pound are ten pounds of beef."""
    made = batch_of(recipe(BEEF, of(Growth.WHOLE, "2", "egg")), 10)
    assert (made.factor, made.weight) == (Fraction(1), Quantity.of(10, "lb"))


@pytest.mark.parametrize(("portions", "ounces"), [(5, 1), (10, 1), (11, 2), (30, 3)])
def test_what_covers_a_pan_goes_by_the_pan(portions: int, ounces: int) -> None:
    """An ounce of butter for the floor of the one pan ten portions fill: a second pan from the eleventh on."""
    assert amount_in(portions, BEEF, of(Growth.AREA, "1")) == Quantity.of(ounces, "oz")


def test_the_salt_of_a_reduction_is_by_what_is_left() -> None:
    """8 g a kilogram of 1 kg from 4 kg is 8 g, weighed in last; twice the portions, twice the salt. By hand."""
    stock = replace(BEEF, amount=Quantity.of(4, "kg"), weight=Quantity.of(4, "kg"))
    reduced = replace(recipe(stock, of(Growth.FINAL, "8", "g"), loss="0.75"), portion=Quantity.of(1008, "g"))
    assert reduced.finished == Quantity.of(1008, "g")
    twice = batch_of(reduced, 2)
    assert [line.weight for line in twice.lines] == [Quantity.of(8, "kg"), Quantity.of(16, "g")]


def test_a_seasoning_is_begun_with_three_quarters() -> None:
    """4 oz in the recipe, twice the recipe: 6 oz to begin with, 8 in all (common practice)."""
    line = batch_of(recipe(weighed("beef", "9.75"), of(Growth.TASTE, "4")), 20).lines[-1]
    assert (line.start, line.weight) == (Quantity.of(6, "oz"), Quantity.of(8, "oz"))
    assert batch_of(recipe(BEEF), 20).lines[0].start is None


def test_leavening_keeps_its_part_of_the_flour() -> None:
    """4 in 100 of the flour in any batch: baker's percentages (common practice)."""
    cake = recipe(weighed("flour", "5", is_flour=True), of(Growth.FLOUR, "3.2"), weighed("milk", "4.8"))
    for portions in (1, 10, 37):
        assert batch_of(cake, portions).lines[1].percentage == 4


@pytest.mark.parametrize(("portions", "ounces"), [(42, 4), (43, 8)])
def test_what_goes_into_the_pot_goes_by_the_fill(portions: int, ounces: int) -> None:
    """Six at once, seven batches a fill: 42 portions from one fill, 43 from two."""
    bath = Bath(Quantity.of(6, "nest"), Quantity.of(7, "batch"))
    pot = replace(recipe(BEEF), id="pot", bath=bath)
    dish: Recipe = replace(recipe(BEEF, of(Growth.BATH, "4")), baths=(BathUse(pot, bath),))
    assert batch_of(dish, portions).lines[-1].amount == Quantity.of(ounces, "oz")


def test_every_way_to_grow_is_either_on_the_plate_or_not() -> None:
    """Only what is eaten counts for portions: of a pot, a pan's floor and a leaf nothing does."""
    assert set(Growth) - set(PORTIONED) == {Growth.BATH, Growth.AREA, Growth.WHOLE}
    assert set(PORTIONED) - set(BEFORE_THE_END) == {Growth.FINAL}
