"""The workbench at the command line: a pan that cools."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import IO, Any

import click

from trainer.cli.exits import CHECK_FAILED, USAGE, CommandError, plain
from trainer.cli.opening import content_from_files
from trainer.kitchen.cooling_watch import CoolingStart, CoolingView, GateView, gates_of, watched, wrong_start
from trainer.kitchen.technique import Content
from trainer.kitchen.typed_lines import cooling_log, when_text
from trainer.messages import translate
from trainer.recipe_math.cooling import start_text
from trainer.recipe_math.cooling_window import CoolingPan
from trainer.recipe_math.estimates import Writing, hours_text, in_celsius
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import TEMPERATURE, QuantityProblem

DEGREES = {"F": "°F", "C": "°C"}


def content_here(folder: Path) -> Content:
    """Return what the kitchen in *folder* teaches, or what comes with the program where there is no kitchen."""
    content, problems = content_from_files(folder).read("en", "us")
    if content is None:
        where = f"{problems[0].file}:{problems[0].line}: {problems[0].message}"
        raise CommandError(
            f"The content cannot be used: {where} See all of it with: trainer content check", CHECK_FAILED
        )
    return content


@click.command("cooling")
@click.argument("readings", nargs=-1)
@click.option(
    "--file", "file", type=click.File(encoding="utf-8"), help="Read them from a file, one a line; - is stdin."
)
@click.option("--around", metavar="TEMPERATURE", help="How cold it is around the food, for a forecast.")
@click.option(
    "--start",
    type=click.Choice([start.value for start in CoolingStart]),
    default=CoolingStart.HOT.value,
    show_default=True,
    help="How it began: hot, or made cold from things at room temperature.",
)
@click.option("--depth", metavar="LENGTH", help="How deep the food is; not given, 4 in.")
@click.option("--covered", is_flag=True, help="It has a lid; not given, it steams.")
@click.option("--stirred", is_flag=True, help="It is stirred often.")
@click.option("--degrees", "bare", type=click.Choice(list(DEGREES)), help="The unit of a temperature without one.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def cooling_command(
    folder: Path,
    readings: Sequence[str],
    file: IO[str] | None,
    around: str | None,
    start: str,
    bare: str | None,
    as_json: bool,
    depth: str | None,
    covered: bool,
    stirred: bool,
) -> None:
    """Judge readings of a pan that cools against each limit of the local code, and forecast the rest.

    A reading is a time and a temperature; the time by the clock, or in minutes. Exit code 1: a limit is missed.

    \b
    Example:
      trainer cooling "14:00 135 F" "16:10 70 F" "19:00 41 F" --around "38 F"
    """
    text = "\n".join(readings) if readings else (file or sys.stdin).read()
    unit = DEGREES[bare] if bare else None
    log = cooling_log(text, degrees=unit)
    if log.problems or not log.readings:
        reasons = [translate(problem.as_text()) for problem in log.problems] or [
            "There is no reading. Write one like: 14:05 135 F"
        ]
        raise CommandError("\n".join(reasons), USAGE)
    code, began, writing = content_here(folder).code, CoolingStart(start), Writing("us" if bare == "F" else "metric")
    gates, wrong = gates_of(code, began), wrong_start(log.readings, code, began, writing)
    if not gates:
        raise CommandError("The local code of this kitchen has no limits for cooling what began so.", CHECK_FAILED)
    if wrong:
        raise CommandError(wrong, USAGE)
    view = watched(log.readings, gates, surroundings_of(around, unit), writing, pan_of(depth, covered, stirred))
    if as_json:
        click.echo(json.dumps(cooling_record(view), ensure_ascii=False, default=plain))
    else:
        print_cooling(view, log.by_the_clock, writing)
    sys.exit(CHECK_FAILED if view.is_missed else 0)


def pan_of(depth: str | None, covered: bool, stirred: bool) -> CoolingPan:
    """Return how the food stands; a text that is no depth ends the command."""
    if depth is None:
        return CoolingPan(is_open=not covered, is_stirred=stirred)
    try:
        read = parse_quantity(depth, kind="length")
        return CoolingPan(float(read.to("mm").amount), not covered, stirred)
    except QuantityProblem as problem:
        raise CommandError(str(problem), USAGE) from problem


def surroundings_of(text: str | None, unit: str | None) -> float | None:
    """Return how cold it is around the food in celsius; a text that is no temperature ends the command."""
    if text is None:
        return None
    try:
        read = parse_quantity(text, default_unit=unit, kind=TEMPERATURE)
    except QuantityProblem as problem:
        raise CommandError(str(problem), USAGE) from problem
    if read.unit.dimension != TEMPERATURE:
        raise CommandError(f"{text!r} is no temperature. Write degrees, like 38 F or 3 C.", USAGE)
    return in_celsius(read)


def cooling_record(view: CoolingView) -> dict[str, Any]:
    """Return what the readings show as a record: each limit by itself."""
    return {
        "missed": view.is_missed,
        "gates": [gate_record(gate) for gate in view.gates],
        "largest_miss_celsius": round(view.fit.largest_miss_celsius, 3) if view.fit else None,
        "no_forecast": view.no_fit_reason or None,
        "note": "An estimate. The local code decides; nothing here says that food is safe.",
    }


def gate_record(view: GateView) -> dict[str, Any]:
    """Return one limit as a record."""
    log, forecast = view.log, view.forecast
    return {
        "from_celsius": None if log.gate.from_celsius is None else round(log.gate.from_celsius, 3),
        "to_celsius": round(log.gate.to_celsius, 3),
        "within_minutes": log.gate.within_minutes,
        "source": log.gate.source,
        "outlook": str(view.outlook),
        "at_least_minutes": log.at_least_minutes,
        "at_most_minutes": log.at_most_minutes,
        "minutes_left": log.minutes_left,
        "earliest_minutes": tenths(forecast.in_all.earliest) if forecast else None,
        "latest_minutes": tenths(forecast.in_all.latest) if forecast else None,
    }


def tenths(minutes: float | None) -> float | None:
    """Return a time to a tenth of a minute; None stays None."""
    return None if minutes is None else round(minutes, 1)


def print_cooling(view: CoolingView, by_the_clock: bool, writing: Writing) -> None:
    """Print what the readings show for a person to read, each limit by itself."""
    for gate in view.gates:
        asked = gate.log.gate
        limit = hours_text(asked.within_minutes)
        start, end = start_text(asked, writing), writing.limit(asked.to_celsius)
        click.echo(f"{'from ' if asked.from_celsius is None else ''}{start} to {end} within {limit}: {gate.outlook}")
        click.echo(f"  {translate(gate.log.reason)}")
        if gate.forecast and not gate.is_reached and gate.forecast.at.earliest is not None:
            first, last = gate.forecast.at.earliest, gate.forecast.at.latest
            until = "no latest can be said" if last is None else translate(when_text(last, by_the_clock))
            click.echo(f"  expected between {translate(when_text(first, by_the_clock))} and {until}")
        click.echo(f"  {translate(asked.source)}")
    if view.no_fit_reason:
        click.echo(translate(view.no_fit_reason))
    elif view.fits_badly:
        click.echo("The readings lie far off the curve: expect little from the forecast.")
    click.echo("Your local code decides; this is an estimate, and never says that food is safe.")
