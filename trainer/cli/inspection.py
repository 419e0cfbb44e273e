"""The inspector's sheet at the command line: one service, as the book said that day."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import click

from trainer import clock
from trainer.actions.inspecting import inspection
from trainer.cli.clearance import named, on_option
from trainer.cli.house_services import find_service
from trainer.cli.opening import open_here, today_of
from trainer.exports.inspection import as_data, as_lines
from trainer.messages import translate


@click.command("inspection")
@on_option
@click.option("--service", metavar="SERVICE", default="", help="Which one; the running or last one if left out.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def inspection_command(folder: Path, on: date | None, service: str, as_json: bool) -> None:
    """Print what an inspector asks of a service: who is in charge, papers, notice, allergens; what is missing first.

    \b
    Example:
      trainer inspection --on 2026-11-20 --service dinner
    """
    kitchen, now = open_here(folder), clock.now()
    wanted = find_service(kitchen, service).id if service else ""
    sheet = inspection(kitchen, on=on or today_of(kitchen), now=now, service=wanted)
    if as_json:
        click.echo(json.dumps(as_data(sheet), ensure_ascii=False, indent=1))
        return
    for line in as_lines(sheet):
        click.echo(translate(named(kitchen, line)))
