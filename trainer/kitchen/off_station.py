"""Taken off a station: the reasons there are, none of them an illness by name, and what is said of one that stands."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import takewhile
from typing import Literal, get_args

from trainer.kitchen.record import CookRecord, StoodDown
from trainer.messages import Text, joined, message

Why = Literal["not fit", "not safe", "seen"]
WHYS: tuple[Why, ...] = get_args(Why)
WHY_WORDS: Mapping[str, Text] = {
    "not fit": message("Not fit for the line today"),
    "not safe": message("Not safe today"),
    "seen": message("What was seen"),
}
EVERY_STATION = "all"
"""In place of the stations, where somebody is off all of them, those to come too."""


@dataclass(frozen=True, slots=True)
class OffStation:
    """Somebody off a station on a day: the line that took them off, and what was written of it since."""

    line: StoodDown
    words: tuple[str, ...]


def off_since(record: CookRecord, station: str) -> OffStation | None:
    """Return what took a cook off a station first, of what stands at the end of a record; None where nothing does."""
    lines = [line for line in record.stood_down if line.is_at(station)]
    standing = list(takewhile(lambda line: not line.restored, reversed(lines)))
    return _with_words(standing[-1], record) if standing else None


def off_now(record: CookRecord, stations: Collection[str]) -> tuple[OffStation, ...]:
    """Return what keeps a cook off any of these stations, each once, the first to take them off on top."""
    if not record.stood_down:
        return ()
    found = {one.line.entry: one for station in stations if (one := off_since(record, station)) is not None}
    return tuple(found.values())


def _with_words(line: StoodDown, record: CookRecord) -> OffStation:
    return OffStation(line, tuple(one.words for one in record.words if one.to == line.entry))


def reason_words(line: StoodDown, later: Iterable[str] = ()) -> Text:
    """Return why somebody was taken off, in words; of an entry of before, as it was typed."""
    typed: Sequence[Text] = [text for text in (line.reason, *later) if text]
    if not line.why:
        return joined(typed, " ")
    if not typed:
        return message("{why}.", why=WHY_WORDS[line.why])
    return message("{why}: {words}", why=WHY_WORDS[line.why], words=joined(typed, " "))


def lacks_words(found: OffStation, today: date) -> bool:
    """Return whether a word of today has nothing but its reason off the list: the rest may be written later."""
    return bool(found.line.why) and found.line.on == today and not (found.line.reason or found.words)
