"""A manager lifts the wait after a failed quiz, with a reason, so that it may be sat again today."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.actions.sitting import sits_again_from
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.quiz.retry_wait import fails_since_pass
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class Wait:
    """Whose wait before the next sitting of which technique, and why it is lifted."""

    cook: str
    technique: str
    reason: str


def lift_wait(k: Kitchen, *, by: str, wait: Wait, now: datetime, key: str) -> Outcome:
    """Return the saved `wait_lifted`: from now on the last fail of this quiz asks for no wait.

    The fail itself stands, and the wait after another one is longer. A manager lifts it, and not their own.
    """
    with k.file.writing():
        day, reason = k.day(k.today(now)), wait.reason.strip()
        body = {"technique": wait.technique, "entry": _last_fail(wait, day), "reason": reason}
        return save(
            k,
            NewEntry("wait_lifted", now, wait.cook, by, body, key),
            lambda day: (
                denied_by(may_manage(by, wait.cook, day))
                or not_on_roster(wait.cook, day)
                or _no_wait(wait, day)
                or validate_text(reason, "reason")
            ),
        )


def _last_fail(wait: Wait, day: Snapshot) -> str:
    """Return the entry of the last failed sitting since the last pass; nothing where there is none."""
    record = day.progress.record(wait.cook).as_of(day.on)
    failed = fails_since_pass(line for line in record.sat if line.technique == wait.technique)
    return failed[-1].entry if failed else ""


def _no_wait(wait: Wait, day: Snapshot) -> Refused | None:
    """Return the refusal where nobody waits."""
    if sits_again_from(wait.cook, wait.technique, day) is not None:
        return None
    return Refused(message("There is no wait: {name} may sit this quiz.", name=day.name(wait.cook)), "", "technique")
