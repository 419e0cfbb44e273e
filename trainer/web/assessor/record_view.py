"""A practical as the book will keep it, or keeps it: the same page before the signature and ever after."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from trainer.actions.watching import Practical
from trainer.kitchen.book import Entry
from trainer.kitchen.practical import note_text
from trainer.kitchen.verdicts import reasons_in_words
from trainer.kitchen.watched_points import WatchedPoint
from trainer.messages import Text, joined, message
from trainer.web import reading
from trainer.web.assessor.in_hand import tools_of
from trainer.web.assessor.practical_view import line_to_meet, type_word
from trainer.web.entry_words import Naming
from trainer.web.watched_words import (
    NOT_KEPT,
    asked_told,
    cause_told,
    gathered_told,
    is_by_several,
    is_kept_whole,
    looked_at,
    looks_before,
    points_in,
    readings_told,
    reasons_told,
    seen_before_told,
    tries_told,
)


@dataclass(frozen=True, slots=True)
class PointKept:
    """One point of the record: its words, what was seen, the readings, the line they were held to, every look.

    `language` is the one its words are in, empty where that is not known.
    """

    text: str
    language: str
    kind: Text
    seen: str
    readings: Text
    said: tuple[str, ...]
    told: tuple[Text, ...]
    line: Text
    note: Text
    href: str
    may_be_made_again: bool


@dataclass(frozen=True, slots=True)
class Record:
    """A practical as the book will keep it, or keeps it.

    `language` is the one its titles are in, empty where that is not known; `not_kept` says what an entry of before does
    not have.
    """

    cook_name: Text
    technique_title: str
    edition: int
    case_words: str
    part_words: str
    station_title: str
    language: str
    assessor_name: Text
    points: tuple[PointKept, ...]
    verdict: str
    reasons: tuple[Text, ...]
    note: Text
    not_kept: Text = ""


def record_of(practical: Practical, naming: Naming, hrefs: Mapping[str, str]) -> Record:
    """Return a practical under way as it would be kept if signed now."""
    points, found = practical.points, practical.verdict
    several = is_by_several(points)
    return Record(
        cook_name=naming.person(practical.cook),
        technique_title=practical.titles.technique,
        edition=practical.edition,
        case_words=practical.case_words,
        part_words=practical.part_words,
        station_title=practical.titles.station,
        language=practical.titles.language,
        assessor_name=naming.person(practical.by),
        points=tuple(_kept(point, naming, hrefs.get(point.id, ""), several=several) for point in points),
        verdict=found.word,
        reasons=reasons_in_words(found, points),
        note="",
    )


def record_kept(entry: Entry, naming: Naming) -> Record:
    """Return a signed practical as the book keeps it."""
    body, points = entry.body, points_in(entry.body, naming.content)
    several = is_by_several(points)
    is_whole = is_kept_whole(body)
    return Record(
        cook_name=naming.person(entry.cook),
        technique_title=body["titles"]["technique"] if is_whole else naming.technique(body["technique"]),
        edition=body["edition"],
        case_words=body["case"][1] if "case" in body else "",
        part_words=body["part"][1] if "part" in body else "",
        station_title=body["titles"]["station"] if is_whole else naming.station(body["station"]),
        language=body["language"] if is_whole else "",
        assessor_name=naming.person(entry.by),
        points=tuple(_kept(point, naming, several=several) for point in points),
        verdict=body["verdict"],
        reasons=reasons_told(body, naming.content),
        note=note_text(body.get("note", "")),
        not_kept="" if is_whole else NOT_KEPT,
    )


def _kept(point: WatchedPoint, naming: Naming, href: str = "", *, several: bool) -> PointKept:
    """Return one point of the record."""
    last, seen_at = point.last, looked_at(point, naming.person, several=several)
    asked = asked_told(last.asked) if last else ()
    return PointKept(
        text=point.words,
        language=point.language,
        kind=type_word(point),
        seen=point.word,
        readings=readings_told(last) if last else "",
        said=point.said_words(last) if last else (),
        told=(
            *seen_before_told(point, naming.person),
            *(cause_told(last) if last else ()),
            *tries_told(point),
            *([seen_at] if seen_at else []),
            *asked,
            *gathered_told(point),
            *looks_before(point, naming.person, several=several),
        ),
        line=line_in_words(point),
        note=note_text(last.note) if last else "",
        href=href,
        may_be_made_again=bool(href) and point.may_be_made_again,
    )


def line_in_words(point: WatchedPoint) -> Text:
    """Return the line of a point as it stood over the readings, in one line; empty where it is judged by eye."""
    units = reading.now().units
    asked = point.as_asked
    told: list[Text] = []
    for line in asked.lines:
        shown = line_to_meet(replace(asked, limit=line), units)
        if shown is not None:
            told.append(joined([shown.first, shown.also]) if shown.also else shown.first)
    if told and asked.pieces > 1:
        told.append(message("{inside} of {pieces} inside", inside=asked.pieces_inside, pieces=asked.pieces))
    with_tools = [message("with: {tools}", tools=joined(tools_of(point), ", "))] if point.tools else []
    return joined([*told, *with_tools], ", ")
