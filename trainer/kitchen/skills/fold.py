"""All skills of one cook, folded from what happened in the order of the book.

Skills are apart but for the wrong methods: one that shows twice, in any of them, ends the round of each in which it
showed, and one drill serves all that wait for it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from trainer.kitchen.skills.rule import Terms
from trainer.kitchen.skills.skill import TWICE_EARLY, Outcome, Skill

Act = Literal[
    "right",
    "wrong",
    "rounded_early",
    "asked_again",
    "drill",
    "drill_by_person",
    "wait_lifted",
    "old_right",
    "old_wrong",
]
"""What happened in a skill: an answer's verdict, a drill done alone or with a person, a lifted wait, an old answer."""


@dataclass(frozen=True, slots=True)
class Happening:
    """One thing that happened in a skill on a day; `name` is the wrong method that showed, or nothing.

    Of an answer, `family` and `seed` say which question it was, and `stem` what it asked about where that may come
    again with other numbers. A wait may be lifted of a skill that was never asked: it has no terms.
    """

    on: date
    skill: str
    act: Act
    terms: Terms
    name: str = ""
    entry: str = ""
    family: str = ""
    seed: int = -1
    stem: str = ""


@dataclass(slots=True)
class SkillFold:
    """Where one cook stands in every skill that was ever asked. Happenings come in the order of the book."""

    skills: dict[str, Skill] = field(default_factory=dict)
    earlier: Mapping[str, Sequence[bool]] = field(default_factory=dict)
    """By family, right or wrong of each answer in an earlier kind of quiz, in their order: a skill begins with them."""
    _showed: dict[str, set[str]] = field(default_factory=dict)

    def take(self, happening: Happening) -> Outcome:
        """Take the next happening and return how it counted."""
        skill = self.skills.get(happening.skill)
        if skill is None:
            skill = self.skills[happening.skill] = self._begun(happening.terms, happening.family)
        skill.settle(happening.on)
        skill.terms = happening.terms
        return _TAKE[happening.act](self, skill, happening)

    def settled(self, skill: str, terms: Terms, on: date, family: str = "") -> Skill:
        """Return a skill as it stands on a day; one that was never asked is open. The fold stays as it is."""
        return (self.skills.get(skill) or self._begun(terms, family)).settled(on)

    def _begun(self, terms: Terms, family: str) -> Skill:
        """Return a skill at its start: with what an earlier kind of quiz says of its family."""
        skill = Skill(terms)
        for is_right in self.earlier.get(family, ()):
            skill.carry(is_right)
        return skill

    def _right(self, skill: Skill, happening: Happening) -> Outcome:
        if not skill.takes(happening.on):
            return "practice"
        outcome = skill.right(happening.on, happening.entry)
        if outcome in ("passed", "confirmed", "renewed"):
            for skills in self._showed.values():
                skills.discard(happening.skill)
        return outcome

    def _wrong(self, skill: Skill, happening: Happening) -> Outcome:
        return self._miss(skill, happening, happening.name) if skill.takes(happening.on) else "practice"

    def _early(self, skill: Skill, happening: Happening) -> Outcome:
        if not skill.takes(happening.on):
            return "practice"
        return self._miss(skill, happening, TWICE_EARLY) if skill.early(happening.on) else "not counted"

    def _miss(self, skill: Skill, happening: Happening, name: str) -> Outcome:
        outcome = skill.miss(happening.on, name)
        if not name:
            return outcome
        showed = self._showed.setdefault(name, set())
        twice = bool(showed)
        showed.add(happening.skill)
        if not twice:
            return outcome
        for other in sorted(showed):
            self._end_round(self.skills[other], happening.on, name)
        return "drill due" if skill.stage == "drill" else outcome

    def _end_round(self, skill: Skill, on: date, name: str) -> None:
        skill.settle(on)
        if skill.state(on) in ("open", "confirm"):
            skill.end_round(on, name)

    def _drill(self, skill: Skill, happening: Happening) -> Outcome:
        return "person needed" if skill.by_person else self._drill_done(skill, happening)

    def _drill_done(self, skill: Skill, happening: Happening) -> Outcome:
        if skill.stage != "drill":
            return "practice"
        name = skill.drill
        served = [other for other in self.skills.values() if other.stage == "drill" and other.drill == name != ""]
        for other in served or [skill]:
            if happening.act == "drill_by_person" or not other.by_person:
                other.drill_done(happening.on)
        self._showed.pop(name, None)
        return "drill done"

    def _lifted(self, skill: Skill, happening: Happening) -> Outcome:
        skill.lift_wait(happening.on)
        return "waived"

    def _asked_again(self, skill: Skill, happening: Happening) -> Outcome:
        return "asked again"

    def _carried(self, skill: Skill, happening: Happening) -> Outcome:
        skill.carry(happening.act == "old_right")
        return "carried"


_TAKE: dict[Act, Callable[[SkillFold, Skill, Happening], Outcome]] = {
    "right": SkillFold._right,
    "wrong": SkillFold._wrong,
    "rounded_early": SkillFold._early,
    "asked_again": SkillFold._asked_again,
    "drill": SkillFold._drill,
    "drill_by_person": SkillFold._drill_done,
    "wait_lifted": SkillFold._lifted,
    "old_right": SkillFold._carried,
    "old_wrong": SkillFold._carried,
}
