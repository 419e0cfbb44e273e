"""Going through the points of a practical before it is watched: the cook ticks them alone, and nothing is kept."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.kitchen.requirements import parts_left
from trainer.kitchen.technique import Limit, Point, Technique
from trainer.messages import Text, message, plural
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.filters import line as line_words
from trainer.web.page import Page, show

pages = Blueprint("rehearsing", __name__)
TYPE_WORDS: dict[str, Text] = {
    "law": message("Law: always needed"),
    "result": message("Result: always needed"),
    "craft": message("Craft"),
}


@dataclass(frozen=True, slots=True)
class Way:
    """One case or part to go through: its name, where it is, whether it is the one on the page."""

    name: str
    url: str
    is_here: bool


@dataclass(frozen=True, slots=True)
class PointRow:
    """One point as it will be watched; `answers` are what is expected to be said, shown when the cook asks for them."""

    words: str
    kind: Text
    lines: tuple[Limit, ...]
    law: Limit | None
    pieces: Text
    tools: tuple[str, ...]
    answers: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class RehearsalPage(Page):
    """The points of a practical in its order, with boxes nobody else sees."""

    template: ClassVar[str] = "cook/rehearsal.html"
    technique: Technique
    parts: tuple[Way, ...]
    cases: tuple[Way, ...]
    points: tuple[PointRow, ...]
    to_listen: tuple[Text, ...]


@pages.get("/techniques/<technique>/rehearse")
@guard.needs("cook")
def rehearse(technique: str) -> AnyResponse:
    """Show the points of the practical: of the part left to show, and of the first case, where none is named."""
    found = tasks.technique_named(technique)
    part = _chosen("part", [one.id for one in found.parts], _first_left(found))
    case = _chosen("case", [one.id for one in found.cases], "")
    points = tuple(_row(point) for point in found.points_in(case, part))
    page = RehearsalPage(
        title=message("Go through the points: {title}", title=found.title),
        technique=found,
        parts=tuple(Way(one.title, _url(found, one.id, case), one.id == part) for one in found.parts),
        cases=tuple(Way(one.text, _url(found, part, one.id), one.id == case) for one in found.cases),
        points=points,
        to_listen=tuple(said for point in points for said in (point.words, *map(line_words, point.lines))),
    )
    return show(page)


def _chosen(name: str, there: list[str], otherwise: str) -> str:
    """Return what the address names, if it is there; else the one that stands for it, or the first."""
    asked = request.args.get(name, otherwise)
    return asked if asked in there else (there[0] if there else "")


def _first_left(found: Technique) -> str:
    """Return the part the cook has still to show, the first of them; empty where there is none."""
    on = guard.today()
    left = parts_left(guard.kitchen().progress().record(guard.person().id).as_of(on), found, on)
    return left[0].id if left else ""


def _url(found: Technique, part: str, case: str) -> str:
    return url_for("rehearsing.rehearse", technique=found.id, part=part or None, case=case or None)


def _row(point: Point) -> PointRow:
    pieces = message("{inside} of {pieces} inside", inside=point.pieces_inside, pieces=point.pieces)
    tries = plural("{number} try", "{number} tries", point.tries)
    known = reading.content().instruments
    return PointRow(
        words=point.text,
        kind=TYPE_WORDS.get(point.type, message("always needed") if point.critical else message("Craft")),
        lines=point.lines,
        law=point.law,
        pieces=pieces if point.pieces > 1 else tries if point.tries > 1 else "",
        tools=tuple(known[tool].title if tool in known else tool for tool in point.tools),
        answers=tuple(one.text for one in point.choices) if point.judged == "says" else (),
    )
