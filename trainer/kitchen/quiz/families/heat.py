"""Heat that comes and goes: cooling toward the air, ice in a liquid, and water that boils high up."""

from __future__ import annotations

from fractions import Fraction
from math import floor, log
from random import Random

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, only, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import CELSIUS, FAHRENHEIT, ON_THE_CLOCK
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.cooling import fitted
from trainer.recipe_math.estimates import TimedReading

SHARES = (Fraction(1, 2), Fraction(2, 3), Fraction(3, 4), Fraction(3, 5), Fraction(4, 5), Fraction(5, 6))
SEA_LEVEL_FAHRENHEIT = 212
MELTING = 80
"""Melting a gram of ice takes what cools 80 g of water by 1 °C: 334 / 4.186 = 79.8 (OpenStax College Physics 2e)."""


def _celsius(fahrenheit: Fraction) -> float:
    return float((fahrenheit - 32) * 5 / 9)


def _cool_down(rng: Random, n: Numbers) -> Numbers:
    """Return the numbers with the temperatures on the way: the gap shrinks by one share in each stretch of time.

    The gap drawn is taken down to the nearest one that keeps all readings whole.
    """
    share, air = SHARES[int(n["share"]) - 1], n["air_fahrenheit"]
    whole = share.denominator ** int(n["stretches"])
    gap = n["gap_fahrenheit"] // whole * Fraction(whole)
    return {
        **n,
        "hot_fahrenheit": air + gap,
        "first_fahrenheit": air + gap * share,
        "last_fahrenheit": air + gap * share ** int(n["stretches"]),
    }


def _is_readable(n: Numbers) -> bool:
    """Return whether all temperatures are whole, as a probe shows them, and food is not hotter than its boil."""
    temperatures = (n["hot_fahrenheit"], n["first_fahrenheit"], n["last_fahrenheit"])
    is_cooling = n["air_fahrenheit"] < n["last_fahrenheit"]
    return is_cooling and all(each.denominator == 1 for each in temperatures) and n["hot_fahrenheit"] <= 205


def _gaps(n: Numbers) -> tuple[Fraction, Fraction, Fraction]:
    """Return the gap to the air at the start, at the first reading and at the end."""
    air = n["air_fahrenheit"]
    return n["hot_fahrenheit"] - air, n["first_fahrenheit"] - air, n["last_fahrenheit"] - air


def _newton(n: Numbers) -> Fraction:
    first = TimedReading(float(n["first_minutes"]), _celsius(n["first_fahrenheit"]))
    curve = fitted([TimedReading(0, _celsius(n["hot_fahrenheit"])), first], _celsius(n["air_fahrenheit"]))
    return kept(curve.minutes_until(_celsius(n["last_fahrenheit"])) or 0.0)


def _air_ignored(n: Numbers) -> Fraction:
    hot, first, last = (float(n[f"{when}_fahrenheit"]) for when in ("hot", "first", "last"))
    return kept(float(n["first_minutes"]) * log(hot / last) / log(hot / first))


def _straight_line(n: Numbers) -> Fraction:
    hot = n["hot_fahrenheit"]
    return n["first_minutes"] * (hot - n["last_fahrenheit"]) / (hot - n["first_fahrenheit"])


def _ask_newton(n: Numbers, w: Words) -> Sentence:
    minutes = n["first_minutes"]
    return sentence(
        "ask",
        food=w["food"],
        hot=n["hot_fahrenheit"],
        air=n["air_fahrenheit"],
        minutes=minutes,
        first=n["first_fahrenheit"],
        last=n["last_fahrenheit"],
    )


def _solve_newton(n: Numbers) -> tuple[Sentence, ...]:
    gap, first, last = _gaps(n)
    share = first / gap
    lines = [
        sentence(
            "the_gap_at_the",
            hot=n["hot_fahrenheit"],
            air=n["air_fahrenheit"],
            gap=gap,
            last=last,
        )
    ]
    lines.append(
        sentence(
            "after_min_it_is",
            minutes=n["first_minutes"],
            gap=first,
            part=share.numerator,
            of=share.denominator,
        )
    )
    times, now = 0, gap
    while now > last and times < 6:
        times, now = times + 1, now * share
        lines.append(
            sentence(
                "after_min_gap",
                times=times,
                minutes=n["first_minutes"],
                result=times * n["first_minutes"],
                gap=figures(now),
            )
        )
    return tuple(lines)


COOLING_TIME = NumericFamily(
    name="cooling_time",
    level="in a shift",
    unit="min",
    ranges={
        "air_fahrenheit": span(34, 78, 1, "temperature around the food, in Fahrenheit"),
        "gap_fahrenheit": span(60, 165, 1, "how much warmer the food is at the start, in Fahrenheit"),
        "share": span(1, len(SHARES), 1, "share of the gap left each time: 1/2, 2/3, 3/4, 3/5, 4/5, 5/6"),
        "stretches": span(2, 3, 1, "how many such stretches it takes"),
        "first_minutes": span(8, 45, 1, "length of one stretch, in minutes"),
    },
    words=("food",),
    ask=_ask_newton,
    right=_newton,
    solve=_solve_newton,
    wrong={
        "straight_line": _straight_line,
        "air_ignored": _air_ignored,
        "counted_from_first_reading": lambda n: _newton(n) - n["first_minutes"],
        "gaps_divided": lambda n: n["first_minutes"] * _gaps(n)[0] / _gaps(n)[2],
        "shares_divided": lambda n: n["first_minutes"] * _gaps(n)[1] / _gaps(n)[2],
    },
    off=("copied",),
    tolerance=ON_THE_CLOCK,
    formula="t1 × ln(gap at start / gap at end) / ln(gap at start / gap after t1)",
    checked_against="OpenStax College Algebra 2e, section 6.7: 165 °F in 35 °F, 150 °F after 10 min; 70 °F after "
    "107 min. Calculus Volume 2, section 4.3: the pizza, 6.12 min.",
    fits=_is_readable,
    more=_cool_down,
    safety=True,
)


def _melted(n: Numbers) -> Fraction:
    return n["stock_kilograms"] * n["stock_celsius"] - MELTING * n["ice_kilograms"]


def _all(n: Numbers) -> Fraction:
    return n["stock_kilograms"] + n["ice_kilograms"]


def _ask_ice(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        ice=figures(n["ice_kilograms"]),
        stock=figures(n["stock_kilograms"]),
        food=w["food"],
        hot=n["stock_celsius"],
        melting=MELTING,
    )


def _solve_ice(n: Numbers) -> tuple[Sentence, ...]:
    heat = n["stock_kilograms"] * n["stock_celsius"]
    melting = MELTING * n["ice_kilograms"]
    return (
        sentence(
            "heat_over",
            stock=figures(n["stock_kilograms"]),
            hot=n["stock_celsius"],
            result=figures(heat),
        ),
        sentence(
            "to_melt_the_ice",
            ice=figures(n["ice_kilograms"]),
            melting=MELTING,
            result=figures(melting),
        ),
        sentence(
            "what_is_left_warms",
            left=figures(heat - melting),
            whole=figures(_all(n)),
            result=roughly(_melted(n) / _all(n)),
        ),
    )


ICE_IN_STOCK = NumericFamily(
    name="ice_in_stock",
    level="in a shift",
    unit="°C",
    ranges={
        "stock_kilograms": span(4, 20, "1/2", "weight of the liquid, in kilograms"),
        "stock_celsius": span(40, 90, 1, "its temperature, in Celsius"),
        "ice_kilograms": span(1, 8, "1/4", "weight of the ice, in kilograms"),
    },
    words=("food",),
    ask=_ask_ice,
    told=lambda n: (Fraction(MELTING), n["stock_celsius"]),
    right=lambda n: _melted(n) / _all(n),
    solve=_solve_ice,
    wrong={
        "melting_forgotten": lambda n: n["stock_kilograms"] * n["stock_celsius"] / _all(n),
        "melt_water_forgotten": lambda n: _melted(n) / n["stock_kilograms"],
        "plain_middle": lambda n: n["stock_celsius"] / 2,
        "melting_added": lambda n: (n["stock_kilograms"] * n["stock_celsius"] + MELTING * n["ice_kilograms"]) / _all(n),
        "difference_of_degrees": lambda n: n["stock_celsius"] - MELTING * n["ice_kilograms"] / _all(n),
    },
    off=("copied",),
    tolerance=CELSIUS,
    formula="(kg × degrees - 80 × kg of ice) / (kg + kg of ice)",
    checked_against="OpenStax College Physics 2e, section 14.3: 18 g of ice in 250 g at 20 °C, 13 °C.",
    fits=lambda n: 2 * _all(n) <= _melted(n),
    safety=True,
)


def _drop(n: Numbers) -> Fraction:
    return n["drop_fahrenheit"] * n["feet"] / 1000


def _boils(n: Numbers) -> Fraction:
    return SEA_LEVEL_FAHRENHEIT - _drop(n)


BOILING_POINT = NumericFamily(
    name="boiling_point",
    level="two steps",
    unit="°F",
    ranges={
        "feet": span(600, 12000, 10, "height above the sea, in feet"),
        "drop_fahrenheit": only("1.84", "how much lower water boils for each 1000 ft, in Fahrenheit"),
    },
    words=("place",),
    ask=lambda n, w: sentence(
        "ask",
        drop=figures(n["drop_fahrenheit"]),
        place=w["place"],
        feet=n["feet"],
    ),
    right=_boils,
    solve=lambda n: (
        sentence("how_often_ft", feet=n["feet"], result=figures(n["feet"] / 1000)),
        sentence(
            "so_much_lower",
            feet=n["feet"],
            drop=figures(n["drop_fahrenheit"]),
            result=roughly(_drop(n)),
        ),
        sentence(
            "take_it_off_pasta",
            drop=figures(_drop(n)),
            result=roughly(_boils(n)),
        ),
    ),
    wrong={
        "drop_added": lambda n: SEA_LEVEL_FAHRENHEIT + _drop(n),
        "drop_only": _drop,
        "for_each_hundred_feet": lambda n: SEA_LEVEL_FAHRENHEIT - 10 * _drop(n),
        "one_drop_only": lambda n: SEA_LEVEL_FAHRENHEIT - n["drop_fahrenheit"],
        "full_thousands_only": lambda n: SEA_LEVEL_FAHRENHEIT - n["drop_fahrenheit"] * (floor(n["feet"] / 1000) + 1),
    },
    tolerance=FAHRENHEIT,
    formula="212 - 1.84 × feet / 1000",
    checked_against="Table 'Boiling point of pure water at elevated altitudes' (credits NOAA): 2000 ft 208.4 °F, 6000 "
    "ft 201.1 °F, 8000 ft 197.4 °F.",
    below_zero=True,
)
