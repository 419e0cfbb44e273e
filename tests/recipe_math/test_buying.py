"""What to buy follows from the edible portion; packs are whole."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.buying import (
    amount_to_buy,
    edible_cost,
    edible_share,
    order_line,
    packs_to_buy,
    units_for_servings,
)
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.rounding import to_cents


def test_corn_for_460_comes_to_28_cans() -> None:
    """USDA Food Buying Guide training slides: 3.0 x 460/100 x 2 = 27.6 No. 10 cans, buy 28."""
    cans = units_for_servings(Fraction(3), 460, Fraction(1, 2) / Fraction(1, 4))
    assert cans == Fraction("27.6")
    assert packs_to_buy(cans, 1) == 28


def test_beef_and_fries_come_to_the_printed_pounds() -> None:
    """USDA Food Buying Guide training slides: 8.5 x 2.3 x 2 = 39.1 lb; 8.0 x 3.8 x 2 = 60.8 lb."""
    assert units_for_servings(Quantity.of("8.5", "lb"), 230, Fraction(2)) == Quantity.of("39.1", "lb")
    assert units_for_servings(Quantity.of(8, "lb"), 380, Fraction(2)) == Quantity.of("60.8", "lb")


def test_corn_on_the_cob_differs_by_a_hundredth_between_two_official_ways() -> None:
    """Using the Food Buying Guide to Calculate Purchase Quantities: 75 / 2.44 = 30.74 lb; 75 x 41 / 100 = 30.75."""
    assert abs(Fraction(75) / Fraction("2.44") - Fraction("30.74")) < Fraction("0.005")
    assert units_for_servings(Quantity.of(41, "lb"), 75, Fraction(1)) == Quantity.of("30.75", "lb")


SHARES = [
    ("80 oz", "8.8 oz", "0.89", "0", "The Ultimate Guide to Recipe Calculation (Culinary Institute of America)"),
    ("5.2 kg", "0.6 kg", "0.885", "0.0005", "G. Wall, Trade Calculations, objective 4"),
    ("12 lb", "5.5 oz", "0.97", "0.005", "worked answer, celery: pounds and ounces mixed"),
]


@pytest.mark.parametrize(("bought", "trim", "share", "tolerance", "source"), SHARES, ids=[row[4] for row in SHARES])
def test_the_edible_share_is_what_is_left_over_what_was_bought(
    bought: str, trim: str, share: str, tolerance: str, source: str
) -> None:
    """Printed percentages, each within its last figure."""
    assert source
    found = edible_share(Quantity.of(*bought.split()), Quantity.of(*trim.split()))
    assert abs(found - Fraction(share)) <= Fraction(tolerance)


def test_buying_divides_by_the_share() -> None:
    """By hand: 8 lb at 4/5 is 10 lb. Two steps of 4/5 and 1/2: 8 / 0.4 = 20 lb."""
    need = Quantity.of(8, "lb")
    assert amount_to_buy(need, Fraction(4, 5)) == Quantity.of(10, "lb")
    assert amount_to_buy(amount_to_buy(need, Fraction(4, 5)), Fraction(1, 2)) == Quantity.of(20, "lb")


def test_the_edible_portion_costs_the_price_over_the_share() -> None:
    """Food-cost formula article: $10.00 a pound at 80 percent is $12.50. By hand: 11.95 at 4.6/5.2 is 13.51."""
    assert edible_cost(Quantity.of(10, "$"), Fraction(4, 5)) == Quantity.of("12.50", "$")
    assert to_cents(edible_cost(Quantity.of("11.95", "$"), Fraction(46, 52))) == Quantity.of("13.51", "$")


@pytest.mark.parametrize("share", [Fraction(0), Fraction(-1, 2), Fraction(101, 100), Fraction(80)])
def test_a_share_is_above_nothing_and_at_most_all(share: Fraction) -> None:
    """80 for 80 percent is refused, not taken for eightyfold."""
    for use in (amount_to_buy, edible_cost):
        with pytest.raises(QuantityProblem, match="at most 1"):
            use(Quantity.of(1, "lb"), share)


def test_more_trim_than_was_bought_is_refused() -> None:
    """Nothing would be left."""
    with pytest.raises(QuantityProblem):
        edible_share(Quantity.of(1, "lb"), Quantity.of(17, "oz"))


def test_packs_hold_the_same_kind_as_the_need() -> None:
    """By hand: 31 lb in bags of 10 lb are 4 bags."""
    assert packs_to_buy(Quantity.of(31, "lb"), Quantity.of(10, "lb")) == 4
    with pytest.raises(WrongDimension):
        packs_to_buy(Quantity.of(31, "lb"), Quantity.of(10, "cup"))


def test_an_order_line_is_packs_after_the_loss() -> None:
    """By hand: 9 kg edible at 90 % are 10 kg; in bags of 3 kg that is 4 bags, and 2 kg are left over."""
    line = order_line(Quantity.of(9, "kg"), Fraction(9, 10), Quantity.of(3, "kg"))
    assert (line.packs, line.needed, line.ordered, line.left_over) == (
        4,
        Quantity.of(10, "kg"),
        Quantity.of(12, "kg"),
        Quantity.of(2, "kg"),
    )
    exact = order_line(Quantity.of(27, "kg"), Fraction(9, 10), Quantity.of(3, "kg"))
    assert (exact.packs, exact.left_over) == (10, Quantity.of(0, "kg"))
