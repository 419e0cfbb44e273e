"""A cook's way to a station: what was done of each technique and when, what is still to come, and when it ends.

Everything is dated by the record as it stood on the day; what is to come is what the record and the path say already.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from trainer.kitchen.clearance import TechniqueStanding, asking_of, technique_standing
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.knowledge import skills_on
from trainer.kitchen.paths import open_path
from trainer.kitchen.progress import Person
from trainer.kitchen.record import AsKnown, CookRecord, PathOpened
from trainer.kitchen.requirements import last_day
from trainer.kitchen.spans import ALWAYS, Span
from trainer.kitchen.technique import Station, Technique

StepKind = Literal["read", "questions", "skill", "known", "asked", "not yet", "stopped", "signed"]
_WATCHED: Mapping[str, StepKind] = {"meets it": "signed", "not yet": "not yet"}


@dataclass(frozen=True, slots=True)
class WayStep:
    """One thing done on a day: of a skill, which; of what was watched, who signed it."""

    on: date
    kind: StepKind
    skill: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True)
class TechniqueWay:
    """The way through one technique: what was done, the earliest first, and what is still to do.

    `open_skills` are those not passed on the day; `until` is the last day on which all of it counts, None where it is
    not all there or has no end.
    """

    technique: str
    steps: tuple[WayStep, ...]
    standing: TechniqueStanding
    open_skills: tuple[str, ...]
    until: date | None


@dataclass(frozen=True, slots=True)
class Way:
    """A cook's way to a station as it stands on a day.

    `cleared` are the runs of days on which the cook is cleared, past ones too, the last one with its end if nothing
    more is written; `shifts` the days of supervised shifts.
    """

    cook: str
    station: Station
    on: date
    path: PathOpened | None
    shifts: tuple[date, ...]
    cleared: tuple[Span, ...]
    techniques: tuple[TechniqueWay, ...]

    @property
    def has_begun(self) -> bool:
        """Return whether there is anything to show."""
        return bool(self.path or self.shifts or self.cleared or any(one.steps for one in self.techniques))


def way_to(person: Person, station: Station, day: Snapshot) -> Way:
    """Return a person's way to a station, by what was known at the end of the day."""
    record = day.record(person.id)
    asking = asking_of(person, {station.id: station}, day.progress, day.content, AsKnown(day.on, day.known or day.on))
    ruled = day.rules.stations.get(station.id, station)
    techniques = (day.rules.techniques[name] for name in ruled.techniques)
    return Way(
        person.id,
        ruled,
        day.on,
        open_path(record, station.id),
        tuple(sorted(line.worked_on for line in record.shifts if line.station == station.id)),
        tuple(asking.cleared_within(station.id, Span(ALWAYS, date.max))),
        tuple(_technique_way(technique, record, day) for technique in techniques),
    )


def _technique_way(technique: Technique, record: CookRecord, day: Snapshot) -> TechniqueWay:
    standing = technique_standing(record.cook, technique, day.progress, day.on)
    skills = skills_on(record, technique.knowledge, day.on)
    steps = [*_done(technique.id, record)]
    steps += [WayStep(one.spans[0].since, "skill", one.id) for one in skills if one.spans]
    held = [r.best for r in standing.requirements if r.best]
    until = min((span.until for span in held), default=None) if len(held) == len(standing.requirements) else None
    is_known = standing.quiz is not None and standing.quiz.best is not None
    return TechniqueWay(
        technique.id,
        tuple(sorted(steps, key=lambda step: step.on)),
        standing,
        () if is_known else tuple(one.id for one in skills if not any(span.holds(day.on) for span in one.spans)),
        last_day(until) if until is not None else None,
    )


def _done(technique: str, record: CookRecord) -> Iterator[WayStep]:
    """Yield what a record holds of a technique, but for its skills."""
    yield from (WayStep(one.on, "read") for one in record.read if one.technique == technique)
    yield from (WayStep(one.on, "questions") for one in record.sat if one.technique == technique and one.passed)
    known = (line for line in record.known_before if any(one.technique == technique for one in line.techniques))
    yield from (WayStep(line.on, "known") for line in known)
    yield from (WayStep(one.on, "asked") for one in record.asked if one.technique == technique)
    watched = (one for one in record.watched if one.technique == technique)
    yield from (WayStep(one.on, _WATCHED.get(one.verdict, "stopped"), by=one.by) for one in watched)
