"""What a point of a practical looks like while it is watched: the line to meet, its readings, the points so far."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from trainer.kitchen.limit_text import InOne, ends_text
from trainer.kitchen.measured import Reading, Typed, read
from trainer.kitchen.plausible import PlausibleRange, plausible_range
from trainer.kitchen.practical import AskBack
from trainer.kitchen.reading_units import System, line_end, reading_units
from trainer.kitchen.technique import Limit, Point
from trainer.messages import Message, Text, joined, message
from trainer.recipe_math.printing import both_ways, written
from trainer.recipe_math.quantity import TEMPERATURE, Quantity

DIMENSION_WORDS: Mapping[str, Text] = {
    "temperature": message("Temperature"),
    "length": message("Length"),
    "volume": message("Volume"),
}
_PLAIN = re.compile(r"(?P<amount>-?[0-9][0-9 .,/]*) (?P<unit>°?[A-Za-z][A-Za-z ]*)")
JUDGED_WORDS: Mapping[str, Text] = {"weighed": message("Weight"), "timed": message("Time")}
SMALLER: Mapping[str, str] = {"lb": "oz", "kg": "g", "h": "min", "min": "s"}
"""The unit that goes on where a larger one closes a part: 4 lb 14 oz, 1 min 30 s."""
AGAIN: Mapping[str, Text] = {
    "temperature": message("Read the probe again"),
    "mass": message("Weigh it again"),
    "duration": message("Time it again"),
}


@dataclass(frozen=True, slots=True)
class LineToMeet:
    """The measured line: in its own unit in large figures, then in the other system."""

    first: Text
    also: Text
    inside: Text


@dataclass(frozen=True, slots=True)
class UnitKey:
    """One unit a reading may be keyed in; `then` is the smaller unit that goes on behind it, where there is one."""

    symbol: str
    then: str


@dataclass(frozen=True, slots=True)
class Way:
    """One reading it may have been: the value to send, and the words with the other system in brackets."""

    value: str
    words: Text


@dataclass(frozen=True, slots=True)
class ReadingQuestion:
    """What is asked back of one reading: as typed, what can be shown here, what it may have been, what to do again."""

    typed: str
    shows: Text
    ways: tuple[Way, ...]
    again: Text


@dataclass(frozen=True, slots=True)
class PointLine:
    """One point in the list beside the point on screen."""

    href: str
    text: str
    seen: Text
    is_here: bool


@dataclass(frozen=True, slots=True)
class PointView:
    """A point as it is worked on: the line to meet, a label a reading, the units to key it in, the pad's last key."""

    point: Point
    line: LineToMeet | None
    labels: tuple[Text, ...]
    units: tuple[UnitKey, ...]
    last_key: str


def point_view(point: Point, system: System) -> PointView:
    """Return a point as it is worked on, in the reader's own units first."""
    return PointView(
        point, line_to_meet(point, system), reading_labels(point), unit_keys(point, system), last_key(point)
    )


_LAST_KEYS = {"duration": ":", TEMPERATURE: "-"}


def last_key(point: Point) -> str:
    """Return the last key of a reading's pad: a timer's colon, a minus for degrees, else the stroke of a fraction."""
    end = line_end(point.limit) if point.limit is not None else None
    return _LAST_KEYS.get(end.unit.dimension, "/") if end is not None else "/"


def line_to_meet(point: Point, system: System) -> LineToMeet | None:
    """Return the line of a measured point, in the reader's own units first; None for a point judged by eye.

    A reading typed without a unit is read in the reader's own, so that unit stands in large figures.
    """
    if point.limit is None:
        return None
    first = ends_text(point.limit, InOne(system))
    also = ends_text(point.limit, InOne("us" if system == "metric" else "metric"))
    inside = message("{pieces_inside} of {pieces} inside.", pieces_inside=point.pieces_inside, pieces=point.pieces)
    in_brackets = joined(["(", also, ")"], "") if also != first else ""
    return LineToMeet(first, in_brackets, inside if point.pieces > 1 else "")


def reading_labels(point: Point) -> tuple[Text, ...]:
    """Return a label a reading: ``Weight 1 of 5``; none for a point judged by eye."""
    if point.judged == "ticked":
        return ()
    dimension = limit_quantity(point.limit).unit.dimension if point.limit else ""
    word = JUDGED_WORDS.get(point.judged) or DIMENSION_WORDS.get(dimension, message("Reading"))
    if point.pieces == 1:
        return (word,)
    return tuple(
        message("{word} {number} of {pieces}", word=word, number=number, pieces=point.pieces)
        for number in range(1, point.pieces + 1)
    )


def unit_keys(point: Point, system: System) -> tuple[UnitKey, ...]:
    """Return the units a reading of this point may be keyed in, the one told beside it first: the reader's own."""
    symbols = reading_units(point.limit, system) if point.limit is not None and point.judged != "ticked" else ()
    return tuple(UnitKey(s, SMALLER[s] if SMALLER.get(s) in symbols else "") for s in symbols)


def as_typed(readings: Iterable[str], symbols: Iterable[str]) -> tuple[str, tuple[str, ...]]:
    """Return the unit all kept readings share, with each as it stands in its field; where they share none, as kept."""
    kept = tuple(readings)
    plain = [_PLAIN.fullmatch(text) for text in kept]
    units = {found["unit"] for found in plain if found}
    if all(plain) and len(units) == 1 and units <= set(symbols):
        return units.pop(), tuple(found["amount"] for found in plain if found)
    return "", kept


def asked_of(limit: Limit, asked: AskBack, system: System) -> ReadingQuestion:
    """Return a reading that no kitchen could show, as it is asked back."""
    found, end = plausible_range(limit), line_end(limit)
    dimension = end.unit.dimension if end else ""
    return ReadingQuestion(
        typed=asked.ways[0],
        shows=_shows(dimension, found, system) if found else "",
        ways=tuple(Way(way, _way_offered(limit, way, is_only=len(asked.ways) == 1)) for way in asked.ways),
        again=AGAIN.get(dimension, message("Measure it again")),
    )


def _shows(dimension: str, found: PlausibleRange, system: System) -> Message:
    """Return what an instrument can show here, as one of its kind says it."""
    low, high = both_ways(found.lowest, system), both_ways(found.highest, system)
    if dimension == "temperature":
        return message("Here a probe shows from {low} to {high}.", low=low, high=high)
    if dimension == "mass":
        return message("Here a scale shows from {low} to {high}.", low=low, high=high)
    if dimension == "duration":
        return message("Here a watch shows from {low} to {high}.", low=low, high=high)
    return message("Here a reading is from {low} to {high}.", low=low, high=high)


def _way_offered(limit: Limit, way: str, *, is_only: bool) -> Text:
    """Return the words of a button that says what a reading was; of the only one, that it was so all the same."""
    told = _way_told(limit, way)
    return message("Yes, it was {reading}", reading=told) if is_only else told


def _way_told(limit: Limit, way: str) -> Text:
    """Return one reading with what it is in other units: 72 °C (162 °F), 9999 s (2 h 46 min 39 s)."""
    found = read(limit, Typed(way))
    if not isinstance(found, Reading):
        return way
    other = written(found.value, "us" if found.unit.system == "metric" else "metric")
    return way if other == way else joined([way, joined(["(", other, ")"], "")])


def limit_quantity(limit: Limit) -> Quantity:
    """Return one value of a line, for its unit: the target, else the highest, else the lowest."""
    found = line_end(limit)
    if found is None:
        raise ValueError(f"The line {limit.id} has neither target nor end.")
    return found
