"""Baker's percentages both ways: the weight of a part from its percentage, and the flour from the weight of a part."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import THREE_FIGURES, within
from trainer.kitchen.quiz.wording import any_of, figures, roughly
from trainer.recipe_math.dough import weight_from_percentages
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say
from trainer.recipe_math.units import UNITS


def _flour(n: Numbers) -> Fraction:
    return n["main_flour_grams"] + n["second_flour_grams"]


def _part(n: Numbers) -> Fraction:
    parts = weight_from_percentages(Quantity(_flour(n), UNITS["g"]), {"part": n["part_percent"]})
    return parts["part"].amount


def _ask_part(n: Numbers, w: Words) -> str:
    return say(
        "A dough has {main} g of {main_flour} and {second} g of {second_flour}. The {part} "
        "is {percent} %, as bakers count. How many grams of {part} is that?",
        main=n["main_flour_grams"],
        main_flour=w["main_flour"],
        second=n["second_flour_grams"],
        second_flour=w["second_flour"],
        part=w["part"],
        percent=figures(n["part_percent"]),
    )


PART_FROM_PERCENT = Sum(
    name="part_from_percent",
    title=say("The weight of a part from its baker's percentage"),
    level="two steps",
    unit="g",
    ranges={
        "main_flour_grams": span(600, 3000, 50, "weight of the main flour, in grams"),
        "second_flour_grams": span(100, 1400, 50, "weight of the second flour, in grams"),
        "part_percent": span("3/2", 12, "1/4", "the part as a baker's percentage"),
    },
    words={
        "main_flour": any_of("bread flour|soft wheat flour|durum flour"),
        "second_flour": any_of("rye flour|semolina|spelt flour"),
        "part": any_of("salt|yeast|butter|sugar|oil|honey"),
    },
    ask=_ask_part,
    told=lambda n: (n["main_flour_grams"], n["second_flour_grams"]),
    right=_part,
    solve=lambda n: (
        say(
            "All the flour is 100 %: {main} g + {second} g = {result} g.",
            main=n["main_flour_grams"],
            second=n["second_flour_grams"],
            result=_flour(n),
        ),
        say(
            "The part: {flour} g × {percent} / 100 = {result} g.",
            flour=_flour(n),
            percent=figures(n["part_percent"]),
            result=roughly(_part(n)),
        ),
    ),
    wrong=(
        WrongWay(
            "one_flour_only",
            lambda n: n["main_flour_grams"] * n["part_percent"] / 100,
            say("You took one flour. All flours together are the 100 %."),
            say("Leaves the second flour out of the 100 %."),
        ),
        WrongWay(
            "divided_by_percent",
            lambda n: _flour(n) / n["part_percent"],
            say("You divided the flour by the percentage. Multiply by it, then divide by 100."),
            say("Divides by the percentage."),
        ),
        WrongWay(
            "hundred_forgotten",
            lambda n: _flour(n) * n["part_percent"],
            say("You multiplied by the percentage and stopped. Divide by 100 as well."),
            say("Forgets that a percentage is out of a hundred."),
        ),
        WrongWay(
            "percent_as_tenths",
            lambda n: _flour(n) * n["part_percent"] / 10,
            say("You took the percentage as tenths. It is out of a hundred."),
            say("Takes a percentage as tenths."),
        ),
        WrongWay(
            "share_of_the_dough",
            lambda n: _flour(n) * n["part_percent"] / (100 - n["part_percent"]),
            say("You took the percentage as a share of the dough. Bakers count it on the flour alone."),
            say("Takes a baker's percentage as a share of the whole."),
        ),
        WrongWay(
            "flours_subtracted",
            lambda n: (
                (n["main_flour_grams"] - n["second_flour_grams"]) * n["part_percent"] / 100
                if n["main_flour_grams"] > n["second_flour_grams"]
                else None
            ),
            say("You took one flour from the other. Add them: together they are the 100 %."),
            say("Subtracts the flours instead of adding them."),
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
    title=say("The flour from the weight of a part and its percentage"),
    level="one step",
    unit="g",
    ranges={
        "water_grams": span(300, 6000, 10, "weight of the water, in grams"),
        "water_percent": span(50, 85, "1/2", "the water as a baker's percentage"),
    },
    words={"food": any_of("bread dough|pizza dough|roll dough|flatbread dough")},
    ask=lambda n, w: say(
        "You have {water} g of water for a {food}. It is to be {percent} %, as bakers count. How many "
        "grams of flour go with it?",
        water=n["water_grams"],
        food=w["food"],
        percent=figures(n["water_percent"]),
    ),
    right=_flour_needed,
    solve=lambda n: (
        say(
            "The flour is 100 %, so one percent weighs {water} / {percent} = {result} g.",
            water=n["water_grams"],
            percent=figures(n["water_percent"]),
            result=roughly(n["water_grams"] / n["water_percent"]),
        ),
        say(
            "Flour: {water} / {percent} × 100 = {result} g.",
            water=n["water_grams"],
            percent=figures(n["water_percent"]),
            result=roughly(_flour_needed(n)),
        ),
    ),
    wrong=(
        WrongWay(
            "multiplied_by_percent",
            lambda n: n["water_grams"] * n["water_percent"] / 100,
            say("You took the percentage of the water. The water is a percentage of the flour: divide by it."),
            say("Multiplies by the percentage instead of dividing."),
        ),
        WrongWay(
            "percent_taken_off",
            lambda n: n["water_grams"] * (100 - n["water_percent"]) / 100,
            say("You took the percentage off the water. There is more flour than water: divide by the percentage."),
            say("Takes the percentage off the part."),
        ),
        WrongWay(
            "percent_added_on",
            lambda n: n["water_grams"] * (100 + n["water_percent"]) / 100,
            say("You added the percentage to the water. Divide the water by it."),
            say("Adds the percentage to the part."),
        ),
        WrongWay(
            "divided_by_the_rest",
            lambda n: 100 * n["water_grams"] / (100 - n["water_percent"]),
            say(
                "You divided by what is left of a hundred. Flour and water do not make 100 %: divide by the "
                "water's own."
            ),
            say("Takes flour and water together as 100 %."),
        ),
        WrongWay(
            "one_percent_only",
            lambda n: n["water_grams"] / n["water_percent"],
            say("You found the weight of one percent. Flour is 100 of them."),
            say("Stops at the weight of one percent."),
        ),
        WrongWay(
            "dough_for_flour",
            lambda n: _flour_needed(n) + n["water_grams"],
            say("You gave flour and water together. The question asks for the flour."),
            say("Gives the dough instead of the flour."),
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="weight of the part × 100 / its percentage",
    checked_against="Baker's Percentages tutorial (100/2/1/59), turned around: 18.88 oz of water at 59 % go with 32 oz "
    "of flour.",
)
