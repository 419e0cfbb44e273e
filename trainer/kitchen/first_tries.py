"""First tries at each kind of question, across cooks: where many miss, the teaching may be at fault, not the cooks.

People are counted, not answers, and of each cook only the first answer in a skill: later ones have been taught by the
earlier. A share is said from 30 cooks on, with its interval; below that there are only counts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from trainer.kitchen.skills.fold import Act, Happening
from trainer.recipe_math.statistics import Interval, wilson_interval

FEWEST_COOKS = 30
"""Of fewer people a bare share says little: at 12 it strays by 11 in 100, at 30 by 7 (root mean square, simulated)."""
MISSED: frozenset[Act] = frozenset({"wrong", "rounded_early"})
TRIES: frozenset[Act] = MISSED | {"right"}


@dataclass(frozen=True, slots=True)
class FirstTries:
    """How many cooks were asked in a skill, and how many missed the first question of all."""

    skill: str
    missed: int
    cooks: int

    @property
    def is_enough(self) -> bool:
        """Return whether as many cooks were asked as a share needs to mean something."""
        return self.cooks >= FEWEST_COOKS

    @property
    def likely(self) -> Interval:
        """Return between which shares the share of all cooks lies, at 95 percent."""
        return wilson_interval(self.missed, self.cooks)


def first_tries(answers: Mapping[str, Iterable[Happening]]) -> tuple[FirstTries, ...]:
    """Return the skills anybody was asked in, those first that most cooks missed; *answers* in the book's order."""
    first = [_first_acts(happened) for happened in answers.values()]
    asked = Counter(skill for acts in first for skill in acts)
    missed = Counter(skill for acts in first for skill, act in acts.items() if act in MISSED)
    found = (FirstTries(skill, missed[skill], cooks) for skill, cooks in asked.items())
    return tuple(sorted(found, key=lambda one: (-one.missed, one.cooks, one.skill)))


def teaching_fails(one: FirstTries, every: Iterable[FirstTries]) -> bool:
    """Return whether more miss a skill at first than can be chance: its share lies above that of the whole house."""
    of = tuple(every)
    house = Fraction(sum(each.missed for each in of), sum(each.cooks for each in of))
    return one.is_enough and one.likely.low > house


def _first_acts(happened: Iterable[Happening]) -> Mapping[str, Act]:
    """Return what a cook's first answer in each skill was."""
    found: dict[str, Act] = {}
    for line in happened:
        if line.act in TRIES and line.seed >= 0:
            found.setdefault(line.skill, line.act)
    return found
