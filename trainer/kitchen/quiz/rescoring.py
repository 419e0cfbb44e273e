"""What a finished sitting comes to, as it was and once a question in it is voided.

US NRC, CLI-97-10 (7 August 1997): a bad question is taken out and the rest scored again, in whole numbers.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from trainer.kitchen.quiz.sequential_test import lines_of, outcome_of, plan_kept
from trainer.kitchen.quiz.sitting import count_kept, result


class QuestionKey(NamedTuple):
    """What tells one question from every other: its family and the seed it was drawn by."""

    family: str
    seed: int


@dataclass(frozen=True, slots=True)
class Score:
    """How many of how many were right, how many were needed, and whether that passed.

    `undecided` says the answers left say neither pass nor fail, so the quiz is sat again without a wait.
    """

    right: int
    asked: int
    need: int
    passed: bool
    undecided: bool = False


def score_kept(body: Mapping[str, Any]) -> Score:
    """Return the score of a `quiz_sat` body as it was saved."""
    return Score(body["right"], body["asked"], body["need"], body["passed"])


def score_without(body: Mapping[str, Any], voided: Collection[QuestionKey]) -> Score:
    """Return the score of a `quiz_sat` body without the voided questions; as saved where none of them was asked."""
    left = [asked for asked in body["questions"] if key_of(asked) not in voided]
    if len(left) == len(body["questions"]):
        return score_kept(body)
    if not left:
        return Score(0, 0, 0, passed=False, undecided=True)
    return _by_plan(body, left) if body.get("plan") else _by_share(body, left)


def key_of(asked: Mapping[str, Any]) -> QuestionKey:
    """Return the key of a question as the book keeps it."""
    return QuestionKey(asked["family"], asked["seed"])


def _by_share(body: Mapping[str, Any], left: list[Mapping[str, Any]]) -> Score:
    """Return the score of a quiz of fixed length: the same share is needed, and a part of a question is a whole one.

    The safety floor is that of the questions left; a sitting kept before there was one has none.
    """
    need = -(-body["need"] * len(left) // body["asked"])
    scored = result(count_kept({"questions": left}), need, body.get("safety_percent", 0))
    return Score(scored.right, scored.asked, need, scored.passed)


def _by_plan(body: Mapping[str, Any], left: list[Mapping[str, Any]]) -> Score:
    """Return the score of a quiz that decides: its own lines for the questions left, the most fewer by those voided."""
    plan, count = plan_kept(body["plan"]), count_kept({"questions": left})
    shorter = replace(plan, at_most=plan.at_most - (len(body["questions"]) - len(left)))
    outcome = outcome_of(shorter, count)
    need = lines_of(shorter).passes[count.asked]
    return Score(count.right, count.asked, need, outcome == "pass", undecided=outcome == "go on")
