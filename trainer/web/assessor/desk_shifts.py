"""The supervised shifts a plan proposes, on the desk: a list shown whole, ticked, signed with one secret."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from flask import request
from wtforms import PasswordField

from trainer.actions.desk import ShiftsOf, shifts_to_sign
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.working import SupervisedShift
from trainer.kitchen.desk import Proposed
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import local, weekday
from trainer.web.forms import KitchenForm


class ShiftsForm(KitchenForm):
    """The one secret for the list; the ticks and the guests stand beside it."""

    secret = PasswordField(message("Your PIN or passphrase"))


@dataclass(frozen=True, slots=True)
class ShiftRow:
    """One shift: who, where, beside whom."""

    value: str
    words: Text
    is_ticked: bool


@dataclass(frozen=True, slots=True)
class ServiceShifts:
    """The shifts of one service, and its guests."""

    heading: Text
    rows: tuple[ShiftRow, ...]
    guests_name: str
    guests: str


@dataclass(frozen=True, slots=True)
class ShiftsList:
    """What is to be signed, and what comes into the list when a service that runs is over."""

    heading: Text
    services: tuple[ServiceShifts, ...]
    to_come: tuple[Text, ...]
    form: ShiftsForm


def shifts_list(k: Kitchen, form: ShiftsForm | None = None) -> ShiftsList:
    """Return the shifts the reader may sign, as they were ticked where the list was sent already."""
    now = local(guard.now()).replace(tzinfo=None)
    found = shifts_to_sign(k, by=guard.person().id, now=local(guard.now()))
    over, naming = [one for one in found if one.closes <= now], Naming(k.people(), reading.content())
    ticked = set(request.form.getlist("shift")) if form is not None else None
    number = sum(len(one.shifts) for one in over)
    last = min((one.day for one in over), default=None)
    return ShiftsList(
        heading=plural("{number} shift to sign", "{number} shifts to sign", number) if number else message("Shifts"),
        services=tuple(_service(one, naming, ticked) for one in over),
        to_come=tuple(_to_come(one, naming) for one in found if one.closes > now) if last or found else (),
        form=form or ShiftsForm(is_fresh=True),
    )


def chosen(k: Kitchen) -> list[SupervisedShift]:
    """Return the shifts ticked in the form, with the guests typed; only those that are on the list."""
    found = shifts_to_sign(k, by=guard.person().id, now=local(guard.now()))
    ticked = set(request.form.getlist("shift"))
    return [
        SupervisedShift(one.place.cook, one.place.station, service.day, one.beside, _guests(service), service.service)
        for service in found
        for one in service.shifts
        if _value(one) in ticked
    ]


def _guests(service: ShiftsOf) -> int:
    """Return the guests typed for a service; what is no number is none, and is refused with its rule."""
    typed = request.form.get(_guests_name(service), "").replace(" ", "")
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 7 else 0


def _guests_name(service: ShiftsOf) -> str:
    return f"guests-{service.day}-{service.service}"


def _value(one: Proposed) -> str:
    return ":".join((one.place.day.isoformat(), one.place.service, one.place.cook, one.place.station))


def _service(one: ShiftsOf, naming: Naming, ticked: Collection[str] | None) -> ServiceShifts:
    name = _guests_name(one)
    guests = request.form.get(name, "") if ticked is not None else str(one.guests or "")
    return ServiceShifts(
        heading=_heading(one.day, one.service),
        rows=tuple(_row(each, naming, ticked) for each in one.shifts),
        guests_name=name,
        guests=guests[:6],
    )


def _heading(day: date, service: str) -> Text:
    heading = guard.kitchen().services.heading(service)
    return joined([heading, message("today") if day == guard.today() else weekday(day)], ", ")


def _row(one: Proposed, naming: Naming, ticked: Collection[str] | None) -> ShiftRow:
    value = _value(one)
    return ShiftRow(value, _words(one, naming), ticked is None or value in ticked)


def _words(one: Proposed, naming: Naming) -> Text:
    return message(
        "{cook} beside {beside}, {station}",
        cook=naming.person(one.place.cook),
        beside=naming.person(one.beside),
        station=naming.station(one.place.station),
    )


def _to_come(one: ShiftsOf, naming: Naming) -> Text:
    """Return which shifts come into the list, and when."""
    return message(
        "{service} comes into the list at {time}: {shifts}.",
        service=_heading(one.day, one.service),
        time=_time(one.closes),
        shifts=joined([_words(each, naming) for each in one.shifts], "; "),
    )


def _time(value: datetime) -> str:
    return f"{value:%H:%M}"
