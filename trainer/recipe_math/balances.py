"""Dry-matter balances: what weighs more or less because water goes in or out, as in pasta fresh, dry and cooked.

Moisture is a plain share of the whole weight: 31 percent is Fraction("0.31"). The balance supposes that nothing but
water moves; pasta gives a little starch to its water, and texts print up to 3 times for dry pasta where the balance
says 2.38, so weigh your own.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from trainer.recipe_math.dough import Liquid
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension

DRY_SPAGHETTI = Fraction("0.0990")
"""Moisture of dry spaghetti: USDA Standard Reference 26 (2013), NDB 20420."""
COOKED_SPAGHETTI = Fraction("0.6213")
"""Moisture of cooked spaghetti: USDA Standard Reference 26 (2013), NDB 20121."""
FRESH_PASTA = Fraction("0.3100")
"""Moisture of refrigerated fresh pasta: USDA Standard Reference 26 (2013), NDB 20093."""
COOKED_FRESH_PASTA = Fraction("0.6856")
"""Moisture of refrigerated fresh pasta, cooked: USDA Standard Reference 26 (2013), NDB 20094."""
SEMOLINA = Fraction("0.1267")
"""Moisture of semolina: USDA Standard Reference 26 (2013), NDB 20466. A durum flour is not in it."""


def dry_matter(weight: Quantity, moisture: Fraction) -> Quantity:
    """Return what would be left if all water were gone. A weight (WrongDimension), moisture as `weight_factor`.

    >>> print(dry_matter(Quantity.of(100, "g"), FRESH_PASTA))
    69 g
    """
    _refuse_no_weight(weight)
    return weight * (1 - _good(moisture))


def weight_factor(before: Fraction, after: Fraction) -> Fraction:
    """Return by how much a weight changes when its moisture goes from one share to another and only water moves.

    (1 - before) / (1 - after). Each is at least 0 and below 1 (QuantityProblem). With the moistures of USDA Standard
    Reference 26 (2013): dry spaghetti cooks to 2.379 times, fresh pasta to 2.195 times its weight.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(weight_factor(DRY_SPAGHETTI, COOKED_SPAGHETTI), 3)
    '2.379'
    """
    return (1 - _good(before)) / (1 - _good(after))


def weight_at(weight: Quantity, before: Fraction, after: Fraction) -> Quantity:
    """Return what a weight becomes at another moisture, in its own unit. Errors as `weight_factor`, `dry_matter`.

    Fresh pasta with the dry matter of 100 g of dry spaghetti is 131 g.

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(weight_at(Quantity.of(100, "g"), DRY_SPAGHETTI, FRESH_PASTA).amount, 0)
    '131'
    """
    _refuse_no_weight(weight)
    return weight * weight_factor(before, after)


def moisture_of(parts: Iterable[Liquid]) -> Fraction:
    """Return the share of water in a dough or mix: all water, that of the flour too, over all weight.

    Each part is a weight (WrongDimension) with its water share; together above zero (QuantityProblem). Unlike
    `dough.hydration` it counts the flour's own water. With semolina of USDA Standard Reference 26: 27 parts of water
    on 100 are 31.24 percent.

    >>> from trainer.recipe_math.figures import number_text
    >>> dough = [Liquid(Quantity.of(100, "g"), SEMOLINA), Liquid(Quantity.of(27, "g"))]
    >>> number_text(100 * moisture_of(dough))
    '31.24'
    """
    water = weight = Fraction(0)
    for part in parts:
        _refuse_no_weight(part.weight)
        water, weight = water + part.water().base, weight + part.weight.base
    if weight == 0:
        raise QuantityProblem("A mix of nothing has no moisture: give at least one part.")
    return water / weight


def water_to_reach(weight: Quantity, before: Fraction, after: Fraction) -> Quantity:
    """Return the water to add so that a weight of flour at one moisture becomes dough at a higher one.

    A wanted moisture below the present one is refused: it is dried, not wetted (QuantityProblem); other errors as
    `weight_at`. The inverse of `moisture_of` for flour and water.

    >>> print(water_to_reach(Quantity.of(100, "g"), Fraction("0.10"), Fraction("0.40")))
    50 g
    """
    if after < before:
        raise QuantityProblem(f"From {before} to {after} is drying: no water is added.")
    return weight_at(weight, before, after) - weight


def _refuse_no_weight(weight: Quantity) -> None:
    if weight.unit.dimension != "mass":
        raise WrongDimension(f"{weight} is {weight.unit.dimension}: weigh it, a balance goes by weight.")
    if weight.amount <= 0:
        raise QuantityProblem(f"{weight} holds no dry matter: it must be above zero.")


def _good(moisture: Fraction) -> Fraction:
    if not 0 <= moisture < 1:
        raise QuantityProblem(f"A moisture of {moisture} is not possible: it is from 0 up to, not including, 1.")
    return moisture
