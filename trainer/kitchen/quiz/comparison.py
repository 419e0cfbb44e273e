"""When two numbers count as the same: the comparisons `equal` and `equal-rounded` of QTI 3.0, in exact arithmetic."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.recipe_math.figures import rounded_half_up


@dataclass(frozen=True, slots=True)
class Equal:
    """`equal`: the same number, or within a tolerance of the key, low and high apart; percent where relative."""

    mode: Literal["exact", "absolute", "relative"]
    low: Fraction = Fraction(0)
    high: Fraction = Fraction(0)
    ends_in: bool = True

    def accepts(self, value: Fraction, key: Fraction) -> bool:
        """Return whether the value lies within the tolerance of the key.

        >>> five_percent = Equal("relative", Fraction(5), Fraction(5))
        >>> five_percent.accepts(Fraction("4.3428"), Fraction("4.136"))
        True
        """
        if self.mode == "exact":
            return value == key
        unit = abs(key) / 100 if self.mode == "relative" else Fraction(1)
        lowest, highest = key - self.low * unit, key + self.high * unit
        return lowest <= value <= highest if self.ends_in else lowest < value < highest


@dataclass(frozen=True, slots=True)
class EqualRounded:
    """`equal-rounded`: both rounded to so many significant figures, or decimal places, are the same number."""

    mode: Literal["significantFigures", "decimalPlaces"]
    figures: int

    def accepts(self, value: Fraction, key: Fraction) -> bool:
        """Return whether both come to one number when rounded, halves away from zero.

        >>> EqualRounded("significantFigures", 3).accepts(Fraction("0.0123"), Fraction("0.0123449"))
        True
        """
        return self.rounded(value) == self.rounded(key)

    def rounded(self, value: Fraction) -> Fraction:
        """Return the value rounded.

        >>> EqualRounded("significantFigures", 3).rounded(Fraction("999.5"))
        Fraction(1000, 1)
        """
        step = self.step(value)
        return rounded_half_up(value / step) * step

    def step(self, value: Fraction) -> Fraction:
        """Return the place value of the last figure that is kept: 10 for three figures of 1,456."""
        if self.mode == "decimalPlaces":
            return Fraction(1, 10**self.figures)
        return Fraction(10) ** (_first_place(value) - self.figures + 1)


def _first_place(value: Fraction) -> int:
    """Return the power of ten of the first figure: 3 for 1,456, -2 for 0.0123 and 0 for nothing."""
    size = abs(value)
    if size == 0:
        return 0
    place = len(str(size.numerator)) - len(str(size.denominator))
    return place if size >= Fraction(10) ** place else place - 1
