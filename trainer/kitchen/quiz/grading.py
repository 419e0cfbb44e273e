"""Grading an answer: what it proves, looked for in one order, in exact arithmetic.

1. *asked again*: no number, two readings, another kind, not in the required unit, a share where percent is asked.
2. *right*: within half a step of the key, both ends included, or rounded to the same step (`equal` and `equal-rounded`
   of QTI 3.0); counted things exactly.
3. *rounded early*: a step of the solution was rounded as shown and carried on.
4. *method*: one wrong method of the family gives it. 5. *slip*: one slip of any sum gives it (`slip_layer`).
6. *copied*: a number of the question. 7. *unknown*: anything else, and where two names fit.

What is chosen is graded in `choice_grading`.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from trainer.kitchen.currency import without_sign
from trainer.kitchen.quiz.choice_grading import RIGHT, grade_choice
from trainer.kitchen.quiz.cup_weights import cup_sentence
from trainer.kitchen.quiz.question import Grade, Question, WrongMethod
from trainer.kitchen.quiz.showing_words import SLIPS, first_showing
from trainer.kitchen.quiz.slip_layer import slip_shown
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.reading import read_quantity
from trainer.messages import Text, joined, message
from trainer.recipe_math.parsing import LONGEST
from trainer.recipe_math.quantity import COUNT, TEMPERATURE, TEMPERATURE_DIFFERENCE, Quantity, QuantityProblem, Unit
from trainer.recipe_math.units import UNITS

NO_KNOWN_METHOD = message("That is not it, and no known wrong method gives it. Go through the sum below, step by step.")
TOO_EARLY = message("That is rounded too early. Carry on with all the figures and round at the end.")
ROUNDS_TOO_EARLY, COPIED = "rounds_too_early", "copied"
NOTHING_WRITTEN = message("There is no answer yet. Write a number, such as 12 or 2 1/2.")

KINDS = {
    "mass": message("a weight"),
    "volume": message("a volume"),
    COUNT: message("a count"),
    "share": message("a percentage"),
    TEMPERATURE: message("a temperature"),
    TEMPERATURE_DIFFERENCE: message("a difference of temperatures"),
    "duration": message("a time"),
    "length": message("a length"),
    "money": message("an amount of money"),
}
_SIGNS = frozenset("%‰°$€£¢#\"'′″")
_SMALL_DEGREE = re.compile(r"(?<=[0-9 °])[cf](?=\s*$)")


def grade(question: Question, text: str, decimal_mark: str | None = None) -> Grade:
    """Return the grade of an answer as typed. A bare number is in the question's unit; a choice is its key or text.

    A comma and a point are both a decimal mark; *decimal_mark*, the kitchen's own, settles what has two readings.
    `problem` is set where the text is no usable answer and is asked again.
    """
    if question.choices:
        return grade_choice(question, text)
    given = _read(question, text, decimal_mark)
    if not isinstance(given, _Given):
        return _asked_again(given)
    return _graded(question, given, with_unit(given.value, question.answer.unit, decimal_mark or ".", 3))


def _read(question: Question, text: str, decimal_mark: str | None) -> _Given | Text:
    """Return an answer as read, or why it is asked again."""
    if not text.strip():
        return NOTHING_WRITTEN
    asked = UNITS[question.answer.unit]
    try:
        read = read_quantity(_tidied(text, asked), asked.symbol, decimal_mark)
    except QuantityProblem as problem:
        return problem.reason
    value = _in_unit_asked(read, asked)
    if value is None:
        return _other_kind(question, read.unit, asked)
    if question.answer.unit_required and not _is_unit_asked(read.unit, asked):
        return _other_unit(question.answer.unit)
    is_bare = _is_bare(text)
    if is_bare and asked.symbol == "%" and abs(value) <= 1:
        return _share_or_percent(value, decimal_mark or ".")
    return _Given(read, value, not is_bare)


class _Given(NamedTuple):
    """An answer as it was read, its amount in the unit asked for, and whether a unit was typed with it."""

    read: Quantity
    value: Fraction
    has_unit: bool


def _asked_again(problem: Text) -> Grade:
    """Return the grade of what was no usable answer: neither right nor wrong."""
    return Grade("asked_again", says="", understood="", problem=problem)


def _is_bare(text: str) -> bool:
    """Return whether a number stands alone, with no unit."""
    return not any(each.isalpha() or each in _SIGNS for each in text)


def _share_or_percent(value: Fraction, decimal_mark: str) -> Text:
    """Return the question asked back where a share may have been written for a percentage."""
    return message("Is that {given}? Write the percent.", given=with_unit(value, "%", decimal_mark, 4))


def _tidied(text: str, asked: Unit) -> str:
    """Return the text with a small c or f for degrees made a capital where a temperature is asked for.

    Of an amount of money its sign is taken off: whichever it is, the kitchen counts in one currency.
    """
    if len(text) > LONGEST:
        return text
    if asked.dimension.startswith("money"):
        return without_sign(text)
    if not asked.dimension.startswith(TEMPERATURE):
        return text
    return _SMALL_DEGREE.sub(lambda degree: degree[0].upper(), text)


def _in_unit_asked(read: Quantity, asked: Unit) -> Fraction | None:
    """Return the amount in the unit asked for, or None where it is of another kind.

    Degrees given for a difference are a difference; whatever is counted is a count.
    """
    if asked.dimension == TEMPERATURE_DIFFERENCE and read.unit.dimension == TEMPERATURE:
        return read.amount * read.unit.factor / asked.factor
    both_count = asked.dimension.startswith(COUNT) and read.unit.dimension.startswith(COUNT)
    if both_count or asked.dimension == read.unit.dimension:
        return read.base / asked.factor - asked.offset
    return None


def _is_unit_asked(read: Unit, asked: Unit) -> bool:
    """Return whether an answer came in the very unit asked for; a degree of a difference is a degree."""
    return read.symbol.removesuffix(" difference") == asked.symbol.removesuffix(" difference")


def _other_unit(asked: str) -> Text:
    """Return what is said where the change of unit is the question and the answer came without it."""
    return message("Write your answer in {unit}. To change into {unit} is what is asked here.", unit=unit_word(asked))


def _other_kind(question: Question, read: Unit, asked: Unit) -> Text:
    """Return what is said about an answer of another kind; between weight and volume, what a cup of the food weighs."""
    told = message("That is {given}; the question asks for {asked}.", given=_kind(read), asked=_kind(asked))
    known = (
        cup_sentence(question.food, question.food_word)
        if {read.dimension, asked.dimension} == {"mass", "volume"}
        else ""
    )
    return joined([told, known]) if known else told


def _kind(unit: Unit) -> Text:
    """Return in plain words what a unit measures."""
    return KINDS[unit.dimension.split(":")[0]]


def _graded(question: Question, given: _Given, understood: Text) -> Grade:
    """Return what a value proves: right, rounded early, a method, a slip, copied, or nothing known."""
    answer, value = question.answer, given.value
    is_early = any(answer.counts_as(value, early) for early in question.early)
    if answer.accepts(value) or (is_early and question.early_is_right):
        return Grade("right", says=RIGHT, understood=understood)
    if is_early:
        return Grade("rounded_early", says=TOO_EARLY, understood=understood, name=ROUNDS_TOO_EARLY)
    shown = [wrong for wrong in question.wrong_methods if answer.shows(value, wrong.value)]
    return _by_method(shown, understood) if shown else _by_slip(question, given, understood)


def _by_method(shown: list[WrongMethod], understood: Text) -> Grade:
    """Return the grade of the one wrong method that shows; where content has no clause for it, its own sentence."""
    if len(shown) > 1:
        return _unknown(understood)
    (wrong,) = shown
    says = first_showing(understood, wrong.clause) if wrong.clause else wrong.says
    return Grade("method", says=says, understood=understood, name=wrong.name)


def _by_slip(question: Question, given: _Given, understood: Text) -> Grade:
    """Return the grade of a value that no wrong method gives: a slip, a number of the question, or nothing known."""
    slip = slip_shown(question, given.read, given.value, given.has_unit)
    if slip is not None:
        return Grade("slip", says=first_showing(understood, SLIPS[slip].once), understood=understood, name=slip)
    if COPIED not in question.off and (given.value in question.numbers or given.read.amount in question.numbers):
        return Grade("copied", says=NO_KNOWN_METHOD, understood=understood, name=COPIED)
    return _unknown(understood)


def _unknown(understood: Text) -> Grade:
    return Grade("unknown", says=NO_KNOWN_METHOD, understood=understood)
