"""The quiz over ten thousand seeds a family: keys, collisions, names and questions a second, as one table."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import pairwise
from math import exp
from time import process_time
from typing import NamedTuple

import pytest

from tests.kitchen.quiz.asking import Asked, draw_question, shown
from tests.kitchen.quiz.worked_by_eye import agrees
from trainer.kitchen.quiz.families import ASKED, CHOICES, NUMERIC
from trainer.kitchen.quiz.family import System
from trainer.kitchen.quiz.grading import grade
from trainer.recipe_math.figures import number_text

SEEDS = 10_000
WANTED = 10_000
BOUND_BY_CONTENT = {name for name, family in CHOICES.items() if family.takes}
"""Families made from a technique's own words: as many questions as those give."""
FORMS: list[tuple[str, System]] = [
    (family, units)
    for family in ASKED
    for units in (("us", "metric") if family in NUMERIC and NUMERIC[family].other else ("",))
]
"""Every family that is asked, in both systems of measures where it has a form in each."""
HEAD = f"{'family':<34}{'a second':>9}{'different':>10}{'wrong keys':>11}{'too close':>10}{'named':>8}{'by chance':>10}"


class Row(NamedTuple):
    """One line of the table."""

    a_second: float
    different: int
    wrong_keys: int
    too_close: int
    named: float
    by_chance: float


def _seconds(family: str, units: System) -> float:
    """Return the processor time to draw and grade every seed once, an answer by a wrong method each."""
    start = process_time()
    for seed in range(SEEDS):
        question = draw_question(family, seed, units=units)
        grade(question, _typed(question.wrong_methods[seed % len(question.wrong_methods)].value), ".")
    return process_time() - start


def _typed(value: Fraction) -> str:
    """Return a value as a person would type it who leaves the rounding to the program: four decimals."""
    return number_text(value, 4)


def _is_too_close(question: Asked) -> bool:
    answer = question.answer
    values = sorted([answer.value, *(wrong.value for wrong in question.wrong_methods)])
    if answer.rounded is not None and len(set(map(answer.rounded.rounded, values))) < len(values):
        return True
    return any(higher - lower <= 2 * answer.tolerance for lower, higher in pairwise(values))


def _named(questions: list[Asked]) -> float:
    """Return the share of answers by a wrong method, typed with four decimals, that are named rightly."""
    rightly = [
        grade(question, _typed(wrong.value), ".").method == wrong.name
        for question in questions
        for wrong in question.wrong_methods
    ]
    return sum(rightly) / len(rightly)


def _by_chance(questions: list[Asked]) -> float:
    """Return the share of random wrong numbers that get a name: from a fifth to five times the key, two decimals.

    For questions with choices a random number is no answer, and none is named.
    """
    rng = random.Random(20260301)  # noqa: S311 - a kept seed
    given = []
    for question in questions:
        value = float(question.answer.value) * exp(rng.uniform(-1.6, 1.6)) or rng.uniform(1, 360)
        given.append(grade(question, f"{value:.2f}", "."))
    wrong = [each for each in given if each.is_right is False]
    return sum(each.method is not None for each in wrong) / max(1, len(wrong))


def _different(family: str, units: System, questions: list[Asked]) -> int:
    """Return how many different questions the seeds give, drawing on until as many as wanted are there."""
    found = {hash(shown(question)) for question in questions}
    seed = SEEDS
    while len(found) < WANTED and seed < 20 * SEEDS and family not in BOUND_BY_CONTENT:
        found.add(hash(shown(draw_question(family, seed, units=units))))
        seed += 1
    return len(found)


def _row(family: str, units: System) -> Row:
    questions = [draw_question(family, seed, units=units) for seed in range(SEEDS)]
    return Row(
        a_second=SEEDS / _seconds(family, units),
        different=_different(family, units, questions),
        wrong_keys=sum(not agrees(question) for question in questions),
        too_close=sum(map(_is_too_close, questions)),
        named=_named(questions),
        by_chance=_by_chance(questions),
    )


@pytest.mark.bench
def test_ten_thousand_questions_of_every_family(capsys: pytest.CaptureFixture[str]) -> None:
    """Ten thousand seeds: no wrong key, no two answers too close, methods named; the speed is printed, not judged.

    A random number meets a wrong method the more often the coarser the step is: a minute in sums of twenty, 7 in 100.
    Errors a cook would make are in tests/kitchen/quiz/test_seeds.py.
    """
    rows = {form: _row(*form) for form in FORMS}
    with capsys.disabled():
        print(f"\n{HEAD}")
        for (family, units), row in rows.items():
            bound = " bound by content" if family in BOUND_BY_CONTENT else ""
            form = f"{family} {units}"
            print(
                f"{form:<34}{row.a_second:>9.0f}{row.different:>10}{row.wrong_keys:>11}{row.too_close:>10}"
                f"{row.named:>8.2%}{row.by_chance:>10.2%}{bound}"
            )
    for (family, units), row in rows.items():
        assert (row.wrong_keys, row.too_close) == (0, 0), (family, units)
        assert row.different >= WANTED or family in BOUND_BY_CONTENT, family
        assert row.named >= 0.99 or family in CHOICES, family
        assert row.by_chance <= Fraction(8, 100), family
