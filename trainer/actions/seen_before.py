"""A law point that was seen met a short time ago, in another practical of the same cook: it needs no second look."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.practical_drafts import Practical
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.spans import in_words
from trainer.kitchen.watched_points import SeenBefore, WatchedPoint, point_from
from trainer.messages import message

COUNTS_FOR = timedelta(days=30)
"""How long a law point that was seen met is taken as seen: the house's own bound."""


def with_seen_before(
    k: Kitchen, cook: str, points: tuple[WatchedPoint, ...], day: Snapshot
) -> tuple[WatchedPoint, ...]:
    """Return the points, each law that was seen met lately with where it was; one that was looked at stays as it is."""
    known = _seen_lately(k, cook, day)
    return tuple(point if point.looks else replace(point, before=known.get(_asked(point))) for point in points)


def counts_no_more(k: Kitchen, found: Practical, day: Snapshot) -> Refused | None:
    """Return the refusal of a practical with a point taken as seen, which does not count any more."""
    now = {point.id: point.before for point in with_seen_before(k, found.cook, found.points, day)}
    gone = next((p for p in found.points if p.before and not p.looks and now[p.id] != p.before), None)
    if gone is None or gone.before is None:
        return None
    words = message(
        "“{point}” was seen on {day}, and that counts no more. Look at it now.",
        point=gone.words.rstrip("."),
        day=in_words(gone.before.on),
    )
    return Refused(words, "", "practical")


def _seen_lately(k: Kitchen, cook: str, day: Snapshot) -> dict[object, SeenBefore]:
    """Return where each law was seen met by somebody's own eyes: the last time, and not before a stop of this cook."""
    lines = day.progress.record(cook).as_of(day.on).watched
    stopped = max((line.seq for line in lines if line.verdict == "stopped"), default=0)
    found: dict[object, SeenBefore] = {}
    for line in (line for line in lines if line.seq > stopped and day.on - line.on <= COUNTS_FOR):
        entry = k.file.book.find(line.entry)
        kept = entry.body["points"] if entry is not None and "titles" in entry.body else ()
        laws = (point_from(one) for one in kept if one.get("type") == "law" and one["looks"])
        for point in laws:
            if point.word == "meets it" and point.limit is not None:
                found[_asked(point)] = SeenBefore(line.entry, line.on, point.looks[-1].by)
    return found


def _asked(point: WatchedPoint) -> object:
    """Return what makes two points one: the id, how it is judged, and the line."""
    if point.type != "law" or point.limit is None:
        return None
    return point.id, point.judged, point.ends, point.pieces
