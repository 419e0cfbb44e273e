"""What a signature keeps beside what was signed: what entitled its writer, and whether they trained the cook."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import entitled_by
from trainer.kitchen.independence import taught_by


def with_entitlement(k: Kitchen, deed: NewEntry) -> NewEntry:
    """Return a practical or a supervised shift with what entitled its writer at this moment, by the entries' numbers.

    There are some thirty of them: by number they take a tenth of the room of their ids, and name them as well.
    """
    day, technique, station = k.day(k.today(deed.at)), deed.body.get("technique", ""), deed.body["station"]
    more: dict[str, Any] = {"entitled_by": _numbers(k, entitled_by(deed.by, station, technique, day))}
    if technique:
        record = day.progress.record(deed.cook).as_of(day.on)
        more["taught_by"] = list(taught_by(deed.by, record, technique, station))
    return replace(deed, body={**deed.body, **more})


def _numbers(k: Kitchen, entries: Iterable[str]) -> list[int]:
    """Return the numbers of entries in the book, from their ids."""
    return [entry.seq for entry in map(k.file.book.find, entries) if entry is not None]
