"""Questions a program before kept whole come back equal in every part; and rules."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from tests.kitchen.quiz.asking import Asked, draw_question, printed
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.keeping import question_from_kept
from trainer.kitchen.quiz.rules import SittingRules, rules_kept
from trainer.kitchen.quiz.sequential_test import Plan
from trainer.kitchen.quiz.sitting import Tally


def kept_whole(question: Asked) -> dict[str, Any]:
    """Return a question as drafts kept it up to grader 4, with what was said of a wrong method to the teacher."""
    rounded = question.answer.rounded
    return {
        "family": question.family,
        "seed": question.seed,
        "text": question.text,
        "answer": {
            "value": str(question.answer.value),
            "unit": question.answer.unit,
            "tolerance": str(question.answer.tolerance),
            "rounded": [rounded.mode, rounded.figures] if rounded else None,
            "unit_required": question.answer.unit_required,
        },
        "solution": list(question.solution),
        "wrong": [[each.name, str(each.value), each.says, "To the teacher."] for each in question.wrong_methods],
        "choices": [[each.key, each.text, each.is_right, each.name, each.says] for each in question.choices],
        "figure": question.figure,
        "figure_alt": question.figure_alt,
        "food": question.food_word,
        "safety": question.safety,
    }


@pytest.mark.parametrize("family", sorted(FAMILIES))
def test_a_question_kept_whole_comes_back_as_it_was_drawn(family: str) -> None:
    """Through plain text, as a draft was kept: text, key, tolerance, wrong methods, choices, figure and solution."""
    for seed in range(20):
        question = draw_question(family, seed)
        if question.answering not in {"number", "one"}:
            continue  # of a later grader, which keeps no question whole
        found = question_from_kept(json.loads(json.dumps(kept_whole(question))))
        assert printed(found) == _as_before(question)
        assert printed(found).solution == question.solution


def _as_before(question: Asked) -> Asked:
    """Return a question without what was not kept then: step, net, what is rounded early or copied, clauses."""
    answer = replace(question.answer, step=Fraction(0), low=Fraction(0), high=Fraction(0), net=Fraction(0))
    wrong = tuple(replace(way, clause="") for way in question.wrong_methods)
    plain = replace(question, early=(), early_is_right=False, numbers=(), off=())
    return replace(plain, answer=answer, wrong_methods=wrong, food="", hints=0)


@pytest.mark.parametrize(
    "rules", [SittingRules(None, 8, 70), SittingRules(Plan(at_most=30, safety_percent=60), 19, 60)]
)
def test_rules_come_back_as_they_stood(rules: SittingRules) -> None:
    """A fixed need with its floor, or a plan with its own."""
    assert rules_kept(json.loads(json.dumps(rules.kept()))) == rules


def test_a_fixed_need_and_a_plan_come_to_their_own_results() -> None:
    """Eight of ten pass a need of eight; nine straight pass the usual plan (by hand: 2.175 + 0.7379 × 9 = 8.8)."""
    assert SittingRules(None, 8, 70).result_of(Tally(8, 10)).passed
    assert SittingRules(None, 8, 70).standing_of(Tally(8, 10)) is None
    plan = SittingRules(Plan(), 19, 70)
    assert plan.result_of(Tally(9, 9)).passed
    standing = plan.standing_of(Tally(9, 9))
    assert standing is not None
    assert standing.outcome == "pass"
