"""Workbooks as spreadsheets save them (XLSX, ISO/IEC 29500): one sheet's cells as the table of text they show.

Limits, beside those of a table: 1,000 packed files, 100 MB unpacked, so that a small file cannot fill the memory.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from datetime import datetime, time, timedelta
from typing import Any

from trainer.messages import Text, message

MOST_UNPACKED = 100_000_000
MOST_PACKED_FILES = 1_000
Record = tuple[int, list[str]]
"""A row that is not empty: the number a spreadsheet shows beside it, and its cells as text."""


class NotReadable(Exception):
    """A workbook that cannot be read: why, and the way out."""

    def __init__(self, reason: Text, mend: Text) -> None:
        super().__init__()
        self.reason, self.mend = reason, mend


def sheets_of(data: bytes, most_rows: int) -> dict[str, list[Record]]:
    """Return the sheets of a workbook that hold anything, by name, each with at most one row more than *most_rows*.

    A formula is the value it showed when the file was saved; days are written YYYY-MM-DD, times HH:MM. Raise
    `NotReadable` for what is no workbook, is locked, or would unpack beyond the limits.
    """
    _check_packing(data)
    book = _open(data)
    found = {
        sheet.title: list(_records(sheet, most_rows)) for sheet in book.worksheets if sheet.sheet_state == "visible"
    }
    book.close()
    return {name: records for name, records in found.items() if records}


def _check_packing(data: bytes) -> None:
    """Refuse what is no workbook, and what would unpack to more than anybody's workbook is."""
    resave = message("Save it again from the spreadsheet, as XLSX or as “CSV UTF-8”.")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            files = packed.infolist()
    except zipfile.BadZipFile:
        raise NotReadable(message("The file is a workbook that is damaged, or locked by a password."), resave) from None
    if not any(file.filename == "xl/workbook.xml" for file in files):
        raise NotReadable(message("The file is packed, and no workbook of the kind XLSX."), resave)
    size = sum(file.file_size for file in files)
    if size > MOST_UNPACKED or len(files) > MOST_PACKED_FILES:
        reason = message(
            "Unpacked the workbook has {size} bytes; at most {most} are read.", size=size, most=MOST_UNPACKED
        )
        raise NotReadable(reason, message("Divide it."))


def _open(data: bytes) -> Any:  # noqa: ANN401 - a workbook of the library
    from openpyxl import load_workbook

    try:
        return load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False)
    except Exception as problem:  # whatever a file made by hand makes the library raise
        raise NotReadable(
            message("The workbook is damaged: {problem}.", problem=str(problem)[:80] or type(problem).__name__),
            message("Save it again from the spreadsheet, as XLSX or as “CSV UTF-8”."),
        ) from problem


def _records(sheet: Any, most_rows: int) -> Iterator[Record]:  # noqa: ANN401 - a sheet of the library
    """Yield the rows that hold anything, until there are too many."""
    sheet.reset_dimensions()  # some programs write a wrong one
    found = 0
    for number, row in enumerate(sheet.iter_rows(values_only=True), 1):
        cells = [_text(value) for value in row]
        if any(cell.strip() for cell in cells):
            while cells and not cells[-1]:
                cells.pop()
            yield number, cells
            found += 1
        if found > most_rows + 1 or number > 20 * most_rows:
            return


def _text(value: Any) -> str:  # noqa: ANN401 - whatever a cell holds
    """Return a cell as it is written in a table of text."""
    if isinstance(value, datetime) and value.time() == time.min:
        return value.date().isoformat()
    if isinstance(value, datetime):
        return value.isoformat(" ", "minutes")
    if isinstance(value, time):
        return value.isoformat("minutes")
    if isinstance(value, timedelta):
        return f"{value // timedelta(hours=1):02}:{value // timedelta(minutes=1) % 60:02}"
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return "" if value is None else str(value)
