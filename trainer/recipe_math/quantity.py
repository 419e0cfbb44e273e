"""Exact quantities: a number, a unit, and the dimension both belong to.

Every amount is a Fraction, so conversion loses nothing; rounding happens only where a number is printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


class QuantityProblem(ValueError):
    """A text or a sum that is not a usable quantity; the message names the value and the rule."""


class WrongDimension(QuantityProblem):
    """A weight was met where a volume was wanted, or the like."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: base = (amount + offset) x factor. Offset is zero except for temperatures in Fahrenheit."""

    symbol: str
    dimension: str
    factor: Fraction
    offset: Fraction = Fraction(0)
    system: str = "metric"


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact amount in a unit."""

    amount: Fraction
    unit: Unit
