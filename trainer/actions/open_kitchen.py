"""One kitchen opened by this process: its book folded and caught up, its people, its content, its board."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path
from threading import Lock, RLock
from typing import TYPE_CHECKING, Literal, get_args

from trainer.actions.clock_watch import ClockWatch
from trainer.content.shipped import shipped
from trainer.kitchen.clearance import Clearance, clearances_of
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.papers import PERSON_ERASED
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.record import AsKnown, CookRecord
from trainer.kitchen.services import HouseServices
from trainer.kitchen.technique import Content, Station
from trainer.store.catalogues import ENGLISH, languages
from trainer.store.kitchen_file import KitchenFile

if TYPE_CHECKING:
    from trainer.actions.teaching import Teaching

DAYS_KEPT = 20  # the coming two weeks, and some more days that are looked at
CHANGES_THE_PAST = frozenset({"clock_corrected", "paper_dropped"})
"""After these, entries that are folded already count from another day, or a text in them is remembered no more."""
Units = Literal["us", "metric"]
Library = Callable[[str, Units], Content | None]
"""What loads the same content in another language, or with the other units first."""


@dataclass(frozen=True, slots=True)
class BoardRow:
    """One cook's clearances, in the order of the board's stations."""

    cook: Person
    clearances: tuple[Clearance, ...]


@dataclass(frozen=True, slots=True)
class Board:
    """Every cook of the day, by name, at every station, by what was known at the end of `known`."""

    on: date
    known: date
    stations: tuple[Station, ...]
    rows: tuple[BoardRow, ...]


@dataclass(slots=True)
class _KeptBoard:
    """A board and what it was worked out from; each cook's row is good while that cook's record is the same one."""

    progress: Progress
    people: Mapping[str, Person]
    content: Content
    board: Board
    records: Mapping[str, CookRecord]

    def is_by_the_same_rules(self, progress: Progress) -> bool:
        """Return whether the book has the standards it had then, asks practice alike, and had paths if it has them."""
        day = self.board.on, self.board.known
        is_asked_alike = self.progress.first_shift(*day) == progress.first_shift(*day)
        is_blank_alike = self.progress.has_paths(*day) == progress.has_paths(*day)
        is_alike = is_asked_alike and is_blank_alike and self.progress.nights is progress.nights
        return self.progress.standards is progress.standards and is_alike


class Kitchen:
    """A kitchen's file and content together, with the fold of its book kept for the whole process.

    Safe to share between threads. Entries another process wrote show at the next call; a book put back from a backup is
    folded again. A book that has published a standard says what is taught (`teaching` reads it); one that has not is
    judged by the content given.
    """

    def __init__(
        self,
        file: KitchenFile,
        content: Content | None = None,
        library: Library | None = None,
        teaching: Teaching | None = None,
    ) -> None:
        """Take an open kitchen file and what it teaches: in English, as the book is, in its own units."""
        self.file = file
        self.teaching = teaching
        self.clock: ClockWatch | None = None  # set where a machine's own clock tells the time
        self._given = content
        self._library = library
        self._told: dict[tuple[str, str, Units], Content] = {}
        self._lock = RLock()
        self._telling = Lock()  # of its own, so that nobody's page waits while another language is read
        self._progress = Progress()
        self._last_entry = ""
        self._end = (0, "")
        self._last_day = date.min
        self._boards: dict[AsKnown, _KeptBoard] = {}
        self._day: Snapshot | None = None

    @property
    def services(self) -> HouseServices:
        """Return the house's own services, as they are called today."""
        return self.file.settings.services

    @property
    def content(self) -> Content:
        """Return what is taught today, in English and in the kitchen's own units."""
        return self.content_for(ENGLISH, self.file.settings.units_first)

    @content.setter
    def content(self, content: Content) -> None:
        """Give other content to a kitchen whose book has published none."""
        self._given = content
        self._told = {}

    def progress(self) -> Progress:
        """Return the fold, caught up with what any process has written."""
        with self._lock:
            end = self.file.book.end()
            if end == self._end:
                return self._progress
            last = self._progress.last_seq
            entries = self.file.book.since(max(last - 1, 0))
            if last and (not entries or entries[0].id != self._last_entry):
                self._begin_anew()
                entries = self.file.book.since(0)
            if any(entry.kind in CHANGES_THE_PAST and entry.seq > last for entry in entries):
                self._begin_anew()
                entries = self.file.book.since(0)
            if entries and entries[-1].seq > self._progress.last_seq:
                self._progress = self._progress.with_entries(entries)
                self._last_entry = entries[-1].id
            self._end = (entries[-1].seq, entries[-1].hash) if entries else end
            return self._progress

    def content_for(self, language: str, units: Units) -> Content:
        """Return what is taught today in a reader's words and units; what is not there in them, as the kitchen has it.

        Only the words differ: no rule asks which language it is told in.
        """
        return self._telling_of(self.texts_on(self._last_day), language, units)

    def texts_on(self, on: date) -> str:
        """Return the digest of the texts that are taught on a day; "" where the book has published none."""
        progress = self._progress if self._progress.last_seq else self.progress()
        standard = progress.standards.in_force(on)
        return standard.texts if standard and self.teaching else ""

    def content_on(self, on: date, language: str, units: Units) -> Content:
        """Return what was taught on a day, in a reader's words and units."""
        return self._telling_of(self.texts_on(on), language, units)

    def _telling_of(self, texts: str, language: str, units: Units) -> Content:
        """Return what texts teach, read once; texts that cannot be read as the rules they were published with."""
        own, asked = (texts, ENGLISH, self.file.settings.units_first), (texts, language, units)
        if asked not in self._told:  # who reads what is there already never waits for anybody
            with self._telling:
                for key in (own, asked):
                    if key not in self._told:
                        self._told[key] = self._read(*key, own=self._told.get(own))
        return self._told[asked]

    def _read(self, texts: str, language: str, units: Units, own: Content | None) -> Content:
        """Return a telling of texts, or of the content given, over the kitchen's own telling of them."""
        if texts and self.teaching:
            told = self.teaching.read(texts, language, units)
            return _over(own, told) if own else told or self._rules_of(texts)
        if own is None:
            return _given(self._given)
        return _over(own, self._library(language, units) if self._library else None)

    def _rules_of(self, texts: str) -> Content:
        """Return the bare rules that were published with texts which this program cannot read."""
        return next(each.content for each in self._progress.standards.published if each.texts == texts)

    @property
    def drawings(self) -> Path:
        """Return the folder of the content whose drawings are shown today."""
        texts, own = self.texts_on(self._last_day), self.file.folder / "content"
        if texts and self.teaching:
            return self.teaching.folder_of(texts)
        return own if own.is_dir() else shipped("content")

    def read_every_telling(self) -> None:
        """Read what is taught today in every language and with either units first."""
        for language in languages():
            for units in get_args(Units):
                self.content_for(language, units)

    def _begin_anew(self) -> None:
        """Forget the fold and everything worked out from it."""
        self._progress = Progress()
        self._last_entry = ""
        self._boards = {}
        self._day = None

    def people(self) -> Mapping[str, Person]:
        """Return everybody by id, in order of name; those whose names were erased come last, under that word."""
        erased = self.progress().erased
        listed = self.file.people.all()
        return {**listed, **{cook: Person(cook, PERSON_ERASED, None) for cook in sorted(erased)}} if erased else listed

    def today(self, now: datetime) -> date:
        """Return the day it is in the kitchen: in its zone, and never before the last entry's day."""
        today = self.file.book.day_at(now)
        self._last_day = max(self._last_day, today)
        return today

    def moment(self, asked: datetime) -> datetime:
        """Return the moment it is: by the machine's clock, read now; in a kitchen without one, the moment asked at."""
        return asked if self.clock is None else self.clock.now()

    def keep_time(self, now: Callable[[], datetime], steady: Callable[[], float]) -> None:
        """Tell the time from here on by a machine's clock, held against its steady one (in seconds)."""
        self.clock = ClockWatch(now, steady, self.file.book.end()[0])

    def day(self, on: date) -> Snapshot:
        """Return what is known on a day: progress, content, people, the date.

        It is the same one, with all it has worked out, for as long as none of these has changed.
        """
        progress, content, people, kept = self.progress(), self.content, self.people(), self._day
        if kept is None or (kept.on, kept.people) != (on, people) or not _is_of(kept, progress, content):
            kept = self._day = Snapshot(progress, content, people, on)
        return kept

    def board(self, on: date | AsKnown) -> Board:
        """Return every clearance of those who cook or assess, on the roster that day, as the book said then.

        With `AsKnown`, by what was known on another day. A row is worked out again only after an entry about that cook
        or a change of the person.
        """
        day = AsKnown.of(on)
        with self._lock:
            progress, people, kept = self.progress(), self.people(), self._boards.pop(day, None)
            if kept is None or not self._is_current(kept, progress, people):
                kept = self._worked_out(progress, people, day, kept)
            while len(self._boards) >= DAYS_KEPT:
                del self._boards[next(iter(self._boards))]
            self._boards[day] = kept
            return kept.board

    def _is_current(self, kept: _KeptBoard, progress: Progress, people: Mapping[str, Person]) -> bool:
        """Return whether nothing a board was worked out from has changed."""
        return kept.progress is progress and kept.content is self.content and kept.people == people

    def _stations_on(self, progress: Progress, day: AsKnown) -> tuple[Station, ...]:
        """Return the stations of the standard in force on a day, called as they are today where they still are."""
        rules = progress.standards.content_on(day.on, self.content, day.known)
        return tuple(self.content.stations.get(name, station) for name, station in rules.stations.items())

    def _worked_out(
        self, progress: Progress, people: Mapping[str, Person], day: AsKnown, kept: _KeptBoard | None
    ) -> _KeptBoard:
        """Return the board of a day, taking over the rows of cooks about whom nothing has changed."""
        stations = self._stations_on(progress, day)
        cooks = set(progress.at_stations_on(*day))
        records = {name: progress.record(name) for name in people if name in cooks}
        good = self._good_rows(kept, people, records) if kept and kept.is_by_the_same_rules(progress) else {}
        rows = tuple(
            good.get(name) or BoardRow(people[name], clearances_of(people[name], stations, progress, self.content, day))
            for name in records
        )
        return _KeptBoard(progress, people, self.content, Board(*day, stations, rows), records)

    def _good_rows(
        self, kept: _KeptBoard, people: Mapping[str, Person], records: Mapping[str, CookRecord]
    ) -> dict[str, BoardRow]:
        """Return the rows of an earlier board that still say what is true, by cook."""
        if kept.content is not self.content:
            return {}
        rows = ((row.cook.id, row) for row in kept.board.rows)
        return {
            name: row for name, row in rows if row.cook == people.get(name) and kept.records[name] is records.get(name)
        }


def _is_of(day: Snapshot, progress: Progress, content: Content) -> bool:
    """Return whether a snapshot was taken of this very fold and this very content."""
    return day.progress is progress and day.content is content


def _given(content: Content | None) -> Content:
    """Return the content a kitchen was given; one that was given none teaches what its book published."""
    if content is None:
        raise LookupError("This kitchen was opened without content, and its book has published no standard.")
    return content


def _over(own: Content, told: Content | None) -> Content:
    """Return the same content in other words, nothing left out and nothing put in."""
    if told is None:
        return own
    return replace(
        own,
        techniques={name: told.techniques.get(name, technique) for name, technique in own.techniques.items()},
        stations={name: told.stations.get(name, station) for name, station in own.stations.items()},
        question_words=told.question_words,
        skills={name: told.skills.get(name, skill) for name, skill in own.skills.items()},
        recipes={name: told.recipes.get(name, recipe) for name, recipe in own.recipes.items()},
        allergens={name: told.allergens.get(name, title) for name, title in own.allergens.items()},
        instruments={name: told.instruments.get(name, each) for name, each in own.instruments.items()},
        code=told.code,
        sources=told.sources,
    )
