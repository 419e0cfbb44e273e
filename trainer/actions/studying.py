"""Reading: a cook says an edition is read and understood."""

from __future__ import annotations

from datetime import datetime

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import not_on_roster, save
from trainer.kitchen.book import Deed
from trainer.recipe_math.saying import say


def acknowledge_reading(k: OpenKitchen, *, cook: str, technique: str, now: datetime, key: str) -> Outcome:
    """Return the saved `technique_read` for the edition in force today."""
    taught = k.content.techniques.get(technique)
    if taught is None:
        return Refused(say("There is no technique “{technique}”.", technique=technique), "", "technique")
    edition = taught.edition_on(k.today(now)).number
    deed = Deed("technique_read", now, cook, cook, {"technique": technique, "edition": edition}, key)
    return save(k, deed, lambda day: not_on_roster(cook, day))
