"""A quiz that decides: every answer stands, the sitting ends by itself, and a fail asks for a wait."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from tests.actions.crew import Crew, refused, saved
from tests.kitchen.kitchen_for_tests import with_technique
from tests.printed import english
from trainer.actions.sitting import (
    Answered,
    answer_question,
    find_sitting,
    finish_sitting,
    open_sitting,
    sits_again_from,
    start_sitting,
)
from trainer.actions.sitting_drafts import Sitting
from trainer.kitchen.quiz.sequential_test import Plan, kept
from trainer.kitchen.technique import QuestionSetting

HOLDING = (QuestionSetting("unit_conversion", {}, {}, 2), QuestionSetting("discard_time", {}, {}, 1))


@pytest.fixture
def deciding(crew: Crew) -> Crew:
    """Return the crew in a kitchen whose fresh pasta is decided by the usual plan, one question in three on safety."""
    crew.k.content = with_technique(crew.k.content, "fresh_pasta", questions=HOLDING, plan=Plan())
    return crew


def answer(crew: Crew, sitting: Sitting, index: int, *, right: bool) -> Answered:
    """Answer one question, right or with a number that is none of the wrong methods'."""
    value = sitting.questions[index].answer.value
    text = str(value if right else value * 1000 + 77)
    found = answer_question(crew.k, sitting=sitting.id, index=index, text=text, now=crew.now)
    assert isinstance(found, Answered), found
    assert found.problem is None
    return found


def answer_in_turn(crew: Crew, sitting: Sitting, rights: str) -> Answered:
    """Answer from the first question on, R right and W wrong; return the last answer."""
    return [answer(crew, sitting, index, right=sign == "R") for index, sign in enumerate(rights)][-1]


def begin(crew: Crew, **changes: Any) -> object:
    """Start a sitting of fresh pasta, read before."""
    named = {"seed": 7, "now": crew.now, "key": crew.key(), **changes}
    return start_sitting(crew.k, cook="ada", technique="fresh_pasta", **named)


def test_nine_straight_right_end_it_with_a_pass(deciding: Crew) -> None:
    """At .60 and .85 (Wald 1947): after eight it goes on with 17 at most left, the ninth decides."""
    sitting = deciding.begins_sitting()
    eighth = answer_in_turn(deciding, sitting, "RRRRRRRR")
    assert (eighth.left, eighth.entry) == (17, None)
    last = answer(deciding, sitting, 8, right=True)
    assert last.entry is not None
    assert last.left == 0
    body = last.entry.body
    assert (body["right"], body["asked"], body["need"], body["passed"]) == (9, 9, 9, True)
    assert open_sitting(deciding.k, cook="ada", technique="fresh_pasta") is None
    assert deciding.k.progress().record("ada").sat[-1].passed


def test_three_straight_wrong_end_it_with_a_fail(deciding: Crew) -> None:
    """The need says four of three: nothing passes yet after three."""
    last = answer_in_turn(deciding, deciding.begins_sitting(), "WWW")
    assert last.entry is not None
    body = last.entry.body
    assert (body["right"], body["asked"], body["need"], body["passed"]) == (0, 3, 4, False)


def test_it_ends_at_the_most_questions(deciding: Crew) -> None:
    """Three right, one wrong over and over stays between the lines to the last: 18 of 25 is under 19."""
    deciding.k.content = with_technique(
        deciding.k.content, "fresh_pasta", questions=(QuestionSetting("unit_conversion", {}, {}, 1),)
    )
    last = answer_in_turn(deciding, deciding.begins_sitting(), "RRRW" * 6 + "W")
    assert last.entry is not None
    body = last.entry.body
    assert (body["right"], body["asked"], body["need"], body["passed"]) == (18, 25, 19, False)


def test_the_entry_can_be_read_again_from_the_book_alone(deciding: Crew) -> None:
    """The plan, and of each question whether it is about safety, are kept with the answers."""
    last = answer_in_turn(deciding, deciding.begins_sitting(seed=42), "RRRRRRRRR")
    assert last.entry is not None
    body = last.entry.body
    assert body["plan"] == kept(Plan())
    assert [asked["safety"] for asked in body["questions"]] == [False, True, False] * 3
    assert (body["seed"], len(body["questions"]), last.entry.key) == (42, 9, last.entry.key)


def test_a_pass_waits_for_the_questions_about_safety(deciding: Crew) -> None:
    """14 of 16 reaches 2.175 + .7379 * 16 = 13.98 (by hand), but of 5 about safety 3 are right, and 4 are needed."""
    sitting = deciding.begins_sitting()
    last = answer_in_turn(deciding, sitting, "RWRRW" + "R" * 11)
    assert last.entry is None
    kept_sitting = find_sitting(deciding.k, sitting.id)
    assert kept_sitting is not None
    assert kept_sitting.standing is not None
    assert "about safety" in english(kept_sitting.standing.words)


def test_an_answer_stands(deciding: Crew) -> None:
    """There is no going back, and no going ahead."""
    sitting = deciding.begins_sitting()
    answer(deciding, sitting, 0, right=True)
    again = answer_question(deciding.k, sitting=sitting.id, index=0, text="1", now=deciding.now)
    assert english(refused(again).reason) == "Your answer to question 1 stands."
    ahead = answer_question(deciding.k, sitting=sitting.id, index=2, text="1", now=deciding.now)
    assert english(refused(ahead).reason) == "Question 3 is not asked yet."
    assert (
        refused(answer_question(deciding.k, sitting=sitting.id, index=25, text="1", now=deciding.now)).field == "index"
    )


def test_an_unusable_answer_is_asked_again_and_decides_nothing(deciding: Crew) -> None:
    """It is never graded wrong."""
    sitting = deciding.begins_sitting()
    found = answer_question(deciding.k, sitting=sitting.id, index=0, text="many", now=deciding.now)
    assert isinstance(found, Answered)
    assert found.problem
    kept_sitting = find_sitting(deciding.k, sitting.id)
    assert kept_sitting is not None
    assert (kept_sitting.answers, kept_sitting.next_unanswered) == ({}, 0)


def test_it_is_not_handed_in_before_it_is_decided(deciding: Crew) -> None:
    """Stopping early is no way to a result."""
    sitting = deciding.begins_sitting()
    answer(deciding, sitting, 0, right=True)
    outcome = finish_sitting(deciding.k, sitting=sitting.id, now=deciding.now, key=deciding.key())
    assert "go on with the next question" in english(refused(outcome).reason)


def test_handing_in_one_that_has_ended_gives_its_entry(deciding: Crew) -> None:
    """Whatever key the page sends: there is one entry."""
    sitting = deciding.begins_sitting()
    last = answer_in_turn(deciding, sitting, "WWW")
    assert saved(finish_sitting(deciding.k, sitting=sitting.id, now=deciding.now, key=deciding.key())) == last.entry


def test_it_goes_on_where_it_stood(deciding: Crew) -> None:
    """Drawn again from the seed, with the answers given so far."""
    sitting = deciding.begins_sitting()
    answer_in_turn(deciding, sitting, "RW")
    again = begin(deciding, seed=99)
    assert isinstance(again, Sitting)
    assert (again.id, again.drawn, again.next_unanswered) == (sitting.id, sitting.drawn, 2)
    assert again.decides


def test_somebody_who_left_gives_no_more_answers(deciding: Crew) -> None:
    """Refused before anything is kept."""
    sitting = deciding.begins_sitting()
    deciding.write("cook_left", "ada", {"reason": "moved"})
    found = answer_question(deciding.k, sitting=sitting.id, index=0, text="1", now=deciding.now)
    assert english(refused(found).reason) == "Ada is not on the roster."


def test_a_sitting_the_book_will_not_take_loses_no_answer(deciding: Crew, monkeypatch: pytest.MonkeyPatch) -> None:
    """The answer that decides is kept; the refusal is told, and the sitting can be finished by hand."""
    sitting = deciding.begins_sitting()
    answer_in_turn(deciding, sitting, "WW")
    refusal = refused(finish_sitting(deciding.k, sitting="no", now=deciding.now, key="k"))
    with monkeypatch.context() as patched:
        patched.setattr("trainer.actions.sitting.append", lambda k, deed: refusal)
        found = answer_question(deciding.k, sitting=sitting.id, index=2, text="1e6", now=deciding.now)
        assert isinstance(found, Answered)
        assert found.problem
        value = str(sitting.questions[2].answer.value * 1000 + 77)
        assert answer_question(deciding.k, sitting=sitting.id, index=2, text=value, now=deciding.now) == refusal
    entry = saved(finish_sitting(deciding.k, sitting=sitting.id, now=deciding.now, key=deciding.key()))
    assert entry.body["asked"] == 3


@pytest.mark.parametrize(("fails", "waits"), [(1, 1), (2, 3)], ids=["first", "second"])
def test_a_fail_asks_for_a_wait(crew: Crew, fails: int, waits: int) -> None:
    """1, 3 and 14 days, the house's own, after 10 CFR 55.35, from the last fail on; in a quiz of fixed length too."""
    for nth in range(fails):
        if nth:
            crew.later(days=1)
        sitting = crew.begins_sitting()
        crew.answers(sitting, right=0)
        saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
    today = crew.k.today(crew.now)
    found = refused(begin(crew))
    assert str((today + timedelta(days=waits)).day) in english(found.reason)
    assert english(found.who_can) == "A manager can lift the wait."
    assert sits_again_from("ada", "fresh_pasta", crew.k.day(today)) == today + timedelta(days=waits)
    crew.later(days=waits - 1)
    if waits > 1:
        refused(begin(crew))
    crew.later(days=1)
    assert isinstance(begin(crew), Sitting)


def test_a_pass_may_be_sat_anew_at_once(crew: Crew) -> None:
    """Keeping it up needs no wait, and the fails before it are wiped."""
    crew.passes_quiz("ada")
    assert sits_again_from("ada", "fresh_pasta", crew.k.day(crew.k.today(crew.now))) is None
    assert isinstance(begin(crew), Sitting)
