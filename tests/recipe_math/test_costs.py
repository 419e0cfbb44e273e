"""Money stays exact and becomes cents once, at the end."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.costs import (
    CostLine,
    UnitPrice,
    cost_of_period,
    food_cost_percent,
    good_money,
    menu_price,
    portion_cost,
)
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.rounding import to_cents


def dollars(amount: int | str) -> Quantity:
    return Quantity.of(amount, "$")


def test_a_price_costs_by_weight_whatever_the_unit() -> None:
    """Butcher test work sheet: 81 lb at 4.50 is 364.50; the same in ounces. By hand: 364.5 lb at 1 $ for 1 lb."""
    price = UnitPrice.of("4.50", "lb")
    assert price.cost_of(Quantity.of(81, "lb")) == dollars("364.50")
    assert price.cost_of(Quantity.of(1296, "oz")) == dollars("364.50")


def test_a_price_for_a_case_is_a_price_for_one() -> None:
    """By hand: 28.40 for a case of 6 cans is 4.7333 a can."""
    price = UnitPrice(dollars("28.40"), Quantity.of(6, "can"))
    assert price.for_one("can") == Quantity(Fraction("28.40") / 6, dollars(1).unit)
    assert str(price) == "28.4 $ for 6 can"


def test_the_edible_price_is_the_price_over_the_share() -> None:
    """Food-cost formula article: $10.00 a pound at 80 percent is $12.50."""
    assert UnitPrice.of(10, "lb").edible(Fraction(4, 5)).money == dollars("12.50")


def test_two_prices_compare_in_one_unit() -> None:
    """By hand: 0.25 an ounce is 4.00 a pound."""
    assert UnitPrice.of("0.25", "oz").over(UnitPrice.of(2, "lb")) == 2
    with pytest.raises(WrongDimension):
        UnitPrice.of(1, "lb").over(UnitPrice.of(1, "cup"))
    with pytest.raises(QuantityProblem):
        UnitPrice.of(1, "lb").over(UnitPrice.of(0, "lb"))


def test_a_line_costs_what_must_be_bought() -> None:
    """By hand: 8 lb at 4/5 are 10 lb, at 2.00 are 20.00; 4 oz at 3.00 a pound are 0.75."""
    lines = [
        CostLine(Quantity.of(8, "lb"), UnitPrice.of(2, "lb"), Fraction(4, 5)),
        CostLine(Quantity.of(4, "oz"), UnitPrice.of(3, "lb")),
    ]
    assert [line.cost() for line in lines] == [dollars("20"), dollars("0.75")]
    assert portion_cost(lines[0].cost() + lines[1].cost(), 10) == dollars("2.075")


def test_the_menu_price_divides_by_the_food_cost_share() -> None:
    """The same work sheet: 7.07 at 30.5 percent is 23.18."""
    assert to_cents(menu_price(dollars("7.07"), Fraction("0.305"))) == dollars("23.18")


def test_food_cost_is_a_percentage_of_sales() -> None:
    """Food cost formula, question-and-answer page: 25,780 of 64,575 is 39.9 percent, within its last figure."""
    assert abs(food_cost_percent(dollars(25780), dollars(64575)) - Fraction("39.9")) <= Fraction("0.05")


def test_a_period_costs_opening_and_purchases_less_closing() -> None:
    """Three stored pages agree on the signs. By hand: 8,200 + 21,400 - 7,600 = 22,000, of 68,000 sales 32.35."""
    cost = cost_of_period(dollars(8200), dollars(21400), dollars(7600))
    assert cost == dollars(22000)
    assert abs(food_cost_percent(cost, dollars(68000)) - Fraction("32.35")) <= Fraction("0.005")


def test_what_is_no_money_or_no_amount_is_refused() -> None:
    """The message names the value."""
    assert good_money(dollars(0)) == dollars(0)
    with pytest.raises(WrongDimension, match="1 lb is mass, not money"):
        UnitPrice(Quantity.of(1, "lb"), Quantity.of(1, "lb"))
    with pytest.raises(QuantityProblem, match="not negative"):
        menu_price(dollars(-1), Fraction(1, 3))
    with pytest.raises(QuantityProblem, match="above zero"):
        UnitPrice(dollars(1), Quantity.of(0, "lb"))
    with pytest.raises(QuantityProblem, match="-1 lb"):
        UnitPrice.of(1, "lb").cost_of(Quantity.of(-1, "lb"))
    with pytest.raises(WrongDimension):
        UnitPrice.of(1, "lb").cost_of(Quantity.of(1, "cup"))


def test_no_portion_and_no_sale_are_refused() -> None:
    """Nothing can be shared by nobody."""
    with pytest.raises(QuantityProblem, match="0 portions"):
        portion_cost(dollars(1), 0)
    with pytest.raises(QuantityProblem):
        food_cost_percent(dollars(1), dollars(0))


@pytest.mark.parametrize("share", [Fraction(0), Fraction(-1, 3), Fraction(30), Fraction(101, 100)])
def test_a_food_cost_share_is_above_nothing_and_at_most_all(share: Fraction) -> None:
    """30 for 30 percent is refused."""
    with pytest.raises(QuantityProblem, match="30 percent is 3/10"):
        menu_price(dollars(7), share)


def test_an_impossible_stock_is_refused() -> None:
    """More at the end than there ever was is a miscount."""
    with pytest.raises(QuantityProblem, match="count again"):
        cost_of_period(dollars(10), dollars(5), dollars("15.01"))
    assert cost_of_period(dollars(10), dollars(5), dollars(15)) == dollars(0)
