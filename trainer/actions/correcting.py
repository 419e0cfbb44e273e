"""Corrections: a later entry that voids an earlier one, never an edit."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class Correction:
    """The entry to void, by id, and why."""

    entry: str
    reason: str


def void_entry(k: OpenKitchen, *, by: str, correction: Correction, now: datetime, key: str) -> Outcome:
    """Return the saved `entry_voided`."""
    raise NotImplementedError
