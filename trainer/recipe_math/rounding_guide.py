"""A published guide for rounding scaled amounts: fine for little, coarse for much, so that a cook can measure it.

Source: Menu and Recipe Manual for Early Childhood Institutions (Early Childhood Commission, 2014 view), Appendix 7,
page 306. Round once, after scaling; what keeps a ratio, as leavening or curing salt does, is weighed and not rounded.
The guide has a gap from 3/4 cup to 2 cups, and below 2 oz it says to measure by spoon: both are refused here.
"""

from __future__ import annotations

from fractions import Fraction

from trainer.messages import message
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.rounding import to_nearest

_WEIGHTS = (("10", "1/4"), ("40", "1/2"), ("80", "1"))
"""Up to so many ounces, the nearest so many ounces."""
_ABOVE_WEIGHTS = "4"
_SPOONS = (("3", "1/8"), ("9", "1/4"), ("24", "1/2"), ("36", "1"))
"""Up to so many teaspoons, the nearest so many teaspoons."""
_CUPS = (("8", "1/4"), ("16", "1/2"), ("32", "1"), ("160", "4"), ("320", "8"))
"""Up to so many cups, the nearest so many cups."""
_ABOVE_CUPS = "16"
_BAKED = "1"


class NotInGuide(QuantityProblem):
    """An amount for which the printed guide has no step; the message says what it has instead."""


def by_guide(amount: Quantity, *, keeps_ratio: bool = False) -> Quantity:
    """Return a weight or a US measure rounded as the published guide says, in its own unit; halves go up.

    Weights: to 10 oz the nearest 1/4 oz, to 2 lb 8 oz 1/2 oz, to 5 lb 1 oz, above 1/4 lb. Measures: below 1 Tbsp 1/8
    tsp, to 3 Tbsp 1/4 tsp, to 1/2 cup 1/2 tsp, to 3/4 cup 1 tsp; 2 cups to 2 qt 1/4 cup, to 4 qt 1/2 cup, to 2 gal 1
    cup, to 10 gal 1 qt, to 20 gal 1/2 gal, above 1 gal. With *keeps_ratio* (baked goods) nothing above 2 gal is
    coarser than 1 cup. Below 2 oz, unless in quarters of an ounce, and between 3/4 cup and 2 cups: NotInGuide. Other
    kinds, and metric, which the guide does not know: WrongDimension. Source: see this module.

    >>> print(by_guide(Quantity.of("4.35", "lb")), "and", by_guide(Quantity.of("2.7", "gal")))
    4.375 lb and 2.75 gal
    """
    if amount.amount <= 0:
        raise QuantityProblem(message("{amount} is nothing to round: it must be above zero.", amount=amount))
    kind, system = amount.unit.dimension, amount.unit.system
    if (kind, system) == ("mass", "customary"):
        return _in_steps(amount, "oz", _weight_step(amount.to("oz").amount))
    if (kind, system) == ("volume", "us_exact"):
        return _measure(amount, keeps_ratio)
    raise WrongDimension(
        message("{amount}: the guide rounds ounces and pounds, and US spoons, cups, quarts and gallons.", amount=amount)
    )


def _weight_step(ounces: Fraction) -> Fraction:
    if ounces < 2 and ounces % Fraction(1, 4):
        raise NotInGuide(
            message(
                "{ounces} oz is below 2 oz and not in quarters: the guide says to measure it by spoon.", ounces=ounces
            )
        )
    return _step(ounces, _WEIGHTS, _ABOVE_WEIGHTS)


def _measure(amount: Quantity, keeps_ratio: bool) -> Quantity:
    cups = amount.to("cup").amount
    if cups <= Fraction(3, 4):
        return _in_steps(amount, "tsp", _step(amount.to("tsp").amount, _SPOONS, "1"))
    if cups < 2:
        raise NotInGuide(
            message(
                "{amount} lies between 3/4 cup and 2 cups, where the guide says nothing: choose a step.", amount=amount
            )
        )
    step = _step(cups, _CUPS, _ABOVE_CUPS)
    return _in_steps(amount, "cup", min(step, Fraction(_BAKED)) if keeps_ratio else step)


def _step(size: Fraction, bands: tuple[tuple[str, str], ...], above: str) -> Fraction:
    return Fraction(next((step for top, step in bands if size <= Fraction(top)), above))


def _in_steps(amount: Quantity, unit: str, step: Fraction) -> Quantity:
    return Quantity(to_nearest(amount.to(unit).amount, step), Quantity.of(1, unit).unit).to(amount.unit)
