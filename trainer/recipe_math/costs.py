"""What food costs: prices by weight, a recipe, a portion, the food cost percentage and the price on the menu.

Money stays exact all the way; `rounding.to_cents` comes once, at the end. Shares are plain fractions of one, what is
called a percentage here is a number out of a hundred.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Self

from trainer.messages import message
from trainer.recipe_math.buying import amount_to_buy, edible_cost
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word


@dataclass(frozen=True, slots=True)
class UnitPrice:
    """So much money for so much of something: $6.65 for 1 lb, $28.40 for a case of 6 cans.

    The money is money (WrongDimension) and not negative, the amount above zero (QuantityProblem).
    """

    money: Quantity
    per: Quantity

    def __post_init__(self) -> None:
        """Refuse a price that is none."""
        good_money(self.money)
        if self.per.base <= 0:
            raise QuantityProblem(message("A price for {per} is none: give an amount above zero.", per=self.per))

    @classmethod
    def of(cls, dollars: Fraction | int | str, unit: str) -> Self:
        """Return a price in dollars for one of a unit.

        >>> print(UnitPrice.of("6.65", "lb"))
        6.65 $ for 1 lb
        """
        return cls(Quantity.of(dollars, "$"), Quantity.of(1, unit))

    def cost_of(self, amount: Quantity) -> Quantity:
        """Return what this much costs, exactly. The amount is of the price's kind (WrongDimension), not negative.

        >>> print(UnitPrice.of("6.65", "lb").cost_of(Quantity.of(12, "lb")))
        79.8 $
        """
        if amount.base < 0:
            raise QuantityProblem(message("{amount} cannot be bought: an amount is not negative.", amount=amount))
        return self.money * (amount / self.per)

    def for_one(self, unit: str) -> Quantity:
        """Return what one of a unit costs, exactly.

        >>> print(UnitPrice.of(16, "lb").for_one("oz"))
        1 $
        """
        return self.cost_of(Quantity.of(1, unit))

    def edible(self, edible_share: Fraction) -> Self:
        """Return the price of what is left when only this share can be used: price over share, as `edible_cost`.

        Source: food-cost formula article, $10.00 a pound at 80 percent is $12.50.

        >>> print(UnitPrice.of(10, "lb").edible(Fraction(4, 5)))
        12.5 $ for 1 lb
        """
        return type(self)(edible_cost(self.money, edible_share), self.per)

    def over(self, other: UnitPrice) -> Fraction:
        """Return how many times the other price this one is. The other is above zero (QuantityProblem).

        >>> UnitPrice.of(3, "lb").over(UnitPrice.of("0.25", "oz"))
        Fraction(3, 4)
        """
        return self.money / other.cost_of(self.per)

    def __str__(self) -> str:
        """Return the money and the amount it buys."""
        return f"{self.money} for {self.per}"


@dataclass(frozen=True, slots=True)
class CostLine:
    """One line of a recipe's cost: the edible amount the recipe calls for, its price as purchased, its edible share."""

    amount: Quantity
    price: UnitPrice
    edible_share: Fraction = Fraction(1)

    def cost(self) -> Quantity:
        """Return what the line costs: the amount to buy, at the price. Errors as `amount_to_buy` and `cost_of`.

        >>> print(CostLine(Quantity.of(8, "lb"), UnitPrice.of(2, "lb"), Fraction(4, 5)).cost())
        20 $
        """
        return self.price.cost_of(amount_to_buy(self.amount, self.edible_share))


def portion_cost(recipe: Quantity, portions: int) -> Quantity:
    """Return what one portion costs: the recipe's cost over its portions, not rounded.

    At least one portion (QuantityProblem); the cost is money (WrongDimension). Common practice.

    >>> print(portion_cost(Quantity.of("52.50", "$"), 30))
    1.75 $
    """
    if portions < 1:
        raise QuantityProblem(message("{portions} portions share no cost: give at least one.", portions=portions))
    return good_money(recipe) / portions


def menu_price(cost: Quantity, food_cost_share: Fraction) -> Quantity:
    """Return the price at which the cost is this share of the sale: cost over share, not rounded.

    The share is above 0 and at most 1: 30.5 percent is Fraction("0.305") (QuantityProblem). Taxes are not in it.
    Source: butcher test work sheet, 7.07 at 30.5 percent is 23.18.

    >>> from trainer.recipe_math.rounding import to_cents
    >>> print(to_cents(menu_price(Quantity.of("7.07", "$"), Fraction("0.305"))))
    23.18 $
    """
    if not 0 < food_cost_share <= 1:
        raise QuantityProblem(
            message(
                "A food cost share of {share} is not usable: it is above 0 and at most 1 (30 percent is 3/10).",
                share=food_cost_share,
            )
        )
    return good_money(cost) / food_cost_share


def food_cost_percent(cost: Quantity, sales: Quantity) -> Fraction:
    """Return the food cost as a percentage of sales, exactly.

    Sales are above zero (QuantityProblem), both in one money (WrongDimension). Source: food cost formula, 25,780 of
    64,575 is 39.9 percent.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(food_cost_percent(Quantity.of(25780, "$"), Quantity.of(64575, "$")), 1)
    '39.9'
    """
    return 100 * (good_money(cost) / good_money(sales))


def cost_of_period(opening: Quantity, purchases: Quantity, closing: Quantity) -> Quantity:
    """Return what a period's food cost: stock at the start, and what was bought, less stock at the end.

    A closing stock above the other two together is a miscount (QuantityProblem). Common practice.

    >>> print(cost_of_period(Quantity.of(8200, "$"), Quantity.of(21400, "$"), Quantity.of(7600, "$")))
    22000 $
    """
    at_hand = good_money(opening) + good_money(purchases)
    if good_money(closing) > at_hand:
        raise QuantityProblem(
            message(
                "A closing stock of {closing} is more than there ever was ({at_hand}): count again.",
                closing=closing,
                at_hand=at_hand,
            )
        )
    return at_hand - closing


def good_money(money: Quantity) -> Quantity:
    """Return the same money; anything else is a WrongDimension, less than nothing a QuantityProblem.

    >>> print(good_money(Quantity.of(3, "$")))
    3 $
    """
    if not money.unit.dimension.startswith("money:"):
        raise WrongDimension(message("{money} is {kind}, not money.", money=money, kind=kind_word(money.unit)))
    if money.amount < 0:
        raise QuantityProblem(message("A cost of {money} is not possible: it is not negative.", money=money))
    return money
