"""Measured knife cuts against their size: how many pieces are inside the tolerance on every side, and what that says.

No published tolerance was found, and published sizes disagree (a brunoise is 2 or 3 mm): the size and the tolerance are
the house's. The share inside comes with its interval, because ten pieces say little about a panful.

Caution: measure pieces that are cut, with the knife laid down. Cutting is shown and watched before it is timed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.statistics import CONFIDENCE, Interval, mean, wilson_interval


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a cut: its name, and the shortest and the longest that still passes, both included, above zero."""

    name: str
    shortest: Quantity
    longest: Quantity

    def __post_init__(self) -> None:
        """Refuse what is no length, nothing, and a range the wrong way round."""
        for end in (self.shortest, self.longest):
            if end.unit.dimension != "length":
                raise WrongDimension(f"{end} is {end.unit.dimension}: a side is a length.")
        if not self.shortest.amount > 0 or self.longest < self.shortest:
            told = f"{self.name} from {self.shortest} to {self.longest}"
            raise QuantityProblem(f"{told} lets nothing through: above zero, and the longer end last.")

    def passes(self, measured: Quantity) -> bool:
        """Return whether a measured side is inside.

        >>> side_around("side", Quantity.of(6, "mm"), Fraction(1, 4)).passes(Quantity.of("0.25", "in"))
        True
        """
        return self.shortest <= measured <= self.longest


@dataclass(frozen=True, slots=True)
class SideFound:
    """What was measured of one side: the mean in the unit of its shortest end, and how many are short and long."""

    side: Side
    mean: Quantity
    too_short: int
    too_long: int


@dataclass(frozen=True, slots=True)
class PieceCheck:
    """How many pieces were measured, how many pass on every side, each side by itself, and the likely share of all."""

    measured: int
    inside: int
    sides: tuple[SideFound, ...]
    likely: Interval

    @property
    def share(self) -> Fraction:
        """Return the share of the measured pieces that pass.

        >>> dice = (side_around("side", Quantity.of(6, "mm"), Fraction(1, 4)),)
        >>> check_pieces([(Quantity.of(size, "mm"),) for size in (5, 6, 9, 7)], dice).share
        Fraction(3, 4)
        """
        return Fraction(self.inside, self.measured)


def side_around(name: str, size: Quantity, tolerance: Fraction) -> Side:
    """Return a side of this size, give or take a share of it: a quarter of 6 mm is 4.5 to 7.5 mm.

    The share is above 0 and below 1 (QuantityProblem); the house sets it.

    >>> print(side_around("side", Quantity.of(6, "mm"), Fraction(1, 4)).longest)
    7.5 mm
    """
    return side_between(name, size, size, tolerance)


def side_between(name: str, shortest: Quantity, longest: Quantity, tolerance: Fraction) -> Side:
    """Return a side that may be anything in a range, give or take a share at either end: a julienne 1 to 2 in long.

    The share as `side_around`.

    >>> print(side_between("length", Quantity.of(1, "in"), Quantity.of(2, "in"), Fraction(1, 4)).longest)
    2.5 in
    """
    if not 0 < tolerance < 1:
        raise QuantityProblem(f"A tolerance of {tolerance} is not usable: it is a share above 0 and below 1.")
    return Side(name, shortest * (1 - tolerance), longest * (1 + tolerance))


def check_pieces(
    pieces: Sequence[Sequence[Quantity]], sides: Sequence[Side], confidence: Fraction = CONFIDENCE
) -> PieceCheck:
    """Return how many measured pieces pass on every side, with Wilson's interval for the share of all.

    Each piece has its measurements in the order of the sides (QuantityProblem), as lengths (WrongDimension); there is
    at least one piece and one side. A cube is measured on one side, or on three: the worst decides. Interval:
    NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1.

    >>> julienne = (side_around("thick", Quantity.of(3, "mm"), Fraction(1, 3)),
    ...     side_between("long", Quantity.of(3, "cm"), Quantity.of(5, "cm"), Fraction(1, 10)))
    >>> found = check_pieces([(Quantity.of(3, "mm"), Quantity.of(4, "cm")),
    ...     (Quantity.of(5, "mm"), Quantity.of(4, "cm"))], julienne)
    >>> found.inside, found.sides[0].too_long, found.sides[1].too_long
    (1, 1, 0)
    """
    _refuse_unlike(pieces, sides)
    inside = sum(all(side.passes(size) for side, size in zip(sides, piece, strict=True)) for piece in pieces)
    return PieceCheck(
        measured=len(pieces),
        inside=inside,
        sides=tuple(_found(side, [piece[at] for piece in pieces]) for at, side in enumerate(sides)),
        likely=wilson_interval(inside, len(pieces), confidence),
    )


def _found(side: Side, sizes: Sequence[Quantity]) -> SideFound:
    unit = side.shortest.unit
    return SideFound(
        side=side,
        mean=Quantity(mean([size.to(unit).amount for size in sizes]), unit),
        too_short=sum(size < side.shortest for size in sizes),
        too_long=sum(size > side.longest for size in sizes),
    )


def _refuse_unlike(pieces: Sequence[Sequence[Quantity]], sides: Sequence[Side]) -> None:
    if not pieces or not sides:
        raise QuantityProblem("There is nothing to check: give at least one side and one measured piece.")
    for number, piece in enumerate(pieces, start=1):
        if len(piece) != len(sides):
            told = ", ".join(side.name for side in sides)
            raise QuantityProblem(f"Piece {number} has {len(piece)} measurements: give {told}.")
        if any(size.amount <= 0 for size in piece):
            raise QuantityProblem(f"Piece {number} was misread: a side is above zero.")
