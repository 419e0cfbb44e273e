"""Reading: a cook says an edition is read and understood."""

from __future__ import annotations

from datetime import datetime

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome


def acknowledge_reading(k: OpenKitchen, *, cook: str, technique: str, now: datetime, key: str) -> Outcome:
    """Return the saved `technique_read` for the edition in force today."""
    raise NotImplementedError
