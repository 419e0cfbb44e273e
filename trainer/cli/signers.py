"""Who could sign at the command line: at a station, on any day, by which entries."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import click

from trainer.cli.clearance import DayParam, on_option
from trainer.cli.exits import USAGE, CommandError
from trainer.cli.opening import open_here, today_of
from trainer.kitchen.entitlement import Signer, signers
from trainer.store.book import Book


@click.command("signers")
@click.argument("station")
@on_option
@click.option("--known", "known", type=DayParam(), metavar="DATE", help="By what was known then; that day if left out.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON list.")
@click.pass_obj
def signers_command(folder: Path, station: str, on: date | None, known: date | None, as_json: bool) -> None:
    """Print who could sign at a station on a day, by which entries, and to which last day.

    \b
    Example:
      trainer signers pasta_room --on 2026-05-03
    """
    kitchen = open_here(folder)
    day = replace(kitchen.day(on or today_of(kitchen)), known=known)
    asked = day.rules.stations.get(station)
    if asked is None:
        raise CommandError(f"There is no station {station!r}. There are: {', '.join(day.rules.stations)}.", USAGE)
    found = signers(asked, day)
    if as_json:
        click.echo(json.dumps([signer_record(one, day.name(one.cook)) for one in found], ensure_ascii=False))
        return
    click.echo(f"Could sign at {asked.title} on {day.on.isoformat()}:")
    for one in found:
        end = f", to {one.until.isoformat()}" if one.until else ""
        click.echo(f"  {day.name(one.cook)}{end}")
        if one.techniques != asked.techniques:
            click.echo(f"    practicals of: {', '.join(one.techniques) or 'none'}")
        if not one.shifts:
            click.echo("    no supervised shifts")
        click.echo(f"    by entries {_numbers(kitchen.file.book, one.because)}")
    if not found:
        click.echo("  Nobody.")


def _numbers(book: Book, ids: Iterable[str]) -> str:
    """Return the numbers of entries as one list, the first one first."""
    return ", ".join(str(entry.seq) for entry in sorted(filter(None, map(book.find, ids)), key=lambda one: one.seq))


def signer_record(one: Signer, name: str) -> dict[str, Any]:
    """Return one signer as a record: the entries it follows from, the last day as things stand, and what they sign."""
    return {
        "cook": one.cook,
        "name": name,
        "because": list(one.because),
        "until": one.until.isoformat() if one.until else None,
        "techniques": list(one.techniques),
        "shifts": one.shifts,
    }
