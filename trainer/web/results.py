"""A finished sitting, read back from the book: each question as it was asked, with what was answered."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.rescoring import QuestionKey, key_of
from trainer.kitchen.quiz.wording import unit_word, with_unit


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
    method: str
    says: str
    solution: tuple[str, ...]
    is_voided: bool


def lines_of(entry: Entry, decimal_mark: str, voided: Collection[QuestionKey] = ()) -> tuple[Line, ...]:
    """Return every question of a `quiz_sat` entry, in the order asked; *voided* are those that count no longer."""
    return tuple(_line(number, asked, decimal_mark, voided) for number, asked in enumerate(entry.body["questions"], 1))


def _line(number: int, asked: dict[str, Any], decimal_mark: str, voided: Collection[QuestionKey]) -> Line:
    return Line(
        number=number,
        text=asked["text"],
        is_choice=bool(asked["choices"]),
        figure=asked["figure"],
        figure_alt=asked["figure_alt"],
        given=in_words(asked["given"], asked["unit"], asked["choices"]),
        right=_right(asked, decimal_mark),
        is_right=asked["right"],
        method=(asked["method"] or "").replace("_", " "),
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
    return f"${given}" if unit == "$" else f"{given} {unit_word(unit, Fraction(1) if given == '1' else None)}"


def _right(asked: dict[str, Any], decimal_mark: str) -> str:
    if asked["choices"]:
        return str(asked["choices"][asked["answer"]])
    return with_unit(Fraction(asked["answer"]), asked["unit"], decimal_mark)
