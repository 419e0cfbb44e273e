"""Handing an open practical to another assessor: seen by several over some shifts, signed by the last of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from trainer.actions.in_force import outdated
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.practical_drafts import Practical, draft_of, own_practical
from trainer.actions.saving import denied_by
from trainer.kitchen.entitlement import Snapshot, may_sign, who_may_sign
from trainer.messages import message

UNSAFE = Refused(message("You saw something unsafe, so this is not handed on. Sign the stop."), "", "to")


def who_can_take(found: Practical, day: Snapshot) -> tuple[str, ...]:
    """Return who may take a practical over: entitled where it is watched, and not its holder."""
    station = day.rules.stations.get(found.station)
    able = who_may_sign(found.cook, (station,), day, found.technique) if station else ()
    return tuple(who for who in able if who != found.by)


def hand_on(  # noqa: PLR0913 - who, what, to whom, when, and what they did
    k: Kitchen, *, by: str, practical: str, to: str, now: datetime, coached: bool = False
) -> Practical | Refused:
    """Return the practical in the hands of another assessor, with all that was seen, by whom and when.

    Whoever takes it must be entitled there now. A stop is signed by who saw it. Where the one who hands it on
    *coached*, the verdict is *not yet* at most, whoever signs. Readings of a look that is not finished are taken anew:
    a look is one person's.
    """
    with k.file.writing():
        found = own_practical(k, by, practical)
        if isinstance(found, Refused):
            return found
        day = k.day(k.today(now))
        refusal = (UNSAFE if found.unsafe else None) or outdated(k, found, day) or _may_not_take(found, to, day)
        if refusal is not None:
            return refusal
        points = tuple(replace(point, gathered=()) for point in found.points)
        handed = replace(found, by=to, points=points, asked={}, coached=found.coached or coached)
        k.file.drafts.put(draft_of(handed))
        return handed


def _may_not_take(found: Practical, to: str, day: Snapshot) -> Refused | None:
    """Return why somebody cannot go on with a practical."""
    if to == found.by:
        return Refused(message("It is in your hands already. Choose somebody else."), "", "to")
    denied = denied_by(may_sign(to, found.cook, found.technique, found.station, day))
    return Refused(denied.reason, denied.who_can, "to") if denied else None
