"""On which day a cook has passed every skill of a station: simulated, by the rule itself.

Nine answers a day that count, two in a skill, the techniques in their order and inside one the skill asked longest ago
first. A drill is done on its day and teaches nothing; refreshers that fall due meanwhile are left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from random import Random

from trainer.kitchen.skills.rule import Terms
from trainer.kitchen.skills.skill import Skill
from trainer.kitchen.spans import days_later

ANSWERS_A_DAY = 9
COOKS = 40
LONGEST = 400
"""Days after which nobody is waited for."""
START = date(2026, 1, 1)

Asked = tuple[tuple[str, int], ...]
"""The skills of one technique, each with its base."""


@dataclass(frozen=True, slots=True)
class DaysToReady:
    """The day on which half of the cooks are through, and nine of ten."""

    median: int
    most: int


@lru_cache(maxsize=256)
def days_to_ready(techniques: tuple[Asked, ...], right: float, seed: int = 1) -> DaysToReady:
    """Return the days of cooks who are right with a chance, in the techniques of a station."""
    rng = Random(seed)  # noqa: S311 - cooks of a simulation
    found = sorted(_days(techniques, right, rng) for _ in range(COOKS))
    return DaysToReady(found[COOKS // 2], found[COOKS * 9 // 10])


def _days(techniques: Sequence[Asked], right: float, rng: Random) -> int:
    """Return on which day one cook is through."""
    skills = {id: Skill(Terms(base)) for asked in techniques for id, base in asked}
    last_asked = dict.fromkeys(skills, 0)
    asked = 0
    for number in range(LONGEST):
        today = days_later(START, number)
        for _ in range(ANSWERS_A_DAY):
            id = next(_open(techniques, skills, last_asked, today), None)
            if id is None:
                break
            asked += 1
            last_asked[id] = asked
            _answer(skills[id], today, is_right=rng.random() < right)
        if all(skill.passes for skill in skills.values()):
            return number + 1
    return LONGEST


def _open(
    techniques: Sequence[Asked], skills: Mapping[str, Skill], last_asked: Mapping[str, int], today: date
) -> Iterator[str]:
    """Yield the skill to be asked next in each technique that has one."""
    for asked in techniques:
        open_now = [id for id, _ in asked if not skills[id].passes and skills[id].takes(today)]
        if open_now:
            yield min(open_now, key=lambda id: last_asked[id])


def _answer(skill: Skill, today: date, *, is_right: bool) -> None:
    if is_right:
        skill.right(today, "")
    elif skill.miss(today, "") == "drill due":
        skill.drill_done(today)
