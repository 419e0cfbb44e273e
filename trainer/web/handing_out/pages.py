"""What a manager hands to somebody else: tables, workbooks and calendars, each in one tap."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import ClassVar

from flask import Blueprint, Response, abort, make_response, url_for

from trainer.exports.asking import Asked
from trainer.exports.board import board_tables, lapse_tables
from trainer.exports.book import book_tables
from trainer.exports.calendars import Event, calendar_of, lapse_events, path_events, shift_events
from trainer.exports.people import people_tables
from trainer.exports.plan import plan_tables
from trainer.exports.spreadsheet import csv_of, xlsx_of
from trainer.exports.tables import Table
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.handing_out import calendar_feed, inspector
from trainer.web.page import Page, show

pages = Blueprint("handing_out", __name__)
pages.register_blueprint(calendar_feed.pages)
pages.register_blueprint(inspector.pages)

PLAN_DAYS, LAPSE_DAYS = timedelta(days=28), timedelta(days=90)
MIME = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "ics": "text/calendar; charset=utf-8",
}
FORM_WORDS = {"csv": message("Table (CSV)"), "xlsx": message("Workbook (XLSX)"), "ics": message("Calendar")}

TABLES: dict[str, Callable[[Asked], Sequence[Table]]] = {
    "board": board_tables,
    "people": lambda asked: people_tables(asked, guard.now()),
    "plan": lambda asked: plan_tables(asked, asked.on + PLAN_DAYS),
    "lapses": lambda asked: lapse_tables(asked, asked.on + LAPSE_DAYS),
    "book": book_tables,
}
EVENTS: dict[str, Callable[[Asked], Iterable[Event]]] = {
    "plan": lambda asked: shift_events(asked, asked.on + PLAN_DAYS),
    "lapses": lambda asked: (*lapse_events(asked, asked.on + LAPSE_DAYS), *path_events(asked)),
}
WHAT: dict[str, tuple[Text, Text]] = {
    "board": (message("Board"), message("Who is cleared where today; in the workbook also what is missing.")),
    "people": (message("People and records"), message("Everybody on the roster; in the workbook also every record.")),
    "plan": (message("Plan"), message("Who is where in the coming four weeks.")),
    "lapses": (message("What lapses"), message("What ends within 90 days, and at which stations.")),
    "book": (message("Book"), message("Every entry as it is kept.")),
}


@dataclass(frozen=True, slots=True)
class Taken:
    """One way to take something along."""

    words: Text
    href: str


@dataclass(frozen=True, slots=True)
class HandOut:
    """One thing to hand out: what it is, what it holds, and as what it may be taken."""

    title: Text
    told: Text
    ways: tuple[Taken, ...]


@dataclass(frozen=True, kw_only=True)
class HandOutPage(Page):
    """Everything there is to hand out; `records` are one person's each, as PDF."""

    template: ClassVar[str] = "handing_out/choose.html"
    things: tuple[HandOut, ...]
    records: tuple[Taken, ...]


@pages.get("/hand-out")
@guard.needs("manager")
def choose() -> Response:
    """Show what may be handed out, and as what."""
    things = tuple(HandOut(title, told, tuple(_ways(what))) for what, (title, told) in WHAT.items())
    k = guard.kitchen()
    records = tuple(
        Taken(who.name, url_for("records.as_pdf", cook=who.id))
        for who in k.people().values()
        if k.day(guard.today()).is_on_roster(who.id)
    )
    return show(HandOutPage(title=message("Hand out"), things=things, records=records))


def _ways(what: str) -> Iterable[Taken]:
    for form in ("csv", "xlsx", *(["ics"] if what in EVENTS else [])):
        yield Taken(FORM_WORDS[form], url_for("handing_out.take", what=what, form=form))


@pages.get("/hand-out/<what>.<form>")
@guard.needs("manager")
def take(what: str, form: str) -> Response:
    """Send one thing as a file, of today, in the reader's words."""
    if what not in TABLES or form not in MIME or (form == "ics" and what not in EVENTS):
        abort(404)
    asked = Asked(guard.kitchen(), reading.content(), guard.today())
    sent = make_response(_file(asked, what, form))
    sent.headers["Content-Type"] = MIME[form]
    sent.headers["Content-Disposition"] = f'attachment; filename="{what}-{asked.on.isoformat()}.{form}"'
    return sent


def _file(asked: Asked, what: str, form: str) -> bytes:
    if form == "ics":
        return calendar_of(WHAT[what][0], EVENTS[what](asked), guard.now(), reading.printed)
    if form == "csv":
        return "".join(csv_of(TABLES[what](asked)[0], reading.printed)).encode()
    file = io.BytesIO()
    xlsx_of(TABLES[what](asked), file, reading.printed)
    return file.getvalue()
