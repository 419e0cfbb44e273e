"""Workbooks are read as the tables they show: other programs' files, several sheets, formulas, days; never a bomb."""

from __future__ import annotations

import io
import zipfile
from datetime import date, datetime, time
from typing import Any

import pytest
from openpyxl import Workbook

from tests.imports.test_roster_files import KNOWN, NONE, shifts
from tests.printed import english
from trainer.imports.roster_files import roster_from
from trainer.imports.roster_plan import Choices, RosterPlan, ShiftRow
from trainer.imports.table_files import MOST_ROWS, CellTable, read_table
from trainer.imports.workbooks import MOST_UNPACKED

HEADS = ["Fecha", "Servicio", "Nombre", "Estación"]
ROW = [date(2026, 12, 4), "cena", "Ana Brandt", "Grill"]


def workbook(**sheets: list[list[Any]]) -> bytes:
    """Return a workbook with these sheets."""
    book, file = Workbook(), io.BytesIO()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    book.save(file)
    return file.getvalue()


def plan_of(data: bytes, choices: Choices = NONE) -> RosterPlan:
    return roster_from(read_table(data, choices.encoding, choices.sheet), choices, KNOWN)


def reasons(table: CellTable) -> list[str]:
    return [english(problem.reason) for problem in table.problems]


def test_a_shift_plan_from_a_workbook_is_the_one_from_a_table() -> None:
    """Days, Spanish heads and services, an empty row on the way, a blank column at the end."""
    plan = plan_of(workbook(Hoja1=[HEADS, [None] * 4, [*ROW, None]]))
    assert plan.problems == ()
    assert plan.rows == (ShiftRow(3, date(2026, 12, 4), "dinner", "p1", "grill"),)
    assert shifts("2026-12-04,dinner,Ana Brandt,grill").rows[0].on == date(2026, 12, 4)  # type: ignore[union-attr]


def test_cells_are_read_as_they_are_shown() -> None:
    """A staff number without its fraction, a time, a moment, yes and no."""
    moment = datetime.fromisoformat("2026-12-04T17:30")
    row = [7.0, 7.5, time(17, 30), moment, True, "  two  words "]
    (found,) = read_table(workbook(a=[list("abcdef"), row])).rows
    assert list(found.cells.values()) == ["7", "7.5", "17:30", "2026-12-04 17:30", "True", "  two  words "]


def test_which_of_two_sheets_is_asked_and_empty_ones_are_passed_over() -> None:
    """One sheet with anything on it is taken; of two, a person says which."""
    assert plan_of(workbook(empty=[], real=[HEADS, ROW])).rows
    data = workbook(week=[HEADS, ROW], notes=[["to do"]])
    (question,) = read_table(data).questions
    assert [reading.choice for reading in question.readings] == ["week", "notes"]
    assert plan_of(data, Choices(sheet="week")).rows
    assert plan_of(data, Choices(sheet="gone")).questions


def test_a_formula_is_what_it_showed() -> None:
    """A file that was never opened by a spreadsheet has no such value: the cell is empty, and its row says so."""
    plan = plan_of(workbook(a=[HEADS, ["=TODAY()", *ROW[1:]]]))
    assert [(problem.row, english(problem.reason)) for problem in plan.problems] == [(2, "The date is missing.")]


def test_merged_heads_are_told_by_row() -> None:
    """Under a merged head the second column has no name."""
    book, file = Workbook(), io.BytesIO()
    sheet = book.worksheets[0]
    for row in (["number", None, "name"], ["1", "x", "Ana"]):
        sheet.append(row)
    sheet.merge_cells("A1:B1")
    book.save(file)
    assert reasons(read_table(file.getvalue())) == ["The cell stands under no header."]


def test_a_bomb_is_refused_before_it_is_unpacked() -> None:
    """What is small and unpacks to more than 100 MB is not opened."""
    file = io.BytesIO(workbook(a=[HEADS, ROW]))
    with zipfile.ZipFile(file, "a", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/worksheets/sheet9.xml", b"0" * (MOST_UNPACKED + 1))
    assert len(file.getvalue()) < 200_000
    (reason,) = reasons(read_table(file.getvalue()))
    assert "100000000" in reason.replace(",", "")


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"PK\x03\x04 and so on", "damaged"),
        (b"\xd0\xcf\x11\xe0 and so on", "old kind"),
        (workbook(a=[HEADS, ROW])[:-200], "damaged"),
    ],
)
def test_what_cannot_be_opened_says_so(data: bytes, word: str) -> None:
    """A workbook that is cut, locked or old is named, with the way out."""
    table = read_table(data)
    assert word in reasons(table)[0]
    assert "XLSX" in english(table.problems[0].hint)


def test_a_packed_file_of_another_kind_is_no_workbook() -> None:
    """A text document is a packed file too."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as packed:
        packed.writestr("word/document.xml", "<x/>")
    assert "no workbook" in reasons(read_table(file.getvalue()))[0]


def test_more_rows_than_are_read_are_refused() -> None:
    """A sheet of more than 100,000 rows is refused, and not half read."""
    book, file = Workbook(write_only=True), io.BytesIO()
    sheet = book.create_sheet("a")
    for _ in range(MOST_ROWS + 5):
        sheet.append(["x"])
    book.save(file)
    assert any("more than" in reason for reason in reasons(read_table(file.getvalue())))


@pytest.mark.parametrize("encoding", ["utf-16", "utf-8", "utf-8-sig"])
def test_letters_of_every_usual_kind_are_read(encoding: str) -> None:
    """A table saved as Unicode text is read like one in UTF-8."""
    table = read_table("number\tname\r\n1\tŁucja\r\n".encode(encoding))
    assert [dict(row.cells) for row in table.rows] == [{"number": "1", "name": "Łucja"}]


@pytest.mark.parametrize("name", ["Zoe Roux", "ANA BRANDT", "Ána Brandt"])
def test_the_same_person_under_other_accents_is_found(name: str) -> None:
    """One person is found; of two with the same name the number is asked, accents or not."""
    plan = shifts(f"2026-12-04,dinner,{name},grill")
    if name == "Zoe Roux":
        assert "2 people are called" in english(plan.problems[0].reason)
    else:
        assert plan.rows[0].cook == "p1"  # type: ignore[union-attr]


@pytest.mark.parametrize("name", ["=1+1", "+Ana", "-Ana", "@Ana"])
def test_a_name_that_begins_like_a_formula_is_refused(name: str) -> None:
    """It would run in the spreadsheet of whoever is handed the roster (OWASP ASVS 5.0.0, 1.2.10)."""
    plan = roster_from(read_table(f"number,name\r\n1,{name}\r\n".encode()), NONE, KNOWN)
    assert "as a formula does" in english(plan.problems[0].reason)


def test_a_header_is_what_a_person_says_it_is() -> None:
    """An unknown header may be left out, or be named."""
    data = b"number,full name\r\n1,Ana\r\n"
    assert roster_from(read_table(data), NONE, KNOWN).problems
    named = Choices(column_names={"full name": "name"})
    assert roster_from(read_table(data), named, KNOWN).rows[0].name == "Ana"  # type: ignore[union-attr]
