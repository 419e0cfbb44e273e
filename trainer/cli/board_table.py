"""The board as text, never wider than a terminal: whole words where they fit, else short ones with what they mean."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from trainer.kitchen.clearance import Clearance
from trainer.kitchen.from_before import KNOWN
from trainer.messages import translate

WIDEST = 120
"""Letters a line."""
LONGEST_NAME = 24
NUMBERED = 8
"""With more stations each head is a number, and a list of them follows."""
SHORT: Mapping[str, str] = {
    "not started": "new",
    "studying": "study",
    "ready to show": "ready",
    "supervised": "beside",
    "cleared": "clear",
    "due again": "due",
    "lapsed": "lapsed",
    "stood down": "off",
    "not allowed": "barred",
}
COLUMN = 6  # the longest short word; the mark stands behind shorter ones alone
KNOWN_MARK = "*"
Row = tuple[str, Sequence[Clearance]]


def board_text(titles: Sequence[str], rows: Sequence[Row]) -> Iterator[str]:
    """Yield the lines of a board: a head, a line a cook, and below it what is said in short.

    Words and days where a line has room for them; short words with days, or words alone, where it has not; else short
    words, in as many tables as the stations need.
    """
    whole = [["Cook", *titles], *([name, *map(cell_text, cells)] for name, cells in rows)]
    words = [["Cook", *titles], *([name, *map(_word, cells)] for name, cells in rows)]
    dated = [["Cook", *titles], *([_cut(name, LONGEST_NAME), *map(_dated, cells)] for name, cells in rows)]
    tables = (whole, dated, words) if len(titles) <= NUMBERED else ()
    fits = next((table for table in tables if _width(table) <= WIDEST), None)
    if fits is not None:
        yield from table_lines(fits)
        if fits is dated:
            yield from _filled([f"{SHORT[state]} and a day: {state} to that day" for state in _dated_states(rows)])
        if fits is not whole:
            yield from _mark_meaning(rows)
        return
    name = min(max([len("Cook"), *(len(name) for name, _ in rows)]), LONGEST_NAME)
    column = COLUMN if len(titles) > NUMBERED else (WIDEST - name) // len(titles) - 2
    heads = _heads(titles, column)
    each = (WIDEST - name) // (column + 2)
    for first in range(0, len(titles), each):
        part = slice(first, first + each)
        yield from table_lines(
            [
                ["Cook".ljust(name), *(head.ljust(column) for head in heads[part])],
                *([_cut(one, name), *map(_short, cells[part])] for one, cells in rows),
            ]
        )
    yield from _meanings(titles, heads, rows)


def cell_text(clearance: Clearance) -> str:
    """Return a board cell as text: the state, and the last good day of a clearance; of a blank one nothing."""
    if clearance.blank:
        return ""
    known = f", {translate(KNOWN)}" if clearance.is_cleared and clearance.known else ""
    if clearance.is_cleared and clearance.until:
        return f"{clearance.state} to {clearance.until.isoformat()}{known}"
    return f"{clearance.state}{known}"


def table_lines(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Yield rows as columns, each as wide as its longest text."""
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    for row in rows:
        yield "  ".join(text.ljust(width) for text, width in zip(row, widths, strict=True)).rstrip()


def _width(rows: Sequence[Sequence[str]]) -> int:
    return max(map(len, table_lines(rows)))


def _word(found: Clearance) -> str:
    """Return the state alone, with the mark of one that nobody has watched; of a blank cell nothing."""
    return "" if found.blank else found.state + _mark(found)


def _dated(found: Clearance) -> str:
    """Return a clearance in a short word with its last good day, any other state as a word alone."""
    if found.blank or not _has_day(found):
        return _word(found)
    return f"{SHORT[found.state]} {found.until}{_mark(found)}"


def _has_day(found: Clearance) -> bool:
    return found.is_cleared and found.until is not None


def _dated_states(rows: Sequence[Row]) -> list[str]:
    """Return the states that stand in a table as a short word with a day, each once."""
    used = {found.state for _, cells in rows for found in cells if not found.blank and _has_day(found)}
    return [state for state in SHORT if state in used]


def _short(found: Clearance) -> str:
    return "" if found.blank else SHORT[found.state] + _mark(found)


def _mark(found: Clearance) -> str:
    return KNOWN_MARK if found.is_cleared and found.known else ""


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else f"{text[: width - 1]}…"


def _heads(titles: Sequence[str], width: int) -> list[str]:
    """Return a number for each of many stations, else their titles, cut where they are long."""
    if len(titles) > NUMBERED:
        return [str(number) for number, _ in enumerate(titles, 1)]
    return [_cut(title, width) for title in titles]


def _meanings(titles: Sequence[str], heads: Sequence[str], rows: Sequence[Row]) -> Iterator[str]:
    """Yield what the short heads and words stand for, those alone that are there."""
    used = {found.state for _, cells in rows for found in cells if not found.blank}
    yield from _filled([f"{head} {title}" for head, title in zip(heads, titles, strict=True) if head != title])
    yield from _filled([f"{short}: {state}" for state, short in SHORT.items() if state in used])
    yield from _mark_meaning(rows)


def _mark_meaning(rows: Sequence[Row]) -> Iterator[str]:
    """Yield what the mark says, where somebody has it."""
    if any(_mark(found) for _, cells in rows for found in cells):
        yield f"{KNOWN_MARK}: {translate(KNOWN)}"


def _filled(parts: Sequence[str]) -> Iterator[str]:
    """Yield parts one after another, as many a line as fit."""
    line = ""
    for part in parts:
        if line and len(line) + len(part) + 3 > WIDEST:
            yield line
            line = ""
        line = f"{line}   {part}" if line else part
    if line:
        yield line
