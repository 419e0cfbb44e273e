"""A decimal of gallons measured out: full gallons, full quarts, full cups, and the rest in tablespoons."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import asked_as
from trainer.kitchen.quiz.wording import any_of, figures, roughly
from trainer.recipe_math.saying import say


def _left_of_gallon(n: Numbers) -> Fraction:
    return n["gallons"] % 1


def _quarts(n: Numbers) -> Fraction:
    return 4 * _left_of_gallon(n)


def _cups(n: Numbers) -> Fraction:
    return 4 * (_quarts(n) % 1)


def _tablespoons(n: Numbers) -> Fraction:
    return 16 * (_cups(n) % 1)


def _other(n: Numbers, value: Fraction) -> Fraction | None:
    """Return a value; None where leaving out a rung makes no difference, as no full measure of it was there."""
    return None if value == _tablespoons(n) else value


def _ask_cascade(n: Numbers, w: Words) -> str:
    return say(
        "A recipe comes to {gallons} gallons of {food}. You measure full gallons first, then full "
        "quarts, then full cups. How many tablespoons are left to measure?",
        gallons=figures(n["gallons"]),
        food=w["food"],
    )


def _solve_cascade(n: Numbers) -> tuple[str, ...]:
    quarts, cups = _quarts(n), _cups(n)
    return (
        say(
            "After the full gallons: {rest} gal × 4 = {result} qt.",
            rest=figures(_left_of_gallon(n)),
            result=roughly(quarts),
        ),
        say("After the full quarts: {rest} qt × 4 = {result} cups.", rest=figures(quarts % 1), result=roughly(cups)),
        say(
            "After the full cups: {rest} cup × 16 = {result} Tbsp.",
            rest=figures(cups % 1),
            result=roughly(_tablespoons(n)),
        ),
    )


CASCADE_TO_MEASURES = Sum(
    name="cascade_to_measures",
    title=say("A decimal of gallons in full measures"),
    level="two steps",
    unit="Tbsp",
    unit_rule="required",
    ranges={"gallons": span("201/100", 30, "1/100", "the amount, in gallons to two places")},
    words={
        "food": any_of(
            "stock|broth|brine|cider|tomato juice|milk|soup base|lemonade|marinade|batter|syrup|vinegar|water"
        )
    },
    ask=_ask_cascade,
    right=_tablespoons,
    solve=_solve_cascade,
    wrong=(
        WrongWay(
            "ten_tablespoons_to_a_cup",
            lambda n: 10 * (_cups(n) % 1),
            say("You read the decimal of a cup as tablespoons. A cup holds 16, not 10."),
            say("Reads a decimal as tenths of the next measure."),
        ),
        WrongWay(
            "left_in_cups",
            lambda n: _cups(n) % 1,
            say("You gave the rest as a part of a cup. Multiply by 16 for tablespoons."),
            say("Leaves the rest in cups."),
        ),
        WrongWay(
            "teaspoons_for_tablespoons",
            lambda n: 48 * (_cups(n) % 1),
            say("You gave teaspoons. Three of them are a tablespoon."),
            say("Takes 48 to the cup: teaspoons."),
        ),
        WrongWay(
            "cups_left_out",
            lambda n: _other(n, 64 * (_quarts(n) % 1)),
            say("You left out the full cups. Take them off before you count tablespoons."),
            say("Goes from quarts to tablespoons without taking off full cups."),
        ),
        WrongWay(
            "quarts_left_out",
            lambda n: _other(n, 256 * _left_of_gallon(n)),
            say("You left out the full quarts and cups. Take them off before you count tablespoons."),
            say("Goes from gallons to tablespoons at once."),
        ),
        WrongWay(
            "gallon_taken_for_a_cup",
            lambda n: 16 * _left_of_gallon(n),
            say("You took the decimal of a gallon as that of a cup. Go down rung by rung: quarts, cups, tablespoons."),
            say("Uses the factor of the last rung on the first."),
        ),
    ),
    tolerance=asked_as(
        "1/24",
        say("Round to a quarter teaspoon or finer."),
        "Half of a quarter teaspoon, the finest step of the card's table.",
    ),
    formula="the decimal × 4 (quarts), its decimal × 4 (cups), its decimal × 16 (tablespoons)",
    checked_against="US Navy training manual NAVEDTRA 14163, volume adjustment: 19.98 gal is 19 gal 3 qt 1 pt 1 c "
    "10 Tbsp 2 3/4 tsp.",
    fits=lambda n: _tablespoons(n) >= 1,
)
