"""Which skill is asked next, and how many questions a day are offered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from math import ceil
from typing import Protocol, TypeVar

from trainer.kitchen.skills.skill import Skill

FEWEST_A_DAY, MOST_A_DAY = 5, 12
"""Questions a day on a path: as many as keep its day, within these."""
USUAL_A_DAY = 9
STEM_DAYS = 60
"""A question that came with a stem does not come again for so many days, while there are others."""


class Standing(Protocol):
    """Where a cook stands in a skill."""

    @property
    def id(self) -> str: ...  # noqa: D102
    @property
    def skill(self) -> Skill: ...  # noqa: D102


StandingT = TypeVar("StandingT", bound=Standing)


def is_wanted(skill: Skill, on: date) -> bool:
    """Return whether an answer of a day would bring a skill on: it counts, and is asked for by then."""
    if not skill.takes(on):
        return False
    return skill.stage != "passed" or (skill.due is not None and skill.due <= on)


def is_refresher(skill: Skill, on: date) -> bool:
    """Return whether what is asked of a skill today keeps a pass, and does not make one."""
    return is_wanted(skill, on) and skill.stage in ("passed", "confirm")


def answers_left(skill: Skill, on: date) -> int:
    """Return how many right answers a skill lacks at the least; none where it is passed."""
    if skill.stage == "passed":
        return int(is_wanted(skill, on))
    return max(1, skill.need - skill.run)


def next_of(standings: Iterable[StandingT], on: date, asked_last: Mapping[str, int]) -> StandingT | None:
    """Return the skill to ask next: of those wanted today the one asked longest ago, one never asked before all.

    *asked_last* is the place in the book of the last answer of each skill.
    """
    wanted = [one for one in standings if is_wanted(one.skill, on)]
    return min(wanted, key=lambda one: asked_last.get(one.id, 0), default=None)


def dose(left: Sequence[int], days: int | None) -> int:
    """Return how many questions a day are offered, where skills lack so many right answers each.

    On a path with so many days left, as many as keep its day, 5 to 12; without a day, the usual number.
    """
    total = sum(left)
    if days is None:
        return min(total, USUAL_A_DAY)
    return min(total, MOST_A_DAY, max(FEWEST_A_DAY, ceil(total / max(1, days))))
