"""Dough: a part as a baker's percentage, how wet egg makes a dough, and the flour for a weight of dough."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, only, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import GRAMS, HALF_PERCENT, TENTH_PERCENT
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.dough import Liquid, bakers_percentages, flour_for_dough, hydration
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS

HUNDREDTH = Fraction(1, 100)


def _grams(amount: Fraction) -> Quantity:
    return Quantity(amount, UNITS["g"])


def _flour(n: Numbers) -> Fraction:
    return n["main_flour_grams"] + n["second_flour_grams"]


def _water(n: Numbers) -> Fraction:
    """Return the grams of water that a baker's formula with this percentage calls for."""
    return _flour(n) * n["water_percent"] / 100


def _total(n: Numbers) -> Fraction:
    return _flour(n) + _water(n) + n["salt_grams"]


def _water_percent(n: Numbers) -> Fraction:
    """Return the water as a baker's percentage of both flours."""
    weights = {"main": n["main_flour_grams"], "second": n["second_flour_grams"], "water": _water(n)}
    return bakers_percentages({part: _grams(weight) for part, weight in weights.items()}, ("main", "second"))["water"]


def _is_weighed(n: Numbers) -> bool:
    """Return whether the water is a weight a bench balance shows: whole grams, in fives."""
    return (_water(n) / 5).denominator == 1


def _ask_percent(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        main=n["main_flour_grams"],
        main_flour=w["main_flour"],
        second=n["second_flour_grams"],
        second_flour=w["second_flour"],
        water=figures(_water(n)),
        salt=n["salt_grams"],
    )


def _solve_percent(n: Numbers) -> tuple[Sentence, ...]:
    return (
        sentence(
            "all_the_flour",
            main=n["main_flour_grams"],
            second=n["second_flour_grams"],
            result=_flour(n),
        ),
        sentence("a_bakers_percentage_is"),
        sentence(
            "water_over_flour",
            water=figures(_water(n)),
            flour=_flour(n),
            result=roughly(100 * _water(n) / _flour(n)),
        ),
    )


BAKERS_PERCENT = NumericFamily(
    name="bakers_percent",
    level="two steps",
    unit="%",
    ranges={
        "main_flour_grams": span(600, 3000, 100, "weight of the main flour, in grams"),
        "second_flour_grams": span(100, 1400, 100, "weight of the second flour, in grams"),
        "water_percent": span(50, 90, "1/2", "the water as a baker's percentage; the question gives its weight"),
        "salt_grams": span(15, 60, 5, "weight of the salt, in grams"),
    },
    words=("main_flour", "second_flour"),
    ask=_ask_percent,
    right=_water_percent,
    solve=_solve_percent,
    wrong={
        "percent_of_the_dough": lambda n: 100 * _water(n) / _total(n),
        "flour_over_water": lambda n: 100 * _flour(n) / _water(n),
        "one_flour_only": lambda n: 100 * _water(n) / n["main_flour_grams"],
        "percent_of_the_rest": lambda n: 100 * _water(n) / (_total(n) - _water(n)),
        "flour_share_of_dough": lambda n: 100 * _flour(n) / _total(n),
    },
    tolerance=HALF_PERCENT,
    formula="weight / all the flour × 100",
    checked_against="Slide set 'Baker's Math: working a dough formula in percent': 23 lb water, 40 lb flour, 57.5 %.",
    fits=_is_weighed,
)


def _egg_water(n: Numbers) -> Fraction:
    return n["egg_grams"] * n["egg_water_percent"] / 100


def _hydration(n: Numbers) -> Fraction:
    """Return the water of egg and jug together as a percentage of the flour."""
    egg = Liquid(_grams(n["egg_grams"]), n["egg_water_percent"] / 100)
    return hydration(_grams(n["flour_grams"]), (Liquid(_grams(n["water_grams"])), egg))


def _ask_hydration(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        flour=n["flour_grams"],
        weight=n["egg_grams"],
        egg=w["egg"],
        water=n["water_grams"],
        percent=figures(n["egg_water_percent"]),
    )


def _solve_hydration(n: Numbers) -> tuple[Sentence, ...]:
    egg, water = _egg_water(n), n["water_grams"] + _egg_water(n)
    return (
        sentence(
            "water_in_the_egg",
            egg=n["egg_grams"],
            percent=figures(n["egg_water_percent"]),
            result=figures(egg),
        ),
        sentence(
            "all_the_water",
            water=figures(n["water_grams"]),
            egg=figures(egg),
            result=figures(water),
        ),
        sentence(
            "over_the_flour",
            water=figures(water),
            flour=n["flour_grams"],
            result=roughly(100 * water / n["flour_grams"]),
        ),
    )


def _is_kneaded(n: Numbers) -> bool:
    """Return whether the flour takes up this much water: neither crumbs nor batter, from 25 to 60 percent."""
    water = 100 * (n["water_grams"] + _egg_water(n))
    return 25 * n["flour_grams"] <= water <= 60 * n["flour_grams"]


HYDRATION_WITH_EGGS = NumericFamily(
    name="hydration_with_eggs",
    level="two steps",
    unit="%",
    ranges={
        "flour_grams": span(500, 3000, 100, "weight of the flour, in grams"),
        "egg_grams": span(150, 1500, 10, "weight of the egg, in grams"),
        "water_grams": span(20, 400, 10, "weight of the water added, in grams"),
        "egg_water_percent": only(76, "share of water in the egg, in percent"),
    },
    words=("food", "egg"),
    ask=_ask_hydration,
    right=_hydration,
    solve=_solve_hydration,
    wrong={
        "egg_water_ignored": lambda n: 100 * n["water_grams"] / n["flour_grams"],
        "egg_taken_as_water": lambda n: 100 * (n["water_grams"] + n["egg_grams"]) / n["flour_grams"],
        "percent_of_the_dough": lambda n: (
            100 * (n["water_grams"] + _egg_water(n)) / (n["flour_grams"] + n["water_grams"] + n["egg_grams"])
        ),
        "dry_part_of_egg_used": lambda n: 100 * (n["water_grams"] + n["egg_grams"] - _egg_water(n)) / n["flour_grams"],
        "egg_water_only": lambda n: 100 * _egg_water(n) / n["flour_grams"],
    },
    tolerance=TENTH_PERCENT,
    formula="(water + egg × its share of water) / flour × 100",
    checked_against="Water in raw whole egg: 76.15 % in USDA SR26. The sum: plain arithmetic, in the tests.",
    fits=_is_kneaded,
)


def _sum_of_percents(n: Numbers) -> Fraction:
    return 100 + n["water_percent"] + n["salt_percent"] + n["yeast_percent"]


def _flour_for_dough(n: Numbers) -> Fraction:
    """Return the grams of flour in the dough, from all its percentages, the flour's own 100 among them."""
    parts = {
        "flour": Fraction(100),
        **{part: n[f"{part}_percent"] for part in ("water", "salt", "yeast")},
    }
    return flour_for_dough(_grams(n["dough_grams"]), parts).amount


def _ask_flour(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        weight=figures(n["dough_grams"] / 1000),
        food=w["food"],
        water=figures(n["water_percent"]),
        salt=figures(n["salt_percent"]),
        yeast=figures(n["yeast_percent"]),
    )


def _solve_flour(n: Numbers) -> tuple[Sentence, ...]:
    total = _sum_of_percents(n)
    parts = " + ".join(figures(n[f"{part}_percent"]) for part in ("water", "salt", "yeast"))
    return (
        sentence("flour_is_always_all", parts=parts, result=figures(total)),
        sentence(
            "the_dough_in_grams",
            weight=figures(n["dough_grams"] / 1000),
            result=n["dough_grams"],
        ),
        sentence(
            "one_percent_weighs",
            dough=n["dough_grams"],
            total=figures(total),
            result=roughly(n["dough_grams"] / total),
        ),
        sentence(
            "flour",
            dough=n["dough_grams"],
            total=figures(total),
            result=roughly(100 * n["dough_grams"] / total),
        ),
    )


FLOUR_FROM_DOUGH = NumericFamily(
    name="flour_from_dough",
    level="two steps",
    unit="g",
    unit_rule="required",
    ranges={
        "dough_grams": span(1000, 12000, 100, "weight of dough wanted, in grams"),
        "water_percent": span(50, 80, 1, "water, as a baker's percentage"),
        "salt_percent": span("3/2", 3, "1/4", "salt, as a baker's percentage"),
        "yeast_percent": span("1/2", 2, "1/4", "yeast, as a baker's percentage"),
    },
    words=("food",),
    ask=_ask_flour,
    right=_flour_for_dough,
    solve=_solve_flour,
    wrong={
        "salt_and_yeast_forgotten": lambda n: 100 * n["dough_grams"] / (100 + n["water_percent"]),
        "multiplied_by_the_sum": lambda n: n["dough_grams"] * _sum_of_percents(n) / 100,
        "water_taken_off_the_dough": lambda n: n["dough_grams"] * (100 - n["water_percent"]) / 100,
        "flour_left_out_of_the_sum": lambda n: 100 * n["dough_grams"] / (_sum_of_percents(n) - 100),
        "one_percent_only": lambda n: n["dough_grams"] / _sum_of_percents(n),
    },
    early=lambda n: (100 * to_nearest(n["dough_grams"] / _sum_of_percents(n), HUNDREDTH),),
    tolerance=GRAMS,
    formula="dough × 100 / sum of the percentages",
    checked_against="A baking note (100/70/2): 908 g of dough at 172 % takes 528 g of flour; 3000 g at 206 %, 1456 g.",
)
