"""What cooks write, read as exact quantities, or refused or asked back in plain words; nothing is ever guessed.

The grammar is small and strict: a quantity is one or more terms, each a number and a unit, largest unit first or joined
by "+". A number is whole, decimal, a fraction, or a whole number and a fraction: apart by a blank, by "and" or by a
hyphen, as US cards print it (1-1/2). Besides: a count with a size (`1 (14.5 oz) can`), the three sides of a box
(`12x20x2.5 in`), money (`$4.50`) and a clock (`1:02:30`).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from trainer.messages import message
from trainer.recipe_math import refusals
from trainer.recipe_math.numerals import read_decimal, read_fraction, readings_of
from trainer.recipe_math.quantity import (
    COUNT,
    OWN_MEASURES,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    Quantity,
    Unit,
    kind_word,
)
from trainer.recipe_math.refusals import Ambiguous, NotAQuantity
from trainer.recipe_math.units import CASE_MATTERS, UNITS, names_in, unit, word_of

__all__ = ["Ambiguous", "NotAQuantity", "parse_number", "parse_quantity"]

LONGEST = 200
ABSOLUTE_ZERO = Fraction("-273.15")

_NUMBER = (
    r"(?P<num>[.,]?[0-9](?:[0-9.,]*[0-9])?)"
    r"(?:\s*/\s*(?P<den>[0-9]+)|(?:\s+(?:(?:and|[yY]|&)\s+)?|-\s?)(?P<top>[0-9]+)\s*/\s*(?P<under>[0-9]+))?"
)
_TERM = re.compile(
    r"\s*(?P<join>\+|,\s|plus\s|más\s|and\s|y\s|&)?\s*(?P<minus>-(?=[0-9.,]))?(?P<money>[$€£])?\s*"
    + _NUMBER
    + r"(?P<unit>\s*(?:in3|cm3)|[^0-9+,&;:()/$€£#-]*(?:\#(?!\s*[0-9]))?)"
)
_NUMBER_ALONE = re.compile(rf"(?P<minus>-)?\s*{_NUMBER}")
_SIZED = re.compile(
    rf"\s*(?P<count>{_NUMBER})\s*(?:\((?P<inner>[^()]+)\)\s*(?P<thing>[a-z]+)|(?P<first>[a-z]+)\s*\((?P<after>[^()]+)\))\s*",
    re.IGNORECASE,
)
_SIDE = r"\s*([0-9][0-9.,/ -]*?)\s*"
_BOX = re.compile(rf"{_SIDE}([a-z\"]*)\s*[x×]{_SIDE}([a-z\"]*)\s*[x×]{_SIDE}([a-z\"]+)\.?\s*", re.IGNORECASE)
_JOINING = re.compile(r"\s(?:and|plus|y|más|mas)$", re.IGNORECASE)
_PART_OF = re.compile(r"^(?:de|of an?)\s", re.IGNORECASE)
_CLOCK = re.compile(r"\s*([0-9]{1,3}):([0-5][0-9])(?::([0-5][0-9]))?\s*")
_TWO_WAYS = {
    "m": ("min", "meters"),
    "gr": ("g", "grains"),
    "G": ("g", "gallons"),
    "C": ("°C", "cups"),
    **dict.fromkeys(("°", "deg", "degree", "degrees"), ("°F", "°C")),
}


@dataclass(frozen=True, slots=True)
class _Setting:
    """How one text is to be read; `whole` is what messages name where the text is a part of something."""

    text: str
    whole: str
    default: Unit | None
    mark: str | None
    names: str
    kind: str | None = None


def parse_quantity(
    text: str,
    *,
    default_unit: str | None = None,
    decimal_mark: str | None = None,
    system: str = "us",
    kind: str | None = None,
) -> Quantity:
    """Return the quantity a cook wrote, exactly, in the first unit written.

    A bare number takes *default_unit*. What is asked for settles a letter with two readings: 2 C is cups where a volume
    is, degrees where a temperature is; *kind* (a dimension) says so where no default unit does. Without *decimal_mark*
    a figure such as 1,500 has two readings and is asked back. *system* ("us", "us_label", "imperial") says whose pint
    is meant. Negative amounts are refused, save for temperatures and their differences. At most 200 characters.

    Raises NotAQuantity (text, rule) or Ambiguous (text, readings); both are QuantityProblem, and UnknownUnit when
    *default_unit* itself is no unit. Grammar: common practice of recipe cards.

    >>> print(parse_quantity("2 1/2 cups"), "=", parse_quantity("1 pt ½ c"))
    2.5 cup = 1.25 pt
    """
    default = unit(default_unit, system) if default_unit is not None else None
    plain = _plain_text(text)
    asked = default.dimension if default is not None and kind is None else kind
    setting = _Setting(plain, plain, default, decimal_mark, system, asked)
    found = _terms(setting)
    return found if found is not None else _special(setting)


def parse_number(text: str, *, decimal_mark: str | None = None) -> Fraction:
    """Return the plain number a cook wrote: whole, decimal, a fraction, or a whole number and a fraction.

    No unit; a minus is allowed. Raises NotAQuantity or Ambiguous as `parse_quantity` does.

    >>> parse_number("3.48"), parse_number("2 3/4")
    (Fraction(87, 25), Fraction(11, 4))
    """
    plain = _plain_text(text)
    match = _NUMBER_ALONE.fullmatch(plain.strip())
    if match is None:
        raise refusals.refusal(plain)
    value = _number(match, _Setting(plain, plain, None, decimal_mark, "us"))
    return -value if match["minus"] else value


def _plain_text(text: str) -> str:
    """Return the text with its letters made plain, or refuse what is too long or holds strange signs."""
    if len(text) > LONGEST:
        rule = message("it has {number} characters; a quantity has at most {most}.", number=len(text), most=LONGEST)
        raise NotAQuantity(text[:20] + "…", rule)
    return " ".join(text.split()) if text.isascii() else refusals.made_plain(text)


def _terms(setting: _Setting) -> Quantity | None:
    """Return the sum of the terms, or None where the text is not terms from end to end."""
    text = setting.text
    match = _TERM.match(text)
    if match is None or match["join"]:
        return None
    total = _term(match, setting)
    if total is None:
        return None
    last = total
    while match.end() < len(text):
        match = _TERM.match(text, match.end())
        if match is None or match["minus"]:
            return None
        term = _term(match, setting)
        if term is None:
            return None
        _refuse_bad_joint(setting, last, term, match["join"])
        total, last = Quantity((total.base + term.base) / total.unit.factor, total.unit), term
    return total


def _term(match: re.Match[str], setting: _Setting) -> Quantity | None:
    """Return one number with its unit, or None where the unit is not one."""
    _, minus, money, num, den, top, under, unit_text = match.groups()
    found = _unit_of(unit_text, money, setting)
    if found is None and _is_number_alone(match):
        found = setting.default
    if found is None:
        return None
    if den is None and top is None and num.isdigit():
        amount = Fraction(int(num))
    else:
        amount = _value(num, den, top, under, setting)
    if minus:
        amount = -amount
    if amount < 0 or found.dimension == TEMPERATURE:
        _refuse_impossible(amount, found, setting)
    return Quantity(amount, found)


def _is_number_alone(match: re.Match[str]) -> bool:
    """Return whether a term is all there is, a bare number without unit or money sign."""
    return not (match["unit"].strip() or match["money"] or match["join"] or match.start()) and match.end() == len(
        match.string
    )


def _number(match: re.Match[str], setting: _Setting) -> Fraction:
    return _value(match["num"], match["den"], match["top"], match["under"], setting)


def _value(num: str, den: str | None, top: str | None, under: str | None, setting: _Setting) -> Fraction:
    """Return the exact value of a number's parts."""
    if den is None and top is None:
        return _decimal(num, setting)
    if not num.isdigit():
        raise NotAQuantity(setting.whole, message("a fraction stands beside whole numbers only: 2 1/2, not 2.5 1/2."))
    if den is not None:
        return read_fraction(num, den, setting.whole)
    part = read_fraction(top or "", under or "", setting.whole)
    if part >= 1:
        raise NotAQuantity(
            setting.whole,
            message(
                "the fraction {top}/{under} beside a whole number must be less than 1.",
                top=top or "",
                under=under or "",
            ),
        )
    return int(num) + part


def _decimal(num: str, setting: _Setting) -> Fraction:
    value = read_decimal(num, setting.mark)
    if value is not None:
        return value
    ways = readings_of(num) if setting.mark is None else ()
    if ways:
        rest = (setting.whole.replace(num, way, 1).strip() for way in ways)
        raise Ambiguous(setting.whole, tuple(rest), message("{num} can be a decimal or a thousand", num=num))
    raise NotAQuantity(setting.whole, refusals.bad_figure(num, setting.mark))


def _unit_of(text: str, money: str | None, setting: _Setting) -> Unit | None:
    """Return the unit a term names, or None."""
    names = names_in(setting.names)
    plain = text.strip()
    found = names.get(plain)
    if found is None or money:
        found = _unit_spelled(plain, money, setting)
    elif plain in {"m", "C"}:
        found = _unit_wanted(plain, setting)
    return found


def _unit_spelled(plain: str, money: str | None, setting: _Setting) -> Unit | None:
    """Return the unit of a term whose text is not simply a name: money, none, dots, a joining word."""
    if money:
        return UNITS[money] if plain in {"", "and", "plus"} else None
    word = " ".join(_PART_OF.sub("", _JOINING.sub("", plain)).replace(".", " ").split())
    if word in _TWO_WAYS:
        return _unit_wanted(word, setting)
    names = names_in(setting.names)
    return names.get(word) or (names.get(word.lower()) if word not in CASE_MATTERS else None)


def _unit_wanted(word: str, setting: _Setting) -> Unit:
    """Return the one reading of a two-way unit that is of the kind asked for; ask back where none is.

    What is below zero is a temperature, and what stands beside spoons and jugs is a volume, whoever asks.
    """
    names, ways = names_in(setting.names), _TWO_WAYS[word]
    kinds = {kind for kind in (setting.kind, *_kinds_beside(setting)) if kind is not None}
    wanted = [names[way] for way in ways if way in names and names[way].dimension in kinds]
    if len(wanted) == 1:
        return wanted[0]
    if word == "C" and (setting.kind == TEMPERATURE_DIFFERENCE or setting.text.startswith("-")):
        return UNITS["°C"]
    raise _two_ways(word, ways, setting)


def _kinds_beside(setting: _Setting) -> set[str]:
    """Return what the other terms of a text measure, of those whose unit has one reading."""
    names = names_in(setting.names)
    texts = (_JOINING.sub("", match["unit"].strip()) for match in _TERM.finditer(setting.text))
    return {names[text].dimension for text in texts if text in names and text not in _TWO_WAYS}


def _two_ways(word: str, ways: tuple[str, ...], setting: _Setting) -> Ambiguous:
    alone = re.compile(rf"(?<![^\W\d_]){re.escape(word)}\.?(?![^\W\d_])")
    readings = tuple(alone.sub(way, setting.whole, count=1) for way in ways)
    return Ambiguous(setting.whole, readings, message("{word} can be more than one unit", word=repr(word)))


def _refuse_impossible(amount: Fraction, found: Unit, setting: _Setting) -> None:
    """Refuse less than nothing, and what is colder than anything can be."""
    if found.dimension == TEMPERATURE:
        if (amount + found.offset) * found.factor < ABSOLUTE_ZERO:
            raise NotAQuantity(setting.whole, message("nothing can be colder than -459.67 °F (-273.15 °C)."))
    elif found.dimension != TEMPERATURE_DIFFERENCE:
        raise NotAQuantity(setting.whole, message("an amount cannot be negative; only temperatures can."))


def _refuse_bad_joint(setting: _Setting, last: Quantity, term: Quantity, join: str | None) -> None:
    """Refuse terms that cannot stand together: two kinds, two systems, or a unit no smaller than the one before."""
    one, other = last.unit, term.unit
    if one.dimension != other.dimension:
        raise NotAQuantity(
            setting.whole,
            message(
                "{one} is {kind} and {other} is {another}: they do not add up.",
                one=one.symbol,
                kind=kind_word(one),
                other=other.symbol,
                another=kind_word(other),
            ),
        )
    if one.dimension == TEMPERATURE:
        raise NotAQuantity(setting.whole, message("two temperatures do not add up."))
    if len({one.system, other.system} & OWN_MEASURES) > 1:
        raise NotAQuantity(
            setting.whole,
            message(
                "{one} and {other} belong to different systems of measures.",
                one=one.symbol,
                other=other.symbol,
            ),
        )
    if join not in {"+", "plus ", "más ", "&"} and other.factor >= one.factor:
        raise NotAQuantity(
            setting.whole,
            message("{other} is not smaller than {one}: join the two with +.", other=other.symbol, one=one.symbol),
        )


def _special(setting: _Setting) -> Quantity:
    """Return a count with a size, a box or a clock time; refuse everything else with the rule it breaks."""
    for read in (_sized_count, _box, _clock):
        found = read(setting)
        if found is not None:
            return found
    raise refusals.refusal(setting.text, setting.kind)


def _sized_count(setting: _Setting) -> Quantity | None:
    """Return `1 (14.5 oz) can` or `1 can (14.5 oz)`: a count whose pieces have a size."""
    match = _SIZED.fullmatch(setting.text)
    if match is None:
        return None
    thing = names_in(setting.names).get((match["thing"] or match["first"]).lower())
    if thing is None or not thing.dimension.startswith(COUNT):
        return None
    inner = _Setting(match["inner"] or match["after"], setting.text, None, setting.mark, setting.names)
    each = _terms(inner)
    if each is None or each.unit.dimension not in {"mass", "volume"}:
        raise NotAQuantity(
            setting.whole,
            message(
                "({size}) must be the weight or volume of one {thing}.",
                size=inner.text.strip(),
                thing=word_of(thing.symbol, 1),
            ),
        )
    return Quantity(_number(match, setting), thing, each)


def _box(setting: _Setting) -> Quantity | None:
    """Return the volume inside three sides: `12x20x2.5 in`."""
    match = _BOX.fullmatch(setting.text)
    if match is None:
        return None
    one, unit_one, two, unit_two, three, unit_three = match.groups()
    length = _length_named(unit_three, setting)
    amount = _side(three, setting)
    for figures, named in ((one, unit_one), (two, unit_two)):
        side = _side(figures, setting)
        amount *= Quantity(side, _length_named(named, setting)).to(length).amount if named else side
    volume, cube = _cube_of(length.symbol)
    return Quantity(amount * cube, volume)


@cache
def _cube_of(symbol: str) -> tuple[Unit, Fraction]:
    """Return the unit that the volume of a box is told in, and how many of it are in the cube of a unit of length."""
    length = UNITS[symbol]
    volume = UNITS["mL"] if length.system == "metric" else UNITS["cu in"]
    return volume, length.factor**3 / 1000 / volume.factor


def _length_named(named: str, setting: _Setting) -> Unit:
    """Return the unit of length that stands beside a side of a box."""
    found = names_in(setting.names).get(named.lower())
    if found is None or found.dimension != "length":
        raise NotAQuantity(
            setting.whole,
            message("the sides of a box are lengths, as in 12x20x2.5 in; {named} is none.", named=repr(named)),
        )
    return found


def _side(figures: str, setting: _Setting) -> Fraction:
    """Return the number of a side of a box."""
    if figures.isdigit():
        return Fraction(int(figures))
    match = _NUMBER_ALONE.fullmatch(figures)
    if match is None:
        raise refusals.refusal(figures)
    return _number(match, setting)


def _clock(setting: _Setting) -> Quantity | None:
    """Return h:min:s as a duration; two figures can be hours or minutes and are asked back."""
    match = _CLOCK.fullmatch(setting.text)
    if match is None:
        return None
    first, second, third = match.groups()
    if third is None:
        ways = (f"{int(first)} h {int(second)} min", f"{int(first)} min {int(second)} s")
        raise Ambiguous(setting.whole, ways, message("a clock with two figures can be hours or minutes"))
    seconds = int(first) * 3600 + int(second) * 60 + int(third)
    return Quantity(Fraction(seconds, 60), UNITS["min"])
