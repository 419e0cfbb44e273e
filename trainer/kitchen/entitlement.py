"""Who may sign, void and open a station on a day: yes, or no with the reason and who can."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from trainer.kitchen.book import Entry
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.technique import Content


@dataclass(frozen=True, slots=True)
class Day:
    """What is known on one day: the book so far, what is taught, who everybody is, the date."""

    progress: Progress
    content: Content
    people: Mapping[str, Person]
    on: date


@dataclass(frozen=True, slots=True)
class Entitlement:
    """Whether somebody may; if not, why, and who can."""

    may: bool
    reason: str = ""
    who_can: str = ""


def may_sign(assessor: str, cook: str, technique: str, day: Day) -> Entitlement:
    """Return whether an assessor may sign a practical of this cook in this technique on the day."""
    raise NotImplementedError


def may_sign_at(assessor: str, cook: str, station: str, day: Day) -> Entitlement:
    """Return whether an assessor may sign a supervised shift of this cook at this station on the day."""
    raise NotImplementedError


def may_open_station(by: str, assessor: str, station: str, day: Day) -> Entitlement:
    """Return whether a manager may open a station for an assessor."""
    raise NotImplementedError


def may_void(by: str, entry: Entry, reason: str, now: datetime, progress: Progress) -> Entitlement:
    """Return whether somebody may void an entry at a moment."""
    raise NotImplementedError
