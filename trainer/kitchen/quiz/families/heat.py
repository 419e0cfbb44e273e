"""Heat that comes and goes: cooling toward the air, ice in a liquid, and water that boils high up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import partial
from math import floor, log
from random import Random
from typing import NamedTuple

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, System, Words, only, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import CELSIUS, FAHRENHEIT, ON_THE_CLOCK, Tolerance
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.cooling import fitted
from trainer.recipe_math.estimates import TimedReading

SHARES = (Fraction(1, 2), Fraction(2, 3), Fraction(3, 4), Fraction(3, 5), Fraction(4, 5), Fraction(5, 6))
SEA_LEVEL_FAHRENHEIT = 212
MELTING = 80
"""Melting a gram of ice takes what cools 80 g of water by 1 °C: 334 / 4.186 = 79.8 (OpenStax College Physics 2e)."""
MELTING_FAHRENHEIT = 144
"""The same in Fahrenheit: 144 Btu melt a pound of ice, and a Btu warms a pound of water by 1 °F. A ton of
refrigeration, 12,000 Btu/h (NIST Special Publication 811, 2008, appendix B.8), melts 2,000 lb of ice in a day:
288,000 / 2,000.
"""


class _Degrees(NamedTuple):
    """The degrees of one system: their sign, what they are called among the numbers, and where food would boil."""

    system: System
    unit: str
    name: str
    hottest: int
    sea_level: int

    def of(self, what: str, n: Numbers) -> Fraction:
        """Return a temperature among the numbers drawn."""
        return n[f"{what}_{self.name}"]

    def celsius(self, what: str, n: Numbers) -> float:
        """Return a temperature among the numbers drawn, in Celsius."""
        value = self.of(what, n)
        return float(value if self.system == "metric" else (value - 32) * 5 / 9)


F_DEGREES = _Degrees("us", "°F", "fahrenheit", 205, SEA_LEVEL_FAHRENHEIT)
C_DEGREES = _Degrees("metric", "°C", "celsius", 96, 100)


def _cool_down(d: _Degrees, rng: Random, n: Numbers) -> Numbers:
    """Return the numbers with the temperatures on the way: the gap shrinks by one share in each stretch of time.

    The gap drawn is taken down to the nearest one that keeps all readings whole.
    """
    share, air = SHARES[int(n["share"]) - 1], d.of("air", n)
    whole = share.denominator ** int(n["stretches"])
    gap = d.of("gap", n) // whole * Fraction(whole)
    return {
        **n,
        f"hot_{d.name}": air + gap,
        f"first_{d.name}": air + gap * share,
        f"last_{d.name}": air + gap * share ** int(n["stretches"]),
    }


def _is_readable(d: _Degrees, n: Numbers) -> bool:
    """Return whether all temperatures are whole, as a probe shows them, and food is not hotter than its boil."""
    temperatures = [d.of(when, n) for when in ("hot", "first", "last")]
    is_cooling = d.of("air", n) < d.of("last", n)
    return is_cooling and all(each.denominator == 1 for each in temperatures) and d.of("hot", n) <= d.hottest


def _gaps(d: _Degrees, n: Numbers) -> tuple[Fraction, Fraction, Fraction]:
    """Return the gap to the air at the start, at the first reading and at the end."""
    air = d.of("air", n)
    return d.of("hot", n) - air, d.of("first", n) - air, d.of("last", n) - air


def _newton(d: _Degrees, n: Numbers) -> Fraction:
    first = TimedReading(float(n["first_minutes"]), d.celsius("first", n))
    curve = fitted([TimedReading(0, d.celsius("hot", n)), first], d.celsius("air", n))
    return kept(curve.minutes_until(d.celsius("last", n)) or 0.0)


def _air_ignored(d: _Degrees, n: Numbers) -> Fraction:
    hot, first, last = (float(d.of(when, n)) for when in ("hot", "first", "last"))
    return kept(float(n["first_minutes"]) * log(hot / last) / log(hot / first))


def _straight_line(d: _Degrees, n: Numbers) -> Fraction:
    hot = d.of("hot", n)
    return n["first_minutes"] * (hot - d.of("last", n)) / (hot - d.of("first", n))


def _ask_newton(d: _Degrees, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        hot=d.of("hot", n),
        air=d.of("air", n),
        minutes=n["first_minutes"],
        first=d.of("first", n),
        last=d.of("last", n),
        unit=d.unit,
    )


def _solve_newton(d: _Degrees, n: Numbers) -> tuple[Sentence, ...]:
    gap, first, last = _gaps(d, n)
    share = first / gap
    lines = [
        sentence(
            "the_gap_at_the",
            hot=d.of("hot", n),
            air=d.of("air", n),
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


def _cooling_time(d: _Degrees, air: Range, gap: Range) -> NumericFamily:
    return NumericFamily(
        name="cooling_time",
        level="in a shift",
        unit="min",
        system=d.system,
        ranges={
            f"air_{d.name}": air,
            f"gap_{d.name}": gap,
            "share": span(1, len(SHARES), 1, "share of the gap left each time: 1/2, 2/3, 3/4, 3/5, 4/5, 5/6"),
            "stretches": span(2, 3, 1, "how many such stretches it takes"),
            "first_minutes": span(8, 45, 1, "length of one stretch, in minutes"),
        },
        words=("food",),
        ask=partial(_ask_newton, d),
        right=partial(_newton, d),
        solve=partial(_solve_newton, d),
        wrong={
            "straight_line": partial(_straight_line, d),
            "air_ignored": partial(_air_ignored, d),
            "counted_from_first_reading": lambda n: _newton(d, n) - n["first_minutes"],
            "gaps_divided": lambda n: n["first_minutes"] * _gaps(d, n)[0] / _gaps(d, n)[2],
            "shares_divided": lambda n: n["first_minutes"] * _gaps(d, n)[1] / _gaps(d, n)[2],
        },
        off=("copied",),
        tolerance=ON_THE_CLOCK.named_within("1/20"),
        formula="t1 × ln(gap at start / gap at end) / ln(gap at start / gap after t1)",
        checked_against="OpenStax College Algebra 2e, section 6.7: 165 °F in 35 °F, 150 °F after 10 min; 70 °F after "
        "107 min. Calculus Volume 2, section 4.3: the pizza, 6.12 min.",
        fits=partial(_is_readable, d),
        more=partial(_cool_down, d),
        safety=True,
    )


COOLING_TIME = replace(
    _cooling_time(
        F_DEGREES,
        span(34, 78, 1, "temperature around the food, in Fahrenheit"),
        span(60, 165, 1, "how much warmer the food is at the start, in Fahrenheit"),
    ),
    other=_cooling_time(
        C_DEGREES,
        span(2, 26, 1, "temperature around the food, in Celsius"),
        span(35, 92, 1, "how much warmer the food is at the start, in Celsius"),
    ),
)


class _Ice(NamedTuple):
    """Ice in one system: its degrees, its weights, where it melts, and over how many degrees its like would cool."""

    degrees: _Degrees
    unit: str
    name: str
    melts_at: int
    melting: int
    net: str
    heat_line: str
    last_line: str

    def stock(self, n: Numbers) -> Fraction:
        """Return the weight of the liquid."""
        return n[f"stock_{self.name}"]

    def ice(self, n: Numbers) -> Fraction:
        """Return the weight of the ice."""
        return n[f"ice_{self.name}"]

    def all(self, n: Numbers) -> Fraction:
        """Return the weight of both."""
        return self.stock(n) + self.ice(n)

    def hot(self, n: Numbers) -> Fraction:
        """Return how warm the liquid is at the start."""
        return self.degrees.of("stock", n)

    def heat(self, n: Numbers) -> Fraction:
        """Return the heat of the liquid over melting ice: weight times degrees."""
        return self.stock(n) * (self.hot(n) - self.melts_at)

    def to_melt(self, n: Numbers) -> Fraction:
        """Return the heat that melts the ice."""
        return self.melting * self.ice(n)

    def left(self, n: Numbers) -> Fraction:
        """Return the heat left when the ice has melted."""
        return self.heat(n) - self.to_melt(n)


KILOGRAMS_OF_ICE = _Ice(C_DEGREES, "kg", "kilograms", 0, MELTING, "1/20", "heat_over", "what_is_left_warms")
POUNDS_OF_ICE = _Ice(
    F_DEGREES, "lb", "pounds", 32, MELTING_FAHRENHEIT, "1/10", "heat_over_melting_ice", "what_is_left_and_melting_ice"
)


def _ask_ice(i: _Ice, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        ice=figures(i.ice(n)),
        stock=figures(i.stock(n)),
        weight=i.unit,
        food=w["food"],
        hot=i.hot(n),
        melts=i.melts_at,
        melting=i.melting,
        unit=i.degrees.unit,
    )


def _solve_ice(i: _Ice, n: Numbers) -> tuple[Sentence, ...]:
    share = i.left(n) / i.all(n)
    return (
        sentence(i.heat_line, stock=figures(i.stock(n)), hot=i.hot(n), melts=i.melts_at, result=figures(i.heat(n))),
        sentence("to_melt_the_ice", ice=figures(i.ice(n)), melting=i.melting, result=figures(i.to_melt(n))),
        sentence(
            i.last_line,
            left=figures(i.left(n)),
            whole=figures(i.all(n)),
            share=roughly(share),
            melts=i.melts_at,
            result=roughly(share + i.melts_at),
            unit=i.degrees.unit,
        ),
    )


def _wrong_ice(i: _Ice) -> dict[str, Callable[[Numbers], Fraction | None]]:
    wrong: dict[str, Callable[[Numbers], Fraction | None]] = {
        "melting_forgotten": lambda n: i.heat(n) / i.all(n) + i.melts_at,
        "melt_water_forgotten": lambda n: i.left(n) / i.stock(n) + i.melts_at,
        "plain_middle": lambda n: (i.hot(n) + i.melts_at) / 2,
        "melting_added": lambda n: (i.heat(n) + i.to_melt(n)) / i.all(n) + i.melts_at,
        "difference_of_degrees": lambda n: i.hot(n) - i.to_melt(n) / i.all(n),
    }
    if i.melts_at:
        wrong["thirty_two_not_added"] = lambda n: i.left(n) / i.all(n)
    return wrong


def _ice_in_stock(i: _Ice, stock: Range, hot: Range, ice: Range) -> NumericFamily:
    d = i.degrees
    return NumericFamily(
        name="ice_in_stock",
        level="in a shift",
        unit=d.unit,
        system=d.system,
        ranges={f"stock_{i.name}": stock, f"stock_{d.name}": hot, f"ice_{i.name}": ice},
        words=("food",),
        ask=partial(_ask_ice, i),
        told=lambda n: (Fraction(i.melting), i.hot(n), Fraction(i.melts_at)),
        right=lambda n: i.left(n) / i.all(n) + i.melts_at,
        solve=partial(_solve_ice, i),
        wrong=_wrong_ice(i),
        off=("copied",),
        tolerance=(FAHRENHEIT if i.melts_at else CELSIUS).named_within(i.net),
        formula=f"(weight × degrees over {i.melts_at} {d.unit} - {i.melting} × weight of ice) / weight of both"
        + (f" + {i.melts_at}" if i.melts_at else ""),
        checked_against="OpenStax College Physics 2e, section 14.3: 18 g of ice in 250 g at 20 °C, 13 °C (55.9 °F).",
        fits=lambda n: 2 * i.all(n) <= i.left(n),
        safety=True,
    )


ICE_IN_STOCK = replace(
    _ice_in_stock(
        KILOGRAMS_OF_ICE,
        span(4, 20, "1/2", "weight of the liquid, in kilograms"),
        span(40, 90, 1, "its temperature, in Celsius"),
        span(1, 8, "1/4", "weight of the ice, in kilograms"),
    ),
    other=_ice_in_stock(
        POUNDS_OF_ICE,
        span(8, 44, 1, "weight of the liquid, in pounds"),
        span(104, 194, 1, "its temperature, in Fahrenheit"),
        span(2, 18, "1/2", "weight of the ice, in pounds"),
    ),
)


class _Height(NamedTuple):
    """How height is told in one system: its unit, and for how much of it water boils so much lower."""

    degrees: _Degrees
    unit: str
    name: str
    step: int
    wrong_step: str
    rounded_up: str
    tolerance: Tolerance

    def drop(self, n: Numbers) -> Fraction:
        """Return how much lower water boils for each step."""
        return n[f"drop_{self.degrees.name}"]


IN_FEET = _Height(F_DEGREES, "ft", "feet", 1000, "for_each_hundred_feet", "full_thousands_only", FAHRENHEIT)
IN_METRES = _Height(C_DEGREES, "m", "metres", 300, "for_each_hundred_metres", "full_steps_only", CELSIUS)


def _steps(h: _Height, n: Numbers) -> Fraction:
    return n[h.name] / h.step


def _drop(h: _Height, n: Numbers) -> Fraction:
    return h.drop(n) * _steps(h, n)


def _boils(h: _Height, n: Numbers) -> Fraction:
    return h.degrees.sea_level - _drop(h, n)


def _ask_boiling(h: _Height, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        sea=h.degrees.sea_level,
        degrees=h.degrees.unit,
        drop=figures(h.drop(n)),
        step=h.step,
        unit=h.unit,
        place=w["place"],
        height=n[h.name],
    )


def _solve_boiling(h: _Height, n: Numbers) -> tuple[Sentence, ...]:
    degrees, drop = h.degrees.unit, _drop(h, n)
    return (
        sentence("how_often", step=h.step, unit=h.unit, height=n[h.name], result=roughly(_steps(h, n))),
        sentence(
            "so_much_lower",
            height=n[h.name],
            step=h.step,
            drop=figures(h.drop(n)),
            degrees=degrees,
            result=roughly(drop),
        ),
        sentence(
            "take_it_off_pasta",
            sea=h.degrees.sea_level,
            drop=figures(drop),
            degrees=degrees,
            result=roughly(_boils(h, n)),
        ),
    )


def _boiling_point(h: _Height, height: Range, drop: Range, formula: str) -> NumericFamily:
    sea = h.degrees.sea_level
    return NumericFamily(
        name="boiling_point",
        level="two steps",
        unit=h.degrees.unit,
        system=h.degrees.system,
        ranges={h.name: height, f"drop_{h.degrees.name}": drop},
        words=("place",),
        ask=partial(_ask_boiling, h),
        right=partial(_boils, h),
        solve=partial(_solve_boiling, h),
        wrong={
            "drop_added": lambda n: sea + _drop(h, n),
            "drop_only": partial(_drop, h),
            h.wrong_step: lambda n: sea - _drop(h, n) * h.step / 100,
            "one_drop_only": lambda n: sea - h.drop(n),
            h.rounded_up: lambda n: sea - h.drop(n) * (floor(_steps(h, n)) + 1),
        },
        tolerance=h.tolerance,
        formula=formula,
        checked_against="Table 'Boiling point of pure water at elevated altitudes' (credits NOAA): 2000 ft 208.4 °F, "
        "6000 ft 201.1 °F, 8000 ft 197.4 °F.",
        below_zero=True,
    )


BOILING_POINT = replace(
    _boiling_point(
        IN_FEET,
        span(600, 12000, 10, "height above the sea, in feet"),
        only("1.84", "how much lower water boils for each 1000 ft, in Fahrenheit"),
        "212 - 1.84 × feet / 1000",
    ),
    other=_boiling_point(
        IN_METRES,
        span(200, 3700, 10, "height above the sea, in metres"),
        only("1", "how much lower water boils for each 300 m, in Celsius"),
        "100 - metres / 300",
    ),
)
