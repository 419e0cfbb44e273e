"""Dough: a part as a baker's percentage, how wet egg makes a dough, and the flour for a weight of dough."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, only, span
from trainer.kitchen.quiz.tolerances import THREE_FIGURES, within
from trainer.kitchen.quiz.wording import any_of, figures, roughly
from trainer.recipe_math.dough import Liquid, bakers_percentages, flour_for_dough, hydration
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say
from trainer.recipe_math.units import UNITS

HALF_PERCENT = within("1/4", "A quarter of a percent: bakers write percentages to the half.")
TENTH_PERCENT = within(
    "1/20", "Half of a tenth of a percent: the weights are whole grams, so a tenth can be worked out."
)


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


def _ask_percent(n: Numbers, w: Words) -> str:
    return say(
        "A dough has {main} g of {main_flour}, {second} g of {second_flour}, {water} g of "
        "water and {salt} g of salt. What is the water as a baker's percentage?",
        main=n["main_flour_grams"],
        main_flour=w["main_flour"],
        second=n["second_flour_grams"],
        second_flour=w["second_flour"],
        water=figures(_water(n)),
        salt=n["salt_grams"],
    )


def _solve_percent(n: Numbers) -> tuple[str, ...]:
    return (
        say(
            "All the flour: {main} g + {second} g = {result} g.",
            main=n["main_flour_grams"],
            second=n["second_flour_grams"],
            result=_flour(n),
        ),
        say("A baker's percentage is a weight over all the flour."),
        say(
            "{water} / {flour} × 100 = {result} %.",
            water=figures(_water(n)),
            flour=_flour(n),
            result=roughly(100 * _water(n) / _flour(n)),
        ),
    )


BAKERS_PERCENT = Sum(
    name="bakers_percent",
    title=say("A part of a dough as a baker's percentage"),
    level="two steps",
    unit="%",
    ranges={
        "main_flour_grams": span(600, 3000, 100, "weight of the main flour, in grams"),
        "second_flour_grams": span(100, 1400, 100, "weight of the second flour, in grams"),
        "water_percent": span(50, 90, "1/2", "the water as a baker's percentage; the question gives its weight"),
        "salt_grams": span(15, 60, 5, "weight of the salt, in grams"),
    },
    words={
        "main_flour": any_of("bread flour|soft wheat flour|durum flour"),
        "second_flour": any_of("rye flour|semolina|spelt flour"),
    },
    ask=_ask_percent,
    right=_water_percent,
    solve=_solve_percent,
    wrong=(
        WrongWay(
            "percent_of_the_dough",
            lambda n: 100 * _water(n) / _total(n),
            say("You divided by the whole dough. A baker's percentage is over the flour alone."),
            say("Takes the percentage of the whole dough."),
        ),
        WrongWay(
            "flour_over_water",
            lambda n: 100 * _flour(n) / _water(n),
            say("You divided the flour by the water. It is the other way around: water over flour."),
            say("Turns the fraction upside down."),
        ),
        WrongWay(
            "one_flour_only",
            lambda n: 100 * _water(n) / n["main_flour_grams"],
            say("You divided by one flour. All flours together are the 100 %."),
            say("Leaves the second flour out of the 100 %."),
        ),
        WrongWay(
            "percent_of_the_rest",
            lambda n: 100 * _water(n) / (_total(n) - _water(n)),
            say("You divided by all the other parts. Divide by the flour alone, without the salt."),
            say("Divides by everything but the water."),
        ),
        WrongWay(
            "flour_share_of_dough",
            lambda n: 100 * _flour(n) / _total(n),
            say("You gave the flour as a share of the dough. The question asks for the water over the flour."),
            say("Gives the flour's share of the whole dough."),
        ),
    ),
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


def _ask_hydration(n: Numbers, w: Words) -> str:
    return say(
        "A {food} has {flour} g of flour, {weight} g of {egg} and {water} g of water. The {egg} is "
        "{percent} % water. How much water is there in all, as a percentage of the flour?",
        food=w["food"],
        flour=n["flour_grams"],
        weight=n["egg_grams"],
        egg=w["egg"],
        water=n["water_grams"],
        percent=figures(n["egg_water_percent"]),
    )


def _solve_hydration(n: Numbers) -> tuple[str, ...]:
    egg, water = _egg_water(n), n["water_grams"] + _egg_water(n)
    return (
        say(
            "Water in the egg: {egg} g × {percent} / 100 = {result} g.",
            egg=n["egg_grams"],
            percent=figures(n["egg_water_percent"]),
            result=figures(egg),
        ),
        say(
            "All the water: {water} g + {egg} g = {result} g.",
            water=figures(n["water_grams"]),
            egg=figures(egg),
            result=figures(water),
        ),
        say(
            "Over the flour: {water} / {flour} × 100 = {result} %.",
            water=figures(water),
            flour=n["flour_grams"],
            result=roughly(100 * water / n["flour_grams"]),
        ),
    )


def _is_kneaded(n: Numbers) -> bool:
    """Return whether the flour takes up this much water: neither crumbs nor batter, from 25 to 60 percent."""
    water = 100 * (n["water_grams"] + _egg_water(n))
    return 25 * n["flour_grams"] <= water <= 60 * n["flour_grams"]


HYDRATION_WITH_EGGS = Sum(
    name="hydration_with_eggs",
    title=say("Hydration when egg brings water too"),
    level="two steps",
    unit="%",
    ranges={
        "flour_grams": span(500, 3000, 100, "weight of the flour, in grams"),
        "egg_grams": span(150, 1500, 10, "weight of the egg, in grams"),
        "water_grams": span(20, 400, 10, "weight of the water added, in grams"),
        "egg_water_percent": only(76, "share of water in the egg, in percent"),
    },
    words={"food": any_of("pasta dough|noodle dough|brioche dough"), "egg": any_of("egg")},
    ask=_ask_hydration,
    right=_hydration,
    solve=_solve_hydration,
    wrong=(
        WrongWay(
            "egg_water_ignored",
            lambda n: 100 * n["water_grams"] / n["flour_grams"],
            say("You left out the water in the egg. Most of an egg is water: add it."),
            say("Counts the added water alone."),
        ),
        WrongWay(
            "egg_taken_as_water",
            lambda n: 100 * (n["water_grams"] + n["egg_grams"]) / n["flour_grams"],
            say("You took the whole egg as water. Only its share of water counts."),
            say("Counts the whole egg as water."),
        ),
        WrongWay(
            "percent_of_the_dough",
            lambda n: 100 * (n["water_grams"] + _egg_water(n)) / (n["flour_grams"] + n["water_grams"] + n["egg_grams"]),
            say("You divided by the whole dough. Hydration is over the flour alone."),
            say("Takes the percentage of the whole dough."),
        ),
        WrongWay(
            "dry_part_of_egg_used",
            lambda n: 100 * (n["water_grams"] + n["egg_grams"] - _egg_water(n)) / n["flour_grams"],
            say("You used the dry part of the egg. Use the part that is water."),
            say("Uses the dry share of the egg instead of its water."),
        ),
        WrongWay(
            "egg_water_only",
            lambda n: 100 * _egg_water(n) / n["flour_grams"],
            say("You left out the water you pour in. Add it to the water in the egg."),
            say("Counts the water in the egg alone."),
        ),
    ),
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


def _ask_flour(n: Numbers, w: Words) -> str:
    return say(
        "You need {weight} kg of {food}. In baker's percentages the water is {water} %, the salt {salt} "
        "% and the yeast {yeast} %. How many grams of flour do you weigh out?",
        weight=figures(n["dough_grams"] / 1000),
        food=w["food"],
        water=figures(n["water_percent"]),
        salt=figures(n["salt_percent"]),
        yeast=figures(n["yeast_percent"]),
    )


def _solve_flour(n: Numbers) -> tuple[str, ...]:
    total = _sum_of_percents(n)
    parts = " + ".join(figures(n[f"{part}_percent"]) for part in ("water", "salt", "yeast"))
    return (
        say("Flour is always 100 %. All parts: 100 + {parts} = {result} %.", parts=parts, result=figures(total)),
        say(
            "The dough in grams: {weight} kg × 1000 = {result} g.",
            weight=figures(n["dough_grams"] / 1000),
            result=n["dough_grams"],
        ),
        say(
            "One percent weighs {dough} / {total} = {result} g.",
            dough=n["dough_grams"],
            total=figures(total),
            result=roughly(n["dough_grams"] / total),
        ),
        say(
            "Flour: {dough} × 100 / {total} = {result} g.",
            dough=n["dough_grams"],
            total=figures(total),
            result=roughly(100 * n["dough_grams"] / total),
        ),
    )


FLOUR_FROM_DOUGH = Sum(
    name="flour_from_dough",
    title=say("The flour for a weight of dough"),
    level="two steps",
    unit="g",
    unit_rule="required",
    ranges={
        "dough_grams": span(1000, 12000, 100, "weight of dough wanted, in grams"),
        "water_percent": span(50, 80, 1, "water, as a baker's percentage"),
        "salt_percent": span("3/2", 3, "1/4", "salt, as a baker's percentage"),
        "yeast_percent": span("1/2", 2, "1/4", "yeast, as a baker's percentage"),
    },
    words={"food": any_of("bread dough|pizza dough|roll dough|flatbread dough")},
    ask=_ask_flour,
    right=_flour_for_dough,
    solve=_solve_flour,
    wrong=(
        WrongWay(
            "salt_and_yeast_forgotten",
            lambda n: 100 * n["dough_grams"] / (100 + n["water_percent"]),
            say("You left out the salt and the yeast. Add up all the percentages before you divide."),
            say("Divides by flour and water alone."),
        ),
        WrongWay(
            "multiplied_by_the_sum",
            lambda n: n["dough_grams"] * _sum_of_percents(n) / 100,
            say("You multiplied by the sum of percentages. Divide by it: flour weighs less than the dough."),
            say("Multiplies by the sum instead of dividing."),
        ),
        WrongWay(
            "water_taken_off_the_dough",
            lambda n: n["dough_grams"] * (100 - n["water_percent"]) / 100,
            say("You took the water's percentage off the dough. It is a percentage of the flour, not of the dough."),
            say("Takes baker's percentages as shares of the dough."),
        ),
        WrongWay(
            "flour_left_out_of_the_sum",
            lambda n: 100 * n["dough_grams"] / (_sum_of_percents(n) - 100),
            say("You left the flour's own 100 % out of the sum. Add it in."),
            say("Adds the percentages without the flour's 100."),
        ),
        WrongWay(
            "one_percent_only",
            lambda n: n["dough_grams"] / _sum_of_percents(n),
            say("You found the weight of one percent. Flour is 100 of them: multiply by 100."),
            say("Stops at the weight of one percent."),
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="dough × 100 / sum of the percentages",
    checked_against="A baking note (100/70/2): 908 g of dough at 172 % takes 528 g of flour; 3000 g at 206 %, 1456 g.",
)
