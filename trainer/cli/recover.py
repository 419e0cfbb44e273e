"""The recovery sheet at the command line: a new secret for a manager by it, or a new sheet."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.outcome import Refused
from trainer.actions.recovering import NewSheet, SheetTyped, new_sheet_here, secret_by_sheet
from trainer.cli.clearance import find_cook
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import open_here
from trainer.cli.secret import WHAT, read_secret
from trainer.kitchen.book import LOCAL, moment_text
from trainer.messages import joined


@click.command("recover")
@click.argument("person", required=False)
@click.option("--new-sheet", "only_sheet", is_flag=True, help="Print a new sheet; the one before is dead.")
@click.option("--sheet-file", type=click.File(encoding="utf-8"), help="A file with the sheet's signs, or -.")
@click.option("--secret-file", type=click.File(encoding="utf-8"), help="A file with the new secret, or -.")
@click.pass_obj
def recover_command(
    folder: Path, person: str | None, only_sheet: bool, sheet_file: TextIO | None, secret_file: TextIO | None
) -> None:
    """Set a manager's new secret by the recovery sheet, or print a new sheet.

    The signs and the secret are asked for unseen where no file is named. A sheet works once, and the next one is
    printed at once.

    \b
    Example:
      trainer recover "Ida Brandt"
      trainer recover --new-sheet
    """
    if only_sheet == bool(person):
        raise click.UsageError("Name a person, or --new-sheet; not both.")
    kitchen, key = open_here(folder), str(uuid4())
    if person is None:
        outcome = new_sheet_here(kitchen, now=clock.now(), key=key)
    else:
        found = find_cook(kitchen, person)
        typed = SheetTyped(read_secret(sheet_file, "The signs on the recovery sheet"), found.id, LOCAL)
        secret = read_secret(secret_file, f"New secret of {found.name} ({WHAT})", twice=True)
        outcome = secret_by_sheet(kitchen, typed=typed, secret=secret, now=clock.now(), key=key)
    if isinstance(outcome, Refused):
        raise CommandError(joined(part for part in (outcome.reason, outcome.who_can) if part), REFUSED)
    if person is not None:
        click.echo(f"{found.name} has a new secret, and the sheet that was typed is dead.")
    print_sheet(outcome, kitchen.file.settings.name)


def print_sheet(sheet: NewSheet, kitchen: str) -> None:
    """Print a sheet, to be kept on paper; it is shown this once."""
    click.echo(f"\nRecovery sheet of {kitchen}, made {moment_text(sheet.made_at)}\n\n    {sheet.signs}\n")
    click.echo("Print it or write it down: it is shown this once. It sets a new secret for a manager, or stands as the")
    click.echo("second person, and works once. Keep it where only managers come, away from this machine.")
