"""Whom an assessor should go to: cooks whose practice takes a person, and those who have just lost a skill."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from flask import url_for

from trainer.kitchen.knowledge import skills_on
from trainer.kitchen.progress import Person
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.filters import weekday


@dataclass(frozen=True, slots=True)
class ToTeach:
    """One line about a cook and a skill, and where to see more."""

    words: Text
    href: str


def to_teach() -> tuple[ToTeach, ...]:
    """Return a line for every cook on the roster but the reader, and every skill that wants somebody."""
    k, on = guard.kitchen(), guard.today()
    people = k.people()
    cooks = [people[cook] for cook in k.progress().at_stations_on(on) if cook in people]
    return tuple(line for who in cooks if who.id != guard.person().id for line in _lines(who))


def _lines(who: Person) -> Iterator[ToTeach]:
    on, href = guard.today(), url_for("knowledge.table", cook=who.id)
    record = guard.kitchen().progress().record(who.id).as_of(on)
    for one in skills_on(record, reading.content().skills.values(), on) if record.skills else ():
        if one.skill.by_person:
            words = message("{name} needs somebody to practise with: {skill}", name=who.name, skill=one.asked.title)
            yield ToTeach(words, href)
        elif one.held_until:
            until = weekday(one.held_until)
            words = message("{name} lost {skill}: it counts to {day}", name=who.name, skill=one.asked.title, day=until)
            yield ToTeach(words, href)
