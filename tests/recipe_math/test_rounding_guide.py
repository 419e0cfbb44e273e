"""The published guide rounds little finely and much coarsely.

Menu and Recipe Manual for Early Childhood Institutions (Early Childhood Commission, 2014 view), Appendix 7, p. 306.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.rounding_guide import NotInGuide, by_guide

ROWS = [
    ("1.75 oz", "1.75 oz", "below 2 oz, in quarters: as it is"),
    ("5.6 oz", "5.5 oz", "2-10 oz: closest 1/4 oz"),
    ("9.9 oz", "10 oz", "2-10 oz: closest 1/4 oz"),
    ("12.3 oz", "12.5 oz", "more than 10 oz, less than 2 lb 8 oz: closest 1/2 oz"),
    ("10.2 oz", "10 oz", "more than 10 oz: closest 1/2 oz"),
    ("41.3 oz", "41 oz", "2 lb 8 oz - 5 lb: closest full ounce"),
    ("4.35 lb", "70 oz", "2 lb 8 oz - 5 lb: closest full ounce"),
    ("5.2 lb", "5.25 lb", "more than 5 lb: closest 1/4 lb"),
    ("12.1 lb", "12 lb", "more than 5 lb: closest 1/4 lb"),
    ("1.3 tsp", "1.25 tsp", "less than 1 Tbsp: closest 1/8 tsp"),
    ("1.8 Tbsp", "5.5 tsp", "1-3 Tbsp: closest 1/4 tsp; 5.4 tsp"),
    ("4.4 Tbsp", "13 tsp", "3 Tbsp - 1/2 cup: closest 1/2 tsp; 13.2 tsp"),
    ("9.1 Tbsp", "27 tsp", "1/2 - 3/4 cup: closest full tsp; 27.3 tsp"),
    ("3.1 cup", "3 cup", "2 cups - 2 qt: nearest 1/4 cup"),
    ("1.8 qt", "7.25 cup", "2 cups - 2 qt: nearest 1/4 cup; 7.2 cups"),
    ("2.6 qt", "10.5 cup", "2 - 4 qt: nearest 1/2 cup; 10.4 cups"),
    ("1.4 gal", "22 cup", "1 - 2 gal: nearest full cup; 22.4 cups"),
    ("2.6 gal", "2.5 gal", "2 - 10 gal: nearest full quart; 10.4 qt"),
    ("12.3 gal", "12.5 gal", "10 - 20 gal: closest 1/2 gal"),
    ("20.4 gal", "20 gal", "more than 20 gal: closest full gallon"),
]


@pytest.mark.parametrize(("amount", "rounded", "rule"), ROWS, ids=[row[2] for row in ROWS])
def test_each_row_of_the_guide(amount: str, rounded: str, rule: str) -> None:
    """Worked out by hand from the printed step named in the id; the answer keeps the unit it came in."""
    assert rule
    given_amount = Quantity.of(*amount.split())
    found = by_guide(given_amount)
    assert found == Quantity.of(*rounded.split())
    assert found.unit == given_amount.unit


def test_what_keeps_a_ratio_is_never_coarser_than_a_cup() -> None:
    """Footnote a: baked goods always to the nearest full cup or 1/4 qt. By hand: 2.6 gal are 41.6 cups, 42."""
    assert by_guide(Quantity.of("2.6", "gal"), keeps_ratio=True) == Quantity.of(42, "cup")
    assert by_guide(Quantity.of("20.4", "gal"), keeps_ratio=True) == Quantity.of(326, "cup")
    assert by_guide(Quantity.of("3.1", "cup"), keeps_ratio=True) == Quantity.of(3, "cup")


def test_the_gap_in_the_guide_is_said_and_not_filled() -> None:
    """Between 3/4 cup and 2 cups nothing is printed; below 2 oz it says to measure."""
    for amount in ("0.76 cup", "1.99 cup", "1 pt"):
        quantity = Quantity.of(*amount.split())
        if amount == "1 pt":
            assert by_guide(quantity) == quantity
            continue
        with pytest.raises(NotInGuide, match="the guide says nothing"):
            by_guide(quantity)
    assert by_guide(Quantity.of("0.75", "cup")) == Quantity.of("0.75", "cup")
    with pytest.raises(NotInGuide, match="measure it by spoon"):
        by_guide(Quantity.of("1.3", "oz"))


def test_the_guide_knows_us_measures_only() -> None:
    """Grams, imperial pints and counts are refused, and nothing is rounded."""
    for amount in ("500 g", "500 mL", "3 can"):
        with pytest.raises(WrongDimension, match="ounces and pounds"):
            by_guide(Quantity.of(*amount.split()))
    with pytest.raises(WrongDimension):
        by_guide(Quantity.of(1, "imperial pt"))
    with pytest.raises(QuantityProblem, match="above zero"):
        by_guide(Quantity.of(0, "oz"))


@given(st.fractions(2, 10_000, max_denominator=1000))
def test_rounding_twice_changes_nothing_and_moves_little(ounces: Fraction) -> None:
    """By the printed steps: never by more than an eighth of an ounce in two ounces, which is 6.25 percent."""
    once = by_guide(Quantity(ounces, Quantity.of(1, "oz").unit))
    assert by_guide(once) == once
    assert abs(once.amount - ounces) <= ounces / 16


OUNCES_OF_A_POUND = [
    (1, ".06"), (2, ".13"), (3, ".19"), (4, ".25"), (5, ".31"), (6, ".38"), (7, ".44"), (8, ".50"), (9, ".56"),
    (10, ".63"), (11, ".69"), (12, ".75"), (13, ".81"), (14, ".88"), (15, ".94"), (16, "1.0"),
]  # fmt: skip


@pytest.mark.parametrize(("ounces", "decimals"), OUNCES_OF_A_POUND)
def test_ounces_as_decimals_of_a_pound(ounces: int, decimals: str) -> None:
    """Armed Forces Recipe Service, General Information No. 1, card 1(1): two places, halves up."""
    assert to_nearest(Fraction(ounces, 16), Fraction(1, 100)) == Fraction(decimals)


QUARTERS = [
    ("0", "0.12", "0"),
    ("0.13", "0.37", "1/4"),
    ("0.38", "0.62", "1/2"),
    ("0.63", "0.87", "3/4"),
    ("0.88", "0.99", "1"),
]


@pytest.mark.parametrize(("least", "most", "ounces"), QUARTERS)
def test_the_armed_forces_scale_rounds_to_quarters(least: str, most: str, ounces: str) -> None:
    """Armed Forces Recipe Service, General Information No. 1, card 1(2): both ends of each row."""
    for part in (least, most):
        assert to_nearest(Fraction(part), Fraction(1, 4)) == Fraction(ounces)
