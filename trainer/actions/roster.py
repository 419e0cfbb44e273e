"""Taking in roster and shift files: a preview that changes nothing, then all of it or none of it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import cast

from trainer.actions.authorizing import give_with_role
from trainer.actions.clock_watch import after_the_last, refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused, Saved
from trainer.actions.people_on_record import Written, deeds_of
from trainer.actions.roster_waiting import Parts, frees_oneself, in_parts, keep_parts
from trainer.actions.signed import with_proof
from trainer.actions.two_people import Second
from trainer.imports.roster_files import roster_from
from trainer.imports.roster_plan import Change, Choices, KnownPeople, RosterPlan, RosterRow, ShiftRow
from trainer.imports.table_files import RowProblem, read_table
from trainer.kitchen.ages import AgeChange, age_change
from trainer.kitchen.book import Entry, Kind, NewEntry
from trainer.kitchen.entitlement import A_MANAGER, ANOTHER_MANAGER
from trainer.kitchen.planned import Planned, judge
from trainer.kitchen.progress import Person
from trainer.kitchen.roles import in_sequence, roles_in_words
from trainer.kitchen.technique import Content, Station
from trainer.messages import Text, joined, message, plural
from trainer.store.acting import IMPORT, acting_on
from trainer.store.identity import new_id
from trainer.store.people import Listed, comparable, tidy
from trainer.store.shifts import PlannedShift

NO_CHOICES = Choices()


@dataclass(frozen=True, slots=True)
class Imported:
    """What a file changed: how many joined, changed or stayed as they were, the shifts planned, the entries written.

    `entries` are those about the people; `taken_in` is the one about the file, where it changed anything. `waiting` is
    in how many rows something waits for a second person, or a day.
    """

    joined: int
    changed: int
    stayed: int
    planned: int
    left_out: int
    entries: tuple[Entry, ...] = ()
    taken_in: Entry | None = None
    waiting: int = 0

    @property
    def text(self) -> Text:
        """Return what was done, in one sentence."""
        done = (
            (self.joined, message("{count} joined", count=self.joined)),
            (self.changed, message("{count} changed", count=self.changed)),
            (self.planned, message("{count} shifts planned", count=self.planned)),
        )
        parts = [words for count, words in done if count] or [message("Nothing changed")]
        if self.waiting:
            parts.append(
                plural("{number} row waits for a second person", "{number} rows wait for a second person", self.waiting)
            )
        if self.stayed:
            parts.append(message("{count} as they were", count=self.stayed))
        if self.left_out:
            parts.append(plural("{number} row left out", "{number} rows left out", self.left_out))
        return message("{done}.", done=joined(parts, ", "))


@dataclass(frozen=True, slots=True)
class Match:
    """One roster row beside the person it is about (None: a person new), with their roles today."""

    row: RosterRow
    there: Listed | None
    roles: frozenset[str]
    is_here: bool

    @property
    def wanted(self) -> tuple[str, ...]:
        """Return the roles the person will have: as the row says; if it says none, those they have, or cook."""
        if self.row.roles:
            return self.row.roles
        return in_sequence(self.roles) or ("cook",)

    @property
    def person(self) -> Person:
        """Return the person as they would be kept; an empty cell takes nothing away."""
        row, there = self.row, self.there
        if there is None:
            return Person("", row.name, row.born, row.language)
        old = there.person
        return replace(old, name=row.name, born=row.born or old.born, language=row.language or old.language)

    @property
    def differences(self) -> tuple[Text, ...]:
        """Return what would change about a person who is on the roster, in words."""
        if self.there is None or not self.is_here:
            return ()
        old, new = self.there.person, self.person
        pairs = (
            (message("name"), old.name, new.name),
            (message("birth date"), old.born, new.born),
            (message("language"), old.language, new.language),
            (message("number"), self.there.number, self.row.number),
            (message("first day"), self.there.started, self.row.started or self.there.started),
            (message("roles"), roles_in_words(sorted(self.roles)), roles_in_words(sorted(self.wanted))),
        )
        return tuple(
            message("{what}: {before} → {after}", what=what, before=_as_value(before), after=_as_value(after))
            for what, before, after in pairs
            if before != after
        )

    @property
    def is_born_anew(self) -> bool:
        """Return whether a person who was listed before gets another birth date."""
        return self.there is not None and self.there.person.born != self.person.born

    def age_change(self, stations: Mapping[str, Station], on: date) -> AgeChange:
        """Return which stations the birth date bars them from, and which it frees them for."""
        before = self.there.person.born if self.there else None
        return age_change(before, self.person.born, stations.values(), on)

    @property
    def role_words(self) -> Text:
        """Return which roles are given or taken, in words; joining as a cook gives no power over others."""
        after = roles_in_words(sorted(self.wanted))
        if self.is_here and self.roles != frozenset(self.wanted):
            return message("{before} → {after}", before=roles_in_words(sorted(self.roles)), after=after)
        return message("joins as {roles}", roles=after) if not self.is_here and set(self.wanted) - {"cook"} else ""

    def birth_words(self, stations: Mapping[str, Station], on: date) -> Text:
        """Return how the birth date changes and what that does, in words; "" where it stays."""
        if self.there is None or not self.is_born_anew:
            return ""
        before, after = _as_value(self.there.person.born), _as_value(self.person.born)
        change = self.age_change(stations, on)
        effect = age_change_in_words(change, {station.id: station.title for station in stations.values()})
        return message("{before} → {after}. {effect}", before=before, after=after, effect=effect)

    def change(self, stations: Mapping[str, Station], on: date) -> Change:
        """Return what taking in the row does, with what it does to birth date and roles apart."""
        apart: dict[str, Text] = {"birth": self.birth_words(stations, on), "roles": self.role_words}
        if not self.is_here:
            roles = roles_in_words(self.wanted)
            text: Text = message("joins as {roles}", roles=roles)
            if self.there is not None:
                text = message("joins again as {roles}", roles=roles)
            return Change(self.row.row, "joins", self.row.name, text, **apart)
        differences = self.differences
        text = joined(differences, "; ") if differences else message("as it is now")
        return Change(self.row.row, "changes" if differences else "stays", self.row.name, text, **apart)


def _as_value(there: date | Text | None) -> Text:
    """Return what a row said as a message names it; a day as a file has it, and nothing as none."""
    return (there.isoformat() if isinstance(there, date) else there) or message("none")


def age_change_in_words(change: AgeChange, titles: Mapping[str, str]) -> Text:
    """Return which stations a change of birth date bars a person from or frees them for, and never the date."""

    def named(stations: Iterable[str]) -> Text:
        return joined((titles.get(station, station) for station in stations), ", ")

    told = [message("Bars from: {stations}.", stations=named(change.bars))] if change.bars else []
    told += [message("Frees for: {stations}.", stations=named(change.frees))] if change.frees else []
    return joined(told) if told else message("No station is affected.")


def plan_import(
    k: Kitchen,
    data: bytes,
    choices: Choices = NO_CHOICES,
    *,
    now: datetime | None = None,
    told_in: Content | None = None,
) -> RosterPlan:
    """Return what a roster or shift file would do, row by row, with every problem and question; nothing is changed.

    With `now`, a birth date that has not come yet is a problem, and roles are those of that day. `told_in` is what the
    kitchen teaches in the reader's words.
    """
    on = k.today(now) if now is not None else None
    stations = {station.id: station.title for station in k.content.stations.values()}
    plan = roster_from(
        read_table(data, choices.encoding, choices.sheet),
        choices,
        KnownPeople(k.file.people.listed(), stations, on, k.services),
    )
    plan = replace(plan, digest=hashlib.sha256(data).hexdigest())
    if plan.kind == "shifts":
        return replace(plan, changes=tuple(_shift_changes(k, cast("tuple[ShiftRow, ...]", plan.rows))))
    matches, problems = _matched(k, cast("tuple[RosterRow, ...]", plan.rows), on)
    found = sorted((*plan.problems, *problems), key=lambda problem: problem.row)
    seen_from = on or date.max
    changes = tuple(match.change((told_in or k.content).stations, seen_from) for match in matches)
    return replace(plan, problems=tuple(found), changes=changes)


def with_what_waits(k: Kitchen, plan: RosterPlan, by: str, now: datetime) -> RosterPlan:
    """Return a plan whose changes say what of each row will wait for a second person if this manager takes it in."""
    if plan.kind == "shifts":
        return plan
    day = k.day(k.today(now))
    matches, _ = _matched(k, cast("tuple[RosterRow, ...]", plan.rows), day.on)
    words = {match.row.row: in_parts(k, match, by, day).words for match in matches}
    return replace(plan, changes=tuple(replace(one, note=words.get(one.row, "")) for one in plan.changes))


def apply_import(  # noqa: PLR0913 - what, by whom, when, under which key, and whose word counts as the second
    k: Kitchen, *, plan: RosterPlan, by: str, now: datetime, key: str = "", second: Second | None = None
) -> Imported | Refused:
    """Return what was done, after all of the plan is kept, or why none of it was. The same file again changes nothing.

    A manager may; but nobody gives themselves a role, and one manager must be left. Roles that give power and birth
    dates that lift a bar wait for a second person, like the single acts, unless *second* is given with the file.
    """
    with k.file.writing(), acting_on(IMPORT):
        now = k.moment(now)
        refusal = refused_by_clock(k, now) or _may_not_take_in(k, plan, by, now)
        if refusal is not None:
            return refusal
        if plan.kind == "shifts":
            return _apply_shifts(k, plan)
        return _apply_roster(k, plan, NewEntry("roster_taken_in", now, by, by, {}, key or new_id(now)), second)


def _may_not_take_in(k: Kitchen, plan: RosterPlan, by: str, now: datetime) -> Refused | None:
    """Return why this file cannot be taken in, or not by this person."""
    if "manager" not in k.progress().roles(by, k.today(now)):
        return Refused(message("Only a manager takes in a file."), A_MANAGER)
    if not plan.is_ready:
        return Refused(
            message("The file has problems or open questions. Mend them, answer them or leave the rows out.")
        )
    return None


def first_manager(k: Kitchen, *, name: str, now: datetime, key: str, person: Person | None = None) -> Saved | Refused:
    """Return the entry that begins a book: its first manager, who joins by their own hand. Refused once anybody joined.

    `person` may give the manager's birth date and language as well; its id may be "".
    """
    if not tidy(name):
        return Refused(message("Give the manager's name."), field="name")
    with k.file.writing():
        there = k.file.book.find_key(key)
        if there is not None:
            return Saved(there)
        if k.file.book.end()[0]:
            return Refused(message("This kitchen has a manager already."), A_MANAGER)
        own = replace(person or Person("", name, None, k.file.settings.language), id=new_id(now), name=name)
        k.file.people.add(own, None, k.today(now))
        joins = k.file.book.append(NewEntry("cook_joined", now, own.id, own.id, {"roles": ["manager"]}, key))
        for deed in deeds_of(k, None, own, Written(own.id, now, key)):
            k.file.book.append(deed)
        return Saved(joins)


def _matched(k: Kitchen, rows: tuple[RosterRow, ...], on: date | None) -> tuple[list[Match], list[RowProblem]]:
    """Return each row beside the person it is about: by number, or by name where the person has no number yet."""
    listed = k.file.people.listed()
    by_number = {one.number: one for one in listed if one.number is not None}
    numberless = _only_ones({one: comparable(one.person.name) for one in listed if one.number is None})
    born = {(comparable(one.person.name), one.person.born): one for one in listed}
    progress, day = k.progress(), on or date.max
    matches, problems = [], []
    for row in rows:
        there = by_number.get(row.number) or numberless.get(comparable(row.name))
        twin = born.get((comparable(row.name), row.born))
        if row.born is not None and twin is not None and (there is None or twin.person.id != there.person.id):
            problems.append(_twin(row, twin))
        who = there.person.id if there else ""
        matches.append(Match(row, there, progress.roles(who, day), progress.is_on_roster(who, day)))
    return matches, problems


def _only_ones(names: Mapping[Listed, str]) -> dict[str, Listed]:
    """Return the people by name, without the names two of them share."""
    shared = list(names.values())
    return {name: one for one, name in names.items() if shared.count(name) == 1}


def _twin(row: RosterRow, twin: Listed) -> RowProblem:
    """Return the problem of a row that says a person who is listed under another number."""
    number = twin.number or message("none")
    reason = message(
        "{name} with this birth date is on the roster under number {number}.", name=twin.person.name, number=number
    )
    return RowProblem(
        row.row, "number", row.number, reason, message("Write number {number}, or leave the row out.", number=number)
    )


def _apply_roster(k: Kitchen, plan: RosterPlan, deed: NewEntry, second: Second | None) -> Imported | Refused:
    """Return what was done to people and book, inside the open transaction; refused before the first change."""
    by, now, today = deed.by, deed.at, k.today(deed.at)
    matches, problems = _matched(k, cast("tuple[RosterRow, ...]", plan.rows), today)
    if problems:
        return Refused(message("Row {row}: {reason}", row=problems[0].row, reason=problems[0].reason))
    day = k.day(today)
    rows = [in_parts(k, match, by, day, (second, now) if second else None) for match in matches]
    refusal = _own_role(matches, by) or _row_refusal(k, rows, by, today)
    if refusal is not None:
        return refusal
    changes = [parts.now.change(k.content.stations, today) for parts in rows]
    entries = [entry for parts in rows for entry in take_in(k, parts, by, now, deed.key)]
    acts = [change.act for change in changes]
    joined_now, changed, stayed = (acts.count(act) for act in ("joins", "changes", "stays"))
    body = {
        "file": plan.digest,
        "rows": len(matches),
        "joined": joined_now,
        "changed": changed,
        "births": sum(bool(change.birth) for change in changes),
        "roles": sum(bool(change.roles) for change in changes),
        "entries": [entry.id for entry in entries],
    }
    taken_in = None
    if joined_now or changed:
        taken_in = k.file.book.append(after_the_last(k, replace(deed, body=body, key=f"{deed.key}:file")))
    waiting = sum(bool(parts.waits) for parts in rows)
    return Imported(joined_now, changed, stayed, 0, len(plan.left_out), tuple(entries), taken_in, waiting)


def _own_role(matches: list[Match], by: str) -> Refused | None:
    """Return why a file may not be taken in by somebody whom it gives a role."""
    own = next((match for match in matches if match.there is not None and match.there.person.id == by), None)
    gained = sorted(set(own.wanted) - own.roles) if own else []
    if own and gained:
        reason = message(
            "Row {row} gives you the role {gained}. Nobody gives themselves a role.", row=own.row.row, gained=gained[0]
        )
        return Refused(reason, ANOTHER_MANAGER, "roles")
    return None


def _row_refusal(k: Kitchen, rows: list[Parts], by: str, today: date) -> Refused | None:
    """Return why rows may not be taken in: one frees its own taker, or what counts at once leaves no manager."""
    own = next((refusal for parts in rows if (refusal := frees_oneself(parts, by)) is not None), None)
    if own is not None:
        return own
    progress = k.progress()
    managers = {cook for cook in progress.cooks_on(today) if "manager" in progress.roles(cook, today)}
    for match in (parts.now for parts in rows):
        who = match.there.person.id if match.there else match.row.number
        (managers.add if "manager" in match.wanted else managers.discard)(who)
    if managers:
        return None
    waits = any("manager" in one.args.get("roles", ()) for parts in rows for one in parts.waits)
    first = message("A new manager's role waits first: leave the old manager's row out until it counts.")
    return Refused(message("The file would leave the kitchen without a manager."), first if waits else "", "roles")


def take_in(k: Kitchen, parts: Parts, by: str, now: datetime, key: str) -> Iterator[Entry]:
    """Keep one row's person; yield the entry of their joining or their roles, and those of a new name or birth date.

    The latter two hold digests, and from when somebody is old enough: never the name, nor the birth date. What of the
    row waits is kept.
    """
    match = parts.now
    row, person = match.row, match.person
    before = match.there.person if match.there else None
    if match.there is None:
        person = replace(person, id=new_id(now))
        k.file.people.add(person, row.number or None, row.started)
    elif match.differences or not match.is_here:
        k.file.people.change(person, row.number or None, row.started)
    kind: Kind = "cook_changed" if match.is_here else "cook_joined"
    if not match.is_here or match.roles != frozenset(match.wanted):
        deed = NewEntry(kind, now, person.id, by, {"roles": list(match.wanted)}, f"{key}:{row.row}")
        roles = k.file.book.append(with_proof(after_the_last(k, parts.with_second(deed))))
        yield roles
        given = give_with_role(k, roles, match.roles, now)
        if given is not None:
            yield given
    for deed in deeds_of(k, before, person, Written(by, now, f"{key}:{row.row}")):
        yield k.file.book.append(after_the_last(k, parts.with_second(deed)))
    keep_parts(k, parts, NewEntry(kind, now, person.id, by, {}, f"{key}:{row.row}"))


def _shift_changes(k: Kitchen, rows: tuple[ShiftRow, ...]) -> Iterator[Change]:
    """Yield what each shift row would do, and why a cook may not stand there; the plan is taken in all the same."""
    day = k.day(date.max)
    planned = {(shift.on, shift.sitting, shift.cook): shift.station for shift in k.file.shifts.all()}
    for row in rows:
        before = planned.get((row.on, row.sitting, row.cook))
        text = message(
            "{day}, {sitting}: {station}",
            day=row.on.isoformat(),
            sitting=k.services.word(row.sitting),
            station=row.station,
        )
        note = judge(Planned(row.cook, row.station, row.sitting), replace(day, on=row.on)).reason
        if before == row.station:
            yield Change(row.row, "stays", day.name(row.cook), text, note=note)
        else:
            told = joined([text, message("(was {station})", station=before)]) if before else text
            yield Change(row.row, "planned", day.name(row.cook), told, note=note)


def _apply_shifts(k: Kitchen, plan: RosterPlan) -> Imported:
    """Return what was done to the planned shifts, inside the open transaction."""
    rows = cast("tuple[ShiftRow, ...]", plan.rows)
    planned = k.file.shifts.add(PlannedShift(row.on, row.sitting, row.cook, row.station) for row in rows)
    return Imported(0, 0, len(rows) - planned, planned, len(plan.left_out))
