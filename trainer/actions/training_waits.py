"""How long a cook waits with what training would bring: after a miss nothing more is asked or watched for days."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from trainer.actions.asking_skills import standings_of
from trainer.actions.sitting import sits_again_from
from trainer.kitchen.clearance import technique_standing
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.requirements import Missing


@dataclass(frozen=True, slots=True)
class Wait:
    """From which day anything of a training can be had, and from which day all of it: today where nothing waits."""

    begins: date
    all_from: date


def wait_of(cook: str, missing: Iterable[Missing], day: Snapshot) -> Wait:
    """Return how long a cook waits with what is missing; of a technique only what comes next decides when it begins."""
    parts: dict[str, set[str]] = {}
    for one in missing:
        kind, _, technique = one.what.partition(":")
        parts.setdefault(technique, set()).add(kind)
    begins = [_next_day(cook, technique, kinds, day) for technique, kinds in parts.items()]
    retries = [_retry_day(cook, technique, day) for technique, kinds in parts.items() if "practical" in kinds]
    return Wait(min(begins, default=day.on), max([*begins, *retries], default=day.on))


def _next_day(cook: str, technique: str, kinds: set[str], day: Snapshot) -> date:
    """Return the day from which the next thing on a technique can be had: reading at once, questions, a practical."""
    if "reading" in kinds:
        return day.on
    if "quiz" in kinds:
        return _questions_day(cook, technique, day)
    return _retry_day(cook, technique, day) if "practical" in kinds else day.on


def _questions_day(cook: str, technique: str, day: Snapshot) -> date:
    """Return the first day a question counts again: of a quiz after a fail, or of the first skill that opens."""
    taught = day.content.techniques.get(technique)
    if taught is None or not taught.knowledge:
        return sits_again_from(cook, technique, day) or day.on
    left = (one.skill for one in standings_of(cook=cook, technique=taught, day=day) if not one.is_passed)
    return min((one.opens if one.state(day.on) == "wait" and one.opens else day.on for one in left), default=day.on)


def _retry_day(cook: str, technique: str, day: Snapshot) -> date:
    """Return the first day a practical may be had again after a stop was released."""
    taught = day.content.techniques.get(technique)
    found = technique_standing(cook, taught, day.progress, day.on).retry_from if taught else None
    return found or day.on
