"""Somebody else looks at a sign-off again, without having seen what was found the first time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from itertools import islice
from typing import Any

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.rechecks import FOUND, SignOff, drawn, may_look_again, who_saw, why_closed
from trainer.messages import message

OFFERED = 3
"""So many are offered at once, by lot: the cook of the first may not be here today."""


CHOOSE_ONE = message("Choose what you found: as it should be, or not yet.")
SAY_WHAT = message("Write what was not there yet. It stays in the book.")


@dataclass(frozen=True, slots=True)
class Recheck:
    """Which practical was looked at again, what was found, which points were not as they should be, and a note."""

    practical: str
    found: str
    points: tuple[str, ...] = ()
    note: str = ""


def offered_to(k: Kitchen, by: str, day: Snapshot) -> tuple[SignOff, ...]:
    """Return the sign-offs a person is to look at again, by lot: the first three of those they may."""
    may = (one for one in drawn(day) if _may(k, by, one, day) is None)
    return tuple(islice(may, OFFERED))


def look_again(k: Kitchen, *, by: str, recheck: Recheck, now: datetime, key: str) -> Outcome:
    """Return the saved `rechecked`. It takes no clearance: what is to be done is a manager's to say.

    Of two who look at the same one the first to sign counts.
    """
    first = k.file.book.find(recheck.practical)
    if first is None or first.kind != "practical_watched":
        return Refused(message("There is no practical “{entry}” in the book.", entry=recheck.practical), "", "found")
    note, points = recheck.note.strip(), list(recheck.points)
    body = {"practical": first.id, "found": recheck.found, "points": points, "note": note}
    deed = NewEntry("rechecked", now, first.cook, by, body, key)
    return save(k, deed, lambda day: _not_open(k, by, first, day) or _wrong(recheck, first.body))


def _not_open(k: Kitchen, by: str, first: Entry, day: Snapshot) -> Refused | None:
    """Return what stands in the way of a look again at this moment, whatever is found."""
    record = day.record(first.cook)
    line = next((one for one in record.watched if one.entry == first.id), None)
    if line is None:
        return Refused(message("That sign-off is voided: there is nothing left to look at again. Take the next."))
    closed = why_closed(record, line, day.on)
    if closed:
        return Refused(closed)
    return _may(k, by, SignOff(first.cook, line), day) or not_on_roster(first.cook, day)


def _may(k: Kitchen, by: str, one: SignOff, day: Snapshot) -> Refused | None:
    first = k.file.book.find(one.line.entry)
    saw = who_saw(one.line.by, first.body if first else {})
    return denied_by(may_look_again(by, one, saw, day))


def _wrong(recheck: Recheck, body: Mapping[str, Any]) -> Refused | None:
    """Return what is wrong with what was found: which of the two, the points, the note a *not yet* asks for."""
    if recheck.found not in FOUND:
        return Refused(CHOOSE_ONE, "", "found")
    points = {point["point"]: point for point in body.get("points", ())}
    unknown = next((point for point in recheck.points if point not in points), None)
    if unknown is not None:
        return Refused(message("There is no point “{point}” on this checklist.", point=unknown), "", "points")
    must = next((points[one] for one in recheck.points if points[one].get("critical")), None)
    if recheck.found == "same" and must is not None:
        words = message("“{point}” must be met. Say not yet, or take the tick away.", point=must["words"].rstrip("."))
        return Refused(words, "", "found")
    if recheck.found == "not yet" and not recheck.note.strip():
        return Refused(SAY_WHAT, "", "note")
    return validate_text(recheck.note, "note", may_be_blank=True)
