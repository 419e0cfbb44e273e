"""Prints a page to PDF and measures what is drawn on it, in millimetres of paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTComponent, LTContainer, LTCurve, LTPage
from playwright.sync_api import Page

MM_PER_POINT = 25.4 / 72
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # ISO 216; ANSI/ASME Y14.1, 8 1/2 by 11 in
MARGIN = "10mm"  # about what a browser's print dialog leaves by itself


@dataclass(frozen=True, slots=True)
class Drawn:
    """The box around one drawn line or shape, in millimetres of paper."""

    wide: float
    high: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """One printed sheet: its size, all that is drawn on it, and how far down it is written or drawn on.

    `smallest` is its smallest type, in points (1/72 in); 0 where nothing is written on it.
    """

    wide: float
    high: float
    drawn: tuple[Drawn, ...]
    used: float
    smallest: float

    def nearest(self, wide: float, high: float) -> Drawn:
        """Return the drawn box whose sides come nearest to these."""
        return min(self.drawn, key=lambda each: abs(each.wide - wide) + abs(each.high - high))


def printed(page: Page, paper: str) -> tuple[Sheet, ...]:
    """Return the sheets a page prints on, on paper of that name, at full size."""
    margin = dict.fromkeys(("top", "right", "bottom", "left"), MARGIN)
    pdf = page.pdf(format=paper, margin=margin, prefer_css_page_size=True)  # type: ignore[arg-type]
    return tuple(
        Sheet(
            sheet.width * MM_PER_POINT,
            sheet.height * MM_PER_POINT,
            tuple(_boxes(sheet)),
            _used(sheet),
            min(_types(sheet), default=0),
        )
        for sheet in extract_pages(BytesIO(pdf))
    )


def _used(sheet: LTPage) -> float:
    """Return how far down a sheet its lowest text or drawing ends, in millimetres."""
    return (sheet.height - min((each.y0 for each in sheet if each.height < sheet.height), default=0)) * MM_PER_POINT


def _types(around: LTComponent) -> Iterator[float]:
    """Yield the size of every printed sign's type, in points."""
    if isinstance(around, LTChar):
        if not around.get_text().isspace():
            yield around.size
    elif isinstance(around, LTContainer):
        for each in around:
            yield from _types(each)


def _boxes(around: LTComponent) -> Iterator[Drawn]:
    """Yield the box of every line and shape, however deep it lies."""
    if isinstance(around, LTCurve):
        yield Drawn(around.width * MM_PER_POINT, around.height * MM_PER_POINT)
    elif isinstance(around, LTContainer):
        for each in around:
            yield from _boxes(each)
