"""What came of one sitting: right answers against the need and the safety floor, in whole numbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from trainer.messages import Text, message

SAFETY_PERCENT = 70
"""Of the questions about safety so many in a hundred must be right, whatever the rest (NRC GL 84-06, each category)."""


class Tally(NamedTuple):
    """How many of how many answers are right, and the same among the questions about safety."""

    right: int
    asked: int
    safety_right: int = 0
    safety_asked: int = 0

    def plus(self, *, is_right: bool, is_safety: bool = False) -> Tally:
        """Return the count with one more answer."""
        return Tally(
            self.right + is_right,
            self.asked + 1,
            self.safety_right + (is_right and is_safety),
            self.safety_asked + is_safety,
        )

    def meets_minimum(self, percent: int) -> bool:
        """Return whether so many in a hundred of the safety questions are right; yes where none was asked."""
        return self.safety_right >= need_for(percent, self.safety_asked)


def count_kept(body: Mapping[str, Any]) -> Tally:
    """Return the count of a `quiz_sat` body; a question kept before there was a floor is not about safety."""
    count = Tally(0, 0)
    for asked in body["questions"]:
        count = count.plus(is_right=asked["right"], is_safety=asked.get("safety", False))
    return count


@dataclass(frozen=True, slots=True)
class Result:
    """How many of how many were right, how many were needed, and whether that passed."""

    right: int
    asked: int
    need: int
    passed: bool


def result(count: Tally, need_right: int, safety_percent: int = SAFETY_PERCENT) -> Result:
    """Return the result of a sitting of fixed length. Right answers are counted, never a rounded percentage.

    The need must be reached, and so must the floor among the questions about safety. A sitting with no questions never
    passes.
    """
    passed = count.asked > 0 and count.right >= need_right and count.meets_minimum(safety_percent)
    return Result(count.right, count.asked, need_right, passed)


def need_for(percent: int, asked: int) -> int:
    """Return how many of *asked* must be right to reach a percentage; a part of a question is a whole one.

    >>> need_for(80, 98)
    79
    """
    return -(-percent * asked // 100)


def floor_in_words(count: Tally, percent: int) -> Text:
    """Return that enough is right in all and too little about safety."""
    return message(
        "{right} of {asked} right, but only {safe} of {about_safety} about safety. Of those, {floor} must be right to "
        "pass.",
        right=count.right,
        asked=count.asked,
        safe=count.safety_right,
        about_safety=count.safety_asked,
        floor=need_for(percent, count.safety_asked),
    )


def needed_in_words(count: Tally, need: int, percent: int) -> Text:
    """Return what a quiz of fixed length needed; where only the safety floor was missed, that."""
    if count.right >= need and not count.meets_minimum(percent):
        return floor_in_words(count, percent)
    return message("{need} needed.", need=need)
