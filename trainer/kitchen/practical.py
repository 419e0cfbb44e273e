"""A watched run through a checklist, point by point; the verdict that follows is in `verdicts`.

Numbers decide what was measured: nobody can say *meets it* over readings that lie outside. An assessor may always be
stricter, with a note, and may always say *unsafe*.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from types import MappingProxyType
from typing import Any, Literal

from trainer.kitchen.measured import Reading, Typed, is_inside, read, ways_to_read
from trainer.kitchen.papers import Erased
from trainer.kitchen.technique import Point
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
        "not seen": message("not looked at"),
    }
)
"""What is said of a point or of the whole, for a page to tell in any language."""
NOTE_WORDS: Mapping[str, Message] = MappingProxyType({"Helped or coached.": message("Helped or coached.")})
"""The note of an older program on a practical that was lowered because the assessor helped."""
PICKED = frozenset({"tasted", "pictures"})
"""How a point is judged by picking one of three: too little, right, too far."""
RIGHT = "right"
MISSING = message("the reading is missing: measure, and key it in.")
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
    checklist has changed. `asked` are the readings that were asked back before they were judged. `said` are the choices
    that were ticked, or the one that was picked. `timed` is how each reading was timed, by the watch or by hand; empty
    where none was, or where it is not known. `cause` is what was unsafe, by the mark of its hazard.
    """

    point: str
    seen: Seen
    readings: tuple[str, ...] = ()
    note: str = ""
    asked: tuple[AskBack, ...] = ()
    said: tuple[str, ...] = ()
    timed: tuple[str, ...] = ()
    cause: str = ""


@dataclass(frozen=True, slots=True)
class PointProblem:
    """Why a point cannot be kept as typed: the value, the rule, and which reading (0 is the first), if one is."""

    point: str
    value: str
    rule: Text
    reading: int | None = None


def next_unseen(points: Sequence[Point], seen: Iterable[str], after: int = 0) -> int | None:
    """Return the number of the first point not seen yet, from *after* on and then from the start; None at the end."""
    done = set(seen)
    unseen = [number for number, point in enumerate(points, 1) if point.id not in done]
    return next((number for number in unseen if number > after), unseen[0] if unseen else None)


def judge_point(  # noqa: PLR0913, PLR0917 - a look has so much
    point: Point,
    readings: Sequence[str | Typed],
    tick: Seen | None,
    note: str = "",
    decimal_mark: str | None = None,
    said: Sequence[str] = (),
) -> PointSeen | PointProblem | AskBack:
    """Return the point as seen, what is wrong with what was typed, or the first reading to be asked back.

    A reading is in the unit told beside its field, a plain text in the line's own; both ends of a line count as
    inside. A reading no kitchen could show is asked back before anything is judged, until it is answered. `tick` None
    lets the readings decide. *Meets it* over readings outside is refused; *not yet* over readings inside needs a note;
    *unsafe* never needs a reading. What was *said* decides as readings do: enough of what is expected, or the right one
    of three.
    """
    typed = tuple(_stripped(one) for one in readings)
    known = tuple(choice.id for choice in point.choices if choice.id in said)
    if tick is not None and tick not in SEEN:
        return PointProblem(point.id, str(tick), message("say meets it, not yet or unsafe."))
    if tick == "unsafe" or (not point.lines and not point.choices) or point.judged == "ticked":
        return _ticked(point, _as_far_as_read(point, typed, decimal_mark), tick, note, known)
    if point.choices:
        return judge_said(point, known, tick, note)
    taken = _taken(point, typed, decimal_mark)
    if isinstance(taken, PointProblem | AskBack):
        return taken
    return judge_readings(point, taken, tick, note)


def read_piece(
    point: Point, piece: int, typed: Sequence[str | Typed], decimal_mark: str | None = None
) -> tuple[str, ...] | PointProblem | AskBack:
    """Return the readings of one piece (0 is the first) as they are kept; what is wrong, or what is asked back.

    Nothing is judged yet: that waits for the last piece.
    """
    kept = []
    for place, one in enumerate(map(_stripped, typed), piece * len(point.lines)):
        if not one.text:
            return PointProblem(point.id, "", MISSING, place)
        found = _reading_at(point, place, one, decimal_mark)
        if not isinstance(found, Reading):
            return found
        kept.append(found.kept)
    return tuple(kept)


def judge_readings(point: Point, taken: Sequence[Reading], tick: Seen | None, note: str) -> PointSeen | PointProblem:
    """Return a measured point as its readings decide it, or why the assessor's word cannot stand over them."""
    met = [is_inside(point.line_of(place), one) for place, one in enumerate(taken)]
    each = max(1, len(point.lines))
    inside = sum(all(met[first : first + each]) for first in range(0, len(met), each))
    kept = tuple(one.kept for one in taken)
    return _measured(PointSeen(point.id, _suggested(point, inside), kept, note), inside, point, tick)


def judge_said(point: Point, said: Sequence[str], tick: Seen | None, note: str) -> PointSeen | PointProblem:
    """Return a point as what was said decides it, or why the assessor's word cannot stand over that.

    Tasted, or judged by pictures, one of three is picked, and *right* meets it. *Not yet* over all that was needed
    takes a note.
    """
    picks_one = point.judged in PICKED
    if picks_one and len(said) != 1:
        return PointProblem(point.id, "", message("pick one of the three: what you saw or tasted."))
    is_met = said[0] == RIGHT if picks_one else len(said) >= point.need
    counted = PointSeen(point.id, "meets it" if is_met else "not yet", note=note, said=tuple(said))
    if tick is None or tick == counted.seen:
        return counted
    if tick == "meets it":
        return PointProblem(point.id, tick, _said_too_little(point, said))
    if not note.strip():
        return PointProblem(point.id, tick, message("all of it was said: say in the note what was not right."))
    return replace(counted, seen=tick)


def _said_too_little(point: Point, said: Sequence[str]) -> Text:
    """Return why nobody can say *meets it* over what was said."""
    if point.judged in PICKED:
        return message("you picked what is not right, and that decides. Say not yet, or pick again.")
    return message(
        "{said} of {need} ticked. Tick what you heard; if that was all, say not yet.", said=len(said), need=point.need
    )


def is_too_soon(shown_at: datetime | None, now: datetime) -> bool:
    """Return whether a verdict comes before anybody can have seen the point; also where its page was never sent.

    A clock set back between the two holds nobody up.
    """
    return shown_at is None or timedelta(0) <= now - shown_at < A_LOOK


def with_answers(seen: PointSeen, asked: Collection[AskBack]) -> PointSeen:
    """Return a point with every reading of it that was asked back, each with the reading kept in the end.

    A stop waits for no answer: there a reading that stayed as it was typed was not answered.
    """
    if not asked:
        return seen
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


def _as_far_as_read(point: Point, typed: Sequence[Typed], decimal_mark: str | None) -> tuple[str, ...]:
    """Return what was keyed in before a stop, each with its unit where it can be read at all."""
    found = []
    for place, one in enumerate(typed):
        reading = read(point.line_of(place), one, decimal_mark) if point.lines and one.text else one.text
        found.append(reading.kept if isinstance(reading, Reading) else one.text)
    return tuple(text for text in found if text)


def _ticked(
    point: Point, typed: tuple[str, ...], tick: Seen | None, note: str, said: tuple[str, ...]
) -> PointSeen | PointProblem:
    if tick is None:
        return PointProblem(point.id, "", message("say meets it, not yet or unsafe."))
    return PointSeen(point.id, tick, typed, note, said=said)


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
    if point.pieces == 1 and point.then is None:
        return message("the reading is outside the line, and the reading decides. Say not yet, or measure again.")
    if point.pieces == 1:
        return message("a reading is outside its line, and the readings decide. Say not yet, or measure again.")
    return message(
        "{inside} of {taken} inside the line, {need} needed: the readings decide. Say not yet, or measure again.",
        inside=inside,
        taken=point.pieces,
        need=point.pieces_inside,
    )


def _taken(point: Point, typed: Sequence[Typed], decimal_mark: str | None) -> list[Reading] | PointProblem | AskBack:
    """Return every reading, or the first thing that is wrong with them, or the first that is asked back."""
    blank = next((place for place, one in enumerate(typed) if not one.text), len(typed))
    need = point.pieces * len(point.lines)
    if blank != need or len(typed) != need:
        taken = sum(bool(one.text) for one in typed)
        rule = message("{taken} of {need} readings: take {need}.", taken=taken, need=need)
        if need == 1:
            rule = MISSING
        return PointProblem(point.id, "", rule, blank)
    found = [_reading_at(point, place, one, decimal_mark) for place, one in enumerate(typed)]
    wrong = next((one for one in found if isinstance(one, PointProblem)), None)
    asked = next((one for one in found if isinstance(one, AskBack)), None)
    return wrong or asked or [one for one in found if isinstance(one, Reading)]


def _reading_at(point: Point, place: int, typed: Typed, decimal_mark: str | None) -> Reading | PointProblem | AskBack:
    """Return one reading, as it was answered where it was asked back; what is wrong with it; or that it is asked."""
    limit = point.line_of(place)
    reading = read(limit, typed, decimal_mark)
    if not isinstance(reading, Reading):
        return PointProblem(point.id, typed.text, reading, place)
    ways = ways_to_read(limit, reading, decimal_mark)
    if ways and typed.answered not in ways:
        return AskBack(place, typed.text, ways)
    meant = read(limit, replace(typed, text=typed.answered), decimal_mark) if ways else reading
    return meant if isinstance(meant, Reading) else reading


def note_text(note: str) -> Text:
    """Return a note as it was written; the one the program writes itself in any language.

    >>> note_text("Helped or coached."), note_text("slow")
    (message('Helped or coached.'), 'slow')
    """
    return note if isinstance(note, Erased) else NOTE_WORDS.get(note.strip(), note.strip())
