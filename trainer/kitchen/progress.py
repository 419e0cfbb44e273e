"""Progress: the fold of the book's entries into what each cook has done, kept so that any past date can be asked.

Every deed keeps the day it was recorded and the day it was voided, so one fold answers every date.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any, Literal
from zoneinfo import ZoneInfo

from trainer.kitchen.book import Entry
from trainer.kitchen.entry_lines import line_maker
from trainer.kitchen.record import CookRecord, OnRoster
from trainer.kitchen.roles import works_a_station
from trainer.kitchen.sitting_result import QuestionVoid


@dataclass(frozen=True, slots=True)
class Person:
    """Who a person is, from the people table, never from the book. `born` decides age bars.

    `language` and `units` are how they read pages; nothing means as the kitchen does.
    """

    id: str
    name: str
    born: date | None
    language: str = "en"
    units: Literal["us", "metric", ""] = ""


class Progress:
    """What every cook has done, folded from the book; it never changes, catching up gives a new one.

    Days are the kitchen's own, in its zone. Entries already folded are passed over, so a fold may be fed twice.
    """

    def __init__(self, timezone: str) -> None:
        """Begin with an empty book in a zone (an IANA name such as America/New_York)."""
        self.timezone = timezone
        self.last_seq = 0
        self._zone = ZoneInfo(timezone)
        self._records: dict[str, CookRecord] = {}
        self._question_voids: tuple[QuestionVoid, ...] = ()

    def day_of(self, at: datetime) -> date:
        """Return the kitchen's day of a moment."""
        return at.astimezone(self._zone).date()

    def with_entries(self, entries: Iterable[Entry]) -> Progress:
        """Return the fold caught up with entries in the order of the book; this one stays as it was."""
        later = Progress(self.timezone)
        later.last_seq = self.last_seq
        later._records = dict(self._records)
        later._question_voids = self._question_voids
        fresh: dict[str, dict[str, list[Any]]] = {}
        voided: list[tuple[str, str, date]] = []
        for entry in entries:
            if entry.seq > later.last_seq:
                later.last_seq = entry.seq
                self._sort_in(entry, fresh, voided)
        for cook, lines in fresh.items():
            later._add_lines(cook, lines)
        for cook, void, on in voided:
            later._add_void(cook, void, on)
        if voided or any("questions_voided" in lines for lines in fresh.values()):
            later._share_question_voids()
        return later

    def _sort_in(
        self, entry: Entry, fresh: dict[str, dict[str, list[Any]]], voided: list[tuple[str, str, date]]
    ) -> None:
        """Put one entry's line under its cook, or among the voids."""
        on = entry.day
        if entry.kind == "entry_voided":
            voided.append((entry.cook, entry.body["entry"], on))
            return
        name, make = line_maker(entry)
        fresh.setdefault(entry.cook, {}).setdefault(name, []).append(make(entry, on))

    def _add_lines(self, cook: str, lines: Mapping[str, list[Any]]) -> None:
        old = self._records.get(cook) or CookRecord(cook, question_voids=self._question_voids)
        changes: dict[str, Any] = {name: (*getattr(old, name), *new) for name, new in lines.items()}
        self._records[cook] = replace(old, **changes)

    def _add_void(self, cook: str, entry: str, on: date) -> None:
        """Note the void with the cook whose line it is; the first void of an entry counts."""
        owner = self._owner_of(entry, cook)
        if owner is not None:
            record = self._records[owner]
            self._records[owner] = replace(record, voids={entry: on, **(record.voids or {})})

    def _share_question_voids(self) -> None:
        """Give every record the days on which questions are voided; a void that was itself voided ends that day."""
        shared = tuple(
            QuestionVoid(line.question, line.on, (record.voids or {}).get(line.entry, date.max))
            for record in self._records.values()
            for line in record.questions_voided
        )
        if shared != self._question_voids:
            self._question_voids = shared
            for cook, record in self._records.items():
                self._records[cook] = replace(record, question_voids=shared)

    def _owner_of(self, entry: str, likely: str) -> str | None:
        """Return whose line an entry is: the cook the void names, or else anyone who holds it."""
        if likely in self._records and self._records[likely].holds_entry(entry):
            return likely
        return next((cook for cook, record in self._records.items() if record.holds_entry(entry)), None)

    def record(self, cook: str) -> CookRecord:
        """Return all of a cook's lines; an empty record for a person the book does not know."""
        return self._records.get(cook) or CookRecord(cook)

    def voided_on(self, entry: str, cook: str) -> date | None:
        """Return the day a cook's entry was voided, or None."""
        return (self.record(cook).voids or {}).get(entry)

    def roles(self, cook: str, on: date) -> frozenset[str]:
        """Return the roles a person has at the end of a day; none before joining and after leaving."""
        lines = self._roster_on(cook, on)
        return lines[-1].roles if lines else frozenset()

    def is_on_roster(self, cook: str, on: date) -> bool:
        """Return whether a person has joined and not left by the end of a day."""
        lines = self._roster_on(cook, on)
        return bool(lines) and not lines[-1].left

    def at_stations_on(self, on: date) -> tuple[str, ...]:
        """Return the ids of all on the roster who work a station at the end of a day: not those who only manage."""
        return tuple(cook for cook in self.cooks_on(on) if works_a_station(self.roles(cook, on)))

    def _roster_on(self, cook: str, on: date) -> tuple[OnRoster, ...]:
        record = self.record(cook)
        return record.standing(record.roster, on)

    def cooks_on(self, on: date) -> tuple[str, ...]:
        """Return the ids of all on the roster at the end of a day, in the order they first joined."""
        return tuple(cook for cook in self._records if self.is_on_roster(cook, on))
