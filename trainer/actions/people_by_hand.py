"""People put on the roster and changed by hand, one at a time: the same rules as for a roster file."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.paths import NewPath, start_path
from trainer.actions.people_on_record import Written, name_deed
from trainer.actions.planning import not_a_manager
from trainer.actions.roster import Match, take_in
from trainer.actions.roster_waiting import in_parts
from trainer.actions.saving import KEY_USED, append, denied_by, not_on_roster
from trainer.imports.people_rows import OLDEST, wrong_name
from trainer.imports.roster_plan import RosterRow
from trainer.kitchen.book import canonical, digest_of
from trainer.kitchen.clearance import clearance_of
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.open_paths import proposed_day
from trainer.kitchen.paths import open_path
from trainer.kitchen.roles import in_sequence
from trainer.kitchen.spans import in_words
from trainer.messages import Text, message
from trainer.store.people import Listed, comparable, tidy

LONGEST_NUMBER = 20


@dataclass(frozen=True, slots=True)
class TypedPerson:
    """A person as typed: the staff number and the birth date may be missing. `stations` are those to go for.

    `again` is somebody who left and comes back, by id; "" for a person new.
    """

    name: str
    number: str
    born: date | None
    language: str
    roles: tuple[str, ...]
    stations: tuple[str, ...] = ()
    again: str = ""


@dataclass(frozen=True, slots=True)
class TypedChange:
    """What is changed of somebody on the roster: name, staff number, language, and stations to go for besides.

    `seen` is the mark of the person as they were looked at.
    """

    cook: str
    name: str
    number: str
    language: str
    stations: tuple[str, ...]
    seen: str


@dataclass(frozen=True, slots=True)
class Put:
    """Who was put on the roster, by which entry, and what of it waits for a second person, in words."""

    cook: str
    entry: str
    waits: Text = ""


def add_person(k: Kitchen, *, by: str, person: TypedPerson, now: datetime, key: str) -> Put | Refused:
    """Return who was put on the roster: joined, named, with a path opened to each station; all of it or none.

    By a manager. A role that gives power waits for a second person, as in a roster file. Sent twice, it is once.
    """
    with k.file.writing():
        there = k.file.book.find_key(f"{key}:1")
        if there is not None:
            return Put(there.cook, there.id) if (there.kind, there.by) == ("cook_joined", by) else KEY_USED
        now = k.moment(now)
        day = k.day(k.today(now))
        old = listed_person(k, person.again)
        refusal = (
            refused_by_clock(k, now)
            or not_a_manager(by, day)
            or _wrong_person(person, day)
            or _taken_by_another(k, person, old, day)
        )
        if refusal is not None:
            return refusal
        row = RosterRow(1, person.number or (old.number or "" if old else ""), tidy(person.name), person.born,
                        in_sequence(person.roles), None, person.language)  # fmt: skip
        parts = in_parts(k, Match(row, old, frozenset(), is_here=False), by, day)
        joins, *_ = take_in(k, parts, by, now, key)
        _open_paths(k, joins.cook, person.stations, Written(by, now, key))
        return Put(joins.cook, joins.id, parts.words)


def change_person(k: Kitchen, *, by: str, change: TypedChange, now: datetime, key: str) -> Refused | None:
    """Change a person's name, number and language, and open paths to stations; return why not, or None.

    By another manager. A new name is an entry in the book, as a digest. Refused where somebody else changed the person
    since they were looked at, unless they are so already.
    """
    with k.file.writing():
        now = k.moment(now)
        day = k.day(k.today(now))
        old = listed_person(k, change.cook)
        refusal = (
            refused_by_clock(k, now)
            or denied_by(may_manage(by, change.cook, day))
            or not_on_roster(change.cook, day)
            or _wrong_name(change.name)
            or _wrong_number(change.number)
        )
        if refusal is not None or old is None:
            return refusal
        wanted = replace(old.person, name=tidy(change.name), language=change.language)
        new = [one for one in change.stations if open_path(day.record(change.cook), one) is None]
        if (wanted, change.number) == (old.person, old.number or "") and not new:
            return None
        refusal = _changed_since(old, change.seen) or _number_taken(k, change.number, change.cook)
        if refusal is not None:
            return refusal
        k.file.people.change(wanted, change.number or None)
        if wanted.name != old.person.name:
            append(k, name_deed(k, wanted, Written(by, now, f"{key}:name")))
        return _open_paths(k, change.cook, new, Written(by, now, key))


def mark_of_person(listed: Listed) -> str:
    """Return what stands for a person as they were looked at."""
    person = listed.person
    return digest_of(canonical({"told": [person.name, person.language, listed.number or ""]}).encode())


def listed_person(k: Kitchen, cook: str) -> Listed | None:
    """Return a person with their number, or None."""
    return next((one for one in k.file.people.listed() if one.person.id == cook), None)


def stations_to_go_for(k: Kitchen, cook: str, on: date) -> tuple[str, ...]:
    """Return the stations a person is neither cleared at nor on a path to."""
    day = k.day(on)
    return tuple(
        name
        for name, station in day.rules.stations.items()
        if not day.is_cleared(cook, station) and open_path(day.record(cook), name) is None
    )


def _wrong_person(person: TypedPerson, day: Snapshot) -> Refused | None:
    """Return what no person may be: nameless, too long a number, born in the future, without a role."""
    return (
        _wrong_name(person.name) or _wrong_number(person.number) or _wrong_birth(person.born, day.on) or _role(person)
    )


def _role(person: TypedPerson) -> Refused | None:
    if in_sequence(person.roles):
        return None
    return Refused(message("Somebody on the roster has a role at least."), "", "roles")


def _wrong_name(name: str) -> Refused | None:
    wrong = wrong_name(tidy(name))
    return Refused(wrong[0], wrong[1], "name") if wrong else None


def _wrong_number(number: str) -> Refused | None:
    if len(number) <= LONGEST_NUMBER and number.isprintable():
        return None
    return Refused(
        message("A number has at most 20 characters that can be seen."), message("Write a shorter one."), "number"
    )


def _wrong_birth(born: date | None, today: date) -> Refused | None:
    if born is not None and born > today:
        return Refused(message("{day} is still to come.", day=in_words(born)), message("Look at the year."), "born")
    if born is not None and born < OLDEST:
        return Refused(message("{day} is before 1900. Look at the year.", day=in_words(born)), "", "born")
    return None


def _taken_by_another(k: Kitchen, person: TypedPerson, old: Listed | None, day: Snapshot) -> Refused | None:
    """Return the refusal of a number that is another's, and of a name that is here or was here before."""
    if old is not None and day.is_on_roster(old.person.id):
        return Refused(message("{name} is on the roster already.", name=old.person.name), "", "name")
    refusal = _number_taken(k, person.number, person.again)
    same = [one for one in k.file.people.listed() if comparable(one.person.name) == comparable(person.name)]
    if refusal or person.number or any(one.person.id == person.again for one in same) or not same:
        return refusal
    name = same[0].person.name
    if day.is_on_roster(same[0].person.id):
        words = message("{name} is on the roster already.", name=name)
        return Refused(words, message("Somebody else of this name? Give them a staff number."), "name")
    words = message("{name} was here before and has left.", name=name)
    more = message("Open their page and let them join again. Somebody else of this name? Give them a staff number.")
    return Refused(words, more, "name")


def _number_taken(k: Kitchen, number: str, cook: str) -> Refused | None:
    other = next((one for one in k.file.people.listed() if number and one.number == number), None)
    if other is None or other.person.id == cook:
        return None
    words = message("Number {number} is {name}'s.", number=number, name=other.person.name)
    return Refused(words, message("Write another number, or none."), "number")


def _changed_since(old: Listed, seen: str) -> Refused | None:
    if seen == mark_of_person(old):
        return None
    words = message(
        "Since you looked, somebody changed this person: now {name}, number {number}. Nothing was saved.",
        name=old.person.name,
        number=old.number or message("none"),
    )
    return Refused(words, message("What you typed is still here: send it again if it is right."))


def _open_paths(k: Kitchen, cook: str, stations: Iterable[str], written: Written) -> Refused | None:
    """Open a path to each station, by the day one may well be ready."""
    for name in stations:
        day = k.day(k.today(written.now))
        station, person = day.rules.stations.get(name), day.people.get(cook)
        if station is None or person is None:
            continue
        by_day = proposed_day(clearance_of(person, station, day.progress, day.content, day.on), station)
        path, key = NewPath(cook, name, by_day), f"{written.key}:path:{name}"
        outcome = start_path(k, by=written.by, path=path, now=written.now, key=key)
        if isinstance(outcome, Refused):
            return outcome
    return None
