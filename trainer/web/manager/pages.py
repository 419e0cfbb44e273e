"""The manager's people and stations; acts, roster, devices and the book are in modules of their own."""

from __future__ import annotations

import importlib
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, Response, abort, url_for

from trainer.actions.coming import stations_ahead
from trainer.actions.open_kitchen import Board, Kitchen
from trainer.actions.sitting import sits_again_from
from trainer.kitchen.birth_dates import held_up_at
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.names import name_key
from trainer.kitchen.practice import practice_rule
from trainer.kitchen.progress import Person
from trainer.kitchen.record import CookRecord
from trainer.kitchen.roles import roles_in_words
from trainer.kitchen.technique import CertificateAsked, Practice, Station
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import moment, weekday
from trainer.web.forms import PlainForm
from trainer.web.manager import acts
from trainer.web.manager.coming_view import ComingDays, coming_view
from trainer.web.manager.person_stations import StationStanding, at_station
from trainer.web.page import Page, show
from trainer.web.result_view import teacher_lines

pages = Blueprint("manager", __name__)
PARTS = (
    "acts",
    "authority",
    "book",
    "by_hand",
    "codes",
    "contested",
    "devices",
    "first_hour",
    "identity",
    "kitchen_settings",
    "known_before",
    "left",
    "roster",
    "second",
    "security",
    "standard",
    "limits",
)
"""The other modules of the room, whose pages hang on this one."""
for part in PARTS:
    pages.register_blueprint(importlib.import_module(f"trainer.web.manager.{part}").pages)


@dataclass(frozen=True, slots=True)
class PersonRow:
    """One person on the list: roles, and at how many stations they are cleared."""

    href: str
    name: str
    roles: Text
    cleared: Text


@dataclass(frozen=True, slots=True)
class NoBirthDate:
    """A person barred from stations for lack of a birth date alone."""

    href: str
    name: str
    stations: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PaperShown:
    """A certificate as shown, and until when it is good."""

    title: Text
    days: Text


@dataclass(frozen=True, slots=True)
class GrantHeld:
    """A station opened to this assessor."""

    title: str
    until: Text


@dataclass(frozen=True, slots=True)
class RetryWait:
    """A quiz a person failed: from when it may be sat again, and where the wait is lifted (not one's own)."""

    title: str
    first: Text
    href: str


@dataclass(frozen=True, slots=True)
class Stopped:
    """A stop for safety that stands, who signed it, and where it is released (not one's own)."""

    words: Text
    signed: Text
    href: str


@dataclass(frozen=True, slots=True)
class StationRequirements:
    """What one station asks for, in words, and who is cleared there today; `own` leaves out what every station asks."""

    id: str
    title: str
    own: tuple[str, ...]
    certificates: tuple[Text, ...]
    age: Text
    shifts: Text
    practice: Text
    warn: Text
    cleared: Text
    names: tuple[str, ...]
    coming: ComingDays | None


@dataclass(frozen=True, kw_only=True)
class PeoplePage(Page):
    """Everybody on the roster today."""

    template: ClassVar[str] = "manager/people.html"
    people: tuple[PersonRow, ...]
    no_birth_date: tuple[NoBirthDate, ...]
    roster_url: str
    is_manager: bool


@dataclass(frozen=True, kw_only=True)
class PersonPage(Page):
    """One person: roles, standing at every station, papers, and what a manager may do."""

    template: ClassVar[str] = "manager/person.html"
    cook: str
    name: str
    roles: Text
    is_here: bool
    is_assessor: bool
    is_me: bool
    is_manager: bool
    stations: tuple[StationStanding, ...]
    stops: tuple[Stopped, ...]
    papers: tuple[PaperShown, ...]
    grants: tuple[GrantHeld, ...]
    methods: tuple[Text, ...]
    waits: tuple[RetryWait, ...]
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class StationsPage(Page):
    """What every station asks for: what they share once, then what is each one's own."""

    template: ClassVar[str] = "manager/stations.html"
    stations: tuple[StationRequirements, ...]
    shared: tuple[str, ...]
    code: str


@pages.get("/cooks")
@guard.needs("assessor or manager")
def people() -> Response:
    """Show everybody on the roster, by name, those too who work no station."""
    k, today = guard.kitchen(), guard.today()
    board = k.board(today)
    at_stations = {row.cook.id: row.clearances for row in board.rows}
    known = k.people()
    found = [_one_of_us(known[c], at_stations.get(c, ())) for c in k.progress().cooks_on(today) if c in known]
    named = tuple(sorted(found, key=lambda one: name_key(one.name)))
    page = PeoplePage(
        title=message("People"),
        people=named,
        no_birth_date=_no_birth_dates(board) if guard.is_manager() else (),
        roster_url=url_for("manager.roster.upload"),
        is_manager=guard.is_manager(),
    )
    return show(page)


def _no_birth_dates(board: Board) -> tuple[NoBirthDate, ...]:
    """Return who of the board is barred somewhere only because no birth date is on record."""
    titles = {key: station.title for key, station in reading.content().stations.items()}
    found = ((row.cook, held_up_at(row.clearances)) for row in board.rows)
    return tuple(
        NoBirthDate(
            url_for("manager.identity.age", cook=cook.id), cook.name, tuple(titles.get(name, name) for name in stations)
        )
        for cook, stations in found
        if stations
    )


@pages.get("/cooks/<cook>")
@guard.needs("assessor or manager")
def person(cook: str) -> Response:
    """Show one person."""
    k, today = guard.kitchen(), guard.today()
    who = k.people().get(cook)
    if who is None:
        abort(404)
    roles = k.progress().roles(cook, today)
    record = k.progress().record(cook).as_of(today)
    return show(
        PersonPage(
            title=who.name,
            cook=cook,
            name=who.name,
            roles=roles_in_words(sorted(roles)) or message("none"),
            is_here=bool(roles),
            is_assessor="assessor" in roles,
            is_me=cook == guard.person().id,
            is_manager=guard.is_manager(),
            stations=tuple(at_station(k, who, station, today) for station in reading.content().stations.values()),
            stops=_stops(k, who),
            papers=_papers(k, record),
            grants=_grants(k, cook, today),
            methods=tuple(
                message("{technique}: {words}", technique=technique.title, words=words)
                for technique in reading.content().techniques.values()
                for words in teacher_lines(cook, technique.id)
            ),
            waits=_waits(k, cook, today) if roles else (),
            form=PlainForm(is_fresh=True),
        )
    )


@pages.get("/stations")
@guard.needs("assessor or manager")
def stations() -> Response:
    """Show what every station asks for, and who is cleared there."""
    k, content = guard.kitchen(), reading.content()
    board = k.board(guard.today())
    cleared = {
        station.id: tuple(row.cook.name for row in board.rows for c in row.clearances if _runs(c, station))
        for station in board.stations
    }
    shared = _shared(tuple(content.stations.values()))
    naming = Naming(k.people(), content)
    ahead = {one.station: coming_view(one, naming.station(one.station), naming) for one in stations_ahead(k, board.on)}
    return show(
        StationsPage(
            title=message("Stations"),
            stations=tuple(
                _asks(s, naming, cleared.get(s.id, ()), shared, ahead.get(s.id)) for s in content.stations.values()
            ),
            shared=tuple(content.techniques[technique].title for technique in shared),
            code=f"{content.code.title}, {content.code.edition}",
        )
    )


def _runs(clearance: Clearance, station: Station) -> bool:
    """Return whether this is a clearance for the station that lets a person run it."""
    return clearance.station == station.id and clearance.is_cleared


def _shared(stations: tuple[Station, ...]) -> tuple[str, ...]:
    """Return the techniques every station asks for, where there is more than one station."""
    if len(stations) < 2:
        return ()
    return tuple(name for name in stations[0].techniques if all(name in one.techniques for one in stations))


def _one_of_us(who: Person, clearances: tuple[Clearance, ...]) -> PersonRow:
    """Return a person's line on the list."""
    cleared = sum(clearance.is_cleared for clearance in clearances)
    roles = guard.kitchen().progress().roles(who.id, guard.today())
    return PersonRow(
        href=url_for("manager.person", cook=who.id),
        name=who.name,
        roles=roles_in_words(sorted(roles)),
        cleared=plural(
            "{cleared} of {number} station", "{cleared} of {number} stations", len(clearances), cleared=cleared
        )
        if clearances
        else message("works no station"),
    )


def _stops(k: Kitchen, who: Person) -> tuple[Stopped, ...]:
    """Return a person's stops that stand."""
    naming, is_me = Naming(k.people(), reading.content()), who.id == guard.person().id
    return tuple(
        Stopped(
            words=words,
            signed=message("Signed {name}, {when}", name=naming.person(line.by), when=moment(line.at)),
            href="" if is_me or not guard.is_manager() else url_for(".acts.release_stop", cook=who.id, stop=line.entry),
        )
        for line, words in acts.stops_in_words(who, reading.content())
    )


def _papers(k: Kitchen, record: CookRecord) -> tuple[PaperShown, ...]:
    """Return the certificates shown, newest first."""
    naming = Naming(k.people(), reading.content())
    return tuple(
        PaperShown(
            naming.certificate(shown.certificate),
            message(
                "Issued {issued}, good to {until}",
                issued=weekday(shown.issued),
                until=weekday(shown.expires) if shown.expires else message("no end"),
            ),
        )
        for shown in reversed(record.shown)
    )


def _waits(k: Kitchen, cook: str, today: date) -> tuple[RetryWait, ...]:
    """Return the quizzes a person may not sit again yet."""
    techniques, day = reading.content().techniques.values(), k.day(today)
    found = ((technique, sits_again_from(cook, technique.id, day)) for technique in techniques)
    may_lift = guard.is_manager() and cook != guard.person().id
    return tuple(
        RetryWait(
            title=technique.title,
            first=weekday(first),
            href=url_for(".acts.lift_wait", cook=cook, technique=technique.id) if may_lift else "",
        )
        for technique, first in found
        if first is not None
    )


def _grants(k: Kitchen, cook: str, today: date) -> tuple[GrantHeld, ...]:
    """Return the stations opened to this assessor and still open."""
    naming = Naming(k.people(), reading.content())
    return tuple(GrantHeld(naming.station(one.station), weekday(one.until)) for one in k.day(today).grants(cook))


def _paper_asked(asked: CertificateAsked) -> Text:
    """Return a paper a station asks for, with all that is asked of it."""
    bars = [message("nobody works here without it")] if asked.bars else []
    longest = plural(
        "counts {number} year from its issue at the most",
        "counts {number} years from its issue at the most",
        asked.most_years,
    )
    grace = plural("{number} day of grace after its end", "{number} days of grace after its end", asked.grace_days)
    first = plural("shown within {number} day of joining", "shown within {number} days of joining", asked.within_days)
    bounds = ((longest, asked.most_years), (grace, asked.grace_days), (first, asked.within_days))
    told = [*bars, *(words for words, days in bounds if days)]
    return message("{paper} ({told})", paper=asked.title, told=joined(told, ", ")) if told else asked.title


def _practice_asked(asked: Practice) -> Text:
    """Return how often a station is worked to stay cleared, and how somebody away longer comes back."""
    back = plural("{number} supervised shift", "{number} supervised shifts", asked.return_shifts)
    return message(
        "Practice: {rule}; to come back {shifts} within {days} days.",
        rule=practice_rule(asked),
        shifts=back,
        days=asked.return_days,
    )


def _asks(
    station: Station, naming: Naming, cleared: tuple[str, ...], shared: tuple[str, ...], coming: ComingDays | None
) -> StationRequirements:
    """Return what a station asks for, in words."""
    age = (
        message(
            "{minimum_age} years or more. {age_reason}", minimum_age=station.minimum_age, age_reason=station.age_reason
        )
        if station.minimum_age
        else ""
    )
    return StationRequirements(
        id=station.id,
        title=station.title,
        own=tuple(naming.technique(technique) for technique in station.techniques if technique not in shared),
        certificates=tuple(map(_paper_asked, station.certificates)),
        age=age,
        shifts=plural("{number} supervised shift", "{number} supervised shifts", station.supervised_shifts)
        if station.supervised_shifts
        else "",
        practice=_practice_asked(station.practice) if station.practice else "",
        warn=plural(
            "Due again shows {number} day before the last good day.",
            "Due again shows {number} days before the last good day.",
            station.warn_days,
        ),
        cleared=plural("{number} cook cleared today", "{number} cooks cleared today", len(cleared))
        if cleared
        else message("No one cleared"),
        names=tuple(sorted(cleared, key=name_key)),
        coming=coming,
    )
