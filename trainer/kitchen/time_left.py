"""How long is left on a technique: screens to read and questions to answer, at a cook's own pace."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from statistics import median

from trainer.messages import Text, message

SECONDS_UNTIL_KNOWN = 25
"""How long a cook takes for one screen or one question, until their own pace is known: a sentence of 20 words, and a
look (from memory)."""
FEWEST_TO_KNOW = 5
LONGEST_ANSWER = 300
"""Whoever takes longer than so many seconds was called away (common practice)."""


@dataclass(frozen=True, slots=True)
class Left:
    """What is left of a technique: screens to read, and right answers that are lacking at the least."""

    screens: int = 0
    questions: int = 0

    def __add__(self, other: Left) -> Left:
        """Return what is left of both."""
        return Left(self.screens + other.screens, self.questions + other.questions)

    def minutes(self, seconds_a_question: float = SECONDS_UNTIL_KNOWN) -> int:
        """Return the minutes it takes, rounded up; nothing left takes none.

        >>> Left(screens=9, questions=3).minutes()
        5
        """
        return ceil((self.screens * SECONDS_UNTIL_KNOWN + self.questions * seconds_a_question) / 60)


def own_pace(seconds: Sequence[float]) -> float:
    """Return a cook's own seconds for a question: the middle one of the latest; the usual while there are too few.

    >>> own_pace([40, 50, 60, 70, 3000, 80])
    60
    """
    told = [one for one in seconds if 0 < one <= LONGEST_ANSWER]
    return median(told) if len(told) >= FEWEST_TO_KNOW else SECONDS_UNTIL_KNOWN


def minutes_text(minutes: int) -> Text:
    """Return minutes as a cook reads them: 45 min; 1 h 10 min; 2 h."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return message("{minutes} min", minutes=rest)
    if not rest:
        return message("{hours} h", hours=hours)
    return message("{hours} h {minutes} min", hours=hours, minutes=rest)
