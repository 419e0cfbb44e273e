"""First tries at each kind of question: people counted once, and a share said of enough of them alone."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from trainer.kitchen.first_tries import FEWEST_COOKS, FirstTries, first_tries, teaching_fails
from trainer.kitchen.skills.fold import Act, Happening
from trainer.kitchen.skills.rule import Terms

DAY = date(2026, 11, 3)
TERMS = Terms(3, 3, 6)


def answer(skill: str, act: Act = "right", seed: int = 1) -> Happening:
    """Return an answer in a skill."""
    return Happening(DAY, skill, act, TERMS, seed=seed)


def test_a_cook_counts_once_and_by_the_first_answer_in_each_skill() -> None:
    """Wrong at first and right ever after is missed; right at first and wrong later is not."""
    ada = [answer("weigh", "wrong"), answer("weigh"), answer("weigh")]
    ben = [answer("weigh"), answer("weigh", "wrong"), answer("weigh", "wrong")]
    assert first_tries({"ada": ada, "ben": ben}) == (FirstTries("weigh", 1, 2),)


def test_rounded_too_early_is_missed_and_a_drill_is_no_try() -> None:
    """Nor is what an earlier kind of quiz carried over."""
    ada = [answer("weigh", "rounded_early"), answer("weigh")]
    ben = [answer("weigh", "drill", seed=-1), answer("weigh", "old_wrong"), answer("weigh")]
    assert first_tries({"ada": ada, "ben": ben}) == (FirstTries("weigh", 1, 2),)


def test_most_missed_comes_first_and_what_nobody_was_asked_not_at_all() -> None:
    """Two cooks missed the reduction, one the weighing."""
    ada = [answer("weigh", "wrong"), answer("reduce", "wrong")]
    found = first_tries({"ada": ada, "ben": [answer("reduce", "wrong")]})
    assert [(one.skill, one.missed, one.cooks) for one in found] == [("reduce", 2, 2), ("weigh", 1, 1)]


@pytest.mark.parametrize(("cooks", "is_enough"), [(29, False), (30, True)])
def test_a_share_takes_thirty_people(cooks: int, is_enough: bool) -> None:
    """Linacre (1994), Rasch Measurement Transactions 7:4, 328 (from memory): 27 to 61 people for half a logit."""
    assert FirstTries("pasta", 1, cooks).is_enough is is_enough
    assert FEWEST_COOKS == 30


def test_the_share_of_all_cooks_lies_in_wilsons_interval() -> None:
    """Newcombe (1998), Statistics in Medicine 17:857-872, method 3: 81 of 263 is 0.2553 to 0.3662 (from memory)."""
    found = FirstTries("pasta", 81, 263).likely
    assert abs(found.low - Fraction("0.2553")) <= Fraction("0.00006")
    assert abs(found.high - Fraction("0.3662")) <= Fraction("0.00006")


def test_teaching_fails_only_where_more_miss_than_chance_makes() -> None:
    """20 of 30 against a house of 40 of 130: Wilson from 48.8 percent up, the house 30.8. 11 of 30 may be chance.

    Wilson's low end of 20 in 30 by its formula, NIST/SEMATECH e-Handbook, section 7.2.4.1, by hand: 0.488.
    """
    others = FirstTries("stock", 20, 100)
    assert teaching_fails(FirstTries("pasta", 20, 30), (FirstTries("pasta", 20, 30), others))
    assert not teaching_fails(FirstTries("pasta", 11, 30), (FirstTries("pasta", 11, 30), others))
    assert not teaching_fails(FirstTries("pasta", 29, 29), (FirstTries("pasta", 29, 29), others))
