"""What answering one question takes: that question told, and no other; what signing is judged by, worked out once."""

from __future__ import annotations

from typing import Any

import pytest

from tests.actions.crew import Crew
from trainer.actions import sitting_drafts
from trainer.actions.sitting import answer_question, find_sitting
from trainer.kitchen import entitlement
from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.progress import Person
from trainer.kitchen.quiz.drawn import DrawnQuestion, QuestionContext
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.telling import tell


def test_an_answer_tells_its_own_question_alone(crew: Crew, monkeypatch: pytest.MonkeyPatch) -> None:
    """In a quiz of fixed length the others are neither told nor graded; opening it tells all of them."""
    told: list[int] = []

    def counted(drawn: DrawnQuestion, context: QuestionContext) -> Question:
        told.append(drawn.seed)
        return tell(drawn, context)

    begun = crew.begins_sitting()
    monkeypatch.setattr(sitting_drafts, "tell", counted)
    for place in (1, 0):
        told.clear()
        answer_question(crew.k, sitting=begun.id, index=place, text="1", now=crew.now)
        assert told == [begun.drawn[place].seed]
    told.clear()
    assert find_sitting(crew.k, begun.id) is not None
    assert told == [each.seed for each in begun.drawn]


def test_who_may_sign_is_worked_out_once_until_something_is_written(
    crew: Crew, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each look at a point asks it; after an entry of anybody it is worked out again."""
    asked: list[str] = []

    def counted(person: Person, *rest: Any) -> Clearance:
        asked.append(person.id)
        return clearance_of(person, *rest)

    practical = crew.begins_practical()
    monkeypatch.setattr(entitlement, "clearance_of", counted)
    crew.sees(practical)
    assert asked == []
    crew.reads("ben", "cold_sauces")
    crew.sees(practical)
    assert asked == ["sous"]
