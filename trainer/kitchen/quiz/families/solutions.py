"""Things dissolved: salt for a brine, and sanitizer for a bucket."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import NamedTuple

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, System, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import FINE_MILLILITRES, QUARTER_TEASPOON, Tolerance
from trainer.kitchen.quiz.wording import figures, roughly, unit_word
from trainer.recipe_math.brine import Concentrate, concentrate_for, salt_for_water
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS

PPM_IN_A_PERCENT = 10_000
WATER = {"us": "water_pounds", "metric": "water_litres"}


def _water(u: Weights, n: Numbers) -> Fraction:
    """Return the weight of the water in the unit the salt is weighed in: a litre weighs a kilogram."""
    return u.small_in_large * n[WATER[u.system]]


def _told_water(u: Weights, n: Numbers) -> Sentence:
    """Return how the water is given: by the litre with what it weighs, or in pounds."""
    key = "litres_of_water" if u.system == "metric" else "pounds_of_water"
    return sentence(key, water=figures(n[WATER[u.system]]))


def _share(n: Numbers) -> Fraction:
    return n["salt_percent"] / 100


def _salt(u: Weights, n: Numbers) -> Fraction:
    return salt_for_water(Quantity(_water(u, n), UNITS[u.small]), n["salt_percent"]).amount


def _ask_brine(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        water=_told_water(u, n),
        percent=figures(n["salt_percent"]),
        unit=u.small,
    )


def _solve_brine(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    percent, rest = figures(n["salt_percent"]), figures(100 - n["salt_percent"])
    return (
        sentence(
            "the_water_weighs",
            water=figures(n[WATER[u.system]]),
            times=u.small_in_large,
            result=figures(_water(u, n)),
            unit=u.small,
        ),
        sentence("salt_is_of_the", percent=percent, rest=rest),
        sentence(
            "salt",
            water=figures(_water(u, n)),
            percent=percent,
            rest=rest,
            result=roughly(_salt(u, n)),
            unit=u.small,
        ),
    )


def _salt_brine(u: Weights, water: Range) -> NumericFamily:
    return NumericFamily(
        name="salt_brine",
        level="two steps",
        system=u.system,
        unit=u.small,
        ranges={
            WATER[u.system]: water,
            "salt_percent": span(2, 5, "1/10", "salt, in percent of the whole brine"),
        },
        words=("food",),
        ask=partial(_ask_brine, u),
        told=lambda n: (Fraction(1000), _water(u, n)),
        right=partial(_salt, u),
        solve=partial(_solve_brine, u),
        wrong={
            "percent_of_the_water": lambda n: _water(u, n) * _share(n),
            "divided_by_percent": lambda n: _water(u, n) / _share(n),
            "hundred_taken_twice": lambda n: _water(u, n) * _share(n) / 100,
            "water_share_given": lambda n: _water(u, n) * (1 - _share(n)),
            "share_added_to_one": lambda n: _water(u, n) * _share(n) / (1 + _share(n)),
        },
        tolerance=u.fine_tolerance,
        formula="water × p / (100 - p)",
        checked_against="Mass fraction: 10 g of salt on 1000 g of water is 0.990 % of the solution (OpenStax "
        "Chemistry 2e, section 3.4, defines mass percent so).",
    )


SALT_BRINE = replace(
    _salt_brine(KILOGRAM_WEIGHTS, span(2, 20, "1/4", "water, in litres")),
    other=_salt_brine(POUND_WEIGHTS, span(4, 40, "1/2", "water, in pounds")),
)


class _Bucket(NamedTuple):
    """One way to measure sanitizer: the bucket's unit and its name, the small measure, how many of it make the unit."""

    system: System
    unit: str
    name: str
    small: str
    small_in_large: int
    tolerance: Tolerance


LITRES = _Bucket("metric", "L", "bucket_litres", "mL", 1000, FINE_MILLILITRES)
GALLONS = _Bucket("us", "gal", "bucket_gallons", "Tbsp", 256, QUARTER_TEASPOON)


def _needed(b: _Bucket, n: Numbers) -> Fraction:
    bucket, bottle = Quantity(n[b.name], UNITS[b.unit]), Concentrate(n["bottle_percent"])
    return concentrate_for(bucket, n["label_ppm"], bottle).to(b.small).amount


def _to_pour(b: _Bucket, n: Numbers) -> Fraction:
    """Return the same by the worked line, for the wrong methods."""
    return _held(b, n) * n["label_ppm"] / (PPM_IN_A_PERCENT * n["bottle_percent"])


def _held(b: _Bucket, n: Numbers) -> Fraction:
    """Return what the bucket holds, in the small measure."""
    return b.small_in_large * n[b.name]


def _ask_sanitizer(b: _Bucket, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        bucket=w["bucket"],
        holds=f"{figures(n[b.name])} {b.unit}",
        ppm=n["label_ppm"],
        percent=figures(n["bottle_percent"]),
        unit=unit_word(b.small),
        parts=b.small_in_large,
        large=b.unit,
    )


def _solve_sanitizer(b: _Bucket, n: Numbers) -> tuple[Sentence, ...]:
    strong = PPM_IN_A_PERCENT * n["bottle_percent"]
    return (
        sentence(
            "the_bottle_in_ppm",
            percent=figures(n["bottle_percent"]),
            ppm=PPM_IN_A_PERCENT,
            result=figures(strong),
        ),
        sentence(
            "the_bucket_in_small",
            holds=figures(n[b.name]),
            parts=b.small_in_large,
            result=figures(_held(b, n)),
            unit=unit_word(b.small),
        ),
        sentence(
            "weak_over_strong",
            water=figures(_held(b, n)),
            ppm=n["label_ppm"],
            strong=figures(strong),
            result=roughly(_needed(b, n)),
            unit=unit_word(b.small),
        ),
    )


def _sanitizer_dilution(b: _Bucket, bucket: Range) -> NumericFamily:
    return NumericFamily(
        name="sanitizer_dilution",
        level="in a shift",
        unit=b.small,
        system=b.system,
        ranges={
            b.name: bucket,
            "label_ppm": span(50, 200, 5, "strength the label asks for, in parts per million"),
            "bottle_percent": span(5, "31/4", "1/4", "strength of the bottle, in percent"),
        },
        words=("bucket",),
        ask=partial(_ask_sanitizer, b),
        told=lambda n: (n[b.name], n["bottle_percent"]),
        off=("copied",),
        right=partial(_needed, b),
        solve=partial(_solve_sanitizer, b),
        wrong={
            "percent_as_thousand_ppm": lambda n: 10 * _to_pour(b, n),
            "percent_as_hundred_thousand_ppm": lambda n: _to_pour(b, n) / 10,
            "bottle_taken_as_pure": lambda n: _held(b, n) * n["label_ppm"] / 1_000_000,
            "upside_down": lambda n: _held(b, n) * PPM_IN_A_PERCENT * n["bottle_percent"] / n["label_ppm"],
            "percent_not_turned_into_ppm": lambda n: _held(b, n) * n["label_ppm"] / n["bottle_percent"],
        },
        tolerance=b.tolerance,
        formula="water × ppm wanted / (10 000 × percent of the bottle)",
        checked_against="OpenStax Chemistry 2e, section 3.3, C1 V1 = C2 V2 (from memory): 5.00 L at 0.100 of 1.59 take "
        "0.314 L.",
        safety=True,
    )


SANITIZER_DILUTION = replace(
    _sanitizer_dilution(LITRES, span(4, 20, "1/2", "what the bucket holds, in litres")),
    other=_sanitizer_dilution(GALLONS, span(1, 9, "1/4", "what the bucket holds, in gallons")),
)
