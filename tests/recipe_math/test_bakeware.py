"""Floors of pans, and a recipe moved from one into another."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest

from trainer.recipe_math.bakeware import PI, circular, hotel_pan, moved, rectangular
from trainer.recipe_math.not_in_proportion import Grows, first_seasoning, time_to_reduce, water_lost
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


def inches(amount: int | str) -> Quantity:
    return Quantity.of(amount, "in")


@pytest.mark.parametrize(
    ("floor", "square_inches"),
    [
        (circular(inches(8)), 50.27),  # pan tables of baking books, common practice: 50, 64, 79 and 117 square inches
        (circular(inches(9)), 63.62),
        (circular(inches(10)), 78.54),
        (rectangular(inches(9), inches(13)), 117),
        (rectangular(Quantity.of("20.32", "cm"), inches(8)), 64),
        (hotel_pan("full"), 240),  # operator manual of a steam cooker, Table 7-1: 12 x 20 in
        (hotel_pan("2/3"), 156),
        (hotel_pan("1/4"), 60),
        (hotel_pan("1/6"), 36),
    ],
)
def test_floors(floor: object, square_inches: float) -> None:
    """Length times width; pi r squared."""
    assert float(getattr(floor, "square_inches")) == pytest.approx(square_inches, abs=0.01)  # noqa: B009
    assert float(PI) == pytest.approx(pi, abs=1e-6)


def test_an_eight_inch_square_holds_what_a_nine_inch_round_does() -> None:
    """Common practice: 64 and 63.6 square inches; within a twentieth nothing is warned of."""
    found = moved(circular(inches(9)), rectangular(inches(8), inches(8)))
    assert float(found.factor) == pytest.approx(64 / 63.62, abs=0.001)
    assert found.warning == ""


def test_two_pans_take_twice_as_much_and_another_depth_is_warned_of() -> None:
    """A 9 x 13 in recipe in two half steam-table pans: 240 / 117; unchanged it is 117 / 240 as deep."""
    found = moved(rectangular(inches(9), inches(13)), hotel_pan("1/2"), pans=2)
    assert found.factor == Fraction(240, 117)
    assert found.depth_ratio == Fraction(117, 240)
    assert found.warning


def test_what_is_no_pan_is_refused() -> None:
    """Sides are lengths above zero, sizes have names, pans are counted."""
    with pytest.raises(WrongDimension, match="a pan has lengths"):
        circular(Quantity.of(1, "lb"))
    with pytest.raises(QuantityProblem, match="makes no pan"):
        rectangular(inches(0), inches(9))
    with pytest.raises(QuantityProblem, match="'2/7' is no steam-table pan"):
        hotel_pan("2/7")
    with pytest.raises(QuantityProblem, match="give at least one"):
        moved(hotel_pan("full"), hotel_pan("1/2"), pans=0)


@pytest.mark.parametrize(
    ("grows", "factor", "spoons"),
    [
        # a spice maker's handbook, "Scaling up recipes": herbs double, then half of the first for each further recipe;
        # red pepper doubles, then a quarter; spices in proportion
        (Grows.HERB, 2, "2"),
        (Grows.HERB, 3, "2.5"),
        (Grows.HERB, 5, "3.5"),
        (Grows.HOT_PEPPER, 4, "2.5"),
        (Grows.SPICE, 4, "4"),
        (Grows.HERB, Fraction(1, 2), "0.5"),
    ],
)
def test_seasoning_grows_by_its_kind(grows: Grows, factor: int, spoons: str) -> None:
    """Up to twice the recipe all grow alike."""
    assert first_seasoning(Quantity.of(1, "tsp"), factor, grows) == Quantity.of(spoons, "tsp")


def test_water_steams_off_by_the_open_surface() -> None:
    """A pot twice as wide has four times the surface, by hand: four times the loss, a quarter of the time."""
    narrow, wide = circular(Quantity.of(20, "cm")), circular(Quantity.of(40, "cm"))
    assert water_lost(Quantity.of(1, "L"), narrow, wide, Fraction(1, 2)) == Quantity.of(2, "L")
    assert time_to_reduce(Quantity.of(40, "min"), (narrow, wide), Fraction(1)) == Quantity.of(10, "min")
    with pytest.raises(QuantityProblem, match="ratio of 0"):
        water_lost(Quantity.of(1, "L"), narrow, wide, Fraction(0))
