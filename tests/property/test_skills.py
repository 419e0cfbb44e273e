"""The rule of knowledge decides as a second, slow way does, over histories nobody would think of."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from random import Random

import pytest

from tests.property.naive_skills import naive_states
from trainer.kitchen.knowledge import skills_on
from trainer.kitchen.record import CookRecord
from trainer.kitchen.skills.fold import Act, Happening, SkillFold
from trainer.kitchen.skills.rule import LOST_DAYS, Terms
from trainer.kitchen.skills.skill import Skill
from trainer.kitchen.technique import AskedSkill, QuestionSetting

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
        found.append(Happening(day, skill, act, skill_of[skill], name, entry=f"{len(found)}"))
    return found, day + timedelta(days=rng.choice((0, 1, 5, 30, 200)))


def _old(rng: Random, skill_of: dict[str, Terms]) -> Happening:
    skill, act = rng.choice("abc"), rng.choice(("old_right", "old_wrong"))
    return Happening(START, skill, act, skill_of[skill], entry="old")  # type: ignore[arg-type]


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


def known_by_days(happenings: list[Happening], last: date) -> dict[date, bool]:
    """Return for every day whether skill `a` counts as passed, looking at each day by itself.

    It counts while it is passed or to be confirmed; once lost by wrong answers four weeks more, never past its term.
    """
    found: dict[date, bool] = {}
    held_to, before = date.min, ""
    term = date.min
    for number in range((last - START).days + 1):
        day = START + timedelta(days=number)
        told = naive_states([one for one in happenings if one.on <= day], day).get("a")
        state = told["state"] if told else "open"
        if before in ("passed", "confirm") and state not in ("passed", "confirm", "expired"):
            held_to = min(term, day + timedelta(days=LOST_DAYS - 1))
        if told and told["good_until"]:
            term, held_to = told["good_until"], date.min
        found[day] = state in ("passed", "confirm") or day <= held_to
        before = state
    return found


def our_days(happenings: list[Happening], last: date) -> dict[date, bool]:
    """Return for every day whether the program lets skill `a` count, as it stood at the end of that day."""
    skill = AskedSkill("a", "A", QuestionSetting("", {}, {}, 1), False, 6, Fraction(1, 10), 3)
    found = {}
    for number in range((last - START).days + 1):
        day = START + timedelta(days=number)
        record = CookRecord("ana", skills=tuple(one for one in happenings if one.on <= day))
        found[day] = any(span.holds(day) for span in skills_on(record, (skill,), day)[0].spans)
    return found


def test_a_skill_counts_on_the_same_days_as_in_a_loop_over_every_day() -> None:
    """Passed, to be confirmed, or lost not long ago: day by day the same, over sixty histories."""
    counted = 0
    for seed in range(60):
        happenings = [one for one in history(seed)[0] if one.skill == "a"]
        last = max((one.on for one in happenings), default=START) + timedelta(days=40)
        ours, naive = our_days(happenings, last), known_by_days(happenings, last)
        assert ours == naive, f"history {seed}"
        counted += sum(ours.values())
    assert counted > 1000


@pytest.mark.parametrize("seed", range(60))
def test_asking_for_a_later_day_leaves_a_skill_as_it_was(seed: int) -> None:
    """A fold may be asked for any day after the last answer, in any order."""
    happenings, on = history(seed)
    fold = SkillFold()
    for one in happenings:
        fold.take(one)
    for day in (on + timedelta(days=900), on):
        told = {name: _told(fold.settled(name, skill.terms, day), day) for name, skill in fold.skills.items()}
        assert told == states(happenings, day)
