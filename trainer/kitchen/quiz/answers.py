"""Whether numbers make a question that may be asked: it fits a kitchen, and no two answers lie too close."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise
from math import lcm
from typing import NamedTuple

from trainer.kitchen.quiz.family import Numbers, NumericFamily
from trainer.kitchen.quiz.question import Answer
from trainer.recipe_math.quantity import QuantityProblem


class Worked(NamedTuple):
    """What numbers come to: the right answer, and what each wrong method gives."""

    answer: Answer
    wrong: Mapping[str, Fraction]


def worked_if_askable(kind: NumericFamily, numbers: Numbers) -> Worked | None:
    """Return what numbers come to where they may be asked; else None.

    They fit, their answers lie apart, and no number of the text is graded right.
    """
    try:
        if not kind.fits(numbers):
            return None
        answer = answer_of(kind, numbers)
        if _is_told(kind, numbers, answer):  # before the wrong methods are worked out, which takes longer
            return None
        wrong = wrong_values(kind, numbers)
    except (QuantityProblem, ZeroDivisionError):  # a content file's range may reach to nothing
        return None
    is_out = _too_close(answer, [answer.value, *wrong.values()]) or _is_early(kind, numbers, answer, wrong)
    return None if is_out else Worked(answer, wrong)


def is_askable(kind: NumericFamily, numbers: Numbers) -> bool:
    """Return whether these numbers make a question that may be asked."""
    return worked_if_askable(kind, numbers) is not None


def work_out(kind: NumericFamily, numbers: Numbers) -> Worked:
    """Return what numbers come to."""
    return Worked(answer_of(kind, numbers), wrong_values(kind, numbers))


def answer_of(kind: NumericFamily, numbers: Numbers) -> Answer:
    """Return the right value with the family's tolerance and rule about its unit."""
    right, tolerance = kind.right(numbers), kind.tolerance
    step, (low, high) = tolerance.step(right), tolerance.leeway(right)
    is_required = kind.unit_rule == "required"
    return Answer(right, kind.unit, step / 2, tolerance.rounded, is_required, step, low, high, tolerance.net)


def wrong_values(kind: NumericFamily, numbers: Numbers) -> dict[str, Fraction]:
    """Return the wrong methods with the values they give here; what could not be typed as an answer is left out."""
    found = {}
    for name, formula in kind.wrong.items():
        value = formula(numbers)
        if value is not None and (value >= 0 or kind.below_zero):
            found[name] = value
    return found


def _too_close(answer: Answer, values: list[Fraction]) -> bool:
    """Return whether any two values lie within twice the tolerance, or round to one number where that decides.

    None may lie where an answer is right on the safe side. They are compared as whole numbers over one denominator.
    """
    if (answer.low or answer.high) and any(map(answer.accepts, values[1:])):
        return True
    under = lcm(answer.tolerance.denominator, *(value.denominator for value in values))
    least, *counted = (each.numerator * under // each.denominator for each in (2 * answer.tolerance, *values))
    counted.sort()
    if any(higher - lower <= least for lower, higher in pairwise(counted)):
        return True
    return answer.rounded is not None and len({answer.rounded.rounded(value) for value in values}) < len(values)


def _is_told(kind: NumericFamily, numbers: Numbers, answer: Answer) -> bool:
    """Return whether a quantity of the text, copied as it stands, would be graded right."""
    shown = (*kind.told(numbers), answer.step) if answer.step else kind.told(numbers)
    return any(map(answer.accepts, shown))


def _is_early(kind: NumericFamily, numbers: Numbers, answer: Answer, wrong: Mapping[str, Fraction]) -> bool:
    """Return whether what is rounded too early would be taken for a wrong method."""
    early = tuple(kind.early(numbers))
    return bool(early) and any(answer.counts_as(each, value) for each in early for value in wrong.values())
