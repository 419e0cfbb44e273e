"""A second way to decide knowledge, written from the rule's own sentences and looking back over the whole history.

Nothing is carried along but a list of what was counted: each question is answered by going through it again. Slow, and
not a word of it shared with the program.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

from trainer.kitchen.skills.fold import Happening


@dataclass
class NaiveSkill:
    """What is known of one skill: its state as words and numbers."""

    base: int
    days: int
    state: str = "open"
    run: int = 0
    wrong: int = 0
    rounds: int = 0
    round_wrong: int = 0
    round_early: int = 0
    last_named: str = ""
    kept: int = 0
    passed_until: date | None = None
    due: date | None = None
    confirm_since: date | None = None
    round_ended: date | None = None
    opens: date | None = None
    drill: str = ""
    drilled: list[str] = field(default_factory=list)
    counted_days: list[date] = field(default_factory=list)
    ran_out: bool = False

    def words(self, on: date) -> dict[str, Any]:
        """Return all that is compared, on a day."""
        self.go_to(on)
        state = self.state
        if state == "open" and self.opens and on < self.opens:
            state = "wait"
        elif state == "open" and self.ran_out:
            state = "expired"
        return {
            "state": state,
            "run": self.run,
            "need": self.base + min(3, self.wrong),
            "wrong": self.wrong,
            "rounds": self.rounds,
            "opens": self.opens if state == "wait" else None,
            "due": self.due if state == "passed" else None,
            "good_until": self.passed_until if state in ("passed", "confirm") else None,
            "drill": self.drill if state == "drill" else "",
            "by_person": self.needs_person(),
        }

    def needs_person(self) -> bool:
        """From the third round on, or where a name ends a round again after its drill."""
        return self.state == "drill" and (self.rounds >= 3 or (self.drill != "" and self.drill in self.drilled))

    def go_to(self, on: date) -> None:
        """Let the days go by: fourteen to confirm, and the months of a pass."""
        if self.state == "confirm":
            assert self.confirm_since
            assert self.passed_until
            lost = self.confirm_since + timedelta(days=14)
            if lost <= on and lost <= self.passed_until:
                self.state, self.passed_until, self.due = "open", None, None
                return
        if self.state in ("passed", "confirm") and self.passed_until and self.passed_until < on:
            self.state, self.ran_out = "open", True
            self.run, self.kept = min(self.kept, self.base - 1), 0
            self.passed_until = self.due = None

    def is_counted(self, on: date) -> bool:
        """Two a day; none while practice is due, in a wait, on the day of a wrong refresher, or too early for one."""
        if self.state == "drill" or (self.state == "open" and self.opens and on < self.opens):
            return False
        if self.state == "confirm" and on == self.confirm_since:
            return False
        if self.state == "passed" and self.counted_days and (on - self.counted_days[-1]).days < 14:
            return False
        return self.counted_days.count(on) < 2

    def gap(self, later: bool) -> int:
        """Three weeks then eight, of six months or less; else four then twelve."""
        return (56 if later else 21) if self.days <= 184 else (84 if later else 28)

    def answered_right(self, on: date) -> bool:
        """Return whether that passed, renewed or confirmed it."""
        self.counted_days.append(on)
        if self.state == "passed":
            self.kept += 1
            self.due = on + timedelta(days=self.gap(later=True))
            if self.kept == 3:
                self.kept, self.passed_until = 0, on + timedelta(days=self.days)
                return True
            return False
        self.run += 1
        if self.state == "confirm":
            if self.run == 2:
                self.begin_anew()
                self.state, self.due = "passed", on + timedelta(days=self.gap(later=False))
                return True
            return False
        self.ran_out = False
        if self.run >= self.base + min(3, self.wrong):
            self.begin_anew()
            self.state, self.opens = "passed", None
            self.passed_until = on + timedelta(days=self.days)
            self.due = on + timedelta(days=self.gap(later=False))
            return True
        return False

    def begin_anew(self) -> None:
        """All counts and names go back to nothing."""
        self.run = self.wrong = self.rounds = self.round_wrong = self.round_early = self.kept = 0
        self.last_named, self.drilled = "", []

    def answered_wrong(self, on: date, name: str) -> None:
        """One more wrong; the second of a round ends it."""
        self.counted_days.append(on)
        self.run, self.ran_out = 0, False
        self.wrong += 1
        self.round_wrong += 1
        if name:
            self.last_named = name
        if self.state == "passed":
            self.state, self.confirm_since, self.kept, self.due = "confirm", on, 0, None
        if self.round_wrong == 2:
            self.round_ends(on, self.last_named)

    def round_ends(self, on: date, drill: str) -> None:
        """Practice first."""
        self.state, self.drill, self.round_ended = "drill", drill, on
        self.rounds += 1
        self.run = self.round_wrong = self.round_early = 0
        self.last_named, self.passed_until, self.due, self.ran_out = "", None, None, False


def naive_states(happenings: list[Happening], on: date) -> dict[str, dict[str, Any]]:
    """Return every skill that something happened in, as it stands on a day."""
    skills: dict[str, NaiveSkill] = {}
    seen: list[tuple[str, str]] = []  # (name, skill): a wrong method that showed, until its drill or the skill's pass
    for one in happenings:
        skill = skills.setdefault(one.skill, NaiveSkill(one.terms.base, one.terms.days))
        skill.go_to(one.on)
        if one.act in ("old_right", "old_wrong"):
            if skill.state == "open":
                right = one.act == "old_right"
                skill.run = min(skill.base - 1, skill.run + 1) if right else 0
                skill.wrong += 0 if right or skill.wrong == 3 else 1
        elif one.act == "wait_lifted":
            if skill.opens and skill.opens > one.on:
                skill.opens = one.on
        elif one.act in ("drill", "drill_by_person"):
            _practise(skills, skill, one, seen)
        elif one.act != "asked_again" and skill.is_counted(one.on):
            _answer(skills, skill, one, seen)
    return {name: skill.words(on) for name, skill in skills.items()}


def _practise(skills: dict[str, NaiveSkill], skill: NaiveSkill, one: Happening, seen: list[tuple[str, str]]) -> None:
    if skill.state != "drill" or (skill.needs_person() and one.act == "drill"):
        return
    name = skill.drill
    waiting = [each for each in skills.values() if each.state == "drill" and each.drill == name] if name else [skill]
    for each in waiting:
        if each.needs_person() and one.act == "drill":
            continue
        assert each.round_ended
        wait = {1: 1, 2: 3}.get(each.rounds, 7)
        each.opens = max(each.round_ended + timedelta(days=wait), one.on + timedelta(days=1))
        each.state, each.drill = "open", ""
        each.drilled += [name] if name else []
    seen[:] = [pair for pair in seen if pair[0] != name]


def _answer(skills: dict[str, NaiveSkill], skill: NaiveSkill, one: Happening, seen: list[tuple[str, str]]) -> None:
    name = one.name
    if one.act == "right":
        if skill.answered_right(one.on):
            seen[:] = [pair for pair in seen if pair[1] != one.skill]
        return
    if one.act == "rounded_early":
        skill.round_early += 1
        if skill.round_early == 1:
            return
        name = "rounds_too_early"
    skill.answered_wrong(one.on, name)
    if name:
        _shows(skills, one, name, seen)


def _shows(skills: dict[str, NaiveSkill], one: Happening, name: str, seen: list[tuple[str, str]]) -> None:
    before = [pair for pair in seen if pair[0] == name]
    seen.append((name, one.skill))
    for _, where in {*before, (name, one.skill)} if before else ():
        other = skills[where]
        other.go_to(one.on)
        waits = other.state == "open" and other.opens is not None and one.on < other.opens
        expired = other.state == "open" and other.ran_out
        if other.state == "confirm" or (other.state == "open" and not waits and not expired):
            other.round_ends(one.on, name)
