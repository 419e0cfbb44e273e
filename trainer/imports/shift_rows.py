"""The rows of a shift file: one cook at one station for one service each, with what is wrong noted."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from difflib import get_close_matches

from trainer.imports.cells import CellReader, did_you_mean, plain_header, word_of
from trainer.imports.roster_plan import ShiftRow
from trainer.imports.table_files import RowProblem, TableRow
from trainer.messages import joined, message
from trainer.store.people import Listed


def shift_row(reader: CellReader, row: TableRow) -> ShiftRow | None:
    """Return one shift, or None with what is wrong noted."""
    asked = len(reader.questions) + len(reader.problems)
    on = reader.day(row, "date")
    if on is None and asked == len(reader.questions) + len(reader.problems):
        reader.wrong(row, "date", message("The date is missing."), message("Write it, or leave the row out."))
    sitting = _service(reader, row)
    station = _one_of(reader, row, "station", reader.known.stations)
    cook = _cook(reader, row)
    if on is None or not sitting or not station or not cook:
        return None
    return ShiftRow(row.number, on, sitting, cook, station)


def _service(reader: CellReader, row: TableRow) -> str:
    """Return the service a cell names, by a name of the house's or by the program's word for it; else "", noted."""
    house = reader.known.services
    text = reader.cell(row, "sitting")
    found = house.named(text) or house.find(word_of(text))
    if found and found.is_offered:
        return found.id
    known = [next((name for _, name in one.names), one.id) for one in house.offered]
    meant = house.named(_one_of(reader, row, "sitting", {name: name for name in known}))
    return meant.id if meant else ""


def _one_of(reader: CellReader, row: TableRow, column: str, allowed: Mapping[str, str]) -> str:
    """Return the id a cell names, by id or by title; "" with the problem noted, and the nearest name."""
    text = reader.cell(row, column)
    ids = {plain_header(spelling): key for key, title in allowed.items() for spelling in (key, title)}
    if word_of(text) in ids:
        return ids[word_of(text)]
    near = get_close_matches(plain_header(text), ids, 1, 0.5)
    mend = did_you_mean(near[0]) if near else message("There are: {known}.", known=", ".join(allowed))
    reader.wrong(
        row,
        column,
        message("There is no {column} “{text}”.", column=column, text=text)
        if text
        else message("The {column} is missing.", column=column),
        mend,
    )
    return ""


def _cook(reader: CellReader, row: TableRow) -> str:
    """Return the id of the person a row names, by number first, then by name; "" with the problem noted."""
    number, name = reader.cell(row, "number"), reader.cell(row, "name")
    if number:
        return _only(reader, row, "number", reader.by_number.get(number, []), lambda listed: listed.number or "")
    return _only(reader, row, "name", reader.named(name), lambda listed: listed.person.name)


def _only(reader: CellReader, row: TableRow, column: str, found: list[Listed], spelled: Callable[[Listed], str]) -> str:
    """Return the one person found; "" with the problem noted where there is none, or more than one."""
    if len(found) == 1:
        return found[0].person.id
    text = reader.cell(row, column)
    if found:
        numbers = joined((p.number or message("none") for p in sorted(found, key=lambda p: p.number or "")), ", ")
        reader.wrong(
            row,
            column,
            message("{found} people are called {text}.", found=len(found), text=text),
            message("Give the number: {numbers}.", numbers=numbers),
        )
    elif not text:
        reader.wrong(
            row,
            column,
            message("The {column} is missing.", column=column),
            message("Write who works, or leave the row out."),
        )
    else:
        near = get_close_matches(text, [spelled(p) for p in reader.known.people], 1, 0.6)
        mend = did_you_mean(near[0]) if near else message("Take in the roster first.")
        reader.wrong(
            row,
            column,
            message("There is nobody with the {column} “{text}” on the roster.", column=column, text=text),
            mend,
        )
    return ""


def planned_twice(rows: Iterable[ShiftRow]) -> list[RowProblem]:
    """Return the rows that put a cook into one sitting for the second time."""
    problems = []
    seen: dict[tuple[date, str, str], ShiftRow] = {}
    for row in rows:
        first = seen.setdefault((row.on, row.sitting, row.cook), row)
        if first is not row:
            reason = message(
                "Row {row} has this person in the same sitting already ({station}).",
                row=first.row,
                station=first.station,
            )
            problems.append(
                RowProblem(
                    row.row,
                    "station",
                    row.station,
                    reason,
                    message("Leave out row {row} or {other}.", row=first.row, other=row.row),
                )
            )
    return problems
