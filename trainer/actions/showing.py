"""Somebody showed a cook how it is done: a technique, for how long, and what."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import not_on_roster, save, validate_text
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import Snapshot
from trainer.messages import message

A_MOMENT = 5
MOST_MINUTES = 480


@dataclass(frozen=True, slots=True)
class Taught:
    """Who was shown which technique, for how many minutes, and what, where that is said."""

    cook: str
    technique: str
    minutes: int = A_MOMENT
    what: str = ""


def teach_technique(k: Kitchen, *, by: str, taught: Taught, now: datetime, key: str) -> Outcome:
    """Return the saved `technique_taught`: a later signature of the same person says that they taught it."""
    body = {"technique": taught.technique, "minutes": taught.minutes, "what": taught.what.strip()}
    deed = NewEntry("technique_taught", now, taught.cook, by, body, key)
    return save(k, deed, lambda day: _refusal(by, taught, day))


def _refusal(by: str, taught: Taught, day: Snapshot) -> Refused | None:
    if by == taught.cook:
        return Refused(message("Nobody teaches themselves: write down who showed it."), "", "cook")
    if taught.technique not in day.rules.techniques:
        return Refused(message("There is no technique “{technique}”.", technique=taught.technique), "", "technique")
    wrong = wrong_minutes(taught.minutes) or validate_text(taught.what, "what", may_be_blank=True)
    return not_on_roster(by, day) or not_on_roster(taught.cook, day) or wrong


def wrong_minutes(minutes: int) -> Refused | None:
    """Return the refusal of a time nobody can have shown something for."""
    if 1 <= minutes <= MOST_MINUTES:
        return None
    words = message("{minutes} minutes: from 1 to {most} are taken.", minutes=minutes, most=MOST_MINUTES)
    return Refused(words, "", "minutes")
