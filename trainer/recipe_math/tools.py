"""What ladles and pans hold: the arithmetic of their numbers, and pans as each kitchen measured them.

What a pan holds is no matter of a table: it varies by maker, so a kitchen fills its own pan
with water once, writes the volume down, and this module checks that it fits inside the outer box.

Caution: a full pan of hot food is heavy and burns: two people, dry cloths, and what cools is spread in shallow pans.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from trainer.messages import message
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word
from trainer.recipe_math.scaling import ratio


def ladles(volume: Quantity, ladle: Quantity) -> int:
    """Return how many full ladles a volume gives: rounded down. Two volumes (WrongDimension) above zero.

    A ladle marked in ounces is meant by volume: give fl oz. Source: Institute of Child Nutrition, Basics at a Glance.

    >>> ladles(Quantity.of(2, "gal"), Quantity.of(6, "fl oz"))
    42
    """
    if ladle.unit.dimension != "volume":
        raise WrongDimension(message("A ladle of {ladle} goes by volume: give fl oz.", ladle=ladle))
    return floor(ratio(volume, ladle))


def box_volume(length: Quantity, width: Quantity, depth: Quantity) -> Quantity:
    """Return the volume of a box from its three sides, exactly, in litres.

    Sides are lengths (WrongDimension) above zero (QuantityProblem).

    >>> print(box_volume(Quantity.of(530, "mm"), Quantity.of(325, "mm"), Quantity.of(100, "mm")))
    17.225 L
    """
    for side in (length, width, depth):
        if side.unit.dimension != "length":
            raise WrongDimension(
                message("{side} is {kind}: a box has three lengths.", side=side, kind=kind_word(side.unit))
            )
        if side.amount <= 0:
            raise QuantityProblem(message("A side of {side} makes no box: it must be above zero.", side=side))
    return Quantity.of(length.base * width.base * depth.base / 1000, "mL").to("L")


@dataclass(frozen=True, slots=True)
class Pan:
    """A pan as a kitchen measured it: its name, three outer sides, and what it holds to where it is filled.

    The volume (WrongDimension) is above zero and no more than the outer box (QuantityProblem): 30 L in a pan of 12 x 20
    x 2 1/2 in is a misprint seen in a manual. `source` says who measured it, or whose table it is from.
    """

    name: str
    sides: tuple[Quantity, Quantity, Quantity]
    holds: Quantity
    source: str

    def __post_init__(self) -> None:
        """Refuse a pan that holds nothing, or more than fits inside it."""
        if self.filled_share() > 1:
            raise QuantityProblem(
                message(
                    "{name}: {holds} does not fit in a box of {box} L: measure it with water.",
                    name=self.name,
                    holds=self.holds,
                    box=number_text(self.outer_box().amount),
                )
            )

    def outer_box(self) -> Quantity:
        """Return the volume of the outer box: no pan of these sides holds more.

        >>> sides = (Quantity.of(530, "mm"), Quantity.of(325, "mm"), Quantity.of(100, "mm"))
        >>> print(Pan("GN 1/1-100", sides, Quantity.of("12.6", "L"), "maker's table").outer_box())
        17.225 L
        """
        return box_volume(*self.sides)

    def filled_share(self) -> Fraction:
        """Return what it holds over its outer box.

        >>> sides = (Quantity.of(10, "cm"), Quantity.of(10, "cm"), Quantity.of(10, "cm"))
        >>> Pan("cube", sides, Quantity.of(800, "mL"), "own measure").filled_share()
        Fraction(4, 5)
        """
        return ratio(self.holds, self.outer_box())

    def pans_for(self, batch: Quantity) -> int:
        """Return how many of these pans a batch fills or begins: rounded up. A volume (WrongDimension) above zero.

        >>> sides = (Quantity.of(12, "in"), Quantity.of(20, "in"), Quantity.of(4, "in"))
        >>> Pan("full, 4 in", sides, Quantity.of(420, "fl oz"), "maker's manual").pans_for(Quantity.of(5, "gal"))
        2
        """
        return ceil(ratio(batch, self.holds))

    def portions(self, portion: Quantity) -> int:
        """Return how many full portions by volume one pan gives: rounded down. Errors as `pans_for`.

        >>> sides = (Quantity.of(12, "in"), Quantity.of(20, "in"), Quantity.of("2.5", "in"))
        >>> Pan("full, 2 1/2 in", sides, Quantity.of(240, "fl oz"), "maker's manual").portions(Quantity.of(1, "cup"))
        30
        """
        return floor(ratio(self.holds, portion))
