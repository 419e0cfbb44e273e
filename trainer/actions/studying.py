"""Studying: the step a cook has come to, and that an edition is read."""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import not_on_roster, save
from trainer.kitchen.book import NewEntry
from trainer.kitchen.technique import Technique
from trainer.messages import message
from trainer.store.drafts import Draft
from trainer.store.problems import CannotSave


def acknowledge_reading(  # noqa: PLR0913 - who read what, in which edition, and when
    k: Kitchen,
    *,
    cook: str,
    technique: str,
    now: datetime,
    key: str,
    edition: int | None = None,
    done_at: datetime | None = None,
) -> Outcome:
    """Return the saved `technique_read` for the edition in force today; the step they had come to is let go.

    An *edition* before it is the one that was read, on a page opened while it was in force. *done_at* is when, where
    that was without network.
    """
    taught = k.content.techniques.get(technique)
    if taught is None:
        return Refused(message("There is no technique “{technique}”.", technique=technique), "", "technique")
    newest, on = taught.edition_on(k.today(now)).number, k.today(done_at or now)
    read = edition if edition in {each.number for each in taught.editions if each.number < newest} else newest
    happened = on if on < k.today(now) else None
    deed = NewEntry("technique_read", now, cook, cook, {"technique": technique, "edition": read}, key, happened)
    with k.file.writing():
        outcome = save(k, deed, lambda day: not_on_roster(cook, day))
        if not isinstance(outcome, Refused):
            k.file.drafts.delete(_id(cook, technique))
    return outcome


def keep_place(k: Kitchen, *, cook: str, technique: Technique, step: str, now: datetime) -> None:
    """Keep the step a cook looks at, to come back to. A disk that will not take it keeps nobody from reading."""
    been = steps_been(k, cook=cook, technique=technique)
    if _kept(k, cook, technique.id) != step or step not in been:
        body, id = {"step": step, "been": sorted({*been, step})}, _id(cook, technique.id)
        with suppress(CannotSave):
            k.file.drafts.put(Draft(id, "place", technique.id, cook, cook, body, now))


def place_of(k: Kitchen, *, cook: str, technique: Technique) -> int | None:
    """Return the number of the step a cook had come to; None before the second, and where it is taught no more."""
    found, steps = _kept(k, cook, technique.id), [step.id for step in technique.steps]
    return steps.index(found) + 1 if found in steps[1:] else None


def steps_been(k: Kitchen, *, cook: str, technique: Technique) -> frozenset[str]:
    """Return the steps a cook was at; of a place an older program kept, all up to the furthest it names."""
    there, steps = _there(k, cook, technique.id), [step.id for step in technique.steps]
    if there is None:
        return frozenset()
    if "been" in there.body:
        return frozenset(steps).intersection(there.body["been"])
    ends = (steps.index(id) + 1 for id in (there.body.get("furthest"), there.body["step"]) if id in steps)
    return frozenset(steps[: max(ends, default=0)])


def _kept(k: Kitchen, cook: str, technique: str) -> str:
    """Return the step that is kept; empty where none is."""
    there = _there(k, cook, technique)
    return str(there.body["step"]) if there is not None else ""


def _there(k: Kitchen, cook: str, technique: str) -> Draft | None:
    """Return the place of a cook. Work of another kind may have this id, since its key came by a form."""
    there = k.file.drafts.get(_id(cook, technique))
    return there if there is not None and there.kind == "place" else None


def _id(cook: str, technique: str) -> str:
    return f"place:{cook}:{technique}"
