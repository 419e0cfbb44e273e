"""Baker's percentages both ways: the weight of a part from its percentage, and the flour from the weight of a part."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import FINE_GRAMS, GRAMS
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.dough import weight_from_percentages
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS


def _flour(n: Numbers) -> Fraction:
    return n["main_flour_grams"] + n["second_flour_grams"]


def _part(n: Numbers) -> Fraction:
    parts = weight_from_percentages(Quantity(_flour(n), UNITS["g"]), {"part": n["part_percent"]})
    return parts["part"].amount


def _ask_part(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        main=n["main_flour_grams"],
        main_flour=w["main_flour"],
        second=n["second_flour_grams"],
        second_flour=w["second_flour"],
        part=w["part"],
        percent=figures(n["part_percent"]),
    )


PART_FROM_PERCENT = NumericFamily(
    name="part_from_percent",
    level="two steps",
    unit="g",
    ranges={
        "main_flour_grams": span(600, 3000, 50, "weight of the main flour, in grams"),
        "second_flour_grams": span(100, 1400, 50, "weight of the second flour, in grams"),
        "part_percent": span("3/2", 12, "1/4", "the part as a baker's percentage"),
    },
    words=("main_flour", "second_flour", "part"),
    ask=_ask_part,
    told=lambda n: (n["main_flour_grams"], n["second_flour_grams"]),
    right=_part,
    solve=lambda n: (
        sentence(
            "all_the_flour_is",
            main=n["main_flour_grams"],
            second=n["second_flour_grams"],
            result=_flour(n),
        ),
        sentence(
            "the_part",
            flour=_flour(n),
            percent=figures(n["part_percent"]),
            result=roughly(_part(n)),
        ),
    ),
    wrong={
        "one_flour_only": lambda n: n["main_flour_grams"] * n["part_percent"] / 100,
        "divided_by_percent": lambda n: _flour(n) / n["part_percent"],
        "hundred_forgotten": lambda n: _flour(n) * n["part_percent"],
        "percent_as_tenths": lambda n: _flour(n) * n["part_percent"] / 10,
        "share_of_the_dough": lambda n: _flour(n) * n["part_percent"] / (100 - n["part_percent"]),
        "flours_subtracted": lambda n: (
            (n["main_flour_grams"] - n["second_flour_grams"]) * n["part_percent"] / 100
            if n["main_flour_grams"] > n["second_flour_grams"]
            else None
        ),
    },
    tolerance=FINE_GRAMS,
    formula="all the flour × percentage / 100",
    checked_against="Slide set 'Baker's Math: working a dough formula in percent': 40 lb of flour at 1.75 % is 0.7 lb.",
)


def _flour_needed(n: Numbers) -> Fraction:
    return 100 * n["water_grams"] / n["water_percent"]


FLOUR_FROM_PART = NumericFamily(
    name="flour_from_part",
    level="one step",
    unit="g",
    ranges={
        "water_grams": span(300, 6000, 10, "weight of the water, in grams"),
        "water_percent": span(50, 85, "1/2", "the water as a baker's percentage"),
    },
    words=("food",),
    ask=lambda n, w: sentence(
        "ask",
        water=n["water_grams"],
        food=w["food"],
        percent=figures(n["water_percent"]),
    ),
    right=_flour_needed,
    solve=lambda n: (
        sentence(
            "the_flour_is_so",
            water=n["water_grams"],
            percent=figures(n["water_percent"]),
            result=roughly(n["water_grams"] / n["water_percent"]),
        ),
        sentence(
            "flour",
            water=n["water_grams"],
            percent=figures(n["water_percent"]),
            result=roughly(_flour_needed(n)),
        ),
    ),
    wrong={
        "multiplied_by_percent": lambda n: n["water_grams"] * n["water_percent"] / 100,
        "percent_taken_off": lambda n: n["water_grams"] * (100 - n["water_percent"]) / 100,
        "percent_added_on": lambda n: n["water_grams"] * (100 + n["water_percent"]) / 100,
        "divided_by_the_rest": lambda n: 100 * n["water_grams"] / (100 - n["water_percent"]),
        "one_percent_only": lambda n: n["water_grams"] / n["water_percent"],
        "dough_for_flour": lambda n: _flour_needed(n) + n["water_grams"],
    },
    early=lambda n: (100 * to_nearest(n["water_grams"] / n["water_percent"], Fraction(1, 100)),),
    tolerance=GRAMS,
    formula="weight of the part × 100 / its percentage",
    checked_against="Baker's Percentages tutorial (100/2/1/59), turned around: 18.88 oz of water at 59 % go with 32 oz "
    "of flour.",
)
