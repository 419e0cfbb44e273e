"""Reading the cells of a roster or shift file: every problem and question is gathered on the way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from trainer.imports.roster_plan import OTHER_HEADERS, OTHER_WORDS, Choices, KnownPeople
from trainer.imports.table_files import RowProblem, RowQuestion, TableReading, TableRow
from trainer.imports.written_dates import NoDate, TwoWays, read_date
from trainer.kitchen.names import plain
from trainer.kitchen.spans import in_words
from trainer.messages import Message, Text, message
from trainer.store.people import Listed, comparable, tidy


class CellReader:
    """Reads the cells of one file and gathers every problem and question on the way."""

    def __init__(self, choices: Choices, known: KnownPeople, names: Mapping[str, str]) -> None:
        self.choices = choices
        self.known = known
        self.names = names  # our column -> the header as the file writes it
        self.problems: list[RowProblem] = []
        self.questions: list[RowQuestion] = []
        self.by_number: dict[str, list[Listed]] = {}
        self.by_name: dict[str, list[Listed]] = {}
        self.by_plain_name: dict[str, list[Listed]] = {}
        for listed in known.people:
            self.by_number.setdefault(listed.number or "", []).append(listed)
            self.by_name.setdefault(comparable(listed.person.name), []).append(listed)
            self.by_plain_name.setdefault(plain(listed.person.name), []).append(listed)

    def named(self, name: str) -> list[Listed]:
        """Return who bears a name as it is written; where nobody does, who bears it under other accents."""
        return self.by_name.get(comparable(name)) or self.by_plain_name.get(plain(name), [])

    def cell(self, row: TableRow, column: str) -> str:
        """Return a cell's text with single spaces; "" where the file has no such column."""
        return tidy(row.cells.get(self.names.get(column, ""), ""))

    def wrong(self, row: TableRow, column: str, reason: Text, mend: Text) -> None:
        """Note a problem."""
        self.problems.append(RowProblem(row.number, column, self.cell(row, column)[:80], reason, mend))

    def day(self, row: TableRow, column: str) -> date | None:
        """Return a cell's date; None for an empty cell, and for one that is a problem or asked about."""
        text = self.cell(row, column)
        if not text:
            return None
        read = read_date(text, self.choices.row_orders.get(row.number, self.choices.date_order))
        if isinstance(read, NoDate):
            self.wrong(row, column, read.reason, read.mend)
        elif isinstance(read, TwoWays):
            self.questions.append(_which_day(row.number, column, text, read))
        else:
            return read
        return None


def _which_day(row: int, column: str, text: str, read: TwoWays) -> RowQuestion:
    """Return the question which of two dates a cell means."""
    readings = (
        TableReading("dmy", message("day first: {day}", day=in_words(read.day_first))),
        TableReading("mdy", message("month first: {day}", day=in_words(read.month_first))),
    )
    return RowQuestion(
        "date_order", row, column, text, message("{text} is two dates. Which one is meant?", text=text), readings
    )


def did_you_mean(near: str) -> Message:
    """Return the hint that names the nearest word we know."""
    return message("Did you mean “{near}”?", near=near)


def plain_header(header: str) -> str:
    """Return a header in lower case, with spaces for its other separators."""
    return " ".join(header.casefold().replace("_", " ").replace("-", " ").split())


def column_of(header: str, choices: Choices) -> str:
    """Return the column a header stands for: as a person said, else by its English or Spanish word."""
    column = choices.column_names.get(header) or plain_header(header)
    return OTHER_HEADERS.get(plain(column), column)


def word_of(text: str) -> str:
    """Return a word of a cell in lower case, and as an id where it is the Spanish word of a service or a role."""
    word = plain_header(text)
    return OTHER_WORDS.get(plain(word), word)


MOST_FINDINGS = 500


def until_too_many(reader: CellReader, rows: Iterable[TableRow]) -> Iterator[TableRow]:
    """Yield the rows; stop, and say so, when more problems or questions were found than anybody would read."""
    for row in rows:
        if len(reader.problems) + len(reader.questions) > MOST_FINDINGS:
            reason = message(
                "More than {most} cells cannot be taken; row {number} and those after it were not read.",
                most=MOST_FINDINGS,
                number=row.number,
            )
            reader.problems.append(RowProblem(row.number, "", "", reason, message("Mend the rows above first.")))
            return
        yield row
