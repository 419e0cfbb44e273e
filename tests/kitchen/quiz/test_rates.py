"""What the quiz of a technique really does, for its author."""

from __future__ import annotations

import pytest

from tests.kitchen.kitchen_for_tests import technique
from tests.printed import english
from trainer.kitchen.quiz.rates import quiz_rates
from trainer.kitchen.quiz.sequential_test import Plan
from trainer.kitchen.technique import QuestionSetting

UNITS = QuestionSetting("unit_conversion", {}, {}, 10)
HOLDING = QuestionSetting("discard_time", {}, {}, 1)


def test_a_fixed_quiz_is_judged_for_the_same_two_cooks() -> None:
    """8 of 10 is passed by 16.73 % of those who know 60 %, and by 82.02 % of those who know 85 % (binomial table)."""
    found = quiz_rates(technique("t", questions=(UNITS,), need_right=8))
    assert (found.decides, english(found.rule)) == (False, "8 of 10 right")
    assert float(found.rates.false_pass) == pytest.approx(0.1673, abs=6e-5)
    assert float(1 - found.rates.false_fail) == pytest.approx(0.8202, abs=6e-5)


def test_a_quiz_that_decides_is_judged_with_its_end() -> None:
    """Cut off at 25, the usual plan gives .0773 and .0871 (worked out outside this project)."""
    found = quiz_rates(technique("t", questions=(UNITS,), plan=Plan()))
    assert found.decides
    rates = float(found.rates.false_pass), float(found.rates.false_fail)
    assert rates == pytest.approx((0.0773, 0.0871), abs=6e-5)
    assert "passes 7.7 times in 100" in english(found.words)


def test_the_safety_floor_is_taken_in() -> None:
    """One question in eleven about safety: fewer pass wrongly, more are held back."""
    without = quiz_rates(technique("t", questions=(UNITS,), plan=Plan())).rates
    found = quiz_rates(technique("t", questions=(UNITS, HOLDING), plan=Plan())).rates
    assert found.false_pass < without.false_pass
    assert found.false_fail > without.false_fail


def test_a_fixed_quiz_says_its_floor_and_counts_with_it() -> None:
    """10 of 11 with one about safety: the one must be right, and the rule says so."""
    found = quiz_rates(technique("t", questions=(UNITS, HOLDING), need_right=10))
    assert english(found.rule) == "10 of 11 right, and 70 % of those about safety"
    free = quiz_rates(technique("t", questions=(UNITS, HOLDING), need_right=10, safety_percent=0))
    assert english(free.rule) == "10 of 11 right"
    assert found.rates.false_pass < free.rates.false_pass
    assert found.rates.false_fail > free.rates.false_fail
