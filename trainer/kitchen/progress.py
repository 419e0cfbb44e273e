"""Progress: the fold of the book's entries into what each cook has done, kept so that any past date can be asked.

Every deed keeps the day it was recorded and the day it was voided, so one fold answers every date.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Person:
    """Who somebody is, from the people table, never from the book. `born` decides age bars."""

    id: str
    name: str
    born: date | None
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Read:
    """A technique's edition read and acknowledged."""

    entry: str
    on: date
    technique: str
    edition: int


@dataclass(frozen=True, slots=True)
class Sat:
    """A quiz sitting, finished."""

    entry: str
    on: date
    technique: str
    edition: int
    right: int
    asked: int
    passed: bool


@dataclass(frozen=True, slots=True)
class Asked:
    """A request to be watched."""

    entry: str
    at: datetime
    on: date
    technique: str


@dataclass(frozen=True, slots=True)
class Watched:
    """A practical, with its verdict and who signed it."""

    entry: str
    at: datetime
    on: date
    technique: str
    edition: int
    station: str
    verdict: str
    by: str


@dataclass(frozen=True, slots=True)
class ShiftWorked:
    """A supervised shift at a station, worked on a day beside a cleared cook."""

    entry: str
    on: date
    station: str
    worked_on: date
    beside: str


@dataclass(frozen=True, slots=True)
class Shown:
    """A certificate shown to a manager, good from `issued` to the end of `expires`."""

    entry: str
    on: date
    certificate: str
    issued: date
    expires: date | None


@dataclass(frozen=True, slots=True)
class StoodDown:
    """Withdrawn from a station (or put back: `restored`), with the reason."""

    entry: str
    on: date
    station: str
    reason: str
    restored: bool


@dataclass(frozen=True, slots=True)
class Opened:
    """A grant to an assessor to sign at a station nobody is cleared on yet, good to the end of `until`."""

    entry: str
    on: date
    station: str
    until: date
