"""A new secret for somebody, set on the machine itself: for the manager who forgot theirs, or is locked out."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.local_secret import change_secret_here
from trainer.actions.outcome import Refused
from trainer.cli.clearance import find_cook
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import open_here
from trainer.messages import translate

WHAT = "a PIN of 8 digits, or a passphrase of 15 characters or more"


@click.command("secret")
@click.argument("person")
@click.option(
    "--secret-file",
    type=click.File(encoding="utf-8"),
    help="A file with the new secret, or - for standard input; asked for twice, unseen, if left out.",
)
@click.pass_obj
def secret_command(folder: Path, person: str, secret_file: TextIO | None) -> None:
    """Set a new PIN or passphrase for somebody, close what they have open, and clear their waits.

    The book says that it was done on this machine, never what the secret is.

    \b
    Example:
      trainer secret "Ida Brandt"
    """
    kitchen = open_here(folder)
    found = find_cook(kitchen, person)
    secret = read_secret(secret_file, f"New secret of {found.name} ({WHAT})", twice=True)
    outcome = change_secret_here(kitchen, person=found.id, secret=secret, now=clock.now(), key=str(uuid4()))
    if isinstance(outcome, Refused):
        raise CommandError(f"{translate(outcome.reason)} Nothing was changed.", REFUSED)
    closed = f"{outcome.sessions_closed} closed" if outcome.sessions_closed else "none was open"
    click.echo(
        f"{found.name} has a new secret. Sign-ins: {closed}; waits after wrong tries: cleared."
        f" Entry {outcome.entry.seq} of the book says so."
    )


def read_secret(file: TextIO | None, asked: str, *, twice: bool = False) -> str:
    """Return a secret from a file or standard input, or typed unseen; never from a flag or the environment."""
    if file is not None:
        return file.read().rstrip("\r\n")
    try:
        secret: str = click.prompt(asked, hide_input=True, confirmation_prompt=twice)
    except click.Abort as nothing:
        raise CommandError(
            "No secret was typed, so nothing was changed. A script gives it in a file.", REFUSED
        ) from nothing
    return secret
