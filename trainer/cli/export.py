"""What the kitchen hands to somebody else: tables, calendars, and every entry of the book as it is kept."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import click

from trainer import clock
from trainer.cli.clearance import on_option
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import open_here, today_of
from trainer.exports.asking import Asked
from trainer.exports.board import board_tables, lapse_tables
from trainer.exports.book import book_tables
from trainer.exports.calendars import Event, calendar_of, lapse_events, path_events, shift_events
from trainer.exports.people import people_tables
from trainer.exports.plan import plan_tables
from trainer.exports.spreadsheet import csv_of, xlsx_of
from trainer.exports.tables import Cell, Table
from trainer.messages import Text, message, translate
from trainer.store.exporting import export_book, export_papers, write_whole

TOLD_EVERY = 2.0  # seconds
DAYS = click.option("--days", type=click.IntRange(1, 731), default=14, show_default=True, help="So many days ahead.")
INTO = click.option(
    "--into", required=True, metavar="FILE", type=click.Path(path_type=Path, dir_okay=False), help="A new file."
)


def _as(*forms: str) -> Callable[[Any], Any]:
    return click.option("--as", "form", type=click.Choice(forms), default=forms[0], show_default=True, help="The form.")


@click.group("export")
def export_command() -> None:
    """Write what the kitchen keeps into files other programs read. A file that is there is never replaced.

    \b
    Example:
      trainer export board --as xlsx --into board.xlsx
      trainer export plan --days 28 --as ics --into plan.ics
    """


@export_command.command("board")
@_as("csv", "xlsx")
@on_option
@INTO
@click.pass_obj
def board(folder: Path, form: str, on: date | None, into: Path) -> None:
    """Write who is cleared for each station; in a workbook also what is missing.

    \b
    Example:
      trainer export board --as xlsx --into board.xlsx
    """
    asked = _asked(folder, into, on)
    _write(asked, board_tables(asked), form, into)


@export_command.command("people")
@_as("csv", "xlsx")
@on_option
@INTO
@click.pass_obj
def people(folder: Path, form: str, on: date | None, into: Path) -> None:
    """Write who is on the roster; in a workbook also the record of each, a row a technique.

    \b
    Example:
      trainer export people --as xlsx --into people.xlsx
    """
    asked = _asked(folder, into, on)
    _write(asked, people_tables(asked, clock.now()), form, into)


@export_command.command("plan")
@_as("csv", "xlsx", "ics")
@on_option
@DAYS
@INTO
@click.pass_obj
def plan(folder: Path, form: str, on: date | None, days: int, into: Path) -> None:
    """Write who is planned where, from a day on.

    \b
    Example:
      trainer export plan --days 28 --as ics --into plan.ics
    """
    asked = _asked(folder, into, on)
    last = asked.on + timedelta(days=days - 1)
    if form == "ics":
        return _write_calendar(asked, message("Plan"), shift_events(asked, last), into)
    return _write(asked, plan_tables(asked, last), form, into)


@export_command.command("lapses")
@_as("csv", "xlsx", "ics")
@on_option
@click.option("--days", type=click.IntRange(1, 731), default=90, show_default=True, help="So many days ahead.")
@INTO
@click.pass_obj
def lapses(folder: Path, form: str, on: date | None, days: int, into: Path) -> None:
    """Write what ends within so many days: whose, what, its last good day, the stations that go with it.

    \b
    Example:
      trainer export lapses --days 30 --into lapses.csv
    """
    asked = _asked(folder, into, on)
    last = asked.on + timedelta(days=days)
    if form == "ics":
        ends = (*lapse_events(asked, last), *path_events(asked))
        return _write_calendar(asked, message("What lapses"), ends, into)
    return _write(asked, lapse_tables(asked, last), form, into)


@export_command.command("book")
@_as("jsonl", "csv", "xlsx")
@INTO
@click.option("--papers", metavar="DIR", type=click.Path(path_type=Path), help="A new folder for the texts it names.")
@click.pass_obj
def book(folder: Path, form: str, into: Path, papers: Path | None) -> None:
    """Write the whole book, an entry a line; as JSON Lines with every column as it is kept.

    The hash of an entry is SHA-256 over its columns, so whoever has the file can check it without this program.

    \b
    Example:
      trainer export book --as jsonl --into book.jsonl --papers texts
    """
    if papers is not None and papers.exists():
        raise CommandError(f"{papers} is there already. Nothing was written: name another one.", REFUSED)
    asked = _asked(folder, into, None)
    if form == "jsonl":
        click.echo(f"Wrote {export_book(asked.k.file.book, into):,} entries into {into}")
    else:
        _write(asked, book_tables(asked), form, into)
    if papers is not None:
        click.echo(f"Wrote {export_papers(asked.k.file.book, papers):,} texts into {papers}")


def _asked(folder: Path, into: Path, on: date | None) -> Asked:
    """Return what is asked for; a file that is there already ends the command before anything is read."""
    if into.exists():
        raise CommandError(f"{into} is there already. Nothing was written: name another one.", REFUSED)
    kitchen = open_here(folder)
    return Asked(kitchen, kitchen.content, on or today_of(kitchen))


def _write(asked: Asked, tables: Sequence[Table], form: str, into: Path) -> None:
    """Write tables: all of them as a workbook, the first as CSV."""
    wanted = [replace(table, rows=_told(table.rows)) for table in (tables if form == "xlsx" else tables[:1])]
    with write_whole(into) as file:
        if form == "xlsx":
            xlsx_of(wanted, file, translate)
        else:
            file.writelines(line.encode() for line in csv_of(wanted[0], translate))
    click.echo(f"Wrote {into}, as of {asked.on.isoformat()}")


def _write_calendar(asked: Asked, name: Text, events: Iterable[Event], into: Path) -> None:
    with write_whole(into) as file:
        file.write(calendar_of(name, events, clock.now(), translate))
    click.echo(f"Wrote {into}, as of {asked.on.isoformat()}")


def _told(rows: Iterable[tuple[Cell, ...]]) -> Iterator[tuple[Cell, ...]]:
    """Yield rows, and say on the error stream how many there were so far where it takes long."""
    next_word = clock.steady() + TOLD_EVERY
    for number, row in enumerate(rows, 1):
        yield row
        if clock.steady() > next_word:
            print(f"{number:,} rows so far", file=sys.stderr)  # noqa: T201 - while it runs, beside what is printed
            next_word = clock.steady() + TOLD_EVERY
