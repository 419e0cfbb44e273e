"""How far two people who judge the same thing agree: a count, and a share with its interval from enough pairs on.

Only sign-offs are looked at again, so the first of each pair always says *meets it*. What is found not to hold among
them is a share, and that is told. Cohen's kappa is not: it sets agreement against what chance would make of both
judges' own shares (J. Cohen, Educational and Psychological Measurement 20 (1960), 37-46), and with one judge who never
says *not yet* it is 0 whatever the other finds. Points do not help: the pairs are picked by their passing, so that
nearly every point of the first is met. It would take practicals judged by two people whatever came of them, 30 or more.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from trainer.recipe_math.statistics import Interval, wilson_interval

ONE_IN, SURE_IN_10 = 5, 9
"""What a house wants to find, one sign-off in so many that does not hold, and in how many of ten cases: its own."""


def fewest_to_find(share: Fraction, certainty: Fraction) -> int:
    """Return how many pairs find at least one that differs, with this certainty, where such a share differs.

    The share lies between 0 and 1, the certainty below 1. The chance to find none in n is (1 - share) to the n.

    >>> fewest_to_find(Fraction(1, 2), Fraction(3, 4))
    2
    """
    number, missed = 0, Fraction(1)
    while missed > 1 - certainty:
        number, missed = number + 1, missed * (1 - share)
    return number


FEWEST_PAIRS = fewest_to_find(Fraction(1, ONE_IN), Fraction(SURE_IN_10, 10))
"""Of fewer pairs no share is told: 11."""


@dataclass(frozen=True, slots=True)
class Agreement:
    """How many things two people judged, and of how many they said the same."""

    same: int
    pairs: int

    @property
    def is_enough(self) -> bool:
        """Return whether there are as many pairs as a share needs to mean something."""
        return self.pairs >= FEWEST_PAIRS

    @property
    def apart(self) -> Interval:
        """Return between which shares lies that of all things two would differ on, at 95 percent; of one pair on."""
        return wilson_interval(self.pairs - self.same, self.pairs)
