"""A station's coming days drawn as a strip: one ink, heights for how many are cleared, hatching and black for gaps.

Only presentation attributes are used, since no page may carry a style. A strip is 280 wide, so that its letters stay
readable on a phone; everything on it stands in words beside it too.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from itertools import pairwise
from typing import NamedTuple

from markupsafe import Markup, escape

from trainer.kitchen.coming_days import Stretch, Strip
from trainer.kitchen.spans import ONE_DAY, SHORT_MONTHS
from trainer.messages import Text
from trainer.web.reading import said

WIDTH, HEIGHT = 280, 178
LEFT, RIGHT, TOP, FOOT = 22, 8, 34, 118
LETTER = 18
NARROWEST = 12
"""A stretch less wide has no number of its own: the list tells it."""


class Mark(NamedTuple):
    """Where marks stand that are too near for numbers of their own, and the first and last number of them."""

    x: float
    first: int
    last: int

    @property
    def text(self) -> str:
        """Return its number, or from which to which."""
        return f"{self.first}" if self.first == self.last else f"{self.first}–{self.last}"


class Strips(NamedTuple):
    """The scale of one strip: its first day, how many days, and the most it shows."""

    first: date
    days: int
    most: int

    def x(self, day: date) -> float:
        """Return where a day begins."""
        return round(LEFT + (WIDTH - LEFT - RIGHT) * (day - self.first).days / self.days, 1)

    def y(self, count: int) -> float:
        """Return how high so many stand."""
        return round(FOOT - (FOOT - TOP) * count / self.most, 1)


def strip_drawn(strip: Strip, title: Text, told: Text) -> Markup:
    """Return a strip with its title and what it shows in words, its turns numbered by day as in the list beside it."""
    first, last = strip.stretches[0].since, strip.stretches[-1].until
    most = max(max(one.cleared, one.need) for one in strip.stretches) + 1
    scale = Strips(first, (last - first).days + 1, most)
    parts = [
        *(_stretch(strip.station, one, scale) for one in strip.stretches),
        *(_need(one, scale) for one in strip.stretches),
        _edge(strip.stretches, scale),
        _frame(scale),
        *(_mark(one) for one in marks([scale.x(day) for day in sorted({turn.on for turn in strip.turns})])),
        *_months(scale),
    ]
    return Markup(
        '<svg class="strip" viewBox="0 0 {width} {height}" role="img" aria-labelledby="strip-{name} strip-{name}-told" '
        'font-size="{letter}" fill="currentColor" stroke="none"><title id="strip-{name}">{title}</title>'
        '<desc id="strip-{name}-told">{told}</desc><defs><pattern id="hatch-{name}" width="7" height="7" '
        'patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V7" stroke="currentColor" '
        'stroke-width="2.4"/></pattern></defs>{inside}</svg>'
    ).format(
        width=WIDTH,
        height=HEIGHT,
        letter=LETTER,
        name=escape(strip.station),
        title=said(title),
        told=said(told),
        inside=Markup("").join(parts),
    )


def marks(places: Iterable[float], apart: float = 24) -> list[Mark]:
    """Return the numbered marks at some places, those of a crowd as one: at 10, 12 and 60 are 1–2 and 3.

    >>> [(mark.x, mark.text) for mark in marks([10, 12, 60])]
    [(10, '1–2'), (60, '3')]
    """
    found: list[Mark] = []
    for number, x in enumerate(places, 1):
        if found and x - found[-1].x < apart:
            found[-1] = found[-1]._replace(last=number)
        else:
            found.append(Mark(x, number, number))
    return found


def _ends(one: Stretch, scale: Strips) -> tuple[float, float]:
    return scale.x(one.since), scale.x(one.until + ONE_DAY)


def _stretch(name: str, one: Stretch, scale: Strips) -> Markup:
    """Return a stretch: open where one can be missing, hatched where none can, black to what it needs where too few."""
    left, right = _ends(one, scale)
    fill = {"enough": "none", "thin": f"url(#hatch-{name})", "short": "currentColor"}[one.level]
    top = scale.y(max(one.cleared, one.need) if one.level == "short" else one.cleared)
    box = Markup('<rect x="{}" y="{}" width="{}" height="{}" fill="{}"/>').format(
        left, top, round(right - left, 1), round(FOOT - top, 1), fill
    )
    if right - left < NARROWEST:
        return box
    words = Markup('<text x="{}" y="16" text-anchor="middle" font-weight="700">{}</text>')
    return box + words.format(round((left + right) / 2, 1), one.cleared)


def _need(one: Stretch, scale: Strips) -> Markup:
    left, right = _ends(one, scale)
    line = Markup('<path d="M{} {}H{}" fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray="3 3"/>')
    return line.format(left, scale.y(one.need), right)


def _edge(stretches: Sequence[Stretch], scale: Strips) -> Markup:
    """Return the outline of how many are cleared."""
    path = [f"M{scale.x(stretches[0].since)} {scale.y(stretches[0].cleared)}"]
    for one, following in pairwise(stretches):
        path.append(f"H{scale.x(following.since)}" + ("" if one == following else f"V{scale.y(following.cleared)}"))
    path.append(f"H{WIDTH - RIGHT}")
    return Markup('<path d="{}" fill="none" stroke="currentColor" stroke-width="3"/>').format(" ".join(path))


def _frame(scale: Strips) -> Markup:
    """Return the foot, and the numbers at the left: none, and the most there are."""
    number = Markup('<text x="{}" y="{}" text-anchor="end">{}</text>')
    numbers = [number.format(LEFT - 6, scale.y(count) + 6, count) for count in {0, scale.most - 1}]
    foot = Markup('<path d="M{} {}V{}H{}" fill="none" stroke="currentColor" stroke-width="2"/>')
    return foot.format(LEFT, TOP, FOOT, WIDTH - RIGHT) + Markup("").join(sorted(numbers))


def _mark(one: Mark) -> Markup:
    at = min(max(one.x, LEFT + 4), WIDTH - RIGHT - 9 * len(one.text) / 2)
    return Markup(
        '<path d="M{x} {foot}l-5 9h10z"/>'
        '<text x="{at}" y="{below}" text-anchor="middle" font-weight="700">{text}</text>'
    ).format(x=one.x, foot=FOOT + 1, at=round(at, 1), below=FOOT + 27, text=one.text)


def _months(scale: Strips) -> Iterable[Markup]:
    """Yield where each month begins: a line at the foot and one beside its name, none through the numbers between."""
    for number in range(1, scale.days):
        day = scale.first + timedelta(days=number)
        if day.day == 1:
            x = scale.x(day)
            at, anchor = (x, "start") if x < WIDTH - 50 else (WIDTH - 2, "end")
            yield Markup(
                '<path d="M{x} {foot}v6M{x} {name}v20" stroke="currentColor" stroke-width="1"/>'
                '<text x="{at}" y="{below}" text-anchor="{anchor}">{month}</text>'
            ).format(
                x=x,
                foot=FOOT,
                name=FOOT + 32,
                at=at + 3,
                below=HEIGHT - 8,
                anchor=anchor,
                month=said(SHORT_MONTHS[day.month - 1]),
            )
