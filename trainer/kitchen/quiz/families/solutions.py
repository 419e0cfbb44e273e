"""Things dissolved: salt for a brine, and sanitizer for a bucket."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import FINE_GRAMS, FINE_MILLILITRES
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.brine import Concentrate, concentrate_for, salt_for_water
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS

PPM_IN_A_PERCENT = 10_000


def _water(n: Numbers) -> Fraction:
    """Return the grams of water: a litre weighs a kilogram."""
    return 1000 * n["water_litres"]


def _share(n: Numbers) -> Fraction:
    return n["salt_percent"] / 100


def _salt(n: Numbers) -> Fraction:
    return salt_for_water(Quantity(_water(n), UNITS["g"]), n["salt_percent"]).amount


def _ask_brine(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        water=figures(n["water_litres"]),
        percent=figures(n["salt_percent"]),
    )


def _solve_brine(n: Numbers) -> tuple[Sentence, ...]:
    percent, rest = figures(n["salt_percent"]), figures(100 - n["salt_percent"])
    return (
        sentence("the_water", water=figures(n["water_litres"]), result=figures(_water(n))),
        sentence("salt_is_of_the", percent=percent, rest=rest),
        sentence(
            "salt",
            water=figures(_water(n)),
            percent=percent,
            rest=rest,
            result=roughly(_salt(n)),
        ),
    )


SALT_BRINE = NumericFamily(
    name="salt_brine",
    level="two steps",
    unit="g",
    ranges={
        "water_litres": span(2, 20, "1/4", "water, in litres"),
        "salt_percent": span(3, 12, "1/4", "salt, in percent of the whole brine"),
    },
    words=("food",),
    ask=_ask_brine,
    told=lambda n: (Fraction(1000),),
    right=_salt,
    solve=_solve_brine,
    wrong={
        "percent_of_the_water": lambda n: _water(n) * _share(n),
        "divided_by_percent": lambda n: _water(n) / _share(n),
        "hundred_taken_twice": lambda n: _water(n) * _share(n) / 100,
        "water_share_given": lambda n: _water(n) * (1 - _share(n)),
        "share_added_to_one": lambda n: _water(n) * _share(n) / (1 + _share(n)),
    },
    tolerance=FINE_GRAMS,
    formula="water × p / (100 - p)",
    checked_against="Mass fraction: 10 g of salt on 1000 g of water is 0.990 % of the solution (OpenStax Chemistry 2e, "
    "section 3.4, defines mass percent so).",
)


def _millilitres(n: Numbers) -> Fraction:
    bucket, bottle = Quantity(n["bucket_litres"], UNITS["L"]), Concentrate(n["bottle_percent"])
    return concentrate_for(bucket, n["label_ppm"], bottle).to("mL").amount


def _ask_sanitizer(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        bucket=w["bucket"],
        litres=figures(n["bucket_litres"]),
        ppm=n["label_ppm"],
        percent=figures(n["bottle_percent"]),
    )


def _solve_sanitizer(n: Numbers) -> tuple[Sentence, ...]:
    strong = PPM_IN_A_PERCENT * n["bottle_percent"]
    water = 1000 * n["bucket_litres"]
    return (
        sentence(
            "the_bottle_in_ppm",
            percent=figures(n["bottle_percent"]),
            ppm=PPM_IN_A_PERCENT,
            result=figures(strong),
        ),
        sentence("the_bucket_ml", litres=figures(n["bucket_litres"]), result=figures(water)),
        sentence(
            "weak_over_strong_ml",
            water=figures(water),
            ppm=n["label_ppm"],
            strong=figures(strong),
            result=roughly(_millilitres(n)),
        ),
    )


SANITIZER_DILUTION = NumericFamily(
    name="sanitizer_dilution",
    level="in a shift",
    unit="mL",
    ranges={
        "bucket_litres": span(4, 20, "1/2", "what the bucket holds, in litres"),
        "label_ppm": span(50, 200, 10, "strength the label asks for, in parts per million"),
        "bottle_percent": span(5, "31/4", "1/4", "strength of the bottle, in percent"),
    },
    words=("bucket",),
    ask=_ask_sanitizer,
    right=_millilitres,
    solve=_solve_sanitizer,
    wrong={
        "percent_as_thousand_ppm": lambda n: 10 * _millilitres(n),
        "percent_as_hundred_thousand_ppm": lambda n: _millilitres(n) / 10,
        "bottle_taken_as_pure": lambda n: n["bucket_litres"] * n["label_ppm"] / 1000,
        "upside_down": lambda n: 1000 * n["bucket_litres"] * PPM_IN_A_PERCENT * n["bottle_percent"] / n["label_ppm"],
        "percent_not_turned_into_ppm": lambda n: 1000 * n["bucket_litres"] * n["label_ppm"] / n["bottle_percent"],
    },
    tolerance=FINE_MILLILITRES,
    formula="water × ppm wanted / (10 000 × percent of the bottle)",
    checked_against="OpenStax Chemistry 2e, section 3.3, C1 V1 = C2 V2 (from memory): 5.00 L at 0.100 of 1.59 take "
    "0.314 L.",
    safety=True,
)
