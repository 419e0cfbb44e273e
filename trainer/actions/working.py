"""Supervised shifts: worked at a station beside a cleared cook, written down by an assessor."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from trainer.actions.covering import planned_on
from trainer.actions.entitling import with_entitlement
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save
from trainer.kitchen.book import NewEntry
from trainer.kitchen.clearance import clearance_of
from trainer.kitchen.entitlement import Snapshot, may_sign_at
from trainer.kitchen.names import name_key
from trainer.kitchen.services import HouseServices, day_served
from trainer.kitchen.spans import in_words
from trainer.kitchen.week import earliest_of
from trainer.messages import joined, message

MOST_GUESTS = 10_000
DAYS_BACK = 1


@dataclass(frozen=True, slots=True)
class SupervisedShift:
    """A shift worked at a station beside a cleared cook; `sitting` is one of the house's services."""

    cook: str
    station: str
    worked_on: date
    beside: str
    guests: int
    sitting: str


def work_shift(k: Kitchen, *, by: str, shift: SupervisedShift, now: datetime, key: str) -> Outcome:
    """Return the saved `shift_worked`.

    By an assessor entitled at the station today, never about themselves; `beside` was on the roster and cleared there
    (or held the grant) on the day worked, and was on where a plan of that service is known. A day later than yesterday
    needs no manager; earlier days do. A service that cannot have begun yet is refused.
    """
    body = {
        "station": shift.station,
        "worked_on": shift.worked_on.isoformat(),
        "beside": shift.beside,
        "guests": shift.guests,
        "sitting": shift.sitting,
    }
    house, week = k.services, k.progress().nights.week(shift.worked_on, shift.worked_on, shift.worked_on)
    earliest = earliest_of(week, shift.worked_on, shift.sitting, house)
    own_time = now.astimezone(ZoneInfo(k.file.settings.timezone))
    on_then = tuple(one.cook for one in planned_on(k, shift.worked_on) if one.service == shift.sitting)
    with k.file.writing():
        return save(
            k,
            with_entitlement(k, NewEntry("shift_worked", now, shift.cook, by, body, key)),
            lambda day: (
                _refusal(by, shift, day, house)
                or _ahead(shift, own_time, earliest, house)
                or _not_planned(shift, on_then, day, house)
            ),
        )


def _refusal(by: str, shift: SupervisedShift, day: Snapshot, house: HouseServices) -> Refused | None:
    return (
        denied_by(may_sign_at(by, shift.cook, shift.station, day))
        or not_on_roster(shift.cook, day)
        or _wrong_day(by, shift, day)
        or _wrong_figures(shift, house)
        or _written_already(shift, day)
        or _no_station_then(shift, replace(day, on=shift.worked_on))
        or _not_beside(shift, replace(day, on=shift.worked_on))
        or _kept_away(shift, replace(day, on=shift.worked_on))
    )


def _wrong_day(by: str, shift: SupervisedShift, day: Snapshot) -> Refused | None:
    """Return what is wrong with the day worked: to come, or too long ago for anybody but a manager."""
    days = (day.on - shift.worked_on).days
    if days < 0:
        words = message("{day} is still to come. A shift is signed once it is worked.", day=in_words(shift.worked_on))
        return Refused(words, "", "worked_on")
    if days > DAYS_BACK and "manager" not in day.roles(by):
        return Refused(
            message("That was {days} days ago. A shift is signed by the end of the day after it.", days=days),
            message("An assessor who is a manager too can still write it down."),
            "worked_on",
        )
    return None


def _ahead(shift: SupervisedShift, own_time: datetime, earliest: time, house: HouseServices) -> Refused | None:
    """Return the refusal of a service that cannot have begun yet by the kitchen's own clock."""
    if (shift.worked_on, earliest) <= (own_time.date(), own_time.time()):
        return None
    words = message(
        "It is {now} here, and {sitting} begins no earlier than {earliest}. Sign the shift once it is worked.",
        now=f"{own_time:%H:%M}",
        sitting=house.word(shift.sitting),
        earliest=f"{earliest:%H:%M}",
    )
    served = day_served(own_time)
    if shift.worked_on == served:
        return Refused(words, "", "sitting")
    night = message("A service that ends after midnight belongs to the day before: {day}.", day=in_words(served))
    return Refused(words, night, "worked_on")


def _not_planned(
    shift: SupervisedShift, on_then: tuple[str, ...], day: Snapshot, house: HouseServices
) -> Refused | None:
    """Return the refusal of a person beside who was not on, where it is planned who was."""
    if not on_then or shift.beside in on_then:
        return None
    names = sorted({day.name(cook) for cook in on_then}, key=name_key)
    words = message(
        "{beside} is not planned for {sitting} on {day}. Planned: {names}.",
        beside=day.name(shift.beside),
        sitting=house.word(shift.sitting),
        day=in_words(shift.worked_on),
        names=joined(names, ", "),
    )
    return Refused(words, message("A manager puts the plan right with a shift file."), "beside")


def _wrong_figures(shift: SupervisedShift, house: HouseServices) -> Refused | None:
    if not 1 <= shift.guests <= MOST_GUESTS:
        words = message("{guests} guests: a shift has from 1 to {most}.", guests=shift.guests, most=MOST_GUESTS)
        return Refused(words, "", "guests")
    if house.find(shift.sitting) is None:
        words = message("“{service}”: there are {known}.", service=shift.sitting[:40], known=house.in_words())
        return Refused(words, "", "sitting")
    return None


def _written_already(shift: SupervisedShift, day: Snapshot) -> Refused | None:
    """Return the refusal of a shift that stands in the book: it counts once."""
    worked = day.progress.record(shift.cook).as_of(day.on).shifts
    same = (shift.station, shift.worked_on, shift.sitting)
    if any((line.station, line.worked_on, line.sitting) == same for line in worked):
        return Refused(message("That shift is written down already."), "", "sitting")
    return None


def _no_station_then(shift: SupervisedShift, then: Snapshot) -> Refused | None:
    """Return the refusal of a station that the standard of the day worked did not have yet."""
    if shift.station in then.rules.stations:
        return None
    return Refused(message("The standard in force that day has no such station."), "", "worked_on")


def _not_beside(shift: SupervisedShift, then: Snapshot) -> Refused | None:
    """Return why the cook beside does not do: it takes another person, cleared there on the day worked."""
    if shift.beside == shift.cook:
        words = message("{cook} works the shift: somebody else stands beside.", cook=then.name(shift.cook))
        return Refused(words, "", "beside")
    if not then.is_on_roster(shift.beside):
        words = message(
            "{beside} was not on the roster on {day}.", beside=then.name(shift.beside), day=in_words(then.on)
        )
        return Refused(words, "", "beside")
    station = then.rules.stations[shift.station]
    is_cleared = then.is_cleared(shift.beside, station) or then.has_grant(shift.beside, station.id)
    if is_cleared and not then.is_off(shift.beside, station):
        return None
    return Refused(
        message("{beside} was not cleared at {title} that day.", beside=then.name(shift.beside), title=station.name),
        "",
        "beside",
    )


def _kept_away(shift: SupervisedShift, then: Snapshot) -> Refused | None:
    """Return why the cook may not have stood there at all: too young, a paper missing, or stood down."""
    person = then.people.get(shift.cook)
    if person is None:
        return Refused(message("That person's name is erased."), "", "cook")
    found = clearance_of(person, then.rules.stations[shift.station], then.progress, then.content, then.on)
    if found.state in ("not allowed", "stood down"):
        return Refused(found.reason, "", "cook")
    return None
