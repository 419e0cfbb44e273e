"""Everything a question says can be said in another language: no word of it stands outside a gathered sentence."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest

from tests.architecture.catalogue import gathered
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.drills import Wanted, drill_for
from trainer.kitchen.quiz.families import CHOICES, FAMILIES, SUMS
from trainer.kitchen.quiz.family import Sum
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.question import Question
from trainer.recipe_math.saying import Saying

MARKS = frozenset({"lb", "oz", "kg", "g", "L", "mL", "mm", "min", "s", "h", "C", "F", "Tbsp", "ppm", "A", "B"})
"""Symbols of units and letters of steps, the same in every language (common practice in kitchens of the Americas)."""
TAKES_NO_WORDS = sorted(name for name in FAMILIES if name not in CHOICES or not CHOICES[name].takes)


@cache
def said_once() -> frozenset[str]:
    """Return the sentences a translator gets; of those with a count, the one for one."""
    return frozenset(each[0] if isinstance(each, tuple) else each for each in gathered())


def left_over(text: Any) -> Iterator[str]:
    """Return the words of a text that no catalogue can reach."""
    if not isinstance(text, Saying):
        yield from (word for word in re.findall(r"[^\W\d_]+", str(text)) if word not in MARKS)
        return
    if text.pattern not in said_once():
        yield from left_over(re.sub(r"{\w+}|<[^>]*>", " ", text.pattern))
    for value in text.values.values():
        yield from left_over(value)


def said_by(question: Question) -> list[str]:
    """Return all that a question says to a cook or a teacher."""
    wrong = [text for way in question.wrong_methods for text in (way.says, way.tells)]
    choices = [text for choice in question.choices for text in (choice.text, choice.says)]
    return [question.text, *question.solution, question.figure_alt, *wrong, *choices]


@pytest.mark.parametrize("name", TAKES_NO_WORDS)
def test_every_word_of_a_question_can_be_said(name: str) -> None:
    """Text, worked lines, wrong methods, choices and the figure in words are sentences a translator gets."""
    for seed in range(25):
        question = draw_question(name, seed)
        assert [word for text in said_by(question) for word in left_over(text)] == []
        assert list(left_over(question.figure) if isinstance(question.figure, Saying) else ()) == []


@pytest.mark.parametrize("name", FAMILIES)
def test_a_family_names_itself_in_any_language(name: str) -> None:
    """Its title, its caution, and what it tells the teacher are sentences a translator gets."""
    kind = FAMILIES[name]
    advice = [way.says for way in kind.wrong] if isinstance(kind, Sum) else list(kind.advises.values())
    texts = [kind.title, kind.caution, *kind.methods().values(), *advice]
    assert [word for text in texts for word in left_over(text)] == []


@pytest.mark.parametrize("name", sorted(SUMS))
def test_a_grade_and_a_drill_can_be_said(name: str) -> None:
    """What is read, what is asked again and what a drill shows keep their sentences."""
    question = draw_question(name, 4)
    for typed in ("7", "", "7 lb", "8 L", "a pinch", "1/0", "1,500", "3 cups of flour"):
        given = grade(question, typed)
        texts = [given.says, given.understood, given.problem or ""]
        assert {word for text in texts for word in left_over(text)} <= set(typed.split()), typed
    drill = drill_for(Wanted(SUMS[name].wrong[0].name, name), 9)
    assert [word for text in (drill.says, *drill.lines, drill.last) for word in left_over(text)] == []
