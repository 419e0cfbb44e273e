"""Practice: whether a cook has worked a station often enough, and not too long ago, to stay cleared there.

That skill wears off without practice and is brought back under supervision is asked of other trades by law: 10 CFR
55.53(e) and (f), so many shifts a quarter and so many hours beside somebody to come back; 14 CFR 61.57(a), so many
landings in 90 days. How many, and in how many days, is the house's own. A station run at a service counts as it was
closed, or as it was planned where nobody closed it; a supervised shift is one an assessor signed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import reduce

from trainer.kitchen.nights import StationRun
from trainer.kitchen.record import CookRecord, ShiftWorked
from trainer.kitchen.requirements import Missing, Requirement
from trainer.kitchen.spans import (
    ALWAYS,
    NO_END,
    ONE_DAY,
    Span,
    best_on,
    days_later,
    in_words,
    intersection,
    union,
)
from trainer.kitchen.technique import Practice
from trainer.messages import Text, message, plural

Shift = ShiftWorked | StationRun


@dataclass(frozen=True, slots=True)
class Worked:
    """A cook's shifts at one station, the earliest first, and the last day on which nobody is asked for practice.

    They are those an assessor signed, and the runs of the station at services: the same service counts once.
    """

    shifts: tuple[Shift, ...]
    free_until: date

    @classmethod
    def at(cls, record: CookRecord, station: str, free_until: date, ran: Iterable[StationRun] = ()) -> Worked:
        """Return the shifts of a record at a station, and the runs of it that nobody signed as a shift."""
        signed = [line for line in record.shifts if line.station == station]
        same = {(line.worked_on, line.sitting) for line in signed}
        more = [run for run in ran if run.station == station and (run.worked_on, run.sitting) not in same]
        lines: list[Shift] = [*signed, *more]
        return cls(tuple(sorted(lines, key=lambda line: line.worked_on)), free_until)

    @property
    def supervised(self) -> tuple[ShiftWorked, ...]:
        """Return the shifts an assessor signed."""
        return tuple(line for line in self.shifts if isinstance(line, ShiftWorked))

    def within(self, days: int, on: date) -> tuple[Shift, ...]:
        """Return the shifts that count on a day, each for so many days after its own."""
        return tuple(line for line in self.shifts if line.worked_on <= on <= days_later(line.worked_on, days))

    def not_confirmed(self, days: int, on: date) -> int:
        """Return how many of those that count on a day are only known to have been planned."""
        return sum(isinstance(line, StationRun) and not line.is_confirmed for line in self.within(days, on))


def free_until(since: date, first_shift: date | None, asked: Practice) -> date:
    """Return the last day on which practice is not asked yet: of no day before the standard that asks for it.

    And of none before the book has told of shifts for as long as one counts; with no shift in the book, of no day.
    """
    return NO_END if first_shift is None else max(since, days_later(first_shift, asked.days)) - ONE_DAY


def common_days(others: Sequence[Requirement]) -> list[Span]:
    """Return the days on which all of some requirements are met, as runs, the earliest first."""
    return reduce(intersection, (union(r.spans) for r in others)) if all(r.spans for r in others) else []


def in_practice(asked: Practice, worked: Worked, others: Sequence[Requirement], on: date) -> Requirement:
    """Return whether a cook is in practice at a station.

    Who was never cleared is not asked yet. A day counts that is within `days` of the first on which all *others* were
    met; or at least `shifts` shifts lie in the last `days` days before it; or `return_shifts` supervised ones within
    `return_days` were done at most `days` ago. A shift counts on its own day and on as many days after it.
    """
    spans = tuple(_days_in_practice(asked, worked, others))
    best = best_on(spans, on)
    text = _practice_text(asked, worked, on)
    if best is None:
        return Requirement("practice", spans, None, text, _out_of_practice(asked, worked, spans, on))
    run = next(run for run in union(spans) if run.holds(on))
    return Requirement("practice", spans, replace(best, until=run.until), text, None, quiet=run.until == NO_END)


def _days_in_practice(asked: Practice, worked: Worked, others: Sequence[Requirement]) -> Iterator[Span]:
    """Yield the days in practice, each with the shifts that prove them."""
    met = common_days(others)
    first = met[0].since if met else NO_END
    yield Span(ALWAYS, max(worked.free_until, days_later(first, asked.days)))
    for lines in _in_a_row(worked.shifts, asked.shifts):
        yield Span(lines[-1].worked_on, days_later(lines[0].worked_on, asked.days), _entries(lines))
    for lines in _in_a_row(worked.supervised, asked.return_shifts):
        if lines[-1].worked_on - lines[0].worked_on <= timedelta(days=asked.return_days):
            yield Span(lines[-1].worked_on, days_later(lines[-1].worked_on, asked.days), _entries(lines))


def _in_a_row(lines: Sequence[Shift], count: int) -> Iterator[Sequence[Shift]]:
    """Yield every so many shifts that follow each other."""
    for last in range(count, len(lines) + 1):
        yield lines[last - count : last]


def _entries(lines: Sequence[Shift]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(line.entry for line in lines))


def _out_of_practice(asked: Practice, worked: Worked, spans: Sequence[Span], on: date) -> Missing:
    """Return since when a cook is out of practice, and how many supervised shifts bring them back."""
    ended = max(span.until for span in union(spans) if span.until < on)
    words = message("Out of practice from {day}: {rule}.", day=in_words(ended + ONE_DAY), rule=practice_rule(asked))
    left = max(asked.return_shifts - _supervised_within(asked.return_days, worked, on), 1)
    act = message(
        "The cook works {shifts} beside a cleared cook within {days} days; an assessor writes it down.",
        shifts=plural("{number} more shift", "{number} more shifts", left),
        days=asked.return_days,
    )
    return Missing("practice", words, act)


def _supervised_within(days: int, worked: Worked, on: date) -> int:
    return sum(isinstance(line, ShiftWorked) for line in worked.within(days, on))


def _practice_text(asked: Practice, worked: Worked, on: date) -> Text:
    """Return that a cook is in practice, and how many of the shifts nobody has confirmed."""
    only_planned = worked.not_confirmed(asked.days, on)
    if not only_planned:
        return message("In practice: {rule}.", rule=practice_rule(asked))
    return message(
        "In practice: {rule}. Planned and not confirmed: {number} of them.",
        rule=practice_rule(asked),
        number=only_planned,
    )


def practice_rule(asked: Practice) -> Text:
    """Return how often a station is worked to stay cleared, in a few words."""
    return message(
        "{shifts} in {days} days", shifts=plural("{number} shift", "{number} shifts", asked.shifts), days=asked.days
    )


def outlook(asked: Practice, worked: Worked, ends: date, otherwise: date) -> Text:
    """Return how long a clearance lasts without practice, from when the cook is out of it, and what prevents that.

    *ends* is the last day in practice if nothing more is worked, *otherwise* the last of all else.
    """
    day = ends + ONE_DAY
    more = plural("{number} more shift", "{number} more shifts", asked.shifts - len(worked.within(asked.days, day)))
    if otherwise == NO_END:
        return message("Cleared; out of practice from {day} without {shifts}.", day=in_words(day), shifts=more)
    return message(
        "Cleared to {until}; out of practice from {day} without {shifts}.",
        until=in_words(otherwise),
        day=in_words(day),
        shifts=more,
    )
