"""Portions from a batch, and the batch for portions, with what is lost in handling."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from trainer.messages import message
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.scaling import ratio


def portions_from(batch: Quantity, portion: Quantity, loss: Fraction = Fraction(0)) -> int:
    """Return how many full portions a batch gives once the handling loss is off: always rounded down.

    *loss* is a share of the batch: at least 0, below 1 (QuantityProblem). Batch and portion are of one kind
    (WrongDimension) and above zero. Common practice.

    >>> portions_from(Quantity.of(13, "lb"), Quantity.of(6, "oz"), Fraction(3, 100))
    33
    """
    return floor(ratio(batch * (1 - _good_loss(loss)), portion))


def batch_for(portions: int, portion: Quantity, loss: Fraction = Fraction(0)) -> Quantity:
    """Return the batch that gives so many full portions after the handling loss, exactly, in the portion's unit.

    At least one portion (QuantityProblem); other errors as `portions_from`.

    >>> print(batch_for(40, Quantity.of(6, "oz"), Fraction(4, 100)).to("lb"))
    15.625 lb
    """
    if portions < 1:
        raise QuantityProblem(message("{portions} portions need no batch: give at least one.", portions=portions))
    return portion * portions / (1 - _good_loss(loss))


def _good_loss(loss: Fraction) -> Fraction:
    if not 0 <= loss < 1:
        raise QuantityProblem(
            message("A loss of {loss} is not possible: it is a share from 0 up to, not including, 1.", loss=loss)
        )
    return loss
