"""A finished sitting, read back from the book: each question drawn again from its kept seed, with what was answered."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.drawing import GRADER, CannotDraw, draw_question
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.technique import Technique
from trainer.recipe_math.figures import number_text
from trainer.web import guard


@dataclass(frozen=True, slots=True)
class Line:
    """One question of a finished sitting. `text` is empty where an older edition drew it and it cannot be drawn now."""

    number: int
    text: str
    given: str
    unit: str
    right: str
    is_right: bool
    method: str
    says: str
    solution: tuple[str, ...]


def lines_of(entry: Entry, technique: Technique) -> tuple[Line, ...]:
    """Return every question of a `quiz_sat` entry, in the order asked."""
    kept = enumerate(entry.body["questions"], 1)
    return tuple(_line(number, asked, technique, entry.body["grader"]) for number, asked in kept)


def _line(number: int, asked: dict[str, Any], technique: Technique, grader: int) -> Line:
    drawn = _drawn(asked, technique) if grader == GRADER else None
    given, is_right, name = asked["given"], asked["right"] is True, asked["method"] or ""
    if drawn is None:
        return Line(number, "", given, "", "", is_right, name.replace("_", " "), "", ())
    mark = guard.kitchen().file.settings.decimal_mark
    method = next((m for m in drawn.wrong_methods if m.name == name), None)
    return Line(
        number=number,
        text=drawn.text,
        given=given,
        unit=drawn.answer.unit,
        right=number_text(drawn.answer.value, 2, mark),
        is_right=is_right,
        method=name.replace("_", " "),
        says=method.says if method else "",
        solution=drawn.solution,
    )


def _drawn(asked: dict[str, Any], technique: Technique) -> Question | None:
    setting = next((s for s in technique.questions if s.family == asked["family"]), None)
    try:
        return draw_question(asked["family"], asked["seed"], setting)
    except CannotDraw:
        return None
