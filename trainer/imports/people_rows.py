"""The rows of a roster file: one person each, with what is wrong noted."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from difflib import get_close_matches

from trainer.imports.cells import CellReader, did_you_mean, word_of
from trainer.imports.roster_plan import RosterRow
from trainer.imports.table_files import RowProblem, TableRow
from trainer.kitchen.roles import ROLES, in_sequence
from trainer.messages import Message, message
from trainer.store.people import LONGEST_NAME, comparable

LANGUAGE = re.compile(r"[a-z]{2,3}(-[A-Z]{2})?")
JOINERS = "\u200c\u200d"  # written inside names in Persian and in Indian scripts
FORMULA_SIGNS = ("=", "+", "-", "@")
"""What a spreadsheet takes for the beginning of a formula (OWASP ASVS 5.0.0, 1.2.10), among what can be seen."""
OLDEST = date(1900, 1, 1)


def roster_row(reader: CellReader, row: TableRow) -> RosterRow:
    """Return one person, with what is wrong noted."""
    born, started = reader.day(row, "birth date"), reader.day(row, "started")
    _check_days(reader, row, born, started)
    return RosterRow(
        row.number, _number(reader, row), _name(reader, row), born, _roles(reader, row), started, _language(reader, row)
    )


def _number(reader: CellReader, row: TableRow) -> str:
    """Return the staff number as written, leading zeros kept."""
    number = reader.cell(row, "number")
    if not number:
        reader.wrong(
            row, "number", message("The number is missing."), message("Give the kitchen's own number for this person.")
        )
    elif len(number) > 20 or not number.isprintable():
        reader.wrong(
            row, "number", message("A number has at most 20 characters that can be seen."), message("Shorten it.")
        )
    return number


def _name(reader: CellReader, row: TableRow) -> str:
    """Return the name."""
    name = reader.cell(row, "name")
    wrong = wrong_name(name)
    if wrong and name:
        reader.wrong(row, "name", *wrong)
    elif wrong:
        reader.wrong(row, "name", message("The name is missing."), message("Write the name, or leave the row out."))
    return name


def wrong_name(name: str) -> tuple[Message, Message] | None:
    """Return what is wrong with a name, and what to do; None where it may stand."""
    if not name:
        return message("The name is missing."), message("Write the name.")
    if len(name) > LONGEST_NAME:
        return message("A name has at most {most} characters.", most=LONGEST_NAME), message("Shorten it.")
    if name.startswith(FORMULA_SIGNS):
        told = message("The name begins with “{sign}”, as a formula does.", sign=name[0])
        return told, message("Type the name again.")
    if not name.translate(dict.fromkeys(map(ord, JOINERS))).isprintable():
        return message("The name holds characters that cannot be seen."), message("Type the name again.")
    return None


def _check_days(reader: CellReader, row: TableRow, born: date | None, started: date | None) -> None:
    """Note days that cannot be true together."""
    if born is not None and born < OLDEST:
        reader.wrong(row, "birth date", message("The year is before 1900."), message("Look at the year."))
    elif born is not None and reader.known.today is not None and born > reader.known.today:
        reader.wrong(row, "birth date", message("The birth date has not come yet."), message("Look at the year."))
    elif born is not None and started is not None and started <= born:
        reader.wrong(
            row, "started", message("The first day is not after the birth date."), message("Look at both dates.")
        )


def _roles(reader: CellReader, row: TableRow) -> tuple[str, ...]:
    """Return the roles in the order cook, assessor, manager; none for an empty cell."""
    words = re.split(r"[\s,;/+&]+", reader.cell(row, "roles").casefold())
    named = [word_of(word) for word in words if word not in ("", "and", "y")]
    for word in named:
        if word not in ROLES:
            near = get_close_matches(word, ROLES, 1, 0.5)
            mend = did_you_mean(near[0]) if near else message("The roles are: {roles}.", roles=", ".join(ROLES))
            reader.wrong(row, "roles", message("There is no role “{word}”.", word=word), mend)
    return in_sequence(named)


def _language(reader: CellReader, row: TableRow) -> str:
    """Return the language tag (BCP 47: a language, perhaps a region), "" where none is given."""
    language = reader.cell(row, "language")
    if language and not LANGUAGE.fullmatch(language):
        reader.wrong(
            row,
            "language",
            message("This is no language tag."),
            message("Write en, es, fr, de-AT and the like, or nothing."),
        )
    return language


def named_twice(rows: Iterable[RosterRow]) -> list[RowProblem]:
    """Return the rows that say a person for the second time, with the row that said it first."""
    problems = []
    by_number: dict[str, RosterRow] = {}
    by_name: dict[tuple[str, date], RosterRow] = {}
    for row in rows:
        first = by_number.setdefault(row.number, row) if row.number else row
        if first is not row:
            reason = message(
                "Number {number} is in row {row} already ({name}).", number=row.number, row=first.row, name=first.name
            )
            problems.append(
                RowProblem(
                    row.row,
                    "number",
                    row.number,
                    reason,
                    message("Leave out row {row} or {other}.", row=first.row, other=row.row),
                )
            )
        elif row.name and row.born is not None:
            first = by_name.setdefault((comparable(row.name), row.born), row)
            if first is not row:
                reason = message(
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
                        message("Leave out row {row} or {other}.", row=first.row, other=row.row),
                    )
                )
    return problems
