"""What is said of this machine's clock: that it is right, or that it ran ahead for some entries."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.clock_setting import RanAhead, confirm_clock, correct_clock, entries_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.cli.exits import REFUSED, USAGE, CommandError
from trainer.cli.opening import open_here
from trainer.kitchen.book import LOCAL, Entry
from trainer.messages import joined

MOST_SHOWN = 20


@click.group("clock")
def clock_command() -> None:
    """Say that this machine's clock is right, or that it ran ahead.

    \b
    Example:
      trainer clock confirm 2026-11-29
    """


@clock_command.command("confirm")
@click.argument("day", type=click.DateTime(["%Y-%m-%d"]), metavar="[DATE]", required=False)
@click.pass_obj
def confirm(folder: Path, day: object) -> None:
    """Say that this machine's clock is right, by typing today's date; it is asked for if left out.

    Where the clock was set while the server ran, or nothing was entered for a month, nothing is saved before.

    \b
    Example:
      trainer clock confirm 2026-11-29
    """
    kitchen = open_here(folder)
    typed = day if day is not None else click.prompt("Today's date", type=click.DateTime(["%Y-%m-%d"]))
    outcome = confirm_clock(kitchen, by=LOCAL, typed=_day_of(typed), now=clock.now(), key=str(uuid4()))
    if isinstance(outcome, Refused):
        raise CommandError(joined([outcome.reason, outcome.who_can]), REFUSED)
    click.echo(f"The clock is right. Entry {outcome.entry.seq} of the book says so.")


@clock_command.command("correct")
@click.option("--from", "first", required=True, metavar="ENTRY", help="The first entry of the clock that ran ahead.")
@click.option("--to", "last", metavar="ENTRY", help="The last one; the book's last entry if left out.")
@click.option("--day", required=True, type=click.DateTime(["%Y-%m-%d"]), help="The day from which they count.")
@click.pass_obj
def correct(folder: Path, first: str, last: str | None, day: object) -> None:
    """Let entries of a clock that ran ahead count from the day they were really written.

    An entry is named by its number or its id. What it changes is shown first; then the number of entries is typed. The
    entries stay as they were written: a new entry says from which day they count.

    \b
    Example:
      trainer clock correct --from 1094 --day 2026-11-29
    """
    kitchen = open_here(folder)
    end, _ = kitchen.file.book.end()
    ran = RanAhead(_number(kitchen, first), _number(kitchen, last) if last else end, _day_of(day))
    found = entries_of(kitchen, ran, clock.now())
    if isinstance(found, Refused):
        raise CommandError(joined([found.reason, found.who_can]), REFUSED)
    _print_what_changes(kitchen, found, ran.day)
    typed = click.prompt(f"Type how many entries that are, to do it ({len(found)})", type=str)
    if typed.strip() != str(len(found)):
        raise CommandError(f"{typed!r} is not {len(found)}. Nothing was changed.", REFUSED)
    outcome = correct_clock(kitchen, ran=ran, now=clock.now(), key=str(uuid4()))
    if isinstance(outcome, Refused):
        raise CommandError(joined([outcome.reason, outcome.who_can]), REFUSED)
    click.echo(f"{len(found)} entries count from {ran.day}. Entry {outcome.entry.seq} of the book says so.")


def _day_of(typed: object) -> date:
    """Return the day of what click read."""
    return date.fromisoformat(f"{typed:%Y-%m-%d}")


def _number(kitchen: Kitchen, entry: str) -> int:
    """Return the number of an entry named by number or id; one that is not there ends the command."""
    if entry.isascii() and entry.isdigit():
        return int(entry)
    found = kitchen.file.book.find(entry)
    if found is None:
        raise CommandError(f"There is no entry {entry!r} in the book.", USAGE)
    return found.seq


def _print_what_changes(kitchen: Kitchen, found: tuple[Entry, ...], day: date) -> None:
    """Print the entries that move, and from which day to which."""
    people = kitchen.people()
    for entry in found[:MOST_SHOWN]:
        about = people[entry.cook].name if entry.cook in people else entry.cook
        click.echo(f"entry {entry.seq}: {entry.kind}, {about}: {entry.day} becomes {day}")
    if len(found) > MOST_SHOWN:
        click.echo(f"and {len(found) - MOST_SHOWN} more, to entry {found[-1].seq} ({found[-1].day})")
