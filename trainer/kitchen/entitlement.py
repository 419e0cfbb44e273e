"""Who may sign, void and open a station on a day: yes, or no with the reason and who can."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta

from trainer.kitchen.authority import ASSESSOR, Authority, authorities, ends_last
from trainer.kitchen.book import Entry
from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.names import name_key
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.record import AsKnown, CookRecord, FounderStands, Opened
from trainer.kitchen.requirements import not_stood_down
from trainer.kitchen.stops import standing_stops
from trainer.kitchen.technique import Content, Station
from trainer.messages import Text, joined, message, plural

NEVER_VOIDED = frozenset(
    {
        "book_restored",
        "day_closed",
        "head_witnessed",
        "kitchen_set",
        "entry_voided",
        "roster_taken_in",
        "device_enrolled",
        "device_revoked",
        "phone_made_own",
        "phone_shared",
        "first_code_given",
        "secret_changed",
        "recovery_used",
        "locked_out",
        "person_named",
        "age_seen",
        "authority_ended",
        "clock_confirmed",
        "clock_corrected",
        "standard_published",
        "book_upgraded",
        "person_erased",
        "paper_dropped",
        "record_given",
        "retention_set",
    }
)
WRITER_MAY_VOID_FOR = timedelta(minutes=10)
ANOTHER_MANAGER = message("Another manager can do this.")
A_MANAGER = message("A manager can do this.")


@dataclass(frozen=True, slots=True)
class Ground:
    """What lets a person judge others at a station: the entries it follows from, and its last day (None: no end)."""

    proof: tuple[str, ...]
    until: date | None


@dataclass(frozen=True, slots=True)
class Snapshot:
    """What is known on one day: the book so far, what is taught, who everybody is, the date.

    `known` is the day by whose end everything counted was known; None is the day itself.
    """

    progress: Progress
    content: Content
    people: Mapping[str, Person]
    on: date
    known: date | None = None
    _records: dict[str, CookRecord] = field(default_factory=dict, init=False, repr=False, compare=False)
    _clearances: dict[tuple[Person, Station], Clearance] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def record(self, cook: str) -> CookRecord:
        """Return a cook's record as it stood on the day, worked out once."""
        if cook not in self._records:
            self._records[cook] = self.progress.record(cook).as_of(self.on, self.known)
        return self._records[cook]

    def cooks(self) -> tuple[str, ...]:
        """Return the ids of all on the roster on the day, in the order they first joined."""
        return self.progress.cooks_on(self.on, self.known)

    def cooks_by_name(self) -> dict[str, str]:
        """Return the name of everybody on the roster on the day by their id, sorted by name."""
        return dict(sorted(((cook, self.name(cook)) for cook in self.cooks()), key=lambda one: name_key(one[1])))

    def clearance(self, person: Person, station: Station) -> Clearance:
        """Return a person's clearance at a station on the day, worked out once."""
        if (person, station) not in self._clearances:
            asked = AsKnown(self.on, self.known or self.on)
            self._clearances[person, station] = clearance_of(person, station, self.progress, self.content, asked)
        return self._clearances[person, station]

    @property
    def rules(self) -> Content:
        """Return the rules in force on the day: those of the book's standard, or what is taught where it has none."""
        return self.progress.standards.content_on(self.on, self.content, self.known)

    def name(self, cook: str) -> str:
        """Return a person's name, or the id of a person whose name is erased."""
        return self.people[cook].name if cook in self.people else cook

    def roles(self, cook: str) -> frozenset[str]:
        """Return a person's roles on the day."""
        return self.progress.roles(cook, self.on, self.known)

    def is_on_roster(self, cook: str) -> bool:
        """Return whether a person is on the roster on the day."""
        return self.progress.is_on_roster(cook, self.on, self.known)

    def is_cleared(self, cook: str, station: Station) -> bool:
        """Return whether a person is cleared at a station on the day."""
        person = self.people.get(cook)
        return person is not None and self.clearance(person, station).is_cleared

    def is_off(self, cook: str, station: Station) -> bool:
        """Return whether a person is off a station on the day: taken off it, or stopped for safety."""
        record = self.record(cook)
        return not_stood_down(record, station, self.on).best is None or any(
            standing_stops(record, technique) for technique in station.techniques
        )

    def grants(self, cook: str) -> tuple[Opened, ...]:
        """Return a manager's openings of stations for a person that are live on the day."""
        return tuple(line for line in self.record(cook).opened if self.on <= line.until)

    def has_grant(self, cook: str, station: str) -> bool:
        """Return whether a manager's opening of the station for a person is live on the day."""
        return any(line.station == station for line in self.grants(cook))

    def authorities(self, cook: str) -> tuple[Authority, ...]:
        """Return the authorities of an assessor that are live on the day."""
        return authorities(self.record(cook), self.on)

    def authority(self, cook: str, station: str, technique: str = "") -> Authority | None:
        """Return the authority by which an assessor signs there: a practical of a technique; of none, a shift."""
        found = self.authorities(cook)
        return ends_last(one for one in found if one.allows("sign" if technique else "beside", station, technique))

    def ground(self, cook: str, station: Station) -> Ground | None:
        """Return what lets a person judge others at a station on the day: clearance or grant, whichever lasts longer.

        None where there is neither, or where they are off the station.
        """
        if self.is_off(cook, station):
            return None
        roster = tuple(line.entry for line in self.record(cook).roster[-1:])
        found = [Ground((*roster, one.entry), one.until) for one in self.grants(cook) if one.station == station.id]
        if cook in self.people:
            held = self.clearance(self.people[cook], station)
            found += [Ground(held.proof, held.until)] if held.is_cleared else []
        return max(found, key=lambda one: one.until or date.max, default=None)

    def founder(self, cook: str, station: Station) -> FounderStands | None:
        """Return the word of the only manager or assessor, live at a station on the day; None where they are off it."""
        if not self.roles(cook) & {"manager", ASSESSOR} or self.is_off(cook, station):
            return None
        found = (line for line in self.record(cook).founder if station.id in line.stations and self.on <= line.until)
        return max(found, key=lambda line: line.until, default=None)


@dataclass(frozen=True, slots=True)
class Entitlement:
    """Whether a person may; if not, why, and who can. `station` is where they may, where that was asked."""

    may: bool
    reason: Text = ""
    who_can: Text = ""
    station: str = ""


YES = Entitlement(True)
NOBODY_ASKS = Entitlement(False, message("No station asks for this technique, so nobody can sign it."), A_MANAGER)


@dataclass(frozen=True, slots=True)
class Signer:
    """Who may sign at a station on a day: by which entries, and to which last day as things stand (None: no end).

    `techniques` are those whose practicals they may sign there; `shifts` says whether they may sign supervised shifts.
    """

    cook: str
    because: tuple[str, ...]
    until: date | None
    techniques: tuple[str, ...]
    shifts: bool


def may_sign(assessor: str, cook: str, technique: str, station: str, day: Snapshot) -> Entitlement:
    """Return whether an assessor may sign a practical of this cook in this technique at this station on the day.

    It takes the assessor's role that day, a live authority that covers the technique or the station, and a clearance or
    a live grant at that very station, from which they are not taken off. Nobody signs their own.
    """
    asking = day.rules.stations_asking_for(technique)
    if not asking:
        return NOBODY_ASKS
    found = next((one for one in asking if one.id == station), None)
    if found is None:
        titles = joined((one.name for one in asking), ", ")
        words = message("That station does not ask for this technique. Stations that do: {titles}.", titles=titles)
        return Entitlement(False, words)
    return _may_sign_among(assessor, cook, (found,), technique, day)


def may_sign_at(assessor: str, cook: str, station: str, day: Snapshot) -> Entitlement:
    """Return whether an assessor may sign a supervised shift of this cook at this station on the day."""
    found = day.rules.stations.get(station)
    if found is None:
        return Entitlement(False, _no_station(station), "")
    return _may_sign_among(assessor, cook, (found,), "", day)


def may_sign_somewhere(assessor: str, cook: str, technique: str, day: Snapshot) -> Entitlement:
    """Return whether an assessor may sign a practical of this cook at one of the stations that ask for the technique.

    `station` names the first such station: the practical counts there, as the entry will say.
    """
    asking = day.rules.stations_asking_for(technique)
    if not asking:
        return NOBODY_ASKS
    where = next((one.id for one in asking if not _why_not(assessor, cook, (one,), technique, day)), "")
    return replace(_may_sign_among(assessor, cook, asking, technique, day), station=where)


def _may_sign_among(
    assessor: str, cook: str, stations: Sequence[Station], technique: str, day: Snapshot
) -> Entitlement:
    """Return whether an assessor may sign for a cook at one of these stations at least; no technique means a shift."""
    reason = _why_not(assessor, cook, stations, technique, day)
    return YES if not reason else Entitlement(False, reason, _who_can(cook, stations, technique, day))


def _why_not(assessor: str, cook: str, stations: Sequence[Station], technique: str, day: Snapshot) -> Text:
    """Return what stands in the way of a signature; "" where nothing does."""
    if assessor == cook:
        return message("Nobody signs their own work.")
    by_right = _not_by_right(assessor, stations, technique, day)
    return "" if by_right and any(_own_word(assessor, one, technique, day) for one in stations) else by_right


def _not_by_right(assessor: str, stations: Sequence[Station], technique: str, day: Snapshot) -> Text:
    """Return why a person is not entitled at any of these stations; "" where they are."""
    return _no_assessor(assessor, day) or _not_there(assessor, stations, technique, day)


def _own_word(who: str, station: Station, technique: str, day: Snapshot) -> FounderStands | None:
    """Return by which word of their own a person may sign there: only while nobody else is entitled."""
    found = day.founder(who, station)
    if found is None or any(_is_other(who, other, station, technique, day) for other in day.cooks()):
        return None
    return found


def _is_other(who: str, other: str, station: Station, technique: str, day: Snapshot) -> bool:
    return other != who and not _not_by_right(other, (station,), technique, day)


def _no_assessor(who: str, day: Snapshot) -> Text:
    """Return why a person is no assessor on the day; "" where they are."""
    if not day.is_on_roster(who):
        return message("{name} is not on the roster.", name=day.name(who))
    return "" if ASSESSOR in day.roles(who) else message("{name} is no assessor.", name=day.name(who))


def _not_there(assessor: str, stations: Sequence[Station], technique: str, day: Snapshot) -> Text:
    """Return why an assessor signs at none of these stations; "" where they do at one."""
    name = day.name(assessor)
    covered = [one for one in stations if day.authority(assessor, one.id, technique)]
    if not covered:
        return message(
            "{name} has no authority in writing to sign at {stations} today.", name=name, stations=_titles(stations)
        )
    left = [one for one in covered if not day.is_off(assessor, one)]
    if not left:
        return message("{name} is off the station today: {stations}.", name=name, stations=_titles(covered))
    if not any(day.ground(assessor, one) for one in left):
        return message("{name} is not cleared today at {stations}.", name=name, stations=_titles(covered))
    return ""


def entitled_by(assessor: str, station: str, technique: str, day: Snapshot) -> tuple[str, ...]:
    """Return the entries that made a person entitled to sign at a station that day: authority, clearance or grant.

    No technique means a shift. Where something lacked, as of a stop that is always written down, the rest is told.
    """
    authority, found = day.authority(assessor, station, technique), day.rules.stations.get(station)
    if found is not None and _not_by_right(assessor, (found,), technique, day):
        word = _own_word(assessor, found, technique, day)
        if word is not None:
            return (word.entry, *(line.entry for line in day.record(assessor).roster[-1:]))
    ground = day.ground(assessor, found) if found is not None else None
    given = (authority.entry,) if authority else ()
    return tuple(dict.fromkeys((*given, *(ground.proof if ground else ()))))


def signers(station: Station, day: Snapshot) -> tuple[Signer, ...]:
    """Return all who could sign at a station on the day for somebody else, in the order they joined.

    A list of those who may sign, current and kept for two years: Surface Force Training Manual, Section 3,
    Subsection B, 16-18; designated in writing: NAVEDTRA 14145, PQS; authority checks: 21 CFR 11.10(g).
    """
    found = (_signer(cook, station, day) or _signer_on_own_word(cook, station, day) for cook in day.cooks())
    return tuple(one for one in found if one is not None)


def _signer(cook: str, station: Station, day: Snapshot) -> Signer | None:
    """Return what a person may sign at a station on the day; None where it is nothing."""
    shifts = day.authority(cook, station.id)
    by_technique = {name: day.authority(cook, station.id, name) for name in station.techniques}
    given = [one for one in (shifts, *by_technique.values()) if one is not None]
    ground, longest = day.ground(cook, station) if given else None, ends_last(given)
    if ground is None or longest is None:
        return None
    ends = [until for until in (ground.until, longest.until) if until is not None]
    because = tuple(dict.fromkeys((*(one.entry for one in given), *ground.proof)))
    techniques = tuple(name for name, one in by_technique.items() if one is not None)
    return Signer(cook, because, min(ends, default=None), techniques, shifts is not None)


def _signer_on_own_word(cook: str, station: Station, day: Snapshot) -> Signer | None:
    """Return what the founder of a kitchen may sign at a station on their own word; None where it is nothing."""
    techniques = tuple(name for name in station.techniques if _own_word(cook, station, name, day))
    shifts, word = _own_word(cook, station, "", day) is not None, day.founder(cook, station)
    if word is None or not (techniques or shifts):
        return None
    roster = tuple(line.entry for line in day.record(cook).roster[-1:])
    return Signer(cook, (word.entry, *roster), word.until, techniques, shifts)


def who_may_sign(cook: str, stations: Iterable[Station], day: Snapshot, technique: str = "") -> tuple[str, ...]:
    """Return the ids of all who may sign for a cook at one of these stations on the day; no technique means a shift."""
    asked = tuple(stations)
    return tuple(name for name in day.cooks() if not _why_not(name, cook, asked, technique, day))


def _who_can(cook: str, stations: Sequence[Station], technique: str, day: Snapshot) -> Text:
    names = [day.name(name) for name in who_may_sign(cook, stations, day, technique)]
    if names:
        return plural("{names} can sign.", "Any of these can sign: {names}.", len(names), names=", ".join(names))
    return message("Nobody today: a manager can open {stations} for an assessor.", stations=_titles(stations))


def _titles(stations: Iterable[Station]) -> Text:
    """Return the stations of which one is enough, one after the other."""
    titles = [station.name for station in stations]
    if len(titles) < 2:
        return joined(titles)
    return message("{first} or {last}", first=joined(titles[:-1], ", "), last=titles[-1])


def _no_station(station: str) -> Text:
    return message("There is no station “{station}”.", station=station)


def may_manage(by: str, cook: str, day: Snapshot) -> Entitlement:
    """Return whether a person may decide about a cook as a manager; nobody decides about themselves."""
    if "manager" not in day.roles(by):
        return Entitlement(False, message("{name} is no manager.", name=day.name(by)), A_MANAGER)
    if by == cook:
        return Entitlement(False, message("Nobody decides this about themselves."), ANOTHER_MANAGER)
    return YES


def may_take_off(by: str, cook: str, day: Snapshot) -> Entitlement:
    """Return whether a person may take a cook off a station at once: a manager or an assessor; nobody themselves.

    What bars counts at once and needs no more than that; only a manager lifts it.
    """
    if not day.roles(by) & {ASSESSOR, "manager"}:
        words = message("{name} is neither assessor nor manager.", name=day.name(by))
        return Entitlement(False, words, message("An assessor or a manager can do this."))
    if by == cook:
        return Entitlement(False, message("Nobody decides this about themselves."), message("Somebody else can do it."))
    return YES


def may_open_station(by: str, assessor: str, station: str, day: Snapshot) -> Entitlement:
    """Return whether a manager may open a station for an assessor.

    Only while nobody on the roster is cleared there, for another person, who has the assessor's role.
    """
    manages = may_manage(by, assessor, day)
    if not manages.may:
        return manages
    if station not in day.rules.stations:
        return Entitlement(False, _no_station(station), "")
    if "assessor" not in day.roles(assessor):
        return Entitlement(False, message("{name} is no assessor.", name=day.name(assessor)), "")
    cleared = [c for c in day.progress.cooks_on(day.on) if day.is_cleared(c, day.rules.stations[station])]
    if cleared:
        names = ", ".join(day.name(c) for c in cleared)
        known = plural(
            "{names} is cleared there already: no grant is needed.",
            "{names} are cleared there already: no grant is needed.",
            len(cleared),
            names=names,
        )
        return Entitlement(
            False,
            known,
            plural(
                "{names} can sign there as an assessor.",
                "As assessors these can sign there: {names}.",
                len(cleared),
                names=names,
            ),
        )
    return YES


def is_lasting(entry: Entry) -> bool:
    """Return whether an entry only says what happened at the door or to the people, so that a void would undo nothing.

    A birth date changed by mistake is changed again; a role given is taken back by its void.
    """
    return entry.kind in NEVER_VOIDED or (entry.kind == "cook_changed" and "roles" not in entry.body)


NO_SLIP = frozenset(
    {
        "quiz_sat",
        "answered",
        "drill_done",
        "drill_given",
        "cook_joined",
        "cook_changed",
        "cook_left",
        "authority_given",
        "station_opened",
        "stop_released",
        "founder_stands",
        "entry_contested",
        "contest_decided",
        "entry_upheld",
        "rechecked",
    }
)
"""What its writer never takes back as a slip: an answer, and what gives, takes or decides something about people.

Nor a look at a sign-off again: once it is saved its writer has seen what the first one found, and is blind no more.
"""


def may_void(by: str, entry: Entry, reason: str, now: datetime, progress: Progress) -> Entitlement:
    """Return whether a person may void an entry at a moment.

    Its writer within ten minutes (see `is_slip`), of an asking for help at any time; or a manager with a reason and not
    about themselves; never a void, never twice.
    """
    if entry.kind == "entry_voided":
        return Entitlement(False, message("A void is never voided: write the entry again."), "")
    if is_lasting(entry):
        return Entitlement(
            False, message("This entry only says what happened. Put the thing itself right instead."), ""
        )
    if progress.voided_on(entry.id, entry.cook) is not None:
        return Entitlement(False, message("That entry is voided already."), "")
    roles = progress.roles(by, progress.last_day)
    own = is_slip(by, entry, now) or (entry.kind == "help_asked" and entry.by == by)
    return YES if roles and own else _manager_may_void(by, entry, reason, roles)


def is_slip(by: str, entry: Entry, now: datetime) -> bool:
    """Return whether a void is its writer's own within ten minutes: never of an answer, a stop or a trust event.

    So the entry counts for no day at all, as if it had never been written.
    """
    in_time = timedelta(0) <= now - entry.at <= WRITER_MAY_VOID_FOR
    return entry.by == by and in_time and not is_stop(entry) and entry.kind not in NO_SLIP


def is_stop(entry: Entry) -> bool:
    """Return whether an entry is a practical stopped for safety: its writer does not take that back alone."""
    return entry.kind == "practical_watched" and entry.body["verdict"] == "stopped"


def _manager_may_void(by: str, entry: Entry, reason: str, roles: frozenset[str]) -> Entitlement:
    if "manager" not in roles and is_stop(entry):
        return Entitlement(False, message("A stop is not taken back: a manager releases it or voids it."), A_MANAGER)
    if "manager" not in roles:
        return Entitlement(
            False, message("Its writer can void an entry for ten minutes; after that a manager can."), A_MANAGER
        )
    if entry.cook == by:
        return Entitlement(False, message("A manager does not void entries about themselves."), ANOTHER_MANAGER)
    if not reason.strip():
        return Entitlement(False, message("A correction needs a reason."), "")
    return YES
