"""A watched run through a checklist, point by point; the verdict that follows is in `verdicts`.

Numbers decide what was measured: nobody can say *meets it* over readings that lie outside. An assessor may always be
stricter, with a note, and may always say *unsafe*.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from types import MappingProxyType
from typing import Any, Literal

from trainer.kitchen.measured import Reading, Typed, is_inside, read, ways_to_read
from trainer.kitchen.papers import Erased
from trainer.kitchen.technique import Limit, Point, Technique
from trainer.messages import Message, Text, message

Seen = Literal["meets it", "not yet", "unsafe"]
VerdictWord = Literal["meets it", "not yet", "stopped"]
SEEN: tuple[Seen, ...] = ("meets it", "not yet", "unsafe")
WORDS: Mapping[str, Text] = MappingProxyType(
    {
        "meets it": message("meets it"),
        "not yet": message("not yet"),
        "unsafe": message("unsafe"),
        "stopped": message("stopped"),
        "not seen": message("not seen"),
    }
)
"""What is said of a point or of the whole, for a page to tell in any language."""
NOTE_WORDS: Mapping[str, Message] = MappingProxyType({"Helped or coached.": message("Helped or coached.")})
"""The note of an older program on a practical that was lowered because the assessor helped."""
A_LOOK = timedelta(milliseconds=800)
"""How long a point is on screen before anybody can have seen it: two taps of one finger are 150 ms apart."""


@dataclass(frozen=True, slots=True)
class AskBack:
    """A reading that no kitchen could show: which one (0 is the first), as typed, and what it may have been.

    `answered` is the reading that was kept in the end; empty while nobody has said.
    """

    reading: int
    typed: str
    ways: tuple[str, ...]
    answered: str = ""


@dataclass(frozen=True, slots=True)
class PointSeen:
    """What the assessor saw at one point; `readings` are the measurements as typed, in the order taken.

    A bare number is kept with the unit it was read in, so that the record still says what was measured when the
    checklist has changed. `asked` are the readings that were asked back before they were judged.
    """

    point: str
    seen: Seen
    readings: tuple[str, ...] = ()
    note: str = ""
    asked: tuple[AskBack, ...] = ()


@dataclass(frozen=True, slots=True)
class PointProblem:
    """Why a point cannot be kept as typed: the value, the rule, and which reading (0 is the first), if one is."""

    point: str
    value: str
    rule: Text
    reading: int | None = None


def next_unseen(technique: Technique, seen: Iterable[str], after: int = 0) -> int | None:
    """Return the number of the first point not seen yet, from *after* on and then from the start; None at the end."""
    done = set(seen)
    unseen = [number for number, point in enumerate(technique.checklist, 1) if point.id not in done]
    return next((number for number in unseen if number > after), unseen[0] if unseen else None)


def judge_point(
    point: Point,
    readings: Sequence[str | Typed],
    tick: Seen | None,
    note: str = "",
    decimal_mark: str | None = None,
) -> PointSeen | PointProblem | AskBack:
    """Return the point as seen, what is wrong with what was typed, or the first reading to be asked back.

    A reading is in the unit told beside its field, a plain text in the line's own; both ends of a line count as
    inside. A reading no kitchen could show is asked back before anything is judged, until it is answered. `tick` None
    lets the readings decide. *Meets it* over readings outside is refused; *not yet* over readings inside needs a note;
    *unsafe* never needs a reading.
    """
    typed = tuple(_stripped(one) for one in readings)
    if tick is not None and tick not in SEEN:
        return PointProblem(point.id, str(tick), message("say meets it, not yet or unsafe."))
    if tick == "unsafe" or point.limit is None or point.judged == "ticked":
        return _ticked(point, _as_far_as_read(point.limit, typed, decimal_mark), tick, note)
    taken = _taken(point, point.limit, typed, decimal_mark)
    if isinstance(taken, PointProblem | AskBack):
        return taken
    return judge_readings(point, taken, tick, note)


def judge_readings(point: Point, taken: Sequence[Reading], tick: Seen | None, note: str) -> PointSeen | PointProblem:
    """Return a measured point as its readings decide it, or why the assessor's word cannot stand over them."""
    inside = sum(point.limit is not None and is_inside(point.limit, one) for one in taken)
    kept = tuple(one.kept for one in taken)
    return _measured(PointSeen(point.id, _suggested(point, inside), kept, note), inside, point, tick)


def is_too_soon(shown_at: datetime | None, now: datetime) -> bool:
    """Return whether a verdict comes before anybody can have seen the point; also where its page was never sent.

    A clock set back between the two holds nobody up.
    """
    return shown_at is None or timedelta(0) <= now - shown_at < A_LOOK


def with_answers(seen: PointSeen, asked: Iterable[AskBack]) -> PointSeen:
    """Return a point with every reading of it that was asked back, each with the reading kept in the end.

    A stop waits for no answer: there a reading that stayed as it was typed was not answered.
    """
    kept = seen.readings
    return replace(seen, asked=tuple(_with_answer(seen, one) for one in asked if one.reading < len(kept)))


def _with_answer(seen: PointSeen, asked: AskBack) -> AskBack:
    reading = seen.readings[asked.reading]
    return asked if seen.seen == "unsafe" and reading == asked.ways[0] else replace(asked, answered=reading)


def point_seen(line: Mapping[str, Any]) -> PointSeen:
    """Return one point as the book or a draft keeps it; an older line has nothing that was asked back."""
    asked = tuple(asked_back(one) for one in line.get("asked", ()))
    return PointSeen(line["point"], line["seen"], tuple(line.get("readings", ())), line.get("note", ""), asked)


def asked_back(kept: Mapping[str, Any]) -> AskBack:
    """Return one reading asked back, as the book or a draft keeps it."""
    return AskBack(kept["reading"], kept["typed"], tuple(kept["ways"]), kept.get("answered", ""))


def _stripped(reading: str | Typed) -> Typed:
    return Typed(reading.strip()) if isinstance(reading, str) else replace(reading, text=reading.text.strip())


def _as_far_as_read(limit: Limit | None, typed: Sequence[Typed], decimal_mark: str | None) -> tuple[str, ...]:
    """Return what was keyed in before a stop, each with its unit where it can be read at all."""
    found = []
    for one in typed:
        reading = read(limit, one, decimal_mark) if limit is not None and one.text else one.text
        found.append(reading.kept if isinstance(reading, Reading) else one.text)
    return tuple(text for text in found if text)


def _ticked(point: Point, typed: tuple[str, ...], tick: Seen | None, note: str) -> PointSeen | PointProblem:
    if tick is None:
        return PointProblem(point.id, "", message("say meets it, not yet or unsafe."))
    return PointSeen(point.id, tick, typed, note)


def _suggested(point: Point, inside: int) -> Seen:
    return "meets it" if inside >= point.pieces_inside else "not yet"


def _measured(counted: PointSeen, inside: int, point: Point, tick: Seen | None) -> PointSeen | PointProblem:
    """Return the point with the assessor's word in place of the numbers', where that word may stand."""
    if tick is None or tick == counted.seen:
        return counted
    if tick == "meets it":
        return PointProblem(point.id, tick, _too_few(counted, inside, point))
    if not counted.note.strip():
        return PointProblem(point.id, tick, message("the readings are inside: say in the note what was not right."))
    return PointSeen(point.id, tick, counted.readings, counted.note)


def _too_few(counted: PointSeen, inside: int, point: Point) -> Text:
    """Return why nobody can say *meets it* over these readings."""
    if point.pieces == 1:
        return message("the reading is outside the line, and the reading decides. Say not yet, or measure again.")
    return message(
        "{inside} of {taken} inside the line, {need} needed: the readings decide. Say not yet, or measure again.",
        inside=inside,
        taken=len(counted.readings),
        need=point.pieces_inside,
    )


def _taken(
    point: Point, limit: Limit, typed: Sequence[Typed], decimal_mark: str | None
) -> list[Reading] | PointProblem | AskBack:
    """Return every reading, or the first thing that is wrong with them, or the first that is asked back."""
    blank = next((place for place, one in enumerate(typed) if not one.text), len(typed))
    if blank != point.pieces or len(typed) != point.pieces:
        taken = sum(bool(one.text) for one in typed)
        rule = message("{taken} of {need} readings: take {need}.", taken=taken, need=point.pieces)
        if point.pieces == 1:
            rule = message("the reading is missing: measure, and key it in.")
        return PointProblem(point.id, "", rule, blank)
    found = []
    for place, one in enumerate(typed):
        reading = read(limit, one, decimal_mark)
        if not isinstance(reading, Reading):
            return PointProblem(point.id, one.text, reading, place)
        found.append(reading)
    return _answered(limit, typed, found, decimal_mark)


def _answered(
    limit: Limit, typed: Sequence[Typed], found: Sequence[Reading], decimal_mark: str | None
) -> list[Reading] | AskBack:
    """Return every reading as it was answered where it was asked back, or the first that still has to be."""
    settled = []
    for place, (one, reading) in enumerate(zip(typed, found, strict=True)):
        ways = ways_to_read(limit, reading, decimal_mark)
        if ways and one.answered not in ways:
            return AskBack(place, one.text, ways)
        meant = read(limit, replace(one, text=one.answered), decimal_mark) if ways else reading
        settled.append(meant if isinstance(meant, Reading) else reading)
    return settled


def note_text(note: str) -> Text:
    """Return a note as it was written; the one the program writes itself in any language.

    >>> note_text("Helped or coached."), note_text("slow")
    (message('Helped or coached.'), 'slow')
    """
    return note if isinstance(note, Erased) else NOTE_WORDS.get(note.strip(), note.strip())
