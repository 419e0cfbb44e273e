"""Closing a service: as planned, or who stood elsewhere; what speaks against it is worked out, and explained."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import save, validate_text
from trainer.kitchen.authority import ASSESSOR
from trainer.kitchen.book import LOCAL, THE_BOOK, NewEntry
from trainer.kitchen.disparities import NO_STATION, NOT_ON_BOARD, StateOf, disparities, disparity_word
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.nights import Disparity, Place, ServiceStood, place_told
from trainer.kitchen.proof import Proof
from trainer.kitchen.services import HouseServices
from trainer.kitchen.spans import in_words
from trainer.kitchen.week import Need
from trainer.messages import Text, joined, message

MOST_DAYS_BACK, MOST_GUESTS = 31, 10_000


@dataclass(frozen=True, slots=True)
class Closing:
    """A service of a day to close: as planned, or with who stood where; the reasons for what speaks against it.

    `reasons` are by cook, station and state, as `Disparity` has them; of one the plan gives a reason for, that stands.
    """

    day: date
    service: str
    as_planned: bool
    stood: tuple[Place, ...] = ()
    guests: int | None = None
    reasons: Mapping[tuple[str, str, str], str] = field(default_factory=dict)


def close_service(k: Kitchen, *, by: str, closing: Closing, now: datetime, key: str) -> Outcome:
    """Return the saved `service_stood`, by an assessor or a manager.

    As planned it needs a published plan, and no proof. A service to come, or closed already, is refused; whatever
    speaks against who stood is no refusal, but is written down with a reason each.
    """
    own_time = now.astimezone(ZoneInfo(k.file.settings.timezone))
    with k.file.writing():
        today = k.today(k.moment(now))
        wrong = _not_yet(k, closing, own_time) or _long_ago(closing, today)
        if wrong:
            return wrong
        stood = planned_places(k, closing.day, closing.service, today) if closing.as_planned else closing.stood
        found = with_reasons(k, closing, against(k, closing.day, closing.service, stood), today)
        deed = NewEntry("service_stood", now, THE_BOOK, by, _body(by, closing, stood, found, now), key, closing.day)
        return save(
            k,
            deed,
            lambda day: (
                _may_not(by, day)
                or _closed_already(k, closing, day)
                or _nobody(closing, stood, k.services)
                or _refusal(closing, stood, found, day)
            ),
        )


def planned_places(k: Kitchen, day: date, service: str, today: date) -> tuple[Place, ...]:
    """Return who is planned at a service by the plan of the day; nobody where none is published."""
    plan = k.progress().nights.plan(day, today, today)
    return tuple(one for one in plan.places if (one.day, one.service) == (day, service)) if plan else ()


def closed_before(k: Kitchen, day: date, service: str, today: date) -> ServiceStood | None:
    """Return a service of a day as it was closed; None where nobody closed it."""
    return k.progress().nights.closings(today, today).get((day, service))


def against(k: Kitchen, day: date, service: str, stood: Sequence[Place]) -> tuple[Disparity, ...]:
    """Return what speaks against who stood where, by the board of that day."""
    week = k.progress().nights.week(day, day, day)
    needs: tuple[Need, ...] | None = week.needs(day, service) if week else ()
    return disparities(stood, board_states(k, day), needs)


def board_states(k: Kitchen, day: date) -> StateOf:
    """Return what the board of a day says of a cook at a station."""
    board = k.board(day)
    stations = {station.id for station in board.stations}
    cells = {(row.cook.id, one.station): one.state for row in board.rows for one in row.clearances}

    def state_of(cook: str, station: str) -> str:
        """Return the board's word, or which part of the cell the board does not have."""
        return cells.get((cook, station), NO_STATION if station not in stations else NOT_ON_BOARD)

    return state_of


def with_reasons(k: Kitchen, closing: Closing, found: Sequence[Disparity], today: date) -> tuple[Disparity, ...]:
    """Return the disparities with the reasons given now, or else with those the plan gives; "" where there is none."""
    plan = k.progress().nights.plan(closing.day, today, today)
    planned = {
        (place.cook, place.station): reason
        for place, reason in (plan.despite.items() if plan else ())
        if (place.day, place.service) == (closing.day, closing.service)
    }
    return tuple(
        one._replace(reason=(closing.reasons.get(one[:3], "") or planned.get((one.cook, one.station), "")).strip())
        for one in found
    )


def _body(
    by: str, closing: Closing, stood: Sequence[Place], found: Sequence[Disparity], now: datetime
) -> dict[str, Any]:
    proof = Proof("local", now, LOCAL).body() if by == LOCAL and not closing.as_planned else None
    return {
        "service": closing.service,
        "as_planned": closing.as_planned,
        "stood": [place_told(place, dated=False) for place in stood],
        "disparities": [one._asdict() for one in found],
        "guests": closing.guests,
        "proof": proof,
    }


def _refusal(closing: Closing, stood: Sequence[Place], found: Sequence[Disparity], day: Snapshot) -> Refused | None:
    return (
        _wrong_guests(closing) or next(_wrong_places(closing, stood, day), None) or next(_no_reason(found, day), None)
    )


def _may_not(by: str, day: Snapshot) -> Refused | None:
    if by == LOCAL or day.roles(by) & {ASSESSOR, "manager"}:
        return None
    words = message("{name} is neither assessor nor manager.", name=day.name(by))
    return Refused(words, message("An assessor or a manager closes a service."))


def _not_yet(k: Kitchen, closing: Closing, own_time: datetime) -> Refused | None:
    """Return the refusal of a service there is not, or that has not begun by the kitchen's own clock.

    Where the house has set no hours for it, one that cannot have begun.
    """
    if k.services.find(closing.service) is None:
        words = message("“{service}”: there are {known}.", service=closing.service[:40], known=k.services.in_words())
        return Refused(words, "", "service")
    opens = _opens(k, closing)
    if (closing.day, opens) <= (own_time.date(), own_time.time()):
        return None
    words = message(
        "{service} on {day} is still to come: it begins no earlier than {earliest}.",
        service=k.services.word(closing.service),
        day=in_words(closing.day),
        earliest=f"{opens:%H:%M}",
    )
    return Refused(words, message("A service is closed once it is over."), "day")


def _opens(k: Kitchen, closing: Closing) -> time:
    week = k.progress().nights.week(closing.day, closing.day, closing.day)
    hours = week.hours(closing.day, closing.service) if week else None
    return hours.opens if hours else k.services.earliest(closing.service)


def _long_ago(closing: Closing, today: date) -> Refused | None:
    if today - closing.day <= timedelta(days=MOST_DAYS_BACK):
        return None
    words = message(
        "{day} was {days} days ago. A service is closed within {most} days.",
        day=in_words(closing.day),
        days=(today - closing.day).days,
        most=MOST_DAYS_BACK,
    )
    return Refused(words, "", "day")


def _closed_already(k: Kitchen, closing: Closing, day: Snapshot) -> Refused | None:
    """Return the refusal of a service that is closed: its entry is voided first, then it is closed again."""
    there = closed_before(k, closing.day, closing.service, day.on)
    if there is None:
        return None
    entry = k.file.book.find(there.entry)
    words = message(
        "{service} on {day} is closed already, in entry {seq} by {name}.",
        service=k.services.word(closing.service),
        day=in_words(closing.day),
        seq=entry.seq if entry else there.entry,
        name=day.name(there.by),
    )
    return Refused(words, message("To put it right, void that entry, then close the service again."), "service")


def _nobody(closing: Closing, stood: Sequence[Place], house: HouseServices) -> Refused | None:
    if stood:
        return None
    if not closing.as_planned:
        return Refused(message("Nobody stood anywhere: name who stood where."), "", "stood")
    words = message(
        "No plan is published for {service} on {day}.",
        service=house.word(closing.service),
        day=in_words(closing.day),
    )
    return Refused(words, message("Name who stood where."), "service")


def _wrong_guests(closing: Closing) -> Refused | None:
    if closing.guests is None or 0 <= closing.guests <= MOST_GUESTS:
        return None
    words = message("{guests} guests: a service has {most} at most.", guests=closing.guests, most=MOST_GUESTS)
    return Refused(words, "", "guests")


def _wrong_places(closing: Closing, stood: Sequence[Place], day: Snapshot) -> Iterator[Refused]:
    """Yield what no service can have: unknown people, a place twice, somebody beside who did not run that station."""
    runs = {(place.cook, place.station) for place in stood if place.runs}
    seen: set[tuple[str, str]] = set()
    for place in stood:
        if not day.progress.record(place.cook).roster:
            yield Refused(message("There is no cook “{cook}”.", cook=place.cook[:40]), "", "stood")
        if place.station not in day.rules.stations and not closing.as_planned:
            known = joined(day.rules.stations, ", ")
            words = message("There is no station “{station}”. There are: {known}.", station=place.station, known=known)
            yield Refused(words, "", "stood")
        if (place.cook, place.station) in seen:
            words = message("{cook} stands at {station} twice.", cook=day.name(place.cook), station=place.station)
            yield Refused(words, "", "stood")
        seen.add((place.cook, place.station))
        if place.beside and (place.runs or (place.beside, place.station) not in runs or place.beside == place.cook):
            words = message(
                "{beside} did not run {station}, so nobody trailed beside them.",
                beside=day.name(place.beside),
                station=place.station,
            )
            yield Refused(words, "", "stood")


def _no_reason(found: Sequence[Disparity], day: Snapshot) -> Iterator[Refused]:
    """Yield each disparity without a reason, or with one that cannot be kept."""
    for one in found:
        if not one.reason:
            words = message("{what}: {state}.", what=_what(one, day), state=disparity_word(one.state))
            yield Refused(words, message("Write the reason. It stays in the book."), "reasons")
        wrong = validate_text(one.reason, "reason")
        if wrong:
            yield Refused(wrong.reason, "", "reasons")


def _what(one: Disparity, day: Snapshot) -> Text:
    if not one.cook:
        return message("The service itself")
    station = day.content.stations.get(one.station)
    return f"{day.name(one.cook)}, {station.title if station else one.station}"
