"""Dry matter stays; water comes and goes."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.recipe_math.balances import (
    COOKED_FRESH_PASTA,
    COOKED_SPAGHETTI,
    DRY_SPAGHETTI,
    FRESH_PASTA,
    SEMOLINA,
    dry_matter,
    moisture_of,
    water_to_reach,
    weight_at,
    weight_factor,
)
from trainer.recipe_math.dough import Liquid
from trainer.recipe_math.eggs import EGG_WATER
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension

MOISTURES = st.fractions(0, Fraction(95, 100), max_denominator=100)


def grams(amount: int | str | Fraction) -> Quantity:
    return Quantity.of(amount, "g")


FACTORS = [
    (DRY_SPAGHETTI, COOKED_SPAGHETTI, "2.379", "dry, cooked: (100 - 9.90) / (100 - 62.13)"),
    (FRESH_PASTA, COOKED_FRESH_PASTA, "2.195", "fresh, cooked: (100 - 31.00) / (100 - 68.56)"),
    (DRY_SPAGHETTI, FRESH_PASTA, "1.306", "fresh for dry: (100 - 9.90) / (100 - 31.00)"),
]


@pytest.mark.parametrize(("before", "after", "factor", "sum_by_hand"), FACTORS, ids=[row[3] for row in FACTORS])
def test_pasta_weighs_more_by_its_dry_matter(before: Fraction, after: Fraction, factor: str, sum_by_hand: str) -> None:
    """USDA Standard Reference 26 (2013), NDB 20420, 20121, 20093, 20094; the sums are in the ids."""
    assert sum_by_hand
    assert abs(weight_factor(before, after) - Fraction(factor)) <= Fraction("0.0005")


def test_a_dry_portion_as_fresh() -> None:
    """By hand from the same: 100 g of dry spaghetti hold 90.1 g, as 130.6 g of fresh pasta do."""
    assert dry_matter(grams(100), DRY_SPAGHETTI) == grams("90.1")
    assert abs(weight_at(grams(100), DRY_SPAGHETTI, FRESH_PASTA).amount - Fraction("130.58")) <= Fraction("0.005")


DOUGHS = [(25, "30.14"), (27, "31.24"), (30, "32.82"), (33, "34.34")]


@pytest.mark.parametrize(("parts", "percent"), DOUGHS)
def test_the_moisture_of_an_extruded_dough(parts: int, percent: str) -> None:
    """Semolina 12.67 percent (USDA Standard Reference 26, NDB 20466). By hand: (12.67 + 25) / 125 = 30.14 percent.

    25 to 27 parts: Bresciani, Pagani & Marti (2022), Foods 11(3):256, Table 1; 30 to 33: a machine maker's page.
    """
    dough = [Liquid(grams(100), SEMOLINA), Liquid(grams(parts))]
    assert abs(100 * moisture_of(dough) - Fraction(percent)) <= Fraction("0.005")


def test_egg_brings_its_water_and_its_solids() -> None:
    """By hand: 1000 g flour at 12 percent, 450 g egg at 0.76, 50 g water: 120 + 342 + 50 = 512 of 1500: 34.13."""
    dough = [Liquid(grams(1000), Fraction("0.12")), Liquid(grams(450), EGG_WATER), Liquid(grams(50))]
    assert moisture_of(dough) == Fraction(512, 1500)


@given(st.integers(1, 100_000), MOISTURES, MOISTURES)
def test_drying_undoes_wetting_and_dry_matter_stays(weight: int, before: Fraction, after: Fraction) -> None:
    """There and back is the same weight, and what is dry in it never changes."""
    changed = weight_at(grams(weight), before, after)
    assert weight_at(changed, after, before) == grams(weight)
    assert dry_matter(changed, after) == dry_matter(grams(weight), before)


@given(st.integers(1, 100_000), MOISTURES, MOISTURES)
def test_the_water_added_makes_the_moisture_wanted(weight: int, one: Fraction, other: Fraction) -> None:
    """Weighed into the mix, the water gives exactly the moisture it was worked out for."""
    before, after = sorted((one, other))
    water = water_to_reach(grams(weight), before, after)
    assert (
        moisture_of([Liquid(grams(weight), before), Liquid(water)] if water.amount else [Liquid(grams(weight), before)])
        == after
    )


def test_what_holds_no_dry_matter_is_refused() -> None:
    """The message names the value."""
    for moisture in (Fraction(1), Fraction(31), Fraction(-1, 10)):
        with pytest.raises(QuantityProblem, match="moisture of"):
            weight_factor(moisture, Fraction(1, 2))
    with pytest.raises(QuantityProblem, match="drying"):
        water_to_reach(grams(100), Fraction(1, 2), Fraction(1, 3))
    with pytest.raises(QuantityProblem, match="at least one part"):
        moisture_of([])
    with pytest.raises(QuantityProblem, match="above zero"):
        dry_matter(grams(0), Fraction(1, 2))
    with pytest.raises(WrongDimension, match="weigh it"):
        weight_at(Quantity.of(1, "cup"), Fraction(0), Fraction(1, 2))
