"""Grading an answer: any unit of the same kind, exact arithmetic, and the wrong method named where one shows.

An answer is right within the question's stated tolerance, both ends included, or where it rounds to the same number:
`equal` and `equal-rounded` of QTI 3.0. What cannot be read, or is of another kind, is asked again and never graded
wrong. A choice is graded by its key or its text.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from trainer.kitchen.quiz.cup_weights import cup_sentence
from trainer.kitchen.quiz.question import Choice, Grade, Question
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.reading import read_quantity
from trainer.messages import Text, joined, message, translate
from trainer.recipe_math.parsing import LONGEST
from trainer.recipe_math.quantity import COUNT, TEMPERATURE, TEMPERATURE_DIFFERENCE, Quantity, QuantityProblem, Unit
from trainer.recipe_math.units import UNITS

NO_KNOWN_METHOD = message("That is not it, and no known wrong method gives it. Go through the sum below, step by step.")
RIGHT = message("Right.")
NOTHING_WRITTEN = message("There is no answer yet. Write a number, such as 12 or 2 1/2.")
NOTHING_CHOSEN = message("Nothing is chosen yet. Choose one of the answers.")
LONGEST_CHOICE = 2000

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
_SMALL_DEGREE = re.compile(r"(?<=[0-9 °])[cf](?=\s*$)")


def grade(question: Question, text: str, decimal_mark: str | None = None) -> Grade:
    """Return the grade of an answer as typed. A bare number is in the question's unit; a choice is its key or text.

    A comma and a point are both a decimal mark; *decimal_mark*, the kitchen's own, settles what has two readings.
    `problem` is set where the text is no usable answer: not a number, two readings, or a wrong kind such as a volume
    for a weight. `method` is set where the value lies within the tolerance of exactly one wrong method.
    """
    if question.choices:
        return _choice_graded(question, text)
    if not text.strip():
        return _asked_again(NOTHING_WRITTEN)
    asked = UNITS[question.answer.unit]
    try:
        read = read_quantity(_tidied(text, asked), asked.symbol, decimal_mark)
    except QuantityProblem as problem:
        return _asked_again(problem.reason)
    value = _in_unit_asked(read, asked)
    if value is None:
        return _asked_again(_other_kind(question, read.unit, asked))
    if question.answer.unit_required and not _is_unit_asked(read.unit, asked):
        return _asked_again(_other_unit(question.answer.unit))
    return _graded(question, value, with_unit(value, question.answer.unit, decimal_mark or ".", 3))


def _asked_again(problem: Text) -> Grade:
    """Return the grade of what was no usable answer: neither right nor wrong."""
    return Grade(is_right=None, method=None, says="", understood="", problem=problem)


def _tidied(text: str, asked: Unit) -> str:
    """Return the text with a small c or f for degrees made a capital where a temperature is asked for."""
    if len(text) > LONGEST or not asked.dimension.startswith(TEMPERATURE):
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


def _choice_graded(question: Question, text: str) -> Grade:
    """Return the grade of a choice, given by its key or by its text."""
    given = _plain(text) if len(text) <= LONGEST_CHOICE else ""
    chosen = next((each for each in question.choices if given in {each.key, _plain(translate(each.text))}), None)
    if chosen is None:
        return _asked_again(_choose_one(question) if text.strip() else NOTHING_CHOSEN)
    return _chosen(chosen)


def _choose_one(question: Question) -> Text:
    """Return the keys there are to choose from."""
    *keys, last = (choice.key for choice in question.choices)
    return message("Choose one: {keys} or {last}.", keys=", ".join(keys), last=last)


def _chosen(choice: Choice) -> Grade:
    understood = joined([choice.key, choice.text], ": ")
    if choice.is_right:
        return Grade(is_right=True, method=None, says=RIGHT, understood=understood)
    return Grade(is_right=False, method=choice.name or None, says=choice.says, understood=understood)


def _plain(text: str) -> str:
    """Return a text as choices are compared: small letters, single spaces, no mark at the end."""
    return " ".join(unicodedata.normalize("NFKC", text).casefold().split()).rstrip(".):")


def _kind(unit: Unit) -> Text:
    """Return in plain words what a unit measures."""
    return KINDS[unit.dimension.split(":")[0]]


def _graded(question: Question, value: Fraction, understood: Text) -> Grade:
    """Return the grade of a value: right, a named wrong method, or wrong without a name."""
    answer = question.answer
    if answer.counts_as(value, answer.value):
        return Grade(is_right=True, method=None, says=RIGHT, understood=understood)
    shown = [wrong for wrong in question.wrong_methods if answer.counts_as(value, wrong.value)]
    if len(shown) == 1:
        return Grade(is_right=False, method=shown[0].name, says=shown[0].says, understood=understood)
    return Grade(is_right=False, method=None, says=NO_KNOWN_METHOD, understood=understood)
