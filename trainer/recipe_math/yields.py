"""What is left of food once it is trimmed and cooked, and what that costs: yield tests, butcher and cooking-loss cards.

A percentage is a number out of a hundred; a share is a plain fraction of one. Weigh on one scale before and after: a
yield holds for the kitchen, the supplier and the knife it was measured with, and published yields differ by a quarter
(celery 73 to 89 percent in three sources), so name the source of each or test your own.

Caution: the knife work of a yield test is done by a person cleared for it. Food on the bench for a test stays under the
time and temperature rules of the local code like any other.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from trainer.messages import message
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


def two_step_share(first: Fraction, second: Fraction) -> Fraction:
    """Return the share left after two losses one after the other, such as trimming and then cooking: their product.

    Theory only: no published worked example was found to check it against. It holds where the second share was measured
    on what the first left. Never the mean of both, nor one less both losses. Shares above 0, at most 1
    (QuantityProblem).

    >>> two_step_share(Fraction(4, 5), Fraction(3, 4))
    Fraction(3, 5)
    """
    return _good_share(first) * _good_share(second)


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
            raise QuantityProblem(message("{weight} cannot be served: it must be above zero.", weight=self.weight))

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
            raise QuantityProblem(
                message(
                    "Trims worth {trims} are more than the whole cost ({cost}): look at their prices again.",
                    trims=to_cents(self.trim_value()),
                    cost=to_cents(self.total_cost()),
                )
            )

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


def _share(usable: Quantity, whole: Quantity) -> Fraction:
    return _good_share(ratio(usable, whole))


def _good_share(share: Fraction) -> Fraction:
    if not 0 < share <= 1:
        raise QuantityProblem(
            message("A share of {share} is not possible: it is above 0 and at most 1 (80 percent is 4/5).", share=share)
        )
    return share


def _refuse_outweighing(whole: Quantity, parts: list[Quantity]) -> None:
    shares = [ratio(part, whole) for part in parts]
    if sum(shares, Fraction(0)) > 1:
        told = " + ".join(str(part) for part in parts)
        raise QuantityProblem(
            message("{told} is more than the {whole} there was: weigh again.", told=told, whole=whole)
        )
