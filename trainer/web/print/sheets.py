"""What hangs on the wall: a station's card and a technique's sheet, each with a code to scan or to type."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

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
from trainer.web.drawn import StepDrawing, drawn, numbers_on
from trainer.web.forms import SumForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.photographs import photograph_url
from trainer.web.qr import qr_of

pages = Blueprint("sheets", __name__)
WIDTH_IN_MM = re.compile(r'<svg[^>]*width="([\d.]+)mm"')
HALF_A_SHEET = 88  # mm, of a column of A4 or Letter inside its frame
LETTERS_OF_A_FIGURE, LETTERS_OF_FRAMES = 100, 300
"""How many letters would fill the room of a single drawing, and of frames in a row; measured on the shipped sheets."""
LETTERS_IN_TYPE = ((7200, ""), (8110, "largest"), (9300, "larger"))
"""Up to how many letters, with their drawings, a sheet is in a type: the plain one fills two pages of A4 or Letter; the
largest, then the larger one, fill a third page by a third or more. Beyond, the plain type fills three."""


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
class DrawnStep:
    """One step with its figure and cautions."""

    step: Step
    hazards: tuple[Hazard, ...]
    drawing: StepDrawing
    photograph: str

    @property
    def is_wide(self) -> bool:
        """Return whether the figure is true to size and wider than half a sheet of paper."""
        width = WIDTH_IN_MM.search(self.drawing.single)
        return width is not None and float(width[1]) > HALF_A_SHEET


@dataclass(frozen=True, kw_only=True)
class SheetPage(Page):
    """A technique on paper: standard, steps, critical points, faults; `type_size` is a class of `sheets.css`."""

    template: ClassVar[str] = "sheets/technique.html"
    technique: Technique
    edition: int
    steps: tuple[DrawnStep, ...]
    critical: tuple[Point, ...]
    sources: tuple[Source, ...]
    scan: ToScan
    back: str
    type_size: str


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
        type_size=_type_size(found, steps),
    )
    return show(page)


def _type_size(technique: Technique, steps: Sequence[DrawnStep]) -> str:
    """Return the type in which a sheet fills two pages, or a third one by a third or more; empty for the plain one.

    True-size drawings take their room whatever the type: beside them it is the smaller one.
    """
    if any(one.is_wide for one in steps):
        return "smaller"
    letters = _letters(technique, steps)
    return next((size for highest, size in LETTERS_IN_TYPE if letters <= highest), "")


def _letters(technique: Technique, steps: Sequence[DrawnStep]) -> int:
    """Return how many letters the sheet of a technique holds, and would hold in the room of its drawings."""
    texts = [text for one in steps for text in (one.step.text, one.step.cue)]
    texts += [hazard.caution for one in steps for hazard in one.hazards]
    texts += [text for fault in technique.faults for text in (fault.shows, fault.cause, fault.cure)]
    texts += [
        *(text for _, text in technique.held_to),
        *(point.text for point in technique.checklist if point.critical or technique.is_typed),
    ]
    figures = sum(bool(one.drawing.single) for one in steps)
    frames = sum(bool(one.drawing.frames) for one in steps)
    return sum(map(len, texts)) + figures * LETTERS_OF_A_FIGURE + frames * LETTERS_OF_FRAMES


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
    return ToScan(qr_of(address), code, request.host)


def _drawn(technique: Technique, step: Step) -> DrawnStep:
    hazards = tuple(hazard for hazard in technique.hazards if hazard.id in step.hazards)
    read = partial(figure, guard.kitchen().drawings, technique.id)
    drawing = drawn(step, numbers_on(technique, reading.content().code.limits, read))
    return DrawnStep(step, hazards, drawing, photograph_url(technique.id, step))
