"""A cook asks to be watched: when they may, and who waits."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import not_on_roster, save
from trainer.kitchen.book import NewEntry
from trainer.kitchen.clearance import TechniqueStanding, open_requests, technique_standing
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.spans import in_words
from trainer.messages import joined, message


@dataclass(frozen=True, slots=True)
class Waiting:
    """A cook who asked to be watched and has not been yet."""

    entry: str
    cook: str
    technique: str
    since: datetime


def ask_to_be_watched(k: Kitchen, *, cook: str, technique: str, now: datetime, key: str) -> Outcome:
    """Return the saved `watch_asked`: the cook has read, passed the quiz, and waits for an assessor."""
    deed = NewEntry("watch_asked", now, cook, cook, {"technique": technique}, key)

    def refusal(day: Snapshot) -> Refused | None:
        return not_ready(cook, technique, day) or _asked_already(cook, technique, day)

    return save(k, deed, refusal)


def not_ready(cook: str, technique: str, day: Snapshot) -> Refused | None:
    """Return why a cook may not be watched yet: reading and answering come before the practical."""
    taught = day.content.techniques.get(technique)
    if taught is None:
        return Refused(message("There is no technique “{technique}”.", technique=technique), "", "technique")
    standing = technique_standing(cook, technique=taught, progress=day.progress, on=day.on)
    lacking = [r.missing.text for r in (standing.reading, standing.quiz) if r is not None and r.missing]
    first = Refused(joined(lacking), message("The cook reads it, and then answers."), "cook") if lacking else None
    return not_on_roster(cook, day) or _stopped(standing) or first


def _stopped(standing: TechniqueStanding) -> Refused | None:
    """Return the refusal while a stop for safety stands: only a manager ends it; or until the day of the retry."""
    missing = standing.practical.missing
    if standing.is_stopped and missing:
        return Refused(missing.text, missing.next_act, "cook")
    if standing.retry_from is not None:
        words = message("Stopped for safety lately. To be watched again from {day}.", day=in_words(standing.retry_from))
        return Refused(words, "", "cook")
    return None


def _asked_already(cook: str, technique: str, day: Snapshot) -> Refused | None:
    requests = open_requests(day.progress.record(cook).as_of(day.on), day.content.techniques, day.on)
    if any(line.technique == technique for line in requests):
        return Refused(message("You have asked already and are waiting."), "", "technique")
    return None


def waiting(k: Kitchen, on: date) -> tuple[Waiting, ...]:
    """Return the open requests of a day, longest wait first; a later practical of the technique answers one,
    and of a checklist in parts, all that were left.

    A cook whose reading or quiz has run out since they asked is not ready to show, and not listed until it is fixed.
    """
    progress, taught = k.progress(), k.content.techniques
    found = [
        (line.at, line.seq, Waiting(line.entry, cook, line.technique, line.at))
        for cook in progress.cooks_on(on)
        for line in open_requests(progress.record(cook).as_of(on), taught, on)
        if line.technique in taught and technique_standing(cook, taught[line.technique], progress, on).may_be_watched
    ]
    return tuple(request for _, _, request in sorted(found, key=lambda item: item[:2]))
