"""A second way to every answer: the numbers are read out of the question's text and the sum is done again.

Nothing here uses a family's own formulas or drawn numbers, so a text that says one thing and a key that says another
are found out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import datetime
from fractions import Fraction
from math import ceil, floor, sqrt

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


WEIGHTS: Mapping[str, Mapping[str, Fraction | int]] = {
    "lb": {"lb": 1, "oz": Fraction(1, 16)}, "oz": {"lb": 16, "oz": 1},
    "kg": {"kg": 1, "g": Fraction(1, 1000)}, "g": {"kg": 1000, "g": 1},
}  # fmt: skip
"""What one unit is in another of its own system: no question goes from one system to the other unless it asks so."""


def weight(text: str, unit: str) -> Fraction:
    """Return `4 lb 8 oz`, `350 g` or `2.5 kg` in a unit of the same system."""
    parts = re.findall(r"([\d ./]+?) (lb|oz|kg|g)\b", text)
    assert parts, text
    return sum((number(amount) * WEIGHTS[unit][of] for amount, of in parts), Fraction(0))


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
    old, amount, new, unit = pieces(r"for (\d+) portions takes (.+?) of .* for (\d+) portions, in (\w+)\?", text)
    return weight(amount, unit) / int(old) * int(new)


def scale_by_portion(text: str) -> Fraction:
    amount, n0, p0, n1, p1, unit = pieces(
        r"takes (.+?) of .*makes (\d+) portions of (.+?)\. You need (\d+) portions of (.+?)\. .* in (\w+)\?", text
    )
    return weight(amount, unit) / (int(n0) * weight(p0, unit)) * int(n1) * weight(p1, unit)


def amount_to_buy(text: str) -> Fraction:
    ready, percent, unit = pieces(r"need (.+?) of .* can use ([\d.]+) % .* in (\w+)\?", text)
    return weight(ready, unit) * 100 / Fraction(percent)


def packs_to_buy(text: str) -> Fraction:
    per_hundred, per_case, guests = pieces(r"need ([\d.]+) cans .* holds (\d+) cans.* for (\d+) guests", text)
    return Fraction(ceil(Fraction(per_hundred) * int(guests) / 100 / int(per_case)))


def portions_from_batch(text: str) -> Fraction:
    batch, loss, portion = pieces(r"weighs (.+?)\. You lose ([\d.]+) % .*portion is (.+?)\. How", text)
    unit = "oz" if "oz" in portion else "g"
    left = weight(batch, unit) * (100 - Fraction(loss)) / 100
    return Fraction(floor(left / weight(portion, unit)))


def piece_share(text: str) -> Fraction:
    target, may, weights = pieces(
        r"weigh ([\d.]+) (?:g|oz), give or take ([\d.]+) (?:g|oz)\..* in (?:g|oz): ([\d., ]+?)\. How", text
    )
    low, high = Fraction(target) - Fraction(may), Fraction(target) + Fraction(may)
    return Fraction(sum(low <= Fraction(each) <= high for each in weights.split(", ")))


def bakers_percent(text: str) -> Fraction:
    main, second, water = pieces(r"has (.+?) of .*?, (.+?) of .*?, (.+?) of water", text)
    unit = main.split()[-1]
    return 100 * weight(water, unit) / (weight(main, unit) + weight(second, unit))


def hydration_with_eggs(text: str) -> Fraction:
    flour, egg, water, share = pieces(r"has (.+?) of flour, (.+?) of .*? and (.+?) of water.* is ([\d.]+) %", text)
    unit = flour.split()[-1]
    return (weight(water, unit) + weight(egg, unit) * Fraction(share) / 100) * 100 / weight(flour, unit)


def flour_from_dough(text: str) -> Fraction:
    dough, *percents, unit = pieces(
        r"need (.+?) of .* water is ([\d.]+) %, the salt ([\d.]+) % .* ([\d.]+) %\..* in (\w+)\?", text
    )
    return weight(dough, unit) / (1 + sum((Fraction(percent) for percent in percents), Fraction(0)) / 100)


def unit_conversion(text: str) -> Fraction:
    amount, measure, batches = pieces(
        r"takes ([\d /]+) (cup|pint|quart|fluid ounce)s? of .* make (\d+) batches\. Use US kitchen measures", text
    )
    return number(amount) * MILLILITRES[measure] * int(batches)


def mixed_units(text: str) -> Fraction:
    tray, trays, unit = pieces(r"takes (.+?)\. You make ([\d /]+) trays\. .* in (\w+)\?", text)
    return sum((weight(tray, unit) * part for part in (1, number(trays) - 1)), Fraction(0))


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
    m1, t1, m2, t2 = pieces(r"whisk (\d+) g .*? at ([\d.]+) °C into (\d+) g .*? at ([\d.]+) °C", text)
    hot, egg = pieces(r"as 1, the .*? holds ([\d.]+) of heat and the egg ([\d.]+)\.", text)
    parts = (int(m1) * Fraction(hot), int(m2) * Fraction(egg))
    return Fraction(t2) + (Fraction(t1) - Fraction(t2)) * parts[0] / sum(parts)


def tempering_ladles(text: str) -> Fraction:
    hot, egg, cold, ladle = pieces(r"at ([\d.]+) °C into (\d+) g .*? at ([\d.]+) °C\. One ladle holds (\d+) g", text)
    hot_heat, cold_heat = pieces(r"as 1, the .*? holds ([\d.]+) of heat and the egg ([\d.]+)\.", text)
    (limit,) = map(Fraction, pieces(r"You stop at ([\d.]+) °C", text))
    poured = 0
    while True:  # ladle by ladle, by the mix
        parts = ((poured + 1) * int(ladle) * Fraction(hot_heat), int(egg) * Fraction(cold_heat))
        if Fraction(cold) + (Fraction(hot) - Fraction(cold)) * parts[0] / sum(parts) > limit:
            return Fraction(poured)
        poured += 1


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


def scale_by_ingredient(text: str) -> Fraction:
    called, amount, stock, unit = pieces(r"takes (.+?) of .*? and (.+?) of .*\. You have (.+?) of .* in (\w+)\?", text)
    return weight(amount, unit) * weight(stock, unit) / weight(called, unit)


def cascade_to_measures(text: str) -> Fraction:
    (gallons,) = pieces(r"comes to ([\d.]+) gallons", text)
    tablespoons = Fraction(gallons) * 256
    for full in (256, 64, 16):
        tablespoons -= tablespoons // full * full
    return tablespoons


def yield_percent(text: str) -> Fraction:
    bought, trim = pieces(r"trim (.+?) of .* weighs (.+?)\. What", text)
    unit = "oz" if "oz" in trim else "g"
    return 100 - 100 * weight(trim, unit) / weight(bought, unit)


def two_step_yield(text: str) -> Fraction:
    ready, trimmed, cooked, unit = pieces(
        r"need (.+?) of .* leaves (\d+) % of what you buy\. .* leaves (\d+) % .* in (\w+)\?", text
    )
    return weight(ready, unit) * 10_000 / (int(trimmed) * int(cooked))


def edible_cost(text: str) -> Fraction:
    price, percent = pieces(r"pay \$([\d.]+) as .* use (\d+) %", text)
    return Fraction(price) * 100 / int(percent)


def cost_per_portion(text: str) -> Fraction:
    price, unit, percent, portion = pieces(
        r"pay \$([\d.]+) as .* 1 (lb|kg) of .* use (\d+) % .* portion of (.+?) cost", text
    )
    return Fraction(price) * weight(portion, unit) * 100 / int(percent)


def _card(text: str) -> tuple[Fraction, Fraction, Fraction, str]:
    """Return the net cost, the usable weight and the price of a butcher's card, and the unit that has the price."""
    bought, price, unit, trim, usable = pieces(
        r"buy (.+?) of .*? at \$([\d.]+) per (lb|kg)\. .* worth \$([\d.]+)\. You can use (.+?)\. What", text
    )
    net = weight(bought, unit) * Fraction(price) - Fraction(trim)
    return net, weight(usable, unit), Fraction(price), unit


def butcher_card(text: str) -> Fraction:
    net, usable, _, _ = _card(text)
    return net / usable


def butcher_portion(text: str) -> Fraction:
    net, usable, _, unit = _card(text)
    (portion,) = pieces(r"portion of (.+?) cost", text)
    return net * weight(portion, unit) / usable


def butcher_factor(text: str) -> Fraction:
    net, usable, price, _ = _card(text)
    return net / (usable * price)


def menu_price(text: str) -> Fraction:
    cost, percent = pieces(r"costs \$([\d.]+)\. It may be ([\d.]+) %", text)
    return Fraction(cost) * 100 / Fraction(percent)


def food_cost_percent(text: str) -> Fraction:
    opening, bought, closing, sales = map(int, pieces(r"\$(\d+)\. .*\$(\d+)\. .*\$(\d+)\. .*\$(\d+)\.", text))
    return Fraction(100 * (opening + bought - closing), sales)


def cans_for_guests(text: str) -> Fraction:
    cans, cups, guests = pieces(r"says: ([\d.]+) cans .* serve ([\d /]+) cup to each of (\d+) guests", text)
    return Fraction(ceil(Fraction(cans) / 25 * int(guests) * number(cups)))


def par_level(text: str) -> Fraction:
    daily, days, more, shelf = map(
        int, pieces(r"uses (\d+) cans .* every (\d+) days\. .* and (\d+) % more\. There are (\d+) cans", text)
    )
    return daily * days + Fraction(daily * days * more, 100) - shelf


def part_from_percent(text: str) -> Fraction:
    main, second, percent = pieces(r"has (.+?) of .*? and (.+?) of .* is ([\d.]+) %", text)
    unit = main.split()[-1]
    return weight(main, unit) * Fraction(percent) / 100 + weight(second, unit) * Fraction(percent) / 100


def flour_from_part(text: str) -> Fraction:
    water, percent, unit = pieces(r"have (.+?) of water .* be ([\d.]+) %.* in (\w+)\?", text)
    return weight(water, unit) / (Fraction(percent) / 100)


def egg_count(text: str) -> Fraction:
    weight, one = map(Fraction, pieces(r"takes ([\d.]+) (?:g|oz) of .* gives ([\d.]+) (?:g|oz)", text))
    return -(-weight // one) + Fraction(0)


def salt_brine(text: str) -> Fraction:
    percent, unit = pieces(r"be ([\d.]+) % .* in (\w+)\?", text)
    (water,) = pieces(r"which weigh ([\d.]+ kg)" if unit == "g" else r"with ([\d.]+ lb) of water", text)
    return weight(water, unit) / (1 - Fraction(percent) / 100) - weight(water, unit)


def sanitizer_dilution(text: str) -> Fraction:
    held, ppm, percent, parts = pieces(
        r"holds ([\d.]+) (?:L|gal)\. .* asks for (\d+) parts .* is ([\d.]+) % strong\. 1 (?:L|gal) is (\d+) ", text
    )
    return Fraction(held) * int(parts) * (Fraction(ppm) / 1_000_000) / (Fraction(percent) / 100)


def pickup_start(text: str) -> Fraction:
    cook, rest, boil, toss = pieces(
        r"cooks ([\d /]+) min and rests ([\d /]+) min\. .* boil (\d+) s and are tossed (\d+) s", text
    )
    return number(cook) * 60 - int(boil) + number(rest) * 60 - int(toss)


def portion_mean(text: str) -> Fraction:
    (listed,) = pieces(r"in (?:g|oz): ([\d., ]+)\. What", text)
    weights = [Fraction(each) for each in listed.split(", ")]
    return sum(weights, Fraction(0)) / len(weights)


def portion_spread(text: str) -> Fraction:
    """Use the sum of squares less the square of the sum: another way to the same deviation."""
    (listed,) = pieces(r"in grams: ([\d, ]+)\.", text)
    weights = [int(weight) for weight in listed.split(", ")]
    squares = sum(weight * weight for weight in weights) - Fraction(sum(weights) ** 2, len(weights))
    return Fraction(sqrt(squares / (len(weights) - 1)))


def ice_in_stock(text: str) -> Fraction:
    """Take ice for water that is 80 °C, or 144 °F, below its melting: then it is a plain mixture."""
    asked = r"stir ([\d.]+) (?:kg|lb) of ice at (\d+) .* into ([\d.]+) (?:kg|lb) of .* at (\d+) °[CF]\. To"
    ice, melts, stock, degrees = pieces(asked, text)
    below = int(melts) - (144 if "°F" in text else 80)
    return Fraction(stock) / (Fraction(stock) + Fraction(ice)) * (int(degrees) - below) + below


def boiling_point(text: str) -> Fraction:
    lower, each, height = pieces(r"boils ([\d.]+) °[CF] lower for every (\d+) \w+\. .* at (\d+) (?:ft|m)\?", text)
    return (100 if "°C" in text else 212) - Fraction(lower) * int(height) / int(each)


def cooling_time(text: str) -> Fraction:
    """Cool it down stretch by stretch until it is there."""
    hot, air, minutes, first, last = map(
        int,
        pieces(
            r"at (\d+) °. stands in air at (\d+) °.\. After (\d+) min it is at (\d+) °.\. .* to (\d+) °[CF]\?", text
        ),
    )
    share, now, gone = Fraction(first - air, hot - air), Fraction(hot - air), 0
    while now > last - air:
        now, gone = now * share, gone + minutes
    assert now == last - air
    return Fraction(gone)


def thickness_time(text: str) -> Fraction:
    old, minutes, new = pieces(r"([\d /]+) (?:mm|in) thick takes (\d+) min\. .* of ([\d /]+) (?:mm|in)", text)
    return int(minutes) * number(new) ** 2 / number(old) ** 2


def log_reduction(text: str) -> Fraction:
    d, held = pieces(r"D is ([\d /]+) min: .* cuts are ([\d /]+) min", text)
    return number(held) / number(d)


def d_at_other_temperature(text: str) -> Fraction:
    """Go from the one temperature to the other by whole steps of z."""
    d, at, z, wanted = pieces(r"D is ([\d /]+) min at ([\d.]+) °C, and z is ([\d.]+) °C: .* D at ([\d.]+) °C", text)
    seconds, now = number(d) * 60, Fraction(at)
    while now != Fraction(wanted):
        is_warmer = Fraction(wanted) > now
        now += Fraction(z) if is_warmer else -Fraction(z)
        seconds *= Fraction(1, 10) if is_warmer else 10
    return seconds


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
        tempering_ladles,
        cooling_first_stage,
        cooling_stage,
        discard_time,
        date_mark,
        scale_by_ingredient,
        cascade_to_measures,
        yield_percent,
        two_step_yield,
        edible_cost,
        cost_per_portion,
        butcher_card,
        butcher_portion,
        butcher_factor,
        menu_price,
        food_cost_percent,
        cans_for_guests,
        par_level,
        part_from_percent,
        flour_from_part,
        egg_count,
        salt_brine,
        sanitizer_dilution,
        pickup_start,
        portion_mean,
        portion_spread,
        ice_in_stock,
        boiling_point,
        cooling_time,
        thickness_time,
        log_reduction,
        d_at_other_temperature,
    )
}
