"""Paths at the command line: who goes for which station by when; open one, close one."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.paths import NewPath, PathClosing, close_path, start_path
from trainer.cli.clearance import DayParam, find_cook, named, print_table
from trainer.cli.exits import REFUSED, USAGE, CommandError
from trainer.cli.opening import open_here, today_of
from trainer.kitchen.book import LOCAL
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.open_paths import PathStanding, all_paths, paths_of
from trainer.kitchen.state_words import state_word
from trainer.messages import joined, plural, translate


@click.group("path")
def path_command() -> None:
    """Say who goes for which station by when.

    \b
    Example:
      trainer path list
    """


@path_command.command("open")
@click.argument("cook")
@click.argument("station")
@click.option("--by", "by_day", type=DayParam(), metavar="DATE", required=True, help="The day to be cleared by.")
@click.option("--mentor", metavar="NAME", help="Who helps; nobody yet if left out.")
@click.pass_obj
def open_command(folder: Path, cook: str, station: str, by_day: date, mentor: str | None) -> None:
    """Open a path of a cook to a station; an open one to it is put off, or gets another mentor.

    \b
    Example:
      trainer path open "Noor Haddad-Silva" cold_side --by 2027-01-15 --mentor "Renzo Calabrì"
    """
    kitchen = open_here(folder)
    person, helps = find_cook(kitchen, cook), find_cook(kitchen, mentor).id if mentor else ""
    path = NewPath(person.id, station, by_day, helps)
    outcome = start_path(kitchen, by=LOCAL, path=path, now=clock.now(), key=str(uuid4()))
    _say(kitchen, outcome, f"{person.name} goes for {station} by {by_day.isoformat()}.")


@path_command.command("close")
@click.argument("cook")
@click.argument("station")
@click.option("--reached", "outcome", flag_value="reached", help="The cook was cleared since it was opened.")
@click.option("--dropped", "outcome", flag_value="dropped", help="The cook no longer goes for the station.")
@click.option("--reason", default="", help="Why; a path that is dropped needs one.")
@click.pass_obj
def close_command(folder: Path, cook: str, station: str, outcome: str | None, reason: str) -> None:
    """Close the path of a cook to a station.

    \b
    Example:
      trainer path close "Noor Haddad-Silva" cold_side --dropped --reason "Goes for the grill first"
    """
    if outcome is None:
        raise CommandError("Say how it ends: --reached or --dropped.", USAGE)
    kitchen = open_here(folder)
    person, today = find_cook(kitchen, cook), today_of(kitchen)
    found = next((one for one in paths_of(person.id, kitchen.day(today)) if one.path.station == station), None)
    if found is None:
        raise CommandError(f"{person.name} has no open path to {station!r}. See them with: trainer path list", USAGE)
    closing = PathClosing(person.id, found.path.entry, outcome, reason)
    done = close_path(kitchen, by=LOCAL, closing=closing, now=clock.now(), key=str(uuid4()))
    _say(kitchen, done, f"The path of {person.name} to {station} is {outcome}.")


def _say(kitchen: Kitchen, outcome: Outcome, words: str) -> None:
    """Print what was saved; a refusal ends the command."""
    if isinstance(outcome, Refused):
        told = joined(part for part in (outcome.reason, outcome.who_can) if part)
        raise CommandError(translate(named(kitchen, told)), REFUSED)
    click.echo(f"{words} Entry {outcome.entry.seq}.")


@path_command.command("list")
@click.option("--late", "only_late", is_flag=True, help="Only those whose day is past.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON list.")
@click.pass_obj
def list_command(folder: Path, only_late: bool, as_json: bool) -> None:
    """Print the open paths, the earliest day first, with what is missing for each.

    \b
    Example:
      trainer path list --late
    """
    kitchen = open_here(folder)
    day = kitchen.day(today_of(kitchen))
    found = [one for one in all_paths(day) if one.state == "late" or not only_late]
    if as_json:
        told = [path_record(kitchen, one, day) for one in found]
        click.echo(json.dumps(told, ensure_ascii=False))
    elif found:
        print_table(list(_rows(found, day)))
    else:
        click.echo("No path is late." if only_late else "No path is open.")


def _rows(found: Iterable[PathStanding], day: Snapshot) -> Iterable[list[str]]:
    """Yield a line a path, for a person to read."""
    for one in found:
        mentor = f"with {day.name(one.path.mentor)}" if one.path.mentor else ""
        left = translate(plural("{number} thing missing", "{number} things missing", len(one.clearance.missing)))
        words, state = translate(one.words), translate(state_word(one.clearance.state))
        yield [day.name(one.cook), one.path.station, one.path.by_day.isoformat(), words, state, left, mentor]


def path_record(kitchen: Kitchen, one: PathStanding, day: Snapshot) -> dict[str, Any]:
    """Return one path as a record."""
    return {
        "cook": one.cook,
        "name": day.name(one.cook),
        "station": one.path.station,
        "by_day": one.path.by_day.isoformat(),
        "days_left": one.days_left,
        "mentor": one.path.mentor or None,
        "path": one.state,
        "state": one.clearance.state,
        "missing": [translate(named(kitchen, each.text)) for each in one.clearance.missing],
        "entry": one.path.entry,
        "since": one.path.on.isoformat(),
    }
