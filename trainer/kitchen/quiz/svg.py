"""Small drawings in one ink, as SVG text: shapes that take the colour of the page and carry no style and no script."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians, sin
from typing import NamedTuple


class At(NamedTuple):
    """A place on a drawing, in its own units, x to the right and y down."""

    x: float
    y: float

    def toward(self, degrees: float, length: float) -> At:
        """Return the place at a distance, clockwise from straight up."""
        return At(self.x + length * sin(radians(degrees)), self.y - length * cos(radians(degrees)))


def number(value: float) -> str:
    """Return a coordinate with two decimals at most."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def drawing(width: float, height: float, shapes: Iterable[str], unit: str = "") -> str:
    """Return a whole figure; with a unit such as `mm` it has a true size."""
    w, h = number(width), number(height)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {w} {h}" width="{w}{unit}" height="{h}{unit}" '
        f'fill="none" stroke="currentColor">{"".join(shapes)}</svg>'
    )


def line(start: At, end: At, width: float = 1) -> str:
    """Return a line."""
    return (
        f'<line x1="{number(start.x)}" y1="{number(start.y)}" x2="{number(end.x)}" y2="{number(end.y)}" '
        f'stroke-width="{number(width)}"/>'
    )


def box(corner: At, width: float, height: float, ink: float = 0.4) -> str:
    """Return an upright rectangle, its corner at the top left."""
    return (
        f'<rect x="{number(corner.x)}" y="{number(corner.y)}" width="{number(width)}" height="{number(height)}" '
        f'stroke-width="{number(ink)}"/>'
    )


def circle(middle: At, radius: float, is_filled: bool = False) -> str:
    """Return a circle."""
    fill = ' fill="currentColor"' if is_filled else ""
    return f'<circle cx="{number(middle.x)}" cy="{number(middle.y)}" r="{number(radius)}" stroke-width="1.5"{fill}/>'


def words(at: At, text: str, size: float, anchor: str = "middle") -> str:
    """Return a text standing on a place."""
    return (
        f'<text x="{number(at.x)}" y="{number(at.y)}" font-size="{number(size)}" text-anchor="{anchor}" '
        f'fill="currentColor" stroke="none">{text}</text>'
    )
