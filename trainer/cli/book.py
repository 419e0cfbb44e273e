"""The record book at the command line."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import click

from trainer.cli.exits import CHECK_FAILED
from trainer.messages import translate
from trainer.store.book_check import BookCheck, BookProblem
from trainer.store.kitchen_file import verify_folder


@click.group("book")
def book_command() -> None:
    """Look after the record book.

    \b
    Example:
      trainer book verify
    """


@book_command.command("verify")
@click.option(
    "--head", "kept_head", default="", metavar="HASH", help="A check value kept elsewhere, or its first 12 signs."
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def verify(folder: Path, kept_head: str, as_json: bool) -> None:
    """Check that every entry is there, in order and unchanged.

    A check value printed or written down earlier and given as --head shows besides that nothing before it was written
    anew, and that the end was not cut off. Its first 12 signs are enough, as the board prints them.

    \b
    Example:
      trainer book verify
      trainer book verify --head 488496476b96
    """
    found = verify_folder(folder, kept_head)
    if as_json:
        click.echo(json.dumps(check_record(found), ensure_ascii=False))
    else:
        for each in found.problems:
            click.echo(f"entry {each.seq}: {translate(each.problem)}")
        if found.up_to:
            click.echo(f"Nothing was changed, up to entry {found.up_to:,}.")
        if found.not_found:
            click.echo(translate(found.not_found))
        if found.problems:
            click.echo("Do not write in this book. Take the last good backup with: trainer restore FILE")
        click.echo(f"{found.entries} entries, {len(found.problems)} problems; last check value {found.head}")
    sys.exit(0 if found.is_whole else CHECK_FAILED)


def check_record(found: BookCheck) -> dict[str, Any]:
    """Return what a check found as JSON: each kitchen of the file by itself, then what is wrong with the file."""
    kitchens = [
        {
            "kitchen": each.kitchen,
            "entries": each.entries,
            "head": each.head,
            "root": each.root.hex(),
            "problems": problem_records(each.problems),
        }
        for each in found.kitchens
    ]
    in_file, not_found = problem_records(found.in_file), translate(found.not_found)
    return {"kitchens": kitchens, "in_file": in_file, "up_to": found.up_to, "not_found": not_found}


def problem_records(problems: tuple[BookProblem, ...]) -> list[dict[str, Any]]:
    """Return problems as JSON."""
    return [{"seq": each.seq, "problem": translate(each.problem)} for each in problems]
