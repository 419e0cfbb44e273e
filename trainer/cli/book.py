"""The record book at the command line."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import click

from trainer.cli.book_show import show_command
from trainer.cli.exits import CHECK_FAILED
from trainer.cli.opening import open_here
from trainer.kitchen.book import Entry, moment_text
from trainer.kitchen.security import SECURITY
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
@click.option("--head", "kept_head", default="", metavar="VALUE", help="A check value printed or written down earlier.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def verify(folder: Path, kept_head: str, as_json: bool) -> None:
    """Check that every entry is there, in order and unchanged.

    A check value printed or written down earlier and given as --head shows besides that nothing before it was written
    anew, and that the end was not cut off. One of 12 signs, as older boards print it, is taken too, and is weak.

    \b
    Example:
      trainer book verify
      trainer book verify --head 1093-7K2M-QX4F-9T0B-ZR6H-43
    """
    found = verify_folder(folder, kept_head)
    if as_json:
        click.echo(json.dumps(check_record(found), ensure_ascii=False))
    else:
        for each in found.problems:
            click.echo(f"entry {each.seq}: {translate(each.problem)}")
        for day, count in (each for kitchen in found.kitchens for each in kitchen.dropped):
            click.echo(f"{count} texts about people were dropped on {day}, as the book says.")
        if found.up_to:
            click.echo(f"Nothing was changed, up to entry {found.up_to:,}.")
        if found.weak:
            click.echo(translate(found.weak))
        if found.not_found:
            click.echo(translate(found.not_found))
        if found.problems:
            click.echo("Do not write in this book. Take the last good backup with: trainer restore FILE")
        value = f"check value {found.short_head}" if found.entries else "no check value yet"
        click.echo(f"{found.entries} entries, {len(found.problems)} problems; {value}")
    sys.exit(0 if found.is_whole else CHECK_FAILED)


@book_command.command("security")
@click.option("--last", default=100, show_default=True, type=click.IntRange(1, 10_000), help="How many.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object an entry, one a line.")
@click.pass_obj
def security(folder: Path, last: int, as_json: bool) -> None:
    """List who was let in, kept out or given a way in, newest first.

    Locks after wrong tries, first codes, new PINs and passphrases, devices, the clock, copies put back.

    \b
    Example:
      trainer book security
      trainer book security --last 1000 --json
    """
    kitchen = open_here(folder)
    people = {person.id: person.name for person in kitchen.people().values()}
    for entry in kitchen.file.book.newest_of(SECURITY, last):
        if as_json:
            click.echo(json.dumps(_security_record(entry), ensure_ascii=False))
            continue
        about, by = people.get(entry.cook, entry.cook), people.get(entry.by, entry.by)
        said = ", ".join(f"{name.replace('_', ' ')} {value}" for name, value in entry.body.items())
        click.echo(f"entry {entry.seq}, {moment_text(entry.at)}: {entry.kind}, about {about}, by {by}: {said}")


def _security_record(entry: Entry) -> dict[str, Any]:
    """Return one entry about who may come in as JSON: when, where, who and what."""
    return {
        "seq": entry.seq,
        "id": entry.id,
        "at": moment_text(entry.at),
        "day": entry.day.isoformat(),
        "kind": entry.kind,
        "cook": entry.cook,
        "by": entry.by,
        "device": entry.device,
        "body": dict(entry.body),
    }


def check_record(found: BookCheck) -> dict[str, Any]:
    """Return what a check found as JSON: each kitchen of the file by itself, then what is wrong with the file."""
    kitchens = [
        {
            "kitchen": each.kitchen,
            "entries": each.entries,
            "head": each.head,
            "root": each.root.hex(),
            "short_head": each.short_head,
            "problems": problem_records(each.problems),
            "dropped": [{"on": day, "texts": count} for day, count in each.dropped],
        }
        for each in found.kitchens
    ]
    return {
        "kitchens": kitchens,
        "in_file": problem_records(found.in_file),
        "up_to": found.up_to,
        "not_found": translate(found.not_found),
        "weak": translate(found.weak),
    }


def problem_records(problems: tuple[BookProblem, ...]) -> list[dict[str, Any]]:
    """Return problems as JSON."""
    return [{"seq": each.seq, "problem": translate(each.problem)} for each in problems]


book_command.add_command(show_command)
