"""The constants by which knowledge is decided, and what one skill asks for.

Three right in a row, at most two counted a day; a wrong answer starts the row again and makes it longer. Raise `RULE`
where the same answers would decide otherwise: each answer keeps the edition it was given under.

First gap of three weeks in six months: 12 %, between the 5 to 10 % of a year and the 20 to 40 % of a week that Cepeda
et al. found best (Psychological Science 19, 2008). Later relearning outweighs a longer first criterion (Vaughn,
Dunlosky and Rawson, Memory & Cognition 44, 2016): questions are spent on refreshers.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from trainer.kitchen.spans import days_later, months_later

RULE = 1
"""The edition of the constants below."""

COUNTED_A_DAY = 2
"""Answers that count in one skill on one day; a fresh pass takes two days."""
MOST_ADDED = 3
"""Wrong answers since the last pass make the row longer, by no more than this."""
WRONG_ENDS = 2
"""The second wrong answer of a round ends it: practice first."""
WAITS = (1, 3, 7)
"""Days from the answer that ended the first, the second, and each later round."""
ROUNDS_ALONE = 2
"""From the round after these a person gives the practice."""
CONFIRM_RIGHT = 2
"""Right answers in a row that bring a skill back after a wrong refresher."""
CONFIRM_DAYS = 14
"""Days in which they must come, the day of the wrong answer counted as the first."""
REFRESHER_APART = 14
"""Days after the last counted answer before another one counts in a passed skill."""
REFRESHERS = 3
"""Right refreshers in a row that begin the months anew."""
SHORT_MONTHS, SHORT_DAYS = 6, 184
SHORT_GAPS = (21, 56)
"""Days to the first refresher and between later ones, in a skill good for six months or less."""
LONG_GAPS = (28, 84)
LOST_DAYS, LOST_SAFETY_DAYS = 28, 7
"""How long a pass that was lost still holds its techniques, due again."""
ADDED_DAYS, ADDED_SAFETY_DAYS = 28, 14
"""How long a technique stands whose edition asks for a skill more."""
SAFETY_MONTHS, OTHER_MONTHS = 6, 12
MOST_SAFETY_LUCK = Fraction(1, 4)

BASES = ((Fraction(1, 4), 3), (Fraction(1, 3), 4), (Fraction(1, 2), 5))
"""The luck up to which so many right in a row are enough: luck to the power of base is at most 1/30 or near it."""


class TooLucky(ValueError):
    """Raised for a skill whose answers are right by luck more often than one time in two."""


def base_of(luck: Fraction) -> int:
    """Return how many right answers in a row a skill asks for at first: 3, 4 or 5; raise `TooLucky` above 1/2."""
    for most, base in BASES:
        if luck <= most:
            return base
    raise TooLucky(f"Right by luck {luck} of the time: more than 1/2 proves nothing.")


@dataclass(frozen=True, slots=True)
class Terms:
    """What a skill asks: right answers in a row at first, and how long a pass is good (`days`, or else `months`)."""

    base: int
    months: int = SAFETY_MONTHS
    days: int = 0

    def last_day(self, passed: date) -> date:
        """Return the last day a pass of this day is good."""
        return days_later(passed, self.days) if self.days else months_later(passed, self.months)

    def gap(self, kept: int, renewed: bool) -> int:
        """Return the days to the next refresher, after so many right ones; a renewed pass goes on with the long gap."""
        short = self.days <= SHORT_DAYS if self.days else self.months <= SHORT_MONTHS
        first, later = SHORT_GAPS if short else LONG_GAPS
        return later if kept or renewed else first

    def need(self, wrong: int) -> int:
        """Return how many right in a row pass the skill, after so many wrong answers since the last pass."""
        return self.base + min(MOST_ADDED, wrong)
