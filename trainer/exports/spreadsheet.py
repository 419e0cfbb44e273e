"""Tables as files a spreadsheet opens: CSV (RFC 4180) and XLSX (ISO/IEC 29500), in which no cell can run."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from typing import IO, Any, cast

from trainer.exports.tables import Cell, Table
from trainer.messages import Message, Text

FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r", "\0")
"""What a spreadsheet takes for the beginning of a formula (OWASP ASVS 5.0.0, 1.2.10)."""
LONGEST_CELL = 32_767  # Microsoft, Excel specifications and limits: characters a cell
LONGEST_TITLE = 31  # the same: characters a sheet's name
NO_TITLE_SIGNS = str.maketrans(dict.fromkeys("[]:*?/\\", " "))
WIDEST = 48  # letters: a column of long sentences is read by its first words
Say = Callable[[Text], str]
"""What prints words in the language of whoever the file is for."""


def safe_cell(text: str) -> str:
    """Return a text that a spreadsheet shows as it is: one that begins like a formula gets an apostrophe before it.

    >>> safe_cell("=1+1"), safe_cell("cold side")
    ("'=1+1", 'cold side')
    """
    return f"'{text}" if text.startswith(FORMULA_SIGNS) else text


def csv_of(table: Table, say: Say) -> Iterator[str]:
    """Yield a table as CSV, line by line; it begins with a byte order mark, by which spreadsheets know UTF-8."""
    yield "\ufeff" + _csv_line(say(head) for head in table.heads)
    for row in table.rows:
        yield _csv_line(_text(cell, say) for cell in row)


def _csv_line(cells: Iterable[str]) -> str:
    line = io.StringIO(newline="")
    csv.writer(line).writerow([safe_cell(cell) for cell in cells])
    return line.getvalue()


def _text(cell: Cell, say: Say) -> str:
    if cell is None:
        return ""
    return say(cell) if isinstance(cell, str | Message) else str(cell)


def xlsx_of(tables: Sequence[Table], into: IO[bytes], say: Say) -> None:
    """Write tables into a workbook, a sheet each: days as days, numbers as numbers, every text as text."""
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    for table in tables:
        _fill(book.create_sheet(say(table.name).translate(NO_TITLE_SIGNS)[:LONGEST_TITLE]), table, say)
    book.save(into)


def _fill(sheet: Any, table: Table, say: Say) -> None:  # noqa: ANN401 - a sheet of the library
    from openpyxl.utils import get_column_letter

    heads = [say(head) for head in table.heads]
    rows, first = iter(table.rows), []
    for row in rows:
        first.append(row)
        if len(first) == 200:  # enough to see how wide a column is
            break
    for number, head in enumerate(heads):
        widest = max([len(head), *(len(_text(row[number], say)) for row in first)])
        sheet.column_dimensions[get_column_letter(number + 1)].width = min(widest, WIDEST) + 2
    sheet.freeze_panes = "B2"
    sheet.append([_bold(sheet, head) for head in heads])
    for row in _chained(first, rows):
        sheet.append([_cell(sheet, cell, say) for cell in row])


def _chained(first: Iterable[tuple[Cell, ...]], rest: Iterable[tuple[Cell, ...]]) -> Iterator[tuple[Cell, ...]]:
    yield from first
    yield from rest


def _bold(sheet: Any, text: str) -> Any:  # noqa: ANN401 - a sheet and a cell of the library
    from openpyxl.styles import Font

    cell = _cell(sheet, text, str)
    cell.font = Font(bold=True)
    return cell


def _cell(sheet: Any, value: Cell, say: Say) -> Any:  # noqa: ANN401 - as above
    """Return a cell; a text is marked as text, so that one beginning like a formula is shown and not run."""
    from openpyxl.cell import WriteOnlyCell

    if value is None or isinstance(value, int | date):
        return WriteOnlyCell(sheet, cast("Any", value))
    cell = WriteOnlyCell(sheet, value=_writable(say(value)))
    cell.data_type = "s"
    return cell


def _writable(text: str) -> str:
    """Return a text without the control characters that XML 1.0 does not allow, as long as a cell may be."""
    return "".join(letter for letter in text if letter >= " " or letter in "\n\t")[:LONGEST_CELL]
