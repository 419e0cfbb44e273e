"""What a cook was trained in, a line a technique, and on request every quiz, skill passed, and practical there was."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.clearance import Clearance, technique_standing
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.knowledge import skills_on
from trainer.kitchen.practical import WORDS
from trainer.kitchen.progress import Person
from trainer.kitchen.record import CookRecord, Line, TechniqueRead, Watched
from trainer.kitchen.sitting_result import SittingResult
from trainer.kitchen.technique import Content, Technique
from trainer.messages import Text, message

LONGEST_PRACTICAL = timedelta(hours=12)  # one left open over night says nothing of how long it took


@dataclass(frozen=True, slots=True)
class AboutCook:
    """What a record is worked out from."""

    k: Kitchen
    who: Person
    day: Snapshot
    record: CookRecord
    content: Content
    clearances: tuple[Clearance, ...]

    def title(self, technique: str) -> str:
        """Return a technique's title; its id where it is not taught any more."""
        found = self.content.techniques.get(technique)
        return found.title if found else technique


@dataclass(frozen=True, slots=True)
class Training:
    """One technique a cook was trained in: the days, the last practical with who signed it, and what came of it.

    `quizzes`, `answers` and `practicals` are how many there were, with those that did not pass; `quiz` is when the
    questions were last passed, in a quiz or skill by skill.
    """

    technique: str
    title: str
    equipment: tuple[str, ...]
    edition: int
    read: date | None
    quiz: date | None
    watched: Watched | None
    minutes: int
    good_to: date | None
    is_signed: bool
    entries: tuple[str, ...]
    quizzes: int
    answers: int
    practicals: int

    @property
    def last_day(self) -> date | None:
        """Return the day the training ended on, so far."""
        days = [day for day in (self.read, self.quiz, self.watched.on if self.watched else None) if day]
        return max(days, default=None)


@dataclass(frozen=True, slots=True)
class Attempt:
    """One quiz, skill passed or practical: its day, of what, what came of it, who watched (or ""), and its entry."""

    on: date
    title: str
    result: Text
    by: str
    entry: str


def attempts_of(asked: AboutCook) -> tuple[Attempt, ...]:
    """Return every quiz, skill passed and practical, as the book counts them now, the oldest first."""
    sat = [Attempt(x.on, asked.title(x.technique), _score(x), "", x.entry) for x in asked.record.sat]
    seen = [Attempt(x.on, asked.title(x.technique), WORDS[x.verdict], x.by, x.entry) for x in asked.record.watched]
    return tuple(sorted((*sat, *_skills_passed(asked), *seen), key=lambda one: one.on))


def _skills_passed(asked: AboutCook) -> Iterator[Attempt]:
    """Yield a line for every time a skill was passed or its time begun anew."""
    for one in skills_on(asked.record, asked.content.skills.values(), asked.day.on):
        for held in one.skill.passes:
            yield Attempt(held.since, one.asked.title, message("passed"), "", held.proof[-1])


def _score(sat: SittingResult) -> Text:
    """Return what came of a quiz."""
    counted = {"right": sat.right, "asked": sat.asked}
    if sat.passed:
        return message("{right} of {asked} right, passed", **counted)
    if sat.undecided:
        return message("{right} of {asked} right, not decided any more", **counted)
    return message("{right} of {asked} right, not yet", **counted)


def trainings_of(asked: AboutCook) -> Iterable[Training]:
    """Yield a line a technique the cook has begun, in the sequence they are taught."""
    record = asked.record
    begun = {line.technique for lines in (record.read, record.sat, record.watched) for line in lines}
    answered = {line.skill for line in record.skills}
    begun |= {
        one.id for one in asked.content.techniques.values() if any(skill.id in answered for skill in one.knowledge)
    }
    for name, technique in asked.content.techniques.items():
        if name in begun:
            yield _training(asked, technique)


def _training(asked: AboutCook, technique: Technique) -> Training:
    record, name = asked.record, technique.id
    read = [line for line in record.read if line.technique == name]
    sat = [line for line in record.sat if line.technique == name]
    passed = [line.on for line in sat if line.passed]
    watched = [line for line in record.watched if line.technique == name]
    rules = asked.day.rules.techniques.get(name, technique)
    standing = technique_standing(asked.who.id, rules, asked.day.progress, asked.day.on)
    signed, known = standing.practical, standing.quiz
    if known and not known.known:
        passed += [span.since for span in known.spans if span.since <= asked.day.on]
    skills = {skill.id for skill in rules.knowledge}
    until = signed.best.until if signed.best else None
    return Training(
        technique=name,
        title=technique.title,
        equipment=technique.equipment or technique.tools,
        edition=_edition(read, watched),
        read=read[-1].on if read else None,
        quiz=max(passed, default=None),
        watched=watched[-1] if watched else None,
        minutes=sum(map(_minutes, watched)),
        good_to=until if until and until != date.max else None,
        is_signed=signed.best is not None,
        entries=(*_entries(read), *(known.best.proof if known and known.best else ()), *_entries(watched)),
        quizzes=len(sat),
        answers=sum(line.skill in skills and line.seed >= 0 for line in record.skills),
        practicals=len(watched),
    )


def _edition(read: Sequence[TechniqueRead], watched: Sequence[Watched]) -> int:
    """Return the edition that was watched last, or else read; 1 where only the questions were answered."""
    if watched:
        return watched[-1].edition
    return read[-1].edition if read else 1


def _entries(lines: Iterable[Line]) -> tuple[str, ...]:
    """Return the entries lines come from."""
    return tuple(line.entry for line in lines)


def _minutes(watched: Watched) -> int:
    """Return how long a practical took, in whole minutes; 0 where it is not known when it was begun."""
    took = watched.at - watched.started if watched.started else timedelta(0)
    return int(took.total_seconds()) // 60 if timedelta(0) <= took <= LONGEST_PRACTICAL else 0
