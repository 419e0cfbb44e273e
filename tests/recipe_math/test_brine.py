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
    salt_for_water,
)
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


def grams(amount: int | str) -> Quantity:
    return Quantity.of(amount, "g")


LITRE = Quantity.of(1, "L")


def test_salt_is_a_share_of_the_whole_brine() -> None:
    """By hand: 2 kg at 6 percent has 120 g of salt in 1880 g of water."""
    assert salt_for_water(grams(1880), Fraction(6)) == grams(120)


def test_three_percent_of_the_brine_on_ten_litres() -> None:
    """Worked out apart from this program: 10 kg x 0.03 / 0.97 = 0.309278 kg."""
    assert abs(salt_for_water(Quantity.of(10, "kg"), Fraction(3)).to("g").amount - Fraction("309.278")) < Fraction(
        "0.001"
    )


@given(st.fractions(Fraction(1, 10), 99, max_denominator=10), st.integers(1, 100_000))
def test_the_salt_for_a_strength_gives_that_strength(percent: Fraction, water: int) -> None:
    """There and back."""
    salt = salt_for_water(grams(water), percent).amount
    assert 100 * salt / (salt + water) == percent


def test_a_sanitizer_is_the_wanted_strength_over_the_bottled_one() -> None:
    """By hand: 10 L at 100 ppm of a 5 percent (50,000 ppm) bottle: 10,000 x 100 / 50,000 = 20 mL."""
    bottle = Concentrate(Fraction(5))
    assert bottle.ppm == 50_000
    poured = concentrate_for(Quantity.of(10, "L"), Fraction(100), bottle)
    assert poured == Quantity.of(20, "mL")


def test_the_module_cautions_against_its_own_sum() -> None:
    """Label, test strip, no mixing, local code: said where the sum is."""
    import trainer.recipe_math.brine as module

    for words in ("label", "test it with the strip", "never mix", "local code"):
        assert words in (module.__doc__ or "").replace("\n", " ")


REFUSALS: list[tuple[str, Callable[[], object]]] = [
    ("below 100", lambda: salt_for_water(grams(100), Fraction(100))),
    ("above 0", lambda: salt_for_water(grams(100), Fraction(0))),
    ("nothing to work with", lambda: salt_for_water(grams(0), Fraction(5))),
    ("does not exist", lambda: Concentrate(Fraction(0))),
    ("does not exist", lambda: Concentrate(Fraction(101))),
    ("cannot be made", lambda: concentrate_for(LITRE, Fraction(50_000), Concentrate(Fraction(5)))),
    ("cannot be made", lambda: concentrate_for(LITRE, Fraction(0), Concentrate(Fraction(5)))),
]


@pytest.mark.parametrize(("words", "doing"), REFUSALS)
def test_what_cannot_be_made_is_refused(words: str, doing: Callable[[], object]) -> None:
    """The message names the rule."""
    with pytest.raises(QuantityProblem, match=words):
        doing()


def test_salt_is_weighed_and_solutions_are_poured() -> None:
    """A spoon of water has a volume only, and a solution no volume in grams."""
    with pytest.raises(WrongDimension):
        salt_for_water(LITRE, Fraction(5))
    with pytest.raises(WrongDimension):
        concentrate_for(grams(1000), Fraction(100), Concentrate(Fraction(5)))
