"""Reducing: how strong what is left becomes, and how long the heat takes to drive the water off.

Salt does not leave with the steam: what was right at the start is too much at the end, so it goes in last.

Source of the heat: the enthalpy of evaporation of water at 100 °C, 2,257 kJ a kilogram (IAPWS; tables print 2.26 MJ).
"""

from __future__ import annotations

from fractions import Fraction

from trainer.messages import message
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.scaling import ratio

EVAPORATION = Fraction(2257)
"""Kilojoules that a kilogram of water takes to leave as steam."""


def strength_after(strength: Fraction, before: Quantity, after: Quantity) -> Fraction:
    """Return how strong a reduction becomes, in the measure it was: all that was in it is in less.

    Weights or volumes of one kind (WrongDimension) above zero, and less after than before (QuantityProblem).

    >>> strength_after(Fraction(2), Quantity.of(4, "kg"), Quantity.of(1, "kg"))
    Fraction(8, 1)
    """
    _refuse_growth(before, after)
    return strength * ratio(before, after)


def salt_to_finish(before: Quantity, after: Quantity, strength: Fraction, wanted: Fraction) -> Quantity:
    """Return how much salt is still to be weighed in at the end; both strengths in grams a kilogram.

    Where what is in it already is too much, no salt helps: QuantityProblem. Errors as `strength_after`.

    >>> print(salt_to_finish(Quantity.of(4, "kg"), Quantity.of(1, "kg"), Fraction(1), Fraction(8)))
    4 g
    """
    there = strength_after(strength, before, after)
    if there > wanted:
        raise QuantityProblem(
            message("It ends at {there} g of salt in a kilogram, above {wanted}.", there=there, wanted=wanted)
        )
    return Quantity.of((wanted - there) * after.to("kg").amount, "g")


def least_time(before: Quantity, after: Quantity, kilowatts: Fraction) -> Quantity:
    """Return the least time the water takes to leave, all of the heat going into it; a pan loses some to the air.

    Two weights (WrongDimension), less after than before; a power above zero (QuantityProblem). An estimate.

    >>> round(least_time(Quantity.of(4, "kg"), Quantity.of(1, "kg"), Fraction(2)).to("min").amount, 1)
    Fraction(282, 5)
    """
    _refuse_growth(before, after)
    if kilowatts <= 0:
        raise QuantityProblem(message("{power} kW drives nothing off.", power=kilowatts))
    return Quantity.of((before - after).to("kg").amount * EVAPORATION / kilowatts, "s")


def _refuse_growth(before: Quantity, after: Quantity) -> None:
    if ratio(before, after) <= 1:
        raise QuantityProblem(
            message("{after} is no reduction of {before}: it must be less.", after=after, before=before)
        )
