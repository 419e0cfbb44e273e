"""Tables open in a spreadsheet as they are: read back by other readers, and no cell of them can run."""

from __future__ import annotations

import csv
import io
import zipfile
from datetime import date
from typing import Any

import pytest
from lxml import etree
from openpyxl import load_workbook

from tests.printed import english
from trainer.exports.spreadsheet import FORMULA_SIGNS, csv_of, xlsx_of
from trainer.exports.tables import Table
from trainer.messages import message

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"  # ECMA-376 part 1, 18
ROWS = [
    ("Łucja Wiśnicka", date(2026, 3, 2), 12, None),
    ("Thảo Vy Đặng", date(2028, 2, 29), -3, message("cleared")),
    ("a, “b”\nc", None, 0, "12:30"),
]


def table(*rows: tuple[object, ...]) -> Table:
    return Table(message("Who"), (message("Cook"), "Day", "Number", "Words"), rows)  # type: ignore[arg-type]


def workbook(*rows: tuple[object, ...]) -> bytes:
    file = io.BytesIO()
    xlsx_of([table(*rows)], file, english)
    return file.getvalue()


def test_csv_is_read_back_by_the_general_reader() -> None:
    """UTF-8 with a byte order mark, one line a row, commas and quotes kept (RFC 4180, 2)."""
    text = "".join(csv_of(table(*ROWS), english))
    assert text.startswith("\ufeff")
    found = list(csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline="")))
    assert found[0] == ["Cook", "Day", "Number", "Words"]
    assert found[1:] == [
        ["Łucja Wiśnicka", "2026-03-02", "12", ""],
        ["Thảo Vy Đặng", "2028-02-29", "'-3", "cleared"],
        ["a, “b”\nc", "", "0", "12:30"],
    ]


def test_a_workbook_is_read_back_with_its_days_and_numbers() -> None:
    """Days are days and numbers are numbers, so that a spreadsheet sorts them."""
    sheet = load_workbook(io.BytesIO(workbook(*ROWS))).active
    assert sheet is not None
    found: list[list[Any]] = [[cell.value for cell in row] for row in sheet.iter_rows(min_row=2)]
    assert [row[1].date() if row[1] else None for row in found] == [date(2026, 3, 2), date(2028, 2, 29), None]
    assert [row[2] for row in found] == [12, -3, 0]
    assert [row[0] for row in found] == ["Łucja Wiśnicka", "Thảo Vy Đặng", "a, “b”\nc"]
    assert sheet.title == "Who"


@pytest.mark.parametrize("sign", FORMULA_SIGNS)
def test_nothing_in_a_file_is_a_formula(sign: str) -> None:
    """OWASP ASVS 5.0.0, 1.2.10: what begins like a formula is quoted in CSV, and a text in a workbook."""
    evil = f"{sign}HYPERLINK(1)"
    line = "".join(csv_of(table((evil, None, 1, None)), english)).splitlines()[-1]
    assert line.strip('"').startswith("'") or sign in "\r\0"
    with zipfile.ZipFile(io.BytesIO(workbook((evil, None, 1, None)))) as packed:
        root = etree.fromstring(packed.read("xl/worksheets/sheet1.xml"))
    assert root.findall(f".//{MAIN}f") == []
    cells = root.findall(f".//{MAIN}row[2]") or root.findall(f".//{MAIN}row")[1:]
    assert cells[0][0].get("t") in ("s", "inlineStr")


def test_a_workbook_takes_what_a_note_may_hold() -> None:
    """Control characters, which XML 1.0 (2.2) has not, are left out; a text longer than a cell may be is cut."""
    sheet = load_workbook(io.BytesIO(workbook(("a\x07b", None, 1, "x" * 40_000)))).active
    assert sheet is not None
    assert sheet["A2"].value == "ab"
    assert len(str(sheet["D2"].value)) == 32_767  # Microsoft, Excel specifications and limits
