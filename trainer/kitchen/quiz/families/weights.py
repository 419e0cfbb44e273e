"""The two systems a weight is asked in: pounds and ounces, kilograms and grams, each with the scale that shows it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from trainer.kitchen.quiz.family import Numbers, System
from trainer.kitchen.quiz.tolerances import FINE_GRAMS, FINE_OUNCES, GRAMS, KILOGRAMS, OUNCES, POUNDS, Tolerance
from trainer.kitchen.quiz.wording import figures, mixed, pounds


class Weights(NamedTuple):
    """One system of weights: the large and the small unit, how many of these make one, and what a scale shows.

    `written` and `written_small` print an amount with its unit, as a cook of this system reads it.
    """

    system: System
    large: str
    large_name: str
    small: str
    small_name: str
    small_in_large: int
    written: Callable[[Fraction], str]
    written_small: Callable[[Fraction], str]
    tolerance: Tolerance
    small_tolerance: Tolerance
    fine_tolerance: Tolerance

    def of(self, what: str, n: Numbers) -> Fraction:
        """Return a weight among the numbers drawn, in the large unit."""
        return n[f"{what}_{self.large_name}"]

    def small_of(self, what: str, n: Numbers) -> Fraction:
        """Return a weight among the numbers drawn, in the small unit."""
        return n[f"{what}_{self.small_name}"]


POUND_WEIGHTS = Weights(
    system="us",
    large="lb",
    large_name="pounds",
    small="oz",
    small_name="ounces",
    small_in_large=16,
    written=pounds,
    written_small=lambda value: f"{mixed(value)} oz",
    tolerance=POUNDS,
    small_tolerance=OUNCES,
    fine_tolerance=FINE_OUNCES,
)
KILOGRAM_WEIGHTS = Weights(
    system="metric",
    large="kg",
    large_name="kilograms",
    small="g",
    small_name="grams",
    small_in_large=1000,
    written=lambda value: f"{figures(value)} kg",
    written_small=lambda value: f"{figures(value)} g",
    tolerance=KILOGRAMS,
    small_tolerance=GRAMS,
    fine_tolerance=FINE_GRAMS,
)
