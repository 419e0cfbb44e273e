"""The points of a practical as drafts and the book keep them: the words that were read, the limits, every look.

What a page shows of a signed practical is here, so that nothing is asked of the content again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction
from typing import Any, Literal

from trainer.kitchen.book import moment_text
from trainer.kitchen.measured import Reading, Typed, read
from trainer.kitchen.practical import AskBack, PointSeen, Seen, with_answers
from trainer.kitchen.technique import Judged, Limit, Point, Technique
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS

Amount = tuple[str, str]
"""A number as an exact fraction, and the symbol of its unit; both empty where nothing could be read."""
ENDS = ("low", "high", "target")


@dataclass(frozen=True, slots=True)
class LookTaken:
    """One look at a point: when, by whom and what was seen; `amounts` are its readings as exact numbers.

    `at` is None, and `by` empty, where a program that did not keep them wrote it.
    """

    at: datetime | None
    by: str
    seen: PointSeen
    amounts: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True)
class WatchedPoint:
    """A point of a checklist as it was read, with the line it was held to and every look at it, the first one first.

    `language` is the one its words are in.
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
        return "unsafe" if self.is_unsafe else self.last.seen if self.last else "not seen"

    @property
    def as_asked(self) -> Point:
        """Return the point as the checklist had it, to be judged by."""
        return Point(self.id, self.words, self.critical, self.judged, self.limit, self.pieces, self.inside)

    @property
    def asks(self) -> tuple[object, ...]:
        """Return what it asks of a cook, whatever its words: another of these is another checklist."""
        line = self.limit
        ends = (line.lowest, line.highest, line.target) if line is not None else ()
        return self.id, self.critical, self.judged, self.pieces, self.inside, ends


def points_of(technique: Technique) -> tuple[WatchedPoint, ...]:
    """Return the checklist of a technique in its words, nobody having looked yet."""
    return tuple(_not_seen_yet(point, technique.words_edition) for point in technique.checklist)


def _not_seen_yet(p: Point, language: str) -> WatchedPoint:
    return WatchedPoint(p.id, p.text, p.critical, p.judged, p.pieces, p.pieces_inside, p.limit, (), language)


def seen_points(technique: Technique, seen: Iterable[PointSeen]) -> tuple[WatchedPoint, ...]:
    """Return the checklist of a technique as it was seen, by whom and when not being known."""
    by_point = {each.point: LookTaken(None, "", each) for each in seen}
    return tuple(
        replace(point, looks=(by_point[point.id],)) if point.id in by_point else point for point in points_of(technique)
    )


def is_same_checklist(one: Sequence[WatchedPoint], other: Sequence[WatchedPoint]) -> bool:
    """Return whether two checklists ask the same of a cook, in the same sequence; words alone are no difference."""
    return [point.asks for point in one] == [point.asks for point in other]


def look_taken(limit: Limit | None, seen: PointSeen, *, by: str, at: datetime, decimal_mark: str) -> LookTaken:
    """Return a look at a point, with its readings as exact numbers where they can be read."""
    return LookTaken(at, by, seen, tuple(_amount(limit, text, decimal_mark) for text in seen.readings))


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
        kept |= {"pieces": [point.pieces, point.inside], "limits": [_limit_kept(point.limit)]}
    return kept


def point_from(kept: Mapping[str, Any]) -> WatchedPoint:
    """Return a point as it was kept."""
    pieces, inside = kept.get("pieces", (1, 1))
    limit = next((_limit_from(one) for one in kept.get("limits", ())), None)
    looks = tuple(_look_from(kept["point"], look) for look in kept["looks"])
    p = kept
    return WatchedPoint(p["point"], p["words"], p["critical"], p["judged"], pieces, inside, limit, looks, p["language"])


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
    return {**{k: v for k, v in told.items() if v}, **kept, **_not_empty(readings=readings, note=seen.note)}


def _not_empty(**found: Any) -> dict[str, Any]:  # noqa: ANN401 - whatever a body holds
    return {name: value for name, value in found.items() if value}


def _look_from(point: str, kept: Mapping[str, Any]) -> LookTaken:
    readings = kept.get("readings", ())
    asked = [
        AskBack(place, ways[0], tuple(ways)) for place, one in enumerate(readings) for ways in (one[3:] or [()])[0]
    ]
    seen = PointSeen(point, kept["seen"], tuple(one[2] for one in readings), kept.get("note", ""))
    at = datetime.fromisoformat(kept["at"]) if "at" in kept else None
    return LookTaken(at, kept.get("by", ""), with_answers(seen, asked), tuple((one[0], one[1]) for one in readings))
