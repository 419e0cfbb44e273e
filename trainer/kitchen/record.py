"""What the book says of one cook, line by line, kept so that any past day can be asked.

Every line keeps the day it counts from; a record keeps the day a line was written where that was later, and the voids.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields
from datetime import date, datetime
from typing import Any, NamedTuple, Protocol, TypeVar

from trainer.kitchen.quiz.rescoring import QuestionKey
from trainer.kitchen.sitting_result import QuestionVoided, SittingResult
from trainer.kitchen.skills.fold import Happening


@dataclass(frozen=True, slots=True)
class OnRoster:
    """A line of the roster: joined or changed with these roles, or left (no roles); `edition` is its entry's."""

    entry: str
    on: date
    roles: frozenset[str]
    left: bool
    reason: str = ""
    edition: int = 1


@dataclass(frozen=True, slots=True)
class TechniqueRead:
    """A technique's edition read and acknowledged."""

    entry: str
    on: date
    technique: str
    edition: int


@dataclass(frozen=True, slots=True)
class NoticeRead:
    """A notice of the house read and understood, in an edition of its text."""

    entry: str
    on: date
    notice: str
    edition: int


@dataclass(frozen=True, slots=True)
class WatchRequest:
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
    program that did not keep it. `part` is the part of the checklist that was watched, out of those
    of its `division`; empty for all of it.
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
    part: str = ""
    division: tuple[str, ...] = ()

    def shows(self, part: str) -> bool:
        """Return whether it was of one part of a checklist, or of all of it; of all alone where no part is named."""
        return self.part in ("", part)


@dataclass(frozen=True, slots=True)
class Rechecked:
    """A sign-off looked at again by somebody else: `practical` is its entry, `found` is *same* or *not yet*.

    `points` are those of its checklist that were not as they should be; `seq` gives its place in the book.
    """

    entry: str
    on: date
    practical: str
    found: str
    by: str
    points: tuple[str, ...]
    seq: int


@dataclass(frozen=True, slots=True)
class StopReleased:
    """A stop released by a manager; `stop` is the entry of the practical that was stopped.

    From `retry_from` the cook may be watched again; None in an entry of a program that did not keep it: at once.
    """

    entry: str
    at: datetime
    on: date
    stop: str
    seq: int
    reason: str
    retry_from: date | None = None


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
class CertificateShown:
    """A certificate shown to a manager, good from `issued` to the end of `expires`."""

    entry: str
    on: date
    certificate: str
    issued: date
    expires: date | None


class KnownTechnique(NamedTuple):
    """A technique known from before to the end of a day; of one that `is_asked` the questions are asked at once."""

    technique: str
    until: date
    is_asked: bool


@dataclass(frozen=True, slots=True)
class KnownBefore:
    """What a manager says a cook knew when the book began to tell of them. `seq` is its place in the book."""

    entry: str
    on: date
    seq: int
    techniques: tuple[KnownTechnique, ...]


@dataclass(frozen=True, slots=True)
class StoodDown:
    """Taken off stations (or put back: `restored`), by whom, and why; no stations named means every one.

    `why` is the reason off the list, "" in entries of before; `reason` is what was typed besides.
    """

    entry: str
    on: date
    stations: tuple[str, ...]
    reason: str
    restored: bool
    why: str = ""
    by: str = ""
    at: datetime | None = None

    def is_at(self, station: str) -> bool:
        """Return whether it is about a station."""
        return not self.stations or station in self.stations


@dataclass(frozen=True, slots=True)
class WordsAdded:
    """Words written later to an entry that did not wait for them."""

    entry: str
    on: date
    to: str
    words: str


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
class AgeSeen:
    """A birth date written down, in the book only as a digest; `bars` are the years stations asked for and from when.

    `date.min` stands for years that were reached before joining, and as `on` for an entry that counts for all days
    before it as well, as a program that kept no such entries had not written it.
    """

    entry: str
    on: date
    bars: tuple[tuple[int, date], ...]

    def reached_from(self, years: int) -> date | None:
        """Return the first day of so many years; None where the entry does not say. Who was 18 was 16 before."""
        for bar, since in self.bars:
            if bar == years or (bar > years and since == date.min):
                return since
        return None


@dataclass(frozen=True, slots=True)
class Noted:
    """A line about a person that changes nothing they may do: a file taken in, a secret changed, a name."""

    entry: str
    on: date
    kind: str


@dataclass(frozen=True, slots=True)
class AuthorityGiven:
    """Authority in writing, from `since` to the end of `until`: `scope` as the entry keeps it, and for which acts."""

    entry: str
    on: date
    scope: Mapping[str, Any]
    since: date
    until: date
    may: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AuthorityEnded:
    """An authority taken back from that day on: `authority` is the entry that gave it."""

    entry: str
    on: date
    authority: str


@dataclass(frozen=True, slots=True)
class TechniqueTaught:
    """A technique somebody showed the cook, for so many minutes."""

    entry: str
    on: date
    technique: str
    by: str
    minutes: int


@dataclass(frozen=True, slots=True)
class HelpAsked:
    """A cook asked to be shown a step, or what a question asks for (`skill`); `whom` is who was named, "" nobody."""

    entry: str
    at: datetime
    on: date
    technique: str
    step: str
    skill: str
    whom: str


@dataclass(frozen=True, slots=True)
class HelpGiven:
    """What was asked for was shown; `asked` is the entry that asked."""

    entry: str
    on: date
    asked: str


@dataclass(frozen=True, slots=True)
class FounderStands:
    """The only manager or assessor of a kitchen answers for some stations on their own word, to the end of `until`."""

    entry: str
    on: date
    stations: tuple[str, ...]
    until: date


@dataclass(frozen=True, slots=True)
class PathOpened:
    """The cook goes for a station, to be cleared there by the end of `by_day`; `mentor` is who helps, "" nobody yet."""

    entry: str
    on: date
    station: str
    by_day: date
    mentor: str
    by: str


@dataclass(frozen=True, slots=True)
class PathClosed:
    """A path that is reached or dropped; `path` is the entry that opened it."""

    entry: str
    on: date
    path: str
    outcome: str
    reason: str


class Line(Protocol):
    """What every line of a record has: the entry it came from and the day it counts from."""

    @property
    def entry(self) -> str: ...  # noqa: D102
    @property
    def on(self) -> date: ...  # noqa: D102


LineT = TypeVar("LineT", bound=Line)


class AsKnown(NamedTuple):
    """A day that is asked about, and the day by whose end everything counted was known."""

    on: date
    known: date

    @classmethod
    def of(cls, day: date | AsKnown) -> AsKnown:
        """Return a plain day as it was known on that very day; one that says when it was known as it is."""
        return cls(day, day) if isinstance(day, date) else day


class Void(NamedTuple):
    """A void of an entry: the day it was written, and whether it takes the entry out of the days before it too."""

    on: date
    never: bool = False


@dataclass(frozen=True, slots=True)
class Ledger:
    """What decides which lines count: the voids of each entry, and the day an entry was written where it came late."""

    voids: Mapping[str, tuple[Void, ...]] = field(default_factory=dict)
    written: Mapping[str, date] = field(default_factory=dict)

    def counts(self, line: Line, on: date, known: date) -> bool:
        """Return whether a line counts on a day by what was known on another.

        It was written by then, has happened by the day, and no void of it was known that reaches the day.
        """
        if line.on > on or self.written.get(line.entry, line.on) > known:
            return False
        return not any(void.on <= known and (void.never or void.on <= on) for void in self.voids.get(line.entry, ()))

    def counting(self, lines: tuple[LineT, ...], on: date, known: date) -> tuple[LineT, ...]:
        """Return the lines that count on a day by what was known on another."""
        if not self.voids and not self.written and known >= on:
            return lines if all(line.on <= on for line in lines) else tuple(x for x in lines if x.on <= on)
        return tuple(line for line in lines if self.counts(line, on, known))


NOTHING_LATE = Ledger()
DAYS_REMEMBERED = 6


class QuestionVoid(NamedTuple):
    """A voided question, with what decides on which days the void counts."""

    line: QuestionVoided
    ledger: Ledger

    def counts(self, on: date, known: date) -> bool:
        """Return whether the question is void on a day by what was known on another."""
        return self.ledger.counts(self.line, on, known)


@dataclass(frozen=True, slots=True)
class CookRecord:
    """All of one cook's lines in the order of the book, and what decides which of them count.

    `question_voids` are the voids of questions of anybody's sittings, and so are everybody's. In `memo` stands what was
    worked out from this very record, to be asked again.
    """

    cook: str
    roster: tuple[OnRoster, ...] = ()
    read: tuple[TechniqueRead, ...] = ()
    notices: tuple[NoticeRead, ...] = ()
    sat: tuple[SittingResult, ...] = ()
    asked: tuple[WatchRequest, ...] = ()
    watched: tuple[Watched, ...] = ()
    rechecked: tuple[Rechecked, ...] = ()
    shifts: tuple[ShiftWorked, ...] = ()
    shown: tuple[CertificateShown, ...] = ()
    known_before: tuple[KnownBefore, ...] = ()
    stood_down: tuple[StoodDown, ...] = ()
    words: tuple[WordsAdded, ...] = ()
    opened: tuple[Opened, ...] = ()
    questions_voided: tuple[QuestionVoided, ...] = ()
    waits_lifted: tuple[WaitLifted, ...] = ()
    skills: tuple[Happening, ...] = ()
    released: tuple[StopReleased, ...] = ()
    noted: tuple[Noted, ...] = ()
    ages: tuple[AgeSeen, ...] = ()
    authority_given: tuple[AuthorityGiven, ...] = ()
    authority_ended: tuple[AuthorityEnded, ...] = ()
    taught: tuple[TechniqueTaught, ...] = ()
    help_asked: tuple[HelpAsked, ...] = ()
    help_given: tuple[HelpGiven, ...] = ()
    founder: tuple[FounderStands, ...] = ()
    paths: tuple[PathOpened, ...] = ()
    paths_closed: tuple[PathClosed, ...] = ()
    ledger: Ledger = NOTHING_LATE
    question_voids: tuple[QuestionVoid, ...] = ()
    memo: dict[Any, Any] = field(default_factory=dict, init=False, compare=False, repr=False)

    def as_of(self, on: date, known: date | None = None) -> CookRecord:
        """Return the record as it stood at the end of a day, by what was known on another (that day if none is named).

        Lines that happened or were written later are left out, and those voided by then. Sittings are scored without
        the questions voided by then. Days on which the same lines count share one record, and all it has worked out.
        """
        day, days = (on, known or on), self.memo.setdefault("days", {})
        found: CookRecord | None = days.get(day)
        if found is None:
            made, earlier = self._as_of(on, known), list(days.values())
            found = next((one for one in reversed(earlier) if one == made), made)
            days[day] = found
            for stale in list(days)[:-DAYS_REMEMBERED]:
                days.pop(stale, None)
        return found

    def _as_of(self, on: date, known: date | None) -> CookRecord:
        kept: dict[str, Any] = {name: self.standing(getattr(self, name), on, known) for name in LINES}
        voided = self.questions_void_on(on, known)
        if voided:
            kept["sat"] = tuple(line.without(voided) for line in kept["sat"])
            kept["skills"] = tuple(one for one in kept["skills"] if (one.family, one.seed) not in voided)
        return CookRecord(self.cook, **kept)

    def questions_void_on(self, on: date, known: date | None = None) -> frozenset[QuestionKey]:
        """Return the questions that count for nothing at the end of a day, anyone who's sitting they were voided in."""
        return frozenset(void.line.question for void in self.question_voids if void.counts(on, known or on))

    def standing(self, lines: tuple[LineT, ...], on: date, known: date | None = None) -> tuple[LineT, ...]:
        """Return the lines that count on a day, by what was known on another (that day if none is named)."""
        return self.ledger.counting(lines, on, known or on)

    def holds_entry(self, entry: str) -> bool:
        """Return whether one of the lines came from this entry."""
        return any(line.entry == entry for name in LINES for line in getattr(self, name))


LINES = tuple(each.name for each in fields(CookRecord) if each.name not in ("cook", "ledger", "question_voids", "memo"))
"""The fields that hold lines: a new one is among them by itself."""


def deciding(lines: Iterable[LineT]) -> list[LineT]:
    """Return the lines that decide, by the day they count from, out of lines in the order of the book.

    Whatever was written last decides from its day on, so a line that counts from a later day than one written after it
    never does.
    """
    found: list[LineT] = []
    last = -1
    for place, line in sorted(enumerate(lines), key=lambda one: one[1].on):
        if place > last:
            found.append(line)
            last = place
    return found
