"""The sums that recipes of recipes stand on, against the published and hand-worked values they were planned by."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.printed import english
from trainer.recipe_math.bakeware import moved, rectangular
from trainer.recipe_math.densities import DENSITIES, weight_of
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.scaling import ratio
from trainer.recipe_math.tools import Pan

POWDERS = {
    "flour", "semolina", "sugar", "brown_sugar", "powdered_sugar", "cornstarch", "cocoa", "rice", "salt",
    "grated_cheese", "baking_powder", "baking_soda",
}  # fmt: skip


def inches(length: float, width: float) -> tuple[Quantity, Quantity]:
    """Return the sides of a pan."""
    return Quantity.of(str(length), "in"), Quantity.of(str(width), "in")


@pytest.mark.parametrize(
    ("old", "new", "factor"),
    [((13, 9), (8, 8), 0.55), ((8, 8), (9, 9), 1.26), ((8, 8), (9, 9), 81 / 64), ((13, 9), (18, 13), 2)],
)
def test_a_recipe_moves_by_the_floor_of_its_pan(old: tuple[int, int], new: tuple[int, int], factor: float) -> None:
    """A page on pans prints 0.55 for 13 × 9 to 8 × 8; two baking pages 1.26 for 8 × 8 to 9 × 9, 2 for a half sheet."""
    found = moved(rectangular(*inches(*old)), rectangular(*inches(*new))).factor
    assert float(found) == pytest.approx(factor, abs=0.006)


def test_six_gallons_stand_two_inches_deep_in_four_full_pans() -> None:
    """A maker's table: a full pan 2 1/2 in deep holds 240 fl oz; at 2 in 192. 768 / 192 = 4: by hand."""
    sides = (Quantity.of(12, "in"), Quantity.of(20, "in"), Quantity.of(2, "in"))
    at_two = Pan("full, filled to 2 in", sides, Quantity.of(240, "fl oz") * Fraction(2) / Fraction("2.5"), "maker")
    assert at_two.holds == Quantity.of(192, "fl oz")
    assert at_two.pans_for(Quantity.of(6, "gal")) == 4


@pytest.mark.parametrize(("spoons", "percent"), [("1", 3.7), ("1.25", 4.6)])
def test_a_spoon_of_baking_powder_a_cup_of_flour_is_four_in_a_hundred(spoons: str, percent: float) -> None:
    """1 to 1 1/4 tsp a cup (a bakers' forum): 4.6 g a spoon, 125 g a cup (USDA SR26): 3.7 to 4.6 %. By hand."""
    powder = weight_of(Quantity.of(spoons, "tsp"), "baking_powder").about
    flour = weight_of(Quantity.of(1, "cup"), "flour").about
    assert float(100 * ratio(powder, flour)) == pytest.approx(percent, abs=0.05)


def test_rice_takes_up_near_twice_its_weight_of_water() -> None:
    """Dry matter stays: (100 - 11.62) / (100 - 68.44) = 2.80 (USDA SR26, NDB 20044 and 20045). By hand."""
    dry, cooked = Fraction(100) - Fraction("11.62"), Fraction(100) - Fraction("68.44")
    assert float(ratio(dry, cooked)) == pytest.approx(2.80, abs=0.005)


@pytest.mark.parametrize("food", DENSITIES)
def test_a_powder_may_be_off_by_a_tenth(food: str) -> None:
    """Bulk weights spread by 10 in a hundred as they are filled (from memory); what flows or spreads by less."""
    off = DENSITIES[food].off_percent
    assert off == 10 if food in POWDERS else off <= 5
    assert "USDA SR26 (2013), NDB" in english(DENSITIES[food].source)
