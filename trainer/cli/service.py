"""Closing a service at the command line, and what spoke against who stood where."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from pathlib import Path
from typing import Any
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.closing import Closing, against, close_service
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.cli.clearance import DayParam
from trainer.cli.exits import USAGE, CommandError
from trainer.cli.house_services import word_of
from trainer.cli.opening import open_here, today_of
from trainer.cli.plan import refusal
from trainer.kitchen.book import LOCAL
from trainer.kitchen.disparities import disparity_word
from trainer.kitchen.nights import Place, ServiceStood
from trainer.messages import translate

KEYS = {"stood", "guests", "reasons"}


@click.group("service")
def service_command() -> None:
    """Close a service; list what spoke against who stood where.

    \b
    Example:
      trainer service close 2026-11-24 dinner --as-planned
      trainer service disparities --from 2026-11-01 --to 2026-11-30
    """


@service_command.command("close")
@click.argument("day", type=DayParam())
@click.argument("service")
@click.option("--as-planned", is_flag=True, help="Everybody stood as the plan says.")
@click.option(
    "--stood",
    "file",
    type=click.Path(path_type=Path, dir_okay=False, exists=True),
    help="A JSON file: stood [cook, station, as, beside], guests, reasons [cook, station, state, reason].",
)
@click.pass_obj
def close_command(folder: Path, day: date, service: str, as_planned: bool, file: Path | None) -> None:
    """Close a service of a day: it stood as planned, or as a file says.

    What spoke against who stood where is written down with a reason each. One that was closed already is closed again
    once its entry is voided.

    \b
    Example:
      trainer service close 2026-11-24 dinner --as-planned
    """
    if as_planned == (file is not None):
        raise CommandError("Say either --as-planned, or who stood where: --stood FILE.json.", USAGE)
    kitchen = open_here(folder)
    named = kitchen.services.named(service)
    service = named.id if named else service
    closing = Closing(day, service, as_planned=True) if file is None else _closing_in(file, day, service)
    outcome = close_service(kitchen, by=LOCAL, closing=closing, now=clock.now(), key=str(uuid4()))
    if isinstance(outcome, Refused):
        raise refusal(outcome)
    count = len(outcome.entry.body["disparities"])
    click.echo(f"Closed. Entry {outcome.entry.seq} of the book says so; disparities: {count}.")


def _closing_in(file: Path, day: date, service: str) -> Closing:
    """Return what a file says of a service; anything that is not of its form is wrong use."""
    try:
        told = json.loads(file.read_text(encoding="utf-8"))
        if not isinstance(told, dict) or told.keys() - KEYS:
            raise ValueError(f"an object with {', '.join(sorted(KEYS))} is read")
        stood = tuple(_place(one, day, service) for one in told["stood"])
        reasons = {(x["cook"], x["station"], x["state"]): str(x["reason"]) for x in told.get("reasons", ())}
        guests = told.get("guests")
        if guests is not None and (not isinstance(guests, int) or isinstance(guests, bool)):
            raise ValueError(f"guests is {guests!r}, and a whole number is read")
    except (ValueError, KeyError, TypeError) as problem:
        raise CommandError(f"{file} does not say who stood where: {problem}.", USAGE) from None
    return Closing(day, service, as_planned=False, stood=stood, guests=guests, reasons=reasons)


def _place(one: Mapping[str, Any], day: date, service: str) -> Place:
    if one["as"] not in ("runs", "trails"):
        raise ValueError(f"as is {one['as']!r}, and runs or trails is read")
    return Place(day, service, str(one["cook"]), str(one["station"]), one["as"] == "runs", str(one.get("beside", "")))


@service_command.command("disparities")
@click.option("--from", "since", type=DayParam(), required=True, metavar="DATE", help="The first day.")
@click.option("--to", "until", type=DayParam(), metavar="DATE", help="The last day; today if left out.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON list.")
@click.pass_obj
def disparities_command(folder: Path, since: date, until: date | None, as_json: bool) -> None:
    """Print what speaks against who stood where at the services closed, by the boards of their days.

    `reason` is what was written down for it when the service was closed; null where the board said nothing then.

    \b
    Example:
      trainer service disparities --from 2026-11-01 --to 2026-11-30 --json
    """
    kitchen = open_here(folder)
    last = until or today_of(kitchen)
    if last < since:
        raise CommandError(f"{last.isoformat()} is before {since.isoformat()}.", USAGE)
    found = list(_records(kitchen, since, last))
    if as_json:
        click.echo(json.dumps(found, ensure_ascii=False))
        return
    for one in found:
        where = f"{one['name']} at {one['station']}: " if one["cook"] else ""
        word = translate(disparity_word(one["state"]))
        what = f"{word_of(kitchen, one['service'])}: {where}{word}"
        click.echo(f"{one['day']} {what}. {one['reason'] or 'No reason was written.'}")
    if not found:
        click.echo("None.")


def _records(kitchen: Kitchen, since: date, until: date) -> Iterator[dict[str, Any]]:
    """Yield each disparity of the services closed on some days, day by day."""
    today, names = today_of(kitchen), kitchen.people()
    closings = kitchen.progress().nights.closings(today, today)
    for number in range((until - since).days + 1):
        day = since + timedelta(days=number)
        for closed in sorted((one for (on, _), one in closings.items() if on == day), key=lambda one: one.seq):
            written = {one[:3]: one.reason for one in closed.disparities}
            yield from (
                {
                    "day": day.isoformat(),
                    "service": closed.service,
                    "entry": closed.seq,
                    "cook": one.cook,
                    "name": names[one.cook].name if one.cook in names else one.cook,
                    "station": one.station,
                    "state": one.state,
                    "reason": written.get(one[:3]),
                }
                for one in _now(kitchen, closed, day)
            )


def _now(kitchen: Kitchen, closed: ServiceStood, day: date) -> Iterator[Any]:
    return iter(against(kitchen, day, closed.service, closed.stood))
