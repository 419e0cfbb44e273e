"""What an inspector asks of one service: who is in charge, with which papers, who read the notice on illness.

FDA Food Code 2022 asks for a person in charge at all hours (2-101.11) who is a certified food protection manager
(2-102.12(A)), for staff trained in food safety, allergens among it, and for a verifiable notice of what to report of
one's health (2-103.11(N) and (O); 2-201.11). Paragraphs from memory; the house's local code decides.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from trainer.actions.covering import planned_on, service_to_show
from trainer.actions.open_kitchen import Board, Kitchen
from trainer.actions.swapping import in_charge_of
from trainer.kitchen.certificates import FOOD_PROTECTION_MANAGER, PaperStanding, certificate_title, paper_standing
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.names import name_key
from trainer.kitchen.notices import HEALTH_REPORTING, edition_known, read_of
from trainer.kitchen.record import NoticeRead, Watched
from trainer.kitchen.requirements import practical
from trainer.kitchen.roles import works_a_station
from trainer.kitchen.services import Service
from trainer.kitchen.technique import CertificateAsked, Content
from trainer.kitchen.week import hours_of
from trainer.messages import Text

ALLERGENS = "allergens"
"""The technique whose sign-off shows that somebody is trained in allergens."""


@dataclass(frozen=True, slots=True)
class PaperOnSheet:
    """A paper, how it stands on the day, and its number as it was kept."""

    title: Text
    standing: PaperStanding
    number: str


@dataclass(frozen=True, slots=True)
class AllergenTraining:
    """How somebody stands with the technique on allergens: signed when and by whom, or known from before.

    `until` is the last day it counts, None without an end.
    """

    signed: Watched | None
    until: date | None


@dataclass(frozen=True, slots=True)
class Place:
    """A station somebody stands at; `runs` None where the plan does not say it."""

    station: str
    runs: bool | None
    is_cleared: bool


@dataclass(frozen=True, slots=True)
class PersonOnSheet:
    """One person of the service, with what the book says of them; `cleared` are ids of stations.

    `works` says that they stand at stations at all, as a manager who is nothing else does not.
    """

    cook: str
    name: str
    in_charge: bool
    works: bool
    places: tuple[Place, ...]
    cleared: tuple[str, ...]
    manager_paper: PaperOnSheet
    papers: tuple[PaperOnSheet, ...]
    notice: NoticeRead | None
    allergens: AllergenTraining | None

    @property
    def shown(self) -> tuple[PaperOnSheet, ...]:
        """Return every paper there is something to say of: those asked for, and the manager's where it was shown."""
        own = (self.manager_paper,) if self.in_charge or self.manager_paper.standing.state != "none" else ()
        return (*own, *self.papers)


@dataclass(frozen=True, slots=True)
class InspectionSheet:
    """One service of a day as an inspector asks about it; everything as the book said on that day.

    `stood` is whether the service was closed, so that those listed are who stood; `service` None is the whole roster,
    where nothing is planned. `head` is the check value of the book as the sheet was made.
    """

    kitchen: str
    zone: str
    at: datetime
    on: date
    service: Service | None
    services: tuple[Service, ...]
    stood: bool
    charge: PersonOnSheet | None
    people: tuple[PersonOnSheet, ...]
    stations: tuple[str, ...]
    notice_edition: int
    allergens_taught: bool
    content: Content
    head: str

    def station(self, station: str) -> str:
        """Return a station's title; its id where it is not there any more."""
        found = self.content.stations.get(station)
        return found.title if found else station

    def cleared_at(self, station: str) -> tuple[PersonOnSheet, ...]:
        """Return who of those listed is cleared at a station."""
        return tuple(one for one in self.people if station in one.cleared)


def inspection(
    k: Kitchen, *, on: date, now: datetime, service: str = "", told_in: Content | None = None
) -> InspectionSheet:
    """Return the sheet of a service: the one named, else the one that runs or the last of the day."""
    shown, day_on = _shown(k, on, now, service)
    day, board = k.day(day_on), k.board(day_on)
    closing = k.progress().nights.closings(day_on, day_on).get((day_on, shown.id)) if shown else None
    places = _places(k, day, shown, [(p.cook, p.station, p.runs) for p in closing.stood] if closing else None)
    content = told_in or k.content
    edition = _edition(k, day, day_on == k.today(now))
    charge = in_charge_of(k, day_on)
    listed = _listed(day, places, charge)
    asked = _Asked(k, day, board, content, places, charge, edition)
    people = tuple(asked.person(cook) for cook in listed)
    return InspectionSheet(
        k.file.settings.name, k.file.settings.timezone, now, day_on, shown, _services(k, day_on), closing is not None,
        next((one for one in people if one.in_charge), None), people, tuple(one.id for one in board.stations),
        edition, ALLERGENS in day.rules.techniques, content, k.file.book.head().short,
    )  # fmt: skip


def _shown(k: Kitchen, on: date, now: datetime, wanted: str) -> tuple[Service | None, date]:
    """Return which service is on the sheet, and of which day: after midnight the one that still runs."""
    local = now.astimezone(ZoneInfo(k.file.settings.timezone))
    held = _services(k, on)
    named = next((one for one in held if one.id == wanted), None)
    if named or on != k.today(now):
        return named or next(reversed(held), None), on
    running, _ = service_to_show(k, on, local)
    if running is not None and running.on < on:
        return running.service, running.on
    week = k.progress().nights.week(on, on, on)
    closes: dict[str, datetime] = {one.id: hours_of(week, on, one.id, k.services)[1] for one in held}
    return k.services.at(closes, local.replace(tzinfo=None)), on


def _services(k: Kitchen, on: date) -> tuple[Service, ...]:
    """Return the services of a day that were planned or closed."""
    closed = {service for day, service in k.progress().nights.closings(on, on) if day == on}
    return k.services.among(closed | {one.service for one in planned_on(k, on)})


def _places(
    k: Kitchen, day: Snapshot, service: Service | None, stood: Sequence[tuple[str, str, bool | None]] | None
) -> dict[str, tuple[Place, ...]]:
    """Return where each person stands: as the service was closed, else as it is planned."""
    if service is None:
        return {}
    lines = stood if stood is not None else _planned(k, day.on, service)
    found: dict[str, tuple[Place, ...]] = {}
    for cook, station, runs in lines:
        rule = day.rules.stations.get(station)
        is_cleared = rule is not None and day.is_cleared(cook, rule)
        found[cook] = (*found.get(cook, ()), Place(station, runs, is_cleared))
    return found


def _planned(k: Kitchen, on: date, service: Service) -> list[tuple[str, str, bool | None]]:
    plan = k.progress().nights.plan(on, on, on)
    if plan is not None:
        return [(p.cook, p.station, p.runs) for p in plan.places if (p.day, p.service) == (on, service.id)]
    return [(one.cook, one.station, None) for one in planned_on(k, on) if one.service == service.id]


def _listed(day: Snapshot, places: Iterable[str], charge: str) -> list[str]:
    """Return who is on the sheet: whoever is in charge, then those of the service, or all on the roster with none."""
    rest = list(places) or [cook for cook in day.cooks() if works_a_station(day.roles(cook))]
    return list(
        dict.fromkeys([*([charge] if charge else []), *sorted(rest, key=lambda cook: name_key(day.name(cook)))])
    )


def _edition(k: Kitchen, day: Snapshot, is_today: bool) -> int:
    """Return the edition of the notice that is asked for: today's, and of a past day the one the book knew."""
    known = edition_known(map(k.progress().record, day.people), HEALTH_REPORTING.id, day.on)
    return max(known, HEALTH_REPORTING.edition) if is_today else known


@dataclass(frozen=True, slots=True)
class _Asked:
    """What a person's line is worked out from."""

    k: Kitchen
    day: Snapshot
    board: Board
    content: Content
    places: dict[str, tuple[Place, ...]]
    charge: str
    edition: int

    def person(self, cook: str) -> PersonOnSheet:
        """Return the line of one person."""
        record, places = self.day.record(cook), self.places.get(cook, ())
        row = next((one for one in self.board.rows if one.cook.id == cook), None)
        cleared = tuple(one.station for one in row.clearances if one.is_cleared) if row else ()
        return PersonOnSheet(
            cook=cook,
            name=self.day.name(cook),
            in_charge=cook == self.charge,
            works=works_a_station(self.day.roles(cook)),
            places=places,
            cleared=cleared,
            manager_paper=self._paper(cook, self._asked_as(FOOD_PROTECTION_MANAGER)),
            papers=tuple(self._paper(cook, one) for one in self._papers_asked([p.station for p in places] or cleared)),
            notice=read_of(record, HEALTH_REPORTING.id, self.edition),
            allergens=self._allergens(cook),
        )

    def _papers_asked(self, stations: Iterable[str]) -> list[CertificateAsked]:
        """Return the papers the stations ask for, each once, but for the manager's own."""
        rules = self.day.rules.stations
        asked = [one for name in stations if name in rules for one in rules[name].certificates]
        return [*{one.id: one for one in asked if one.id != FOOD_PROTECTION_MANAGER.id}.values()]

    def _asked_as(self, paper: CertificateAsked) -> CertificateAsked:
        """Return a paper as a station of the day asks for it, with its years and grace; else as it is."""
        rules = self.day.rules.stations.values()
        return next((one for station in rules for one in station.certificates if one.id == paper.id), paper)

    def _paper(self, cook: str, asked: CertificateAsked) -> PaperOnSheet:
        found = paper_standing(self.day.record(cook), asked, self.day.on)
        entry = self.k.file.book.find(found.entry) if found.entry else None
        title = certificate_title(self.content, asked.id)
        return PaperOnSheet(title, found, str(entry.body["number"]) if entry else "")

    def _allergens(self, cook: str) -> AllergenTraining | None:
        """Return the training in allergens that counts on the day; None where there is none."""
        taught = self.day.rules.techniques.get(ALLERGENS)
        if taught is None:
            return None
        record = self.day.record(cook)
        held = practical(record, taught, self.day.on).held
        if held is None:
            return None
        signed = [line for line in record.watched if line.entry in held.proof]
        return AllergenTraining(signed[-1] if signed and not held.known else None, held.until)
