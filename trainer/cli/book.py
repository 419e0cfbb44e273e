"""The record book at the command line."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path

import click

from trainer.cli.exits import CHECK_FAILED
from trainer.store.kitchen_file import verify_folder


@click.group("book")
def book_command() -> None:
    """Look after the record book.

    \b
    Example:
      trainer book verify
    """


@book_command.command("verify")
@click.option("--head", "kept_head", default="", metavar="HASH", help="A check value kept elsewhere; it must be there.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def verify(folder: Path, kept_head: str, as_json: bool) -> None:
    """Check that every entry is there, in order and unchanged.

    The last check value, written down outside the kitchen and given as --head, also shows a book cut off at its end.

    \b
    Example:
      trainer book verify
    """
    found = verify_folder(folder, kept_head)
    if as_json:
        click.echo(json.dumps(asdict(found), ensure_ascii=False))
    else:
        for each in found.problems:
            click.echo(f"entry {each.seq}: {each.problem}")
        click.echo(f"{found.entries} entries, {len(found.problems)} problems; last check value {found.head}")
    sys.exit(CHECK_FAILED if found.problems else 0)
