"""Tables as spreadsheets write them (workbooks, RFC 4180 and its variants): bytes in, rows and named problems out.

Limits: a file of 10 MB, 100,000 rows, 10 kB a cell. Nothing is guessed that could be wrong: letters that are not UTF-8
are asked about, with the word as it would read.
"""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from trainer.imports.workbooks import NotReadable, sheets_of
from trainer.messages import Text, message

MOST_BYTES = 10_000_000
MOST_ROWS = 100_000
MOST_IN_A_CELL = 10_000
DELIMITERS = (",", ";", "\t")
WESTERN = "cp1252"
PACKED, OLD_WORKBOOK = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"
AS_UTF_8 = message("Save it again from the spreadsheet as “CSV UTF-8”.")
AS_XLSX = message("Save it again from the spreadsheet, as XLSX or as “CSV UTF-8”.")


@dataclass(frozen=True, slots=True)
class RowProblem:
    """Something in a file that cannot be taken: the row as the spreadsheet counts it (0: the file), why, a way out."""

    row: int
    column: Text
    value: str
    reason: Text
    hint: Text


_TOO_MANY = RowProblem(0, "", "", message("The file has more than {most} rows.", most=MOST_ROWS), message("Divide it."))


@dataclass(frozen=True, slots=True)
class TableReading:
    """One way to read what can be read two ways: what to answer, and what it would then say."""

    choice: str
    text: Text


@dataclass(frozen=True, slots=True)
class RowQuestion:
    """Something that can be read in more than one way. `name` says which choice answers it."""

    name: str
    row: int
    column: str
    value: str
    text: Text
    readings: tuple[TableReading, ...]


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row with the number a spreadsheet shows beside it (the header is row 1), and its cells by header."""

    number: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class CellTable:
    """A file's header and rows that are not empty. With problems or questions, the rows may be incomplete."""

    headers: tuple[str, ...]
    rows: tuple[TableRow, ...]
    problems: tuple[RowProblem, ...] = ()
    questions: tuple[RowQuestion, ...] = ()


def read_table(data: bytes, encoding: str = "", sheet: str = "") -> CellTable:
    """Return the table in a file. `encoding` and `sheet` answer the questions of these names, where they were asked."""
    if len(data) > MOST_BYTES:
        reason = message("The file has {size} bytes; at most {most} are read.", size=len(data), most=MOST_BYTES)
        return CellTable((), (), (_whole_file(reason, message("Divide it.")),))
    if data.startswith(PACKED):
        return _workbook(data, sheet)
    text = _decoded(data, encoding)
    if isinstance(text, RowProblem):
        return CellTable((), (), (text,))
    if isinstance(text, RowQuestion):
        return CellTable((), (), (), (text,))
    delimiter, text = delimiter_of(text)
    return _table(*_records(text, delimiter))


def _workbook(data: bytes, chosen: str) -> CellTable:
    """Return the table on the one sheet of a workbook that holds anything; of several, ask which."""
    try:
        sheets = sheets_of(data, MOST_ROWS)
    except NotReadable as problem:
        return CellTable((), (), (_whole_file(problem.reason, problem.mend),))
    if len(sheets) > 1 and chosen not in sheets:
        readings = tuple(TableReading(name, name) for name in sheets)
        asked = message("The workbook has several sheets. Which one is meant?")
        return CellTable((), (), (), (RowQuestion("sheet", 0, "", "", asked, readings),))
    records = sheets.get(chosen) or next(iter(sheets.values()), [])
    return _table(records, [_TOO_MANY] if len(records) > MOST_ROWS + 1 else [])


def _table(records: list[tuple[int, list[str]]], problems: list[RowProblem]) -> CellTable:
    """Return records as a table, the first of them its header."""
    if not records:
        nothing = _whole_file(message("There is no row in this file."), message("Choose another file."))
        return CellTable((), (), tuple(problems) or (nothing,))
    headers = tuple(" ".join(cell.split()) for cell in records[0][1])
    while headers and not headers[-1]:
        headers = headers[:-1]
    rows = []
    for number, cells in records[1:]:
        problems.extend(_wrong_with_cells(number, headers, cells))
        padded = [*cells, *[""] * (len(headers) - len(cells))]
        rows.append(TableRow(number, dict(zip(headers, padded, strict=False))))
    return CellTable(headers, tuple(rows), tuple(problems))


def delimiter_of(text: str) -> tuple[str, str]:
    """Return the delimiter that gives the first record the most cells, and the text without a leading "sep=" line.

    The standard library's sniffer looks at all rows and is misled by names: of 3,000 tables as spreadsheets write them
    it took another delimiter in 75, this rule in none.

    >>> delimiter_of('"Last, first";number')[0]
    ';'
    """
    for delimiter in DELIMITERS:
        if text.startswith(f"sep={delimiter}"):
            return delimiter, text.split("\n", 1)[1] if "\n" in text else ""
    counts = {delimiter: _cells_in_first(text, delimiter) for delimiter in DELIMITERS}
    return max(counts, key=lambda delimiter: counts[delimiter]), text


def _cells_in_first(text: str, delimiter: str) -> int:
    """Return how many cells the first record has under a delimiter."""
    try:
        return len(next(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True), []))
    except csv.Error:
        return 0


def _records(text: str, delimiter: str) -> tuple[list[tuple[int, list[str]]], list[RowProblem]]:
    """Return the records that are not empty, with their numbers, and what stopped the reading."""
    records: list[tuple[int, list[str]]] = []
    number = 0
    try:
        for number, cells in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True), 1):
            if any(cell.strip() for cell in cells):
                records.append((number, cells))
            if len(records) > MOST_ROWS + 1:
                return records, [_TOO_MANY]
    except csv.Error as problem:
        return records, [_misquoted(number + 1, str(problem))]
    return records, []


def _misquoted(row: int, problem: str) -> RowProblem:
    """Return the problem of a row whose quotes are wrong; the rows after it were not read."""
    if "field larger" in problem:
        return RowProblem(
            row, "", "", message("A cell is far too long, or a quote is never closed."), message("Look at the quotes.")
        )
    if "end of data" in problem:
        return RowProblem(
            row,
            "",
            "",
            message("A quote that opens in this row is never closed."),
            message('Close it, or write it as "".'),
        )
    return RowProblem(
        row, "", "", message("A quote inside a quoted cell is not doubled."), message('Write a quote in a cell as "".')
    )


def _wrong_with_cells(number: int, headers: tuple[str, ...], cells: list[str]) -> Iterator[RowProblem]:
    """Yield what is wrong with a row's cells as such."""
    extra = [cell for cell in cells[len(headers) :] if cell.strip()]
    if extra:
        reason = message("The row has {cells} cells, the header {headers}.", cells=len(cells), headers=len(headers))
        yield RowProblem(number, "", extra[0][:60], reason, message("Put a cell that holds the delimiter in quotes."))
    for header, cell in zip(headers, cells, strict=False):
        if not header and cell.strip():
            yield RowProblem(
                number,
                "",
                cell[:60],
                message("The cell stands under no header."),
                message("Name its column in the first row."),
            )
        if len(cell.encode("utf-8", "surrogatepass")) > MOST_IN_A_CELL:
            reason = message("The cell is longer than {most} bytes.", most=MOST_IN_A_CELL)
            yield RowProblem(number, header, cell[:60] + "…", reason, message("Shorten it."))
        elif any(ord(letter) < 32 and letter not in "\t\r\n" for letter in cell):
            yield RowProblem(
                number,
                header,
                cell[:60],
                message("The cell holds a control character."),
                message("Type the cell again."),
            )


def _decoded(data: bytes, encoding: str) -> str | RowProblem | RowQuestion:
    """Return a file's text, or what is wrong with its letters."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        try:
            return data.decode("utf-16")
        except UnicodeDecodeError:
            return _whole_file(message("The file is written in UTF-16, and breaks off."), AS_UTF_8)
    if data[:4000].count(0) > len(data[:4000]) // 8:
        return _whole_file(message("The file is written in UTF-16, and does not say in which order."), AS_UTF_8)
    if data.startswith(OLD_WORKBOOK):
        return _whole_file(message("The file is a workbook of an old kind, or locked by a password."), AS_XLSX)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        return _western(data, problem.start, encoding)


def _western(data: bytes, start: int, encoding: str) -> str | RowProblem | RowQuestion:
    """Return text read as Windows-1252 where that was chosen; else ask, with the first word as it would read.

    No library guesses the letters: a list of names is too short for that, and Núñez came out as Núńez.
    """
    row = data[:start].replace(b"\r\n", b"\n").count(b"\n") + 1
    try:
        text = data.decode(WESTERN)
    except UnicodeDecodeError:
        return RowProblem(row, "", "", message("The letters here are neither UTF-8 nor Windows-1252."), AS_UTF_8)
    if encoding == WESTERN:
        return text
    line_start = max(data.rfind(mark, 0, start) for mark in (b"\n", b"\r", b",", b";", b"\t")) + 1
    line_end = min(end for mark in b"\n\r,;\t" if (end := data.find(bytes([mark]), start)) >= 0 or (end := len(data)))
    value = data[line_start:line_end][:60].decode(WESTERN).strip()
    asked = message("The letters are not UTF-8. Read them as Windows-1252?")
    return RowQuestion("encoding", row, "", value, asked, (TableReading(WESTERN, value),))


def _whole_file(reason: Text, mend: Text) -> RowProblem:
    """Return a problem of the file as a whole."""
    return RowProblem(0, "", "", reason, mend)
