"""A sitting: kept answer by answer, finished once."""

from __future__ import annotations

from typing import Any

import pytest

from tests.actions.crew import Crew, refused, saved
from tests.kitchen.kitchen_for_tests import asking, with_technique
from tests.kitchen.quiz.asking import draw_sitting, printed
from tests.printed import english
from trainer.actions.sitting import Answered, answer_question, find_sitting, finish_sitting, open_sitting, start_sitting
from trainer.actions.sitting_drafts import Sitting
from trainer.kitchen.quiz.drawing import GRADER
from trainer.kitchen.technique import QuestionSetting


def start(crew: Crew, cook: str = "ada", technique: str = "fresh_pasta", **changes: Any) -> object:
    """Start a sitting."""
    named = {"seed": 7, "now": crew.now, "key": crew.key(), **changes}
    return start_sitting(crew.k, cook=cook, technique=technique, **named)


def test_a_sitting_asks_the_questions_its_seed_gives(crew: Crew) -> None:
    """The seed is kept, so that the sitting can be drawn and graded again."""
    sitting = crew.begins_sitting(seed=42)
    assert tuple(map(printed, sitting.questions)) == draw_sitting(crew.k.content.techniques["fresh_pasta"], 42)
    assert (sitting.seed, sitting.edition, sitting.answers, sitting.next_unanswered) == (42, 1, {}, 0)


def test_reading_comes_before_the_quiz(crew: Crew) -> None:
    """The edition to read is named, and who can: the cook."""
    found = refused(start(crew))
    assert (english(found.reason), english(found.who_can)) == (
        "Read Fresh pasta, edition 1, first.",
        "The cook reads it, and then sits the quiz.",
    )


def test_there_is_no_sitting_of_a_technique_nobody_knows_or_without_questions(crew: Crew) -> None:
    """The value, or the title, is named."""
    assert english(refused(start(crew, technique="sushi")).reason) == "There is no technique “sushi”."
    assert english(refused(start(crew, technique="cold_sauces")).reason) == "Cold sauces has no quiz."


def test_somebody_who_left_sits_no_quiz(crew: Crew) -> None:
    """Neither starts one nor finishes one, read or not."""
    sitting = crew.begins_sitting()
    crew.answers(sitting, right=4)
    crew.write("cook_left", "ada", {"reason": "moved"})
    assert english(refused(start(crew)).reason) == "Ada is not on the roster."
    outcome = finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key())
    assert english(refused(outcome).reason) == "Ada is not on the roster."
    crew.write("cook_left", "ben", {"reason": "moved"})
    assert english(refused(start(crew, cook="ben")).reason) == "Ben is not on the roster."


def test_an_open_sitting_is_gone_on_with(crew: Crew) -> None:
    """Started again with another seed, the same questions and the answers given so far come back."""
    sitting = crew.begins_sitting()
    answer_question(crew.k, sitting=sitting.id, index=0, text="12", now=crew.now)
    again = start(crew, seed=99)
    assert isinstance(again, Sitting)
    assert (again.id, again.questions, again.answers) == (sitting.id, sitting.questions, {0: "12"})
    assert open_sitting(crew.k, cook="ada", technique="fresh_pasta") == again


def test_each_cook_and_each_technique_has_its_own_sitting(crew: Crew) -> None:
    """Ben's is another one, and so is Ada's of another technique."""
    crew.k.content = with_technique(crew.k.content, "cold_sauces", **asking(4))
    first, other = crew.begins_sitting("ada"), crew.begins_sitting("ben")
    crew.reads("ada", "cold_sauces")
    third = start(crew, technique="cold_sauces")
    assert isinstance(third, Sitting)
    assert len({first.id, other.id, third.id}) == 3
    assert open_sitting(crew.k, cook="ben", technique="cold_sauces") is None


def test_a_key_sent_before_starts_nothing(crew: Crew) -> None:
    """Neither over a person's open sitting nor with the key of an entry."""
    sitting = crew.begins_sitting("ben")
    crew.reads("ada", "fresh_pasta")
    assert "already sent" in english(refused(start(crew, key=sitting.id)).reason)
    assert "already sent" in english(refused(start(crew, key="key-1")).reason)
    assert find_sitting(crew.k, sitting.id) == sitting


def test_an_answer_is_kept_at_once_and_may_be_changed(crew: Crew) -> None:
    """The last one counts; what it was understood as comes back, and not whether it is right."""
    sitting = crew.begins_sitting()
    first = answer_question(crew.k, sitting=sitting.id, index=1, text=" 12 ", now=crew.now)
    assert isinstance(first, Answered)
    assert first.problem is None
    assert "12" in english(first.understood)
    assert not hasattr(first, "is_right")
    answer_question(crew.k, sitting=sitting.id, index=1, text="13", now=crew.now)
    kept = find_sitting(crew.k, sitting.id)
    assert kept is not None
    assert (kept.answers, kept.next_unanswered, kept.unanswered) == ({1: "13"}, 0, (0, 2, 3))


@pytest.mark.parametrize("text", ["", "many", "12 gallons of milk", "1/0", "NaN", "x" * 5000])
def test_an_unusable_answer_is_asked_again_and_not_kept(crew: Crew, text: str) -> None:
    """Never graded wrong, and the answer given before stays."""
    sitting = crew.begins_sitting()
    answer_question(crew.k, sitting=sitting.id, index=0, text="12", now=crew.now)
    found = answer_question(crew.k, sitting=sitting.id, index=0, text=text, now=crew.now)
    assert isinstance(found, Answered)
    assert found.problem
    kept = find_sitting(crew.k, sitting.id)
    assert kept is not None
    assert kept.answers == {0: "12"}


@pytest.mark.parametrize("index", [-1, 4])
def test_a_question_that_is_not_there_is_refused(crew: Crew, index: int) -> None:
    """There are four, from 0 to 3."""
    sitting = crew.begins_sitting()
    found = answer_question(crew.k, sitting=sitting.id, index=index, text="1", now=crew.now)
    assert refused(found).field == "index"


def test_a_sitting_that_is_not_open_takes_no_answer(crew: Crew) -> None:
    """Nor is it finished."""
    assert "not open" in english(refused(answer_question(crew.k, sitting="no", index=0, text="1", now=crew.now)).reason)
    assert "not open" in english(refused(finish_sitting(crew.k, sitting="no", now=crew.now, key=crew.key())).reason)


def test_a_practical_is_no_sitting(crew: Crew) -> None:
    """An id of another kind of draft finds nothing."""
    assert find_sitting(crew.k, crew.begins_practical().id) is None


def test_every_question_is_answered_before_the_end(crew: Crew) -> None:
    """The places are named as the cook counts them."""
    sitting = crew.begins_sitting()
    answer_question(crew.k, sitting=sitting.id, index=1, text="12", now=crew.now)
    outcome = finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key())
    assert english(refused(outcome).reason) == "These questions have no answer yet: 1, 3, 4."


def test_a_finished_sitting_is_one_entry_with_everything_in_it(crew: Crew) -> None:
    """10 CFR 55.59(c)(5), from memory: the questions, the answers given and the grading are kept."""
    sitting = crew.begins_sitting(seed=42)
    crew.answers(sitting, right=3)
    entry = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
    body = entry.body
    assert (entry.kind, entry.cook, entry.by) == ("quiz_sat", "ada", "ada")
    assert (body["technique"], body["edition"], body["seed"], body["grader"]) == ("fresh_pasta", 1, 42, GRADER)
    assert (body["right"], body["asked"], body["need"], body["passed"]) == (3, 4, 3, True)
    assert [line["right"] for line in body["questions"]] == [True, True, True, False]
    assert [line["seed"] for line in body["questions"]] == [question.seed for question in sitting.questions]
    assert open_sitting(crew.k, cook="ada", technique="fresh_pasta") is None
    assert crew.k.progress().record("ada").sat[-1].passed


def test_too_few_right_is_no_pass(crew: Crew) -> None:
    """Two of four, three needed."""
    sitting = crew.begins_sitting()
    crew.answers(sitting, right=2)
    entry = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
    assert (entry.body["right"], entry.body["passed"]) == (2, False)


def test_the_safety_questions_of_a_fixed_quiz_have_a_floor(crew: Crew) -> None:
    """Four of five right with three needed, but the one about safety is wrong: not passed, and the book says why."""
    holding = QuestionSetting("discard_time", {}, {}, 1)
    taught = crew.k.content.techniques["fresh_pasta"]
    crew.k.content = with_technique(crew.k.content, "fresh_pasta", questions=(*taught.questions, holding))
    sitting = crew.begins_sitting()
    crew.answers(sitting, right=4)
    body = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key())).body
    assert (body["right"], body["asked"], body["need"], body["passed"], body["safety_percent"]) == (4, 5, 3, False, 70)
    assert [asked["safety"] for asked in body["questions"]] == [False] * 4 + [True]


def test_a_technique_may_set_its_own_floor_and_waits(crew: Crew) -> None:
    """Without a floor four of five pass; without a wait a failed quiz may be sat at once."""
    holding = QuestionSetting("discard_time", {}, {}, 1)
    taught = crew.k.content.techniques["fresh_pasta"]
    questions = (*taught.questions, holding)
    crew.k.content = with_technique(crew.k.content, "fresh_pasta", questions=questions, safety_percent=0, waits=(0, 2))
    for right, passed in ((0, False), (4, True)):
        sitting = crew.begins_sitting()
        crew.answers(sitting, right=right)
        entry = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
        assert entry.body["passed"] is passed


def test_a_wrong_method_is_named_in_the_book(crew: Crew) -> None:
    """An answer made by a known wrong method carries its name."""
    sitting = crew.begins_sitting()
    crew.answers(sitting, right=4)
    wrong = sitting.questions[0].wrong_methods[0]
    answer_question(crew.k, sitting=sitting.id, index=0, text=str(wrong.value), now=crew.now)
    entry = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
    assert entry.body["questions"][0]["method"] == wrong.name
    assert entry.body["questions"][1]["method"] is None


def test_finishing_twice_is_one_entry(crew: Crew) -> None:
    """The same key gives the entry there; another key finds the sitting closed; a key of another deed is refused."""
    sitting = crew.begins_sitting()
    crew.answers(sitting, right=4)
    first = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key="end"))
    assert saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.later(minutes=5), key="end")) == first
    assert "not open" in english(refused(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key="other")).reason)
    assert "already sent" in english(
        refused(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key="key-1")).reason
    )
    assert len(crew.entries("quiz_sat")) == 1


def test_a_sitting_the_book_will_not_take_stays_open(crew: Crew) -> None:
    """Nothing the cook typed is lost."""
    sitting = crew.begins_sitting()
    crew.answers(sitting, right=4)
    refused(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=""))
    assert find_sitting(crew.k, sitting.id) is not None


def test_questions_that_cannot_be_drawn_are_refused(crew: Crew) -> None:
    """A family nobody knows is a fault of the content, said in words."""
    broken = (QuestionSetting("no_such_family", {}, {}, 2),)
    crew.k.content = with_technique(crew.k.content, "fresh_pasta", questions=broken)
    crew.reads("ada", "fresh_pasta")
    found = refused(start(crew))
    assert "cannot be drawn" in english(found.reason)
    assert "no_such_family" in english(found.reason)
