"""Practicals under way, as their drafts keep them: begun by whom, what was seen so far, what was asked back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.kitchen.book import moment_text
from trainer.kitchen.practical import AskBack, PointSeen, Verdict, asked_back, point_seen, verdict
from trainer.messages import message
from trainer.store.drafts import Draft
from trainer.store.identity import moment

NOT_OPEN = Refused(message("That practical is not open any more: it was signed or put away."), "", "practical")
NOT_YOURS = Refused(
    message("Somebody else is watching this practical."), message("Whoever began it can go on with it."), "practical"
)


@dataclass(frozen=True, slots=True)
class Practical:
    """A practical under way, kept point by point; `verdict` is what it would be if signed now.

    `after` is the last entry of the book when it was begun; None in a draft of a program that did not keep it.
    `shown` says when each point's page was first sent, by device; `asked` are readings asked back and not kept yet.
    """

    id: str
    by: str
    cook: str
    technique: str
    edition: int
    station: str
    seen: Mapping[str, PointSeen]
    verdict: Verdict
    started: datetime
    after: int | None = None
    shown: Mapping[str, Mapping[str, datetime]] = field(default_factory=dict)
    asked: Mapping[str, tuple[AskBack, ...]] = field(default_factory=dict)

    @property
    def unsafe(self) -> tuple[str, ...]:
        """Return the points at which something unsafe was seen: that stays, and only a stop can be signed."""
        return tuple(point for point, seen in self.seen.items() if seen.seen == "unsafe")


def find_practical(k: Kitchen, practical: str) -> Practical | None:
    """Return a practical under way by id."""
    draft = k.file.drafts.get(practical)
    return _practical(k, draft) if draft is not None and draft.kind == "practical" else None


def practicals_by(k: Kitchen, by: str) -> tuple[Practical, ...]:
    """Return what an assessor has under way, oldest first."""
    found = (_practical(k, draft) for draft in k.file.drafts.list("practical", by=by))
    return tuple(practical for practical in found if practical is not None)


def watched_by_others(k: Kitchen, *, by: str, cook: str, technique: str) -> tuple[Practical, ...]:
    """Return what others have under way of the same cook and technique, oldest first: only one of all can be signed."""
    drafts = k.file.drafts.list("practical", cook=cook)
    found = (_practical(k, draft) for draft in drafts if draft.about == technique and draft.by != by)
    return tuple(practical for practical in found if practical is not None)


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
    body = {"edition": p.edition, "station": p.station, "points": points_kept(p), "after": p.after}
    body |= {"shown": shown, "asked": asked}
    return Draft(p.id, "practical", p.technique, p.cook, p.by, body, p.started)


def points_kept(practical: Practical) -> list[dict[str, Any]]:
    """Return the points seen so far, as drafts and the book keep them."""
    return [_point(seen) for seen in practical.seen.values()]


def _point(seen: PointSeen) -> dict[str, Any]:
    """Return one point as drafts and the book keep it; what was asked back stands there where anything was."""
    asked = {"asked": [{**_asked(one), "answered": one.answered} for one in seen.asked]} if seen.asked else {}
    return {"point": seen.point, "seen": seen.seen, "readings": list(seen.readings), "note": seen.note, **asked}


def _asked(one: AskBack) -> dict[str, Any]:
    return {"reading": one.reading, "typed": one.typed, "ways": list(one.ways)}


def _practical(k: Kitchen, draft: Draft) -> Practical | None:
    """Return a draft as a practical; None where the technique is gone from the content."""
    technique, body = k.content.techniques.get(draft.about), draft.body
    if technique is None:
        return None
    seen = {line["point"]: point_seen(line) for line in body["points"]}
    found = verdict(technique, seen.values())
    edition, station, after = body["edition"], body["station"], body.get("after")
    practical = Practical(draft.id, draft.by, draft.cook, draft.about, edition, station, seen, found, draft.at, after)
    shown = {
        point: {at: moment(when) for at, when in devices.items()} for point, devices in body.get("shown", {}).items()
    }
    asked = {point: tuple(asked_back(one) for one in asks) for point, asks in body.get("asked", {}).items()}
    return replace(practical, shown=shown, asked=asked)
