"""Progress: the fold of the book's entries into what each cook has done, kept so that any past date can be asked.

Every deed keeps the day it was recorded and the day it was voided, so one fold answers every date.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any, Literal, Protocol, TypeVar
from zoneinfo import ZoneInfo

from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.rescoring import QuestionKey, key_of
from trainer.kitchen.roles import works_a_station
from trainer.kitchen.sat import QuestionVoid, QuestionVoided, Sat


@dataclass(frozen=True, slots=True)
class Person:
    """Who somebody is, from the people table, never from the book. `born` decides age bars.

    `language` and `units` are how they read pages; nothing means as the kitchen does.
    """

    id: str
    name: str
    born: date | None
    language: str = "en"
    units: Literal["us", "metric", ""] = ""


@dataclass(frozen=True, slots=True)
class OnRoster:
    """A line of the roster: joined or changed with these roles, or left (no roles)."""

    entry: str
    on: date
    roles: frozenset[str]
    left: bool
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Read:
    """A technique's edition read and acknowledged."""

    entry: str
    on: date
    technique: str
    edition: int


@dataclass(frozen=True, slots=True)
class Asked:
    """A request to be watched. `seq` gives its place in the book: a later practical answers it."""

    entry: str
    at: datetime
    on: date
    technique: str
    seq: int


@dataclass(frozen=True, slots=True)
class Watched:
    """A practical, with its verdict, who signed it, and the points that were seen and not met.

    `unsafe` are the points at which something unsafe was seen; `started` is when it was begun, None in an entry of a
    program that did not keep it.
    """

    entry: str
    at: datetime
    on: date
    technique: str
    edition: int
    station: str
    verdict: str
    by: str
    seq: int
    started: datetime | None = None
    unsafe: tuple[str, ...] = ()
    missed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StopReleased:
    """A stop released by a manager; `stop` is the entry of the practical that was stopped."""

    entry: str
    at: datetime
    on: date
    stop: str
    seq: int
    reason: str


@dataclass(frozen=True, slots=True)
class ShiftWorked:
    """A supervised shift at a station, worked on a day beside a cleared cook."""

    entry: str
    on: date
    station: str
    worked_on: date
    beside: str
    sitting: str


@dataclass(frozen=True, slots=True)
class Shown:
    """A certificate shown to a manager, good from `issued` to the end of `expires`."""

    entry: str
    on: date
    certificate: str
    issued: date
    expires: date | None


@dataclass(frozen=True, slots=True)
class StoodDown:
    """Withdrawn from a station (or put back: `restored`), with the reason."""

    entry: str
    on: date
    station: str
    reason: str
    restored: bool


@dataclass(frozen=True, slots=True)
class Opened:
    """A grant to an assessor to sign at a station nobody is cleared on yet, good to the end of `until`."""

    entry: str
    on: date
    station: str
    until: date


@dataclass(frozen=True, slots=True)
class WaitLifted:
    """The wait after a failed sitting, lifted by a manager; `sitting` is the entry of that sitting."""

    entry: str
    on: date
    technique: str
    sitting: str
    reason: str


@dataclass(frozen=True, slots=True)
class Noted:
    """A line about somebody that changes nothing they may do: a file taken in, a secret changed, a birth date."""

    entry: str
    on: date
    kind: str


class _Line(Protocol):
    """What every line of a record has: the entry it came from and the day it was recorded."""

    @property
    def entry(self) -> str: ...
    @property
    def on(self) -> date: ...


LineT = TypeVar("LineT", bound=_Line)


@dataclass(frozen=True, slots=True)
class CookRecord:
    """All of one cook's lines in the order of the book; `voids` is the day each voided entry was voided.

    `question_voids` are the days on which questions of anybody's sittings were voided, and so are everybody's.
    """

    cook: str
    roster: tuple[OnRoster, ...] = ()
    read: tuple[Read, ...] = ()
    sat: tuple[Sat, ...] = ()
    asked: tuple[Asked, ...] = ()
    watched: tuple[Watched, ...] = ()
    shifts: tuple[ShiftWorked, ...] = ()
    shown: tuple[Shown, ...] = ()
    stood_down: tuple[StoodDown, ...] = ()
    opened: tuple[Opened, ...] = ()
    questions_voided: tuple[QuestionVoided, ...] = ()
    waits_lifted: tuple[WaitLifted, ...] = ()
    released: tuple[StopReleased, ...] = ()
    noted: tuple[Noted, ...] = ()
    voids: Mapping[str, date] | None = None
    question_voids: tuple[QuestionVoid, ...] = ()

    def as_of(self, on: date) -> CookRecord:
        """Return the record as it stood at the end of a day: later lines left out, and those voided by then.

        Sittings are scored without the questions voided by then.
        """
        kept: dict[str, Any] = {name: self.standing(getattr(self, name), on) for name in LINES}
        voided = self.questions_void_on(on)
        if voided:
            kept["sat"] = tuple(line.without(voided) for line in kept["sat"])
        return CookRecord(self.cook, **kept)

    def questions_void_on(self, on: date) -> frozenset[QuestionKey]:
        """Return the questions that count for nothing at the end of a day, whoever's sitting they were voided in."""
        return frozenset(void.question for void in self.question_voids if void.since <= on < void.until)

    def standing(self, lines: tuple[LineT, ...], on: date) -> tuple[LineT, ...]:
        """Return the lines recorded on or before a day and not voided by then."""
        if not self.voids:
            return lines if all(line.on <= on for line in lines) else tuple(x for x in lines if x.on <= on)
        voids = self.voids
        return tuple(line for line in lines if line.on <= on < voids.get(line.entry, date.max))

    def holds_entry(self, entry: str) -> bool:
        """Return whether one of the lines came from this entry."""
        return any(line.entry == entry for name in LINES for line in getattr(self, name))


LINES = (
    "roster",
    "read",
    "sat",
    "asked",
    "watched",
    "shifts",
    "shown",
    "stood_down",
    "opened",
    "questions_voided",
    "waits_lifted",
    "released",
    "noted",
)


def _roster(entry: Entry, on: date) -> OnRoster:
    return OnRoster(entry.id, on, frozenset(entry.body["roles"]), left=False)


def _left(entry: Entry, on: date) -> OnRoster:
    return OnRoster(entry.id, on, frozenset(), left=True, reason=entry.body["reason"])


def _read(entry: Entry, on: date) -> Read:
    return Read(entry.id, on, entry.body["technique"], entry.body["edition"])


def _sat(entry: Entry, on: date) -> Sat:
    b = entry.body
    return Sat(entry.id, on, b["technique"], b["edition"], b["right"], b["asked"], b["need"], b["passed"], b)


def _question_voided(entry: Entry, on: date) -> QuestionVoided:
    return QuestionVoided(entry.id, on, key_of(entry.body), entry.body["reason"])


def _wait_lifted(entry: Entry, on: date) -> WaitLifted:
    b = entry.body
    return WaitLifted(entry.id, on, b["technique"], b["entry"], b["reason"])


def _asked(entry: Entry, on: date) -> Asked:
    return Asked(entry.id, entry.at, on, entry.body["technique"], entry.seq)


def _watched(entry: Entry, on: date) -> Watched:
    b = entry.body
    technique, edition, station, verdict = b["technique"], b["edition"], b["station"], b["verdict"]
    started = datetime.fromisoformat(b["started"]) if "started" in b else None
    points = b.get("points") or ()
    unsafe = tuple(seen["point"] for seen in points if seen.get("seen") == "unsafe")
    missed = tuple(seen["point"] for seen in points if seen.get("seen") != "meets it")
    day, by = _happened(entry, on), entry.by
    return Watched(
        entry.id, entry.at, day, technique, edition, station, verdict, by, entry.seq, started, unsafe, missed
    )


def _released(entry: Entry, on: date) -> StopReleased:
    return StopReleased(entry.id, entry.at, on, entry.body["stop"], entry.seq, entry.body["reason"])


def _happened(entry: Entry, on: date) -> date:
    """Return the day an entry counts from: the day it says it happened, where its clock had to be a later one."""
    told = entry.body.get("happened")
    return min(on, date.fromisoformat(told)) if told else on


def _shift(entry: Entry, on: date) -> ShiftWorked:
    b = entry.body
    return ShiftWorked(
        entry.id, on, b["station"], date.fromisoformat(b["worked_on"]), b["beside"], b.get("sitting", "")
    )


def _shown(entry: Entry, on: date) -> Shown:
    b = entry.body
    expires = date.fromisoformat(b["expires"]) if b["expires"] else None
    return Shown(entry.id, on, b["certificate"], date.fromisoformat(b["issued"]), expires)


def _stood(entry: Entry, on: date) -> StoodDown:
    b = entry.body
    return StoodDown(entry.id, _happened(entry, on), b["station"], b["reason"], entry.kind == "restored")


def _opened(entry: Entry, on: date) -> Opened:
    return Opened(entry.id, on, entry.body["station"], date.fromisoformat(entry.body["until"]))


def _noted(entry: Entry, on: date) -> Noted:
    return Noted(entry.id, on, entry.kind)


_MAKE: Mapping[str, tuple[str, Callable[[Entry, date], Any]]] = {
    "cook_joined": ("roster", _roster),
    "cook_changed": ("roster", _roster),
    "cook_left": ("roster", _left),
    "technique_read": ("read", _read),
    "quiz_sat": ("sat", _sat),
    "watch_asked": ("asked", _asked),
    "practical_watched": ("watched", _watched),
    "shift_worked": ("shifts", _shift),
    "certificate_shown": ("shown", _shown),
    "station_opened": ("opened", _opened),
    "stood_down": ("stood_down", _stood),
    "restored": ("stood_down", _stood),
    "question_voided": ("questions_voided", _question_voided),
    "wait_lifted": ("waits_lifted", _wait_lifted),
    "stop_released": ("released", _released),
    "roster_taken_in": ("noted", _noted),
    "secret_changed": ("noted", _noted),
    "locked_out": ("noted", _noted),
}


def _maker_of(entry: Entry) -> tuple[str, Callable[[Entry, date], Any]]:
    """Return under which name an entry's line stands, and what makes it; a change that gives no roles is only noted."""
    if entry.kind == "cook_changed" and "roles" not in entry.body:
        return "noted", _noted
    return _MAKE[entry.kind]


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
        on = self.day_of(entry.at)
        if entry.kind == "entry_voided":
            voided.append((entry.cook, entry.body["entry"], on))
            return
        name, make = _maker_of(entry)
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
        """Return whose line an entry is: the cook the void names, or else whoever holds it."""
        if likely in self._records and self._records[likely].holds_entry(entry):
            return likely
        return next((cook for cook, record in self._records.items() if record.holds_entry(entry)), None)

    def record(self, cook: str) -> CookRecord:
        """Return all of a cook's lines; an empty record for somebody the book does not know."""
        return self._records.get(cook) or CookRecord(cook)

    def voided_on(self, entry: str, cook: str) -> date | None:
        """Return the day a cook's entry was voided, or None."""
        return (self.record(cook).voids or {}).get(entry)

    def roles(self, cook: str, on: date) -> frozenset[str]:
        """Return the roles somebody has at the end of a day; none before joining and after leaving."""
        lines = self._roster_on(cook, on)
        return lines[-1].roles if lines else frozenset()

    def is_on_roster(self, cook: str, on: date) -> bool:
        """Return whether somebody has joined and not left by the end of a day."""
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
