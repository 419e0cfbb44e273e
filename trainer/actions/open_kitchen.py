"""One kitchen opened by this process: its book folded and caught up, its people, its content, its board."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from trainer.kitchen.clearance import Clearance
from trainer.kitchen.entitlement import Day
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.technique import Content, Station
from trainer.store.kitchen_file import KitchenFile


@dataclass(frozen=True, slots=True)
class BoardRow:
    """One cook's clearances, in the order of the board's stations."""

    cook: Person
    clearances: tuple[Clearance, ...]


@dataclass(frozen=True, slots=True)
class Board:
    """Every cook of the day, by name, at every station."""

    on: date
    stations: tuple[Station, ...]
    rows: tuple[BoardRow, ...]


class OpenKitchen:
    """A kitchen's file and content together, with the fold of its book kept for the whole process."""

    def __init__(self, file: KitchenFile, content: Content) -> None:
        """Take an open kitchen file and the content it teaches."""
        self.file = file
        self.content = content

    def progress(self) -> Progress:
        """Return the fold, caught up with what any process has written."""
        raise NotImplementedError

    def people(self) -> Mapping[str, Person]:
        """Return everybody by id."""
        raise NotImplementedError

    def today(self, now: datetime) -> date:
        """Return the day it is in the kitchen's zone."""
        raise NotImplementedError

    def day(self, on: date) -> Day:
        """Return what is known on a day: progress, content, people, the date."""
        raise NotImplementedError

    def board(self, on: date) -> Board:
        """Return every clearance of the cooks on the roster that day."""
        raise NotImplementedError
