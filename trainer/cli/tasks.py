"""A cook's tasks at the command line: what is next, as their own first page says it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from trainer import clock
from trainer.actions.next_tasks import tasks_to_do
from trainer.actions.sitting_drafts import put_aside
from trainer.cli.clearance import find_cook, print_table
from trainer.cli.exits import USAGE, CommandError
from trainer.cli.opening import open_here, today_of
from trainer.kitchen.tasks import Task
from trainer.messages import translate


@click.command("next")
@click.argument("cook")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object a technique, one a line.")
@click.pass_obj
def next_command(folder: Path, cook: str, as_json: bool) -> None:
    """Print what a cook does next, nearest first, with what they have begun.

    \b
    Example:
      trainer next "Noor Haddad-Silva"
    """
    kitchen = open_here(folder)
    person, today, now = find_cook(kitchen, cook), today_of(kitchen), clock.now()
    if "cook" not in kitchen.progress().roles(person.id, today):
        raise CommandError(f"{person.name} is not on the roster as a cook today, so nothing is next.", USAGE)
    tasks = tasks_to_do(kitchen, cook=person.id, on=today)
    if as_json:
        for task in tasks:
            click.echo(json.dumps(task_record(task, translate(task.words(now))), ensure_ascii=False))
        return
    click.echo(f"{person.name}, {today.isoformat()}")
    for aside in put_aside(kitchen, cook=person.id):
        click.echo(translate(aside.words))
    if tasks:
        print_table([[task.technique.title, task.state, translate(task.words(now))] for task in tasks])
    else:
        click.echo("Nothing is waiting.")


def task_record(task: Task, words: str) -> dict[str, Any]:
    """Return one task as a record."""
    under_way = task.under_way
    return {
        "technique": task.technique.id,
        "title": task.technique.title,
        "state": task.state,
        "next": task.act,
        "words": words,
        "step": under_way.step,
        "quiz_from": under_way.quiz_from.isoformat() if under_way.quiz_from else None,
    }
