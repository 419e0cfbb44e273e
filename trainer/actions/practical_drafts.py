"""Practicals under way, as their drafts keep them: begun by whom, what was seen so far, what was asked back.

A draft keeps the checklist as it was read, so that what was begun can be shown, stopped and put away whatever becomes
of the technique.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.kitchen.book import moment_text
from trainer.kitchen.practical import AskBack, PointSeen, asked_back, point_seen
from trainer.kitchen.technique import Technique
from trainer.kitchen.verdicts import Verdict, verdict_on
from trainer.kitchen.watched_points import LookTaken, WatchedPoint, point_from, point_kept, points_of
from trainer.messages import message
from trainer.store.drafts import Draft
from trainer.store.identity import moment

NOT_OPEN = Refused(message("That practical is not open any more: it was signed or put away."), "", "practical")
NOT_YOURS = Refused(
    message("Somebody else is watching this practical."),
    message("Whoever has it in hand can go on with it, or hand it on."),
    "practical",
)


@dataclass(frozen=True, slots=True)
class Titles:
    """What technique and station were called when a practical was begun, as the assessor read it, and the language."""

    technique: str
    station: str
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Practical:
    """A practical under way, kept point by point, under the standard of that number; `need` scored points are needed.

    `after` is the last entry of the book when it was begun; None in a draft of a program that did not keep it.
    `shown` says when each point's page was first sent, by device; `asked` are readings asked back and not kept yet.
    `coached`: somebody who handed it on had helped.
    """

    id: str
    by: str
    cook: str
    technique: str
    edition: int
    station: str
    started: datetime
    titles: Titles
    points: tuple[WatchedPoint, ...]
    need: int
    standard: int = 0
    after: int | None = None
    shown: Mapping[str, Mapping[str, datetime]] = field(default_factory=dict)
    asked: Mapping[str, tuple[AskBack, ...]] = field(default_factory=dict)
    coached: bool = False

    @property
    def seen(self) -> Mapping[str, PointSeen]:
        """Return what was seen at the last look at each point that was looked at."""
        return {point.id: point.last for point in self.points if point.last is not None}

    @property
    def verdict(self) -> Verdict:
        """Return what the verdict would be if it were signed now."""
        return verdict_on(self.points, self.need)

    @property
    def unsafe(self) -> tuple[str, ...]:
        """Return the points at which something unsafe was seen: that stays, and only a stop can be signed."""
        return tuple(point.id for point in self.points if point.is_unsafe)

    def with_point(self, changed: WatchedPoint) -> Practical:
        """Return the practical with another state of one point."""
        return replace(self, points=tuple(changed if point.id == changed.id else point for point in self.points))

    def point(self, name: str) -> WatchedPoint | None:
        """Return a point of the checklist it was begun with, or None."""
        return next((point for point in self.points if point.id == name), None)


def find_practical(k: Kitchen, practical: str) -> Practical | None:
    """Return a practical under way by id."""
    draft = k.file.drafts.get(practical)
    return _practical(k, draft) if draft is not None and draft.kind == "practical" else None


def practicals_by(k: Kitchen, by: str) -> tuple[Practical, ...]:
    """Return what an assessor has under way, oldest first."""
    return tuple(_practical(k, draft) for draft in k.file.drafts.list("practical", by=by))


def watched_by_others(k: Kitchen, *, by: str, cook: str, technique: str) -> tuple[Practical, ...]:
    """Return what others have under way of the same cook and technique, oldest first: only one of all can be signed."""
    drafts = k.file.drafts.list("practical", cook=cook)
    return tuple(_practical(k, draft) for draft in drafts if draft.about == technique and draft.by != by)


def own_practical(k: Kitchen, by: str, practical: str) -> Practical | Refused:
    """Return the assessor's own practical, or why it is not theirs to touch."""
    found = find_practical(k, practical)
    if found is None:
        return NOT_OPEN
    return found if found.by == by else NOT_YOURS


def draft_of(practical: Practical) -> Draft:
    """Return a practical as it is kept."""
    p = practical
    shown = {point: {at: moment_text(when) for at, when in devices.items()} for point, devices in p.shown.items()}
    asked = {point: [_asked(one) for one in asks] for point, asks in p.asked.items()}
    body = {
        "edition": p.edition,
        "standard": p.standard,
        "station": p.station,
        **titles_kept(p.titles),
        "need": p.need,
        "points": points_kept(p),
        "after": p.after,
        "shown": shown,
        "asked": asked,
        "coached": p.coached,
    }
    return Draft(p.id, "practical", p.technique, p.cook, p.by, body, p.started)


def titles_kept(titles: Titles) -> dict[str, Any]:
    """Return the titles as drafts and the book keep them."""
    return {"titles": {"technique": titles.technique, "station": titles.station}, "language": titles.language}


def points_kept(practical: Practical) -> list[dict[str, Any]]:
    """Return every point of the checklist with its looks, as drafts and the book keep it."""
    return [point_kept(point) for point in practical.points]


def _asked(one: AskBack) -> dict[str, Any]:
    return {"reading": one.reading, "typed": one.typed, "ways": list(one.ways)}


def _practical(k: Kitchen, draft: Draft) -> Practical:
    """Return a draft as a practical; one of an older program is filled up from the technique, where it is there."""
    body, technique = draft.body, k.content.techniques.get(draft.about)
    if "titles" in body:
        titles = Titles(body["titles"]["technique"], body["titles"]["station"], body["language"])
        points, need = tuple(map(point_from, body["points"])), body["need"]
    else:
        titles, points = _titles_of(k, draft), _points_of_before(draft, technique)
        need = technique.scored_needed if technique else 0
    shown = {
        point: {at: moment(when) for at, when in devices.items()} for point, devices in body.get("shown", {}).items()
    }
    return Practical(
        id=draft.id,
        by=draft.by,
        cook=draft.cook,
        technique=draft.about,
        edition=body["edition"],
        station=body["station"],
        started=draft.at,
        titles=titles,
        points=points,
        need=need,
        standard=body.get("standard", 0),
        after=body.get("after"),
        shown=shown,
        asked={point: tuple(asked_back(one) for one in asks) for point, asks in body.get("asked", {}).items()},
        coached=body.get("coached", False),
    )


def _titles_of(k: Kitchen, draft: Draft) -> Titles:
    """Return today's titles for a draft that keeps none; the id of what is not there any more."""
    technique, station = k.content.techniques.get(draft.about), k.content.stations.get(draft.body["station"])
    return Titles(technique.title if technique else draft.about, station.title if station else draft.body["station"])


def _points_of_before(draft: Draft, technique: Technique | None) -> tuple[WatchedPoint, ...]:
    """Return the points of a draft that kept only what was seen, in today's words; those gone by their ids."""
    seen = {line["point"]: point_seen(line) for line in draft.body["points"]}
    taught = points_of(technique) if technique else ()
    gone = seen.keys() - {point.id for point in taught}
    points = (*taught, *(WatchedPoint(name, name, critical=False) for name in seen if name in gone))
    return tuple(replace(p, looks=(_look_of_before(draft, seen[p.id]),)) if p.id in seen else p for p in points)


def _look_of_before(draft: Draft, seen: PointSeen) -> LookTaken:
    """Return what was seen, by who began it; when is not known, and its readings are texts alone."""
    return LookTaken(None, draft.by, seen, (("", ""),) * len(seen.readings))
