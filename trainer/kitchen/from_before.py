"""What a cook is said to have known from before: it counts for a while, and is never shown as watched.

It stands for reading, quiz and practical of a technique to the end of its day, and is due again for 28 days more. Where
the questions are about safety they are asked from the first day: left unanswered for 28 days, they are due for 28 more.
All these numbers are the house's own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from trainer.kitchen.record import CookRecord, KnownBefore, KnownTechnique
from trainer.kitchen.spans import ONE_DAY, Span, days_later, in_words
from trainer.kitchen.stops import stops
from trainer.kitchen.technique import Technique
from trainer.messages import Text, message

MOST_DAYS, MOST_DAYS_OF_SAFETY, DAYS_AFTER = 365, 92, 28
KNOWN = message("known, not watched")
Part = Literal["reading", "quiz", "practical"]


@dataclass(frozen=True, slots=True)
class KnownDays:
    """The days one part of a technique counts as known, and the first of them on which it is due again, with why."""

    days: Span
    due_from: date
    due: Text
    is_asked: bool


def known_days(
    record: CookRecord, technique: Technique, part: Part, holds: Callable[[date], date]
) -> Iterator[KnownDays]:
    """Yield the days on which a part of a technique counts as known.

    *holds* is the last day of what the edition of a day still lets count; a stop ends a practical.
    """
    for line in record.known_before:
        for known in line.techniques:
            if known.technique == technique.id:
                until, last = _end(line, known, part), holds(line.on)
                if part == "practical":
                    last = min(last, _last_before_stops(record, line, technique))
                days = Span(line.on, min(days_later(until, DAYS_AFTER), last), (line.entry,))
                yield KnownDays(days, until + ONE_DAY, _due(until, days, part), known.is_asked and part == "quiz")


def spread(count: int, today: date, last: date) -> tuple[date, ...]:
    """Return the ends of so many practicals, spread evenly from today to the last day, which the last of them has.

    >>> [day.isoformat() for day in spread(3, date(2026, 3, 1), date(2026, 3, 31))]
    ['2026-03-11', '2026-03-21', '2026-03-31']
    """
    length = (last - today).days
    return tuple(days_later(today, (place + 1) * length // count) for place in range(count))


@dataclass(frozen=True, slots=True)
class Ending:
    """A practical to be watched by the end of a day: its minutes, and the last day that may be said."""

    day: date
    minutes: int
    latest: date


def within_hours(endings: Sequence[Ending], today: date, weekly: int) -> tuple[date, ...] | None:
    """Return the days moved by whole weeks, so that no week from today asks more minutes of those who watch.

    Whatever may be said for the shortest time is placed first, each in its own week or the nearest with room, an
    earlier one before a later. None where the weeks are too few.

    >>> three = [Ending(date(2026, 3, 9), 15, date(2026, 3, 30))] * 3
    >>> [day.isoformat() for day in within_hours(three, date(2026, 3, 2), 15)]
    ['2026-03-09', '2026-03-16', '2026-03-23']
    """
    load: Counter[int] = Counter()
    found: dict[int, date] = {}
    for place in sorted(range(len(endings)), key=lambda one: (endings[one].latest, one)):
        one = endings[place]
        day = next((day for day in _near(one, today) if load[week_from(today, day)] + one.minutes <= weekly), None)
        if day is None:
            return None
        load[week_from(today, day)] += one.minutes
        found[place] = day
    return tuple(found[place] for place in range(len(endings)))


def week_from(today: date, day: date) -> int:
    """Return in which week from today a day lies: the first seven days after today are week 0."""
    return max((day - today).days - 1, 0) // 7


def _near(one: Ending, today: date) -> Iterator[date]:
    """Yield the day of an ending, then the same weekday of the weeks around it, the nearest first."""
    for number in range((one.latest - today).days // 7 + 2):
        for weeks in (-number, number) if number else (0,):
            day = days_later(one.day, 7 * weeks)
            if today < day <= one.latest:
                yield day


def last_known(record: CookRecord, technique: str) -> date | None:
    """Return the last day to which a technique was ever said to be known; None where it never was."""
    ends = [known.until for line in record.known_before for known in line.techniques if known.technique == technique]
    return max(ends, default=None)


def _end(line: KnownBefore, known: KnownTechnique, part: Part) -> date:
    """Return the last day before a part is due again."""
    soon = days_later(line.on, DAYS_AFTER)
    return min(known.until, soon) if known.is_asked and part == "quiz" else known.until


def _due(until: date, days: Span, part: Part) -> Text:
    if part == "quiz":
        return message(
            "The questions were to be answered by {day}; known from before to {until}.",
            day=in_words(until),
            until=in_words(days.until),
        )
    return message(
        "Known from before to {day}; counts to {until}, and is to be watched by then.",
        day=in_words(until),
        until=in_words(days.until),
    )


def _last_before_stops(record: CookRecord, line: KnownBefore, technique: Technique) -> date:
    """Return the day before a later stop; the day before it was said where an earlier stop had not ended by then."""
    last = date.max
    for stop in stops(record, technique.id):
        if stop.line.seq > line.seq:
            last = min(last, stop.line.on - ONE_DAY)
        elif stop.end is None or stop.end.seq > line.seq:
            last = min(last, line.on - ONE_DAY)
    return last
