"""Closing a service: one tap where it stood as planned, else who stood where, and why for what speaks against it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField

from trainer.actions.closing import Closing, against, close_service, closed_before, planned_places, with_reasons
from trainer.actions.covering import days_planned, planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.kitchen.disparities import disparity_word
from trainer.kitchen.nights import Disparity, Place, place_told
from trainer.kitchen.services import day_served
from trainer.kitchen.week import earliest_of
from trainer.messages import Text, joined, message
from trainer.web import guard, proving, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import local, weekday
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.night.addresses import service_of_address
from trainer.web.night_words import place_words
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import WholeField

pages = Blueprint("close", __name__)
DAYS_LISTED = 7
MORE_ROWS = 3


class DifferedForm(KitchenForm):
    """How many guests there were, and the secret of whoever signs who stood where."""

    guests = WholeField(message("Guests"), description=message("Empty where nobody counted."))
    secret = PasswordField(message("Your PIN or passphrase"))


@dataclass(frozen=True, slots=True)
class ToClose:
    """One service nobody has closed yet, or what is said of one that was."""

    words: Text
    href: str


@dataclass(frozen=True, kw_only=True)
class ChoosePage(Page):
    """The services of the last days that nobody has closed."""

    template: ClassVar[str] = "night/choose.html"
    open_services: tuple[ToClose, ...]
    closed: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer of a list: its value, its words, whether it is the one chosen."""

    value: str
    words: Text
    is_chosen: bool


@dataclass(frozen=True, slots=True)
class Row:
    """One row of who stood where: the cook, the station (none: was not there), ran it or trailed."""

    number: int
    label: Text
    cooks: tuple[Choice, ...]
    stations: tuple[Choice, ...]
    ways: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Why:
    """One thing that speaks against a place, with the name of the field for its reason and what stands in it."""

    field: str
    words: Text
    reason: str


@dataclass(frozen=True, kw_only=True)
class ClosePage(Page):
    """One service to close: as planned, with what speaks against that; and the rows of who stood elsewhere."""

    template: ClassVar[str] = "night/close.html"
    heading: Text
    planned: tuple[Text, ...]
    planned_whys: tuple[Why, ...]
    plan_form: PlainForm
    own_url: str
    differed_url: str
    form: DifferedForm
    rows: tuple[Row, ...]
    whys: tuple[Why, ...]
    is_differing: bool


@pages.get("/services/close")
@guard.needs("assessor or manager")
def choose() -> AnyResponse:
    """Show the services of the last days that nobody has closed, the latest first."""
    k, now = guard.kitchen(), local(guard.now())
    last = day_served(now)
    closings = k.progress().nights.closings(guard.today(), guard.today())
    found = [
        (day, service)
        for day in reversed(days_planned(k, last - timedelta(days=DAYS_LISTED), last))
        for service in reversed(k.services.ids)
        if any(one.service == service for one in planned_on(k, day)) and _has_begun(k, day, service, now)
    ]
    return show(
        ChoosePage(
            title=message("Close a service"),
            open_services=tuple(
                ToClose(_heading(day, service), url_for(".close", day=day.isoformat(), service=service))
                for day, service in found
                if (day, service) not in closings
            ),
            closed=tuple(_heading(day, service) for day, service in found if (day, service) in closings),
        )
    )


@pages.route("/services/<day>/<service>/close", methods=["GET", "POST"])
@guard.needs("assessor or manager")
def close(day: str, service: str) -> AnyResponse:
    """Show a service and close it as planned."""
    on, held = service_of_address(day, service)
    k, form = guard.kitchen(), PlainForm()
    closing = Closing(on, held, as_planned=True, reasons=_reasons())
    if form.is_sent_right():
        outcome = close_service(k, by=guard.person().id, closing=closing, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".choose", saved=outcome.entry.id)
        form.refuse(outcome)
    return _shown(k, closing, form, DifferedForm(is_fresh=True))


@pages.post("/services/<day>/<service>/differed")
@guard.needs("assessor or manager")
def differed(day: str, service: str) -> AnyResponse:
    """Close a service with who stood where, as typed."""
    on, held = service_of_address(day, service)
    k, form = guard.kitchen(), DifferedForm()
    stood = tuple(_typed(on, held))
    is_right = form.is_sent_right()
    closing = Closing(on, held, as_planned=False, stood=stood, guests=form.guests.number, reasons=_reasons())
    if is_right and proving.is_proved(form):
        outcome = close_service(k, by=guard.person().id, closing=closing, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".choose", saved=outcome.entry.id)
        form.refuse(outcome)
    return _shown(k, closing, PlainForm(is_fresh=True), form)


def _reasons() -> dict[tuple[str, str, str], str]:
    """Return the reasons typed, by cook, station and state."""
    named = ((name.split(":"), text) for name, text in request.form.items() if name.startswith("why:"))
    return {(parts[1], parts[2], parts[3]): text for parts, text in named if len(parts) == 4}


def _typed(on: date, service: str) -> Iterator[Place]:
    """Yield who stood where, row by row as typed; a row without a cook or a station is nobody."""
    for number in range(200):
        cook = request.form.get(f"cook-{number}")
        if cook is None:
            return
        station, way = request.form.get(f"station-{number}", ""), request.form.get(f"way-{number}", "")
        if cook and station:
            yield Place(on, service, cook[:64], station[:64], way != "trails")


def _shown(k: Kitchen, closing: Closing, plan_form: PlainForm, form: DifferedForm) -> AnyResponse:
    naming, today = Naming(k.people(), reading.content()), guard.today()
    planned = planned_places(k, closing.day, closing.service, today)
    as_planned = Closing(closing.day, closing.service, as_planned=True, reasons=closing.reasons)
    heading = _heading(closing.day, closing.service)
    there = closed_before(k, closing.day, closing.service, today)
    if there is not None and not (plan_form.problems() or form.problems()):
        plan_form.refuse(message("This service is closed already. To put it right, void that entry first."))
    return show(
        ClosePage(
            title=message("Close {service}", service=heading),
            heading=heading,
            planned=tuple(place_words(place_told(one, dated=False), naming) for one in planned),
            planned_whys=_whys(k, as_planned, planned, naming, only_missing=True),
            plan_form=plan_form,
            own_url=url_for(".close", day=closing.day.isoformat(), service=closing.service),
            differed_url=url_for(".differed", day=closing.day.isoformat(), service=closing.service),
            form=form,
            rows=tuple(_rows(k, closing, planned or _from_rows(k, closing), naming)),
            whys=() if closing.as_planned else _whys(k, closing, closing.stood, naming),
            is_differing=not closing.as_planned or not planned,
        )
    )


def _whys(
    k: Kitchen, closing: Closing, stood: Sequence[Place], naming: Naming, *, only_missing: bool = False
) -> tuple[Why, ...]:
    """Return what speaks against who stood where; of what the plan gives a reason for only where it is asked anew."""
    found = with_reasons(k, closing, against(k, closing.day, closing.service, stood), guard.today())
    asked = (one for one in found if not only_missing or not one.reason or one[:3] in closing.reasons)
    return tuple(Why(f"why:{one.cook}:{one.station}:{one.state}", _why(one, naming), one.reason) for one in asked)


def _why(one: Disparity, naming: Naming) -> Text:
    if not one.cook:
        return disparity_word(one.state)
    return message(
        "{cook} at {station}: {state}",
        cook=naming.person(one.cook),
        station=naming.station(one.station),
        state=disparity_word(one.state),
    )


def _rows(k: Kitchen, closing: Closing, planned: Sequence[Place], naming: Naming) -> Iterator[Row]:
    """Yield the rows of who stood where: as typed, or as planned before anything is; and some empty ones."""
    cooks = k.day(guard.today()).cooks_by_name()
    filled = planned if closing.as_planned else closing.stood
    for number, place in enumerate([*filled, *[None] * MORE_ROWS]):
        cook, station = (place.cook, place.station) if place else ("", "")
        yield Row(
            number,
            message("Place {number}", number=number + 1),
            _choices({"": message("Nobody"), **{one: naming.person(one) for one in (*cooks, cook) if one}}, cook),
            _choices({"": message("was not there"), **_stations(station, naming)}, station),
            _choices(
                {"runs": message("ran it"), "trails": message("trailed")},
                "trails" if place and not place.runs else "runs",
            ),
        )


def _from_rows(k: Kitchen, closing: Closing) -> tuple[Place, ...]:
    """Return the planned rows of a service no plan is published for, to begin with what is likely."""
    rows = (one for one in planned_on(k, closing.day) if one.service == closing.service)
    return tuple(Place(closing.day, closing.service, one.cook, one.station, runs=True) for one in rows)


def _stations(station: str, naming: Naming) -> dict[str, Text]:
    ids: Iterable[str] = (*naming.content.stations, station)
    return {one: naming.station(one) for one in ids if one}


def _choices(words: dict[str, Text], chosen: str) -> tuple[Choice, ...]:
    return tuple(Choice(value, told, value == chosen) for value, told in words.items())


def _has_begun(k: Kitchen, day: date, service: str, now: datetime) -> bool:
    """Return whether a service of a day can have begun by a moment of the kitchen's own clock."""
    week = k.progress().nights.week(day, day, day)
    return (day, earliest_of(week, day, service, k.services)) <= (now.date(), now.time())


def _heading(day: date, service: str) -> Text:
    return joined([guard.kitchen().services.heading(service), weekday(day)], ", ")
