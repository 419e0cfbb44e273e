"""Clocks of steps a cook has started: several at once, each kept by its start, so that it runs on whatever sleeps.

They are no record: nothing of them enters the book.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import NamedTuple

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.technique import Step, Technique
from trainer.store.drafts import Draft

A_DAY = timedelta(days=1)
"""How long a clock that nobody stopped is shown after its end."""


class StepClock(NamedTuple):
    """Which clock runs: that of a step, or of one of the several lines a step times."""

    step: str
    line: str = ""


@dataclass(frozen=True, slots=True)
class RunningClock:
    """A clock a cook has started and not stopped: of which step, since when, and when it is over."""

    id: str
    technique: str
    of: StepClock
    since: datetime
    seconds: int

    @property
    def until(self) -> datetime:
        """Return the moment it is over."""
        return self.since + timedelta(seconds=self.seconds)


def start_clock(k: Kitchen, *, cook: str, technique: Technique, clock: StepClock, now: datetime) -> None:
    """Start a clock, from this moment on; the same one starts anew, and no other stops. Those forgotten are let go."""
    seconds = seconds_of(technique, clock)
    if not seconds:
        return
    for draft in k.file.drafts.list("clock"):
        found = _running(k, draft)
        is_this = draft.cook == cook and draft.about == technique.id and _step_clock(draft) == clock
        if is_this or found is None or found.until + A_DAY <= now:
            k.file.drafts.delete(draft.id)
    id, line = ":".join(("clock", cook, technique.id, *clock)), {"line": clock.line} if clock.line else {}
    body = {"step": clock.step, **line, "seconds": seconds}
    k.file.drafts.put(Draft(id, "clock", technique.id, cook, cook, body, now))


def stop_clock(k: Kitchen, *, cook: str, clock: str) -> None:
    """Stop a clock by its id; one that does not run, or is somebody else's, is no error and is let be."""
    there = k.file.drafts.get(clock)
    if there is not None and there.kind == "clock" and there.cook == cook:
        k.file.drafts.delete(clock)


def clocks_running(k: Kitchen, *, cook: str, now: datetime) -> tuple[RunningClock, ...]:
    """Return the clocks a cook has started, the first to end first; over for a day, one is shown no more."""
    found = (_running(k, draft) for draft in k.file.drafts.list("clock", cook=cook))
    return tuple(sorted((one for one in found if one and now < one.until + A_DAY), key=lambda one: one.until))


def seconds_of(technique: Technique, clock: StepClock) -> int:
    """Return how long a clock runs as it is taught; 0 where the step, or its line, has no clock."""
    step = step_of(technique, clock)
    if step is None:
        return 0
    return {timer.line: timer.seconds for timer in step.timers}.get(clock.line, 0) if clock.line else step.seconds or 0


def step_of(technique: Technique, clock: StepClock) -> Step | None:
    """Return the step a clock belongs to; None where it is taught no more."""
    return next((step for step in technique.steps if step.id == clock.step), None)


def _running(k: Kitchen, draft: Draft) -> RunningClock | None:
    """Return a draft as a clock; one of an older program does not say how long, so what is taught does."""
    of, technique = _step_clock(draft), k.content.techniques.get(draft.about)
    seconds = int(draft.body.get("seconds") or (seconds_of(technique, of) if technique else 0))
    return RunningClock(draft.id, draft.about, of, draft.at, seconds) if seconds else None


def _step_clock(draft: Draft) -> StepClock:
    body: Mapping[str, object] = draft.body
    return StepClock(str(body["step"]), str(body.get("line", "")))
