"""Baker's percentages both ways: the weight of a part from its percentage, and the flour from the weight of a part."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.dough import weight_from_percentages
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS


def _flour(u: Weights, n: Numbers) -> Fraction:
    return u.small_of("main_flour", n) + u.small_of("second_flour", n)


def _part(u: Weights, n: Numbers) -> Fraction:
    parts = weight_from_percentages(Quantity(_flour(u, n), UNITS[u.small]), {"part": n["part_percent"]})
    return parts["part"].amount


def _ask_part(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        main=u.written_small(u.small_of("main_flour", n)),
        main_flour=w["main_flour"],
        second=u.written_small(u.small_of("second_flour", n)),
        second_flour=w["second_flour"],
        part=w["part"],
        percent=figures(n["part_percent"]),
        unit=u.small,
    )


def _part_from_percent(u: Weights, main: Range, second: Range) -> NumericFamily:
    return NumericFamily(
        name="part_from_percent",
        level="two steps",
        system=u.system,
        unit=u.small,
        ranges={
            f"main_flour_{u.small_name}": main,
            f"second_flour_{u.small_name}": second,
            "part_percent": span("3/2", 3, "1/20", "the part as a baker's percentage: salt stays below 3"),
        },
        words=("main_flour", "second_flour", "part"),
        ask=partial(_ask_part, u),
        told=lambda n: (u.small_of("main_flour", n), u.small_of("second_flour", n)),
        right=partial(_part, u),
        solve=lambda n: (
            sentence(
                "all_the_flour_is",
                main=figures(u.small_of("main_flour", n)),
                second=figures(u.small_of("second_flour", n)),
                result=figures(_flour(u, n)),
                unit=u.small,
            ),
            sentence(
                "the_part",
                flour=figures(_flour(u, n)),
                percent=figures(n["part_percent"]),
                result=roughly(_part(u, n)),
                unit=u.small,
            ),
        ),
        wrong={
            "one_flour_only": lambda n: u.small_of("main_flour", n) * n["part_percent"] / 100,
            "divided_by_percent": lambda n: _flour(u, n) / n["part_percent"],
            "hundred_forgotten": lambda n: _flour(u, n) * n["part_percent"],
            "percent_as_tenths": lambda n: _flour(u, n) * n["part_percent"] / 10,
            "share_of_the_dough": lambda n: _flour(u, n) * n["part_percent"] / (100 - n["part_percent"]),
            "flours_subtracted": lambda n: (
                (u.small_of("main_flour", n) - u.small_of("second_flour", n)) * n["part_percent"] / 100
                if u.small_of("main_flour", n) > u.small_of("second_flour", n)
                else None
            ),
        },
        tolerance=u.fine_tolerance.named_within("1/200"),
        formula="all the flour × percentage / 100",
        checked_against="Slide set 'Baker's Math: working a dough formula in percent': 40 lb of flour at 1.75 % is "
        "0.7 lb.",
    )


PART_FROM_PERCENT = replace(
    _part_from_percent(
        KILOGRAM_WEIGHTS,
        span(1000, 5000, 50, "weight of the main flour, in grams"),
        span(300, 2400, 50, "weight of the second flour, in grams"),
    ),
    other=_part_from_percent(
        POUND_WEIGHTS,
        span(40, 160, 2, "weight of the main flour, in ounces"),
        span(8, 72, 2, "weight of the second flour, in ounces"),
    ),
)


def _flour_needed(u: Weights, n: Numbers) -> Fraction:
    return 100 * u.small_of("water", n) / n["water_percent"]


def _flour_from_part(u: Weights, water: Range) -> NumericFamily:
    return NumericFamily(
        name="flour_from_part",
        level="one step",
        system=u.system,
        unit=u.small,
        ranges={
            f"water_{u.small_name}": water,
            "water_percent": span(50, 85, "1/2", "the water as a baker's percentage"),
        },
        words=("food",),
        ask=lambda n, w: sentence(
            "ask",
            water=u.written_small(u.small_of("water", n)),
            food=w["food"],
            unit=u.small,
            percent=figures(n["water_percent"]),
        ),
        right=partial(_flour_needed, u),
        solve=lambda n: (
            sentence(
                "the_flour_is_so",
                water=figures(u.small_of("water", n)),
                percent=figures(n["water_percent"]),
                result=roughly(u.small_of("water", n) / n["water_percent"]),
                unit=u.small,
            ),
            sentence(
                "flour",
                water=figures(u.small_of("water", n)),
                percent=figures(n["water_percent"]),
                result=roughly(_flour_needed(u, n)),
                unit=u.small,
            ),
        ),
        wrong={
            "multiplied_by_percent": lambda n: u.small_of("water", n) * n["water_percent"] / 100,
            "percent_taken_off": lambda n: u.small_of("water", n) * (100 - n["water_percent"]) / 100,
            "percent_added_on": lambda n: u.small_of("water", n) * (100 + n["water_percent"]) / 100,
            "divided_by_the_rest": lambda n: 100 * u.small_of("water", n) / (100 - n["water_percent"]),
            "one_percent_only": lambda n: u.small_of("water", n) / n["water_percent"],
            "dough_for_flour": lambda n: _flour_needed(u, n) + u.small_of("water", n),
        },
        early=lambda n: (100 * to_nearest(u.small_of("water", n) / n["water_percent"], Fraction(1, 100)),),
        tolerance=u.small_tolerance,
        formula="weight of the part × 100 / its percentage",
        checked_against="Baker's Percentages tutorial (100/2/1/59), turned around: 18.88 oz of water at 59 % go with "
        "32 oz of flour.",
    )


FLOUR_FROM_PART = replace(
    _flour_from_part(KILOGRAM_WEIGHTS, span(300, 5000, 10, "weight of the water, in grams")),
    other=_flour_from_part(POUND_WEIGHTS, span(12, 160, 1, "weight of the water, in ounces")),
)
