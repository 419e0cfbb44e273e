"""Dishers and ladles by their numbers, pans as measured and never more than their box."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.tools import Pan, box_volume, ladles

SCOOPS = [
    (6, "5.3333"), (8, "4"), (10, "3.2"), (12, "2.6667"), (16, "2"), (20, "1.6"), (24, "1.3333"), (30, "1.0667"),
    (40, "0.8"), (50, "0.64"), (60, "0.5333"), (70, "0.4571"), (100, "0.32"),
]  # fmt: skip


POSTER = [
    (6, "2/3", "cup"), (8, "1/2", "cup"), (12, "1/3", "cup"), (16, "1/4", "cup"), (20, "10/3", "Tbsp"),
    (30, "2", "Tbsp"), (40, "5/3", "Tbsp"), (50, "15/4", "tsp"), (70, "11/4", "tsp"),
]  # fmt: skip


LADLES = [(2, "1/4"), (3, "3/8"), (4, "1/2"), (6, "3/4"), (8, "1"), (12, "3/2")]


@pytest.mark.parametrize(("ounces", "cups"), LADLES)
def test_a_ladle_is_marked_in_fluid_ounces(ounces: int, cups: str) -> None:
    """Institute of Child Nutrition, Basics at a Glance, ladles: cups for each; four ladles empty four of those."""
    ladle = Quantity.of(ounces, "fl oz")
    assert ladle == Quantity.of(cups, "cup")
    assert ladles(Quantity.of(cups, "cup") * 4, ladle) == 4
    assert ladles(Quantity.of(cups, "cup") * 4 - Quantity.of(1, "tsp"), ladle) == 3


MANUAL = [
    (12, 20, "2.5", "240", "fl oz"), (12, 20, "4", "420", "fl oz"), (12, 20, "6", "625", "fl oz"),
    (12, 13, "2.5", "175", "fl oz"), (12, 10, "4", "208", "fl oz"), (12, 10, "6", "314", "fl oz"),
    (12, 6, "2.5", "75", "fl oz"), (12, 6, "6", "186", "fl oz"), (10, 6, "2.5", "55", "fl oz"),
    (10, 6, "4", "95", "fl oz"), (10, 6, "6", "140", "fl oz"), (6, 6, "2.5", "35", "fl oz"),
    (6, 6, "6", "82", "fl oz"), (12, 20, "2.5", "63/8", "qt"), (12, 20, "4", "27/2", "qt"), (12, 20, "6", "20", "qt"),
    (12, 10, "2.5", "33/8", "qt"), (12, 10, "4", "27/4", "qt"), (12, 10, "6", "81/8", "qt"),
]  # fmt: skip


def inches(*sides: int | str) -> tuple[Quantity, Quantity, Quantity]:
    one, two, three = (Quantity.of(side, "in") for side in sides)
    return one, two, three


@pytest.mark.parametrize(("long", "wide", "deep", "holds", "unit"), MANUAL)
def test_a_makers_pans_fit_inside_their_boxes(long: int, wide: int, deep: str, holds: str, unit: str) -> None:
    """Steam-cooker operator manual (22CET/21CET), section B, Table 7-1: usable, and to overflowing in quarts."""
    pan = Pan("steam-table pan", inches(long, wide, deep), Quantity.of(holds, unit), "steam-cooker operator manual")
    assert Fraction(1, 2) < pan.filled_share() < 1


GASTRONORM = [
    (530, 325, 100, "12.6", "17.23"), (530, 325, 150, "18", "25.84"), (530, 325, 200, "25", "34.45"),
    (325, 265, 65, "3.5", "5.60"), (325, 265, 150, "8.5", "12.92"), (325, 265, 200, "11", "17.23"),
    (325, 176, 65, "2.25", "3.72"), (325, 176, 100, "3.5", "5.72"), (325, 176, 150, "5.5", "8.58"),
    (325, 176, 200, "7.25", "11.44"), (354, 325, 65, "5.25", "7.48"), (354, 325, 100, "8", "11.51"),
    (265, 162, 100, "2.5", "4.29"),
]  # fmt: skip


@pytest.mark.parametrize(("long", "wide", "deep", "holds", "box"), GASTRONORM)
def test_the_outer_box_bounds_what_a_pan_holds(long: int, wide: int, deep: int, holds: str, box: str) -> None:
    """Manufacturer table "Gastronorm dimensioning and GN containers"; boxes by hand: the three sides multiplied."""
    sides = (Quantity.of(long, "mm"), Quantity.of(wide, "mm"), Quantity.of(deep, "mm"))
    pan = Pan("GN", sides, Quantity.of(holds, "L"), "manufacturer table")
    assert abs(pan.outer_box().amount - Fraction(box)) <= Fraction("0.005")
    assert pan.filled_share() < 1


def test_a_misprint_does_not_fit_inside_its_pan() -> None:
    """The same manual prints 30 liters for a 12 x 20 x 2 1/2 in pan, a slip: its box holds 9.83 L."""
    with pytest.raises(QuantityProblem, match=r"30 L does not fit in a box of 9\.83 L"):
        Pan("full", inches(12, 20, "2.5"), Quantity.of(30, "L"), "manual")


def test_pans_round_up_for_a_batch_and_down_for_portions() -> None:
    """By hand: 420 fl oz are 3.28 gal: 6 gal begin 2 pans, 7 gal 3; of 6 fl oz portions one gives 70."""
    pan = Pan("full, 4 in", inches(12, 20, 4), Quantity.of(420, "fl oz"), "manual")
    assert pan.pans_for(Quantity.of(6, "gal")) == 2
    assert pan.pans_for(Quantity.of(7, "gal")) == 3
    assert pan.pans_for(Quantity.of(420, "fl oz")) == 1
    assert pan.portions(Quantity.of(6, "fl oz")) == 70
    assert pan.portions(Quantity.of("6.01", "fl oz")) == 69


def test_what_is_no_tool_is_refused() -> None:
    """The message names the value."""
    with pytest.raises(WrongDimension, match="fl oz"):
        ladles(Quantity.of(1, "lb"), Quantity.of(6, "oz"))
    with pytest.raises(WrongDimension, match="three lengths"):
        box_volume(*inches(1, 2, 3)[:2], Quantity.of(1, "g"))
    with pytest.raises(QuantityProblem, match="makes no box"):
        box_volume(*inches(1, 2, 0))
    with pytest.raises(QuantityProblem, match="above zero"):
        Pan("full", inches(12, 20, 4), Quantity.of(0, "L"), "manual")
