"""Hen eggs by size: what they weigh in and out of the shell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil
from types import MappingProxyType

from trainer.messages import message
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.scaling import ratio


@dataclass(frozen=True, slots=True)
class EggSize:
    """A US weight class: least weight of a dozen in the shell, and the edible weight of one egg where a source has it.

    Dozen: US Standards, Grades and Weight Classes for Shell Eggs (AMS 56, effective 2000-07-20), section 56.218.
    Edible weight: USDA Standard Reference 26 (2013), WEIGHT file, NDB 01123.
    """

    name: str
    dozen_in_shell: Quantity
    edible: Quantity | None

    def egg_in_shell(self) -> Quantity:
        """Return the average weight of one egg in the shell at the least weight of its class.

        >>> print(EGG_SIZES["large"].egg_in_shell())
        2 oz
        """
        return self.dozen_in_shell / 12


def _size(name: str, ounces: int, grams: int | None) -> EggSize:
    edible = Quantity.of(grams, "g") if grams is not None else None
    return EggSize(name, Quantity.of(ounces, "oz"), edible)


EGG_SIZES: Mapping[str, EggSize] = MappingProxyType(
    {
        size.name: size
        for size in (
            _size("jumbo", 30, 63),
            _size("extra large", 27, 56),
            _size("large", 24, 50),
            _size("medium", 21, 44),
            _size("small", 18, 38),
            _size("peewee", 15, None),
        )
    }
)
"""The US weight classes by name, heaviest first."""


def eggs_for(weight: Quantity, size: str = "large") -> int:
    """Return how many eggs of a size give at least this weight without shells: rounded up.

    Raises QuantityProblem for a size that is no weight class or has no edible weight in the source, and for nothing.

    >>> eggs_for(Quantity.of(1, "lb"))
    10
    """
    return ceil(ratio(weight, _edible(size)))


def _edible(size: str) -> Quantity:
    known = EGG_SIZES.get(size)
    if known is None:
        raise QuantityProblem(
            message("{size} is not an egg size: there are {names}.", size=repr(size), names=", ".join(EGG_SIZES))
        )
    if known.edible is None:
        raise QuantityProblem(message("The source has no edible weight for {size} eggs: weigh them.", size=size))
    return known.edible
