"""Numbers on a drawing: it names lines in braces, and they are printed in the reader's units when it is shown.

<text x="90" y="60">{custard_band}</text>     176–185 °F
<text x="90" y="60">{code.hot_holding.lowest}</text>     135 °F
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping

from trainer.kitchen.limit_text import InOne, shortest_text
from trainer.kitchen.reading_units import System
from trainer.kitchen.technique import Limit
from trainer.messages import Text

NAMED = re.compile(r"\{((?:code\.)?[a-z][a-z0-9_]*)(?:\.(lowest|highest|target))?\}")


def unknown_in(svg: str, lines: Mapping[str, Limit]) -> Iterator[str]:
    """Yield what a drawing names in braces and no line has."""
    return (found[0] for found in NAMED.finditer(svg) if _number(found, lines, "us") is None)


def numbered(svg: str, lines: Mapping[str, Limit], units: System, printed: Callable[[Text], str]) -> str:
    """Return a drawing with its numbers in one system of measures; *printed* says a text in the reader's words."""

    def number(found: re.Match[str]) -> str:
        text = _number(found, lines, units)
        return "" if text is None else printed(text)

    return NAMED.sub(number, svg) if "{" in svg else svg


def _number(found: re.Match[str], lines: Mapping[str, Limit], units: System) -> Text | None:
    """Return one number; None where no line has it."""
    limit = lines.get(found[1])
    if limit is None:
        return None
    if found[2] is None:
        return shortest_text(limit, InOne(units))
    end = getattr(limit, found[2])
    return None if end is None else InOne(units).amount(end)
