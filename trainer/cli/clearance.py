"""Clearance at the command line: the board, and why."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import Any

import click

from trainer.actions.leaning import marked
from trainer.actions.open_kitchen import Kitchen
from trainer.cli.board_table import board_text, table_lines
from trainer.cli.exits import USAGE, CommandError, plain
from trainer.cli.opening import open_here, today_of
from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.known import known_twice
from trainer.kitchen.names import plain as plain_name
from trainer.kitchen.next_acts import next_acts
from trainer.kitchen.next_change import NextChange, next_change
from trainer.kitchen.progress import Person
from trainer.kitchen.record import AsKnown
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import ContentName, Station
from trainer.messages import Message, Printable, Text, Value, joined, message, translate, with_values


class DayParam(click.ParamType[date]):
    """A date as YYYY-MM-DD (ISO 8601)."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:  # noqa: ANN401
        """Return the date; anything else is refused with the value and the form wanted."""
        if isinstance(value, date):
            return value
        try:
            return date.fromisoformat(value)
        except ValueError:
            self.fail(f"{value!r} is not a date. Write it as YYYY-MM-DD, for example 2026-03-14.", param, ctx)


on_option = click.option(
    "--on", "on", type=DayParam(), metavar="DATE", help="Any day, as YYYY-MM-DD; today if left out."
)


known_option = click.option(
    "--known",
    "known",
    type=DayParam(),
    metavar="DATE",
    help="By what was known at the end of this day; that of --on if left out.",
)


@click.command("board")
@on_option
@known_option
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object a cook, one a line.")
@click.pass_obj
def board_command(folder: Path, on: date | None, known: date | None, as_json: bool) -> None:
    """Print who is cleared for each station.

    \b
    Example:
      trainer board --on 2026-11-20
    """
    kitchen = open_here(folder)
    day = day_asked(kitchen, on, known)
    board = kitchen.board(day)
    for row in board.rows:
        if as_json:
            told = {**head_of(kitchen, day), **board_record(kitchen, row.cook, row.clearances)}
            click.echo(json.dumps(told, ensure_ascii=False, default=plain))
    if not as_json:
        later = f", as known on {day.known.isoformat()}" if day.known != day.on else ""
        click.echo(f"Board for {board.on.isoformat()}{later}")
        titles = [station.title for station in board.stations]
        for line in board_text(titles, [(row.cook.name, row.clearances) for row in board.rows]):
            click.echo(line)


def day_asked(kitchen: Kitchen, on: date | None, known: date | None) -> AsKnown:
    """Return the day asked about, today where none is named, and the day by which things were known: the same one."""
    day = on or today_of(kitchen)
    return AsKnown(day, known or day)


def head_of(kitchen: Kitchen, day: AsKnown) -> dict[str, Any]:
    """Return what every record of an answer begins with: the kitchen, the day, the day by which it was known."""
    return {"kitchen": kitchen.file.settings.kitchen, "day": day.on, "known": day.known}


def named(kitchen: Kitchen, words: Text) -> Text:
    """Return words in which everything taught is called as the kitchen calls it today; rules know it by its id."""

    def name(value: Printable) -> Value:
        return kitchen.content.name_of(value) if isinstance(value, ContentName) else value

    return with_values(words, name)


def with_names(kitchen: Kitchen, told: Any) -> Any:  # noqa: ANN401 - a record as it stands
    """Return a record in which every message is told in the kitchen's own names."""
    if isinstance(told, dict):
        return {name: with_names(kitchen, value) for name, value in told.items()}
    if isinstance(told, list | tuple):
        return [with_names(kitchen, value) for value in told]
    return named(kitchen, told) if isinstance(told, Message) else told


def board_record(kitchen: Kitchen, cook: Person, clearances: tuple[Clearance, ...]) -> dict[str, Any]:
    """Return one cook's row as a record."""
    return {
        "cook": cook.name,
        "id": cook.id,
        "stations": {
            each.station: {
                "state": each.state,
                "missing": [named(kitchen, missing.text) for missing in each.missing],
                "until": each.until.isoformat() if each.until else None,
            }
            for each in clearances
        },
    }


def print_table(rows: list[list[str]]) -> None:
    """Print rows as columns, each as wide as its longest text."""
    for line in table_lines(rows):
        click.echo(line)


@click.command("why")
@click.argument("cook")
@click.argument("station")
@on_option
@known_option
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def why_command(folder: Path, cook: str, station: str, on: date | None, known: date | None, as_json: bool) -> None:
    """Print why a cook is cleared for a station, or what is missing, with the entries that prove it.

    \b
    Example:
      trainer why "Maren Ito" pasta_room --on 2026-11-20
    """
    kitchen = open_here(folder)
    day, person = day_asked(kitchen, on, known), find_cook(kitchen, cook)
    place = station_on(kitchen, station, day)
    clearance = clearance_of(person, place, kitchen.progress(), kitchen.content, day)
    comes = next_change(person, place, kitchen.progress(), kitchen.content, day.on) if day.known == day.on else None
    if as_json:
        told = {**head_of(kitchen, day), **asdict(clearance), "next_change": change_record(comes)}
        click.echo(json.dumps(with_names(kitchen, told), ensure_ascii=False, default=plain))
        return
    later = AsKnown(day.on, known or max(day.on, today_of(kitchen)))
    print_why(kitchen, person, clearance, (*both_ways(kitchen, person, place, later), *change_words(comes)))


def station_on(kitchen: Kitchen, station: str, day: AsKnown) -> Station:
    """Return a station that is taught now, or was by the standard of a day; else stop and list the stations."""
    then = kitchen.progress().standards.content_on(day.on, kitchen.content, day.known).stations
    found = kitchen.content.stations.get(station) or then.get(station)
    if found is None:
        names = ", ".join({**kitchen.content.stations, **then})
        raise CommandError(f"There is no station {station!r}. There are: {names}.", USAGE)
    return found


def change_record(comes: NextChange | None) -> dict[str, Any] | None:
    """Return what changes next as a record; None where nothing does."""
    if comes is None:
        return None
    return {"on": comes.on, "from": comes.before, "to": comes.after, "because": comes.because}


def change_words(comes: NextChange | None) -> tuple[Text, ...]:
    """Return what changes next in words; nothing where nothing does."""
    if comes is None:
        return ()
    return (joined([message("From {day}: {state}.", day=in_words(comes.on), state=comes.after), comes.because]),)


def both_ways(kitchen: Kitchen, person: Person, station: Station, day: AsKnown) -> tuple[Text, ...]:
    """Return what the book said on the day and what is known later, in words; nothing where both are the same."""
    found = known_twice(person, station, kitchen.progress(), kitchen.content, day) if day.known > day.on else None
    return (found.then_words, found.now_words(today_of(kitchen))) if found else ()


def find_cook(kitchen: Kitchen, asked: str) -> Person:
    """Return the one cook with this id or name, or whose name starts so; otherwise stop and list the cooks."""
    people = kitchen.people()
    if asked in people:
        return people[asked]
    exact = [person for person in people.values() if person.name.casefold() == asked.casefold()]
    found = exact or [person for person in people.values() if plain_name(person.name).startswith(plain_name(asked))]
    if len(found) == 1:
        return found[0]
    names = ", ".join(person.name for person in (found or people.values()))
    reason = f"More than one cook is called {asked!r}" if found else f"There is no cook {asked!r}"
    raise CommandError(f"{reason}. There are: {names}.", USAGE)


def print_why(kitchen: Kitchen, person: Person, clearance: Clearance, more: Sequence[Text]) -> None:
    """Print a clearance for a person to read, and what more is to be said of it."""

    def printed(words: Text) -> str:
        return translate(named(kitchen, words))

    until = f", to {clearance.until.isoformat()}" if clearance.is_cleared and clearance.until else ""
    click.echo(f"{person.name}, {clearance.station}, {clearance.on.isoformat()}: {clearance.state}{until}")
    said = [words for words in (clearance.reason, clearance.due or clearance.outlook) if words]
    for line in (*said, *more):
        click.echo(f"  {printed(line)}")
    for act in next_acts(clearance.missing):
        click.echo(f"  next: {printed(act.act)}")
        for thing in act.things:
            click.echo(f"    missing: {printed(thing)}")
    for held in clearance.held:
        end = f" to {held.until.isoformat()}" if held.until else ""
        start = f" from {held.since.isoformat()}" if held.since else ""
        click.echo(f"  held: {printed(held.text)}{start}{end}")
    leaning = marked(kitchen)
    for entry in filter(None, map(kitchen.file.book.find, clearance.proof)):
        mark = ", which leans on a voided entry" if entry.id in leaning else ""
        click.echo(f"  proof: entry {entry.seq}{mark}")
