"""An assessor's stopwatches: started and stopped at a point of a practical, kept in its draft until it is signed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Literal

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.practical_drafts import Practical, draft_of, own_practical, practicals_timed_by
from trainer.kitchen.stopwatch import Stopwatch, is_timed, pressed_start, pressed_stop
from trainer.kitchen.watched_points import WatchedPoint
from trainer.messages import message

Act = Literal["start", "stop"]
A_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Press:
    """Which stopwatch is pressed: of which point, for which of its readings (0 is the first), to start or to stop."""

    point: str
    reading: int
    act: Act


@dataclass(frozen=True, slots=True)
class WatchAtPoint:
    """A stopwatch that runs, or was stopped and not judged by yet: of which practical, at which of its points."""

    practical: Practical
    number: int
    watch: Stopwatch


def press_watch(k: Kitchen, *, by: str, practical: str, press: Press, now: datetime) -> Practical | Refused:
    """Return the practical after a stopwatch of it was pressed; a press that changes nothing is no error."""
    with k.file.writing():
        found = own_practical(k, by, practical)
        if isinstance(found, Refused):
            return found
        point = found.point(press.point)
        if point is None or not is_timed(point.as_asked, press.reading):
            return Refused(message("Nothing is timed here."), "", "point")
        watches = found.watches.get(point.id, ())
        turned = (pressed_start if press.act == "start" else pressed_stop)(watches, press.reading, now)
        changed = replace(found, watches={**found.watches, point.id: turned})
        if turned != watches:
            k.file.drafts.put(draft_of(changed))
        return changed


def watches_of(k: Kitchen, *, by: str, now: datetime) -> tuple[WatchAtPoint, ...]:
    """Return every stopwatch an assessor has running, the first one first; then those stopped and not judged by yet."""
    found = (one for practical in practicals_timed_by(k, by) for one in _in_use(practical, now))
    return tuple(sorted(found, key=lambda one: (one.watch.stopped is not None, one.watch.started)))


def in_use(point: WatchedPoint, watch: Stopwatch, now: datetime) -> bool:
    """Return whether a stopwatch is still of use: forgotten for a day, or judged by already, it is not."""
    if watch.stopped is None:
        return now - watch.started < A_DAY
    return all(look.at is None or look.at < watch.stopped for look in point.looks)


def _in_use(practical: Practical, now: datetime) -> Iterator[WatchAtPoint]:
    for number, point in enumerate(practical.points, 1):
        for watch in practical.watches.get(point.id, ()):
            if in_use(point, watch, now):
                yield WatchAtPoint(practical, number, watch)
