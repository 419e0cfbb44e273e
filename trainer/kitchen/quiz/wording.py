"""Numbers of question texts: decimals, pounds and ounces, mixed fractions, money, clock times."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from trainer.kitchen.currency import MONEY
from trainer.messages import Message, Text, joined, message
from trainer.recipe_math.figures import fraction_text, number_text, rounded_half_up
from trainer.recipe_math.units import word_of


def figures(value: Fraction) -> str:
    """Return a number in decimals, two places at most: `3.48`, `12`."""
    return number_text(value, 2)


def roughly(value: Fraction) -> Text:
    """Return a result: `4.35`, or `about 4.33` where two places do not hold the value."""
    return figures(value) if (value * 100).denominator == 1 else message("about {number}", number=figures(value))


def digits(result: object) -> str:
    """Return the figures of a result, with or without its "about".

    >>> digits(roughly(Fraction(13, 3))), digits(figures(Fraction(4)))
    ('4.33', '4')
    """
    return str(result.values["number"] if isinstance(result, Message) else result)


def with_digits(result: object, given: str) -> Text:
    """Return a result with other figures, an "about" kept."""
    return message(result.pattern, number=given) if isinstance(result, Message) else given


def mixed(value: Fraction) -> str:
    """Return a number with a fraction as cooks write it: `2 1/2`."""
    return fraction_text(value)


def pounds(value: Fraction) -> str:
    """Return a weight in pounds as cooks read it: `4 lb 8 oz`, `12 oz`, `3 lb`."""
    whole, rest = divmod(value, 1)
    ounces = mixed(rest * 16)
    if whole == 0:
        return f"{ounces} oz"
    return f"{whole} lb {ounces} oz" if rest else f"{whole} lb"


def dollars(value: Fraction) -> Text:
    """Return an amount of money to the cent, as it is written: `$12.50`, and `$13` where there are no cents."""
    whole, cents = divmod(rounded_half_up(value * 100), 100)
    return message(MONEY.pattern, amount=f"{whole}.{cents:02d}" if cents else f"{whole}")


def clock(minutes: Fraction) -> str:
    """Return a time of day from minutes past midnight: `14:05`; past midnight it starts again."""
    hour, minute = divmod(int(minutes) % 1440, 60)
    return f"{hour}:{minute:02d}"


def fahrenheit(value: Fraction) -> str:
    """Return a temperature both ways, whole degrees in Celsius: `135 °F (57 °C)`."""
    return f"{figures(value)} °F ({number_text((value - 32) * 5 / 9, 0)} °C)"


def unit_word(unit: str, value: Fraction | None = None) -> Text:
    """Return a unit as it is read after a value: lb, °C, 1 case but 2 cases; with no value, as for many.

    >>> unit_word("case"), unit_word("each", Fraction(1)), unit_word("°C difference")
    ('cases', 'piece', '°C')
    """
    return word_of("piece" if unit == "each" else unit.removesuffix(" difference"), 1 if value == 1 else 2)


def with_unit(value: Fraction, unit: str, decimal_mark: str = ".", places: int = 2) -> Text:
    """Return a value with its unit, in decimals; money with its sign in front, in whole cents.

    >>> with_unit(Fraction("4.35"), "lb", ","), with_unit(Fraction("12.5"), "$")
    ('4,35 lb', message('${amount}', amount='12.50'))
    """
    if unit == "$":
        whole, cents = divmod(rounded_half_up(value * 100), 100)
        return message(MONEY.pattern, amount=f"{whole}{decimal_mark}{cents:02d}")
    return joined([number_text(value, places, decimal_mark), unit_word(unit, value)])


class Measured(NamedTuple):
    """A value with its unit, put into words only where it is printed."""

    value: Fraction
    unit: str

    def as_text(self) -> Text:
        """Return the value as `with_unit` words it."""
        return with_unit(self.value, self.unit)
