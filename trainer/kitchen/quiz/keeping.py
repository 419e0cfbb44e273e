"""Questions as drafts and the book keep them: by numbers and picks, and those of before whole, with their words."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from trainer.kitchen.quiz.choice_grading import as_keys
from trainer.kitchen.quiz.comparison import EqualRounded
from trainer.kitchen.quiz.drawn import DrawnQuestion
from trainer.kitchen.quiz.question import Answer, Choice, Grade, Question, WrongMethod
from trainer.messages import translate


def question_from_kept(kept: Mapping[str, Any]) -> Question:
    """Return a question that was kept whole."""
    return Question(
        family=kept["family"],
        seed=kept["seed"],
        text=kept["text"],
        answer=_answer_from(kept["answer"]),
        solved=lambda: tuple(kept["solution"]),
        wrong_methods=tuple(WrongMethod(name, Fraction(value), says) for name, value, says, _ in kept["wrong"]),
        choices=tuple(Choice(*choice) for choice in kept["choices"]),
        figure=kept["figure"],
        figure_alt=kept["figure_alt"],
        food_word=kept["food"],
        safety=kept["safety"],
    )


def answered(drawn: DrawnQuestion, question: Question, given: str, grade: Grade) -> dict[str, Any]:
    """Return a question as the book keeps it: its numbers and picks, the right answer, what was given, the grade."""
    return {
        **drawn.kept(),
        "answer": question.key,
        "unit": question.answer.unit,
        "given": as_keys(question, given),
        "right": grade.is_right is True,
        "safety": question.safety,
        "method": grade.method,
    }


def answered_before(question: Question, given: str, grade: Grade) -> dict[str, Any]:
    """Return a question of a sitting that was begun with its words kept, as the book kept it then."""
    return {
        "family": question.family,
        "seed": question.seed,
        "text": question.text,
        "figure": question.figure,
        "figure_alt": question.figure_alt,
        "choices": {choice.key: choice.text for choice in question.choices},
        "answer": str(question.answer.value),
        "unit": question.answer.unit,
        "solution": list(question.solution),
        "given": given,
        "right": grade.is_right is True,
        "safety": question.safety,
        "method": grade.method,
        "says": translate(grade.says),
    }


def _answer_from(kept: Mapping[str, Any]) -> Answer:
    rounded = EqualRounded(*kept["rounded"]) if kept["rounded"] else None
    return Answer(Fraction(kept["value"]), kept["unit"], Fraction(kept["tolerance"]), rounded, kept["unit_required"])
