"""Results of a sitting, in whole numbers."""

from __future__ import annotations

import pytest

from tests.printed import english
from trainer.kitchen.quiz.sitting import Result, Tally, count_kept, need_for, needed_in_words, result


def test_seventy_eight_of_ninety_eight_is_not_eighty_percent() -> None:
    """78 of 98 is 79.59 %: not rounded up to 80 (US Nuclear Regulatory Commission, CLI-97-10, 7 August 1997)."""
    assert need_for(80, 98) == 79
    assert result(Tally(78, 98), need_for(80, 98)) == Result(78, 98, 79, passed=False)


@pytest.mark.parametrize(("percent", "asked", "need"), [(80, 10, 8), (70, 9, 7), (100, 5, 5), (0, 5, 0), (75, 3, 3)])
def test_a_part_of_a_question_is_a_whole_one(percent: int, asked: int, need: int) -> None:
    """The need is rounded up, so the percentage is always reached (counted by hand)."""
    assert need_for(percent, asked) == need


def test_as_many_right_as_needed_passes() -> None:
    """Eight of ten passes with a need of eight; seven does not."""
    assert result(Tally(8, 10), 8).passed is True
    assert result(Tally(7, 10), 8).passed is False


def test_nothing_asked_is_nothing_passed() -> None:
    """An empty sitting passes nobody, whatever the need."""
    assert result(Tally(0, 0), 0).passed is False


@pytest.mark.parametrize(
    ("safety_right", "safety_asked", "percent", "passed"),
    [(2, 3, 70, False), (3, 3, 70, True), (7, 10, 70, True), (6, 9, 70, False), (0, 0, 70, True), (0, 3, 0, True)],
)
def test_the_safety_questions_have_a_floor_of_their_own(
    safety_right: int, safety_asked: int, percent: int, passed: bool
) -> None:
    """Beside the whole, 70 % of a category (NRC GL 84-06 asks so for each): 2 of 3 is 67 %, 6 of 9 is 67 %."""
    count = Tally(15, 16, safety_right, safety_asked)
    assert result(count, 13, percent) == Result(15, 16, 13, passed)


def test_what_was_missed_is_said() -> None:
    """The need where that was missed, the floor where only that was."""
    assert english(needed_in_words(Tally(9, 10, 1, 2), 8, 70)) == (
        "9 of 10 right, but only 1 of 2 about safety. Of those, 2 must be right to pass."
    )
    assert english(needed_in_words(Tally(7, 10, 1, 2), 8, 70)) == "8 needed."
    assert english(needed_in_words(Tally(9, 10, 2, 2), 8, 70)) == "8 needed."


def test_a_sitting_kept_before_there_was_a_floor_counts_no_safety() -> None:
    """Its questions do not say whether they are about safety: it stays as it was."""
    old = {"questions": [{"right": True}, {"right": False, "safety": True}]}
    assert count_kept(old) == Tally(1, 2, 0, 1)
