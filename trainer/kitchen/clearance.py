"""Is this cook cleared for this station on this day, and if not, what is missing? A value with reasons.

Every requirement is a set of days on which it is met; a clearance is the days they have in common. So until when, and
whether there ever was one, fall out of the same sum.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import Literal

from trainer.kitchen.certificates import certificate
from trainer.kitchen.nights import StationRun
from trainer.kitchen.paths import has_begun, open_path
from trainer.kitchen.practice import Worked, common_days, free_until, in_practice, outlook
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.record import AsKnown, CookRecord, PathOpened
from trainer.kitchen.requirements import (
    Held,
    Missing,
    Requirement,
    age,
    last_day,
    no_such_station,
    not_stood_down,
    on_roster,
    shifts,
)
from trainer.kitchen.spans import ALWAYS, NO_END, ONE_DAY, Span, intersection, union
from trainer.kitchen.standards import InForce
from trainer.kitchen.technique import Content, Practice, Station
from trainer.kitchen.technique_standing import (
    TechniqueStanding,
    TechniqueState,
    is_read,
    standing_of,
    technique_standing,
)
from trainer.kitchen.watch_requests import open_requests
from trainer.messages import Text, joined

__all__ = [
    "Asking",
    "Clearance",
    "Held",
    "Missing",
    "State",
    "TechniqueStanding",
    "TechniqueState",
    "asking_of",
    "clearance_of",
    "clearances_of",
    "is_read",
    "open_requests",
    "technique_standing",
    "turning_days",
]

State = Literal[
    "not started",
    "studying",
    "ready to show",
    "supervised",
    "cleared",
    "due again",
    "lapsed",
    "stood down",
    "not allowed",
]
LEARNING = ("not started", "studying", "ready to show", "supervised")
"""The states of a cook who was never cleared, and whom nothing bars."""


@dataclass(frozen=True, slots=True)
class Clearance:
    """State, every missing thing, everything held, the last good day (None: no end), and the proving entry ids.

    For a lapsed clearance `until` is the day it ended. `reason` says in words why it is none, where one thing decides;
    `due` what of one that counts is due again already, and `outlook` that practice ends before all else would. It is
    `known` where nobody here has watched something of it. `path` is the open path to the station; the clearance is
    `blank` where the cook neither goes for the station, nor ever held it, nor began what is asked there alone.
    """

    cook: str
    station: str
    on: date
    state: State
    missing: tuple[Missing, ...]
    held: tuple[Held, ...]
    until: date | None
    proof: tuple[str, ...]
    reason: Text = ""
    due: Text = ""
    outlook: Text = ""
    known: bool = False
    path: PathOpened | None = None
    blank: bool = False

    @property
    def is_cleared(self) -> bool:
        """Return whether the cook may run the station on that day."""
        return self.state in ("cleared", "due again")


def clearance_of(
    person: Person, station: Station, progress: Progress, content: Content, on: date | AsKnown
) -> Clearance:
    """Return whether a cook may run a station on a day, with every reason, as the book said on that day.

    Entries and voids written later are not seen; with `AsKnown` those written up to another day are. The rules are
    those of the standard in force on the day; *content* holds them where the book has no standard.
    """
    return clearances_of(person, (station,), progress, content, on)[0]


def clearances_of(
    person: Person, stations: Iterable[Station], progress: Progress, content: Content, on: date | AsKnown
) -> tuple[Clearance, ...]:
    """Return a cook's clearances at several stations; what stations share is worked out once."""
    asked = {station.id: station for station in stations}
    asking = asking_of(person, asked, progress, content, AsKnown.of(on))
    return tuple(asking.clearance(name) for name in asked)


def turning_days(
    person: Person, station: Station, progress: Progress, content: Content, on: AsKnown
) -> tuple[Clearance, list[date]]:
    """Return a clearance, and the later days on which another may follow if nothing more is written, in sequence.

    Only the first of them is sure to be among those from its own day on: rules to come may speak from theirs.
    """
    asking = asking_of(person, {station.id: station}, progress, content, on)
    return asking.clearance(station.id), sorted(day for day in asking.turns(station.id) if day > on.on)


def asking_of(
    person: Person, stations: Mapping[str, Station], progress: Progress, content: Content, on: AsKnown
) -> Asking:
    """Return what asks for a cook's clearances on a day; a book without standards is judged by the stations given."""
    whole = progress.record(person.id)
    given = replace(content, stations={**content.stations, **stations})
    record, runs = whole.as_of(*on), progress.standards.runs(on.known, given)
    asks_practice = any(station.practice for run in runs for station in run.content.stations.values())
    first_shift = progress.first_shift(*on) if asks_practice else None
    ran = progress.nights.runs_of(person.id, *on) if asks_practice else ()
    roster, has_paths = on_roster(record, on.on), progress.has_paths(*on)
    return Asking(by_the_book(person, whole), record, on.on, roster, runs, first_shift, has_paths, ran)


def by_the_book(person: Person, record: CookRecord) -> Person:
    """Return the person, without the birth date kept beside the book where the book itself says something of it."""
    return replace(person, born=None) if record.ages else person


@dataclass(slots=True)
class Asking:
    """One cook's record as it stood on a day, asked for station after station by the rules in force on every day."""

    person: Person
    record: CookRecord
    on: date
    roster: Requirement
    runs: Sequence[InForce]
    first_shift: date | None
    """The day of the first shift anybody worked; not looked for where no rules ask for practice."""
    has_paths: bool
    """Whether the house has ever opened a path: before that, no cell is blank."""
    ran: Sequence[StationRun] = ()
    """The stations the cook has run at services; not looked for where no rules ask for practice."""
    learnt: dict[int, TechniqueStanding] = field(default_factory=dict)
    """Where the cook stands with a technique, by the technique's identity: rules that agree on it share it."""
    common: dict[tuple[Station | None, date, tuple[int, ...]], list[Span]] = field(default_factory=dict)
    """The days on which everything is met that a station asks for, shared by rules that agree on all of it."""

    def clearance(self, name: str) -> Clearance:
        """Return the clearance at a station that follows from everything it asks for on the day."""
        place = next(place for place, run in enumerate(self.runs) if run.holds(self.on))
        asked = self.requirements(self.runs[place], name)
        station = self.runs[place].content.stations.get(name)
        techniques = [self.standing(self.runs[place], technique) for technique in station.techniques] if station else []
        until, missing = self.until(place, name), tuple(r.missing for r in asked if r.missing)
        held = tuple(r.held for r in asked if r.held and not r.quiet)
        state = _state(station.warn_days if station else 0, self.on, asked, techniques, until)
        path = open_path(self.record, name)
        blank = path is None and self.is_blank(self.runs[place], station, state)
        state = "not started" if blank else state
        proof = tuple(dict.fromkeys(entry for r in asked if r.best for entry in r.best.proof))
        ends, reason = None if until is None else last_day(until), _reason(state, asked)
        outlook = self.outlook(self.runs[place], name, asked, until) if not missing and until else ""
        due = _due(asked, outlook) if state == "due again" else ""
        known = bool(self.record.known_before) and any(r.known for r in asked)
        said = (reason, due, outlook, known, path, blank)
        return Clearance(self.person.id, name, self.on, state, missing, held, ends, proof, *said)

    def is_blank(self, run: InForce, station: Station | None, state: State) -> bool:
        """Return whether a cook who goes for no station here has not begun this one, however much others share."""
        if not self.has_paths or station is None or state not in LEARNING:
            return False
        return not has_begun(self.record, station, run.content.stations.values())

    def requirements(self, run: InForce, name: str) -> list[Requirement]:
        """Return everything some rules ask for at a station, what is learnt after what the station itself asks for."""
        station, record, on = run.content.stations.get(name), self.record, self.on
        if station is None:
            return [no_such_station()]
        asked = [self.roster, not_stood_down(record, station, on)]
        asked += [age(self.person, record, station, on)] if station.minimum_age is not None else []
        asked += [certificate(record, paper, on) for paper in station.certificates]
        asked += [r for technique in station.techniques for r in self.standing(run, technique).requirements]
        asked += [shifts(record, station, on)] if station.supervised_shifts else []
        if station.practice:
            asked.append(in_practice(station.practice, self.worked(run, station, station.practice), asked, on))
        return asked

    def worked(self, run: InForce, station: Station, asked: Practice) -> Worked:
        """Return the cook's shifts at a station, and from when some rules ask for practice there."""
        free = free_until(run.rules.since, self.first_shift, asked)
        return Worked.at(self.record, station.id, free, self.ran)

    def outlook(self, run: InForce, name: str, asked: Sequence[Requirement], until: date) -> Text:
        """Return that practice alone ends a clearance on a day, and when all else would; nothing where it does not."""
        *others, practice = asked
        station = run.content.stations[name]
        if station.practice is None or practice.best is None or practice.best.until != until:
            return ""
        otherwise = next((span.until for span in common_days(others) if span.holds(self.on)), until)
        worked = self.worked(run, station, station.practice)
        return outlook(station.practice, worked, until, otherwise) if otherwise > until else ""

    def turns(self, name: str) -> set[date]:
        """Return the days on which something asked for begins, is over, or comes so near its end that it is due again.

        The days of rules and editions to come are among them.
        """
        coming = [(run, run.content.stations.get(name)) for run in self.runs if run.until >= self.on]
        warned = {timedelta(days=station.warn_days) for _, station in coming if station}
        days: set[date] = set()
        for run, station in coming:
            requirements = self.requirements(run, name)
            spans = [Span(run.since, run.until), *(span for r in requirements for span in r.spans)]
            days |= {day for r in requirements for day in r.turns}
            ends = {span.until for span in spans if ALWAYS < span.until < NO_END}
            days |= {span.since for span in spans} | {end + ONE_DAY for end in ends}
            days |= {end - warn for end in ends for warn in warned}
            asked = [run.content.techniques[technique] for technique in station.techniques] if station else []
            days |= {edition.since for technique in asked for edition in technique.editions}
        return days

    def standing(self, run: InForce, technique: str) -> TechniqueStanding:
        """Return where the cook stands with a technique by some rules."""
        ruled = run.content.techniques[technique]
        if id(ruled) not in self.learnt:
            self.learnt[id(ruled)] = standing_of(self.record, ruled, self.on)
        return self.learnt[id(ruled)]

    def good_days(self, run: InForce, name: str) -> list[Span]:
        """Return the days on which all that some rules ask for is met while they are in force, the earliest first."""
        station, taught = run.content.stations.get(name), run.content.techniques
        since = run.rules.since if station and station.practice else ALWAYS
        key = (station, since, tuple(id(taught[technique]) for technique in station.techniques) if station else ())
        if key not in self.common:
            self.common[key] = common_days(self.requirements(run, name))
        return [days for days in map(run.clip, self.common[key]) if days.since <= days.until]

    def cleared_within(self, name: str, within: Span) -> list[Span]:
        """Return those of some days on which all that the rules of the day ask for is met, as runs."""
        return intersection(union(days for run in self.runs for days in self.good_days(run, name)), [within])

    def not_met(self, name: str, day: date) -> tuple[Requirement, ...]:
        """Return what the rules of a day ask for at a station that is not met then, as far as is known."""
        run = next(run for run in self.runs if run.holds(day))
        return tuple(r for r in self.requirements(run, name) if not any(span.holds(day) for span in r.spans))

    def until(self, place: int, name: str) -> date | None:
        """Return the last of the good days that hold the day asked; else the last there ever was; else None."""
        days = self.good_days(self.runs[place], name)
        holding = next((span for span in days if span.holds(self.on)), None)
        if holding:
            return self._goes_on(holding.until, place, name)
        ended = max((span.until for span in days if span.until < self.on), default=None)
        return ended or self._ended_before(place, name)

    def _goes_on(self, until: date, place: int, name: str) -> date:
        """Return the last good day of a run of days that may go on under the rules to come."""
        for run in self.runs[place + 1 :]:
            days = self.good_days(run, name) if until == run.since - ONE_DAY else []
            if not days or days[0].since != run.since:
                break
            until = days[0].until
        return until

    def _ended_before(self, place: int, name: str) -> date | None:
        """Return the last good day under the rules of before."""
        runs = reversed(self.runs[:place])
        return next((days[-1].until for days in (self.good_days(run, name) for run in runs) if days), None)


def _state(
    warn_days: int,
    on: date,
    asked: Sequence[Requirement],
    techniques: Sequence[TechniqueStanding],
    until: date | None,
) -> State:
    missing = {r.what for r in asked if r.missing}
    if any(r.bars and r.missing for r in asked):
        return "not allowed"
    if any(r.takes_off and r.missing for r in asked):
        return "stood down"
    if until is not None and not missing:
        is_due = (until - on).days <= warn_days or any(r.due for r in asked)
        return "due again" if is_due else "cleared"
    return "lapsed" if until is not None else _state_of_learning(missing, techniques)


def _state_of_learning(missing: Set[str], techniques: Sequence[TechniqueStanding]) -> State:
    """Return how far a person has come who was never cleared.

    A station says *ready to show* where nothing but practicals is left of it, and *supervised* where only shifts are.
    """
    kinds = {what.partition(":")[0] for what in missing}
    if kinds == {"practical"}:
        return "ready to show"
    if kinds <= {"shifts", "practice"}:
        return "supervised"
    return "not started" if all(t.state == "not started" for t in techniques) else "studying"


def _due(asked: Sequence[Requirement], outlook: Text) -> Text:
    """Return in words what is met and due again all the same, each once."""
    return joined(dict.fromkeys(words for words in (*(r.due for r in asked), outlook) if words))


def _reason(state: State, asked: Sequence[Requirement]) -> Text:
    """Return the words of the one thing that decides a state which withholds the station."""
    if state == "not allowed":
        return joined(r.missing.text for r in asked if r.bars and r.missing)
    if state == "stood down":
        return joined(r.missing.text for r in asked if r.takes_off and r.missing)
    if state == "lapsed":
        return next(r.missing.text for r in asked if r.missing)
    return ""
