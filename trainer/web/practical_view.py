"""What a practical looks like on its pages: the line to meet, the points so far, the record as it will be kept."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from trainer.actions.watching import Practical
from trainer.kitchen.book import Entry
from trainer.kitchen.practical import PointSeen, verdict
from trainer.kitchen.technique import Limit, Point, Technique
from trainer.recipe_math.printing import as_given, number_text, written
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import joined, say
from trainer.web.entry_words import Naming, note_told, reasons_told

DIMENSION_WORDS: Mapping[str, str] = {
    "temperature": say("Temperature"),
    "length": say("Length"),
    "volume": say("Volume"),
}
_PLAIN = re.compile(r"(?P<amount>-?[0-9][0-9 .,/]*) (?P<unit>°?[A-Za-z][A-Za-z ]*)")
_UNIT = re.compile(r"(?<=[0-9] )(?:fl oz|°?[A-Za-z]+)")
JUDGED_WORDS: Mapping[str, str] = {"weighed": say("Weight"), "timed": say("Time")}


@dataclass(frozen=True, slots=True)
class LineToMeet:
    """The measured line: in its own unit in large figures, then in the other system."""

    first: str
    also: str


@dataclass(frozen=True, slots=True)
class PointLine:
    """One point in the list beside the point on screen."""

    href: str
    text: str
    seen: str
    is_here: bool


@dataclass(frozen=True, slots=True)
class PointKept:
    """One point of the record: its words, what was seen, the readings and the line they were held against."""

    text: str
    critical: bool
    seen: str
    readings: tuple[str, ...]
    line: str
    note: str
    href: str


@dataclass(frozen=True, slots=True)
class Record:
    """A practical as the book will keep it, or keeps it."""

    cook_name: str
    technique_title: str
    edition: int
    station_title: str
    assessor_name: str
    points: tuple[PointKept, ...]
    verdict: str
    reasons: tuple[str, ...]
    note: str


def line_to_meet(point: Point) -> LineToMeet | None:
    """Return the line of a measured point, its own unit first; None for a point judged by eye.

    A reading typed without a unit is read in the line's own unit, so that unit stands in large figures.
    """
    if point.limit is None:
        return None
    is_metric = limit_quantity(point.limit).unit.system == "metric"
    first, also = (_span(point.limit, system) for system in (("metric", "us") if is_metric else ("us", "metric")))
    words = [joined(["(", also, ")"], "")] if also != first else []
    if point.pieces > 1:
        words.append(say("{pieces_inside} of {pieces} inside.", pieces_inside=point.pieces_inside, pieces=point.pieces))
    return LineToMeet(first, joined(words))


def reading_labels(point: Point) -> tuple[str, ...]:
    """Return a label a reading: ``Weight 1 of 5``; none for a point judged by eye."""
    if point.judged == "ticked":
        return ()
    dimension = limit_quantity(point.limit).unit.dimension if point.limit else ""
    word = JUDGED_WORDS.get(point.judged) or DIMENSION_WORDS.get(dimension, say("Reading"))
    if point.pieces == 1:
        return (word,)
    return tuple(
        say("{word} {number} of {pieces}", word=word, number=number, pieces=point.pieces)
        for number in range(1, point.pieces + 1)
    )


def two_units(point: Point) -> tuple[str, ...]:
    """Return the units a reading may need: both of 4 lb 14 oz, else the line's own and the other system's.

    None where there is but one, as for a time: a bare number is in the line's own unit.
    """
    shown = line_to_meet(point)
    if point.limit is None or shown is None:
        return ()
    if " lb " in shown.first and " oz" in shown.first:
        return ("lb", "oz")
    own = limit_quantity(point.limit).unit.symbol
    other = _UNIT.findall(_span(point.limit, "us" if limit_quantity(point.limit).unit.system == "metric" else "metric"))
    return (own, other[-1]) if other and other[-1] != own else ()


def as_typed(point: Point, reading: str) -> str:
    """Return a kept reading as it stands in its field, beside which the line's own unit stands already."""
    plain = _PLAIN.fullmatch(reading)
    is_own = plain and point.limit and plain["unit"] == limit_quantity(point.limit).unit.symbol
    return plain["amount"] if plain and is_own else reading


def limit_quantity(limit: Limit) -> Quantity:
    """Return one value of a line, for its unit: the target, else the highest, else the lowest."""
    found = limit.target or limit.highest or limit.lowest
    if found is None:
        raise ValueError(f"The line {limit.id} has neither target nor end.")
    return found


def next_number(technique: Technique, seen: Iterable[str], after: int = 0) -> int | None:
    """Return the number of the first point not seen yet, from *after* on and then from the start; None at the end."""
    done = set(seen)
    unseen = [number for number, point in enumerate(technique.checklist, 1) if point.id not in done]
    return next((number for number in unseen if number > after), unseen[0] if unseen else None)


def record_of(practical: Practical, naming: Naming, hrefs: Mapping[str, str]) -> Record:
    """Return a practical under way as it would be kept if signed now."""
    technique = naming.content.techniques[practical.technique]
    return Record(
        cook_name=naming.person(practical.cook),
        technique_title=technique.title,
        edition=practical.edition,
        station_title=naming.station(practical.station),
        assessor_name=naming.person(practical.by),
        points=tuple(_kept(point, practical.seen.get(point.id), hrefs) for point in technique.checklist),
        verdict=practical.verdict.word,
        reasons=verdict(technique, practical.seen.values()).reasons,
        note="",
    )


def record_kept(entry: Entry, naming: Naming) -> Record:
    """Return a signed practical as the book keeps it."""
    body = entry.body
    technique = naming.content.techniques.get(body["technique"])
    points = {point.id: point for point in technique.checklist} if technique else {}
    return Record(
        cook_name=naming.person(entry.cook),
        technique_title=naming.technique(body["technique"]),
        edition=body["edition"],
        station_title=naming.station(body["station"]),
        assessor_name=naming.person(entry.by),
        points=tuple(_from_book(seen, points.get(seen["point"])) for seen in body["points"]),
        verdict=body["verdict"],
        reasons=reasons_told(body, naming),
        note=note_told(body.get("note", "")),
    )


def _kept(point: Point, seen: PointSeen | None, hrefs: Mapping[str, str]) -> PointKept:
    """Return one point of a practical under way."""
    return PointKept(
        text=point.text,
        critical=point.critical,
        seen=seen.seen if seen else "not seen",
        readings=seen.readings if seen else (),
        line=_line_in_words(point),
        note=seen.note if seen else "",
        href=hrefs.get(point.id, ""),
    )


def _from_book(seen: Mapping[str, Any], point: Point | None) -> PointKept:
    """Return one point of a signed practical; a point the content no longer has keeps its id."""
    return PointKept(
        text=point.text if point else str(seen["point"]),
        critical=point.critical if point else False,
        seen=str(seen["seen"]),
        readings=tuple(seen.get("readings", ())),
        line=_line_in_words(point) if point else "",
        note=str(seen.get("note", "")),
        href="",
    )


def _line_in_words(point: Point) -> str:
    """Return the line of a point as it stood over the readings, in one line; empty where it is judged by eye."""
    shown = line_to_meet(point)
    return joined([shown.first, shown.also] if shown and shown.also else [shown.first] if shown else [])


def _span(limit: Limit, system: str) -> str:
    """Return a line in one unit system, unrounded in the one it was given in: ``4.3 to 4.7 oz``, ``32 °C or less``."""
    low, high = limit.lowest, limit.highest
    if low is not None and high is not None:
        return _from_to(_in(low, system), _in(high, system))
    if high is not None:
        return say("{high} or less", high=_in(high, system))
    if low is not None:
        return say("{low} or more", low=_in(low, system))
    return _in(limit_quantity(limit), system)


def _in(quantity: Quantity, system: str) -> str:
    """Return a quantity in one unit system; in its own it stays in its own unit, since the line is what it says."""
    own = quantity.unit
    if (own.system == "metric") != (system == "metric"):
        return written(quantity, system)
    told = as_given(quantity)
    poured_out = own.dimension == "volume" and not told.endswith(f" {own.symbol}")
    return f"{number_text(quantity.amount, 2)} {own.symbol}" if poured_out else told


def _from_to(low: str, high: str) -> str:
    """Return two amounts as a span; a unit both share is said once, but not with mixed units (13 oz to 1 lb 3 oz)."""
    first, last = _PLAIN.fullmatch(low), _PLAIN.fullmatch(high)
    shared = first and last and first["unit"] == last["unit"]
    return say("{low} to {high}", low=first["amount"] if first and shared else low, high=high)
