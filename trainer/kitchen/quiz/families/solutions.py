"""Things dissolved: salt for a brine, and sanitizer for a bucket."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import THREE_FIGURES, relative
from trainer.kitchen.quiz.wording import any_of, figures, roughly
from trainer.recipe_math.brine import Concentrate, concentrate_for, salt_for_water
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say
from trainer.recipe_math.units import UNITS

PPM_IN_A_PERCENT = 10_000


def _water(n: Numbers) -> Fraction:
    """Return the grams of water: a litre weighs a kilogram."""
    return 1000 * n["water_litres"]


def _share(n: Numbers) -> Fraction:
    return n["salt_percent"] / 100


def _salt(n: Numbers) -> Fraction:
    return salt_for_water(Quantity(_water(n), UNITS["g"]), n["salt_percent"]).amount


def _ask_brine(n: Numbers, w: Words) -> str:
    return say(
        "You make a brine for {food} with {water} L of water. Salt is to be {percent} % of the whole "
        "brine, water and salt together. 1 L of water weighs 1000 g. How many grams of salt go in?",
        food=w["food"],
        water=figures(n["water_litres"]),
        percent=figures(n["salt_percent"]),
    )


def _solve_brine(n: Numbers) -> tuple[str, ...]:
    percent, rest = figures(n["salt_percent"]), figures(100 - n["salt_percent"])
    return (
        say("The water: {water} × 1000 = {result} g.", water=figures(n["water_litres"]), result=figures(_water(n))),
        say("Salt is {percent} % of the brine, so the water is the other {rest} %.", percent=percent, rest=rest),
        say(
            "Salt: {water} × {percent} / {rest} = {result} g.",
            water=figures(_water(n)),
            percent=percent,
            rest=rest,
            result=roughly(_salt(n)),
        ),
    )


SALT_BRINE = Sum(
    name="salt_brine",
    title=say("Salt for a brine, as a share of the whole"),
    level="two steps",
    unit="g",
    ranges={
        "water_litres": span(2, 20, "1/4", "water, in litres"),
        "salt_percent": span(3, 12, "1/4", "salt, in percent of the whole brine"),
    },
    words={"food": any_of("chicken|pork|turkey|cucumbers|cabbage|olives|trout|duck|brisket|lemons")},
    ask=_ask_brine,
    told=lambda n: (Fraction(1000),),
    right=_salt,
    solve=_solve_brine,
    wrong=(
        WrongWay(
            "percent_of_the_water",
            lambda n: _water(n) * _share(n),
            say("You took the percentage of the water. Here it is of the whole brine: divide by the water's share."),
            say("Takes the percentage on the water alone."),
        ),
        WrongWay(
            "divided_by_percent",
            lambda n: _water(n) / _share(n),
            say("You divided the water by the percentage. Multiply by it, then divide by the water's share."),
            say("Divides by the share instead of multiplying."),
        ),
        WrongWay(
            "hundred_taken_twice",
            lambda n: _water(n) * _share(n) / 100,
            say("You divided by a hundred twice. Once is enough."),
            say("Divides by a hundred twice."),
        ),
        WrongWay(
            "water_share_given",
            lambda n: _water(n) * (1 - _share(n)),
            say("You gave the water's share of the weight. The question asks for the salt."),
            say("Gives the share that is water."),
        ),
        WrongWay(
            "share_added_to_one",
            lambda n: _water(n) * _share(n) / (1 + _share(n)),
            say("You divided by one plus the share. Divide by one less the share: the water's own part."),
            say("Divides by one plus the share."),
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="water × p / (100 - p)",
    checked_against="Mass fraction: 10 g of salt on 1000 g of water is 0.990 % of the solution (OpenStax Chemistry 2e, "
    "section 3.4, defines mass percent so).",
)


def _millilitres(n: Numbers) -> Fraction:
    bucket, bottle = Quantity(n["bucket_litres"], UNITS["L"]), Concentrate(n["bottle_percent"])
    return concentrate_for(bucket, n["label_ppm"], bottle).to("mL").amount


def _ask_sanitizer(n: Numbers, w: Words) -> str:
    return say(
        "A {bucket} holds {litres} L. The label asks for {ppm} parts per million (ppm). The "
        "bottle is {percent} % strong. How many millilitres go in?",
        bucket=w["bucket"],
        litres=figures(n["bucket_litres"]),
        ppm=n["label_ppm"],
        percent=figures(n["bottle_percent"]),
    )


def _solve_sanitizer(n: Numbers) -> tuple[str, ...]:
    strong = PPM_IN_A_PERCENT * n["bottle_percent"]
    water = 1000 * n["bucket_litres"]
    return (
        say(
            "The bottle in ppm: {percent} × {ppm} = {result} ppm.",
            percent=figures(n["bottle_percent"]),
            ppm=PPM_IN_A_PERCENT,
            result=figures(strong),
        ),
        say("The bucket: {litres} × 1000 = {result} mL.", litres=figures(n["bucket_litres"]), result=figures(water)),
        say(
            "Weak over strong: {water} × {ppm} / {strong} = {result} mL.",
            water=figures(water),
            ppm=n["label_ppm"],
            strong=figures(strong),
            result=roughly(_millilitres(n)),
        ),
    )


SANITIZER_DILUTION = Sum(
    name="sanitizer_dilution",
    title=say("Sanitizer for a bucket, in parts per million"),
    level="in a shift",
    unit="mL",
    ranges={
        "bucket_litres": span(4, 20, "1/2", "what the bucket holds, in litres"),
        "label_ppm": span(50, 200, 10, "strength the label asks for, in parts per million"),
        "bottle_percent": span(5, "31/4", "1/4", "strength of the bottle, in percent"),
    },
    words={"bucket": any_of("bucket|sink|pail|tub")},
    ask=_ask_sanitizer,
    right=_millilitres,
    solve=_solve_sanitizer,
    wrong=(
        WrongWay(
            "percent_as_thousand_ppm",
            lambda n: 10 * _millilitres(n),
            say("You took 1 % as 1000 ppm. It is 10 000: one in a hundred is 10 000 in a million."),
            say("Is one place off between percent and parts per million."),
        ),
        WrongWay(
            "percent_as_hundred_thousand_ppm",
            lambda n: _millilitres(n) / 10,
            say("You took 1 % as 100 000 ppm. It is 10 000: one in a hundred is 10 000 in a million."),
            say("Is one place off the other way between percent and parts per million."),
        ),
        WrongWay(
            "bottle_taken_as_pure",
            lambda n: n["bucket_litres"] * n["label_ppm"] / 1000,
            say("You took the bottle as pure. It is mostly water: divide by its strength."),
            say("Leaves out the strength of the bottle."),
        ),
        WrongWay(
            "upside_down",
            lambda n: 1000 * n["bucket_litres"] * PPM_IN_A_PERCENT * n["bottle_percent"] / n["label_ppm"],
            say("You divided strong by weak. It is weak over strong: little of the strong one goes in."),
            say("Turns the ratio of the strengths upside down."),
        ),
        WrongWay(
            "percent_not_turned_into_ppm",
            lambda n: 1000 * n["bucket_litres"] * n["label_ppm"] / n["bottle_percent"],
            say("You divided ppm by percent as if they were one. Turn the percent into ppm first."),
            say("Mixes percent and parts per million."),
        ),
    ),
    tolerance=relative("1", "One percent: a measuring cup is read no finer, and the test strip decides."),
    formula="water × ppm wanted / (10 000 × percent of the bottle)",
    checked_against="OpenStax Chemistry 2e, section 3.3, C1 V1 = C2 V2 (from memory): 5.00 L at 0.100 of 1.59 take "
    "0.314 L.",
    caution=say(
        "Sanitizer burns skin and eyes, and with acid or ammonia it gives off poison gas. The label "
        "decides: never mix, wear what it says, test with a strip."
    ),
)
