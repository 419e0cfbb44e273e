"""Copies of a kitchen: making one, and putting one back."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from threading import Event

import click

from trainer import clock
from trainer.cli.exits import CHECK_FAILED, REFUSED, CommandError
from trainer.messages import translate
from trainer.store.backup import NIGHTLY, back_up, backups_of, drop_older
from trainer.store.kitchen_file import KitchenFile
from trainer.store.last_copy import is_due, last_copy, note_failure
from trainer.store.problems import KitchenProblem
from trainer.store.restoring import Losses, Restore

SHOWN = 20
AGAIN_AFTER = timedelta(hours=1)


@click.command("backup")
@click.argument("into", metavar="[DIR]", required=False, type=click.Path(path_type=Path, file_okay=False))
@click.option("--keep", type=click.IntRange(min=1), metavar="N", help="Delete all but the newest N copies there.")
@click.pass_obj
def backup_command(folder: Path, into: Path | None, keep: int | None) -> None:
    """Save the whole kitchen in one file in DIR: its book and people, and its own content. The server may go on.

    Without DIR the copy lies beside the kitchen's folder. The copy is read back and checked before it gets its name.
    It holds names and birth dates: keep it where only you can read it, and one on another disk.

    \b
    Example:
      trainer backup
      trainer backup /media/stick --keep 30
    """
    target = into or backups_of(folder)
    try:
        file = KitchenFile.open(folder)
        path, manifest = back_up(file, target, clock.now())
    except KitchenProblem as problem:
        raise CommandError(str(problem), CHECK_FAILED) from problem
    click.echo(f"Saved {manifest.entries:,} entries and {len(manifest.files)} files in {path}")
    if manifest.short_head:
        click.echo(f"Check value of the book: {manifest.short_head}")
    for old in drop_older(target, manifest.kitchen, keep) if keep else ():
        click.echo(f"Deleted {old.name}: older than the newest {keep}.")
    file.close()


@click.command("restore")
@click.argument("archive", metavar="FILE", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option(
    "--yes-lose",
    type=click.IntRange(min=0),
    metavar="N",
    help="For scripts: go on without asking where exactly N entries would be lost (0: none).",
)
@click.pass_obj
def restore_command(folder: Path, archive: Path, yes_lose: int | None) -> None:
    """Put a copy made by backup back in place of the kitchen.

    The copy is checked whole before anything is touched. Entries it lacks are named, and their number has to be typed.
    What is replaced is kept aside, in a folder that is named at the end. Stop the server first, and start it again.

    \b
    Example:
      trainer restore kitchen-backups/kitchen-2026-11-25T20-00-00Z.zip
    """
    try:
        with Restore.ready(archive, folder) as restore:
            losses = restore.losses()
            _refuse_another_kitchens(restore, losses)
            if restore.is_over_something():
                _agree(restore, losses, yes_lose)
            aside = restore.put_in_place(losses, clock.now())
    except KitchenProblem as problem:
        raise CommandError(f"{problem} Nothing was changed.", CHECK_FAILED) from problem
    entries = restore.manifest.entries
    click.echo(f"{restore.manifest.name} is back in {folder}, with {entries:,} entries. Everybody signs in again.")
    if losses.entries:
        click.echo(f"The book says in entry {entries + 1:,} that {len(losses.entries):,} entries were lost.")
    if aside is not None:
        click.echo(f"What was there is in {aside}: delete it when you are sure.")
    click.echo("PINs, devices and people are as they were when the copy was made. Next: trainer serve")


def copy_every_night(file: KitchenFile, into: Path, keep: int, stop: Event, every: float = 60.0) -> None:
    """Make a copy of an open kitchen after 04:00 of every day, until *stop* is set, and keep the newest of them.

    A machine that was off at night makes it when it is on again. What goes wrong is said on the error stream and kept
    for `trainer doctor` and the managers' pages; it is tried again an hour later.
    """
    not_before = clock.now()
    while not stop.is_set():
        now = clock.now()
        if now >= not_before and is_due(last_copy(file.folder).made(), now, file.settings.timezone):
            not_before = now + AGAIN_AFTER
            _copy_tonight(file, into, keep, now)
        stop.wait(every)


def _copy_tonight(file: KitchenFile, into: Path, keep: int, now: datetime) -> None:
    """Make one copy and delete the oldest ones of the same sort; note and say why where that fails."""
    try:
        back_up(file, into, now, NIGHTLY)
        drop_older(into, file.settings.kitchen, keep, NIGHTLY)
    except Exception as problem:  # whatever it is: a thread that ends in silence would mean no copy ever again
        note_failure(file.folder, now, str(problem))
        click.echo(f"No copy was made tonight: {problem}", err=True)


def save_what_is_left(file: KitchenFile, every: float = 2.0) -> None:
    """Wait until the file under a server is lost, then save what the server still has of it, and say where.

    A file that was deleted or replaced lives on in the programs that have it open, and with it entries that nothing
    else has. A copy is kept only where its book is whole.
    """
    pause = Event()
    while not (reason := file.reading_only()):
        pause.wait(every)
    click.echo(translate(reason), err=True)
    try:
        path, manifest = back_up(file, backups_of(file.folder), clock.now())
    except (OSError, KitchenProblem) as problem:
        click.echo(f"Nothing could be saved from here: {problem}", err=True)
        click.echo("Stop the server, then take the last good backup with: trainer restore FILE", err=True)
        return
    click.echo(f"What this server still had, {manifest.entries:,} entries, was saved in {path}", err=True)
    click.echo(f"Stop the server, then put it back with: trainer restore {path}", err=True)


def _refuse_another_kitchens(restore: Restore, losses: Losses) -> None:
    """End the command for a copy of another kitchen than the one that is there."""
    if losses.kitchen not in ("", restore.manifest.kitchen):
        name = restore.manifest.name
        raise CommandError(f"This is a copy of another kitchen, {name}. Name another folder with --kitchen.", REFUSED)


def _agree(restore: Restore, losses: Losses, yes_lose: int | None) -> None:
    """Say what would be lost, and go on only where that is agreed to."""
    count = len(losses.entries)
    click.echo(f"The copy of {restore.manifest.name} has {restore.manifest.entries:,} entries.")
    if not losses.is_readable:
        click.echo(f"The book here is damaged: {losses.there:,} of its entries can be read.")
    for entry in losses.entries[-SHOWN:]:
        click.echo(f"lost: entry {entry.seq}, {entry.at}, {entry.kind}, about {entry.cook}, by {entry.by}")
    if count > SHOWN:
        click.echo(f"lost: {count - SHOWN:,} more before these")
    if yes_lose is not None:
        agreed = yes_lose == count
    elif count:
        agreed = click.prompt(f"{count:,} entries would be lost. Type that number to go on", default="") == str(count)
    else:
        agreed = click.confirm("No entry would be lost. Go on?")
    if not agreed:
        raise CommandError(f"{count} entries would be lost, and that was not agreed to. Nothing was changed.", REFUSED)
