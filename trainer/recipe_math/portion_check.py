"""Weighed portions against their target: mean, spread, how many are inside the tolerance, and what that says of all.

The target and the tolerance are the house's. A handful of weighings says little about a whole service, so the share
inside comes with its interval: 9 of 10 inside may be 60 percent of all portions or 98.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.messages import message
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.statistics import CONFIDENCE, Interval, mean, sample_deviation, wilson_interval


@dataclass(frozen=True, slots=True)
class PortionTarget:
    """What a portion should be, and how far it may be off either way, both included. Of one kind, above zero."""

    weight: Quantity
    tolerance: Quantity

    def __post_init__(self) -> None:
        """Refuse a target or a tolerance of nothing, and a tolerance that lets nothing through as a portion."""
        if self.weight.amount <= 0 or self.tolerance.amount <= 0:
            raise QuantityProblem(
                message(
                    "{weight} give or take {tolerance} is no target: both are above zero.",
                    weight=self.weight,
                    tolerance=self.tolerance,
                )
            )
        if self.tolerance >= self.weight:
            empty = message(
                "A tolerance of {off} on {weight} would pass an empty plate.", off=self.tolerance, weight=self.weight
            )
            raise QuantityProblem(empty)

    def is_inside(self, portion: Quantity) -> bool:
        """Return whether a portion is off by no more than the tolerance.

        >>> PortionTarget(Quantity.of(6, "oz"), Quantity.of("1/4", "oz")).is_inside(Quantity.of("6.25", "oz"))
        True
        """
        return self.weight - self.tolerance <= portion <= self.weight + self.tolerance

    def limits(self) -> Interval:
        """Return the lightest and the heaviest good portion, as numbers in the target's unit.

        >>> PortionTarget(Quantity.of(6, "oz"), Quantity.of("1/4", "oz")).limits().low
        Fraction(23, 4)
        """
        off = self.tolerance.to(self.weight.unit).amount
        return Interval(self.weight.amount - off, self.weight.amount + off)


@dataclass(frozen=True, slots=True)
class PortionCheck:
    """What the weighed portions show, in the target's unit; `likely` is where the share of all portions may lie."""

    target: PortionTarget
    weighed: int
    mean: Quantity
    deviation: Quantity
    lightest: Quantity
    heaviest: Quantity
    too_light: int
    too_heavy: int
    likely: Interval

    @property
    def inside(self) -> int:
        """Return how many portions are inside the tolerance.

        >>> target = PortionTarget(Quantity.of(6, "oz"), Quantity.of("1/4", "oz"))
        >>> check_portions([Quantity.of(weight, "oz") for weight in ("5.9", "6", "6.3")], target).inside
        2
        """
        return self.weighed - self.too_light - self.too_heavy

    @property
    def share(self) -> Fraction:
        """Return the share of the weighed portions that are inside.

        >>> target = PortionTarget(Quantity.of(6, "oz"), Quantity.of("1/4", "oz"))
        >>> check_portions([Quantity.of(weight, "oz") for weight in ("5.9", "6", "6.3")], target).share
        Fraction(2, 3)
        """
        return Fraction(self.inside, self.weighed)

    def off_target(self) -> Quantity:
        """Return by how much the mean is off: above zero where portions run heavy, which costs food.

        >>> target = PortionTarget(Quantity.of(6, "oz"), Quantity.of("1/4", "oz"))
        >>> print(check_portions([Quantity.of(weight, "oz") for weight in ("5.9", "6", "6.4")], target).off_target())
        0.1 oz
        """
        return self.mean - self.target.weight


def check_portions(
    portions: Sequence[Quantity], target: PortionTarget, confidence: Fraction = CONFIDENCE
) -> PortionCheck:
    """Return what weighed portions show against a target: mean, spread, how many are inside, and Wilson's interval.

    At least two portions, none below zero (QuantityProblem), of the target's kind (WrongDimension). The deviation is
    rounded to nine decimals, the rest is exact. Methods: NIST/SEMATECH e-Handbook of Statistical Methods, section
    7.2.4.1.

    >>> target = PortionTarget(Quantity.of(170, "g"), Quantity.of(5, "g"))
    >>> check = check_portions([Quantity.of(weight, "g") for weight in (168, 172, 171, 177)], target)
    >>> print(check.mean, check.inside, check.too_heavy)
    172 g 3 1
    """
    unit = target.weight.unit
    amounts = [portion.to(unit).amount for portion in portions]
    if any(amount < 0 for amount in amounts):
        raise QuantityProblem(
            message(
                "A portion of {least} {unit} was misread: a weight is not negative.",
                least=number_text(min(amounts)),
                unit=unit.symbol,
            )
        )
    deviation, limits = sample_deviation(amounts), target.limits()
    light = sum(amount < limits.low for amount in amounts)
    heavy = sum(amount > limits.high for amount in amounts)
    return PortionCheck(
        target=target,
        weighed=len(amounts),
        mean=Quantity(mean(amounts), unit),
        deviation=Quantity(deviation, unit),
        lightest=Quantity(min(amounts), unit),
        heaviest=Quantity(max(amounts), unit),
        too_light=light,
        too_heavy=heavy,
        likely=wilson_interval(len(amounts) - light - heavy, len(amounts), confidence),
    )
