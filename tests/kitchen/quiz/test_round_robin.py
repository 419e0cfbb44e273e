"""Questions for a quiz that decides."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.kitchen.kitchen_for_tests import technique
from tests.kitchen.quiz.asking import WORDS
from tests.printed import english
from trainer.kitchen.quiz.drawing import CannotDraw
from trainer.kitchen.quiz.round_robin import draw_in_turn, is_about_safety, safety_places, settings_in_turn
from trainer.kitchen.quiz.sequential_test import Plan
from trainer.kitchen.technique import QuestionSetting
from trainer.messages import message

DECIDING = technique(
    "holding",
    questions=(
        QuestionSetting("discard_time", {}, {}, 3),
        QuestionSetting("unit_conversion", {}, {}, 1),
        QuestionSetting("cooling_stage", {}, {}, 2),
    ),
    plan=Plan(at_most=12),
)


def only(value: int) -> tuple[Fraction, Fraction, Fraction]:
    """Return a range with one value in it."""
    return Fraction(value), Fraction(value), Fraction(1)


def test_settings_come_in_turn_each_as_often_in_a_round_as_its_count() -> None:
    """Three, one and two make a round of six; then it begins again."""
    asked = [setting.family[:1] for setting in settings_in_turn(DECIDING.questions, 8)]
    assert "".join(asked) == "ducdcddu"


def test_no_settings_give_no_questions() -> None:
    """There is nothing to take turns."""
    assert settings_in_turn((), 5) == ()


def test_questions_are_drawn_in_turn_all_different() -> None:
    """Twelve questions, twelve of them different in numbers or words, the families by turns."""
    drawn = draw_in_turn(DECIDING, 7, 12, WORDS)
    assert len({question.asks for question in drawn}) == 12
    assert [question.family for question in drawn] == [s.family for s in settings_in_turn(DECIDING.questions, 12)]


def test_more_questions_begin_with_the_same_ones() -> None:
    """So that a sitting can be drawn again as far as it went; another seed is another sitting."""
    assert draw_in_turn(DECIDING, 7, 12, WORDS)[:5] == draw_in_turn(DECIDING, 7, 5, WORDS)
    assert draw_in_turn(DECIDING, 7, 5, WORDS) != draw_in_turn(DECIDING, 8, 5, WORDS)


def test_a_setting_too_narrow_for_the_most_questions_cannot_be_drawn() -> None:
    """Two losses make two questions, and three may be asked."""
    ranges = {
        "batch_pounds": only(20),
        "loss_percent": (Fraction(15), Fraction(16), Fraction(1)),
        "portion_ounces": only(3),
    }
    narrow = replace(DECIDING, questions=(QuestionSetting("portions_from_batch", {"food": ("gnocchi",)}, ranges, 1),))
    assert len(draw_in_turn(narrow, 7, 2, WORDS)) == 2
    with pytest.raises(CannotDraw, match="too few"):
        draw_in_turn(narrow, 7, 3, WORDS)


def test_families_with_a_caution_are_about_safety() -> None:
    """Cooling and discarding are (common practice: time and temperature); units, and families nobody knows, are not."""
    assert is_about_safety("discard_time")
    assert not is_about_safety("unit_conversion")
    assert not is_about_safety("no_such_family")
    assert safety_places(DECIDING) == (True, False, True, True, True, True) * 2


def test_the_rule_is_told_for_both_kinds_of_quiz() -> None:
    """A fixed quiz names its need; one that decides names its shortest way, nine straight right, and its end."""
    assert technique("t", questions=DECIDING.questions, need_right=5).quiz_rule == message(
        "{need} of {asked} right", need=5, asked=6
    )
    rule = replace(DECIDING, plan=Plan()).quiz_rule
    assert english(rule) == "it ends when the answers decide, after 9 straight right or 25 at the most"
    assert (DECIDING.asked, replace(DECIDING, plan=None).asked) == (12, 6)
