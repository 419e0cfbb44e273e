"""An open sitting is kept as it was drawn: no edit of the content and no newer program takes its answers away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType
from typing import Any

import pytest

from tests.actions.crew import Crew, crew_in, refused, saved
from tests.kitchen.kitchen_for_tests import with_technique
from tests.kitchen.quiz.asking import reworded
from tests.printed import english
from trainer.actions import sitting as sittings
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.sitting import (
    answer_question,
    find_sitting,
    finish_sitting,
    open_sitting,
    start_sitting,
)
from trainer.actions.sitting_drafts import Sitting, put_aside
from trainer.kitchen.quiz import drawing
from trainer.kitchen.quiz.drawing import GRADER
from trainer.kitchen.quiz.drawn import drawn_from
from trainer.kitchen.technique import Content, QuestionSetting
from trainer.store.drafts import Draft
from trainer.store.kitchen_file import KitchenFile

WHOLE: Mapping[str, Any] = {
    "family": "portions_from_batch", "seed": 42,
    "text": "A batch of risotto weighs 8 lb 8 oz. You lose 14 % on the way. One portion is 5 3/4 oz. How many full "
    "portions do you get? Give a whole number.",
    "answer": {"value": "20", "unit": "portion", "tolerance": "0", "rounded": None, "unit_required": False},
    "solution": ["Divide by the portion: 116.96 / 5 3/4 = about 20.34.", "Round down: 20 portions."],
    "wrong": [["rounded_up", "21", "You rounded up.", "Rounds up."],
              ["loss_forgotten", "23", "You left out the loss.", "Leaves the loss out."]],
    "choices": [], "figure": "", "figure_alt": "", "food": "risotto", "safety": False,
}  # fmt: skip
"""A question as grader 4 kept it, whole. By hand: 8.5 lb × 16 × 0.86 = 116.96 oz, over 5.75 oz 20.34 portions."""


def edited(content: Content) -> Content:
    """Return the content with other words, other ranges, another family and another need."""
    taught = content.techniques["fresh_pasta"]
    setting = taught.questions[0]
    other = replace(
        setting,
        words=MappingProxyType({"food": ("rye flakes",)}),
        ranges=MappingProxyType({"new_portions": (Fraction(31), Fraction(33), Fraction(1))}),
    )
    return with_technique(
        content,
        "fresh_pasta",
        title="Fresh strands",
        questions=(other, QuestionSetting("amount_to_buy", {}, {}, 1)),
        need_right=2,
        safety_percent=0,
        faults=(),
    )


def three_answered(crew: Crew) -> Sitting:
    """Begin the quiz of fresh pasta and answer the first three of its four questions right."""
    sitting = crew.begins_sitting()
    for place, question in enumerate(sitting.questions[:3]):
        answer_question(crew.k, sitting=sitting.id, index=place, text=str(question.answer.value), now=crew.now)
    return sitting


def test_an_edit_of_words_and_ranges_keeps_questions_and_answers(tmp_path: Path) -> None:
    """Another process opens the kitchen with the edited content: the same questions, three answers, and it goes on."""
    crew = crew_in(tmp_path / "kitchen")
    sitting = three_answered(crew)
    content = edited(crew.k.content)
    crew.k.file.close()
    crew.k = Kitchen(KitchenFile.open(tmp_path / "kitchen"), content)
    again = start_sitting(crew.k, cook="ada", technique="fresh_pasta", seed=99, now=crew.now, key=crew.key())
    assert isinstance(again, Sitting)
    assert (again.id, again.drawn) == (sitting.id, sitting.drawn)
    assert [each.answer for each in again.questions] == [each.answer for each in sitting.questions]
    assert all(english(each.text).startswith("A batch of rye flakes weighs ") for each in again.questions)
    assert (set(again.answers), again.next_unanswered) == ({0, 1, 2}, 3)
    last = sitting.questions[3]
    answer_question(crew.k, sitting=sitting.id, index=3, text=str(last.answer.value), now=crew.now)
    body = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key())).body
    assert tuple(map(drawn_from, body["questions"])) == sitting.drawn
    assert [line["answer"] for line in body["questions"]] == [str(each.answer.value) for each in sitting.questions]
    assert (body["right"], body["asked"], body["need"], body["passed"], body["grader"]) == (4, 4, 3, True, GRADER)
    crew.k.file.close()


def test_every_word_of_every_family_may_change_under_an_open_sitting(tmp_path: Path) -> None:
    """Opened again with other words for each question, the three answers are there and the questions are the same."""
    crew = crew_in(tmp_path / "kitchen")
    sitting = three_answered(crew)
    content = replace(crew.k.content, question_words=reworded(crew.k.content.question_words))
    crew.k.file.close()
    crew.k = Kitchen(KitchenFile.open(tmp_path / "kitchen"), content)
    again = find_sitting(crew.k, sitting.id)
    assert again is not None
    assert again.drawn == sitting.drawn
    assert (set(again.answers), again.next_unanswered) == ({0, 1, 2}, 3)
    assert all(new.answer == old.answer for new, old in zip(again.questions, sitting.questions, strict=True))
    assert all(
        english(new.text) != english(old.text) for new, old in zip(again.questions, sitting.questions, strict=True)
    )
    crew.k.file.close()


def test_a_newer_grader_keeps_an_open_sitting(crew: Crew, monkeypatch: pytest.MonkeyPatch) -> None:
    """The entry says by which grader it was drawn."""
    sitting = three_answered(crew)
    for module in (sittings, drawing):
        monkeypatch.setattr(module, "GRADER", GRADER + 1)
    again = find_sitting(crew.k, sitting.id)
    assert again is not None
    assert (again.questions, len(again.answers), again.grader) == (sitting.questions, 3, GRADER)
    crew.answers(again, right=4)
    assert saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key())).body["grader"] == GRADER


def test_a_family_that_is_gone_keeps_an_open_sitting(crew: Crew) -> None:
    """Not even a setting from which nothing can be drawn closes it."""
    sitting = three_answered(crew)
    broken = (QuestionSetting("no_such_family", {}, {}, 2),)
    crew.k.content = with_technique(crew.k.content, "fresh_pasta", questions=broken)
    again = find_sitting(crew.k, sitting.id)
    assert again is not None
    assert (again.questions, len(again.answers)) == (sitting.questions, 3)


def test_a_technique_that_is_gone_puts_its_sitting_aside_and_back(crew: Crew) -> None:
    """The cook is told, nothing is deleted or written, and once it is back the cook goes on."""
    sitting, content = three_answered(crew), crew.k.content
    rest = {name: each for name, each in content.techniques.items() if name != "fresh_pasta"}
    crew.k.content = replace(content, techniques=MappingProxyType(rest))
    (aside,) = put_aside(crew.k, cook="ada")
    assert (aside.id, aside.technique, aside.answers, aside.why) == (sitting.id, "fresh_pasta", 3, "not taught")
    words = english(aside.words)
    assert "Your quiz of Fresh pasta is put aside with 3 answers: Fresh pasta is not taught right now." in words
    assert find_sitting(crew.k, sitting.id) is None
    assert put_aside(crew.k, cook="ben") == ()
    refusal = refused(answer_question(crew.k, sitting=sitting.id, index=3, text="1", now=crew.now))
    assert english(refusal.reason) == words
    late = refused(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
    assert english(late.reason) == words
    crew.k.content = content
    assert put_aside(crew.k, cook="ada") == ()
    again = find_sitting(crew.k, sitting.id)
    assert again is not None
    assert len(again.answers) == 3


def earlier(crew: Crew, grader: int = 4, **kept: Any) -> Draft:
    """Keep a draft as a program before this one did: the seed, two answers, and what it kept of the questions."""
    crew.reads("ada", "fresh_pasta")
    body = {"edition": 1, "seed": 42, "grader": grader, "answers": {"0": "20", "1": "23"}, **kept}
    draft = Draft("earlier", "sitting", "fresh_pasta", "ada", "ada", body, crew.now)
    crew.k.file.drafts.put(draft)
    return draft


def test_an_earlier_draft_that_kept_its_questions_whole_goes_on_to_the_book(crew: Crew) -> None:
    """Its answers are there, it keeps its words and stands any edit; the book has them as that program wrote them."""
    earlier(crew, questions=[{**WHOLE, "seed": seed} for seed in range(3)])
    found = open_sitting(crew.k, cook="ada", technique="fresh_pasta")
    assert found is not None
    assert (found.answers, found.grader) == ({0: "20", 1: "23"}, 4)
    answer_question(crew.k, sitting=found.id, index=2, text="19", now=crew.now)
    crew.k.content = edited(crew.k.content)
    again = find_sitting(crew.k, found.id)
    assert again is not None
    assert (again.questions, again.answers) == (found.questions, {0: "20", 1: "23", 2: "19"})
    body = saved(finish_sitting(crew.k, sitting=found.id, now=crew.now, key=crew.key())).body
    assert [(line["text"], line["solution"]) for line in body["questions"]] == [(WHOLE["text"], WHOLE["solution"])] * 3
    assert [line["right"] for line in body["questions"]] == [True, False, False]
    assert [line["method"] for line in body["questions"]] == [None, "loss_forgotten", None]
    right, loss, unknown = (line["says"] for line in body["questions"])
    assert (right, loss) == ("Right.", "You left out the loss.")
    assert unknown.startswith("That is not it, and no known wrong method gives it.")
    assert (body["grader"], body["right"], body["asked"]) == (4, 1, 3)


def test_a_draft_older_still_is_told_before_it_goes(crew: Crew) -> None:
    """It kept what was shown and no question: a start is refused with what happened; only who was told begins again."""
    draft = earlier(crew, grader=3, shown=[["Another question", ""]])
    assert open_sitting(crew.k, cook="ada", technique="fresh_pasta") is None
    (aside,) = put_aside(crew.k, cook="ada")
    assert aside.why == "not kept"
    asked: dict[str, Any] = {"cook": "ada", "technique": "fresh_pasta", "seed": 5, "now": crew.now}
    refusal = refused(start_sitting(crew.k, **asked, key=crew.key()))
    assert "with 2 answers cannot be opened any more" in english(refusal.reason)
    assert refusal.field == "told"
    assert crew.k.file.drafts.get(draft.id) is not None
    begun = start_sitting(crew.k, **asked, key=crew.key(), told=draft.id)
    assert isinstance(begun, Sitting)
    assert crew.k.file.drafts.get(draft.id) is None
    assert put_aside(crew.k, cook="ada") == ()


def test_somebody_elses_draft_is_left_alone(crew: Crew) -> None:
    """Ben begins his own; Ada's that cannot be opened stays and does not hold him up."""
    draft = earlier(crew, grader=3, shown=[])
    assert isinstance(crew.begins_sitting("ben"), Sitting)
    assert crew.k.file.drafts.get(draft.id) is not None
