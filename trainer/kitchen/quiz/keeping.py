"""Questions kept as they were drawn, whole: asked, graded and explained again without the content they came from."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from trainer.kitchen.quiz.closeness import EqualRounded
from trainer.kitchen.quiz.question import Answer, Choice, Grade, Question, WrongMethod


def question_kept(question: Question) -> dict[str, Any]:
    """Return a question as plain texts, numbers and lists: all that the page and grading need, exact."""
    return {
        "family": question.family,
        "seed": question.seed,
        "text": question.text,
        "answer": _answer_kept(question.answer),
        "solution": list(question.solution),
        "wrong": [[each.name, str(each.value), each.says, each.tells] for each in question.wrong_methods],
        "choices": [[each.key, each.text, each.is_right, each.name, each.says] for each in question.choices],
        "figure": question.figure,
        "figure_alt": question.figure_alt,
        "food": question.food,
        "safety": question.safety,
    }


def question_from_kept(kept: Mapping[str, Any]) -> Question:
    """Return the question that was kept, equal in every part to the one that was drawn."""
    return Question(
        family=kept["family"],
        seed=kept["seed"],
        text=kept["text"],
        answer=_answer_from(kept["answer"]),
        solution=tuple(kept["solution"]),
        wrong_methods=tuple(
            WrongMethod(name, Fraction(value), says, tells) for name, value, says, tells in kept["wrong"]
        ),
        choices=tuple(Choice(*choice) for choice in kept["choices"]),
        figure=kept["figure"],
        figure_alt=kept["figure_alt"],
        food=kept["food"],
        safety=kept["safety"],
    )


def answered(question: Question, given: str, grade: Grade) -> dict[str, Any]:
    """Return a question as the book keeps it: as it was asked, what was given, and the wrong method that gives that."""
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
        "says": grade.says,
    }


def _answer_kept(answer: Answer) -> dict[str, Any]:
    rounded = answer.rounded
    return {
        "value": str(answer.value),
        "unit": answer.unit,
        "tolerance": str(answer.tolerance),
        "rounded": [rounded.mode, rounded.figures] if rounded else None,
        "unit_required": answer.unit_required,
    }


def _answer_from(kept: Mapping[str, Any]) -> Answer:
    rounded = EqualRounded(*kept["rounded"]) if kept["rounded"] else None
    return Answer(Fraction(kept["value"]), kept["unit"], Fraction(kept["tolerance"]), rounded, kept["unit_required"])
