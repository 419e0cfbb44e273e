"""Where a cook stands with one technique on a day: read, known, watched, and since when they wait to be watched."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from trainer.kitchen.knowledge import knowledge, skill_turns, skills_on
from trainer.kitchen.progress import Progress
from trainer.kitchen.record import CookRecord
from trainer.kitchen.requirements import Requirement, practical, quiz, reading, signed_parts
from trainer.kitchen.spans import NO_END, ends_of
from trainer.kitchen.stops import retry_day
from trainer.kitchen.technique import Technique
from trainer.kitchen.watch_requests import asked_since

TechniqueState = Literal["not started", "studying", "ready to show", "signed", "lapsed", "stood down"]


@dataclass(frozen=True, slots=True)
class TechniqueStanding:
    """Where a cook stands with one technique on a day: what is missing, and since when they wait to be watched."""

    technique: str
    state: TechniqueState
    reading: Requirement
    quiz: Requirement | None
    practical: Requirement
    asked_since: datetime | None
    retry_from: date | None = None

    @property
    def requirements(self) -> tuple[Requirement, ...]:
        """Return reading, quiz (where the technique has questions) and practical."""
        return tuple(r for r in (self.reading, self.quiz, self.practical) if r is not None)

    @property
    def requirement_turns(self) -> Iterator[date]:
        """Yield the days on which one of the requirements begins to be met, or no longer is, or is due again."""
        for asked in self.requirements:
            yield from ends_of(asked.spans)
            yield from asked.turns

    @property
    def is_read(self) -> bool:
        """Return whether an edition that holds is read."""
        return self.reading.best is not None

    @property
    def quiz_passed(self) -> bool:
        """Return whether the quiz is passed and in date, or not asked: the technique has none, or it is known."""
        return self.quiz is None or (self.quiz.best is not None and not self.quiz.is_asked)

    @property
    def is_stopped(self) -> bool:
        """Return whether a stop for safety stands, which a manager has to release."""
        return self.practical.takes_off

    @property
    def may_be_watched(self) -> bool:
        """Return whether reading and quiz are there, and no stop stands, nor a retry waits after one."""
        return self.is_read and self.quiz_passed and not self.is_stopped and self.retry_from is None

    @property
    def is_signed(self) -> bool:
        """Return whether a sign-off counts; what is known from before was never watched."""
        return self.practical.best is not None and not self.practical.known


def technique_standing(cook: str, technique: Technique, progress: Progress, on: date) -> TechniqueStanding:
    """Return where a cook stands with a technique on a day, as the book said then, by the rules in force that day."""
    standard = progress.standards.in_force(on)
    ruled = standard.content.techniques.get(technique.id, technique) if standard else technique
    return _standing(progress.record(cook).as_of(on), ruled, on)


def is_read(cook: str, technique: Technique, progress: Progress, on: date) -> bool:
    """Return whether an edition of a technique that holds on a day is read, by the rules in force that day."""
    standard = progress.standards.in_force(on)
    ruled = standard.content.techniques.get(technique.id, technique) if standard else technique
    return reading(progress.record(cook).as_of(on), ruled, on).best is not None


def standing_of(record: CookRecord, technique: Technique, on: date) -> TechniqueStanding:
    """Return where a cook stands with a technique on a day, by a record as it stood then.

    What was found for another day is said again where nothing in it turns from that day to this one.
    """
    key = "standing", id(technique)
    kept: _Kept | None = record.memo.get(key)
    if kept is None or not kept.since <= on < kept.turns:
        found = _standing(record, technique, on)
        turns = min((day for day in _turns(record, technique, found, on) if day > on), default=NO_END)
        kept = record.memo[key] = _Kept(technique, found, on, turns)
    return kept.standing


@dataclass(frozen=True, slots=True)
class _Kept:
    """A standing, from the day it was found for to the day before anything in it turns.

    The technique is kept with it, so that no other one has its identity meanwhile.
    """

    technique: Technique
    standing: TechniqueStanding
    since: date
    turns: date


def _standing(record: CookRecord, technique: Technique, on: date) -> TechniqueStanding:
    read, signed = reading(record, technique, on), practical(record, technique, on)
    asked = knowledge if technique.knowledge else quiz
    sat = asked(record, technique, on) if technique.questions else None
    begun = bool(read.spans) or any(line.technique == technique.id for line in record.sat)
    state, first = _technique_state(read, sat, signed, begun=begun), retry_day(record, technique.id)
    retry_from = first if first is not None and first > on else None
    return TechniqueStanding(technique.id, state, read, sat, signed, asked_since(record, technique, on), retry_from)


def _turns(record: CookRecord, technique: Technique, found: TechniqueStanding, on: date) -> Iterator[date]:
    """Yield every day on which a part of a standing begins, ends, or is told in other words."""
    yield from (edition.since for edition in technique.editions)
    yield from found.requirement_turns
    for part in signed_parts(record, technique, on) if technique.parts else ():
        yield from ends_of(part.spans)
    yield from skill_turns(skills_on(record, technique.knowledge, on))
    if found.retry_from is not None:
        yield found.retry_from


def _technique_state(read: Requirement, sat: Requirement | None, signed: Requirement, *, begun: bool) -> TechniqueState:
    if signed.takes_off:
        return "stood down"
    if read.best and (sat is None or sat.best):
        return "signed" if signed.best and not signed.known else "ready to show"
    if any(span.since <= span.until for span in signed.spans):
        return "lapsed"
    return "studying" if begun else "not started"
