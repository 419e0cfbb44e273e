"""Open places: what leavers handed back, and who could take each; one press lets somebody take it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.handing_back import OpenPlace, Taking, open_places, take_place
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday
from trainer.web.forms import PlainForm
from trainer.web.page import Page, go, show

pages = Blueprint("open_places", __name__)
MOST_NAMES = 8


@dataclass(frozen=True, slots=True)
class Taker:
    """Somebody who could take a place: what the button sends, and what it says."""

    cook: str
    words: Text


@dataclass(frozen=True, slots=True)
class OpenLine:
    """One open place in words, and who could take it."""

    day: str
    service: str
    station: str
    heading: Text
    left_by: Text
    takers: tuple[Taker, ...]
    none: Text


@dataclass(frozen=True, kw_only=True)
class OpenPage(Page):
    """Every open place, the next first."""

    template: ClassVar[str] = "night/open_places.html"
    own_url: str
    places: tuple[OpenLine, ...]
    form: PlainForm


@pages.route("/open-places", methods=["GET", "POST"])
@guard.needs("manager")
def listed() -> AnyResponse:
    """Show the open places; let somebody take one."""
    k, form = guard.kitchen(), PlainForm()
    if form.is_sent_right():
        taking = _taking()
        refusal = take_place(k, by=guard.person().id, taking=taking, now=guard.now(), key=form.key.data)
        if refusal is None:
            return go(".listed")
        form.refuse(refusal)
    naming = Naming(k.people(), reading.content())
    return show(
        OpenPage(
            title=message("Open places"),
            own_url=url_for(".listed"),
            places=tuple(_line(one, naming) for one in open_places(k, guard.now())),
            form=form,
        )
    )


def _taking() -> Taking:
    """Return what a button sends: day, service, station and cook; what cannot be read names no open place."""
    day, service, station, cook = (f"{request.form.get('takes', '')} - - - -").split(" ")[:4]
    try:
        return Taking(date.fromisoformat(day), service, station, cook)
    except ValueError:
        return Taking(date.min, service, station, cook)


def _line(one: OpenPlace, naming: Naming) -> OpenLine:
    heading = message(
        "{station}, {service} on {day}",
        station=naming.station(one.station),
        service=naming.service(one.service),
        day=weekday(one.day),
    )
    return OpenLine(
        one.day.isoformat(),
        one.service,
        one.station,
        heading,
        message("{name} was planned here and has left.", name=naming.person(one.left_by)),
        tuple(Taker(cook, message("{name} takes it", name=naming.person(cook))) for cook in one.can_take[:MOST_NAMES]),
        "" if one.can_take else message("Nobody else is cleared here and free that day."),
    )
