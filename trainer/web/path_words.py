"""Entries about paths in words, and a path as a page tells it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from trainer.kitchen.open_paths import PathStanding
from trainer.messages import Text, message
from trainer.web.filters import weekday

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "path_opened": message("Path to a station opened"),
    "path_closed": message("Path to a station closed"),
}
ENDS: Mapping[str, Text] = {"reached": message("Reached."), "dropped": message("Dropped.")}


def by_words(one: PathStanding) -> Text:
    """Return by which day, and how long there is left."""
    return message("by {day}, {left}", day=weekday(one.path.by_day), left=one.words)


def mentor_words(mentor: str, naming: Naming) -> Text:
    """Return who helps, or that nobody does yet."""
    return message("Mentor: {name}", name=naming.person(mentor)) if mentor else message("No mentor yet")


def _opened(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which station, by which day, and who helps."""
    day = weekday(date.fromisoformat(body["by_day"]))
    words = message("{station}, by {day}", station=naming.station(body["station"]), day=day)
    return [words, mentor_words(body["mentor"], naming)]


def _closed(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which path ended, how, and why where that was written."""
    reason = [message("Reason: {reason}", reason=body["reason"])] if body["reason"] else []
    path = message("Closes the path of entry {entry}", entry=naming.entry(body["path"]))
    return [path, ENDS.get(body["outcome"], body["outcome"]), *reason]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "path_opened": _opened,
    "path_closed": _closed,
}
