"""The points of a practical as drafts and the book keep them: the words that were read, the limits, every look.

What a page shows of a signed practical is here, so that nothing is asked of the content again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from fractions import Fraction
from typing import Any, Literal

from trainer.kitchen.book import moment_text
from trainer.kitchen.measured import Reading, Typed, read
from trainer.kitchen.practical import AskBack, PointSeen, Seen, with_answers
from trainer.kitchen.technique import Judged, Limit, Point, PointChoice, PointType, Technique
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS

Amount = tuple[str, str]
"""A number as an exact fraction, and the symbol of its unit; both empty where nothing could be read."""
ENDS = ("low", "high", "target")


@dataclass(frozen=True, slots=True)
class LookTaken:
    """One look at a point: when, by whom and what was seen; `amounts` are its readings as exact numbers.

    `at` is None, and `by` empty, where a program that did not keep them wrote it. `attempt` is which of the cook's
    tries it was.
    """

    at: datetime | None
    by: str
    seen: PointSeen
    amounts: tuple[Amount, ...] = ()
    attempt: int = 1


@dataclass(frozen=True, slots=True)
class SeenBefore:
    """Where a point was seen met before: the entry of that practical, its day, and who looked."""

    entry: str
    on: date
    by: str


@dataclass(frozen=True, slots=True)
class WatchedPoint:
    """A point of a checklist as it was read, with the line it was held to and every look at it, the first one first.

    `language` is the one its words are in. The fields from `type` to `law` are those of `Point`. With `before` it is
    taken as met where nobody looks again. `gathered` are the readings of a look that is not finished, piece by piece,
    one not taken yet empty.
    """

    id: str
    words: str
    critical: bool
    judged: Judged = "ticked"
    pieces: int = 1
    inside: int = 1
    limit: Limit | None = None
    looks: tuple[LookTaken, ...] = ()
    language: str = "en"
    type: PointType = ""
    then: Limit | None = None
    choices: tuple[PointChoice, ...] = ()
    need: int = 0
    cases: tuple[str, ...] = ()
    tries: int = 1
    tools: tuple[str, ...] = ()
    law: Limit | None = None
    before: SeenBefore | None = None
    gathered: tuple[str, ...] = ()

    @property
    def last(self) -> PointSeen | None:
        """Return what was seen at the last look; None where nobody has looked."""
        return self.looks[-1].seen if self.looks else None

    @property
    def is_unsafe(self) -> bool:
        """Return whether something unsafe was seen at any look: that stays."""
        return any(look.seen.seen == "unsafe" for look in self.looks)

    @property
    def word(self) -> Seen | Literal["not seen"]:
        """Return what is said of the point: the last look's word, and unsafe once that was seen."""
        if self.last is None:
            return "meets it" if self.before else "not seen"
        return "unsafe" if self.is_unsafe else self.last.seen

    @property
    def as_asked(self) -> Point:
        """Return the point as the checklist had it, to be judged by."""
        plain = Point(self.id, self.words, self.critical, self.judged, self.limit, self.pieces, self.inside)
        return replace(plain, **{name: getattr(self, name) for name in _TYPED})

    @property
    def readings_so_far(self) -> tuple[str, ...]:
        """Return a reading a place: of the look that is not finished, else of the last one; empty where none is taken.

        Where the cook makes one more, nothing of the one before is taken over.
        """
        need = self.pieces * len(self.as_asked.lines)
        last = self.last.readings if self.last and not self.may_be_made_again else ()
        return self.gathered or (last if len(last) == need else ("",) * need)

    @property
    def attempts(self) -> int:
        """Return how often the cook has made it; 0 where nobody has looked."""
        return max((look.attempt for look in self.looks), default=0)

    @property
    def may_be_made_again(self) -> bool:
        """Return whether the cook has missed it and may make one more in this practical."""
        return self.word == "not yet" and self.attempts < self.tries

    def said_words(self, seen: PointSeen) -> tuple[str, ...]:
        """Return the choices that were ticked or picked at a look, in the words that were read."""
        return tuple(choice.text for choice in self.choices if choice.id in seen.said)

    @property
    def ends(self) -> tuple[object, ...]:
        """Return the ends and the target of each line it is held to."""
        return tuple((line.lowest, line.highest, line.target) if line is not None else () for line in _lines(self))

    @property
    def asks(self) -> tuple[object, ...]:
        """Return what it asks of a cook, whatever its words: another of these is another checklist."""
        choices = tuple((choice.id, choice.value) for choice in self.choices)
        typed = (self.type, choices, self.need, self.cases, self.tries)
        return self.id, self.critical, self.judged, self.pieces, self.inside, self.ends, typed


def _lines(point: WatchedPoint) -> tuple[Limit | None, Limit | None]:
    return point.limit, point.then


_TYPED = ("type", "then", "choices", "need", "cases", "tries", "tools", "law")
"""The fields a point of a typed checklist has beside those of the former kind."""


def points_of(technique: Technique, case: str = "", part: str = "") -> tuple[WatchedPoint, ...]:
    """Return the checklist of a technique in its words, as far as a case and a part ask for it, nothing looked at."""
    return tuple(not_seen_yet(point, technique.words_edition) for point in technique.points_in(case, part))


def not_seen_yet(p: Point, language: str) -> WatchedPoint:
    """Return a point in the words of a language, nobody having looked yet."""
    typed = {name: getattr(p, name) for name in _TYPED}
    return WatchedPoint(p.id, p.text, p.critical, p.judged, p.pieces, p.pieces_inside, p.limit, (), language, **typed)


def seen_points(technique: Technique, seen: Iterable[PointSeen]) -> tuple[WatchedPoint, ...]:
    """Return the checklist of a technique as it was seen, by whom and when not being known."""
    by_point = {each.point: LookTaken(None, "", each) for each in seen}
    return tuple(
        replace(point, looks=(by_point[point.id],)) if point.id in by_point else point for point in points_of(technique)
    )


def is_same_checklist(one: Sequence[WatchedPoint], other: Sequence[WatchedPoint]) -> bool:
    """Return whether two checklists ask the same of a cook, in the same sequence; words alone are no difference."""
    return [point.asks for point in one] == [point.asks for point in other]


def look_taken(  # noqa: PLR0913 - a look, all by name
    point: Point, seen: PointSeen, *, by: str, at: datetime, decimal_mark: str, attempt: int = 1
) -> LookTaken:
    """Return a look at a point, with its readings as exact numbers where they can be read."""
    lines = [point.line_of(place) if point.lines else None for place in range(len(seen.readings))]
    amounts = (_amount(line, text, decimal_mark) for line, text in zip(lines, seen.readings, strict=True))
    return LookTaken(at, by, seen, tuple(amounts), attempt)


def _amount(limit: Limit | None, kept: str, decimal_mark: str) -> Amount:
    found = read(limit, Typed(kept), decimal_mark) if limit is not None else ""
    return (str(found.number), found.unit.symbol) if isinstance(found, Reading) else ("", "")


def point_kept(point: WatchedPoint) -> dict[str, Any]:
    """Return a point as drafts and the book keep it; what it does not have is left out."""
    kept: dict[str, Any] = {
        "point": point.id,
        "words": point.words,
        "language": point.language,
        "critical": point.critical,
        "judged": point.judged,
        "looks": [_look_kept(look) for look in point.looks],
    }
    if point.limit is not None:
        lines = [line for line in _lines(point) if line is not None]
        kept |= {"pieces": [point.pieces, point.inside], "limits": [_limit_kept(line) for line in lines]}
    gathered = {"gathered": list(point.gathered)} if point.gathered else {}
    return kept | _typed_kept(point) | gathered


def _typed_kept(point: WatchedPoint) -> dict[str, Any]:
    """Return what a point of a typed checklist has beside; nothing for one of the former kind."""
    choices = [[choice.id, choice.text, *([choice.value] if choice.value else [])] for choice in point.choices]
    tries = point.tries if point.tries > 1 else 0
    law = _limit_kept(point.law) if point.law else None
    more = {"expects": choices, "need": point.need, "cases": list(point.cases), "tries": tries, "law": law}
    before = point.before and [point.before.entry, point.before.on.isoformat(), point.before.by]
    return _not_empty(type=point.type, **more, **{"with": list(point.tools)}, leans_on=None if point.looks else before)


def point_from(kept: Mapping[str, Any]) -> WatchedPoint:
    """Return a point as it was kept."""
    pieces, inside = kept.get("pieces", (1, 1))
    limit, then = [*map(_limit_from, kept.get("limits", ())), None, None][:2]
    looks = tuple(_look_from(kept["point"], look) for look in kept["looks"])
    p = kept
    return WatchedPoint(
        p["point"],
        p["words"],
        p["critical"],
        p["judged"],
        pieces,
        inside,
        limit,
        looks,
        p["language"],
        type=p.get("type", ""),
        then=then,
        choices=tuple(PointChoice(*one) for one in p.get("expects", ())),
        need=p.get("need", 0),
        cases=tuple(p.get("cases", ())),
        tries=p.get("tries", 1),
        tools=tuple(p.get("with", ())),
        law=_limit_from(p["law"]) if "law" in p else None,
        before=_before_from(p["leans_on"]) if "leans_on" in p else None,
        gathered=tuple(p.get("gathered", ())),
    )


def _before_from(kept: Sequence[str]) -> SeenBefore:
    entry, on, by = kept
    return SeenBefore(entry, date.fromisoformat(on), by)


def _limit_kept(limit: Limit) -> dict[str, Any]:
    ends = zip(ENDS, (limit.lowest, limit.highest, limit.target), strict=True)
    measured = {name: [str(end.amount), end.unit.symbol] for name, end in ends if end is not None}
    return {"id": limit.id, **measured, "source": limit.source}


def _limit_from(kept: Mapping[str, Any]) -> Limit:
    low, high, target = (_quantity(kept[name]) if name in kept else None for name in ENDS)
    return Limit(kept["id"], low, high, target, kept["source"])


def _quantity(kept: Sequence[str]) -> Quantity:
    number, symbol = kept
    return Quantity(Fraction(number), UNITS[symbol])


def _look_kept(look: LookTaken) -> dict[str, Any]:
    """Return one look; each reading is its number, its unit, the text with its unit, and what it was asked back as."""
    seen, kept = look.seen, {"seen": look.seen.seen}
    readings: list[list[Any]] = []
    for place, (text, amount) in enumerate(zip(seen.readings, look.amounts, strict=True)):
        asked = [list(one.ways) for one in seen.asked if one.reading == place]
        readings.append([*amount, text, asked] if asked else [*amount, text])
    told = {"at": moment_text(look.at) if look.at else "", "by": look.by}
    attempt = look.attempt if look.attempt > 1 else 0
    more = _not_empty(readings=readings, said=list(seen.said), note=seen.note, cause=seen.cause)
    more |= _not_empty(timed=list(seen.timed), attempt=attempt)
    return {**{k: v for k, v in told.items() if v}, **kept, **more}


def _not_empty(**found: Any) -> dict[str, Any]:  # noqa: ANN401 - whatever a body holds
    return {name: value for name, value in found.items() if value}


def _look_from(point: str, kept: Mapping[str, Any]) -> LookTaken:
    readings = kept.get("readings", ())
    asked = [
        AskBack(place, ways[0], tuple(ways)) for place, one in enumerate(readings) for ways in (one[3:] or [()])[0]
    ]
    said, note = tuple(kept.get("said", ())), kept.get("note", "")
    texts, timed, cause = tuple(one[2] for one in readings), tuple(kept.get("timed", ())), kept.get("cause", "")
    seen = PointSeen(point, kept["seen"], texts, note, said=said, timed=timed, cause=cause)
    at = datetime.fromisoformat(kept["at"]) if "at" in kept else None
    amounts = tuple((one[0], one[1]) for one in readings)
    return LookTaken(at, kept.get("by", ""), with_answers(seen, asked), amounts, kept.get("attempt", 1))
