"""Corrections: a later entry that voids an earlier one, never an edit."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import save, unless, wrong_text
from trainer.kitchen.book import Deed
from trainer.kitchen.entitlement import may_void


@dataclass(frozen=True, slots=True)
class Correction:
    """The entry to void, by id, and why; its writer may leave the reason out for ten minutes."""

    entry: str
    reason: str


def void_entry(k: OpenKitchen, *, by: str, correction: Correction, now: datetime, key: str) -> Outcome:
    """Return the saved `entry_voided`: from today the entry counts for nothing; earlier days stay as they were."""
    entry, reason = k.file.book.find(correction.entry), correction.reason.strip()
    if entry is None:
        return Refused(f"There is no entry {correction.entry!r}.", "", "entry")
    deed = Deed("entry_voided", now, entry.cook, by, {"entry": entry.id, "reason": reason}, key)
    return save(
        k,
        deed,
        lambda day: (
            unless(may_void(by, entry, reason, now, day.progress)) or wrong_text(reason, "reason", may_be_blank=True)
        ),
    )
