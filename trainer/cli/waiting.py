"""What waits for a second person, at the command line: a command on the machine itself counts as the second."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from trainer import clock
from trainer.actions.confirming import confirm, enter_due
from trainer.actions.giving_codes import FirstCode
from trainer.actions.outcome import Refused
from trainer.actions.two_people import local_second, until_of, waiting
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import open_here
from trainer.kitchen.book import moment_text
from trainer.messages import joined
from trainer.store.drafts import Draft


@click.command("waiting")
@click.option("--confirm", "draft", metavar="ID", help="Enter this one at once, as the second person.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON list.")
@click.pass_obj
def waiting_command(folder: Path, draft: str | None, as_json: bool) -> None:
    """Print what waits for a second person, or enter one of them; a first code is printed as it is made.

    \b
    Example:
      trainer waiting
      trainer waiting --confirm 4mZ0qX
    """
    kitchen, now = open_here(folder), clock.now()
    enter_due(kitchen, now)
    if draft:
        outcome = confirm(kitchen, draft=draft, second=local_second(now), now=now)
        if isinstance(outcome, Refused):
            raise CommandError(joined(part for part in (outcome.reason, outcome.who_can) if part), REFUSED)
        click.echo(f"Entered: entry {outcome.entry.seq}, {outcome.entry.kind}, about {outcome.entry.cook}.")
        if isinstance(outcome, FirstCode):
            good = moment_text(outcome.good_until)
            click.echo(f"The code, shown this once: {outcome.code[:4]} {outcome.code[4:]}. Good until {good}.")
        return
    found = waiting(kitchen)
    if as_json:
        click.echo(json.dumps([waiting_record(one) for one in found], ensure_ascii=False))
        return
    people = kitchen.people()
    for one in found:
        about, by = (people[who].name if who in people else who for who in (one.cook, one.by))
        until = until_of(one)
        ends = f"counts from {moment_text(until)}" if until else "waits for another manager"
        click.echo(f"{one.id}  {one.about} of {about}: {json.dumps(one.body['args'])}, asked for by {by}; {ends}")
    if not found:
        click.echo("Nothing waits.")


def waiting_record(one: Draft) -> dict[str, Any]:
    """Return one act that waits as a record."""
    until = until_of(one)
    return {
        "id": one.id,
        "act": one.about,
        "cook": one.cook,
        "by": one.by,
        "asked": moment_text(one.at),
        "args": one.body["args"],
        "until": moment_text(until) if until else None,
    }
