"""Who asked to be watched and has not been yet: the requests a record leaves open."""

from __future__ import annotations

from datetime import datetime

from trainer.kitchen.record import CookRecord, WatchRequest


def open_requests(record: CookRecord) -> tuple[WatchRequest, ...]:
    """Return the requests to be watched nobody has answered, the earliest of each technique, in order of the book.

    Any later practical of the technique answers a request, whatever its verdict.
    """
    answered: dict[str, int] = {line.technique: line.seq for line in record.watched}
    waiting: dict[str, WatchRequest] = {}
    for line in record.asked:
        if line.seq > answered.get(line.technique, 0):
            waiting.setdefault(line.technique, line)
    return tuple(waiting.values())


def asked_since(record: CookRecord, technique: str) -> datetime | None:
    """Return when the open request for a technique was made; None where there is none."""
    return next((line.at for line in open_requests(record) if line.technique == technique), None)
