"""The band under the header: the clocks that run for whoever is signed in, on every page of theirs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from flask import request, url_for

from trainer.actions.step_clocks import RunningClock, StepClock, clocks_running, step_of
from trainer.actions.stopwatches import WatchAtPoint, watches_of
from trainer.kitchen.technique import Technique
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.offline.late import is_to_be_kept


@dataclass(frozen=True, slots=True)
class RunningLine:
    """One clock in the band: what it is for, since when, until when, and where it is stopped.

    A stopwatch has no end: it counts up, and once stopped `shown` is what it showed. `href` leads to what it was
    started for. Moments are also given as milliseconds since 1970, so that a browser whose own clock is wrong counts
    right.
    """

    id: str
    name: Text
    about: Text
    href: str
    stop_url: str
    since: datetime
    until: datetime | None
    now: datetime
    shown: str = ""

    @property
    def is_over(self) -> bool:
        """Return whether its time is up."""
        return self.until is not None and self.until <= self.now

    @property
    def seconds_left(self) -> int:
        """Return how many seconds are left; 0 where it is over."""
        return max(0, -int((self.now - self.until).total_seconds() // 1)) if self.until else 0

    @property
    def until_ms(self) -> int:
        """Return the moment it is over, as a browser counts."""
        return int(self.until.timestamp() * 1000) if self.until else 0

    @property
    def since_ms(self) -> int:
        """Return the moment it was started, as a browser counts."""
        return int(self.since.timestamp() * 1000)

    @property
    def now_ms(self) -> int:
        """Return the moment of this page, as a browser counts."""
        return int(self.now.timestamp() * 1000)


def running_now() -> tuple[RunningLine, ...]:
    """Return what runs for whoever is signed in, the first to end first, then stopwatches; nothing where nobody is.

    The stopwatch of a point stands on its own page in large figures, and not in the band there. A page that a phone
    keeps for later has none: it would show the time of the day it was kept.
    """
    signed, now = guard.signed_in(), guard.now()
    if signed is None or is_to_be_kept():
        return ()
    k, me = guard.kitchen(), signed.person.id
    found = [_line_of(one, now) for one in clocks_running(k, cook=me, now=now)]
    if "assessor" in signed.roles:
        found += [_watch_line(one, now) for one in watches_of(k, by=me, now=now)]
    return tuple(line for line in found if line.until or line.href != request.path)


def back_here() -> str:
    """Return the address to come back to from a band: this page, where it can be opened again, else the first."""
    can_be_opened = request.url_rule is not None and "GET" in (request.url_rule.methods or ())
    return request.full_path.rstrip("?") if can_be_opened else url_for("door.first")


def _line_of(one: RunningClock, now: datetime) -> RunningLine:
    """Return the clock of a step, called by its step; what is taught no more goes by its id."""
    technique = reading.content().techniques.get(one.technique)
    return RunningLine(
        id=one.id,
        name=_name(technique, one.of) or one.of.step,
        about=technique.title if technique else one.technique,
        href=_href(technique, one.of),
        stop_url=url_for("clocks.stop"),
        since=one.since,
        until=one.until,
        now=now,
    )


def _watch_line(one: WatchAtPoint, now: datetime) -> RunningLine:
    """Return the stopwatch of a point, called by its number and who is watched."""
    practical, number = one.practical, one.number
    people, technique = guard.kitchen().people(), reading.content().techniques.get(practical.technique)
    name = people[practical.cook].name if practical.cook in people else practical.cook
    return RunningLine(
        id=str(one.watch.reading),
        name=message("Point {number}: {name}", number=number, name=name),
        about=technique.title if technique else practical.titles.technique,
        href=url_for("assessor.practical.point", practical=practical.id, number=number),
        stop_url=url_for("assessor.stopwatch.stop", practical=practical.id, number=number),
        since=one.watch.started,
        until=None,
        now=now,
        shown=one.watch.shown,
    )


def _name(technique: Technique | None, of: StepClock) -> str:
    """Return what a clock is called: the sentence of its line, or the name of its step; empty where both are gone."""
    step = step_of(technique, of) if technique else None
    if step is None:
        return ""
    return next((timer.text for timer in step.timers if timer.line == of.line), step.title)


def _href(technique: Technique | None, of: StepClock) -> str:
    """Return the address of the step a clock was started at; of all clocks where that is gone."""
    step = step_of(technique, of) if technique else None
    if technique is None or step is None:
        return url_for("clocks.listed")
    return url_for("cook.step", technique=technique.id, number=technique.steps.index(step) + 1)
