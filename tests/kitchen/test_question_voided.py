"""A voided question: from that day every sitting that asked it is scored without it, and clearance follows."""

from __future__ import annotations

from datetime import date, timedelta

from tests.kitchen.kitchen_for_tests import FIRST, Scribe, answered
from trainer.kitchen.clearance import technique_standing
from trainer.kitchen.progress import Progress
from trainer.kitchen.quiz.rescoring import QuestionKey, Score
from trainer.kitchen.sitting_result import SittingResult

SECOND, THIRD = FIRST + timedelta(days=1), FIRST + timedelta(days=2)
THREE_OF_FOUR = [answered(1, right=True), *(answered(seed, right=seed != 4) for seed in (2, 3, 4))]


def sat_on(progress: Progress, cook: str, on: date) -> SittingResult:
    """Return a cook's last sitting as it counts on a day."""
    return progress.record(cook).as_of(on).sat[-1]


def test_it_counts_from_its_day_on_and_earlier_days_stay_as_they_were() -> None:
    """Three of four with three needed pass; without a right one two of three do not (75 % of 3 is 2.25, so 3)."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.answers("ada", "fresh_pasta", FIRST, THREE_OF_FOUR)
    scribe.voids_question("ada", THIRD, seed=1)
    progress = scribe.progress()
    assert sat_on(progress, "ada", SECOND).passed
    now = sat_on(progress, "ada", THIRD)
    assert (now.right, now.asked, now.need, now.passed, now.failed) == (2, 3, 3, False, True)
    assert now.before == Score(3, 4, 3, passed=True)
    assert sat_on(progress, "ada", SECOND).before is None


def test_the_standing_in_the_technique_follows() -> None:
    """The quiz counts on the day before and is missing from the day of the void."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.reads("ada", "fresh_pasta", FIRST)
    scribe.answers("ada", "fresh_pasta", FIRST, THREE_OF_FOUR)
    scribe.voids_question("ada", THIRD, seed=1)
    pasta = scribe.content.techniques["fresh_pasta"]
    passed = [technique_standing("ada", pasta, scribe.progress(), on).quiz_passed for on in (SECOND, THIRD)]
    assert passed == [True, False]


def test_everybody_who_was_asked_it_is_scored_again() -> None:
    """Anyone who's sitting it was seen in; a sitting that did not ask it stays."""
    scribe = Scribe()
    for cook in ("ada", "ben", "cy"):
        scribe.joins(cook)
    scribe.answers("ada", "fresh_pasta", FIRST, THREE_OF_FOUR)
    scribe.answers("ben", "fresh_pasta", FIRST, [answered(seed, right=True) for seed in (1, 7, 8, 9)])
    scribe.answers("cy", "fresh_pasta", FIRST, [answered(seed, right=True) for seed in (5, 6, 7, 8)])
    scribe.voids_question("ada", SECOND, seed=1)
    progress = scribe.progress()
    assert [sat_on(progress, cook, SECOND).asked for cook in ("ada", "ben", "cy")] == [3, 3, 4]
    assert sat_on(progress, "ben", SECOND).passed


def test_a_later_sitting_and_a_later_cook_are_scored_without_it_too() -> None:
    """The fold caught up in parts holds the same as the fold at once."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.answers("ada", "fresh_pasta", FIRST, THREE_OF_FOUR)
    scribe.voids_question("ada", SECOND, seed=1)
    first = scribe.progress()
    scribe.joins("ben", THIRD)
    scribe.answers("ben", "fresh_pasta", THIRD, THREE_OF_FOUR)
    in_parts = first.with_entries(scribe.entries)
    assert sat_on(in_parts, "ben", THIRD).asked == 3
    for cook in ("ada", "ben"):
        assert in_parts.record(cook) == scribe.progress().record(cook)
    assert sat_on(first, "ada", THIRD).asked == 3


def test_a_void_taken_back_brings_the_old_score_back() -> None:
    """From the day the void's own entry is voided."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.answers("ada", "fresh_pasta", FIRST, THREE_OF_FOUR)
    scribe.voids(scribe.voids_question("ada", SECOND, seed=1), THIRD)
    progress = scribe.progress()
    assert [sat_on(progress, "ada", on).asked for on in (FIRST, SECOND, THIRD)] == [4, 3, 4]


def test_the_record_says_which_question_and_why() -> None:
    """With its cook's lines, for the book page."""
    scribe = Scribe()
    scribe.joins("ada")
    entry = scribe.voids_question("ada", SECOND, seed=3)
    line = scribe.progress().record("ada").questions_voided[-1]
    assert (line.entry, line.question, line.reason) == (entry, QuestionKey("discard_time", 3), "the number is wrong")


def test_a_voided_answer_shows_no_method() -> None:
    """What does not count is not held against anybody: the question is gone from the line."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.answers("ada", "fresh_pasta", FIRST, THREE_OF_FOUR)
    scribe.voids_question("ada", SECOND, seed=4)
    assert [asked["seed"] for asked in sat_on(scribe.progress(), "ada", SECOND).kept["questions"]] == [1, 2, 3]
