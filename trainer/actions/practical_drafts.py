"""Practicals under way, as their drafts keep them: begun by whom, what was seen so far, what was asked back.

A draft keeps the checklist as it was read, so that what was begun can be shown, stopped and put away whatever becomes
of the technique.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.kitchen.book import moment_text
from trainer.kitchen.practical import AskBack, PointSeen, asked_back, point_seen
from trainer.kitchen.stopwatch import Stopwatch
from trainer.kitchen.technique import PointChoice, Technique
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
    `coached`: somebody who handed it on had helped. `case` is the one that was picked, empty where none is asked for or
    none is picked yet; `cases` are those to pick from. So are `part` and `parts`, of a checklist that is divided.
    `watches` are the stopwatches of its points.
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
    case: str = ""
    cases: tuple[PointChoice, ...] = ()
    part: str = ""
    parts: tuple[PointChoice, ...] = ()
    watches: Mapping[str, tuple[Stopwatch, ...]] = field(default_factory=dict)

    @property
    def part_words(self) -> str:
        """Return the part that is watched, in the words that were read; empty where it is the whole."""
        return next((each.text for each in self.parts if each.id == self.part), self.part)

    @property
    def needs_case(self) -> bool:
        """Return whether a case is still to be picked before the first point is watched."""
        return bool(self.cases) and not self.case

    @property
    def case_words(self) -> str:
        """Return the case that was picked, in the words that were read; empty where there is none."""
        return next((each.text for each in self.cases if each.id == self.case), self.case)

    @property
    def seen(self) -> Mapping[str, PointSeen]:
        """Return what was seen at the last look at each point that was looked at."""
        return {point.id: point.last for point in self.points if point.last is not None}

    @property
    def done(self) -> frozenset[str]:
        """Return the points that need no look any more: those looked at, and those seen met a short time ago."""
        return frozenset(point.id for point in self.points if point.looks or point.before)

    @property
    def verdict(self) -> Verdict:
        """Return what the verdict would be if it were signed now."""
        return verdict_on(self.points, self.need)

    @property
    def unsafe(self) -> tuple[str, ...]:
        """Return the points at which something unsafe was seen: that stays, and only a stop can be signed."""
        return tuple(point.id for point in self.points if point.is_unsafe)

    @property
    def is_missed(self) -> bool:
        """Return whether it can only be *not yet* any more: a point that is always needed was missed, and not again."""
        return any(p.critical and p.word == "not yet" and not p.may_be_made_again for p in self.points)

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


def practicals_timed_by(k: Kitchen, by: str) -> tuple[Practical, ...]:
    """Return what an assessor has under way with a stopwatch in it, oldest first."""
    return tuple(_practical(k, draft) for draft in k.file.drafts.list("practical", by=by) if draft.body.get("watches"))


def watched_by_others(k: Kitchen, *, by: str, cook: str, technique: str, part: str = "") -> tuple[Practical, ...]:
    """Return what others have under way of the same cook and technique, oldest first: only one of all can be signed.

    Another part of a checklist is another practical.
    """
    drafts = [draft for draft in k.file.drafts.list("practical", cook=cook) if draft.about == technique]
    found = (_practical(k, draft) for draft in drafts if draft.by != by)
    return tuple(one for one in found if not part or one.part in {"", part})


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
        **case_kept(p),
        "cases": [[each.id, each.text] for each in p.cases],
        "parts": [[each.id, each.text] for each in p.parts],
        **_watches_kept(p),
    }
    return Draft(p.id, "practical", p.technique, p.cook, p.by, body, p.started)


def case_kept(practical: Practical) -> dict[str, Any]:
    """Return the case and the part that were watched, by id and words, as drafts and the book keep them."""
    case = {"case": [practical.case, practical.case_words]} if practical.case else {}
    part = [practical.part, practical.part_words]
    divided = [each.id for each in practical.parts]
    return {**case, **({"part": part, "divided": divided} if practical.part else {})}


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
        case=body.get("case", [""])[0],
        cases=tuple(PointChoice(*each) for each in body.get("cases", ())),
        part=body.get("part", [""])[0],
        parts=tuple(PointChoice(*each) for each in body.get("parts", ())),
        watches={point: tuple(map(_watch, kept)) for point, kept in body.get("watches", {}).items()},
    )


def _watches_kept(practical: Practical) -> dict[str, Any]:
    """Return the stopwatches as a draft keeps them: of which reading, since when, stopped when."""
    kept = {
        point: [[one.reading, *(moment_text(at) for at in (one.started, one.stopped) if at)] for one in watches]
        for point, watches in practical.watches.items()
    }
    return {"watches": kept} if kept else {}


def _watch(kept: Sequence[Any]) -> Stopwatch:
    reading, *moments = kept
    return Stopwatch(reading, *map(moment, moments))


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
