"""Studying: the step a cook has come to, a clock that runs while they work, and that an edition is read."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from typing import NamedTuple

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import not_on_roster, save
from trainer.kitchen.book import NewEntry
from trainer.kitchen.technique import Technique
from trainer.messages import message
from trainer.store.drafts import Draft, DraftKind
from trainer.store.problems import CannotSave


def acknowledge_reading(k: Kitchen, *, cook: str, technique: str, now: datetime, key: str) -> Outcome:
    """Return the saved `technique_read` for the edition in force today; the step they had come to is let go."""
    taught = k.content.techniques.get(technique)
    if taught is None:
        return Refused(message("There is no technique “{technique}”.", technique=technique), "", "technique")
    edition = taught.edition_on(k.today(now)).number
    deed = NewEntry("technique_read", now, cook, cook, {"technique": technique, "edition": edition}, key)
    with k.file.writing():
        outcome = save(k, deed, lambda day: not_on_roster(cook, day))
        if not isinstance(outcome, Refused):
            k.file.drafts.delete(_id("place", cook, technique))
    return outcome


def keep_place(k: Kitchen, *, cook: str, technique: Technique, step: str, now: datetime) -> None:
    """Keep the step a cook looks at, to come back to. A disk that will not take it keeps nobody from reading."""
    if _kept(k, "place", cook, technique.id) != step:
        with suppress(CannotSave):
            k.file.drafts.put(_draft("place", cook, technique, step, now))


def place_of(k: Kitchen, *, cook: str, technique: Technique) -> int | None:
    """Return the number of the step a cook had come to; None before the second, and where it is taught no more."""
    found, steps = _kept(k, "place", cook, technique.id), [step.id for step in technique.steps]
    return steps.index(found) + 1 if found in steps[1:] else None


class StepClock(NamedTuple):
    """Which clock runs: that of a step, or of one of the several lines a step times."""

    step: str
    line: str = ""


def start_clock(k: Kitchen, *, cook: str, technique: Technique, clock: StepClock, now: datetime) -> None:
    """Start a clock, from this moment on; one that ran in this technique is stopped by it."""
    draft = _draft("clock", cook, technique, clock.step, now)
    k.file.drafts.put(replace(draft, body={**draft.body, "line": clock.line}) if clock.line else draft)


def stop_clock(k: Kitchen, *, cook: str, technique: Technique) -> None:
    """Stop the clock of a technique; one that does not run is no error."""
    k.file.drafts.delete(_id("clock", cook, technique.id))


def clock_running(k: Kitchen, *, cook: str, technique: Technique) -> tuple[StepClock, datetime] | None:
    """Return which clock of a technique a cook has started, and when; None where none runs."""
    there = _there(k, "clock", cook, technique.id)
    if there is None:
        return None
    return StepClock(str(there.body["step"]), str(there.body.get("line", ""))), there.at


def _kept(k: Kitchen, kind: DraftKind, cook: str, technique: str) -> str:
    """Return the step that is kept; empty where none is."""
    there = _there(k, kind, cook, technique)
    return str(there.body["step"]) if there is not None else ""


def _there(k: Kitchen, kind: DraftKind, cook: str, technique: str) -> Draft | None:
    """Return the place or the clock of a cook. Work of another kind may have this id, since its key came by a form."""
    there = k.file.drafts.get(_id(kind, cook, technique))
    return there if there is not None and there.kind == kind else None


def _draft(kind: DraftKind, cook: str, technique: Technique, step: str, now: datetime) -> Draft:
    return Draft(_id(kind, cook, technique.id), kind, technique.id, cook, cook, {"step": step}, now)


def _id(kind: DraftKind, cook: str, technique: str) -> str:
    return f"{kind}:{cook}:{technique}"
