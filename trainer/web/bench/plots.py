"""Plots drawn as SVG on the server: one ink, readable in print and without colour, told in words as well.

Only presentation attributes are used, since no page may carry a style. A plot is 360 wide, so that its letters stay
readable on a phone.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor, isfinite, log10

from markupsafe import Markup, escape

from trainer.messages import Text
from trainer.web.reading import said

WIDTH, HEIGHT = 360, 290
LEFT, RIGHT, TOP, BOTTOM = 46, 10, 26, 48
LETTER = 15
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Axis:
    """One direction of a plot: from low to high, and what it shows."""

    low: float
    high: float
    words: Text

    def __post_init__(self) -> None:
        """Refuse an axis that shows nothing."""
        if not (isfinite(self.low) and isfinite(self.high) and self.low < self.high):
            raise ValueError(f"An axis from {self.low} to {self.high} shows nothing.")

    def share(self, value: float) -> float:
        """Return where a value lies on it, from 0 to 1; what lies outside is put at the end."""
        return min(1.0, max(0.0, (value - self.low) / (self.high - self.low)))


@dataclass(frozen=True, slots=True)
class Plot:
    """The frame of a plot: a name for its ids, what it shows in words, and its two axes. Time or weight goes across."""

    name: str
    title: Text
    told: Text
    across: Axis
    up: Axis
    height: int = HEIGHT

    def x(self, value: float) -> float:
        """Return how far from the left a value is drawn."""
        return round(LEFT + (WIDTH - LEFT - RIGHT) * self.across.share(value), 1)

    def y(self, value: float) -> float:
        """Return how far from the top a value is drawn."""
        return round(TOP + (self.height - TOP - BOTTOM) * (1 - self.up.share(value)), 1)


def drawn(plot: Plot, parts: Iterable[Markup]) -> Markup:
    """Return the whole plot: its frame with ticks and words, and the parts on it, the first lowest."""
    inside = Markup("").join([*parts, _frame(plot)])
    return Markup(
        '<svg class="plot" viewBox="0 0 {width} {height}" role="img" aria-labelledby="{name}-title {name}-told" '
        'font-size="{letter}" fill="currentColor" stroke="none">'
        '<title id="{name}-title">{title}</title><desc id="{name}-told">{told}</desc>{inside}</svg>'
    ).format(
        width=WIDTH,
        height=plot.height,
        name=plot.name,
        letter=LETTER,
        title=said(plot.title),
        told=said(plot.told),
        inside=inside,
    )


def curve(plot: Plot, points: Sequence[Point], *, dashed: bool = False) -> Markup:
    """Return a line through points; dashed for what is expected and was not seen."""
    path = " ".join(f"{plot.x(across)},{plot.y(up)}" for across, up in points)
    dashes = Markup(' stroke-dasharray="7 5"') if dashed else Markup("")
    return Markup('<polyline points="{}" fill="none" stroke="currentColor" stroke-width="2.5"{}/>').format(path, dashes)


def dots(plot: Plot, points: Iterable[Point], *, hollow: bool = False) -> Markup:
    """Return a dot for each point: full for what was measured or done, hollow for what lies outside."""
    fill = "none" if hollow else "currentColor"
    one = Markup('<circle cx="{}" cy="{}" r="4.5" fill="{}" stroke="currentColor" stroke-width="2"/>')
    return Markup("").join(one.format(plot.x(across), plot.y(up), fill) for across, up in points)


def level(plot: Plot, value: float, words: str) -> Markup:
    """Return a thin line across at a value, its words at the left end above it."""
    y, right = plot.y(value), WIDTH - RIGHT
    return Markup(
        '<path d="M{left} {y}H{right}" fill="none" stroke="currentColor" stroke-width="1" stroke-dasharray="2 4"/>'
        '<text x="{at}" y="{above}">{words}</text>'
    ).format(left=LEFT, y=y, right=right, at=LEFT + 6, above=round(y - 5, 1), words=said(words))


def band(plot: Plot, low: float, high: float, words: Text) -> Markup:
    """Return a hatched band across between two values, words above it: hatching prints where a tint would not."""
    top, bottom = plot.y(high), plot.y(low)
    return _hatched(plot, (LEFT, top, WIDTH - LEFT - RIGHT, round(max(bottom - top, 1), 1))) + Markup(
        '<text x="{}" y="{}">{}</text>'
    ).format(LEFT + 6, round(top - 5, 1), said(words))


def wall(plot: Plot, across: float, down_to: float, words: Text) -> Markup:
    """Return a wall that hangs from the top to a value: what has to pass it passes below it. Words stand on top."""
    x, foot = plot.x(across), plot.y(down_to)
    at = min(max(x, LEFT + 44), WIDTH - RIGHT - 44)
    return Markup(
        '<path d="M{x} {top}V{foot}M{near} {foot}H{far}" fill="none" stroke="currentColor" stroke-width="4"/>'
        '<text x="{at}" y="{above}" text-anchor="middle">{words}</text>'
    ).format(
        x=x, top=TOP, foot=foot, near=round(x - 9, 1), far=round(x + 9, 1), at=at, above=TOP - 7, words=said(words)
    )


def ticks(low: float, high: float, about: int = 5) -> list[float]:
    """Return round numbers from low to high, about so many: steps of 1, 2 or 5 and their tens.

    >>> ticks(0, 60), ticks(32, 212)
    ([0.0, 20.0, 40.0, 60.0], [50.0, 100.0, 150.0, 200.0])
    """
    rough = (high - low) / about
    ten = 10.0 ** floor(log10(rough))
    step = next(ten * times for times in (1, 2, 5, 10) if ten * times >= rough)
    return [step * at for at in range(ceil(low / step - 1e-9), floor(high / step + 1e-9) + 1)]


def _frame(plot: Plot) -> Markup:
    """Return the two axes with their ticks and words."""
    foot, right = plot.height - BOTTOM, WIDTH - RIGHT
    lines = [
        Markup('<path d="M{} {}V{}H{}" fill="none" stroke="currentColor" stroke-width="2"/>').format(
            LEFT, TOP, foot, right
        )
    ]
    for value in ticks(plot.up.low, plot.up.high):
        text = Markup('<path d="M{} {}h5" stroke="currentColor"/><text x="{}" y="{}" text-anchor="end">{}</text>')
        lines.append(text.format(LEFT, plot.y(value), LEFT - 5, plot.y(value) + 5, f"{value:g}"))
    for value in ticks(plot.across.low, plot.across.high):
        text = Markup('<path d="M{} {}v-5" stroke="currentColor"/><text x="{}" y="{}" text-anchor="middle">{}</text>')
        lines.append(text.format(plot.x(value), foot, plot.x(value), foot + 18, f"{value:g}"))
    lines.append(
        Markup('<text x="{}" y="{}" text-anchor="end">{}</text>').format(
            right, plot.height - 8, said(plot.across.words)
        )
    )
    lines.append(Markup('<text x="4" y="{}">{}</text>').format(TOP - 7, said(plot.up.words)))
    return Markup("").join(lines)


def _hatched(plot: Plot, box: tuple[float, float, float, float]) -> Markup:
    """Return a box of slanted lines, with its edges."""
    name = escape(f"{plot.name}-hatch")
    return Markup(
        '<defs><pattern id="{name}" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
        '<path d="M0 0V8" stroke="currentColor" stroke-width="2.2" stroke-opacity=".6"/></pattern></defs>'
        '<rect x="{}" y="{}" width="{}" height="{}" fill="url(#{name})" stroke="currentColor" stroke-width="1"/>'
    ).format(*box, name=name)
