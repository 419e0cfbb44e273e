"""Numbers from the estimates of recipe math, which are floats, made exact so that every machine keeps the same."""

from __future__ import annotations

from fractions import Fraction

PLACES = 10**6


def kept(value: float) -> Fraction:
    """Return a float to six decimal places, as an exact number."""
    return Fraction(round(value * PLACES), PLACES)
