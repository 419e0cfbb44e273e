"""Skills a technique did not ask for before: from which day it asks for them, and what that costs the cooks it has.

Whoever knew the technique goes on with it some days longer (`kitchen.knowledge`); a quiz passed before skills were
asked for at all runs to its own last day, so the skills of such a technique are none of these.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from trainer.kitchen.knowledge import skills_on
from trainer.kitchen.record import CookRecord
from trainer.kitchen.technique import Content, Technique


def with_added(content: Content, before: Content | None, since: date) -> Content:
    """Return content in which each technique says from when it asks for what the content before does not ask for.

    *before* is what was in force; None where nothing was. A skill that was added then keeps its day.
    """
    known = before.techniques if before else {}
    dated = {id: replace(each, added=_added(each, known.get(id), since)) for id, each in content.techniques.items()}
    return replace(content, techniques=dated)


def _added(technique: Technique, before: Technique | None, since: date) -> Mapping[str, date]:
    """Return the days from which a technique asks for skills that were not among its first."""
    if before is None or not before.knowledge:
        return {}
    there = {skill.id for skill in before.knowledge}
    days = {skill.id: since if skill.id not in there else before.added.get(skill.id) for skill in technique.knowledge}
    return {id: day for id, day in days.items() if day is not None}


@dataclass(frozen=True, slots=True)
class NewSkill:
    """A skill that a cook who is cleared is asked for anew, and how many right answers in a row it takes."""

    cook: str
    skill: str
    questions: int


def new_skills(record: CookRecord, techniques: Iterable[Technique], on: date) -> Iterator[NewSkill]:
    """Yield the skills that some techniques ask for from a day on, and that a cook has not passed, each once."""
    asked = {
        skill.id: skill
        for technique in techniques
        for skill in technique.knowledge
        if technique.added.get(skill.id) == on
    }
    for one in skills_on(record, asked.values(), on):
        if not one.is_passed:
            yield NewSkill(record.cook, one.asked.id, one.asked.base)
