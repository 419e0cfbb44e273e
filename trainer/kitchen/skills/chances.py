"""What the rule lets through: exact chances, and how many answers a pass takes.

Let p be the chance of a right answer. A round of a skill is lost with its second wrong one; the row asked for is longer
by one with each wrong answer, up to three.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import prod
from random import Random

from trainer.kitchen.skills.rule import MOST_ADDED, ROUNDS_ALONE, WRONG_ENDS

ROUNDS = ROUNDS_ALONE + 1


def pass_chance(base: int, right: Fraction, rounds: int = ROUNDS) -> Fraction:
    """Return the exact chance that a skill is passed within so many rounds by somebody who learns nothing meanwhile.

    1 - product over i of (1 - p^(base + min(i, 3))), i from 0 to 2 x rounds - 1: each wrong answer is one more row
    that was not finished.

    >>> float(pass_chance(3, Fraction(1, 4)))  # doctest: +ELLIPSIS
    0.0211...
    """
    tries = range(WRONG_ENDS * rounds)
    return 1 - prod((1 - right ** (base + min(i, MOST_ADDED)) for i in tries), start=Fraction(1))


def renew_chance(right: Fraction) -> Fraction:
    """Return the exact chance of three right refreshers in a row before two wrong ones end in a drill."""
    wrong = 1 - right
    return right**3 / (1 - wrong * right**2 * (1 + right + right**2))


def lengths(bases: tuple[int, ...], right: float, cooks: int = 4000, seed: int = 1) -> tuple[int, int]:
    """Return the median and the 90th percentile of counted answers until all skills are passed, over simulated cooks.

    *bases* has one number a skill. Drills teach nothing here: the worst case.
    """
    rng = Random(seed)  # noqa: S311 - cooks of a simulation
    found = sorted(sum(_answers(base, right, rng) for base in bases) for _ in range(cooks))
    return found[cooks // 2], found[cooks * 9 // 10]


def _answers(base: int, right: float, rng: Random) -> int:
    """Return how many counted answers one cook gives until one skill is passed."""
    answers = wrong = run = 0
    for is_right in _coin(right, rng):
        answers += 1
        run, wrong = (run + 1, wrong) if is_right else (0, wrong + 1)
        if run >= base + min(MOST_ADDED, wrong):
            break
    return answers


def _coin(right: float, rng: Random) -> Iterator[bool]:
    while True:
        yield rng.random() < right
