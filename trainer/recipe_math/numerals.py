"""Figures as cooks write them, read exactly: decimals with a point or a comma, thousands in threes, fractions."""

from __future__ import annotations

import re
from fractions import Fraction

from trainer.messages import message
from trainer.recipe_math.refusals import NotAQuantity

_POINT = re.compile(r"(?P<whole>[0-9]+|[0-9]{1,3}(?:,[0-9]{3})+)?(?:\.(?P<part>[0-9]+))?")
_COMMA = re.compile(r"(?P<whole>[0-9]+|[0-9]{1,3}(?:\.[0-9]{3})+)?(?:,(?P<part>[0-9]+))?")
_PATTERNS = {".": _POINT, ",": _COMMA}
_TWO_READINGS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")


def read_decimal(figures: str, mark: str | None) -> Fraction | None:
    """Return the number the figures mean, or None where they mean none or, without a mark, more than one.

    Without *mark* the last of two different signs is the decimal mark, a sign that comes back is a thousand, and one
    sign with exactly three figures after and one to three before it stays open (1,500; but 0.125 is a decimal).
    Point and comma are both correct: 22nd General Conference on Weights and Measures (2003), Resolution 10.

    >>> read_decimal("1.500,25", None), read_decimal("1,5", None), read_decimal("1,500", None)
    (Fraction(6001, 4), Fraction(3, 2), None)
    """
    if figures.isdigit():
        return Fraction(int(figures))
    if mark is not None:
        return _as_written(figures, mark)
    if _TWO_READINGS.fullmatch(figures):
        return None
    return _as_written(figures, _mark_shown(figures))


def readings_of(figures: str) -> tuple[str, ...]:
    """Return both readings of figures that have two, as a decimal and as thousands; else nothing.

    Each reads one way only: a fourth decimal, a zero, is written where three would be open again.

    >>> readings_of("1,500"), readings_of("1,234"), readings_of("1,5")
    (('1.5', '1500'), ('1.2340', '1234'), ())
    """
    if not _TWO_READINGS.fullmatch(figures):
        return ()
    whole, part = re.split("[.,]", figures)
    decimals = part.rstrip("0")
    if len(decimals) == len(part):
        decimals += "0"
    return (f"{whole}.{decimals}" if decimals else whole, whole + part)


def read_fraction(top: str, under: str, text: str) -> Fraction:
    """Return a fraction; nothing can be shared out among zero, so NotAQuantity then, naming *text*.

    >>> read_fraction("3", "4", "3/4 tsp")
    Fraction(3, 4)
    """
    if int(under) == 0:
        raise NotAQuantity(text, message("{top}/{under} divides by zero.", top=top, under=under))
    return Fraction(int(top), int(under))


def _mark_shown(figures: str) -> str:
    """Return the decimal mark the figures show by themselves: the sign that stands last and once."""
    last = max(figures.rfind("."), figures.rfind(","))
    sign = figures[last]
    other = "," if sign == "." else "."
    return sign if figures.count(sign) == 1 else other


def _as_written(figures: str, mark: str) -> Fraction | None:
    pattern = _PATTERNS.get(mark)
    if pattern is None:
        raise ValueError(f"{mark!r} is no decimal mark: give a point or a comma.")
    match = pattern.fullmatch(figures)
    if match is None:
        return None
    whole = (match["whole"] or "0").replace(",", "").replace(".", "")
    part = match["part"] or ""
    return Fraction(int(whole + part), 10 ** len(part))
