"""A second way to every answer: the numbers are read out of the question's text and the sum is done anew.

Nothing here uses a family's own formulas or drawn numbers, so a text that says one thing and a key that says another
are found out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import datetime
from fractions import Fraction
from math import ceil, floor

MILLILITRES = {
    "cup": Fraction("236.5882365"),
    "pint": Fraction("473.176473"),
    "quart": Fraction("946.352946"),
    "fluid ounce": Fraction("29.5735295625"),
}
"""US measures by the Unified Code for Units of Measure (ucum-essence.xml), read there."""


def number(text: str) -> Fraction:
    """Return `2 1/2`, `3.48` or `12` as a fraction."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def pounds(text: str) -> Fraction:
    """Return `4 lb 8 oz`, `12 oz` or `3 lb` in pounds."""
    found = re.fullmatch(r"(?:([\d ./]+) lb)? ?(?:([\d ./]+) oz)?", text)
    assert found is not None, text
    return number(found[1] or "0") + number(found[2] or "0") / 16


def minutes(clock: str) -> int:
    """Return a clock time in minutes."""
    hours, rest = clock.split(":")
    return 60 * int(hours) + int(rest)


def between(start: str, end: str) -> int:
    """Return the minutes from one clock time to the next such time."""
    return (minutes(end) - minutes(start)) % 1440


def pieces(pattern: str, text: str) -> tuple[str, ...]:
    """Return what the groups of a pattern find in a text; the pattern must be there."""
    found = re.search(pattern, text)
    assert found is not None, (pattern, text)
    return found.groups()


def scale_by_yield(text: str) -> Fraction:
    old, amount, new = pieces(r"for (\d+) portions takes (.+?) of .* for (\d+) portions\?", text)
    return pounds(amount) / int(old) * int(new)


def scale_by_portion(text: str) -> Fraction:
    amount, n0, p0, n1, p1 = pieces(
        r"takes (.+?) of .*makes (\d+) portions of ([\d /]+) oz\. You need (\d+) portions of ([\d /]+) oz", text
    )
    per_ounce = pounds(amount) / (int(n0) * number(p0))
    return per_ounce * int(n1) * number(p1)


def amount_to_buy(text: str) -> Fraction:
    ready, percent = pieces(r"need ([\d.]+) kg .* can use ([\d.]+) %", text)
    return Fraction(ready) * 100 / Fraction(percent)


def packs_to_buy(text: str) -> Fraction:
    per_hundred, per_case, guests = pieces(r"need ([\d.]+) cans .* holds (\d+) cans.* for (\d+) guests", text)
    return Fraction(ceil(Fraction(per_hundred) * int(guests) / 100 / int(per_case)))


def portions_from_batch(text: str) -> Fraction:
    batch, loss, portion = pieces(r"weighs (.+?)\. You lose ([\d.]+) % .*portion is ([\d /]+) oz", text)
    ounces = pounds(batch) * 16
    return Fraction(floor((ounces - ounces * Fraction(loss) / 100) / number(portion)))


def piece_share(text: str) -> Fraction:
    target, may, weights = pieces(r"weigh ([\d.]+) g, give or take ([\d.]+) g\..* in grams: ([\d., ]+?)\. How", text)
    low, high = int(target) - int(may), int(target) + int(may)
    return Fraction(sum(int(weight) in range(low, high + 1) for weight in weights.split(", ")))


def bakers_percent(text: str) -> Fraction:
    main, second, water = pieces(r"has (\d+) g of .*?, (\d+) g of .*?, ([\d.]+) g of water", text)
    return 100 * Fraction(water) / (int(main) + int(second))


def hydration_with_eggs(text: str) -> Fraction:
    flour, egg, water, share = pieces(
        r"has (\d+) g of flour, (\d+) g of .*? and (\d+) g of water.* is ([\d.]+) %", text
    )
    return (int(water) + int(egg) * Fraction(share) / 100) * 100 / int(flour)


def flour_from_dough(text: str) -> Fraction:
    dough, *percents = pieces(r"need ([\d.]+) kg of .* water is ([\d.]+) %, the salt ([\d.]+) % .* ([\d.]+) %", text)
    return Fraction(dough) * 1000 / (1 + sum((Fraction(percent) for percent in percents), Fraction(0)) / 100)


def unit_conversion(text: str) -> Fraction:
    amount, measure, batches = pieces(
        r"takes ([\d /]+) (cup|pint|quart|fluid ounce)s? of .* make (\d+) batches\. Use US kitchen measures", text
    )
    return number(amount) * MILLILITRES[measure] * int(batches)


def mixed_units(text: str) -> Fraction:
    whole, ounces, trays = pieces(r"takes (\d+) lb ([\d /]+) oz\. You make ([\d /]+) trays", text)
    return int(whole) * 16 * number(trays) + number(ounces) * number(trays)


def temperature_conversion(text: str) -> Fraction:
    (degrees,) = pieces(r"reads ([\d.]+) °F", text)
    return (Fraction(degrees) + 40) * 5 / 9 - 40


def temperature_to_fahrenheit(text: str) -> Fraction:
    (degrees,) = pieces(r"reads ([\d.]+) °C", text)
    return (Fraction(degrees) + 40) * 9 / 5 - 40


def temperature_difference(text: str) -> Fraction:
    start, end = pieces(r"from ([\d.]+) °F to ([\d.]+) °F", text)
    return (Fraction(end) - 32) * 5 / 9 - (Fraction(start) - 32) * 5 / 9


def tempering_mix(text: str) -> Fraction:
    m1, t1, m2, t2 = pieces(r"stir (\d+) g .*? at ([\d.]+) °C into (\d+) g .*? at ([\d.]+) °C", text)
    hot, cold = Fraction(t1), Fraction(t2)
    return cold + (hot - cold) * Fraction(int(m1), int(m1) + int(m2))


def cooling_first_stage(text: str) -> Fraction:
    start, hours, now = pieces(r"at (\d+:\d+) and starts .* within (\d+) hours\. At (\d+:\d+)", text)
    return Fraction(int(hours) * 60 - between(start, now))


def cooling_stage(text: str) -> Fraction:
    start, middle, now, first, whole = pieces(
        r"at (\d+:\d+) and starts .*? at (\d+:\d+)\. Now it is (\d+:\d+)\..*: (\d+) hours .* and (\d+) hours in all",
        text,
    )
    if between(start, middle) > int(first) * 60:
        return Fraction(0)
    return Fraction(int(whole) * 60 - between(start, now))


def discard_time(text: str) -> Fraction:
    start, hours, now = pieces(r"heat at (\d+:\d+)\..*: (\d+) hours, .* is (\d+:\d+)\.", text)
    return Fraction(int(hours) * 60 - between(start, now))


def date_mark(text: str) -> Fraction:
    made, days, today = pieces(r"made on (\d+ \w+)\. .* keeps it (\d+) days .*Today is (\d+ \w+)\.", text)
    on, now = (datetime.strptime(f"{day} 2027 +0000", "%d %B %Y %z") for day in (made, today))
    kept = {(on.toordinal() + later) for later in range(int(days))}
    return Fraction(sum(day >= now.toordinal() for day in kept))


BY_HAND: Mapping[str, Callable[[str], Fraction]] = {
    rule.__name__: rule
    for rule in (
        scale_by_yield,
        scale_by_portion,
        amount_to_buy,
        packs_to_buy,
        portions_from_batch,
        piece_share,
        bakers_percent,
        hydration_with_eggs,
        flour_from_dough,
        unit_conversion,
        mixed_units,
        temperature_conversion,
        temperature_to_fahrenheit,
        temperature_difference,
        tempering_mix,
        cooling_first_stage,
        cooling_stage,
        discard_time,
        date_mark,
    )
}
