"""A cook's way to a station drawn over time: one ink, a row for each technique, all rows on one scale of days.

Only presentation attributes are used, since no page may carry a style. What a row shows stands in words below it, so
the drawing itself is silent.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from markupsafe import Markup

from trainer.kitchen.spans import NO_END, ONE_DAY, Span, in_short
from trainer.kitchen.way import StepKind, TechniqueWay, Way
from trainer.messages import message
from trainer.web.reading import said

WIDTH, ROW, LINE = 280, 34, 22
LEFT, RIGHT = 8, 10
LETTER = 18
APART, NARROW = 15, 6
"""How far from the one before a mark stands at least, and a tick."""
AHEAD = timedelta(days=30)
"""At least so many days to come are shown."""
MarkKind = StepKind | Literal["opened", "shift", "ready by", "ends"]

_HOLLOW = 'fill="none" stroke="currentColor" stroke-width="2.5"'
_SHAPES: Mapping[MarkKind, str] = {
    "read": f'<circle cx="0" cy="0" r="5.5" {_HOLLOW}/>',
    "questions": f'<path d="M0 -14V0" {_HOLLOW}/>',
    "skill": f'<path d="M0 -14V0" {_HOLLOW}/>',
    "known": f'<path d="M-6 -6h12v12h-12z" {_HOLLOW} stroke-dasharray="4 2.5"/>',
    "asked": f'<path d="M0 -8l7 12h-14z" {_HOLLOW} stroke-linejoin="round"/>',
    "not yet": f'<path d="M-6 -6l12 12m0 -12l-12 12" {_HOLLOW}/>',
    "stopped": '<path d="M-9 0H9" fill="none" stroke="currentColor" stroke-width="9"/>',
    "signed": '<path d="M-6.5 -6.5h13v13h-13z"/>',
    "opened": f'<path d="M0 -10V10" {_HOLLOW}/>',
    "shift": '<circle cx="0" cy="0" r="4"/>',
    "ready by": '<path d="M0 10V-16l13 6 -13 6" stroke="currentColor" stroke-width="2.5"/>',
    "ends": f'<path d="M-5 8l4 -16m4 16l4 -16" {_HOLLOW}/>',
}

_TICKS = frozenset({"skill", "questions"})


@dataclass(frozen=True, slots=True)
class Days:
    """The scale of a way: its first and last day, and today."""

    first: date
    last: date
    today: date

    def x(self, day: date) -> float:
        """Return where a day stands; one that lies outside at the end."""
        share = (min(max(day, self.first), self.last) - self.first) / (self.last - self.first)
        return round(LEFT + (WIDTH - LEFT - RIGHT) * share, 1)

    def shows(self, day: date) -> bool:
        """Return whether a day lies on it."""
        return self.first <= day <= self.last


def days_of(way: Way) -> Days:
    """Return the scale of a way: from the first thing done to the day to be ready by, or the first end, or a month on.

    An end further away than what lies behind is left to the words.
    """
    done = [step.on for one in way.techniques for step in one.steps]
    first = min([*done, *way.shifts, *([way.path.on] if way.path else []), way.on - AHEAD])
    far = way.on + max(way.on - first, 3 * AHEAD)
    ends = [one.until for one in way.techniques if one.until] + [run.until for run in way.cleared]
    coming = [way.path.by_day] if way.path else []
    return Days(first, max([day for day in [*ends, *coming] if day <= far] + [way.on + AHEAD]) + ONE_DAY, way.on)


def mark_drawn(kind: MarkKind) -> Markup:
    """Return one mark by itself, for the key."""
    return Markup(
        '<svg class="way-mark" viewBox="-17 -17 34 34" width="34" height="34" aria-hidden="true" focusable="false" '
        'fill="currentColor">{}</svg>'
    ).format(_shape(kind))


def axis_drawn(days: Days) -> Markup:
    """Return the days of a way: its first, today, its last."""
    x = days.x(days.today)
    at, anchor = (x, "middle") if 40 < x < WIDTH - 40 else (WIDTH - 2, "end")
    text = Markup('<text x="{}" y="{}" text-anchor="{}">{}</text>')
    inside = [
        text.format(at, 16, anchor, said(message("today"))),
        text.format(2, 40, "start", said(in_short(days.first, with_year=True))),
        text.format(WIDTH - 2, 40, "end", said(in_short(days.last - ONE_DAY, with_year=True))),
    ]
    return _row(days, inside, height=46, today=(20, 26))


def technique_drawn(one: TechniqueWay, days: Days) -> Markup:
    """Return the row of a technique: when it counts as a bar, and what was done as marks on it."""
    done: list[tuple[MarkKind, date]] = [(step.kind, step.on) for step in one.steps]
    parts = [*_bars(_signed_runs(one), days), *_in_sequence(list(dict.fromkeys(done)), days)]
    if one.until and days.shows(one.until):
        parts.append(_mark("ends", days.x(one.until)))
    return _row(days, parts)


def station_drawn(way: Way, days: Days) -> Markup:
    """Return the row of the station: when the cook is cleared, the path, the shifts, the day to be ready by."""
    done: list[tuple[MarkKind, date]] = [("opened", way.path.on)] if way.path else []
    done += [("shift", day) for day in way.shifts]
    parts = [*_bars(way.cleared, days), *_in_sequence(sorted(done, key=lambda one: one[1]), days)]
    parts += [_mark("ready by", days.x(way.path.by_day))] if way.path else []
    ends = (run.until for run in way.cleared if run.until != NO_END and days.shows(run.until))
    return _row(days, [*parts, *(_mark("ends", days.x(day)) for day in ends)])


def _signed_runs(one: TechniqueWay) -> Iterable[Span]:
    return [span for span in one.standing.practical.spans if span.since <= span.until]


def _bars(runs: Iterable[Span], days: Days) -> Iterable[Markup]:
    """Yield the days that count as thick bars: full for those behind, in pieces for those to come."""
    bar = Markup('<path d="M{} {}H{}" fill="none" stroke="currentColor" stroke-width="6"{}/>')
    for run in runs:
        behind = Span(run.since, min(run.until, days.today))
        coming = Span(max(run.since, days.today), run.until)
        for part, dashes in ((behind, Markup("")), (coming, Markup(' stroke-dasharray="4 3"'))):
            if part.since < part.until and part.until > days.first:
                yield bar.format(days.x(part.since), LINE, days.x(part.until), dashes)


def _in_sequence(done: Sequence[tuple[MarkKind, date]], days: Days) -> Iterable[Markup]:
    """Return what was done as marks, moved apart where days are too near to be told apart: the words have the day."""
    gaps = [NARROW if kind in _TICKS else APART for kind, _ in done]
    places = apart([days.x(day) for _, day in done], gaps, days.x(days.today) - APART / 2)
    return [_mark(kind, x) for (kind, _), x in zip(done, places, strict=True)]


def apart(places: Sequence[float], gaps: Sequence[float], last: float) -> list[float]:
    """Return places in a row moved right until each is its gap from the one before, then left, so that none is past.

    >>> apart([10, 11, 12, 90], [5, 5, 5, 5], 92), apart([90, 91], [5, 5], 91)
    ([10, 15, 20, 90], [86, 91])
    """
    found: list[float] = []
    for x, gap in zip(places, gaps, strict=True):
        found.append(max(x, found[-1] + gap) if found else x)
    for place in range(len(found) - 1, -1, -1):
        following = found[place + 1] - gaps[place + 1] if place + 1 < len(found) else last
        found[place] = min(found[place], following)
    return found


def _mark(kind: MarkKind, x: float) -> Markup:
    return Markup('<g transform="translate({} {})">{}</g>').format(round(x, 1), LINE, _shape(kind))


def _shape(kind: MarkKind) -> Markup:
    return Markup(_SHAPES[kind])  # noqa: S704 - the shapes above


def _row(days: Days, parts: Iterable[Markup], *, height: int = ROW, today: tuple[int, int] = (0, ROW)) -> Markup:
    """Return a row: its line, today as a line down, and the parts on it."""
    return Markup(
        '<svg class="way" viewBox="0 0 {width} {height}" aria-hidden="true" focusable="false" font-size="{letter}" '
        'fill="currentColor" stroke="none">{line}<path d="M{x} {top}V{end}" stroke="currentColor" '
        'stroke-width="1.5" stroke-dasharray="2 3"/>{inside}</svg>'
    ).format(
        width=WIDTH,
        height=height,
        letter=LETTER,
        x=days.x(days.today),
        top=today[0],
        end=today[1],
        line=Markup("") if today[0] else _line(),
        inside=Markup("").join(parts),
    )


def _line() -> Markup:
    return Markup('<path d="M{} {}H{}" stroke="currentColor" stroke-width="1"/>').format(LEFT, LINE, WIDTH - RIGHT)
