"""Tables as spreadsheets write them are read to the letter; what cannot be read is named."""

from __future__ import annotations

import codecs

import pytest

from tests.printed import all_english, english
from trainer.imports.table_files import CellTable, delimiter_of, read_table


def cells(table: CellTable) -> list[tuple[str, ...]]:
    """Return the cells of every row."""
    return [tuple(row.cells.values()) for row in table.rows]


def reasons(table: CellTable) -> list[str]:
    """Return why a table cannot be taken."""
    return all_english(problem.reason for problem in table.problems)


RFC_4180 = {
    "rule 1, each record on its own line": (b"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [("zzz", "yyy", "xxx")]),
    "rule 2, no line break after the last": (b"aaa,bbb,ccc\r\nzzz,yyy,xxx", [("zzz", "yyy", "xxx")]),
    "rule 5, quotes or none": (
        b'one,two,three\r\n"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
        [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")],
    ),
    "rule 6, a line break in quotes": (
        b'one,two,three\r\n"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
        [("aaa", "b\r\nbb", "ccc"), ("zzz", "yyy", "xxx")],
    ),
    "rule 7, a doubled quote": (b'one,two,three\r\n"aaa","b""bb","ccc"', [("aaa", 'b"bb', "ccc")]),
}


@pytest.mark.parametrize("rule", RFC_4180)
def test_the_examples_of_rfc_4180_are_read(rule: str) -> None:
    """RFC 4180, section 2; where the example has no header (rules 5 to 7), one is put before it."""
    data, expected = RFC_4180[rule]
    table = read_table(data)
    assert table.problems == ()
    assert cells(table) == expected


def test_spaces_are_part_of_a_cell() -> None:
    """RFC 4180, section 2, rule 4: spaces are part of a field and should not be ignored."""
    assert cells(read_table(b"a,b\r\n x , y\r\n")) == [(" x ", " y")]


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("ending", ["\r\n", "\n"])
@pytest.mark.parametrize("start", [b"", codecs.BOM_UTF8])
def test_delimiter_line_ending_and_byte_order_mark_do_not_matter(delimiter: str, ending: str, start: bytes) -> None:
    """The same table comes out; no mark is left in the first header."""
    lines = (delimiter.join(line) for line in (("number", "name"), ("007", "Zoë"), ("", "")))
    table = read_table(start + ending.join(lines).encode())
    assert table.headers == ("number", "name")
    assert cells(table) == [("007", "Zoë")]


def test_a_delimiter_inside_quotes_is_not_counted() -> None:
    """The first row decides by its cells, not by its letters."""
    assert delimiter_of('"a,b,c,d";number')[0] == ";"
    assert delimiter_of("name")[0] == ","


def test_a_line_that_names_the_delimiter_is_understood() -> None:
    """Some spreadsheets write "sep=;" first and do not count the line."""
    table = read_table(b"sep=;\r\nnumber;name\r\n007;Ana, B\r\n")
    assert (table.headers, cells(table)) == (("number", "name"), [("007", "Ana, B")])


def test_rows_are_numbered_as_the_spreadsheet_shows_them() -> None:
    """The header is row 1; a line break inside a cell starts no row; empty rows count but are left out."""
    table = read_table(b'name\r\n"A\r\nB"\r\n\r\nC\r\n\r\n\r\n')
    assert [row.number for row in table.rows] == [2, 4]


def test_missing_cells_at_the_end_are_empty() -> None:
    """A short row is filled up; empty cells past the header are dropped."""
    table = read_table(b"a,b,c\r\n1\r\n1,2,3,,\r\n")
    assert cells(table) == [("1", "", ""), ("1", "2", "3")]
    assert table.problems == ()


@pytest.mark.parametrize(
    ("data", "row", "reason", "mend"),
    [
        (b"", 0, "no row", "another file"),
        (b"a,b\r\n1,2,3\r\n", 2, "3 cells, the header 2", "in quotes"),
        (b'a,b\r\n1,2\r\n"3,4\r\n5,6\r\n', 3, "never closed", "Close it"),
        (b'a,b\r\n1,2\r\n"x"y,4\r\n', 3, "not doubled", '""'),
        (b"a,b\r\n1,\x07\r\n", 2, "control character", "Type the cell again"),
        (b"a,,b\r\n1,2,3\r\n", 2, "under no header", "first row"),
        ("number,name\r\n1,Ana\r\n".encode("utf-16-le"), 0, "UTF-16", "CSV UTF-8"),
        (b"name\r\nZo\x81\xff\r\n", 2, "neither UTF-8 nor Windows-1252", "CSV UTF-8"),
        (b"a\r\n" + b"x" * 10_001 + b"\r\n", 2, "longer than 10000 bytes", "Shorten"),
        (b'a\r\n"' + b"x" * 200_000 + b'"\r\n', 2, "far too long", "quotes"),
        (b"x" * 10_000_001, 0, "10000001 bytes", "Divide"),
        (b"a\n" + b"1\n" * 100_001, 0, "more than 100000 rows", "Divide"),
    ],
)
def test_what_cannot_be_read_is_named_with_its_row_and_a_way_out(data: bytes, row: int, reason: str, mend: str) -> None:
    """One problem, in words a person can act on."""
    (problem,) = read_table(data).problems
    assert (problem.row, reason in english(problem.reason), mend in english(problem.hint)) == (row, True, True), problem


def test_100_000_rows_are_taken() -> None:
    """The limit itself is inside."""
    table = read_table(b"a\n" + b"1\n" * 100_000)
    assert (len(table.rows), table.problems) == (100_000, ())


def test_letters_of_windows_1252_are_asked_about_with_the_word_as_it_would_read() -> None:
    """They are not guessed; with the answer they are read."""
    data = "number;name\r\n007;Ana\r\n008;Zoë Müller\r\n".encode("cp1252")
    (question,) = read_table(data).questions
    assert (question.name, question.row, question.value) == ("encoding", 3, "Zoë Müller")
    assert question.readings[0].choice == "cp1252"
    assert cells(read_table(data, "cp1252")) == [("007", "Ana"), ("008", "Zoë Müller")]


def test_utf_8_is_read_as_utf_8_whatever_was_answered() -> None:
    """An answer kept from another file garbles nothing."""
    assert cells(read_table("name\r\nZoë\r\n".encode(), "cp1252")) == [("Zoë",)]


def test_every_problem_comes_at_once() -> None:
    """A file is not fixed one fault at a time."""
    assert len(reasons(read_table(b"a,b\r\n1,2,3\r\n1,\x01\r\n4,5,6\r\n"))) == 3
