"""A finished sitting, read back from the book: each question as it was asked, with what was answered."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.kitchen.book import Entry
from trainer.recipe_math.figures import number_text


@dataclass(frozen=True, slots=True)
class Line:
    """One question of a finished sitting. `says` is what was said to the cook about a wrong answer."""

    number: int
    text: str
    given: str
    right: str
    is_right: bool
    method: str
    says: str
    solution: tuple[str, ...]


def lines_of(entry: Entry, decimal_mark: str) -> tuple[Line, ...]:
    """Return every question of a `quiz_sat` entry, in the order asked."""
    return tuple(_line(number, asked, decimal_mark) for number, asked in enumerate(entry.body["questions"], 1))


def _line(number: int, asked: dict[str, Any], decimal_mark: str) -> Line:
    unit, given = asked["unit"], asked["given"]
    has_unit = any(letter.isalpha() or letter in "%°$" for letter in given)
    return Line(
        number=number,
        text=asked["text"],
        given=given if has_unit else f"{given} {unit}",
        right=f"{number_text(Fraction(asked['answer']), 2, decimal_mark)} {unit}",
        is_right=asked["right"],
        method=(asked["method"] or "").replace("_", " "),
        says="" if asked["right"] else asked["says"],
        solution=tuple(asked["solution"]),
    )
