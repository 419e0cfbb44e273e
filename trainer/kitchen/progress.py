"""Progress: the fold of the book's entries into what each cook has done, kept so that any past date can be asked.

Every line keeps the days it happened and was written, and every void its own, so one fold answers every date.
"""

from __future__ import annotations

from collections.abc import Iterable
from copy import copy
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from typing import Any, Literal

from trainer.kitchen.book import Entry
from trainer.kitchen.entry_lines import keeps_away, line_maker
from trainer.kitchen.nights import NIGHT_KINDS, Nights
from trainer.kitchen.record import CookRecord, OnRoster, QuestionVoid, Void
from trainer.kitchen.roles import works_a_station
from trainer.kitchen.standards import Standards
from trainer.kitchen.week import Week

NEVER = "never"
"""What a void says that takes an entry out of every day; any other takes it out of the days from its own."""


@dataclass(frozen=True, slots=True)
class Person:
    """Who a person is, from the people table, never from the book. `born` decides age bars.

    `language` and `units` are how they read pages; nothing means as the kitchen does. `look` is by which light, day or
    night; nothing means as their system says.
    """

    id: str
    name: str
    born: date | None
    language: str = "en"
    units: Literal["us", "metric", ""] = ""
    look: Literal["day", "night", ""] = ""


@dataclass(slots=True)
class _Fresh:
    """What came in about one cook: lines by the name they stand under, and the days of those written late."""

    lines: dict[str, list[Any]] = field(default_factory=dict)
    written: dict[str, date] = field(default_factory=dict)


class Progress:
    """What every cook has done and every standard of the book, folded from it; catching up gives a new one.

    Days are those the entries say. Entries already folded are passed over, so a fold may be fed twice.
    """

    def __init__(self) -> None:
        """Begin with an empty book."""
        self.last_seq = 0
        self.last_day = date.min
        self.standards = Standards()
        self.nights = Nights()
        self._records: dict[str, CookRecord] = {}
        self._question_voids: tuple[QuestionVoid, ...] = ()
        self._went_for_stations: frozenset[str] = frozenset()

    def asking(self, week: Week) -> Progress:
        """Return the fold as it would be if the house asked this of its services too; nothing is written."""
        later = copy(self)
        later.nights = self.nights.asking(week)
        return later

    def with_entries(self, entries: Iterable[Entry]) -> Progress:
        """Return the fold caught up with entries in the order of the book; this one stays as it was."""
        later = Progress()
        later.last_seq, later.last_day, later.standards = self.last_seq, self.last_day, self.standards
        later.nights = self.nights
        later._records = dict(self._records)
        later._question_voids, later._went_for_stations = self._question_voids, self._went_for_stations
        fresh: dict[str, _Fresh] = {}
        voids: list[Entry] = []
        for entry in entries:
            if entry.seq > later.last_seq:
                later.last_seq, later.last_day = entry.seq, entry.day
                later._sort_in(entry, fresh, voids)
        for cook, new in fresh.items():
            later._add_lines(cook, new)
        for entry in voids:
            later._add_void(entry)
        if voids or any("questions_voided" in new.lines for new in fresh.values()):
            later._share_question_voids()
        return later

    def _sort_in(self, entry: Entry, fresh: dict[str, _Fresh], voids: list[Entry]) -> None:
        """Put one entry's line under its cook, or among the voids; a standard is one of the book's too."""
        if entry.kind == "entry_voided":
            voids.append(entry)
            return
        if entry.kind == "standard_published":
            self.standards = self.standards.with_entry(entry)
        if entry.kind == "path_opened":
            self._went_for_stations |= {entry.cook}
        if entry.kind in NIGHT_KINDS:
            self.nights = self.nights.with_entry(entry)
        name, make = line_maker(entry)
        new = fresh.setdefault(entry.cook, _Fresh())
        new.lines.setdefault(name, []).append(make(entry, entry.happened))
        if entry.happened < entry.day and not keeps_away(entry):
            new.written[entry.id] = entry.day

    def _add_lines(self, cook: str, new: _Fresh) -> None:
        old = self._records.get(cook) or CookRecord(cook, question_voids=self._question_voids)
        changes: dict[str, Any] = {name: (*getattr(old, name), *lines) for name, lines in new.lines.items()}
        if new.written:
            changes["ledger"] = replace(old.ledger, written={**old.ledger.written, **new.written})
        self._records[cook] = replace(old, **changes)

    def _add_void(self, entry: Entry) -> None:
        """Note the void with the cook whose line it is."""
        voided = entry.body["entry"]
        owner = self._owner_of(voided, entry.cook)
        if owner is not None:
            record = self._records[owner]
            old, void = record.ledger.voids, Void(entry.day, entry.body.get("counts") == NEVER)
            ledger = replace(record.ledger, voids={**old, voided: (*old.get(voided, ()), void)})
            self._records[owner] = replace(record, ledger=ledger)
            if self.nights.holds_entry(voided):
                self.nights = self.nights.with_void(voided, void)

    def _share_question_voids(self) -> None:
        """Give every record the questions that are voided, and what decides on which days a void of them counts."""
        shared = tuple(
            QuestionVoid(line, record.ledger) for record in self._records.values() for line in record.questions_voided
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

    @cached_property
    def erased(self) -> frozenset[str]:
        """Return the ids of everybody whose name was erased."""
        records = self._records.items()
        return frozenset(cook for cook, record in records if any(x.kind == "person_erased" for x in record.noted))

    def record(self, cook: str) -> CookRecord:
        """Return all of a cook's lines; an empty record for a person the book does not know."""
        return self._records.get(cook) or CookRecord(cook)

    def everybody(self) -> tuple[str, ...]:
        """Return the ids of all the book has a line of, who left included, in the order they first came into it."""
        return tuple(self._records)

    def first_shift(self, on: date, known: date) -> date | None:
        """Return the day of the first shift anybody worked, or of the first service closed, by what was known then.

        From then on the book can tell how often a station is worked; None where it has none of either.
        """
        records, closed = self._records.values(), self.nights.first_closed(on, known)
        days = [line.worked_on for record in records for line in record.standing(record.shifts, on, known)]
        return min(days if closed is None else [*days, closed], default=None)

    def has_paths(self, on: date, known: date) -> bool:
        """Return whether the house had opened a path for anybody by a day, by what was known on another."""
        records = (self._records[cook] for cook in self._went_for_stations)
        return any(record.standing(record.paths, on, known) for record in records)

    def voided_on(self, entry: str, cook: str) -> date | None:
        """Return the day a cook's entry was voided, or None."""
        voids = self.record(cook).ledger.voids.get(entry)
        return voids[0].on if voids else None

    def roles(self, cook: str, on: date, known: date | None = None) -> frozenset[str]:
        """Return the roles a person has at the end of a day, by what was known on another (that day if none is named).

        None before joining and after leaving.
        """
        lines = self._roster_on(cook, on, known)
        return lines[-1].roles if lines else frozenset()

    def is_on_roster(self, cook: str, on: date, known: date | None = None) -> bool:
        """Return whether a person has joined and not left by the end of a day."""
        lines = self._roster_on(cook, on, known)
        return bool(lines) and not lines[-1].left

    def at_stations_on(self, on: date, known: date | None = None) -> tuple[str, ...]:
        """Return the ids of all on the roster who work a station at the end of a day: not those who only manage."""
        return tuple(c for c in self.cooks_on(on, known) if works_a_station(self.roles(c, on, known)))

    def _roster_on(self, cook: str, on: date, known: date | None) -> tuple[OnRoster, ...]:
        record = self.record(cook)
        return record.standing(record.roster, on, known)

    def cooks_on(self, on: date, known: date | None = None) -> tuple[str, ...]:
        """Return the ids of all on the roster at the end of a day, in the order they first joined."""
        return tuple(cook for cook in self._records if self.is_on_roster(cook, on, known))
