"""A finished sitting scored again without a voided question."""

from __future__ import annotations

from typing import Any

from tests.kitchen.kitchen_for_tests import answered
from trainer.kitchen.quiz.rescoring import QuestionKey, Score, score_kept, score_without
from trainer.kitchen.quiz.sequential_test import Plan, kept


def body(*rights: bool, need: int, passed: bool, **more: Any) -> dict[str, Any]:
    """Return a sitting's body; the question at place n has the seed n."""
    questions = [answered(seed, right=right) for seed, right in enumerate(rights)]
    return {"questions": questions, "right": sum(rights), "asked": len(rights), "need": need, "passed": passed, **more}


def seeds(*numbers: int) -> set[QuestionKey]:
    """Return the keys of the questions with these seeds."""
    return {QuestionKey("discard_time", number) for number in numbers}


R, W = True, False
DECIDED = {"plan": kept(Plan())}


def test_a_sitting_without_the_voided_question_stays_as_it_was() -> None:
    """Neither its seed with another family nor its family with another seed is meant."""
    sat = body(R, R, W, need=2, passed=True)
    assert score_without(sat, {QuestionKey("date_mark", 1), QuestionKey("discard_time", 9)}) == score_kept(sat)
    assert score_kept(sat) == Score(2, 3, 2, passed=True)


def test_seventy_eight_of_ninety_eight_still_fails_at_eighty_percent() -> None:
    """US NRC, CLI-97-10 (7 August 1997): of 100 questions 2 are voided, 78 of 98 are right: 79.59 % is no 80."""
    sat = body(*[R] * 79, *[W] * 21, need=80, passed=False)
    assert score_without(sat, seeds(0, 99)) == Score(78, 98, 79, passed=False)


def test_a_voided_wrong_answer_may_pass_a_sitting() -> None:
    """7 of 10 with 8 needed fails; without three wrong ones 7 of 7 pass (80 % of 7 is 5.6, so 6)."""
    sat = body(*[R] * 7, W, W, W, need=8, passed=False)
    assert score_without(sat, seeds(7)) == Score(7, 9, 8, passed=False)
    assert score_without(sat, seeds(7, 8)) == Score(7, 8, 7, passed=True)


def test_a_voided_right_answer_may_undo_a_pass() -> None:
    """8 of 10 pass; 7 of 9 are 77.8 % and do not."""
    sat = body(*[R] * 8, W, W, need=8, passed=True)
    assert score_without(sat, seeds(0)) == Score(7, 9, 8, passed=False)


def test_a_sitting_with_nothing_left_says_nothing() -> None:
    """It is neither passed nor failed."""
    assert score_without(body(R, need=1, passed=True), seeds(0)) == Score(0, 0, 0, passed=False, undecided=True)


def test_a_quiz_that_decides_is_scored_by_its_own_plan() -> None:
    """Nine straight right pass; eight say nothing yet. Ten of eleven pass (line 11), and so do ten of ten."""
    straight = body(*[R] * 9, need=9, passed=True, **DECIDED)
    assert score_without(straight, seeds(0)) == Score(8, 8, 9, passed=False, undecided=True)
    eleven = body(W, *[R] * 11, need=12, passed=False, **DECIDED)
    assert score_without(eleven, seeds(0)) == Score(11, 11, 11, passed=True)


def test_a_fail_may_be_left_undecided() -> None:
    """Three straight wrong fail; two are not enough to tell."""
    sat = body(W, W, W, need=4, passed=False, **DECIDED)
    assert score_without(sat, seeds(1)) == Score(0, 2, 3, passed=False, undecided=True)


def test_a_sitting_that_went_to_the_most_questions_is_still_decided() -> None:
    """25 asked, one voided: of 24 the likelier cook decides, from .7379 * 24 = 17.7, so 18, on (by hand)."""
    sat = body(*[R] * 18, *[W] * 7, need=19, passed=False, **DECIDED)
    assert score_without(sat, seeds(24)) == Score(18, 24, 18, passed=True)
    assert score_without(sat, seeds(0)) == Score(17, 24, 18, passed=False)


def test_the_safety_floor_counts_the_questions_left() -> None:
    """Two of three about safety is under 70 %; without the wrong one it is two of two."""
    sat = body(*[R] * 11, W, need=12, passed=False, **DECIDED)
    for place in (0, 1, 11):
        sat["questions"][place]["safety"] = True
    assert score_without(sat, seeds(5)) == Score(10, 11, 11, passed=False, undecided=True)
    assert score_without(sat, seeds(11)) == Score(11, 11, 11, passed=True)


def test_a_quiz_of_fixed_length_keeps_its_safety_floor() -> None:
    """Of two about safety one is right: 8 of 10 do not pass at 70 %; 8 of 9 without the wrong one do."""
    sat = body(*[R] * 8, W, W, need=8, passed=False, safety_percent=70)
    for place in (0, 9):
        sat["questions"][place]["safety"] = True
    assert score_without(sat, seeds(8)) == Score(8, 9, 8, passed=False)
    assert score_without(sat, seeds(9)) == Score(8, 9, 8, passed=True)


def test_a_sitting_kept_before_there_was_a_floor_has_none() -> None:
    """It is scored by its need alone, as it was then."""
    sat = body(*[R] * 8, W, W, need=8, passed=True)
    sat["questions"][9]["safety"] = True
    assert score_without(sat, seeds(8)) == Score(8, 9, 8, passed=True)
