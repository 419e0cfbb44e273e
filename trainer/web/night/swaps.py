"""The line as it will stand after the swaps, and the one press that makes them: by who is in charge, or a manager."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, abort, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField

from trainer.actions.covering import ServiceCover, services_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.swapping import SwapsWanted, make_swaps, may_change_line
from trainer.kitchen.swaps import Move
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm
from trainer.web.night.line_view import LineRow, rows_after
from trainer.web.night.tonight import called_on
from trainer.web.page import Page, go, show
from trainer.web.shell import home_endpoint

pages = Blueprint("swaps", __name__)


class SwapsForm(KitchenForm):
    """The moves as they were seen: other ones are not made in their place."""

    moves = HiddenField()


@dataclass(frozen=True, kw_only=True)
class SwapsPage(Page):
    """The line after the swaps."""

    template: ClassVar[str] = "night/swaps.html"
    own_url: str
    back: str
    heading: Text
    holds: bool
    rows: tuple[LineRow, ...]
    words: Text
    form: SwapsForm
    may_not: Text
    told: Text


@pages.route("/swaps/<day>/<service>", methods=["GET", "POST"])
@guard.needs("assessor or manager")
def swaps(day: str, service: str) -> AnyResponse:
    """Show the line as it will stand; make the swaps."""
    k, on = guard.kitchen(), _day(day)
    found = next((one for one in services_of(k, on, reading.content()) if one.service.id == service), None)
    if found is None:
        abort(404)
    form = SwapsForm(moves=_typed(found.cover.moves))
    if form.is_sent_right():
        wanted = SwapsWanted(on, service, _read(form.moves.data or ""))
        outcome = make_swaps(k, by=guard.person().id, wanted=wanted, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(home_endpoint(guard.roles()), saved=outcome.entry.id)
        form.refuse(outcome)
        form.moves.data = _typed(found.cover.moves)
    return show(_page(k, found, form))


def _page(k: Kitchen, found: ServiceCover, form: SwapsForm) -> SwapsPage:
    called, number = called_on(k, k.board(found.on)), found.cover.swaps
    may = may_change_line(k, guard.person().id, found.on, k.day(guard.today()))
    heading = message("{service}, {day}", service=found.service.heading, day=weekday(found.on))
    return SwapsPage(
        title=plural("After {number} swap", "After {number} swaps", number) if number else message("After the move"),
        own_url=url_for(".swaps", day=found.on.isoformat(), service=found.service.id),
        back=url_for(home_endpoint(guard.roles())),
        heading=heading,
        holds=found.cover.holds,
        rows=rows_after(found, called),
        words=plural("Make this swap", "Make these swaps", number) if number else message("Make this move"),
        form=form,
        may_not="" if may.may else joined([may.reason, may.who_can]),
        told=message(
            "Who moves sees it on their own page: {names}.",
            names=called.everybody([one.cook for one in found.cover.moves]),
        )
        if found.cover.moves
        else message("Nobody moves: the line stands as planned."),
    )


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        abort(404)


def _typed(moves: tuple[Move, ...]) -> str:
    return " ".join(":".join(move) for move in moves)


def _read(text: str) -> tuple[Move, ...]:
    """Return the moves a form names; what is none is left out, and so makes no match."""
    parts = (one.split(":") for one in text[:4_000].split())
    return tuple(Move(*one) for one in parts if len(one) == 3)
