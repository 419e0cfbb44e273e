"""Eggs weigh what the standards and tables say."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.eggs import (
    EGG_SIZES,
    eggs_for,
)
from trainer.recipe_math.quantity import Quantity, QuantityProblem

CLASSES = [("jumbo", 30, "70.87"), ("extra large", 27, "63.79"), ("large", 24, "56.70"), ("medium", 21, "49.61"),
           ("small", 18, "42.52"), ("peewee", 15, "35.44")]  # fmt: skip


@pytest.mark.parametrize(("size", "ounces", "grams"), CLASSES)
def test_a_dozen_weighs_at_least_its_class(size: str, ounces: int, grams: str) -> None:
    """US Standards, Grades and Weight Classes for Shell Eggs (AMS 56, 2000), section 56.218; oz / 12 x 28.35 g."""
    assert EGG_SIZES[size].dozen_in_shell == Quantity.of(ounces, "oz")
    assert abs(EGG_SIZES[size].egg_in_shell().to("g").amount - Fraction(grams)) <= Fraction("0.005")


@pytest.mark.parametrize(
    ("size", "grams"), [("jumbo", 63), ("extra large", 56), ("large", 50), ("medium", 44), ("small", 38)]
)
def test_an_egg_without_its_shell_weighs_what_the_table_says(size: str, grams: int) -> None:
    """USDA National Nutrient Database for Standard Reference, Release 26 (2013), WEIGHT file, NDB 01123."""
    assert EGG_SIZES[size].edible == Quantity.of(grams, "g")


def test_shell_is_about_an_eighth_of_an_egg() -> None:
    """USDA SR26 (2013), FOOD_DES, NDB 01123: refuse 12 percent; the two tables for large eggs agree within a point."""
    large = EGG_SIZES["large"]
    assert large.edible is not None
    shell = 1 - large.edible / large.egg_in_shell()
    assert abs(shell - Fraction(12, 100)) < Fraction(1, 100)


def test_eggs_for_a_weight_are_whole() -> None:
    """By hand: 1 lb = 453.6 g; 453.6 / 50 = 9.07, so 10 large; 453.6 / 38 = 11.94, so 12 small."""
    assert eggs_for(Quantity.of(1, "lb")) == 10
    assert eggs_for(Quantity.of(1, "lb"), "small") == 12


def test_what_no_source_weighs_is_refused() -> None:
    """An unknown size, and a size without an edible weight."""
    with pytest.raises(QuantityProblem, match="'giant' is not an egg size"):
        eggs_for(Quantity.of(1, "lb"), "giant")
    with pytest.raises(QuantityProblem, match="weigh them"):
        eggs_for(Quantity.of(1, "lb"), "peewee")
