"""What is left of food once it is trimmed and cooked, and what that costs: yield tests, butcher and cooking-loss cards.

A percentage is a number out of a hundred; a share is a plain fraction of one. Weigh on one scale before and after: a
yield holds for the kitchen, the supplier and the knife it was measured with, and published yields differ by a quarter
(celery 73 to 89 percent in three sources), so name the source of each or test your own.

Caution: the knife work of a yield test is done by somebody cleared for it. Food on the bench for a test stays under the
time and temperature rules of the local code like any other.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from trainer.recipe_math.costs import UnitPrice, good_money
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.rounding import to_cents
from trainer.recipe_math.scaling import ratio


def yield_percent(as_purchased: Quantity, usable: Quantity) -> Fraction:
    """Return what is usable as a percentage of what was purchased, exactly.

    Both above zero, the usable part no more than the whole (QuantityProblem), of one kind (WrongDimension). Source: G.
    Wall, Trade Calculations, objective 4: 4.6 kg of 5.2 kg is 88.5 percent.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(yield_percent(Quantity.of("5.2", "kg"), Quantity.of("4.6", "kg")), 1)
    '88.5'
    """
    return 100 * _share(usable, as_purchased)


def purchase_factor(edible_share: Fraction) -> Fraction:
    """Return by what to multiply an edible weight to get the weight to purchase: one over the share.

    The share is above 0 and at most 1 (QuantityProblem). The Armed Forces Recipe Service, card A-6, prints such
    factors: 1.25 for cabbage trimmed and cored is a yield of 80 percent.

    >>> purchase_factor(Fraction(80, 100))
    Fraction(5, 4)
    """
    return 1 / _good_share(edible_share)


def share_of_factor(factor: Fraction) -> Fraction:
    """Return the edible share that a purchase factor stands for; the factor is 1 or more (QuantityProblem).

    >>> share_of_factor(Fraction("1.25"))
    Fraction(4, 5)
    """
    if factor < 1:
        raise QuantityProblem(f"A factor of {factor} would make more than was bought: it is 1 or more.")
    return 1 / factor


def two_step_share(first: Fraction, second: Fraction) -> Fraction:
    """Return the share left after two losses one after the other, such as trimming and then cooking: their product.

    Theory only: no published worked example was found to check it against. It holds where the second share was measured
    on what the first left. Never the mean of both, nor one less both losses. Shares as `purchase_factor`.

    >>> two_step_share(Fraction(4, 5), Fraction(3, 4))
    Fraction(3, 5)
    """
    return _good_share(first) * _good_share(second)


@dataclass(frozen=True, slots=True)
class YieldTest:
    """A yield test: what was purchased, what was usable, and each trim that was weighed.

    All above zero, of one kind (WrongDimension); parts that weigh more than the whole are refused (QuantityProblem).
    """

    as_purchased: Quantity
    usable: Quantity
    trims: Mapping[str, Quantity] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse parts that outweigh the whole; keep the trims from change."""
        object.__setattr__(self, "trims", MappingProxyType(dict(self.trims)))
        _refuse_outweighing(self.as_purchased, [self.usable, *self.trims.values()])

    def lost(self) -> Quantity:
        """Return what no weighing accounts for: drip, what sticks to the board, in the unit of purchase.

        >>> peel = {"peel": Quantity.of(8, "oz")}
        >>> print(YieldTest(Quantity.of(5, "lb"), Quantity.of(4, "lb"), peel).lost())
        0.5 lb
        """
        left = self.as_purchased - self.usable
        for trim in self.trims.values():
            left = left - trim
        return left

    def share(self) -> Fraction:
        """Return the edible share, for `buying.amount_to_buy`.

        >>> YieldTest(Quantity.of(5, "lb"), Quantity.of(4, "lb")).share()
        Fraction(4, 5)
        """
        return _share(self.usable, self.as_purchased)

    def percents(self) -> dict[str, Fraction]:
        """Return the percentage of the whole that is usable, that each trim is, and that is lost: together 100.

        >>> [str(percent) for percent in YieldTest(Quantity.of(5, "lb"), Quantity.of(4, "lb")).percents().values()]
        ['80', '20']
        """
        parts = {"usable": self.usable, **self.trims, "lost": self.lost()}
        return {name: 100 * part.over(self.as_purchased) for name, part in parts.items()}


@dataclass(frozen=True, slots=True)
class Yielded:
    """A weight that can be served, what all of it cost, and the price it was bought at."""

    weight: Quantity
    cost: Quantity
    bought_at: UnitPrice

    def __post_init__(self) -> None:
        """Refuse nothing to serve, and a cost that is no money."""
        good_money(self.cost)
        if self.weight.base <= 0:
            raise QuantityProblem(f"{self.weight} cannot be served: it must be above zero.")

    def price(self) -> UnitPrice:
        """Return what the weight that can be served costs, as a price.

        >>> beef = Yielded(Quantity.of(5, "lb"), Quantity.of(60, "$"), UnitPrice.of(8, "lb"))
        >>> print(beef.price().for_one("lb"))
        12 $
        """
        return UnitPrice(self.cost, self.weight)

    def portion_cost(self, portion: Quantity) -> Quantity:
        """Return what a portion of this weight costs, not rounded.

        >>> beef = Yielded(Quantity.of(5, "lb"), Quantity.of(60, "$"), UnitPrice.of(8, "lb"))
        >>> print(beef.portion_cost(Quantity.of(4, "oz")))
        3 $
        """
        return self.price().cost_of(portion)

    def cost_factor(self) -> Fraction:
        """Return the cost factor: the price of what can be served over the price it was bought at.

        >>> Yielded(Quantity.of(5, "lb"), Quantity.of(60, "$"), UnitPrice.of(8, "lb")).cost_factor()
        Fraction(3, 2)
        """
        return self.price().over(self.bought_at)


@dataclass(frozen=True, slots=True)
class Trim:
    """A trim weighed on a butcher card: its weight, and what it is worth to the house (0 for waste)."""

    weight: Quantity
    price: UnitPrice


@dataclass(frozen=True, slots=True)
class ButcherCard:
    """A butcher test card: a cut bought at a price, its trims with their worth, and what is left to sell or to cook.

    Weights are of one kind (WrongDimension), the whole and what is usable above zero; parts that outweigh the whole and
    trims worth more than the whole cost are refused (QuantityProblem). Source of the layout: butcher test card.
    """

    bought: Quantity
    price: UnitPrice
    usable: Quantity
    trims: tuple[Trim, ...] = ()

    def __post_init__(self) -> None:
        """Refuse parts that outweigh the whole or are worth more."""
        _refuse_outweighing(self.bought, [self.usable, *(trim.weight for trim in self.trims)])
        if self.trim_value() > self.total_cost():
            told = f"Trims worth {to_cents(self.trim_value())} are more than the whole cost"
            raise QuantityProblem(f"{told} ({to_cents(self.total_cost())}): look at their prices again.")

    def total_cost(self) -> Quantity:
        """Return what the whole cut cost.

        >>> print(ButcherCard(Quantity.of(12, "lb"), UnitPrice.of("6.65", "lb"), Quantity.of(6, "lb")).total_cost())
        79.8 $
        """
        return self.price.cost_of(self.bought)

    def trim_value(self) -> Quantity:
        """Return what all trims are worth together; nothing where there is none.

        >>> print(ButcherCard(Quantity.of(12, "lb"), UnitPrice.of("6.65", "lb"), Quantity.of(6, "lb")).trim_value())
        0 $
        """
        worth = self.price.money * 0
        for trim in self.trims:
            worth = worth + trim.price.cost_of(trim.weight)
        return worth

    def usable_part(self) -> Yielded:
        """Return the usable weight at its net cost: the whole cost less what the trims are worth.

        Source: butcher test card, exercise 6.3: lamb loin 79.80 less 13.00 is 66.80 for 6 lb.

        >>> flank = Trim(Quantity.of("1.5", "lb"), UnitPrice.of("4.60", "lb"))
        >>> kidney = Trim(Quantity.of(1, "lb"), UnitPrice.of("6.10", "lb"))
        >>> loin, price = Quantity.of(12, "lb"), UnitPrice.of("6.65", "lb")
        >>> print(ButcherCard(loin, price, Quantity.of(6, "lb"), (kidney, flank)).usable_part().cost)
        66.8 $
        """
        return Yielded(self.usable, self.total_cost() - self.trim_value(), self.price)

    def yield_percent(self) -> Fraction:
        """Return the usable weight as a percentage of what was bought.

        >>> ButcherCard(Quantity.of(12, "lb"), UnitPrice.of("6.65", "lb"), Quantity.of(6, "lb")).yield_percent()
        Fraction(50, 1)
        """
        return yield_percent(self.bought, self.usable)


@dataclass(frozen=True, slots=True)
class CookingLossCard:
    """A cooking-loss card: what went into the oven at what cost, and what of it could be served afterwards.

    *raw* is the usable part of a butcher card, or a purchase as it came. Served weight is above zero and no more than
    the raw weight (QuantityProblem), of one kind (WrongDimension). For what gains weight, see `balances`.
    """

    raw: Yielded
    served: Quantity

    def __post_init__(self) -> None:
        """Refuse a roast that gained weight."""
        _refuse_outweighing(self.raw.weight, [self.served])

    def served_part(self) -> Yielded:
        """Return the served weight at the same cost: what was lost in the oven was paid for.

        Source: butcher test card, exercise 6.3: lamb at 79.80 for 5 lb served is 15.96 a pound, a cost factor of 2.4.

        >>> price = UnitPrice.of("6.65", "lb")
        >>> raw = Yielded(Quantity.of(12, "lb"), Quantity.of("79.80", "$"), price)
        >>> CookingLossCard(raw, Quantity.of(5, "lb")).served_part().cost_factor()
        Fraction(12, 5)
        """
        return Yielded(self.served, self.raw.cost, self.raw.bought_at)

    def loss_percent(self) -> Fraction:
        """Return what was lost in cooking and carving, as a percentage of the raw weight.

        >>> raw = Yielded(Quantity.of(10, "lb"), Quantity.of(50, "$"), UnitPrice.of(5, "lb"))
        >>> CookingLossCard(raw, Quantity.of(7, "lb")).loss_percent()
        Fraction(30, 1)
        """
        return 100 - yield_percent(self.raw.weight, self.served)


def price_by_factor(market_price: UnitPrice, cost_factor: Fraction) -> UnitPrice:
    """Return what can be served costs when the market price has changed: the new price times the old cost factor.

    The factor is above zero (QuantityProblem); it holds as long as the cut and the trims' worth stay alike. Common
    practice.

    >>> print(price_by_factor(UnitPrice.of(7, "lb"), Fraction("2.4")).for_one("lb"))
    16.8 $
    """
    if cost_factor <= 0:
        raise QuantityProblem(f"A cost factor of {cost_factor} is not usable: it must be above zero.")
    return UnitPrice(market_price.money * cost_factor, market_price.per)


def _share(usable: Quantity, whole: Quantity) -> Fraction:
    return _good_share(ratio(usable, whole))


def _good_share(share: Fraction) -> Fraction:
    if not 0 < share <= 1:
        raise QuantityProblem(f"A share of {share} is not possible: it is above 0 and at most 1 (80 percent is 4/5).")
    return share


def _refuse_outweighing(whole: Quantity, parts: list[Quantity]) -> None:
    shares = [ratio(part, whole) for part in parts]
    if sum(shares, Fraction(0)) > 1:
        told = " + ".join(str(part) for part in parts)
        raise QuantityProblem(f"{told} is more than the {whole} there was: weigh again.")
