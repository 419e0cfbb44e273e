"""A cook's path to a station: whether one is open, and whether the cook has begun there without any."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from trainer.kitchen.record import CookRecord, PathOpened
from trainer.kitchen.technique import Station


def open_path(record: CookRecord, station: str) -> PathOpened | None:
    """Return the path to a station that is open on the day of a record; the one opened last takes all others' place.

    A path stays open until somebody closes it: neither its day nor a clearance ends it.
    """
    last = next((line for line in reversed(record.paths) if line.station == station), None)
    return None if last is None or any(line.path == last.entry for line in record.paths_closed) else last


def has_begun(record: CookRecord, station: Station, stations: Iterable[Station]) -> bool:
    """Return whether a cook worked a shift at a station, or did something of a technique that no other asks for.

    What several stations ask for was done for any of them.
    """
    others = {name for other in stations if other.id != station.id for name in other.techniques}
    own = {name for name in station.techniques if name not in others}
    return any(line.station == station.id for line in record.shifts) or any(name in own for name in _touched(record))


def _touched(record: CookRecord) -> Iterator[str]:
    """Yield the technique of everything a cook did, asked for or was said to know."""
    for lines in (record.read, record.sat, record.asked, record.watched):
        yield from (line.technique for line in lines)
    for known in record.known_before:
        yield from (one.technique for one in known.techniques)
