"""Quantities as cooks read them: `4 lb 5 1/2 oz`, `1.25 kg`, `2 1/2 cups`, `57 °C`; never with an exponent.

Rounding, stated once. Halfway goes up (away from zero).

| kind | metric | US |
|---|---|---|
| weight | 0.01 g below 1 g, 0.1 g to 10 g, 1 g to 10 kg, then 10 g | 0.01 oz below 2 oz, then 1/4 oz |
| volume | 0.01 mL below 1 mL, 0.1 mL to 10 mL, 1 mL to 10 L, then 10 mL | 1/8 tsp below 1 Tbsp, then 1/4 tsp |
| length | 0.1 mm below 10 mm, 1 mm to 2 metres, then 1 cm | 0.01 in below 1/16 in, 1/16 in to 6 ft, then 1/4 in |
| temperature | 1 °C (a difference 0.1) | 1 °F (a difference 0.1) |
| duration | 0.1 s below a minute, then 1 s | the same |
| money | cents | cents |

The quarter ounce is the scale of the Armed Forces Recipe Service, General Information No. 1, card 1(2); its card leaves
halves between two quarters open. The rest is common practice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from math import ceil, floor
from types import MappingProxyType

from trainer.messages import Text, joined
from trainer.recipe_math.figures import fraction_text, is_short_decimal, number_text
from trainer.recipe_math.quantity import COUNT, Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS, word_of

__all__ = ["as_given", "both_ways", "cascade", "fraction_text", "number_text", "written"]

QUARTER, EIGHTH, SIXTEENTH = Fraction(1, 4), Fraction(1, 8), Fraction(1, 16)
TENTH, HUNDREDTH = Fraction(1, 10), Fraction(1, 100)
TWO_METRES, SIX_FEET = 2000, 72  # in millimetres; in inches
CARD_MEASURES = ("gal", "qt", "pt", "cup", "Tbsp", "tsp")
_CARD_SYMBOLS = MappingProxyType({"cup": "c"})
_TIDY_PARTS = MappingProxyType({"gal": (2,), "qt": (2,), "cup": (2, 3, 4), "Tbsp": (2,)})
"""Parts of a measure there is a spoon or a mark for, so that 2 1/2 cups stay cups: halves, thirds, quarters."""
_GIVEN_PARTS = MappingProxyType({**_TIDY_PARTS, "tsp": (2, 4, 8), "in": (2, 4, 8, 16, 32), "ft": (2,)})
_TIDY_FROM = MappingProxyType({"gal": Fraction(1), "qt": Fraction(1), "cup": QUARTER, "Tbsp": Fraction(1)})
_TIDY_BELOW = MappingProxyType({"cup": 8, "Tbsp": 4})
"""Nobody counts out twenty spoons: from here on the larger measure is used."""
_MONEY = MappingProxyType({"money:USD": "$", "money:EUR": "€", "money:GBP": "£"})


Measure = tuple[Text, Text]
"""A number as it is written, and its unit; both are empty where the sign of money stands before the number."""
_Writer = Callable[[Quantity, str], list[Measure]]


def written(quantity: Quantity, system: str = "metric", decimal_mark: str = ".") -> Text:
    """Return a quantity rounded and written as a cook reads it, in "metric" or "us".

    Rounding is in the table at the head of this module. Counts, shares, durations and money read the same in both.
    US label measures keep their own unit. Raises ValueError for another system.

    >>> written(Quantity.of("4.35", "lb"), "us"), written(Quantity.of("4.35", "lb"))
    ('4 lb 5 1/2 oz', '1.973 kg')
    >>> from trainer.messages import translate
    >>> translate(written(Quantity.of("2.5", "cup"), "us")), written(Quantity.of(135, "°F"))
    ('2 1/2 cups', '57 °C')
    """
    return in_a_row(measures(quantity, system, decimal_mark))


def measures(quantity: Quantity, system: str = "metric", decimal_mark: str = ".") -> list[Measure]:
    """Return what `written` writes, as numbers with their units: two of them in 4 lb 5 1/2 oz.

    >>> measures(Quantity.of("4.35", "lb"), "us")
    [('4', 'lb'), ('5 1/2', 'oz')]
    """
    if system not in _WRITERS:
        raise ValueError(f"{system!r} is not a way to write quantities: there are metric and us.")
    dimension = quantity.unit.dimension
    if quantity.amount < 0 and dimension not in {"temperature", "temperature difference"}:
        (number, unit), *rest = measures(-quantity, system, decimal_mark)
        return [(joined(["-", number], ""), unit), *rest]
    kept = quantity.unit.system == "us_label" and system == "us"
    writer = None if kept else _WRITERS[system].get(dimension)
    return writer(quantity, decimal_mark) if writer else _one_unit(quantity, decimal_mark)


def in_a_row(found: Iterable[Measure]) -> Text:
    """Return numbers and their units as one text.

    >>> in_a_row([("4", "lb"), ("5 1/2", "oz")])
    '4 lb 5 1/2 oz'
    """
    return joined(part for measure in found for part in measure if part)


def both_ways(quantity: Quantity, first: str = "us", decimal_mark: str = ".") -> Text:
    """Return a quantity in both unit systems, the first one in front: `4.5 oz (128 g)`.

    The side the quantity was given in stays as given; the other is converted and rounded. What reads the same in both
    (counts, money, durations) is written once.

    >>> both_ways(Quantity.of("4.5", "oz")), both_ways(Quantity.of(135, "°F"), "metric")
    ('4.5 oz (128 g)', '57 °C (135 °F)')
    """
    own = "metric" if quantity.unit.system == "metric" else "us"
    sides = {system: written(quantity, system, decimal_mark) for system in ("metric", "us")}
    if sides["metric"] == sides["us"]:
        return sides[first]
    sides[own] = as_given(quantity, decimal_mark)
    second = "us" if first == "metric" else "metric"
    return joined([sides[first], _bracketed(sides[second])])


def as_given(quantity: Quantity, decimal_mark: str = ".") -> Text:
    """Return a quantity in the unit it was given in, unrounded where two decimals or a kitchen fraction hold it.

    Parts of a pound become ounces, and anything that two decimals cannot hold is rounded, both as `written` does it.

    >>> as_given(Quantity.of("4.5", "oz")), as_given(Quantity.of("1.125", "lb"))
    ('4.5 oz', '1 lb 2 oz')
    """
    return in_a_row(measures_as_given(quantity, decimal_mark))


def measures_as_given(quantity: Quantity, decimal_mark: str = ".") -> list[Measure]:
    """Return what `as_given` writes, as numbers with their units.

    >>> measures_as_given(Quantity.of("1.125", "lb"))
    [('1', 'lb'), ('2', 'oz')]
    """
    symbol, amount = quantity.unit.symbol, quantity.amount
    if amount.denominator in _GIVEN_PARTS.get(symbol, ()):
        return _with_unit(fraction_text(amount), quantity, decimal_mark)
    parts_of_a_pound = symbol == "lb" and amount.denominator != 1
    if quantity.unit.dimension in _AS_GIVEN_DECIMALS and is_short_decimal(amount) and not parts_of_a_pound:
        return _with_unit(number_text(amount, 2, decimal_mark), quantity, decimal_mark)
    return measures(quantity, "metric" if quantity.unit.system == "metric" else "us", decimal_mark)


def cascade(
    quantity: Quantity,
    symbols: Sequence[str] = CARD_MEASURES,
    step: Fraction = QUARTER,
) -> str:
    """Return a quantity poured down a row of measures, the last rounded to the nearest step: `19 gal 3 qt 1 pt`.

    Measures that come to nothing are left out. The last measure carries over when it rounds up to a full one before
    it. Raises WrongDimension where a measure is of another kind. Example: US Navy training manual NAVEDTRA 14163,
    p. 110 (6 gal x 3.33 = 19.98 gal).

    >>> cascade(Quantity.of("19.98", "gal"))
    '19 gal 3 qt 1 pt 1 c 10 Tbsp 2 3/4 tsp'
    """
    return " ".join(f"{number} {unit}" for number, unit in _cascade(quantity, symbols, step))


def _cascade(quantity: Quantity, symbols: Sequence[str], step: Fraction = QUARTER) -> list[tuple[str, str]]:
    """Return the measures of a cascade; a cup is told by its letter, as on a card."""
    return [
        (fraction_text(much.amount), _CARD_SYMBOLS.get(much.unit.symbol, much.unit.symbol))
        for much in _poured(quantity, symbols, step)
    ]


def _poured(quantity: Quantity, symbols: Sequence[str], step: Fraction) -> list[Quantity]:
    """Return the amounts in a row of measures, those that come to nothing left out; nothing at all is 0 of the last."""
    last = UNITS[symbols[-1]]
    left = to_nearest(quantity.to(last).amount, step)
    parts: list[Quantity] = []
    for symbol in symbols[:-1]:
        size = UNITS[symbol].factor / last.factor
        parts.append(Quantity(Fraction(floor(left / size)), UNITS[symbol]))
        left -= parts[-1].amount * size
    parts.append(Quantity(left, last))
    return [part for part in parts if part.amount] or parts[-1:]


def _metric_mass(quantity: Quantity, mark: str) -> list[Measure]:
    return _fine_or_large(quantity, ("g", "kg"), mark)


def _metric_volume(quantity: Quantity, mark: str) -> list[Measure]:
    return _fine_or_large(quantity, ("mL", "L"), mark)


def _fine_or_large(quantity: Quantity, symbols: tuple[str, str], mark: str) -> list[Measure]:
    """Return grams or kilograms (millilitres or litres), with the steps of the table at the head."""
    base = quantity.base
    for limit, step in ((1, HUNDREDTH), (10, TENTH), (10_000, Fraction(1))):
        rounded = to_nearest(base, step)
        if rounded < limit:
            break
    else:
        rounded = to_nearest(base, Fraction(10))
    if rounded < 1000:
        return [(number_text(rounded, 2, mark), symbols[0])]
    return [(number_text(rounded / 1000, 3, mark), symbols[1])]


def _us_mass(quantity: Quantity, mark: str) -> list[Measure]:
    """Return pounds and quarter ounces; below two ounces, hundredths of an ounce unless quarters hold it exactly."""
    ounces = quantity.to("oz").amount
    rounded = to_nearest(ounces, QUARTER)
    if ounces < 2 and rounded != ounces:
        return [(number_text(ounces, 2, mark), "oz")]
    return [*_cascade(quantity, ("lb", "oz"))]


def _us_volume(quantity: Quantity, mark: str) -> list[Measure]:
    """Return one measure where a marked cup or spoon holds it; else gallons, quarts, cups, spoons."""
    for symbol, parts in _TIDY_PARTS.items():
        measured = quantity.to(symbol)
        fits = _TIDY_FROM[symbol] <= measured.amount < _TIDY_BELOW.get(symbol, measured.amount + 1)
        if fits and measured.amount.denominator in {*parts, 1}:
            return _with_unit(fraction_text(measured.amount), measured, mark)
    return [one for part in _us_measures(quantity) for one in _with_unit(fraction_text(part.amount), part, mark)]


def _us_measures(quantity: Quantity) -> list[Quantity]:
    """Return gallons, quarts and cups where they hold it exactly, spoons besides where they do not."""
    cups = quantity.to("cup").amount
    if cups >= _TIDY_BELOW["cup"] and cups.denominator in _TIDY_PARTS["cup"]:
        return _poured(quantity, ("gal", "qt", "cup"), Fraction(1, cups.denominator))
    step = EIGHTH if quantity.to("Tbsp").amount < 1 else QUARTER
    return _poured(quantity, ("gal", "qt", "cup", "Tbsp", "tsp"), step)


def _metric_length(quantity: Quantity, mark: str) -> list[Measure]:
    """Return millimetres below 10 cm, centimetres below 2 metres, metres in hundredths above.

    Metres are a word: a lone m can be minutes, and is asked back about where it is read.
    """
    if quantity.base >= TWO_METRES:
        metres = to_nearest(quantity.base / 1000, HUNDREDTH)
        return [(number_text(metres, 2, mark), word_of("m", ceil(metres)))]
    rounded = to_nearest(quantity.base, TENTH)
    rounded = rounded if rounded < 10 else to_nearest(quantity.base, Fraction(1))
    return [(number_text(rounded, 1, mark), "mm") if rounded < 100 else (number_text(rounded / 10, 1, mark), "cm")]


def _us_length(quantity: Quantity, mark: str) -> list[Measure]:
    """Return inches in sixteenths; below a sixteenth, hundredths; from 6 ft on feet and quarter inches."""
    inches = quantity.to("in").amount
    if inches >= SIX_FEET:
        return [*_cascade(quantity, ("ft", "in"))]
    if 0 < inches < SIXTEENTH:
        return [(number_text(inches, 2, mark), "in")]
    return [(fraction_text(to_nearest(inches, SIXTEENTH)), "in")]


def _degrees(symbol: str, places: int) -> _Writer:
    def degrees(quantity: Quantity, mark: str) -> list[Measure]:
        return [(number_text(quantity.to(symbol).amount, places, mark), word_of(symbol, 2))]

    return degrees


def _duration(quantity: Quantity, mark: str) -> list[Measure]:
    """Return whole days as days where they were given so or are more than two, as 48 hours are said; else hours,
    minutes and seconds; below a minute, tenths of a second.
    """
    seconds = to_nearest(quantity.base, TENTH)
    if seconds < 60:
        return [(number_text(seconds, 1, mark), "s")]
    seconds = to_nearest(quantity.base, Fraction(1))
    days = seconds / 86_400
    if days.denominator == 1 and days >= 2 and (days > 2 or quantity.unit.symbol == "days"):
        return [(number_text(days), word_of("days", int(days)))]
    return [*_cascade(Quantity(seconds, UNITS["s"]), ("h", "min", "s"), Fraction(1))]


def _money(quantity: Quantity, mark: str) -> list[Measure]:
    """Return the sign and the amount with its two cents."""
    cents = to_nearest(quantity.base, HUNDREDTH) * 100
    whole, part = divmod(int(cents), 100)
    return [(f"{_MONEY[quantity.unit.dimension]}{whole}{mark}{part:02d}", "")]


def _one_unit(quantity: Quantity, mark: str) -> list[Measure]:
    """Return the amount in its own unit: a fraction for halves, thirds and quarters of a count, else two decimals.

    A share that two decimals cannot hold is told to a tenth of a percent.
    """
    amount = quantity.amount
    counted = quantity.unit.dimension.startswith(COUNT)
    places = 1 if quantity.unit.symbol == "%" and not is_short_decimal(amount) else 2
    text = fraction_text(amount) if counted and amount.denominator <= 4 else number_text(amount, places, mark)
    return _with_unit(text, quantity, mark)


def _bracketed(text: Text) -> Text:
    return joined(["(", text, ")"], "")


def _with_unit(text: str, quantity: Quantity, mark: str) -> list[Measure]:
    """Return a number and its unit, in the plural above one where the unit is a word."""
    parts = [text, _bracketed(as_given(quantity.each, mark))] if quantity.each is not None else [text]
    word = word_of(quantity.unit.symbol, max(1, ceil(quantity.amount)))
    return [(joined(parts), word)]


_AS_GIVEN_DECIMALS = frozenset({"mass", "volume", "length", "temperature", "temperature difference"})
_SAME_IN_BOTH: Mapping[str, _Writer] = {
    "duration": _duration,
    **dict.fromkeys(_MONEY, _money),
}
_WRITERS: Mapping[str, Mapping[str, _Writer]] = {
    "metric": {
        "mass": _metric_mass,
        "volume": _metric_volume,
        "length": _metric_length,
        "temperature": _degrees("°C", 0),
        "temperature difference": _degrees("°C difference", 1),
        **_SAME_IN_BOTH,
    },
    "us": {
        "mass": _us_mass,
        "volume": _us_volume,
        "length": _us_length,
        "temperature": _degrees("°F", 0),
        "temperature difference": _degrees("°F difference", 1),
        **_SAME_IN_BOTH,
    },
}
