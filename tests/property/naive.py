"""Clearance a second time, naively: day by day, straight loops over the entries, no spans and no runs of rules."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from tests.property.histories import Historian, Published
from trainer.kitchen.book import Entry
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import CertificateAsked, Content, Edition, Practice, Station, Technique

Dated = Sequence[tuple[date, Entry]]
BEGIN = ("technique_read", "quiz_sat", "watch_asked", "practical_watched", "known_before")


@dataclass(frozen=True)
class Naive:
    """A history asked about one day, by what was known on another."""

    history: Historian
    person: Person
    on: date
    known: date
    seen: dict[int, Content] = field(default_factory=dict, compare=False)
    """The rules of each standard as they were worked out before, only to save time."""
    met: dict[tuple[str, int], date | None] = field(default_factory=dict, compare=False)
    """The first day all but practice was met, by station and standard, only to save time."""

    @property
    def book(self) -> Dated:
        """Return the entries that count on the day, each with the day it happened."""
        return as_the_book_stood(self.history.entries, self.on, self.known)

    def content(self, day: date) -> Content:
        """Return the rules of another day, as they were known; coming points speak from their day."""
        if not self.history.published:
            return as_known_on(self.history.content, self.on)
        place = naive_place(self.history.published, day, self.known)
        if place not in self.seen:
            self.seen[place] = as_known_on(naive_rules(self.history.published[: place + 1]), self.on)
        return self.seen[place]

    def left(self, station: str, day: date | None = None, book: Dated | None = None) -> set[str]:
        """Return the kinds of things that are left to be done at a station on another day, the book left as it is."""
        day = day or self.on
        content = self.content(day)
        if station not in content.stations:
            return {"standard"}
        found = self.book if book is None else book
        left = naive_left(found, self.person, content.stations[station], content, day)
        return left | ({"practice"} if not self.is_in_practice(station, day, found) else set())

    def things(self, station: str) -> set[str]:
        """Return what is left on the day, each technique's reading, quiz and practical and each paper by itself."""
        content, book = self.content(self.on), self.book
        if station not in content.stations:
            return {"standard"}
        place = content.stations[station]
        alone = replace(place, techniques=(), certificates=())
        found = naive_left(book, self.person, alone, content, self.on)
        for name in place.techniques:
            one = replace(place, techniques=(name,), certificates=(), supervised_shifts=0, minimum_age=None)
            found |= {f"{kind} {name}" for kind in naive_left(book, self.person, one, content, self.on)}
        for paper in place.certificates:
            one = replace(alone, certificates=(paper,), supervised_shifts=0, minimum_age=None)
            found |= {f"{kind} {paper.id}" for kind in naive_left(book, self.person, one, content, self.on)}
        return found | ({"practice"} if not self.is_in_practice(station, self.on, book) else set())

    def is_in_practice(self, station: str, day: date, book: Dated) -> bool:
        """Return whether practice is not asked on a day, or shown."""
        content = self.content(day)
        asked = content.stations[station].practice
        if asked is None:
            return True
        shifts = [entry for _, entry in book if entry.kind == "shift_worked"]
        every = [date.fromisoformat(entry.body["worked_on"]) for entry in shifts]
        every += [closed for closed, entry in book if entry.kind == "service_stood"]
        first = self.first_met(station, day, book)
        if not every or first is None or first > day:
            return True
        if day < self.since(day) or (day - min(every)).days < asked.days or (day - first).days <= asked.days:
            return True
        signed = {
            (date.fromisoformat(entry.body["worked_on"]), entry.body.get("sitting", ""), entry.id)
            for entry in shifts
            if entry.body["station"] == station
        }
        mine = [each for each, _, _ in signed if each <= day]
        signed_for = {(each, service) for each, service, _ in signed}
        ran = [
            each
            for each, service, cook, where in naive_ran(book, self.known)
            if (cook, where) == (self.person.id, station)
            and (each, service) not in signed_for
            and each <= min(day, self.on)  # what is only planned for a later day has not been worked
        ]
        return naive_practice(asked, [*mine, *ran], mine, day)

    def is_blank(self, station: str, book: Dated) -> bool:
        """Return whether the house has paths, none of this cook to the station is open, and they never began there."""
        content = self.content(self.on)
        if station not in content.stations or all(entry.kind != "path_opened" for _, entry in book):
            return False
        going = ""
        for _, entry in book:
            if entry.kind == "path_opened" and entry.body["station"] == station:
                going = entry.id
            if entry.kind == "path_closed" and entry.body["path"] == going:
                going = ""
        return not going and not naive_begun(book, station, content)

    def first_met(self, station: str, day: date, book: Dated) -> date | None:
        """Return the first day on which all but practice was met, by the rules of a day; None where it never was."""
        content, key = self.content(day), (station, self.place(day))
        if key not in self.met:
            born = self.person.born
            days = {each for each, _ in book} | {each + timedelta(days=1) for each, _ in book}
            days |= {date.fromisoformat(e.body["issued"]) for _, e in book if e.kind == "certificate_shown"}
            days |= {edition.since for technique in content.techniques.values() for edition in technique.editions}
            days |= set() if born is None else {day for years in (16, 18) for day in around_birthday(born, years)}
            place = content.stations[station]
            self.met[key] = next(
                (each for each in sorted(days) if not naive_left(book, self.person, place, content, each)), None
            )
        return self.met[key]

    def place(self, day: date) -> int:
        """Return the place of the standard in force on a day; -1 where none is published."""
        return naive_place(self.history.published, day, self.known) if self.history.published else -1

    def since(self, day: date) -> date:
        """Return the day from which the standard in force on a day holds."""
        return self.history.published[self.place(day)].since if self.history.published else date.min

    def is_cleared(self, station: str, day: date | None = None, book: Dated | None = None) -> bool:
        """Return whether every link is there."""
        return not self.left(station, day, book)

    def turns(self) -> list[date]:
        """Return the days before the one asked about on which something begins to count."""
        days = [day for day, _ in self.book] + [one.since for one in self.history.published]
        return [day for day in days if day <= self.on]


def around_birthday(born: date, years: int) -> list[date]:
    """Return the day one is so many years old and some around it: of 29 February, the 28th and the two days after."""
    eve = born.replace(year=born.year + years, day=min(born.day, 28) if born.month == 2 else born.day)
    return [eve + timedelta(days=ahead) for ahead in (0, 1, 2)]


def naive_place(published: Sequence[Published], day: date, known: date) -> int:
    """Return the place of the last standard whose day has come, of those published by then; else of the first."""
    found = 0
    for place, one in enumerate(published):
        if one.on <= known and one.since <= day:
            found = place
    return found


def naive_rules(held: Sequence[Published]) -> Content:
    """Return the content of the last of some standards, each edition from the first day one of them had it."""
    techniques = {}
    for name, technique in held[-1].content.techniques.items():
        editions = tuple(replace(one, since=naive_since(held, name, one)) for one in technique.editions)
        techniques[name] = replace(technique, editions=editions)
    return replace(held[-1].content, techniques=techniques)


def naive_since(held: Sequence[Published], technique: str, edition: Edition) -> date:
    """Return the day an edition counts from: its own, or the first day some standard had it; the first always had."""
    days = []
    for number, one in enumerate(held):
        for other in one.content.techniques[technique].editions:
            if other.number == edition.number:
                days.append(date.min if number == 0 else one.since)
    return max(edition.since, min(days))


def as_the_book_stood(entries: Sequence[Entry], on: date, known: date) -> list[tuple[date, Entry]]:
    """Return the entries that have happened by a day and were written by another, without those voided by then."""
    counted = []
    voids = [entry for entry in entries if entry.kind == "entry_voided" and entry.day <= known]
    for entry in entries:
        happened, written = entry.happened, entry.day
        if "happened" in entry.body:
            happened = min(happened, date.fromisoformat(entry.body["happened"]))
        if entry.kind == "stood_down" or entry.body.get("verdict") == "stopped":
            written = happened
        if happened <= on and written <= known and not is_voided(entry, voids, on):
            counted.append((happened, entry))
    return counted


def is_voided(entry: Entry, voids: Sequence[Entry], on: date) -> bool:
    """Return whether a void that was known takes an entry out of a day: every day, or those from the void's own."""
    for void in voids:
        if void.body["entry"] == entry.id and (void.body.get("counts") == "never" or void.day <= on):
            return True
    return False


def months_between_hold(day: date, months: int, on: date) -> bool:
    """Return whether *on* is no later than *months* after *day*, counting month by month on the calendar."""
    year, month = day.year, day.month
    for _ in range(months):
        year, month = (year + 1, 1) if month == 12 else (year, month + 1)
    return (on.year, on.month, on.day) <= (year, month, day.day)


def naive_left(book: Dated, person: Person, station: Station, content: Content, on: date) -> set[str]:
    """Return the kinds of things that are left to be done on a day."""
    book = [(day, entry) for day, entry in book if day <= on]
    asked = [content.techniques[name] for name in station.techniques]
    answers = {
        "roster": naive_present(book),
        "off": naive_standing(book, station) and not any(naive_stops(book, technique) for technique in asked),
        "age": naive_age(person, station, on),
        "barring paper": naive_papers(book, station, on, bars=True),
        "paper": naive_papers(book, station, on, bars=False),
        "reading": all(naive_has(book, technique, "reading", on) for technique in asked),
        "quiz": all(naive_has(book, technique, "quiz", on) for technique in asked),
        "practical": all(naive_has(book, technique, "practical", on) for technique in asked),
        "shifts": naive_shifts(book, station),
    }
    return {kind for kind, is_there in answers.items() if not is_there}


def naive_present(book: Dated) -> bool:
    """Return whether the last word is joined."""
    there = False
    for _, entry in book:
        if entry.kind == "cook_joined":
            there = True
        if entry.kind == "cook_left":
            there = False
    return there


def naive_standing(book: Dated, station: Station) -> bool:
    """Return whether the last word is not that the cook is taken off this station."""
    standing = True
    for _, entry in book:
        if entry.kind in ("stood_down", "restored") and entry.body["station"] == station.id:
            standing = entry.kind == "restored"
    return standing


def naive_age(person: Person, station: Station, on: date) -> bool:
    """Return whether enough birthdays have passed, comparing month and day: 1 March comes after 29 February."""
    if station.minimum_age is None:
        return True
    if person.born is None:
        return False
    years = on.year - person.born.year
    if (on.month, on.day) < (person.born.month, person.born.day):
        years -= 1
    return years >= station.minimum_age


def naive_papers(book: Dated, station: Station, on: date, *, bars: bool) -> bool:
    """Return whether each certificate that bars, or each that does not, was shown and is in date."""
    for paper in station.certificates:
        good = paper.bars != bars
        for _, entry in book:
            if entry.kind == "certificate_shown" and entry.body["certificate"] == paper.id:
                good = good or naive_in_date(paper, entry, on, paper.grace_days)
        if not good:
            return False
    return True


def naive_in_date(paper: CertificateAsked, entry: Entry, on: date, grace_days: int) -> bool:
    """Return whether a paper counts on a day, or did on one of so many days before it."""
    issued, expires = date.fromisoformat(entry.body["issued"]), entry.body["expires"]
    if issued > on:
        return False
    for ago in range(grace_days + 1):
        day = on - timedelta(days=ago)
        is_young = not paper.most_years or months_between_hold(issued, 12 * paper.most_years, day)
        if is_young and (expires is None or day.isoformat() <= expires):
            return True
    return False


def naive_on_grace(book: Dated, station: Station, on: date) -> bool:
    """Return whether some paper the station asks for is there by its grace alone."""
    for paper in station.certificates:
        shown = [
            entry
            for day, entry in book
            if day <= on and entry.kind == "certificate_shown" and entry.body["certificate"] == paper.id
        ]
        in_date = any(naive_in_date(paper, entry, on, 0) for entry in shown)
        if not in_date and any(naive_in_date(paper, entry, on, paper.grace_days) for entry in shown):
            return True
    return False


def naive_practice(asked: Practice, worked: Sequence[date], supervised: Sequence[date], day: date) -> bool:
    """Return whether enough of the shifts by a day are recent, or enough supervised ones were close together lately."""
    if sum((day - each).days <= asked.days for each in worked) >= asked.shifts:
        return True
    for last in supervised:
        if (day - last).days <= asked.days:
            close = [each for each in supervised if each <= last and (last - each).days <= asked.return_days]
            if len(close) >= asked.return_shifts:
                return True
    return False


def naive_ran(book: Dated, known: date) -> set[tuple[date, str, str, str]]:
    """Return who ran which station at which service of which day: as it was closed, else as it was planned."""
    closed = {(day, entry.body["service"]): entry.body for day, entry in book if entry.kind == "service_stood"}
    return naive_stood(closed) | naive_unclosed(book, known, closed)


Closed = dict[tuple[date, str], Mapping[str, Any]]
"""Services by day and name, each as it was closed last."""


def naive_stood(closed: Closed) -> set[tuple[date, str, str, str]]:
    """Return who ran which station at the services that were closed, with nothing against it."""
    ran = set()
    for (day, service), body in closed.items():
        differing = [(one["cook"], one["station"]) for one in body["disparities"]]
        for line in body["stood"]:
            if line["as"] == "runs" and (line["cook"], line["station"]) not in differing:
                ran.add((day, service, line["cook"], line["station"]))
    return ran


def naive_unclosed(book: Dated, known: date, closed: Closed) -> set[tuple[date, str, str, str]]:
    """Return who was planned to run which station at the services that nobody closed within 24 hours of their end."""
    ran = set()
    plans = [entry.body for _, entry in book if entry.kind == "plan_published"]
    for place, body in enumerate(plans):
        despite = [(one["day"], one["service"], one["cook"], one["station"]) for one in body["despite"]]
        for line in json.loads(body["plan"])["lines"]:
            day, key = date.fromisoformat(line["day"]), (line["day"], line["service"], line["cook"], line["station"])
            is_replaced = any(later["from"] <= line["day"] <= later["to"] for later in plans[place + 1 :])
            is_over = naive_end(book, day, line["service"]) + timedelta(hours=24) <= datetime.combine(known, time.max)
            if line["as"] == "runs" and not is_replaced and is_over and (day, line["service"]) not in closed:
                ran |= set() if key in despite else {(day, line["service"], line["cook"], line["station"])}
    return ran


def naive_end(book: Dated, day: date, service: str) -> datetime:
    """Return when a service of a day ends: by the last hours set for it by then, else 15:00 for lunch or 23:00."""
    closes, opens = ("15:00", "11:00") if service == "lunch" else ("23:00", "17:00")
    weeks = [entry.body for _, entry in book if entry.kind == "services_set" and entry.body["since"] <= f"{day}"]
    for one in weeks[-1]["weekly"] if weeks else []:
        if (one["weekday"], one["service"]) == (day.isoweekday(), service):
            opens, closes = one["opens"], one["closes"]
    return datetime.combine(day + timedelta(days=closes <= opens), time.fromisoformat(closes))


def naive_has(book: Dated, technique: Technique, part: str, on: date) -> bool:
    """Return whether one part of a technique is shown, or counts as known from before."""
    return naive_shown(book, technique, part, on) or naive_known(book, technique, part, on, extra=28)


def naive_shown(book: Dated, technique: Technique, part: str, on: date) -> bool:
    """Return whether one part of a technique is shown here."""
    ways = {"reading": naive_read, "quiz": naive_passed, "practical": naive_signed}
    return ways[part](book, technique, on)


def naive_known(book: Dated, technique: Technique, part: str, on: date, extra: int) -> bool:
    """Return whether a part of a technique is known from before on a day, or was until so many days ago."""
    for place, (day, entry) in enumerate(book):
        if entry.kind != "known_before":
            continue
        if part != "quiz" and not still_holds(technique, naive_edition(technique, day), on):
            continue
        if part == "practical" and naive_stopped_around(book, place, technique):
            continue
        if any(on <= end + timedelta(days=extra) for end in naive_ends(day, entry, technique, part)):
            return True
    return False


def naive_ends(day: date, entry: Entry, technique: Technique, part: str) -> list[date]:
    """Return the last days before what was said of a technique is due again."""
    ends = []
    for cell in entry.body["cells"]:
        if technique.id in cell["techniques"]:
            until = date.fromisoformat(cell["until"])
            is_asked = part == "quiz" and technique.id in cell["asked"]
            ends.append(min(until, day + timedelta(days=28)) if is_asked else until)
    return ends


def naive_edition(technique: Technique, day: date) -> int:
    """Return the number of the edition in force on a day."""
    number = technique.editions[0].number
    for each in technique.editions:
        if each.since <= day:
            number = each.number
    return number


def naive_stopped_around(book: Dated, place: int, technique: Technique) -> bool:
    """Return whether a stop stood when something was said to be known, or one came later."""
    if naive_stops(book[:place], technique):
        return True
    later = [entry.body for _, entry in book[place:] if entry.kind == "practical_watched"]
    return any(body["technique"] == technique.id and body["verdict"] == "stopped" for body in later)


def naive_known_is_due(book: Dated, station: Station, content: Content, on: date) -> bool:
    """Return whether something at a station is there only as known from before, and past its day."""
    book = [(day, entry) for day, entry in book if day <= on]
    for name in station.techniques:
        technique = content.techniques[name]
        for part in ("reading", "quiz", "practical"):
            is_shown = naive_shown(book, technique, part, on)
            if not is_shown and not naive_known(book, technique, part, on, extra=0):
                return True
    return False


def naive_begun(book: Dated, station: str, content: Content) -> bool:
    """Return whether some entry is of a shift there, or of a technique that only this station asks for."""
    own = []
    for name in content.stations[station].techniques:
        if [one.id for one in content.stations.values() if name in one.techniques] == [station]:
            own.append(name)
    for _, entry in book:
        named = [entry.body.get("technique", "")]
        for each in entry.body.get("cells", []):
            named += each["techniques"]
        is_there = entry.kind == "shift_worked" and entry.body["station"] == station
        if is_there or (entry.kind in BEGIN and set(named) & set(own)):
            return True
    return False


def naive_shifts(book: Dated, station: Station) -> bool:
    """Return whether enough shifts were worked there."""
    worked = 0
    for _, entry in book:
        if entry.kind == "shift_worked" and entry.body["station"] == station.id:
            worked += 1
    return worked >= station.supervised_shifts


def naive_read(book: Dated, technique: Technique, on: date) -> bool:
    """Return whether an edition that still holds was read."""
    for _, entry in book:
        if entry.kind != "technique_read" or entry.body["technique"] != technique.id:
            continue
        if still_holds(technique, entry.body["edition"], on):
            return True
    return False


def naive_passed(book: Dated, technique: Technique, on: date) -> bool:
    """Return whether the quiz was passed not too long ago, or there is none."""
    passed = not technique.questions
    for day, entry in book:
        if entry.kind == "quiz_sat" and entry.body["technique"] == technique.id and entry.body["passed"]:
            passed = passed or months_between_hold(day, technique.quiz_months, on)
    return passed


def naive_practicals(book: Dated, technique: Technique) -> tuple[list[tuple[date, Entry]], list[str]]:
    """Return the sign-offs that count at the end of a book (day and entry), and the stops that stand.

    A stop wipes every sign-off before it. It stands until its release; one of an older program, which does not say when
    the practical was begun, also until a sign-off of that program on a later day. A sign-off counts if no stop stands,
    and if it was begun after the last stop had ended.
    """
    signed: list[tuple[date, Entry]] = []
    standing: dict[str, tuple[date, bool]] = {}
    last_end = datetime.min.replace(tzinfo=UTC)
    for day, entry in book:
        if entry.kind == "stop_released" and standing.pop(entry.body["stop"], False):
            last_end = max(last_end, entry.at)
        if entry.kind != "practical_watched" or entry.body["technique"] != technique.id:
            continue
        started, verdict = entry.body.get("started"), entry.body["verdict"]
        if verdict == "stopped":
            signed = []
            standing[entry.id] = (day, started is None)
        if verdict == "meets it" and started is None:
            ended = [name for name, (stopped_on, is_old) in standing.items() if is_old and stopped_on < day]
            last_end = max(last_end, entry.at) if ended else last_end
            standing = {name: stop for name, stop in standing.items() if name not in ended}
        begun_late = started is None or datetime.fromisoformat(started) >= last_end
        if verdict == "meets it" and not standing and begun_late:
            signed.append((day, entry))
    return signed, list(standing)


def naive_stops(book: Dated, technique: Technique) -> list[str]:
    """Return the stops that stand."""
    return naive_practicals(book, technique)[1]


def naive_signed(book: Dated, technique: Technique, on: date) -> bool:
    """Return whether a sign-off counts: of the whole, or one of each part, as the list is divided now or was then."""
    signed, _ = naive_practicals(book, technique)
    good: list[str] = []
    pieces: dict[str, set[str]] = {}
    for day, entry in signed:
        holds = still_holds(technique, entry.body["edition"], on) and still_enough(technique, entry, on)
        if holds and months_between_hold(day, technique.sign_off_months, on):
            good.append(entry.body["part"][0] if "part" in entry.body else "the whole")
            divided = " ".join(entry.body.get("divided", ()))
            pieces.setdefault(divided, set()).add(good[-1])
    if "the whole" in good or any(set(divided.split()) <= seen for divided, seen in pieces.items() if divided):
        return True
    return bool(technique.parts) and {part.id for part in technique.parts} <= set(good)


def still_holds(technique: Technique, edition: int, on: date) -> bool:
    """Return whether a proof made on an edition still counts on a date: every later edition in force lets it."""
    later = [each for each in technique.editions if each.number > edition and each.since <= on]
    return all(each.sign_offs_hold for each in later)


def still_enough(technique: Technique, practical: Entry, on: date) -> bool:
    """Return whether no later edition in force asks for a point that this practical shows as missed."""
    for each in technique.editions:
        if each.number > practical.body["edition"] and each.since <= on:
            for seen in practical.body["points"]:
                if seen["seen"] == "not yet" and seen["point"] in each.unless_missed:
                    return False
    return True


def as_known_on(content: Content, on: date) -> Content:
    """Return the content without what editions ask for that are not in force yet: they speak from their day."""
    known = {
        name: replace(t, editions=tuple(e if e.since <= on else replace(e, unless_missed=()) for e in t.editions))
        for name, t in content.techniques.items()
    }
    return replace(content, techniques=known)
