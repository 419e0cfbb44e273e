"""One service of the plan by hand, before it is published: a row a cook, each at a station."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField

from trainer.actions.like_last_week import mark_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.plan_rows import Row, ServiceRows, rows_of, set_rows
from trainer.actions.planning import judged_place
from trainer.kitchen.nights import Place
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm
from trainer.web.night.addresses import service_of_address
from trainer.web.night.close import Choice
from trainer.web.page import Page, go, show

pages = Blueprint("plan_rows", __name__)
MORE_ROWS = 4
MOST_ROWS = 200


class RowsForm(KitchenForm):
    """The mark of the rows as they were looked at."""

    seen = HiddenField()


@dataclass(frozen=True, slots=True)
class PlanRow:
    """One place: the cook, the station (none: nobody), and what speaks against it."""

    number: int
    label: Text
    cooks: tuple[Choice, ...]
    stations: tuple[Choice, ...]
    against: Text


@dataclass(frozen=True, kw_only=True)
class RowsPage(Page):
    """The rows of one service, to be changed."""

    template: ClassVar[str] = "night/plan_rows.html"
    heading: Text
    own_url: str
    back: str
    form: RowsForm
    now_planned: tuple[Text, ...]
    rows: tuple[PlanRow, ...]


@pages.route("/plan/<day>/<service>", methods=["GET", "POST"])
@guard.needs("manager")
def rows(day: str, service: str) -> AnyResponse:
    """Show who is planned at a service; change it."""
    on, held = service_of_address(day, service)
    k, form = guard.kitchen(), RowsForm()
    typed = tuple(_typed()) if request.method == "POST" else _there(k, on, held)
    if form.is_sent_right():
        wanted = ServiceRows(on, held, tuple(row for row in typed if all(row)), form.seen.data or "")
        refusal = set_rows(k, by=guard.person().id, wanted=wanted, now=guard.now())
        if refusal is None:
            return go("plan.plan", since=on.isoformat(), until=on.isoformat())
        form.refuse(refusal)
    there = rows_of(k, on, held)
    form.seen.data = mark_of(there)
    naming = Naming(k.people(), reading.content())
    heading = message("{day}, {service}", day=weekday(on), service=naming.service(held))
    return show(
        RowsPage(
            title=message("Plan by hand: {service}", service=heading),
            heading=heading,
            own_url=url_for(".rows", day=day, service=service),
            back=url_for("plan.plan", since=day, until=day),
            form=form,
            now_planned=tuple(_words(one, naming) for one in there) if request.method == "POST" else (),
            rows=tuple(_rows(k, on, held, typed, naming)),
        )
    )


def _there(k: Kitchen, on: date, service: str) -> tuple[Row, ...]:
    return tuple((one.cook, one.station) for one in rows_of(k, on, service))


def _typed() -> Iterator[Row]:
    """Yield the rows as sent, half ones too, so that nothing chosen is lost."""
    for number in range(MOST_ROWS):
        cook, station = request.form.get(f"cook-{number}", "")[:64], request.form.get(f"station-{number}", "")[:64]
        if cook or station:
            yield cook, station


def _words(place: Place, naming: Naming) -> Text:
    return message("{cook} at {station}", cook=naming.person(place.cook), station=naming.station(place.station))


def _rows(k: Kitchen, on: date, service: str, typed: Sequence[Row], naming: Naming) -> Iterator[PlanRow]:
    """Yield the rows there are, and some empty ones."""
    cooks = k.day(guard.today()).cooks_by_name()
    for number, (cook, station) in enumerate([*typed, *[("", "")] * MORE_ROWS]):
        names: dict[str, Text] = {"": message("Nobody"), **{one: naming.person(one) for one in (*cooks, cook) if one}}
        titles: dict[str, Text] = {
            "": message("No station"),
            **{one: naming.station(one) for one in naming.content.stations},
        }
        yield PlanRow(
            number,
            message("Place {number}", number=number + 1),
            tuple(Choice(value, words, value == cook) for value, words in names.items()),
            tuple(Choice(value, words, value == station) for value, words in titles.items()),
            _against(k, Place(on, service, cook, station, runs=True)),
        )


def _against(k: Kitchen, place: Place) -> Text:
    """Return why a cook may not be there, or is no hand there; "" where nothing speaks against it."""
    if not place.cook or not place.station:
        return ""
    return judged_place(k, place, (), guard.today(), reading.content())[1]
