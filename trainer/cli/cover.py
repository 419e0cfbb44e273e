"""Cover at the command line: does each service of a day hold, and if not, why."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import click

from trainer.actions.covering import ServiceCover, services_of
from trainer.actions.open_kitchen import Kitchen
from trainer.cli.clearance import find_cook, on_option
from trainer.cli.opening import open_here, today_of
from trainer.messages import translate
from trainer.web.manager.cover_view import Called, bands, gap_lines


@click.command("cover")
@on_option
@click.option("--days", type=click.IntRange(1, 366), default=1, show_default=True, help="So many days from then on.")
@click.option("--without", metavar="COOK", multiple=True, help="As if this cook did not come; may be given again.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object a service, one a line.")
@click.pass_obj
def cover_command(folder: Path, on: date | None, days: int, without: tuple[str, ...], as_json: bool) -> None:
    """Print for each service whether it holds, who moves, or which station is short and why.

    \b
    Example:
      trainer cover --on 2026-11-20
      trainer cover --days 14 --without "Maren Ito"
    """
    kitchen = open_here(folder)
    first, called = on or today_of(kitchen), _called(kitchen)
    gone = [find_cook(kitchen, cook).id for cook in without]
    for day in (first + timedelta(days=number) for number in range(days)):
        services = services_of(kitchen, day, without=gone)
        if as_json:
            for found in services:
                click.echo(json.dumps(cover_record(found, called), ensure_ascii=False))
        else:
            _print_day(day, services, called)


def _print_day(day: date, services: tuple[ServiceCover, ...], called: Called) -> None:
    click.echo(f"Cover for {day.isoformat()}")
    for band in bands(services, called):
        click.echo("\n  ".join(map(translate, [band.words, *band.lines])))
    if not services:
        click.echo("Nobody is planned.")


def cover_record(found: ServiceCover, called: Called) -> dict[str, Any]:
    """Return one service as a record: what it needs, who is on, whether it holds, and who would have to move."""
    planned: dict[str, list[str]] = {}
    for one in found.judged:
        planned.setdefault(one.planned.station, []).append(one.planned.cook)
    return {
        "day": found.on.isoformat(),
        "service": found.service.id,
        "needs": [{"stations": list(one.stations), "hands": one.hands} for one in found.cover.stations],
        "on": list(found.can),
        "can": {cook: sorted(stations) for cook, stations in found.can.items()},
        "planned": planned,
        "holds": found.cover.holds,
        "planned_holds": found.cover.holds_as_planned,
        "reason": " ".join(map(translate, gap_lines(found, called))),
        "cure": [{"cook": move.cook, "station": move.stands} for move in found.cover.moves],
    }


def _called(kitchen: Kitchen) -> Called:
    """Return everybody by full name and every station by its title."""
    names = {cook: person.name for cook, person in kitchen.people().items()}
    return Called(names, {station.id: station.title for station in kitchen.content.stations.values()})
