"""Roster and shift files: a table of cells in, checked rows, problems and questions out. Nothing is changed here."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches
from typing import Literal, cast

from trainer.imports.table_files import Reading, Row, RowProblem, RowQuestion, Table
from trainer.imports.written_dates import NoDate, Order, TwoWays, read_date
from trainer.kitchen.roles import ROLES, in_sequence
from trainer.kitchen.services import SERVICE_IDS, ServiceId
from trainer.kitchen.spans import in_words
from trainer.recipe_math.saying import Saying, joined, say
from trainer.store.people import LONGEST_NAME, Listed, comparable, tidy

Kind = Literal["roster", "shifts"]
COLUMNS: Mapping[Kind, tuple[str, ...]] = {
    "roster": ("number", "name", "birth date", "roles", "started", "language"),
    "shifts": ("date", "sitting", "name", "number", "station"),
}
KINDS: Mapping[Kind, Saying] = {"roster": say("roster"), "shifts": say("shifts")}
NEEDED: Mapping[Kind, tuple[str, ...]] = {"roster": ("number", "name"), "shifts": ("date", "sitting", "station")}
LANGUAGE = re.compile(r"[a-z]{2,3}(-[A-Z]{2})?")
JOINERS = "\u200c\u200d"  # written inside names in Persian and in Indian scripts
OLDEST = date(1900, 1, 1)
MOST_FINDINGS = 500


@dataclass(frozen=True, slots=True)
class Choices:
    """What a person answered: the date order of the file or of a row, rows and columns to leave out, the letters."""

    date_order: Order | Literal[""] = ""
    row_orders: Mapping[int, Order] = field(default_factory=dict)
    left_out: frozenset[int] = frozenset()
    columns_left_out: frozenset[str] = frozenset()
    encoding: str = ""


@dataclass(frozen=True, slots=True)
class Known:
    """What the rows are held against: the people listed, the stations by id, and today."""

    people: tuple[Listed, ...] = ()
    stations: Mapping[str, str] = field(default_factory=dict)
    today: date | None = None


@dataclass(frozen=True, slots=True)
class RosterRow:
    """One person of a roster file. None, "" or no roles where the cell was empty."""

    row: int
    number: str
    name: str
    born: date | None
    roles: tuple[str, ...]
    started: date | None
    language: str


@dataclass(frozen=True, slots=True)
class ShiftRow:
    """One planned shift of a shift file, with the cook's and the station's ids."""

    row: int
    on: date
    sitting: ServiceId
    cook: str
    station: str


@dataclass(frozen=True, slots=True)
class Change:
    """What taking in one row would do, in words: joins, changes, stays or planned.

    `birth` and `roles` tell apart what decides where somebody may work: another birth date, rights given or taken.
    `note` says why a planned cook may not stand there, so that the place counts as no hand; "" where they may.
    """

    row: int
    act: Literal["joins", "changes", "stays", "planned"]
    name: str
    text: str
    birth: str = ""
    roles: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class RosterPlan:
    """What a file says and what is wrong with it. It can be taken in when nothing is wrong and nothing is asked.

    `digest` is the SHA-256 of the file's bytes.
    """

    kind: Kind
    rows: tuple[RosterRow, ...] | tuple[ShiftRow, ...]
    problems: tuple[RowProblem, ...]
    questions: tuple[RowQuestion, ...]
    left_out: tuple[int, ...] = ()
    changes: tuple[Change, ...] = ()
    digest: str = ""

    @property
    def needs_proof(self) -> bool:
        """Return whether taking it in asks for the secret: where it changes anything about the people."""
        return self.kind == "roster" and any(change.act != "stays" for change in self.changes)

    @property
    def is_ready(self) -> bool:
        """Return whether the plan can be taken in as it stands."""
        return bool(self.rows) and not self.problems and not self.questions


class _Reader:
    """Reads the cells of one file and gathers every problem and question on the way."""

    def __init__(self, choices: Choices, known: Known, names: Mapping[str, str]) -> None:
        self.choices = choices
        self.known = known
        self.names = names  # our column -> the header as the file writes it
        self.problems: list[RowProblem] = []
        self.questions: list[RowQuestion] = []
        self.by_number: dict[str, list[Listed]] = {}
        self.by_name: dict[str, list[Listed]] = {}
        for listed in known.people:
            self.by_number.setdefault(listed.number or "", []).append(listed)
            self.by_name.setdefault(comparable(listed.person.name), []).append(listed)

    def cell(self, row: Row, column: str) -> str:
        """Return a cell's text with single spaces; "" where the file has no such column."""
        return tidy(row.cells.get(self.names.get(column, ""), ""))

    def wrong(self, row: Row, column: str, reason: str, mend: str) -> None:
        """Note a problem."""
        self.problems.append(RowProblem(row.number, column, self.cell(row, column)[:80], reason, mend))

    def day(self, row: Row, column: str) -> date | None:
        """Return a cell's date; None for an empty cell, and for one that is a problem or asked about."""
        text = self.cell(row, column)
        if not text:
            return None
        read = read_date(text, self.choices.row_orders.get(row.number, self.choices.date_order))
        if isinstance(read, NoDate):
            self.wrong(row, column, read.reason, read.mend)
        elif isinstance(read, TwoWays):
            self.questions.append(_asked(row.number, column, text, read))
        else:
            return read
        return None


def roster_from(table: Table, choices: Choices, known: Known) -> RosterPlan:
    """Return the plan of a table: which kind it is shows in its header; every problem and question comes at once."""
    kind = kind_of(table.headers)
    names, problems = _columns(kind, table.headers, choices)
    left_out = tuple(row.number for row in table.rows if row.number in choices.left_out)
    table_problems = [p for p in table.problems if p.row not in choices.left_out]
    if table.questions or problems or not table.headers:
        return RosterPlan(kind, (), (*table_problems, *problems), table.questions, left_out)
    reader = _Reader(choices, known, names)
    rows = [row for row in table.rows if row.number not in choices.left_out]
    read: tuple[RosterRow, ...] | tuple[ShiftRow, ...]
    if kind == "roster":
        read = tuple(_roster_row(reader, row) for row in _until_too_many(reader, rows))
        reader.problems += _doubles(read)
    else:
        shifts = (_shift_row(reader, row) for row in _until_too_many(reader, rows))
        read = tuple(shift for shift in shifts if shift is not None)
        reader.problems += _doubled_shifts(read)
    found = sorted((*table_problems, *reader.problems), key=lambda problem: problem.row)
    if not rows and not found:
        found = [
            RowProblem(
                0, "", "", say("There is no row to take in."), say("Choose another file, or leave out fewer rows.")
            )
        ]
    return RosterPlan(kind, read, tuple(found), tuple(reader.questions), left_out)


def _until_too_many(reader: _Reader, rows: Iterable[Row]) -> Iterator[Row]:
    """Yield the rows; stop, and say so, when more problems or questions were found than anybody would read."""
    for row in rows:
        if len(reader.problems) + len(reader.questions) > MOST_FINDINGS:
            reason = say(
                "More than {most} cells cannot be taken; row {number} and those after it were not read.",
                most=MOST_FINDINGS,
                number=row.number,
            )
            reader.problems.append(RowProblem(row.number, "", "", reason, say("Mend the rows above first.")))
            return
        yield row


def kind_of(headers: Iterable[str]) -> Kind:
    """Return which kind of file a header belongs to: shifts have a station or a sitting."""
    plain = {_plain(header) for header in headers}
    return "shifts" if plain & {"station", "sitting"} else "roster"


def _plain(header: str) -> str:
    """Return a header in lower case, with spaces for its other separators."""
    return " ".join(header.casefold().replace("_", " ").replace("-", " ").split())


def _columns(kind: Kind, headers: tuple[str, ...], choices: Choices) -> tuple[dict[str, str], list[RowProblem]]:
    """Return which header each of our columns has, and what is wrong with the header."""
    names: dict[str, str] = {}
    problems = []
    for header in filter(None, headers):
        column = _plain(header)
        if column in names:
            reason = say("The column “{column}” is there twice.", column=column)
            problems.append(RowProblem(1, header, header, reason, say("Take one of the two out of the file.")))
        elif column in COLUMNS[kind]:
            names[column] = header
        elif header not in choices.columns_left_out:
            problems.append(_unknown_header(kind, header))
    needed = [column for column in NEEDED[kind] if column not in names]
    if kind == "shifts" and not {"name", "number"} & set(names):
        needed.append(say("name (or number)"))
    for column in needed if headers else ():
        mend = say("Add it. A {kind} file has: {columns}.", kind=KINDS[kind], columns=", ".join(COLUMNS[kind]))
        problems.append(RowProblem(1, column, "", say("The column “{column}” is missing.", column=column), mend))
    return names, problems


def _unknown_header(kind: Kind, header: str) -> RowProblem:
    """Return the problem of a header we do not know, with the nearest one we do."""
    near = get_close_matches(_plain(header), COLUMNS[kind], 1, 0.5)
    mend = (
        _did_you_mean(near[0])
        if near
        else say("Leave the column out, or name it one of: {columns}.", columns=", ".join(COLUMNS[kind]))
    )
    return RowProblem(
        1, header, header, say("There is no column “{header}” in a {kind} file.", header=header, kind=KINDS[kind]), mend
    )


def _did_you_mean(near: str) -> Saying:
    return say("Did you mean “{near}”?", near=near)


def _asked(row: int, column: str, text: str, read: TwoWays) -> RowQuestion:
    """Return the question which of two dates a cell means."""
    readings = (
        Reading("dmy", say("day first: {day}", day=in_words(read.day_first))),
        Reading("mdy", say("month first: {day}", day=in_words(read.month_first))),
    )
    return RowQuestion(
        "date_order", row, column, text, say("{text} is two dates. Which one is meant?", text=text), readings
    )


def _roster_row(reader: _Reader, row: Row) -> RosterRow:
    """Return one person, with what is wrong noted."""
    born, started = reader.day(row, "birth date"), reader.day(row, "started")
    _check_days(reader, row, born, started)
    return RosterRow(
        row.number, _number(reader, row), _name(reader, row), born, _roles(reader, row), started, _language(reader, row)
    )


def _number(reader: _Reader, row: Row) -> str:
    """Return the staff number as written, leading zeros kept."""
    number = reader.cell(row, "number")
    if not number:
        reader.wrong(
            row, "number", say("The number is missing."), say("Give the kitchen's own number for this person.")
        )
    elif len(number) > 20 or not number.isprintable():
        reader.wrong(row, "number", say("A number has at most 20 characters that can be seen."), say("Shorten it."))
    return number


def _name(reader: _Reader, row: Row) -> str:
    """Return the name."""
    name = reader.cell(row, "name")
    seen = name.translate(dict.fromkeys(map(ord, JOINERS)))
    if not name:
        reader.wrong(row, "name", say("The name is missing."), say("Write the name, or leave the row out."))
    elif len(name) > LONGEST_NAME:
        reader.wrong(row, "name", say("A name has at most {most} characters.", most=LONGEST_NAME), say("Shorten it."))
    elif not seen.isprintable():
        reader.wrong(row, "name", say("The name holds characters that cannot be seen."), say("Type the name again."))
    return name


def _check_days(reader: _Reader, row: Row, born: date | None, started: date | None) -> None:
    """Note days that cannot be true together."""
    if born is not None and born < OLDEST:
        reader.wrong(row, "birth date", say("The year is before 1900."), say("Look at the year."))
    elif born is not None and reader.known.today is not None and born > reader.known.today:
        reader.wrong(row, "birth date", say("The birth date has not come yet."), say("Look at the year."))
    elif born is not None and started is not None and started <= born:
        reader.wrong(row, "started", say("The first day is not after the birth date."), say("Look at both dates."))


def _roles(reader: _Reader, row: Row) -> tuple[str, ...]:
    """Return the roles in the order cook, assessor, manager; none for an empty cell."""
    words = re.split(r"[\s,;/+&]+", reader.cell(row, "roles").casefold())
    named = [word for word in words if word and word != "and"]
    for word in named:
        if word not in ROLES:
            near = get_close_matches(word, ROLES, 1, 0.5)
            mend = _did_you_mean(near[0]) if near else say("The roles are: {roles}.", roles=", ".join(ROLES))
            reader.wrong(row, "roles", say("There is no role “{word}”.", word=word), mend)
    return in_sequence(named)


def _language(reader: _Reader, row: Row) -> str:
    """Return the language tag (BCP 47: a language, perhaps a region), "" where none is given."""
    language = reader.cell(row, "language")
    if language and not LANGUAGE.fullmatch(language):
        reader.wrong(
            row, "language", say("This is no language tag."), say("Write en, es, fr, de-AT and the like, or nothing.")
        )
    return language


def _doubles(rows: Iterable[RosterRow]) -> list[RowProblem]:
    """Return the rows that say somebody for the second time, with the row that said it first."""
    problems = []
    by_number: dict[str, RosterRow] = {}
    by_name: dict[tuple[str, date], RosterRow] = {}
    for row in rows:
        first = by_number.setdefault(row.number, row) if row.number else row
        if first is not row:
            reason = say(
                "Number {number} is in row {row} already ({name}).", number=row.number, row=first.row, name=first.name
            )
            problems.append(
                RowProblem(
                    row.row,
                    "number",
                    row.number,
                    reason,
                    say("Leave out row {row} or {other}.", row=first.row, other=row.row),
                )
            )
        elif row.name and row.born is not None:
            first = by_name.setdefault((comparable(row.name), row.born), row)
            if first is not row:
                reason = say(
                    "The same name and birth date are in row {row} already (number {number}).",
                    row=first.row,
                    number=first.number,
                )
                problems.append(
                    RowProblem(
                        row.row,
                        "name",
                        row.name,
                        reason,
                        say("Leave out row {row} or {other}.", row=first.row, other=row.row),
                    )
                )
    return problems


def _shift_row(reader: _Reader, row: Row) -> ShiftRow | None:
    """Return one shift, or None with what is wrong noted."""
    asked = len(reader.questions) + len(reader.problems)
    on = reader.day(row, "date")
    if on is None and asked == len(reader.questions) + len(reader.problems):
        reader.wrong(row, "date", say("The date is missing."), say("Write it, or leave the row out."))
    sitting = _one_of(reader, row, "sitting", {name: name for name in SERVICE_IDS})
    station = _one_of(reader, row, "station", reader.known.stations)
    cook = _cook(reader, row)
    if on is None or not sitting or not station or not cook:
        return None
    return ShiftRow(row.number, on, cast("ServiceId", sitting), cook, station)


def _one_of(reader: _Reader, row: Row, column: str, allowed: Mapping[str, str]) -> str:
    """Return the id a cell names, by id or by title; "" with the problem noted, and the nearest name."""
    text = reader.cell(row, column)
    ids = {_plain(spelling): key for key, title in allowed.items() for spelling in (key, title)}
    if _plain(text) in ids:
        return ids[_plain(text)]
    near = get_close_matches(_plain(text), ids, 1, 0.5)
    mend = _did_you_mean(near[0]) if near else say("There are: {known}.", known=", ".join(allowed))
    reader.wrong(
        row,
        column,
        say("There is no {column} “{text}”.", column=column, text=text)
        if text
        else say("The {column} is missing.", column=column),
        mend,
    )
    return ""


def _cook(reader: _Reader, row: Row) -> str:
    """Return the id of the person a row names, by number first, then by name; "" with the problem noted."""
    number, name = reader.cell(row, "number"), reader.cell(row, "name")
    if number:
        return _only(reader, row, "number", reader.by_number.get(number, []), lambda listed: listed.number or "")
    return _only(reader, row, "name", reader.by_name.get(comparable(name), []), lambda listed: listed.person.name)


def _only(reader: _Reader, row: Row, column: str, found: list[Listed], spelled: Callable[[Listed], str]) -> str:
    """Return the one person found; "" with the problem noted where there is none, or more than one."""
    if len(found) == 1:
        return found[0].person.id
    text = reader.cell(row, column)
    if found:
        numbers = joined(sorted(p.number or say("none") for p in found), ", ")
        reader.wrong(
            row,
            column,
            say("{found} people are called {text}.", found=len(found), text=text),
            say("Give the number: {numbers}.", numbers=numbers),
        )
    elif not text:
        reader.wrong(
            row, column, say("The {column} is missing.", column=column), say("Write who works, or leave the row out.")
        )
    else:
        near = get_close_matches(text, [spelled(p) for p in reader.known.people], 1, 0.6)
        mend = _did_you_mean(near[0]) if near else say("Take in the roster first.")
        reader.wrong(
            row,
            column,
            say("There is nobody with the {column} “{text}” on the roster.", column=column, text=text),
            mend,
        )
    return ""


def _doubled_shifts(rows: Iterable[ShiftRow]) -> list[RowProblem]:
    """Return the rows that put a cook into one sitting for the second time."""
    problems = []
    seen: dict[tuple[date, str, str], ShiftRow] = {}
    for row in rows:
        first = seen.setdefault((row.on, row.sitting, row.cook), row)
        if first is not row:
            reason = say(
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
                    say("Leave out row {row} or {other}.", row=first.row, other=row.row),
                )
            )
    return problems
