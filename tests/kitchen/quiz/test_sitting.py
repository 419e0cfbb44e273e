"""Results of a sitting, in whole numbers."""

from __future__ import annotations

import pytest

from trainer.kitchen.quiz.question import Grade
from trainer.kitchen.quiz.sitting import Result, named_methods, need_for, result

RIGHT = Grade(is_right=True, method=None, says="Right.", understood="4 lb")
UNREAD = Grade(is_right=None, method=None, says="", understood="", problem="no number")


def wrong(method: str | None = None) -> Grade:
    return Grade(is_right=False, method=method, says="", understood="5 lb")


def test_seventy_eight_of_ninety_eight_is_not_eighty_percent() -> None:
    """78 of 98 is 79.59 %: not rounded up to 80 (US Nuclear Regulatory Commission, CLI-97-10, 7 August 1997)."""
    assert need_for(80, 98) == 79
    grades = [RIGHT] * 78 + [wrong()] * 20
    assert result(grades, need_for(80, 98)) == Result(78, 98, 79, passed=False)


@pytest.mark.parametrize(("percent", "asked", "need"), [(80, 10, 8), (70, 9, 7), (100, 5, 5), (0, 5, 0), (75, 3, 3)])
def test_a_part_of_a_question_is_a_whole_one(percent: int, asked: int, need: int) -> None:
    """The need is rounded up, so the percentage is always reached (counted by hand)."""
    assert need_for(percent, asked) == need


def test_as_many_right_as_needed_passes() -> None:
    """Eight of ten passes with a need of eight; seven does not."""
    assert result([RIGHT] * 8 + [wrong()] * 2, 8).passed is True
    assert result([RIGHT] * 7 + [wrong()] * 3, 8).passed is False


def test_an_answer_nobody_could_read_is_not_right() -> None:
    """A blank at the end of a sitting is asked, and is not right."""
    assert result([RIGHT, UNREAD], 2) == Result(1, 2, 2, passed=False)


def test_nothing_asked_is_nothing_passed() -> None:
    """An empty sitting passes nobody, whatever the need."""
    assert result([], 0).passed is False


def test_a_wrong_method_is_named_from_the_second_time_on() -> None:
    """One wrong answer is a slip; the same method twice is a method (VanLehn 1982), the most frequent first."""
    grades = [wrong("a"), wrong("b"), wrong("b"), wrong("c"), wrong("a"), wrong("b"), wrong(), wrong(), RIGHT]
    assert named_methods(grades) == ("b", "a")
    assert named_methods([]) == ()
