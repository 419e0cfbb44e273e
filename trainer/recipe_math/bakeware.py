"""Pans by their floor, and a recipe moved from one pan to another: same depth, or same batch and another depth.

Floors are taken inside, at the bottom. Steam-table pans by their nominal sides, as the operator manual of a steam
cooker (22CET/21CET, section B, Table 7-1) prints them: full 12 x 20 in, half 12 x 10, third 12 x 6, quarter 10 x 6,
sixth 6 x 6. What a pan holds to the brim is in `tools`.

Caution: food in another depth cooks in another time: check it with a thin probe, and start to check early.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from trainer.messages import Text, message
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word
from trainer.recipe_math.units import UNITS

PI = Fraction(355, 113)
"""The circle's number to six decimals, as an exact fraction."""


@dataclass(frozen=True, slots=True)
class Floor:
    """The floor of a pan, in square millimetres."""

    square_millimetres: Fraction

    @property
    def square_inches(self) -> Fraction:
        """Return the floor in square inches.

        >>> rectangular(Quantity.of(8, "in"), Quantity.of(8, "in")).square_inches
        Fraction(64, 1)
        """
        return self.square_millimetres / UNITS["in"].factor ** 2

    def over(self, other: Floor) -> Fraction:
        """Return how many times the other floor this one is: the factor of a recipe that keeps its depth.

        >>> hotel_pan("full").over(hotel_pan("1/2"))
        Fraction(2, 1)
        """
        return self.square_millimetres / other.square_millimetres


def rectangular(length: Quantity, width: Quantity) -> Floor:
    """Return the floor of a pan with straight sides. Two lengths (WrongDimension) above zero (QuantityProblem).

    >>> rectangular(Quantity.of(9, "in"), Quantity.of(13, "in")).square_inches
    Fraction(117, 1)
    """
    return Floor(_side(length) * _side(width))


def circular(across: Quantity) -> Floor:
    """Return the floor of a round pan from its diameter. Errors as `rectangular`.

    >>> round(circular(Quantity.of(9, "in")).square_inches, 1)
    Fraction(318, 5)
    """
    return Floor(PI * _side(across) ** 2 / 4)


def hotel_pan(size: str) -> Floor:
    """Return the floor of a steam-table pan: "full", "2/3", "1/2", "1/3", "1/4", "1/6"; else QuantityProblem.

    >>> hotel_pan("1/3").square_inches
    Fraction(72, 1)
    """
    if size not in HOTEL_PANS:
        raise QuantityProblem(
            message("{size} is no steam-table pan: there are {sizes}.", size=repr(size), sizes=", ".join(HOTEL_PANS))
        )
    length, width = HOTEL_PANS[size]
    return rectangular(Quantity.of(length, "in"), Quantity.of(width, "in"))


HOTEL_PANS: Mapping[str, tuple[int, int]] = MappingProxyType(
    {"full": (20, 12), "2/3": (13, 12), "1/2": (12, 10), "1/3": (12, 6), "1/4": (10, 6), "1/6": (6, 6)}
)
"""Steam-table pans by name: their nominal sides in inches."""


@dataclass(frozen=True, slots=True)
class Moved:
    """A recipe in another pan: the factor and number of pans that keep its depth, and its depth if nothing is changed.

    `depth_ratio` is how many times as deep the unchanged batch stands in the new pan.
    """

    factor: Fraction
    depth_ratio: Fraction
    warning: Text


def moved(old: Floor, new: Floor, pans: int = 1) -> Moved:
    """Return what becomes of a recipe that goes from one pan into so many others; at least one (QuantityProblem).

    Common practice: an 8 in square and a 9 in round pan hold the same batch (64 and 63.6 square inches).

    >>> found = moved(circular(Quantity.of(9, "in")), rectangular(Quantity.of(8, "in"), Quantity.of(8, "in")))
    >>> round(found.factor, 2)
    Fraction(101, 100)
    """
    if pans < 1:
        raise QuantityProblem(message("{pans} pans hold nothing: give at least one.", pans=pans))
    factor = new.over(old) * pans
    warning = message("Another depth cooks in another time: check early, in the middle.")
    return Moved(factor, 1 / factor, "" if abs(factor - 1) * 20 <= 1 else warning)


def _side(side: Quantity) -> Fraction:
    if side.unit.dimension != "length":
        raise WrongDimension(message("{side} is {kind}: a pan has lengths.", side=side, kind=kind_word(side.unit)))
    if side.amount <= 0:
        raise QuantityProblem(message("A side of {side} makes no pan: it must be above zero.", side=side))
    return side.base
