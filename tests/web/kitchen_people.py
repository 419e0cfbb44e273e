"""Past deeds for the invented kitchen: what makes Bo an assessor who may sign, and Ana a cook who is ready to show."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from tests.web.conftest import NOON
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry, Kind, NewEntry
from trainer.web.forms import new_key


def write(k: Kitchen, kind: Kind, cook: str, body: dict[str, Any], *, by: str = "", days: float = 10) -> Entry:
    """Write a deed into the book as it was done some days ago."""
    at = NOON - timedelta(days=days)
    return k.file.book.append(NewEntry(kind, at, cook, by or cook, body, new_key()))


def study(k: Kitchen, cook: str, technique: str = "nests", *, days: float = 20) -> None:
    """Let a cook read the edition in force and pass its quiz."""
    edition = k.content.techniques[technique].edition_on(NOON.date()).number
    write(k, "technique_read", cook, {"technique": technique, "edition": edition}, days=days)
    if k.content.techniques[technique].asked:
        body = {"technique": technique, "edition": edition, "seed": 1, "grader": 1, "questions": []}
        write(k, "quiz_sat", cook, {**body, "right": 3, "asked": 3, "need": 2, "passed": True}, days=days - 1)


def sign(k: Kitchen, cook: str, *, by: str = "dev", days: float = 10) -> Entry:
    """Let a cook be signed off for the nests."""
    points = [
        {"point": "guard_on", "seen": "meets it", "readings": [], "note": ""},
        {"point": "weights", "seen": "meets it", "readings": ["4.5", "4.4", "4.6", "4.5", "4.7"], "note": ""},
        {"point": "tray", "seen": "meets it", "readings": [], "note": "Neat."},
    ]
    body = {"technique": "nests", "edition": 2, "station": "pasta_room", "points": points, "verdict": "meets it"}
    reasons = ["Every critical point met.", "1 of 1 scored points met, 1 needed."]
    return write(k, "practical_watched", cook, {**body, "reasons": reasons, "note": ""}, by=by, days=days)


def clear(k: Kitchen, cook: str, *, days: float = 10) -> Entry:
    """Clear a cook for the pasta room."""
    study(k, cook, days=days + 10)
    return sign(k, cook, days=days)


def ask(k: Kitchen, cook: str, *, days: float = 1) -> None:
    """Let a cook who has studied ask to be watched at the nests."""
    study(k, cook)
    write(k, "watch_asked", cook, {"technique": "nests"}, days=days)
