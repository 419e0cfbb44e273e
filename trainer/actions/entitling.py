"""What a signature keeps beside what was signed: what entitled its writer, and whether they trained the cook."""

from __future__ import annotations

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
    entries = entitled_by(deed.by, station, technique, day)
    more: dict[str, Any] = {"entitled_by": k.file.book.numbers_of(entries)}
    if technique:
        record = day.progress.record(deed.cook).as_of(day.on)
        more["taught_by"] = list(taught_by(deed.by, record, technique, station))
    return replace(deed, body={**deed.body, **more})
