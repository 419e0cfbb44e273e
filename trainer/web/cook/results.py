"""A finished sitting, read back from the book: each question as it was asked, with what was answered."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.grading import NO_KNOWN_METHOD
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.rescoring import QuestionKey, key_of
from trainer.kitchen.quiz.retelling import retold
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.technique import Technique
from trainer.recipe_math.saying import joined
from trainer.web.cook import tasks


@dataclass(frozen=True, slots=True)
class Line:
    """One question of a finished sitting. `says` is what was said to the cook about a wrong answer.

    `is_voided` says that it counts no longer.
    """

    number: int
    text: str
    is_choice: bool
    figure: str
    figure_alt: str
    given: str
    right: str
    is_right: bool
    says: str
    solution: tuple[str, ...]
    is_voided: bool


def lines_of(entry: Entry, decimal_mark: str, voided: Collection[QuestionKey] = ()) -> tuple[Line, ...]:
    """Return every question of a `quiz_sat` entry, in the order asked; *voided* are those that count no longer.

    What today's drawing and content still give is told in the reader's words, the rest in those of the book.
    """
    technique = tasks.technique_in_both(entry.body["technique"])
    questions = (_retold(asked, entry.body["grader"], technique) for asked in entry.body["questions"])
    return tuple(_line(number, asked, decimal_mark, voided) for number, asked in enumerate(questions, 1))


def _retold(asked: Mapping[str, Any], grader: int, technique: Technique | None) -> Mapping[str, Any]:
    """Return a question of the book with its texts in the reader's words, where it can be drawn again."""
    again = retold(asked, grader, technique) if technique else None
    if again is None:
        return asked
    return {
        **asked,
        "text": again.text,
        "figure": again.figure,
        "figure_alt": again.figure_alt,
        "choices": {choice.key: choice.text for choice in again.choices},
        "solution": again.solution,
        "says": _says(asked, again),
    }


def _says(asked: Mapping[str, Any], again: Question) -> str:
    """Return what was said about the answer, in the reader's words where a wrong method still says the same."""
    said = (NO_KNOWN_METHOD, *(way.says for way in again.wrong_methods))
    return next((words for words in said if words == asked["says"]), asked["says"])


def _line(number: int, asked: Mapping[str, Any], decimal_mark: str, voided: Collection[QuestionKey]) -> Line:
    return Line(
        number=number,
        text=asked["text"],
        is_choice=bool(asked["choices"]),
        figure=asked["figure"],
        figure_alt=asked["figure_alt"],
        given=in_words(asked["given"], asked["unit"], asked["choices"]),
        right=_right(asked, decimal_mark),
        is_right=asked["right"],
        says="" if asked["right"] else asked["says"],
        solution=tuple(asked["solution"]),
        is_voided=key_of(asked) in voided,
    )


def in_words(given: str, unit: str, choices: Mapping[str, str]) -> str:
    """Return an answer as it is read: the text of a choice, or what was typed, with the unit where none was typed."""
    if choices:
        return choices.get(given, given)
    has_unit = any(letter.isalpha() or letter in "%°$" for letter in given)
    if has_unit or not given:
        return given
    return f"${given}" if unit == "$" else joined([given, unit_word(unit, Fraction(1) if given == "1" else None)])


def _right(asked: Mapping[str, Any], decimal_mark: str) -> str:
    if asked["choices"]:
        right: str = asked["choices"][asked["answer"]]
        return right
    return with_unit(Fraction(asked["answer"]), asked["unit"], decimal_mark)
