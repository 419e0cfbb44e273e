"""What hangs on the wall: a station's card and a technique's sheet, each with a code to scan or to type."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

import segno
from flask import Blueprint, abort, current_app, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response as AnyResponse

from trainer.content.figure_files import figure
from trainer.kitchen.clearance import Clearance, clearance_of, technique_standing
from trainer.kitchen.short_codes import found_by, short_code
from trainer.kitchen.technique import Hazard, Point, Source, Station, Step, Technique
from trainer.messages import message
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.forms import SumForm, TextField
from trainer.web.page import Page, go, show

pages = Blueprint("sheets", __name__)
WIDTH_IN_MM = re.compile(r'<svg[^>]*width="([\d.]+)mm"')
HALF_A_SHEET = 88  # mm, of a column of A4 or Letter inside its frame
LETTERS_ON_TWO_PAGES, LETTERS_IN_THE_LARGER = 6490, 7750
"""How many letters, with their drawings, fill two pages of A4 or Letter in the smaller type; more of them fill three in
the larger, up to the second number: beyond it the smaller type fills three. True-size drawings take their room whatever
the type, and keep to the smaller one."""


class CodeForm(SumForm):
    """A code typed from a card."""

    code = TextField(message("The code on the card"))


@dataclass(frozen=True, slots=True)
class TechniqueLine:
    """A technique a station asks for, and how far the reader has come in it."""

    title: str
    state: str
    url: str


@dataclass(frozen=True, kw_only=True)
class StationPage(Page):
    """One station: what it asks for, and what the reader is there."""

    template: ClassVar[str] = "sheets/station.html"
    station: Station
    clearance: Clearance
    techniques: tuple[TechniqueLine, ...]
    card_url: str


@dataclass(frozen=True, slots=True)
class ToScan:
    """A drawn code that leads to a page, the same to type, and the address a phone must reach."""

    drawing: Markup
    typed: str
    host: str


@dataclass(frozen=True, kw_only=True)
class CardPage(Page):
    """A card for a station, to be printed and hung up there."""

    template: ClassVar[str] = "sheets/card.html"
    station: Station
    techniques: tuple[Technique, ...]
    scan: ToScan
    back: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """One step with its figure and cautions."""

    step: Step
    hazards: tuple[Hazard, ...]
    drawing: Markup

    @property
    def is_wide(self) -> bool:
        """Return whether the figure is true to size and wider than half a sheet of paper."""
        width = WIDTH_IN_MM.search(self.drawing)
        return width is not None and float(width[1]) > HALF_A_SHEET


@dataclass(frozen=True, kw_only=True)
class SheetPage(Page):
    """A technique on paper: standard, steps with figures, critical points, faults; `is_roomy` is in the larger type."""

    template: ClassVar[str] = "sheets/technique.html"
    technique: Technique
    edition: int
    steps: tuple[Drawn, ...]
    critical: tuple[Point, ...]
    sources: tuple[Source, ...]
    scan: ToScan
    back: str
    is_roomy: bool


@dataclass(frozen=True, kw_only=True)
class ShortCodePage(Page):
    """Where a code is typed."""

    template: ClassVar[str] = "sheets/code.html"
    form: CodeForm


@pages.get("/stations/<station>")
@guard.needs("person")
def station(station: str) -> AnyResponse:
    """Show one station to anyone who stands there."""
    found, k, who = _station_named(station), guard.kitchen(), guard.person()
    content, progress, today = reading.content(), k.progress(), guard.today()
    techniques = tuple(
        TechniqueLine(
            content.techniques[name].title,
            technique_standing(who.id, content.techniques[name], progress, today).state,
            url_for("cook.technique", technique=name),
        )
        for name in found.techniques
    )
    page = StationPage(
        title=found.title,
        station=found,
        clearance=clearance_of(who, found, progress, content, today),
        techniques=techniques,
        card_url=url_for("sheets.card", station=found.id),
    )
    return show(page)


@pages.get("/stations/<station>/card")
@guard.needs("person")
def card(station: str) -> AnyResponse:
    """Show a station's card, to be printed."""
    found = _station_named(station)
    page = CardPage(
        title=message("Card of {station}", station=found.title),
        station=found,
        techniques=tuple(reading.content().techniques[name] for name in found.techniques),
        scan=_scan(short_code("station", found.id)),
        back=url_for("sheets.station", station=found.id),
    )
    return show(page)


@pages.get("/techniques/<technique>/sheet")
@guard.needs("person")
def sheet(technique: str) -> AnyResponse:
    """Show a technique on one sheet, to be printed."""
    found = tasks.technique_named(technique)
    sources = reading.content().sources
    steps = tuple(_drawn(found, step) for step in found.steps)
    page = SheetPage(
        title=message("Sheet of {technique}", technique=found.title),
        technique=found,
        edition=found.edition_on(guard.today()).number,
        steps=steps,
        critical=tuple(point for point in found.checklist if point.critical),
        sources=tuple(sources[name] for name in found.sources if name in sources),
        scan=_scan(short_code("technique", found.id)),
        back=url_for("cook.technique", technique=found.id),
        is_roomy=_is_roomy(found, steps),
    )
    return show(page)


def _is_roomy(technique: Technique, steps: Sequence[Drawn]) -> bool:
    """Return whether the larger type fills three pages, and no more."""
    fits = LETTERS_ON_TWO_PAGES < _letters(technique, steps) <= LETTERS_IN_THE_LARGER
    return fits and not any(one.is_wide for one in steps)


def _letters(technique: Technique, steps: Iterable[Drawn]) -> int:
    """Return how many letters the sheet of a technique holds."""
    texts = [text for one in steps for text in (one.step.text, one.step.cue)]
    texts += [hazard.caution for one in steps for hazard in one.hazards]
    texts += [text for fault in technique.faults for text in (fault.shows, fault.cause, fault.cure)]
    texts += [
        *(text for _, text in technique.held_to),
        *(point.text for point in technique.checklist if point.critical),
    ]
    return sum(map(len, texts))


@pages.get("/go")
@guard.needs("person")
def type_code() -> AnyResponse:
    """Take a code typed from a card, and open what it stands for."""
    form = CodeForm()
    if form.code.data:
        found = found_by(form.code.data, guard.kitchen().content)
        if found is not None:
            return go("sheets.by_code", code=short_code(found.kind, found.id))
        form.put(
            "code", message("No card has the code “{code}”. Look at the four signs again.", code=form.code.data[:12])
        )
    return show(ShortCodePage(title=message("Type a card's code"), form=form))


@pages.get("/go/<code>")
@guard.needs("person")
def by_code(code: str) -> AnyResponse:
    """Open the station or the technique a card's code stands for."""
    found = found_by(code, guard.kitchen().content)
    if found is None:
        abort(404, message("No card has the code “{code}”.", code=code[:12]))
    if found.kind == "station":
        return go("sheets.station", station=found.id)
    return go("cook.technique", technique=found.id)


def _station_named(name: str) -> Station:
    found = reading.content().stations.get(name)
    if found is None:
        abort(404, message("There is no station “{name}” in this kitchen.", name=name))
    return found


def _scan(code: str) -> ToScan:
    """Return a code as a QR symbol (ISO/IEC 18004) that leads to its page at this kitchen's address."""
    scheme = "https" if current_app.config["HTTPS"] else None  # the server in front speaks it, this one does not
    address = url_for("sheets.by_code", code=code, _external=True, _scheme=scheme)
    drawing = segno.make(address, error="m", micro=False).svg_inline(
        border=4, dark="#000", light=None, svgclass=None, lineclass=None, omitsize=True
    )
    return ToScan(Markup(drawing), code, request.host)  # noqa: S704 - drawn by us from our own address


def _drawn(technique: Technique, step: Step) -> Drawn:
    drawing = figure(guard.kitchen().drawings, technique.id, step.figure) if step.figure else ""
    hazards = tuple(hazard for hazard in technique.hazards if hazard.id in step.hazards)
    return Drawn(step, hazards, Markup(drawing))  # noqa: S704 - the kitchen's own content, as on the step's page
