"""Salt and sanitizer by weight and strength."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.recipe_math.brine import (
    Concentrate,
    concentrate_for,
    salt_for_brine,
    salt_for_equilibrium,
    salt_for_volume,
    salt_for_water,
    salt_on_water_percent,
    salt_percent,
    strength_of,
)
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


def grams(amount: int | str) -> Quantity:
    return Quantity.of(amount, "g")


LITRE = Quantity.of(1, "L")


def test_a_percentage_of_the_brine_is_less_than_on_the_water() -> None:
    """By hand: 100 g in 1 kg of water: 100 / 1100 = 9.09 percent of the brine, 10 on the water."""
    assert salt_percent(grams(100), Quantity.of(1, "kg")) == Fraction(100, 11)
    assert salt_on_water_percent(grams(100), Quantity.of(1, "kg")) == 10


def test_salt_for_a_brine_and_for_its_water_agree() -> None:
    """By hand: 2 kg at 6 percent has 120 g of salt in 1880 g of water."""
    assert salt_for_brine(Quantity.of(2, "kg"), Fraction(6)) == grams(120)
    assert salt_for_water(grams(1880), Fraction(6)) == grams(120)


def test_three_percent_of_the_brine_on_ten_litres() -> None:
    """Worked out apart from this program: 10 kg x 0.03 / 0.97 = 0.309278 kg."""
    assert abs(salt_for_water(Quantity.of(10, "kg"), Fraction(3)).to("g").amount - Fraction("309.278")) < Fraction(
        "0.001"
    )


def test_ten_grams_on_a_kilogram_are_under_one_percent() -> None:
    """Mass fraction by hand: 10 / 1010 = 0.990 percent."""
    assert abs(salt_percent(grams(10), grams(1000)) - Fraction("0.990")) <= Fraction("0.001")


@given(st.fractions(Fraction(1, 10), 99, max_denominator=10), st.integers(1, 100_000))
def test_the_salt_for_a_strength_gives_that_strength(percent: Fraction, water: int) -> None:
    """There and back."""
    assert salt_percent(salt_for_water(grams(water), percent), grams(water)) == percent


def test_food_counts_in_an_equilibrium_brine() -> None:
    """By hand: 980 g of food and water at 2 percent of all: 980 x 2 / 98 = 20 g; 20 of 1000."""
    assert salt_for_equilibrium(grams(500), grams(480), Fraction(2)) == grams(20)


POTS = [
    ("4 L", "6.25 g", "25 g", "Professional-cooking text excerpt: 25 g on 4 L"),
    ("8 L", "10 g", "80 g", "Italian cookery article (2021-12-14): 10 g/L"),
]


@pytest.mark.parametrize(("water", "per_litre", "salt", "source"), POTS, ids=[row[3] for row in POTS])
def test_a_pot_is_salted_by_the_litre(water: str, per_litre: str, salt: str, source: str) -> None:
    """Sources disagree, so the weight for a litre is passed in."""
    assert source
    found = salt_for_volume(Quantity.of(*water.split()), Quantity.of(*per_litre.split()))
    assert found == Quantity.of(*salt.split())


def test_a_big_kettle_in_ounces_and_gallons() -> None:
    """Armed Forces Recipe Service, card E-4: 5 oz on 12 gal. By hand: 141.75 g on 45.42 L is 3.12 g/L."""
    per_litre = Quantity.of(5, "oz").to("g") / Quantity.of(12, "gal").over(LITRE)
    assert abs(per_litre.amount - Fraction("3.12")) < Fraction("0.005")
    assert salt_for_volume(Quantity.of(12, "gal"), per_litre) == Quantity.of(5, "oz")


def test_a_sanitizer_is_the_wanted_strength_over_the_bottled_one() -> None:
    """By hand: 10 L at 100 ppm of a 5 percent (50,000 ppm) bottle: 10,000 x 100 / 50,000 = 20 mL, and back."""
    bottle = Concentrate(Fraction(5))
    assert bottle.ppm == 50_000
    poured = concentrate_for(Quantity.of(10, "L"), Fraction(100), bottle)
    assert poured == Quantity.of(20, "mL")
    assert strength_of(poured, Quantity.of(10, "L"), bottle) == 100


def test_a_spoon_in_a_gallon_is_about_two_hundred() -> None:
    """From memory, extension leaflets: 1 Tbsp of 5.25 percent bleach in 1 gal is about 200 ppm. By hand 205."""
    found = strength_of(Quantity.of(1, "Tbsp"), Quantity.of(1, "gal"), Concentrate(Fraction("5.25")))
    assert abs(found - 200) < 10


def test_the_module_cautions_against_its_own_sum() -> None:
    """Label, test strip, no mixing, local code: said where the sum is."""
    import trainer.recipe_math.brine as module

    for words in ("label", "test it with the strip", "never mix", "local code"):
        assert words in (module.__doc__ or "").replace("\n", " ")


REFUSALS: list[tuple[str, Callable[[], object]]] = [
    ("below 100", lambda: salt_for_brine(grams(100), Fraction(100))),
    ("above 0", lambda: salt_for_water(grams(100), Fraction(0))),
    ("nothing to work with", lambda: salt_for_brine(grams(0), Fraction(5))),
    ("nothing to work with", lambda: salt_for_equilibrium(grams(0), grams(1), Fraction(5))),
    ("above zero", lambda: salt_percent(grams(0), grams(1))),
    ("does not exist", lambda: Concentrate(Fraction(0))),
    ("does not exist", lambda: Concentrate(Fraction(101))),
    ("cannot be made", lambda: concentrate_for(LITRE, Fraction(50_000), Concentrate(Fraction(5)))),
    ("cannot be made", lambda: concentrate_for(LITRE, Fraction(0), Concentrate(Fraction(5)))),
    ("whole solution", lambda: strength_of(Quantity.of(2, "L"), LITRE, Concentrate(Fraction(5)))),
]


@pytest.mark.parametrize(("words", "doing"), REFUSALS)
def test_what_cannot_be_made_is_refused(words: str, doing: Callable[[], object]) -> None:
    """The message names the rule."""
    with pytest.raises(QuantityProblem, match=words):
        doing()


def test_salt_is_weighed_and_solutions_are_poured() -> None:
    """A spoon of salt has no one weight, and a pot no volume in grams."""
    with pytest.raises(WrongDimension, match="no one weight"):
        salt_percent(Quantity.of(1, "Tbsp"), grams(100))
    with pytest.raises(WrongDimension, match="a volume"):
        salt_for_volume(grams(1000), grams(10))
    with pytest.raises(WrongDimension):
        salt_percent(grams(10), LITRE)
