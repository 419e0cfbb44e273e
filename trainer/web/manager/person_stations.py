"""How one person stands at each station, as their page tells it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from flask import url_for

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.clearance import clearance_of
from trainer.kitchen.next_acts import next_acts
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Station
from trainer.messages import Text, joined, message, plural
from trainer.web import reading
from trainer.web.entry_words import Naming
from trainer.web.manager.board_view import when_words
from trainer.web.path_words import path_lines
from trainer.web.paths import QuickPath, quick_path


@dataclass(frozen=True, slots=True)
class StationStanding:
    """How one person stands at one station."""

    href: str
    title: str
    state: str
    until: Text
    first_missing: Text
    more: Text
    path: Text
    quick: QuickPath | None
    way_href: str


def at_station(k: Kitchen, who: Person, station: Station, today: date) -> StationStanding:
    """Return how a person stands at a station."""
    found = clearance_of(who, station, k.progress(), reading.content(), today)
    until = message("to {until}", until=when_words(found.until, today)) if found.is_cleared and found.until else ""
    things = [thing for act in next_acts(found.missing) for thing in act.things]
    return StationStanding(
        href=url_for("board.proof", cook=who.id, station=station.id),
        title=station.title,
        state=found.state,
        until=until,
        first_missing=things[0] if things else "",
        more=plural("And {number} more.", "And {number} more.", len(things) - 1) if len(things) > 1 else "",
        path=joined(path_lines(found, Naming(k.people(), reading.content()))),
        quick=quick_path(found),
        way_href="" if found.blank else url_for("way.of", station=station.id, cook=who.id),
    )
