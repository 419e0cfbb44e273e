"""What a point of a practical looks like while it is watched: the line to meet, its readings, the points so far."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from trainer.kitchen.limit_text import InOne, ends_text
from trainer.kitchen.measured import Reading, Typed, read
from trainer.kitchen.plausible import PlausibleRange, plausible_range
from trainer.kitchen.practical import AskBack
from trainer.kitchen.reading_units import System, line_end, reading_units, system_of
from trainer.kitchen.technique import Limit, Point
from trainer.kitchen.watched_points import WatchedPoint
from trainer.messages import Message, Text, joined, message
from trainer.recipe_math.printing import both_ways, written
from trainer.recipe_math.quantity import TEMPERATURE, Quantity
from trainer.recipe_math.units import UNITS

DIMENSION_WORDS: Mapping[str, Text] = {
    "temperature": message("Temperature"),
    "length": message("Length"),
    "duration": message("Time"),
    "volume": message("Volume"),
}
_PLAIN = re.compile(r"(?P<amount>-?[0-9][0-9 .,/]*) (?P<unit>°?[A-Za-z][A-Za-z ]*)")
JUDGED_WORDS: Mapping[str, Text] = {"weighed": message("Weight"), "timed": message("Time")}
SIDE_WORDS: Mapping[str, Text] = {
    "under": message("Too little"),
    "right": message("Just right"),
    "over": message("Too far"),
}
TYPE_WORDS: Mapping[str, Text] = {
    "law": message("Law."),
    "result": message("Result."),
    "craft": message("Craft."),
}
SMALLER: Mapping[str, str] = {"lb": "oz", "kg": "g", "h": "min", "min": "s"}
"""The unit that goes on where a larger one closes a part: 4 lb 14 oz, 1 min 30 s."""
TWO_SYSTEMS = frozenset({"temperature", "mass", "volume", "length"})
AGAIN: Mapping[str, Text] = {
    "temperature": message("Read the probe again"),
    "mass": message("Weigh it again"),
    "duration": message("Time it again"),
}


@dataclass(frozen=True, slots=True)
class LineToMeet:
    """The measured line: in the reader's own units in large figures, then in the other system.

    `other` and `then` are the same the other way round, for who presses a key of the other system; empty where both
    read the same.
    """

    first: Text
    also: Text
    inside: Text
    other: Text = ""
    then: Text = ""


@dataclass(frozen=True, slots=True)
class UnitKey:
    """One unit a reading may be keyed in; `then` is the smaller unit that goes on behind it, where there is one.

    `is_theirs`: it belongs to the other system than the reader's own.
    """

    symbol: str
    then: str
    is_theirs: bool = False


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
    pair: tuple[LinePair, ...] = ()


@dataclass(frozen=True, slots=True)
class Slot:
    """One of several pieces: what was read of it, its address, and whether it is on screen."""

    words: Text
    href: str
    is_here: bool


def slots_of(point: WatchedPoint, here: int, hrefs: Sequence[str]) -> tuple[Slot, ...]:
    """Return a slot a piece (0 is the first), each with what was read so far; none where there is one piece."""
    if point.pieces == 1 or point.limit is None or point.judged == "ticked":
        return ()
    each, so_far = len(point.as_asked.lines), point.readings_so_far
    pieces = [so_far[first : first + each] for first in range(0, len(so_far), each)]
    told = [joined([text for text in piece if text], ", ") if any(piece) else "" for piece in pieces]
    return tuple(Slot(words, hrefs[n], n == here) for n, words in enumerate(told))


@dataclass(frozen=True, slots=True)
class LinePair:
    """One of the two lines of a pair: what is measured, the line to meet, and the units to key it in."""

    word: Text
    line: LineToMeet
    units: tuple[UnitKey, ...]


def point_view(point: Point, system: System) -> PointView:
    """Return a point as it is worked on, in the reader's own units first."""
    labels, keys = reading_labels(point), unit_keys(point, system)
    return PointView(point, line_to_meet(point, system), labels, keys, last_key(point), _pair(point, system))


def _pair(point: Point, system: System) -> tuple[LinePair, ...]:
    """Return the two lines of a pair; nothing for any other point."""
    if point.then is None:
        return ()
    singles = [replace(point, limit=line, then=None, pieces=1) for line in point.lines]
    lines = [(single, line_to_meet(single, system)) for single in singles]
    return tuple(LinePair(_word_of(one.lines[0], one), line, unit_keys(one, system)) for one, line in lines if line)


_LAST_KEYS = {"duration": ":", TEMPERATURE: "-"}


def last_key(point: Point) -> str:
    """Return the last key of a reading's pad: a timer's colon, a minus for degrees, else the stroke of a fraction."""
    end = line_end(point.limit) if point.limit is not None else None
    return _LAST_KEYS.get(end.unit.dimension, "/") if end is not None else "/"


@dataclass(frozen=True, slots=True)
class ChoiceView:
    """One thing to tick or to pick: its name, its words, a drawing where there is one, whether it is ticked."""

    id: str
    name: Text
    words: str
    drawing: Markup
    is_ticked: bool


def choice_views(point: Point, ticked: Collection[str], drawings: Mapping[str, Markup]) -> tuple[ChoiceView, ...]:
    """Return what may be ticked or picked at a point; *drawings* are those of the three sides, where there are any."""
    return tuple(
        ChoiceView(one.id, SIDE_WORDS.get(one.id, ""), one.text, drawings.get(one.id, Markup("")), one.id in ticked)
        for one in point.choices
    )


def is_heard_whole(point: Point) -> bool:
    """Return whether one thing alone is to be said: the verdict says whether it was, and there is nothing to tick."""
    return point.judged == "says" and point.need == len(point.choices) == 1


def needed_words(point: Point) -> Text:
    """Return how much of what is expected has to be said."""
    if point.judged != "says":
        return ""
    if is_heard_whole(point):
        return message("Do not help. Said: meets it.")
    if point.need == len(point.choices):
        return message("Tick what you heard. Do not help. All {number}: meets it.", number=point.need)
    return message(
        "Tick what you heard. Do not help. {need} of {number}: meets it.", need=point.need, number=len(point.choices)
    )


def again_words(point: WatchedPoint) -> Text:
    """Return which try the next look is, where the cook makes one more."""
    return message("The cook made one more: try {number} of {tries}.", number=point.attempts + 1, tries=point.tries)


def type_word(point: Point | WatchedPoint) -> Text:
    """Return what kind of point it is, to stand before its words; empty for a scored one of the former kind."""
    return TYPE_WORDS[point.type] if point.type else message("Critical.") if point.critical else ""


def line_to_meet(point: Point, system: System) -> LineToMeet | None:
    """Return the line of a measured point, in the reader's own units first; None for a point judged by eye.

    A reading typed without a unit is read in the reader's own, so that unit stands in large figures.
    """
    if point.limit is None:
        return None
    first = ends_text(point.limit, InOne(system))
    also = ends_text(point.limit, InOne("us" if system == "metric" else "metric"))
    inside = message("{pieces_inside} of {pieces} inside.", pieces_inside=point.pieces_inside, pieces=point.pieces)
    count = inside if point.pieces > 1 else ""
    if also == first:
        return LineToMeet(first, "", count)
    return LineToMeet(first, joined(["(", also, ")"], ""), count, also, joined(["(", first, ")"], ""))


def reading_labels(point: Point) -> tuple[Text, ...]:
    """Return a label a reading: ``Weight 1 of 5``; none for a point judged by eye."""
    if not point.lines or point.judged == "ticked":
        return ()
    words = [_word_of(line, point) for line in point.lines]
    if point.pieces == 1:
        return tuple(words)
    return tuple(
        message("{word} {number} of {pieces}", word=word, number=number, pieces=point.pieces)
        for number in range(1, point.pieces + 1)
        for word in words
    )


def _word_of(line: Limit, point: Point) -> Text:
    """Return what is measured at a line of a point."""
    dimension = limit_quantity(line).unit.dimension
    return JUDGED_WORDS.get(point.judged) or DIMENSION_WORDS.get(dimension, message("Reading"))


def unit_keys(point: Point, system: System) -> tuple[UnitKey, ...]:
    """Return the units a reading of this point may be keyed in, the one told beside it first: the reader's own."""
    is_measured = point.limit is not None and point.judged != "ticked"
    symbols = reading_units(point.limit, system) if point.limit is not None and is_measured else ()
    others = [s for s in symbols if UNITS[s].dimension in TWO_SYSTEMS and system_of(UNITS[s]) != system]
    return tuple(UnitKey(s, SMALLER[s] if SMALLER.get(s) in symbols else "", s in others) for s in symbols)


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
