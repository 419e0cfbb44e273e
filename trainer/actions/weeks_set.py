"""The weeks of services a house has set: the one in force on a day, and those set for later."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from trainer.actions.open_kitchen import Kitchen


def week_in_force(k: Kitchen, day: date) -> Mapping[str, Any]:
    """Return the body of the week in force on a day; nothing where none is."""
    week = k.progress().nights.week(day, day, day)
    return _body(k, week.entry) if week else {}


def weeks_after(k: Kitchen, day: date) -> tuple[Mapping[str, Any], ...]:
    """Return the bodies of the weeks that begin after a day, the earliest first; one that another hides is none."""
    nights = k.progress().nights
    begins = sorted({week.since for week in nights.weeks if week.since > day})
    found = (nights.week(since, since, since) for since in begins)
    counting = (week for since, week in zip(begins, found, strict=True) if week and week.since == since)
    return tuple(_body(k, week.entry) for week in counting)


def _body(k: Kitchen, entry: str) -> Mapping[str, Any]:
    found = k.file.book.find(entry)
    return found.body if found else {}
