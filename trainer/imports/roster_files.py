"""Roster and shift files: a table of cells in, checked rows, problems and questions out. Nothing is changed here."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from trainer.imports.cells import CellReader, column_of, did_you_mean, plain_header, until_too_many
from trainer.imports.people_rows import named_twice, roster_row
from trainer.imports.roster_plan import (
    COLUMNS,
    KIND_WORDS,
    NEEDED,
    Choices,
    Kind,
    KnownPeople,
    RosterPlan,
    RosterRow,
    ShiftRow,
)
from trainer.imports.shift_rows import planned_twice, shift_row
from trainer.imports.table_files import CellTable, RowProblem, TableRow
from trainer.messages import Text, message

NO_ROW = RowProblem(
    0, "", "", message("There is no row to take in."), message("Choose another file, or leave out fewer rows.")
)


def roster_from(table: CellTable, choices: Choices, known: KnownPeople) -> RosterPlan:
    """Return the plan of a table: which kind it is shows in its header; every problem and question comes at once."""
    kind = kind_of(column_of(header, choices) for header in table.headers)
    names, problems = _columns(kind, table.headers, choices)
    left_out = tuple(row.number for row in table.rows if row.number in choices.left_out)
    table_problems = [p for p in table.problems if p.row not in choices.left_out]
    if table.questions or problems or not table.headers:
        return RosterPlan(kind, (), (*table_problems, *problems), table.questions, left_out)
    reader = CellReader(choices, known, names)
    rows = [row for row in table.rows if row.number not in choices.left_out]
    read = _people(reader, rows) if kind == "roster" else _shifts(reader, rows)
    found = sorted((*table_problems, *reader.problems), key=lambda problem: problem.row)
    if not rows and not found:
        found = [NO_ROW]
    return RosterPlan(kind, read, tuple(found), tuple(reader.questions), left_out)


def _people(reader: CellReader, rows: Iterable[TableRow]) -> tuple[RosterRow, ...]:
    """Return the people of a roster file; what is wrong is noted with the reader."""
    read = tuple(roster_row(reader, row) for row in until_too_many(reader, rows))
    reader.problems += named_twice(read)
    return read


def _shifts(reader: CellReader, rows: Iterable[TableRow]) -> tuple[ShiftRow, ...]:
    """Return the shifts of a shift file that could be read; what is wrong is noted with the reader."""
    shifts = (shift_row(reader, row) for row in until_too_many(reader, rows))
    read = tuple(shift for shift in shifts if shift is not None)
    reader.problems += planned_twice(read)
    return read


def kind_of(columns: Iterable[str]) -> Kind:
    """Return which kind of file has these columns: shifts have a station or a sitting."""
    return "shifts" if {"station", "sitting"} & set(columns) else "roster"


def _columns(kind: Kind, headers: tuple[str, ...], choices: Choices) -> tuple[dict[str, str], list[RowProblem]]:
    """Return which header each of our columns has, and what is wrong with the header."""
    names: dict[str, str] = {}
    problems = []
    for header in filter(None, headers):
        column = column_of(header, choices)
        if column in names:
            reason = message("The column “{column}” is there twice.", column=column)
            problems.append(RowProblem(1, header, header, reason, message("Take one of the two out of the file.")))
        elif column in COLUMNS[kind]:
            names[column] = header
        elif header not in choices.columns_left_out:
            problems.append(_unknown_header(kind, header))
    needed: list[Text] = [column for column in NEEDED[kind] if column not in names]
    if kind == "shifts" and not {"name", "number"} & set(names):
        needed.append(message("name (or number)"))
    for missing in needed if headers else ():
        mend = message("Add it. A {kind} file has: {columns}.", kind=KIND_WORDS[kind], columns=", ".join(COLUMNS[kind]))
        problems.append(RowProblem(1, missing, "", message("The column “{column}” is missing.", column=missing), mend))
    return names, problems


def _unknown_header(kind: Kind, header: str) -> RowProblem:
    """Return the problem of a header we do not know, with the nearest one we do."""
    near = get_close_matches(plain_header(header), COLUMNS[kind], 1, 0.5)
    mend = (
        did_you_mean(near[0])
        if near
        else message("Leave the column out, or name it one of: {columns}.", columns=", ".join(COLUMNS[kind]))
    )
    return RowProblem(
        1,
        header,
        header,
        message("There is no column “{header}” in a {kind} file.", header=header, kind=KIND_WORDS[kind]),
        mend,
    )
