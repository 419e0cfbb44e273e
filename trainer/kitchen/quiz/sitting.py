"""What came of one sitting: right answers against the need, in whole numbers, and the wrong methods that showed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.kitchen.quiz.question import Grade


@dataclass(frozen=True, slots=True)
class Result:
    """How many of how many were right, how many were needed, and whether that passed."""

    right: int
    asked: int
    need: int
    passed: bool


def result(grades: Sequence[Grade], need_right: int) -> Result:
    """Return the result of a sitting. Right answers are counted, never a rounded percentage.

    An answer nobody could read counts as not right. A sitting with no questions never passes.
    """
    right = sum(grade.is_right is True for grade in grades)
    return Result(right, len(grades), need_right, bool(grades) and right >= need_right)


def need_for(percent: int, asked: int) -> int:
    """Return how many of *asked* must be right to reach a percentage; a part of a question is a whole one.

    >>> need_for(80, 98)
    79
    """
    return -(-percent * asked // 100)


def named_methods(grades: Sequence[Grade]) -> tuple[str, ...]:
    """Return the wrong methods that showed in two or more answers, the most frequent first.

    One such answer may be a slip; the same one twice is a method somebody was taught or made up
    (VanLehn 1982: stable bugs and unstable slips).
    """
    seen = Counter(grade.method for grade in grades if grade.method is not None)
    return tuple(name for name, times in seen.most_common() if times >= 2)
