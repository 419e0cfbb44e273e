"""A manager releases a stop for safety, with a reason, so that the cook may be watched again."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.stops import standing_stops
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class Release:
    """The stop to release, by the id of its practical, and why."""

    stop: str
    reason: str


def release_stop(k: Kitchen, *, by: str, release: Release, now: datetime, key: str) -> Outcome:
    """Return the saved `stop_released`: the cook may be watched again, and is cleared by a new *meets it* alone.

    A manager releases it, and not their own.
    """
    stop, reason = k.file.book.find(release.stop), release.reason.strip()
    if stop is None or stop.kind != "practical_watched":
        return Refused(message("There is no stop “{entry}”.", entry=release.stop), "", "stop")
    return save(
        k,
        NewEntry("stop_released", now, stop.cook, by, {"stop": stop.id, "reason": reason}, key),
        lambda day: (
            denied_by(may_manage(by, stop.cook, day))
            or not_on_roster(stop.cook, day)
            or _not_standing(stop, day)
            or validate_text(reason, "reason")
        ),
    )


def _not_standing(stop: Entry, day: Snapshot) -> Refused | None:
    """Return the refusal of a practical that was no stop, or whose stop has ended or was voided."""
    standing = standing_stops(day.progress.record(stop.cook).as_of(day.on), stop.body["technique"])
    if any(line.entry == stop.id for line in standing):
        return None
    return Refused(message("That stop does not stand any more: it was released or voided."), "", "stop")
