"""The rule of knowledge decides as a second, slow way does, over histories nobody would think of."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

import pytest

from tests.property.naive_skills import naive_states
from trainer.kitchen.skills.fold import Act, Happening, SkillFold
from trainer.kitchen.skills.rule import Terms
from trainer.kitchen.skills.skill import Skill

START = date(2026, 1, 1)
TERMS = (Terms(3, days=180), Terms(4, days=365), Terms(5, days=90))
NAMES = ("", "", "time_gone", "left_out", "upside_down")
ACTS: tuple[Act, ...] = ("right", "wrong", "rounded_early", "asked_again", "drill", "drill_by_person", "wait_lifted")
IN_SUITE, IN_BENCH = 400, 20_000


def history(seed: int) -> tuple[list[Happening], date]:
    """Return a made-up history of three skills over up to two years, and a day to look at it from."""
    rng = Random(seed)  # noqa: S311 - a made-up history
    skill_of, day = dict(zip("abc", TERMS, strict=True)), START
    found = [_old(rng, skill_of) for _ in range(rng.choice((0, 0, 4)))]
    likely = rng.choice(((8, 2, 1, 1, 2, 1, 1), (3, 4, 1, 1, 3, 1, 1), (20, 1, 0, 0, 1, 1, 0)))
    for _ in range(rng.randint(5, 90)):
        day += timedelta(days=rng.choice((0, 0, 0, 0, 1, 1, 2, 7, 20, 60)))
        skill, act = rng.choice("abc"), rng.choices(ACTS, likely)[0]
        name = rng.choice(NAMES) if act == "wrong" else ""
        found.append(Happening(day, skill, act, skill_of[skill], name))
    return found, day + timedelta(days=rng.choice((0, 1, 5, 30, 200)))


def _old(rng: Random, skill_of: dict[str, Terms]) -> Happening:
    skill, act = rng.choice("abc"), rng.choice(("old_right", "old_wrong"))
    return Happening(START, skill, act, skill_of[skill])  # type: ignore[arg-type]


def states(happenings: list[Happening], on: date) -> dict[str, dict[str, object]]:
    """Return every skill as the program has it on a day."""
    fold = SkillFold()
    for one in happenings:
        fold.take(one)
    return {name: _told(fold.settled(name, skill.terms, on), on) for name, skill in fold.skills.items()}


def _told(skill: Skill, on: date) -> dict[str, object]:
    state = skill.state(on)
    return {
        "state": state,
        "run": skill.run,
        "need": skill.need,
        "wrong": skill.wrong,
        "rounds": skill.rounds,
        "opens": skill.opens if state == "wait" else None,
        "due": skill.due,
        "good_until": skill.good_until,
        "drill": skill.drill,
        "by_person": skill.by_person,
    }


def compare(seeds: range) -> int:
    """Compare so many histories; return how many skills ended in how many states."""
    reached: set[object] = set()
    for seed in seeds:
        happenings, on = history(seed)
        ours, naive = states(happenings, on), naive_states(happenings, on)
        assert ours == naive, f"history {seed}"
        reached |= {told["state"] for told in ours.values()}
    return len(reached)


def test_four_hundred_histories_end_alike() -> None:
    """Every state is reached, and none differs."""
    assert compare(range(IN_SUITE)) == 6


@pytest.mark.bench
def test_twenty_thousand_histories_end_alike() -> None:
    """The same over many more."""
    assert compare(range(IN_BENCH)) == 6
