"""Numbers as text, and text never with an exponent: decimals and kitchen fractions."""

from __future__ import annotations

from fractions import Fraction


def rounded_half_up(value: Fraction) -> int:
    """Return the nearest whole number; a half goes away from zero.

    >>> rounded_half_up(Fraction(5, 2)), rounded_half_up(Fraction(-5, 2))
    (3, -3)
    """
    top, under = value.numerator, value.denominator
    nearest = (2 * abs(top) + under) // (2 * under)
    return nearest if top >= 0 else -nearest


def number_text(value: Fraction | int, places: int = 2, decimal_mark: str = ".") -> str:
    """Return a number in decimals: no exponent, no trailing zeros, no minus before a zero.

    Rounded to *places* decimals, a half going away from zero. No unit, no grouping of thousands.

    >>> number_text(Fraction(5000)), number_text(Fraction(1, 3)), number_text(Fraction(5, 4), decimal_mark=",")
    ('5000', '0.33', '1,25')
    """
    tens, top, under = 10**places, value.numerator, value.denominator
    figures = (2 * abs(top) * tens + under) // (2 * under)
    whole, part = divmod(figures, tens)
    decimals = f"{part:0{places}d}".rstrip("0") if places else ""
    return ("-" if top < 0 and figures else "") + str(whole) + (decimal_mark + decimals if decimals else "")


def fraction_text(value: Fraction | int) -> str:
    """Return a number exactly, as a whole number and a fraction the way a cook writes it.

    Nothing is rounded: round to a step first (`rounding.to_nearest`).

    >>> fraction_text(Fraction(3, 2)), fraction_text(Fraction(3, 4)), fraction_text(Fraction(2)), fraction_text(0)
    ('1 1/2', '3/4', '2', '0')
    """
    exact = Fraction(value)
    whole, rest = divmod(abs(exact.numerator), exact.denominator)
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{rest}/{exact.denominator}")
    return ("-" if exact < 0 else "") + " ".join(parts)


def is_short_decimal(value: Fraction, places: int = 2) -> bool:
    """Return whether so many decimals hold the number exactly.

    >>> is_short_decimal(Fraction(9, 4)), is_short_decimal(Fraction(1, 3))
    (True, False)
    """
    return bool((10**places) % value.denominator == 0)
