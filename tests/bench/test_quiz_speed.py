"""The quiz over ten thousand seeds a family: keys, collisions, names and questions a second, as one table."""

from __future__ import annotations

import random
from collections import Counter
from itertools import pairwise
from math import exp
from time import process_time
from typing import NamedTuple

import pytest

from tests.kitchen.quiz.asking import Asked, context, draw_question
from tests.kitchen.quiz.echoes import echoes
from tests.kitchen.quiz.worked_by_eye import agrees
from tests.kitchen.quiz.wrong_answers import other_errors, typed_by_methods
from trainer.kitchen.quiz.drawing import draw_question as draw
from trainer.kitchen.quiz.families import ASKED, CHOICES, NUMERIC
from trainer.kitchen.quiz.family import System
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.slip_layer import SHARE, slips_of
from trainer.kitchen.quiz.telling import tell
from trainer.messages import translate
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
HEAD = (
    f"{'family':<28}{'units':<7}{'a second':>9}{'different':>10}{'keys':>7}{'close':>7}{'echoes':>7}"
    f"{'named':>9}{'slips':>9}{'others':>9}{'random':>9}{'method':>9}"
)
UNFIT = ("right", "rounded_early", "asked_again")


class Row(NamedTuple):
    """One line of the table: how many a second, how many questions, how many faults, and shares of what is named."""

    a_second: float
    different: int
    wrong_keys: int
    too_close: int
    echoes_right: int
    named: float
    slips: float
    others: float
    at_random: float
    by_method: float


def _seconds(family: str, units: System) -> float:
    """Return the processor time to draw and grade every seed once and name the wrong method, another one each time.

    What is printed depends on the page, so nothing is.
    """
    asked = context(units=units)
    start = process_time()
    for seed in range(SEEDS):
        question = tell(draw(family, seed, asked), asked)
        grade(question, number_text(question.wrong_methods[seed % len(question.wrong_methods)].value, 4), ".")
    return process_time() - start


def _is_too_close(question: Asked) -> bool:
    answer = question.answer
    values = sorted([answer.value, *(wrong.value for wrong in question.wrong_methods)])
    if answer.rounded is not None and len(set(map(answer.rounded.rounded, values))) < len(values):
        return True
    return any(higher - lower <= 2 * answer.tolerance for lower, higher in pairwise(values))


class _Names:
    """How answers of each kind are named, counted over many questions."""

    def __init__(self) -> None:
        self.rng = random.Random(20260301)  # noqa: S311 - a kept seed
        self.asked: Counter[str] = Counter()
        self.found: Counter[str] = Counter()

    def share(self, what: str) -> float:
        """Return the share that was found; nothing where nothing of the kind could be asked."""
        return self.found[what] / max(1, self.asked[what])

    def _note(self, what: str, *, found: bool) -> None:
        self.asked[what] += 1
        self.found[what] += found

    def add(self, question: Asked, seed: int) -> None:
        """Grade an answer of each kind: by a method, by a slip, by another error, and a number at random.

        A number at random lies between a fifth and five times the key, with two decimals. Where there is a choice, it
        is no answer, and there is no slip.
        """
        ways = typed_by_methods(question)
        for typed, name in ways:
            self._note("named", found=grade(question, typed, ".").name == name)
        if question.choices:
            return
        slips = slips_of(question)
        if slips:
            slip = slips[seed % len(slips)]
            typed = number_text(slip.value, 9) + (" %" if slip.name == SHARE else "")
            self._note("slips", found=grade(question, typed, ".").name == slip.name)
        for other in other_errors(question):
            self._wrong("others", question, other)
        value = float(question.answer.value) * exp(self.rng.uniform(-1.6, 1.6)) or self.rng.uniform(1, 360)
        self._wrong("at random", question, f"{value:.2f}")

    def _wrong(self, what: str, question: Asked, typed: str) -> None:
        verdict = grade(question, typed, ".").verdict
        if verdict not in UNFIT:
            self._note(what, found=verdict in {"slip", "copied"})
            self._note(f"{what}, by method", found=verdict == "method")


def _different(family: str, units: System) -> int:
    """Return how many different questions the seeds give, drawing on until as many as wanted are there."""
    asked, found = context(units=units), set()
    for seed in range(20 * SEEDS):
        question = tell(draw(family, seed, asked), asked)
        texts = (question.text, *(choice.text for choice in question.every_choice))
        found.add(hash((question.figure, *map(translate, texts))))
        if len(found) >= WANTED or (family in BOUND_BY_CONTENT and seed >= SEEDS):
            break
    return len(found)


def _row(family: str, units: System) -> Row:
    questions = [draw_question(family, seed, units=units) for seed in range(SEEDS)]
    names = _Names()
    for seed, question in enumerate(questions):
        names.add(question, seed)
    return Row(
        a_second=SEEDS / _seconds(family, units),
        different=_different(family, units),
        wrong_keys=sum(not agrees(question) for question in questions),
        too_close=sum(map(_is_too_close, questions)),
        echoes_right=sum(grade(each, echo, ".").is_right is True for each in questions for echo in echoes(each)),
        named=names.share("named"),
        slips=names.share("slips") if names.asked["slips"] else 1,
        others=names.share("others"),
        at_random=names.share("at random"),
        by_method=names.share("at random, by method"),
    )


@pytest.mark.bench
@pytest.mark.parametrize(("family", "units"), FORMS)
def test_ten_thousand_questions_of_every_family(family: str, units: System, capsys: pytest.CaptureFixture[str]) -> None:
    """Ten thousand seeds: no wrong key, nothing too close, no echo right; methods and slips named, little by chance.

    Of 100 errors nobody has a name for, and of 100 numbers at random, 2 at most are taken for a slip or a copy, and of
    100 at random 2 at most for one of the family's own methods. The speed is printed, not judged.
    """
    row = _row(family, units)
    bound = " bound by content" if family in BOUND_BY_CONTENT else ""
    with capsys.disabled():
        print(f"\n{HEAD if (family, units) == FORMS[0] else ''}\n{family:<28}{units:<7}{_printed(row)}{bound}", end="")
    assert (row.wrong_keys, row.too_close, row.echoes_right) == (0, 0, 0)
    assert row.different >= WANTED or family in BOUND_BY_CONTENT
    assert row.named >= 0.99
    assert row.slips >= 0.95
    assert max(row.others, row.at_random) <= 0.02
    assert row.by_method <= 0.02


def _printed(row: Row) -> str:
    counts = f"{row.a_second:>9.0f}{row.different:>10}{row.wrong_keys:>7}{row.too_close:>7}{row.echoes_right:>7}"
    return counts + "".join(f"{share:>9.2%}" for share in row[5:])
