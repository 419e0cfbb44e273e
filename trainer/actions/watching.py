"""Watching a cook work: the request, the practical point by point, the signature, and the supervised shift."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.kitchen.practical import PointSeen, Seen, Verdict, VerdictWord


@dataclass(frozen=True, slots=True)
class Waiting:
    """A cook who asked to be watched and has not been yet."""

    entry: str
    cook: str
    technique: str
    since: datetime


@dataclass(frozen=True, slots=True)
class Watch:
    """Whom to watch, at what, at which station."""

    cook: str
    technique: str
    station: str


@dataclass(frozen=True, slots=True)
class Practical:
    """A practical under way, kept point by point; `verdict` is what it would be if signed now."""

    id: str
    by: str
    cook: str
    technique: str
    edition: int
    station: str
    seen: Mapping[str, PointSeen]
    verdict: Verdict
    started: datetime


@dataclass(frozen=True, slots=True)
class Look:
    """One point as the assessor typed it: a word, or None to let the readings decide; readings in the order taken."""

    point: str
    tick: Seen | None = None
    readings: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Signing:
    """What is signed: `proved_at` is when the assessor last gave their PIN; `said` may lower the verdict, never lift it."""

    practical: str
    proved_at: datetime | None
    note: str = ""
    said: VerdictWord | None = None


@dataclass(frozen=True, slots=True)
class SupervisedShift:
    """A shift worked at a station beside a cleared cook; `sitting` is breakfast, lunch or dinner."""

    cook: str
    station: str
    worked_on: date
    beside: str
    guests: int
    sitting: str


def ask_to_be_watched(k: OpenKitchen, *, cook: str, technique: str, now: datetime, key: str) -> Outcome:
    """Return the saved `watch_asked`."""
    raise NotImplementedError


def waiting(k: OpenKitchen, on: date) -> tuple[Waiting, ...]:
    """Return the open requests, longest wait first."""
    raise NotImplementedError


def start_practical(k: OpenKitchen, *, by: str, watch: Watch, now: datetime, key: str) -> Practical | Refused:
    """Return the assessor's open practical of this cook and technique, or a new one; `key` becomes its id."""
    raise NotImplementedError


def find_practical(k: OpenKitchen, practical: str) -> Practical | None:
    """Return a practical under way by id."""
    raise NotImplementedError


def practicals_by(k: OpenKitchen, by: str) -> tuple[Practical, ...]:
    """Return what an assessor has under way, oldest first."""
    raise NotImplementedError


def see_point(k: OpenKitchen, *, by: str, practical: str, look: Look, now: datetime) -> PointSeen | Refused:
    """Return the point as judged, after keeping it."""
    raise NotImplementedError


def drop_practical(k: OpenKitchen, *, by: str, practical: str) -> Refused | None:
    """Return None after putting an unsigned practical away; nothing enters the book."""
    raise NotImplementedError


def sign_practical(k: OpenKitchen, *, by: str, signing: Signing, now: datetime, key: str) -> Outcome:
    """Return the saved `practical_watched`, with the verdict and every reason."""
    raise NotImplementedError


def work_shift(k: OpenKitchen, *, by: str, shift: SupervisedShift, now: datetime, key: str) -> Outcome:
    """Return the saved `shift_worked`."""
    raise NotImplementedError
