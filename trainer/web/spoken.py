"""A printed text as a voice should say it: signs, fractions and units of measure as words, in the reader's language.

A browser's voice reads words right, and misreads much of what a kitchen prints: °F, 1/2, 2 h 15, 176–185, fl oz. What
is not known here is left as it stands.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction

from trainer.messages import Message, Text, message, plural

Telling = Callable[[Text], str]
"""How a message is told in the language that is spoken."""
_NUMBER = r"(?<![\w.,/])(?:\d+(?:[.,]\d+)* \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*)"
_UNITS: Mapping[str, Callable[[Fraction | int], Message]] = {
    "fl oz": lambda n: plural("fluid ounce", "fluid ounces", n),
    "tbsp": lambda n: plural("tablespoon", "tablespoons", n),
    "tsp": lambda n: plural("teaspoon", "teaspoons", n),
    "gal": lambda n: plural("gallon", "gallons", n),
    "min": lambda n: plural("minute", "minutes", n),
    "ppm": lambda n: plural("part per million", "parts per million", n),
    "°F": lambda n: plural("degree Fahrenheit", "degrees Fahrenheit", n),
    "°C": lambda n: plural("degree Celsius", "degrees Celsius", n),
    "oz": lambda n: plural("ounce", "ounces", n),
    "lb": lambda n: plural("pound", "pounds", n),
    "kg": lambda n: plural("kilogram", "kilograms", n),
    "mg": lambda n: plural("milligram", "milligrams", n),
    "qt": lambda n: plural("quart", "quarts", n),
    "pt": lambda n: plural("pint", "pints", n),
    "mL": lambda n: plural("milliliter", "milliliters", n),
    "mm": lambda n: plural("millimeter", "millimeters", n),
    "cm": lambda n: plural("centimeter", "centimeters", n),
    "ft": lambda n: plural("foot", "feet", n),
    "g": lambda n: plural("gram", "grams", n),
    "m": lambda n: plural("meter", "meters", n),
    "L": lambda n: plural("liter", "liters", n),
    "h": lambda n: plural("hour", "hours", n),
    "s": lambda n: plural("second", "seconds", n),
    "°": lambda n: plural("degree", "degrees", n),
}
_INCH = r"in(?=\s*[.,;:)(]|\s*$|\s(?:thick|across|long|wide|deep|high|tall|apart|above|below|from|of|or|and|to)\b)"
"""`in` is an inch only before what follows a measure: "2 in the pan" is none."""
_PARTS: Mapping[Fraction, Message] = {
    Fraction(1, 2): message("one half"),
    Fraction(1, 3): message("one third"),
    Fraction(2, 3): message("two thirds"),
    Fraction(1, 4): message("one quarter"),
    Fraction(3, 4): message("three quarters"),
    Fraction(1, 8): message("one eighth"),
    Fraction(3, 8): message("three eighths"),
    Fraction(5, 8): message("five eighths"),
    Fraction(7, 8): message("seven eighths"),
    Fraction(1, 16): message("one sixteenth"),
}
_SIGNS: Mapping[str, Message] = {
    "=": message("equals"),
    "+": message("plus"),
    "×": message("times"),
    "÷": message("divided by"),
    "−": message("minus"),
    "≥": message("at least"),
    "≤": message("at most"),
    "±": message("plus or minus"),
    "%": message("percent"),
}
_RANGE = re.compile(rf"({_NUMBER})\s?–\s?(\d)")
_HOURS = re.compile(r"(\d) h (\d+)(?! ?min|[\w.,/]*\d)")
_RATIO = re.compile(r"(?<![\d:])(\d{1,3}):(\d)(?![\d:])")
_MEASURE = re.compile(
    rf"({_NUMBER})(?:\s?({'|'.join(sorted(map(re.escape, _UNITS), key=len, reverse=True))})(?!\w)|\s({_INCH}))?"
)
_SIGN = re.compile(f"[{''.join(map(re.escape, _SIGNS))}]")


def spoken(parts: Iterable[str], tell: Telling) -> str:
    """Return printed texts as one that is said, each ended as a sentence is; `tell` tells a message in its language.

    >>> from trainer.messages import translate
    >>> spoken(["Keep it at 135 °F", "Add 1 1/2 lb, 3/4 in thick."], translate)
    'Keep it at 135 degrees Fahrenheit. Add 1 and one half pounds, three quarters inch thick.'
    """
    said = (say(part, tell) for part in parts)
    return " ".join(one if one[-1] in ".!?:" else f"{one}." for one in said if one)


def say(text: str, tell: Telling) -> str:
    """Return a printed text with its numbers, units and signs as words."""
    plain = text.replace("\N{NO-BREAK SPACE}", " ").replace("→", ", ").replace("\N{FRACTION SLASH}", "/")
    to = tell(message("to"))
    ranged = _RANGE.sub(rf"\1 {to} \2", plain)
    hours = _HOURS.sub(r"\1 h \2 min", ranged)
    ratios = _RATIO.sub(rf"\1 {to} \2", hours)
    measured = _MEASURE.sub(lambda found: _measure(found, tell), ratios)
    signed = _SIGN.sub(lambda found: f" {tell(_SIGNS[found[0]])} ", measured)
    return re.sub(r" (?=[.,;:!?)])", "", " ".join(signed.split()))


def _measure(found: re.Match[str], tell: Telling) -> str:
    """Return a number in words where it has a fraction, with its unit in words."""
    number, symbol = found[1], "in" if found[3] else found[2]
    whole, _, part = number.rpartition(" ") if "/" in number else (number, "", "")
    worth = _worth(whole) + (Fraction(part) if part and not part.endswith("/0") else 0)
    told = _told(whole, part)
    if not symbol:
        return tell(told)
    if symbol == "in":
        unit = plural("inch", "inches", 1 if part and not whole else worth)
    else:
        unit = _UNITS[symbol](1 if part and not whole else worth)
    pattern = message("{part} {unit}", part=told, unit=unit) if part and not whole else _amount(told, unit)
    return tell(pattern)


def _amount(amount: Text, unit: Text) -> Message:
    return message("{amount} {unit}", amount=amount, unit=unit)


def _told(whole: str, part: str) -> Text:
    """Return a whole number and its fraction in words."""
    if not part or part.endswith("/0"):
        return " ".join(one for one in (whole, part) if one)
    over, under = part.split("/")
    fraction = _PARTS.get(Fraction(part)) or message("{over} over {under}", over=over, under=under)
    return message("{whole} and {part}", whole=whole, part=fraction) if whole else fraction


def _worth(whole: str) -> Fraction | int:
    """Return what a number is worth, as far as its unit is to be one or many: 1 is one, and all else many."""
    return 1 if whole == "1" else 0 if not whole else 2
