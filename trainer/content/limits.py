"""Measured lines compared, and printed the way a cook reads them, in both unit systems."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from trainer.content.said import ENGLISH, measures_said, said, said_counted
from trainer.kitchen.technique import Limit
from trainer.recipe_math.printing import as_given, both_ways, number_text
from trainer.recipe_math.quantity import (
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    Quantity,
)

First = Literal["us", "metric"]
TIMES = (("day", 86_400), ("hour", 3600), ("minute", 60), ("second", 1))
LONGEST_IN_HOURS = 48 * 3600
WHOLE_GRAMS = 10


def limit_text(limit: Limit, first: First = "us", language: str = ENGLISH) -> str:
    """Return a line in words: "4.5 oz (128 g), give or take 0.2 oz (6 g)", "at or below 41 °F (5 °C)"."""
    if limit.target is not None:
        return _target_text(limit.target, limit.highest, first, language)
    ends = {
        name: quantity_text(end, first, language)
        for name, end in (("lowest", limit.lowest), ("highest", limit.highest))
        if end is not None
    }
    if len(ends) == 2:
        return said(language, "span", **ends)
    if limit.highest is not None:
        return said(language, _upper_key(limit.highest), **ends)
    if limit.lowest is not None:
        return said(language, "coldest" if _has_degrees(limit.lowest) else "least", **ends)
    return ""


def quantity_text(quantity: Quantity, first: First = "us", language: str = ENGLISH) -> str:
    """Return an amount both ways; a time in hours, minutes and seconds, or in days where it was typed in days."""
    if quantity.unit.dimension == "duration":
        if quantity.unit.symbol == "days" and quantity.amount.denominator == 1:
            return said_counted(language, "day", number_text(quantity.amount))
        return duration_text(quantity.base, language)
    if quantity.unit.dimension == TEMPERATURE_DIFFERENCE:
        return _degrees_apart(quantity, first)
    return measures_said(language, both_ways(quantity, first))


def duration_text(seconds: Fraction | int, language: str = ENGLISH) -> str:
    """Return a time as said: "1 minute 30 seconds", "2 hours", "7 days"; up to two days stay hours.

    >>> duration_text(90), duration_text(86_400), duration_text(7 * 86_400, "es")
    ('1 minute 30 seconds', '24 hours', '7 días')
    """
    left, parts = Fraction(seconds), []
    for name, size in TIMES:
        if name == "day" and left <= LONGEST_IN_HOURS:
            continue
        count = left if name == "second" else Fraction(left // size)
        left -= count * size
        if count:
            parts.append(said_counted(language, name, number_text(count, 1)))
    return " ".join(parts) or said_counted(language, "second", "0")


def is_same_kind(one: Limit, other: Limit) -> bool:
    """Return whether two lines measure the same kind of thing."""
    ends = [limit.target or limit.highest or limit.lowest for limit in (one, other)]
    return all(ends) and len({end.unit.dimension for end in ends if end}) == 1


def has_ends(limit: Limit) -> bool:
    """Return whether something can lie inside or outside a line; a target alone is a named value."""
    return limit.lowest is not None or limit.highest is not None


def asks_no_less(limit: Limit, published: Limit) -> bool:
    """Return whether everything a line lets in, the published one lets in as well; compared exactly."""
    ends = [end for end in (limit.lowest, limit.highest) if end is not None]
    closed = (published.lowest is None or limit.lowest is not None) and (
        published.highest is None or limit.highest is not None
    )
    return has_ends(published) and bool(ends) and closed and all(published.admits(end) for end in ends)


def _target_text(target: Quantity, highest: Quantity | None, first: First, language: str) -> str:
    """Return a target with what it may give or take; a target alone as it is."""
    aim = quantity_text(target, first, language)
    if highest is None:
        return aim
    return said(language, "room", target=aim, room=_room_text(highest - target, target, first, language))


def _room_text(room: Quantity, target: Quantity, first: First, language: str) -> str:
    """Return what a target may give or take; converted to grams it is whole grams, as the target beside it is."""
    if room.unit.dimension != "mass" or room.unit.system == "metric" or target.base < WHOLE_GRAMS or room.base < 2:
        return quantity_text(room, first, language)
    given, grams = as_given(room), f"{number_text(room.base, 0)} g"
    return f"{given} ({grams})" if first == "us" else f"{grams} ({given})"


def _upper_key(highest: Quantity) -> str:
    """Return which words a highest value takes: a tool is within, a temperature at or below, the rest at most."""
    if highest.unit.dimension == TEMPERATURE_DIFFERENCE:
        return "within"
    return "warmest" if _has_degrees(highest) else "most"


def _has_degrees(quantity: Quantity) -> bool:
    """Return whether a quantity is a temperature, which is said to lie above or below another."""
    return quantity.unit.dimension == TEMPERATURE


def _degrees_apart(quantity: Quantity, first: First) -> str:
    """Return a difference of temperatures both ways, to the nearest degree in the unit it was not given in."""
    fahrenheit, celsius = (quantity.to(f"{symbol} difference") for symbol in ("°F", "°C"))
    pair = [f"{_rounded(each, quantity)} {each.unit.symbol.split()[0]}" for each in (fahrenheit, celsius)]
    front, back = pair if first == "us" else pair[::-1]
    return f"{front} ({back})"


def _rounded(each: Quantity, given: Quantity) -> str:
    """Return the number of degrees: exact as given, else to a whole degree, or a tenth below one."""
    return number_text(each.amount, 1 if each.unit == given.unit or each.amount < 1 else 0)
