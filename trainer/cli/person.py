"""What is kept about one person, at the command line."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.erasing import WHYS, Erasure, Why, erase_person, export_of, held_about, may_not_erase
from trainer.actions.outcome import Refused
from trainer.actions.people_on_record import Written
from trainer.cli.clearance import find_cook
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import open_here
from trainer.kitchen.book import LOCAL
from trainer.messages import translate


@click.command("erase")
@click.argument("cook")
@click.option(
    "--into",
    type=click.Path(path_type=Path, dir_okay=False),
    required=True,
    help="A new file for all that is held about them, written before anything is erased.",
)
@click.option("--why", type=click.Choice(WHYS), default=WHYS[0], show_default=True, help="Why; the book says so.")
@click.option("--yes", is_flag=True, help="Do not ask for the name again.")
@click.pass_obj
def erase_command(folder: Path, cook: str, into: Path, why: Why, yes: bool) -> None:
    """Erase a person who has left: name, birth date, secret, and every text about them.

    What they did stays in the book, about an erased person. Copies and prints made before keep the name.

    \b
    Example:
      trainer erase "Tom Beck" --into tom-beck.json
    """
    kitchen, now = open_here(folder), clock.now()
    person = find_cook(kitchen, cook)
    refusal = may_not_erase(kitchen, person.id, LOCAL, now)
    if refusal is not None:
        raise CommandError(f"{translate(refusal.reason)} {translate(refusal.who_can)}".strip(), REFUSED)
    held = held_about(kitchen, person.id)
    if held.older_texts:
        click.echo(f"{held.older_texts} texts of older entries stay: they were written into the book itself.")
    if not yes and click.prompt(f"Type the name of whom you erase ({person.name})", default="") != person.name:
        raise CommandError("That is another name. Nothing was erased.", REFUSED)
    write_new_file(into, export_of(kitchen, person.id, now))
    outcome = erase_person(kitchen, erasure=Erasure(person.id, why), written=Written(LOCAL, now, str(uuid4())))
    if isinstance(outcome, Refused):
        raise CommandError(f"{translate(outcome.reason)} Nothing was erased.", REFUSED)
    click.echo(
        f"Erased. {len(held.texts)} texts dropped; entry {outcome.entry.seq} of the book says so."
        f" All that was held is in {into}: hand it over, then delete it."
    )


def write_new_file(path: Path, record: dict[str, Any]) -> None:
    """Write JSON into a new file that only its owner can read, and wait until the disk has it."""
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except OSError as problem:
        raise CommandError(f"{path} cannot be written ({problem.strerror}). Nothing was erased.", REFUSED) from problem
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        json.dump(record, file, ensure_ascii=False, indent=1)
        file.flush()
        os.fsync(file.fileno())
