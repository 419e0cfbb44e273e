"""One sheet of the house for an inspector: what is missing first, then who is on with which papers; printed on one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for

from trainer.actions.inspecting import InspectionSheet, PersonOnSheet, inspection
from trainer.actions.inspection_gaps import Gap, gaps
from trainer.exports.inspection import (
    allergens_words,
    charge_words,
    cleared_words,
    heading,
    notice_words,
    papers_words,
    places_words,
)
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.filters import moment
from trainer.web.page import Page, show
from trainer.web.shell import start_of

pages = Blueprint("inspector", __name__)


@dataclass(frozen=True, slots=True)
class PersonRow:
    """A line of the table: a person, and a cell each."""

    name: str
    at: Text
    cleared: Text
    papers: Text
    notice: Text
    allergens: Text


@dataclass(frozen=True, slots=True)
class StationLine:
    """A station, and who of those on is cleared there."""

    title: str
    names: Text


@dataclass(frozen=True, slots=True)
class GapLine:
    """Something missing, what to do next, and the page where that is done, "" where the reader may not."""

    words: Text
    act: Text
    href: str


@dataclass(frozen=True, slots=True)
class OtherSheet:
    """Another service of the day."""

    words: Text
    href: str


@dataclass(frozen=True, kw_only=True)
class InspectionPage(Page):
    """The sheet; `back` leads to the reader's first page, `notice_url` to a notice that the reader has not read."""

    template: ClassVar[str] = "handing_out/inspection.html"
    kitchen: Text
    heading: Text
    as_of: Text
    charge: Text
    gaps: tuple[GapLine, ...]
    rows: tuple[PersonRow, ...]
    stations: tuple[StationLine, ...]
    edition: int
    others: tuple[OtherSheet, ...]
    head: str
    on: str
    back: str
    notice_url: str


@pages.get("/inspection")
@guard.needs("person")
def look() -> Response:
    """Show the sheet of a day to a manager or an assessor, and of the day itself to whoever is in charge."""
    sheet = _sheet()
    me = guard.person().id
    is_in_charge = sheet.charge is not None and sheet.charge.cook == me and _asked_day() == guard.today()
    if not guard.roles() & {"manager", "assessor"} and not is_in_charge:
        abort(403, message("This sheet is for managers, assessors and whoever is in charge tonight."))
    return show(_page(sheet, me))


def _asked_day() -> date:
    """Return the day of the address; today where there is none, or none that has come."""
    try:
        asked = date.fromisoformat(request.args.get("on", "")[:10])
    except ValueError:
        return guard.today()
    return min(asked, guard.today())


def _sheet() -> InspectionSheet:
    service = request.args.get("service", "")[:20]
    return inspection(guard.kitchen(), on=_asked_day(), now=guard.now(), service=service, told_in=reading.content())


def _page(sheet: InspectionSheet, me: str) -> InspectionPage:
    mine = next((one for one in sheet.people if one.cook == me), None)
    return InspectionPage(
        title=message("Sheet for an inspector"),
        kitchen=sheet.kitchen,
        heading=heading(sheet),
        as_of=message("as the book said that day; printed {when} ({zone})", when=moment(sheet.at), zone=sheet.zone),
        charge=charge_words(sheet),
        gaps=tuple(_gap(one, is_today=sheet.on == guard.today()) for one in gaps(sheet)),
        rows=tuple(_row(sheet, one) for one in sheet.people),
        stations=tuple(_station(sheet, name) for name in sheet.stations),
        edition=sheet.notice_edition,
        others=_others(sheet),
        head=sheet.head,
        on=sheet.on.isoformat(),
        back=start_of(guard.roles()),
        notice_url=url_for("notice.look") if mine and mine.notice is None and sheet.on == guard.today() else "",
    )


def _row(sheet: InspectionSheet, one: PersonOnSheet) -> PersonRow:
    return PersonRow(
        one.name,
        places_words(sheet, one),
        cleared_words(sheet, one),
        papers_words(one),
        notice_words(one),
        allergens_words(one),
    )


def _station(sheet: InspectionSheet, station: str) -> StationLine:
    names = [one.name for one in sheet.cleared_at(station)]
    return StationLine(sheet.station(station), joined(names, ", ") if names else message("no one who is on"))


def _gap(gap: Gap, *, is_today: bool) -> GapLine:
    """Return a gap with the page where a manager closes it: the plan, or one person's paper; no past day is mended."""
    href = ""
    if is_today and "manager" in guard.roles():
        if gap.what in ("in_charge", "plan"):
            href = url_for("plan.plan")
        elif gap.what.endswith("certificate") or (gap.what.startswith("certificate:") and len(gap.cooks) == 1):
            href = url_for("manager.acts.certificate", cook=gap.cooks[0])
    return GapLine(gap.words, gap.act, href)


def _others(sheet: InspectionSheet) -> tuple[OtherSheet, ...]:
    """Return the other services of the day."""
    return tuple(
        OtherSheet(one.heading, url_for(".look", on=sheet.on.isoformat(), service=one.id))
        for one in sheet.services
        if sheet.service is None or one.id != sheet.service.id
    )
