"""The training plan at the command line."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.training import RingAdvised, Training, TrainingPlan, training_plan
from trainer.cli.opening import open_here, today_of
from trainer.messages import translate
from trainer.web.night_words import why_trained


@click.command("training-plan")
@click.option(
    "--days", type=click.IntRange(1, 366), default=14, show_default=True, help="The services of so many days."
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def training_plan_command(folder: Path, days: int, as_json: bool) -> None:
    """Print the least training after which any one person may be missing at the services to come.

    \b
    Example:
      trainer training-plan --days 14
    """
    kitchen = open_here(folder)
    today = today_of(kitchen)
    plan = training_plan(kitchen, today, days)
    lines = [_line(kitchen, one) for one in plan.trainings]
    if as_json:
        told = {"hours": round(plan.minutes / 60, 2), "lines": lines, "still_short": plan.short}
        told |= {"ring": _ring(kitchen, plan.ring)} if plan.ring else {}
        click.echo(json.dumps(told, ensure_ascii=False))
        return
    click.echo(_in_short(plan))
    for line in lines:
        begins = f" From {line['begins']}." if line["begins"] > today.isoformat() else ""
        click.echo(f"{line['cook']}, {line['station']}: {line['hours']} h.{begins} {line['because']}")
    if plan.ring:
        click.echo(_ring_in_short(kitchen, plan.ring))


def _in_short(plan: TrainingPlan) -> str:
    if not plan.services:
        return "Nobody is planned, so there is nothing to plan for."
    short = f" {plan.short} places stay empty even so." if plan.short else ""
    return f"{len(plan.trainings)} trainings, {plan.minutes / 60:.1f} h, for {len(plan.services)} services.{short}"


def _ring(kitchen: Kitchen, ring: RingAdvised) -> dict[str, Any]:
    """Return who would learn which station, and how many of the hands needed are filled, with any two missing."""
    names = {cook: str(person.name) for cook, person in kitchen.people().items()}
    learns = [
        {"cook": names[cook], "station": station, "hours": round(minutes / 60, 2)}
        for cook, station, minutes in ring.learns
    ]
    told = ring.brings
    return {"learns": learns, "hands": told.hands, "now": told.now, "filled": told.filled, "at_most": told.at_most}


def _ring_in_short(kitchen: Kitchen, ring: RingAdvised) -> str:
    told = _ring(kitchen, ring)
    learns = "; ".join(f"{one['cook']} learns {one['station']} ({one['hours']} h)" for one in told["learns"])
    filled = f"{told['now']} of {told['hands']} places filled now, {told['filled']} with it, {told['at_most']} at most"
    return f"A ring of second stations: {learns}. With any two people missing: {filled}."


def _line(kitchen: Kitchen, one: Training) -> dict[str, Any]:
    people, stations = kitchen.people(), kitchen.content.stations
    names = {cook: str(person.name) for cook, person in people.items()}
    because = translate(why_trained(one, names, {each.id: each.title for each in stations.values()}))
    told = {"cook": names[one.cook], "station": one.station, "hours": round(one.minutes / 60, 2), "because": because}
    return {**told, "begins": one.wait.begins.isoformat()}
