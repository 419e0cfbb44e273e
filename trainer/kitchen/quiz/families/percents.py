"""Baker's percentages both ways: the weight of a part from its percentage, and the flour from the weight of a part."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import THREE_FIGURES, within
from trainer.kitchen.quiz.wording import comes_to, figures
from trainer.recipe_math.dough import weight_from_percentages
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS


def _flour(n: Numbers) -> Fraction:
    return n["main_flour_grams"] + n["second_flour_grams"]


def _part(n: Numbers) -> Fraction:
    parts = weight_from_percentages(Quantity(_flour(n), UNITS["g"]), {"part": n["part_percent"]})
    return parts["part"].amount


def _ask_part(n: Numbers, w: Words) -> str:
    return (
        f"A dough has {n['main_flour_grams']} g of {w['main_flour']} and {n['second_flour_grams']} g of "
        f"{w['second_flour']}. The {w['part']} is {figures(n['part_percent'])} %, as bakers count. "
        f"How many grams of {w['part']} is that?"
    )


PART_FROM_PERCENT = Sum(
    name="part_from_percent",
    title="The weight of a part from its baker's percentage",
    level="two steps",
    unit="g",
    ranges={
        "main_flour_grams": span(600, 3000, 50, "weight of the main flour, in grams"),
        "second_flour_grams": span(100, 1400, 50, "weight of the second flour, in grams"),
        "part_percent": span("3/2", 12, "1/4", "the part as a baker's percentage"),
    },
    words={
        "main_flour": "bread flour|soft wheat flour|durum flour",
        "second_flour": "rye flour|semolina|spelt flour",
        "part": "salt|yeast|butter|sugar|oil|honey",
    },
    ask=_ask_part,
    right=_part,
    solve=lambda n: (
        f"All the flour is 100 %: {n['main_flour_grams']} g + {n['second_flour_grams']} g = {_flour(n)} g.",
        f"The part: {_flour(n)} g × {figures(n['part_percent'])} / 100 {comes_to(_part(n))} g.",
    ),
    wrong=(
        WrongWay(
            "one_flour_only",
            lambda n: n["main_flour_grams"] * n["part_percent"] / 100,
            "You took one flour. All flours together are the 100 %.",
            "Leaves the second flour out of the 100 %.",
        ),
        WrongWay(
            "divided_by_percent",
            lambda n: _flour(n) / n["part_percent"],
            "You divided the flour by the percentage. Multiply by it, then divide by 100.",
            "Divides by the percentage.",
        ),
        WrongWay(
            "hundred_forgotten",
            lambda n: _flour(n) * n["part_percent"],
            "You multiplied by the percentage and stopped. Divide by 100 as well.",
            "Forgets that a percentage is out of a hundred.",
        ),
        WrongWay(
            "percent_as_tenths",
            lambda n: _flour(n) * n["part_percent"] / 10,
            "You took the percentage as tenths. It is out of a hundred.",
            "Takes a percentage as tenths.",
        ),
        WrongWay(
            "share_of_the_dough",
            lambda n: _flour(n) * n["part_percent"] / (100 - n["part_percent"]),
            "You took the percentage as a share of the dough. Bakers count it on the flour alone.",
            "Takes a baker's percentage as a share of the whole.",
        ),
        WrongWay(
            "flours_subtracted",
            lambda n: (
                (n["main_flour_grams"] - n["second_flour_grams"]) * n["part_percent"] / 100
                if n["main_flour_grams"] > n["second_flour_grams"]
                else None
            ),
            "You took one flour from the other. Add them: together they are the 100 %.",
            "Subtracts the flours instead of adding them.",
        ),
    ),
    tolerance=within("1/2", "Half a gram: bench balances show whole grams."),
    formula="all the flour × percentage / 100",
    checked_against="Slide set 'Baker's Math: working a dough formula in percent': 40 lb of flour at 1.75 % is 0.7 lb.",
)


def _flour_needed(n: Numbers) -> Fraction:
    return 100 * n["water_grams"] / n["water_percent"]


FLOUR_FROM_PART = Sum(
    name="flour_from_part",
    title="The flour from the weight of a part and its percentage",
    level="one step",
    unit="g",
    ranges={
        "water_grams": span(300, 6000, 10, "weight of the water, in grams"),
        "water_percent": span(50, 85, "1/2", "the water as a baker's percentage"),
    },
    words={"food": "bread dough|pizza dough|roll dough|flatbread dough"},
    ask=lambda n, w: (
        f"You have {n['water_grams']} g of water for a {w['food']}. It is to be {figures(n['water_percent'])} %, as "
        "bakers count. How many grams of flour go with it?"
    ),
    right=_flour_needed,
    solve=lambda n: (
        f"The flour is 100 %, so one percent weighs {n['water_grams']} / {figures(n['water_percent'])} "
        f"{comes_to(n['water_grams'] / n['water_percent'])} g.",
        f"Flour: {n['water_grams']} / {figures(n['water_percent'])} × 100 {comes_to(_flour_needed(n))} g.",
    ),
    wrong=(
        WrongWay(
            "multiplied_by_percent",
            lambda n: n["water_grams"] * n["water_percent"] / 100,
            "You took the percentage of the water. The water is a percentage of the flour: divide by it.",
            "Multiplies by the percentage instead of dividing.",
        ),
        WrongWay(
            "percent_taken_off",
            lambda n: n["water_grams"] * (100 - n["water_percent"]) / 100,
            "You took the percentage off the water. There is more flour than water: divide by the percentage.",
            "Takes the percentage off the part.",
        ),
        WrongWay(
            "percent_added_on",
            lambda n: n["water_grams"] * (100 + n["water_percent"]) / 100,
            "You added the percentage to the water. Divide the water by it.",
            "Adds the percentage to the part.",
        ),
        WrongWay(
            "divided_by_the_rest",
            lambda n: 100 * n["water_grams"] / (100 - n["water_percent"]),
            "You divided by what is left of a hundred. Flour and water do not make 100 %: divide by the water's own.",
            "Takes flour and water together as 100 %.",
        ),
        WrongWay(
            "one_percent_only",
            lambda n: n["water_grams"] / n["water_percent"],
            "You found the weight of one percent. Flour is 100 of them.",
            "Stops at the weight of one percent.",
        ),
        WrongWay(
            "dough_for_flour",
            lambda n: _flour_needed(n) + n["water_grams"],
            "You gave flour and water together. The question asks for the flour.",
            "Gives the dough instead of the flour.",
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="weight of the part × 100 / its percentage",
    checked_against="Baker's Percentages tutorial (100/2/1/59), turned around: 18.88 oz of water at 59 % go with 32 oz "
    "of flour.",
)
