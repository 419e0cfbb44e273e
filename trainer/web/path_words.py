"""Entries about paths in words, and a path as a page tells it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from flask import url_for

from trainer.kitchen.clearance import Clearance
from trainer.kitchen.open_paths import PathStanding, path_standing
from trainer.kitchen.record import PathOpened
from trainer.kitchen.spans import in_short
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


def short_words(one: PathStanding, on: date) -> Text:
    """Return by which day, as short as a cell of the board allows."""
    late = one.state == "late"
    day = in_short(one.path.by_day, with_year=one.path.by_day.year != on.year)
    return message("late: {day}", day=day) if late else message("by {day}", day=day)


def move_href(cook: str, path: PathOpened) -> str:
    """Return the address of the form that gives an open path another day or mentor, filled with those it has."""
    day = path.by_day.isoformat()
    return url_for("paths.new", cook=cook, station=path.station, by_day=day, mentor=path.mentor)


def mentor_words(mentor: str, naming: Naming) -> Text:
    """Return who helps, or that nobody does yet."""
    return message("Mentor: {name}", name=naming.person(mentor)) if mentor else message("No mentor yet")


def path_lines(found: Clearance, naming: Naming) -> tuple[Text, ...]:
    """Return that the cook goes for the station, by when, and with whom; nothing without an open path."""
    standing = path_standing(found)
    if standing is None:
        return ()
    by, mentor = by_words(standing), mentor_words(standing.path.mentor, naming)
    return (message("Goes for this station {by}. {mentor}.", by=by, mentor=mentor),)


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
