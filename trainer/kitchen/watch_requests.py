"""Who asked to be watched and has not been yet: the requests a record leaves open."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime

from trainer.kitchen.record import CookRecord, WatchRequest
from trainer.kitchen.requirements import parts_left
from trainer.kitchen.technique import Technique


def open_requests(record: CookRecord, taught: Mapping[str, Technique], on: date) -> tuple[WatchRequest, ...]:
    """Return the requests to be watched nobody has answered, the earliest of each technique, in order of the book.

    A later practical of the technique answers a request, whatever its verdict; one of a part of its checklist alone
    leaves it open for the parts that nobody has watched since and no sign-off covers.
    """
    waiting: dict[str, WatchRequest] = {}
    for line in record.asked:
        if not _is_answered(record, line, taught.get(line.technique), on):
            waiting.setdefault(line.technique, line)
    return tuple(waiting.values())


def asked_since(record: CookRecord, technique: Technique, on: date) -> datetime | None:
    """Return when the open request for a technique was made; None where there is none."""
    asked = (line for line in record.asked if line.technique == technique.id)
    return next((line.at for line in asked if not _is_answered(record, line, technique, on)), None)


def _is_answered(record: CookRecord, asked: WatchRequest, technique: Technique | None, on: date) -> bool:
    since = [line for line in record.watched if line.technique == asked.technique and line.seq > asked.seq]
    is_whole = any(not line.part or line.verdict == "stopped" for line in since)
    if is_whole or not since or technique is None:
        return bool(since)
    return all(any(line.shows(part.id) for line in since) for part in parts_left(record, technique, on))
