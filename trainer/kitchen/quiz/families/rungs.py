"""A decimal of gallons measured out: full gallons, full quarts, full cups, and the rest in tablespoons."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import QUARTER_TEASPOON
from trainer.kitchen.quiz.wording import figures, roughly


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


def _ask_cascade(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        gallons=figures(n["gallons"]),
        food=w["food"],
    )


def _solve_cascade(n: Numbers) -> tuple[Sentence, ...]:
    quarts, cups = _quarts(n), _cups(n)
    return (
        sentence(
            "after_the_full_gallons",
            rest=figures(_left_of_gallon(n)),
            result=roughly(quarts),
        ),
        sentence("after_the_full_quarts", rest=figures(quarts % 1), result=roughly(cups)),
        sentence(
            "after_the_full_cups",
            rest=figures(cups % 1),
            result=roughly(_tablespoons(n)),
        ),
    )


CASCADE_TO_MEASURES = NumericFamily(
    name="cascade_to_measures",
    level="two steps",
    unit="Tbsp",
    unit_rule="required",
    ranges={"gallons": span("201/100", 30, "1/100", "the amount, in gallons to two places")},
    words=("food",),
    ask=_ask_cascade,
    right=_tablespoons,
    solve=_solve_cascade,
    wrong={
        "ten_tablespoons_to_a_cup": lambda n: 10 * (_cups(n) % 1),
        "left_in_cups": lambda n: _cups(n) % 1,
        "teaspoons_for_tablespoons": lambda n: 48 * (_cups(n) % 1),
        "cups_left_out": lambda n: _other(n, 64 * (_quarts(n) % 1)),
        "quarts_left_out": lambda n: _other(n, 256 * _left_of_gallon(n)),
        "gallon_taken_for_a_cup": lambda n: 16 * _left_of_gallon(n),
    },
    tolerance=QUARTER_TEASPOON,
    formula="the decimal × 4 (quarts), its decimal × 4 (cups), its decimal × 16 (tablespoons)",
    checked_against="US Navy training manual NAVEDTRA 14163, volume adjustment: 19.98 gal is 19 gal 3 qt 1 pt 1 c "
    "10 Tbsp 2 3/4 tsp.",
    fits=lambda n: _tablespoons(n) >= 1,
)
