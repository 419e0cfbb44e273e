"""Dough: a part as a baker's percentage, how wet egg makes a dough, and the flour for a weight of dough."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, only, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import HALF_PERCENT, TENTH_PERCENT
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.dough import Liquid, bakers_percentages, flour_for_dough, hydration
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS

HUNDREDTH = Fraction(1, 100)
WEIGHED = {"us": Fraction(1, 4), "metric": Fraction(5)}
"""The step of a bench scale, in ounces and in grams."""


def _weight(u: Weights, amount: Fraction) -> Quantity:
    return Quantity(amount, UNITS[u.small])


def _flour(u: Weights, n: Numbers) -> Fraction:
    return u.small_of("main_flour", n) + u.small_of("second_flour", n)


def _water(u: Weights, n: Numbers) -> Fraction:
    """Return the grams of water that a baker's formula with this percentage calls for."""
    return _flour(u, n) * n["water_percent"] / 100


def _total(u: Weights, n: Numbers) -> Fraction:
    return _flour(u, n) + _water(u, n) + u.small_of("salt", n)


def _water_percent(u: Weights, n: Numbers) -> Fraction:
    """Return the water as a baker's percentage of both flours."""
    weights = {"main": u.small_of("main_flour", n), "second": u.small_of("second_flour", n), "water": _water(u, n)}
    return bakers_percentages({part: _weight(u, weight) for part, weight in weights.items()}, ("main", "second"))[
        "water"
    ]


def _is_weighed(u: Weights, n: Numbers) -> bool:
    """Return whether the water is a weight a bench scale shows, and the salt is 1.5 to 3 percent of the flour."""
    flour, percent, step = _flour(u, n), n["water_percent"], WEIGHED[u.system]
    water, under = flour.numerator * percent.numerator, 100 * flour.denominator * percent.denominator
    if water * step.denominator % (under * step.numerator):  # in whole numbers for speed: most draws end here
        return False
    salt = 100 * u.small_of("salt", n) / flour
    return Fraction(3, 2) <= salt <= 3


def _ask_percent(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        main=u.written_small(u.small_of("main_flour", n)),
        main_flour=w["main_flour"],
        second=u.written_small(u.small_of("second_flour", n)),
        second_flour=w["second_flour"],
        water=u.written_small(_water(u, n)),
        salt=u.written_small(u.small_of("salt", n)),
    )


def _solve_percent(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    return (
        sentence(
            "all_the_flour",
            main=figures(u.small_of("main_flour", n)),
            second=figures(u.small_of("second_flour", n)),
            result=figures(_flour(u, n)),
            unit=u.small,
        ),
        sentence("a_bakers_percentage_is"),
        sentence(
            "water_over_flour",
            water=figures(_water(u, n)),
            flour=figures(_flour(u, n)),
            result=roughly(100 * _water(u, n) / _flour(u, n)),
        ),
    )


def _bakers_percent(u: Weights, main: Range, second: Range, salt: Range) -> NumericFamily:
    return NumericFamily(
        name="bakers_percent",
        level="two steps",
        system=u.system,
        unit="%",
        ranges={
            f"main_flour_{u.small_name}": main,
            f"second_flour_{u.small_name}": second,
            "water_percent": span(50, 90, "1/2", "the water as a baker's percentage; the question gives its weight"),
            f"salt_{u.small_name}": salt,
        },
        words=("main_flour", "second_flour"),
        ask=partial(_ask_percent, u),
        right=partial(_water_percent, u),
        solve=partial(_solve_percent, u),
        wrong={
            "percent_of_the_dough": lambda n: 100 * _water(u, n) / _total(u, n),
            "flour_over_water": lambda n: 100 * _flour(u, n) / _water(u, n),
            "one_flour_only": lambda n: 100 * _water(u, n) / u.small_of("main_flour", n),
            "percent_of_the_rest": lambda n: 100 * _water(u, n) / (_total(u, n) - _water(u, n)),
            "flour_share_of_dough": lambda n: 100 * _flour(u, n) / _total(u, n),
        },
        tolerance=HALF_PERCENT,
        formula="weight / all the flour × 100",
        checked_against="Slide set 'Baker's Math: working a dough formula in percent': 23 lb water, 40 lb flour, "
        "57.5 %.",
        fits=partial(_is_weighed, u),
    )


BAKERS_PERCENT = replace(
    _bakers_percent(
        KILOGRAM_WEIGHTS,
        span(600, 3000, 100, "weight of the main flour, in grams"),
        span(100, 1400, 100, "weight of the second flour, in grams"),
        span(15, 90, 5, "weight of the salt, in grams"),
    ),
    other=_bakers_percent(
        POUND_WEIGHTS,
        span(20, 100, 2, "weight of the main flour, in ounces"),
        span(4, 48, 2, "weight of the second flour, in ounces"),
        span("1/2", 3, "1/4", "weight of the salt, in ounces"),
    ),
)


def _egg_water(u: Weights, n: Numbers) -> Fraction:
    return u.small_of("egg", n) * n["egg_water_percent"] / 100


def _hydration(u: Weights, n: Numbers) -> Fraction:
    """Return the water of egg and jug together as a percentage of the flour."""
    egg = Liquid(_weight(u, u.small_of("egg", n)), n["egg_water_percent"] / 100)
    return hydration(_weight(u, u.small_of("flour", n)), (Liquid(_weight(u, u.small_of("water", n))), egg))


def _ask_hydration(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        flour=u.written_small(u.small_of("flour", n)),
        weight=u.written_small(u.small_of("egg", n)),
        egg=w["egg"],
        water=u.written_small(u.small_of("water", n)),
        percent=figures(n["egg_water_percent"]),
    )


def _solve_hydration(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    egg, water = _egg_water(u, n), u.small_of("water", n) + _egg_water(u, n)
    return (
        sentence(
            "water_in_the_egg",
            egg=figures(u.small_of("egg", n)),
            percent=figures(n["egg_water_percent"]),
            result=figures(egg),
            unit=u.small,
        ),
        sentence(
            "all_the_water",
            water=figures(u.small_of("water", n)),
            egg=figures(egg),
            result=figures(water),
            unit=u.small,
        ),
        sentence(
            "over_the_flour",
            water=figures(water),
            flour=figures(u.small_of("flour", n)),
            result=roughly(100 * water / u.small_of("flour", n)),
        ),
    )


def _is_kneaded(u: Weights, n: Numbers) -> bool:
    """Return whether the flour takes up this much water: neither crumbs nor batter, from 25 to 60 percent."""
    water = 100 * (u.small_of("water", n) + _egg_water(u, n))
    return 25 * u.small_of("flour", n) <= water <= 60 * u.small_of("flour", n)


def _hydration_with_eggs(u: Weights, flour: Range, egg: Range, water: Range) -> NumericFamily:
    return NumericFamily(
        name="hydration_with_eggs",
        level="two steps",
        system=u.system,
        unit="%",
        ranges={
            f"flour_{u.small_name}": flour,
            f"egg_{u.small_name}": egg,
            f"water_{u.small_name}": water,
            "egg_water_percent": only(76, "share of water in the egg, in percent"),
        },
        words=("food", "egg"),
        ask=partial(_ask_hydration, u),
        right=partial(_hydration, u),
        solve=partial(_solve_hydration, u),
        wrong={
            "egg_water_ignored": lambda n: 100 * u.small_of("water", n) / u.small_of("flour", n),
            "egg_taken_as_water": lambda n: (
                100 * (u.small_of("water", n) + u.small_of("egg", n)) / u.small_of("flour", n)
            ),
            "percent_of_the_dough": lambda n: (
                100
                * (u.small_of("water", n) + _egg_water(u, n))
                / (u.small_of("flour", n) + u.small_of("water", n) + u.small_of("egg", n))
            ),
            "dry_part_of_egg_used": lambda n: (
                100 * (u.small_of("water", n) + u.small_of("egg", n) - _egg_water(u, n)) / u.small_of("flour", n)
            ),
            "egg_water_only": lambda n: 100 * _egg_water(u, n) / u.small_of("flour", n),
        },
        tolerance=TENTH_PERCENT,
        formula="(water + egg × its share of water) / flour × 100",
        checked_against="Water in raw whole egg: 76.15 % in USDA SR26. The sum: plain arithmetic, in the tests.",
        fits=partial(_is_kneaded, u),
    )


HYDRATION_WITH_EGGS = replace(
    _hydration_with_eggs(
        KILOGRAM_WEIGHTS,
        span(500, 3000, 100, "weight of the flour, in grams"),
        span(150, 1500, 10, "weight of the egg, in grams"),
        span(20, 400, 10, "weight of the water added, in grams"),
    ),
    other=_hydration_with_eggs(
        POUND_WEIGHTS,
        span(16, 100, 2, "weight of the flour, in ounces"),
        span(5, 50, "1/2", "weight of the egg, in ounces"),
        span(1, 14, "1/2", "weight of the water added, in ounces"),
    ),
)


def _sum_of_percents(u: Weights, n: Numbers) -> Fraction:
    return 100 + n["water_percent"] + n["salt_percent"] + n["yeast_percent"]


def _flour_for_dough(u: Weights, n: Numbers) -> Fraction:
    """Return the grams of flour in the dough, from all its percentages, the flour's own 100 among them."""
    parts = {
        "flour": Fraction(100),
        **{part: n[f"{part}_percent"] for part in ("water", "salt", "yeast")},
    }
    return flour_for_dough(_weight(u, u.small_of("dough", n)), parts).amount


def _ask_flour(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        weight=u.written(u.small_of("dough", n) / u.small_in_large),
        food=w["food"],
        unit=u.small,
        water=figures(n["water_percent"]),
        salt=figures(n["salt_percent"]),
        yeast=figures(n["yeast_percent"]),
    )


def _solve_flour(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    total = _sum_of_percents(u, n)
    parts = " + ".join(figures(n[f"{part}_percent"]) for part in ("water", "salt", "yeast"))
    return (
        sentence("flour_is_always_all", parts=parts, result=figures(total)),
        sentence(
            "the_dough_in_small",
            weight=figures(u.small_of("dough", n) / u.small_in_large),
            large=u.large,
            times=u.small_in_large,
            result=figures(u.small_of("dough", n)),
            unit=u.small,
        ),
        sentence(
            "one_percent_weighs",
            dough=figures(u.small_of("dough", n)),
            total=figures(total),
            unit=u.small,
            result=roughly(u.small_of("dough", n) / total),
        ),
        sentence(
            "flour",
            dough=figures(u.small_of("dough", n)),
            total=figures(total),
            unit=u.small,
            result=roughly(100 * u.small_of("dough", n) / total),
        ),
    )


def _flour_from_dough(u: Weights, dough: Range) -> NumericFamily:
    return NumericFamily(
        name="flour_from_dough",
        level="two steps",
        system=u.system,
        unit=u.small,
        unit_rule="required",
        ranges={
            f"dough_{u.small_name}": dough,
            "water_percent": span(50, 80, 1, "water, as a baker's percentage"),
            "salt_percent": span("3/2", 3, "1/4", "salt, as a baker's percentage"),
            "yeast_percent": span("1/2", 2, "1/4", "yeast, as a baker's percentage"),
        },
        words=("food",),
        ask=partial(_ask_flour, u),
        right=partial(_flour_for_dough, u),
        solve=partial(_solve_flour, u),
        wrong={
            "salt_and_yeast_forgotten": lambda n: 100 * u.small_of("dough", n) / (100 + n["water_percent"]),
            "multiplied_by_the_sum": lambda n: u.small_of("dough", n) * _sum_of_percents(u, n) / 100,
            "water_taken_off_the_dough": lambda n: u.small_of("dough", n) * (100 - n["water_percent"]) / 100,
            "flour_left_out_of_the_sum": lambda n: 100 * u.small_of("dough", n) / (_sum_of_percents(u, n) - 100),
            "one_percent_only": lambda n: u.small_of("dough", n) / _sum_of_percents(u, n),
        },
        early=lambda n: (100 * to_nearest(u.small_of("dough", n) / _sum_of_percents(u, n), HUNDREDTH),),
        tolerance=u.small_tolerance,
        formula="dough × 100 / sum of the percentages",
        checked_against="A baking note (100/70/2): 908 g of dough at 172 % takes 528 g of flour; 3000 g at 206 %, "
        "1456 g.",
    )


FLOUR_FROM_DOUGH = replace(
    _flour_from_dough(KILOGRAM_WEIGHTS, span(1000, 12000, 100, "weight of dough wanted, in grams")),
    other=_flour_from_dough(POUND_WEIGHTS, span(36, 416, 4, "weight of dough wanted, in ounces")),
)
