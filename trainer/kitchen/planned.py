"""Planned places judged one by one: may this cook stand at that station on that day, and if not, why in words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import Literal

from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.roles import works_a_station
from trainer.messages import Text, message

LOOK_AHEAD = timedelta(days=14)
"""How far ahead a plan is looked at, for what comes next."""
Verdict = Literal["may stand", "learns", "kept away"]


@dataclass(frozen=True, slots=True)
class Planned:
    """One cook planned at one station for one service of a day."""

    cook: str
    station: str
    service: str


@dataclass(frozen=True, slots=True)
class Judged:
    """A planned place and whether the cook may stand there; `reason` says why not, "" where they may.

    Who *learns* may be there beside a cleared cook and is no hand; who is *kept away* may not be there at all.
    """

    planned: Planned
    verdict: Verdict
    reason: Text = ""


def judge(planned: Planned, day: Snapshot) -> Judged:
    """Return whether a planned cook may stand at the station on the day, as the book says it today."""
    station, person = day.rules.stations.get(planned.station), day.people.get(planned.cook)
    if station is None:
        return Judged(planned, "kept away", message("There is no station “{station}”.", station=planned.station))
    if person is None:
        return Judged(planned, "kept away", message("Not on the roster."))
    found = clearance_of(person, station, day.progress, day.content, day.on)
    away = _not_here(found, day.roles(planned.cook))
    if away:
        return Judged(planned, "kept away", away)
    return _as_cleared(planned, found)


def _not_here(found: Clearance, roles: frozenset[str]) -> Text:
    """Return why a person is nobody to be planned: off the roster, or on it and at no station."""
    for missing in found.missing:
        if missing.what == "roster":
            return missing.text
    return "" if works_a_station(roles) else message("A manager only, who works no station.")


def _as_cleared(planned: Planned, found: Clearance) -> Judged:
    """Return what a clearance makes of a planned place."""
    if found.is_cleared:
        return Judged(planned, "may stand")
    if found.state == "lapsed":
        return Judged(planned, "learns", message("Not cleared, and so no hand. {reason}", reason=found.reason))
    if found.reason:
        return Judged(planned, "kept away", message("May not stand there. {reason}", reason=found.reason))
    return Judged(planned, "learns", message("Not cleared yet, and so no hand."))
