"""The week's services and the plan at the command line: shown, set, published."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import Any
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.covering import planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.planning import PlanDraft, PlanWanted, plan_draft, publish_plan, set_services
from trainer.actions.weeks_set import weeks_after
from trainer.cli.clearance import DayParam, find_cook, named, on_option
from trainer.cli.exits import REFUSED, USAGE, CommandError
from trainer.cli.house_services import word_of
from trainer.cli.opening import open_here, today_of
from trainer.kitchen.book import LOCAL
from trainer.kitchen.nights import Place, PlanPublished, place_told
from trainer.kitchen.week import Need, Week
from trainer.messages import joined, translate


def refusal(outcome: Refused) -> CommandError:
    """Return a refusal as a command ends with it."""
    return CommandError(translate(joined([outcome.reason, outcome.who_can])), REFUSED)


@click.group("services", invoke_without_command=True)
@click.option("--json", "as_json", is_flag=True, help="Print the services in force as JSON, as `set` takes them.")
@click.pass_context
def services_command(ctx: click.Context, as_json: bool) -> None:
    """Show which services the house holds and the hands they need; set them from a file.

    \b
    Example:
      trainer services --json
      trainer services set services.json
    """
    if ctx.invoked_subcommand:
        return
    kitchen = open_here(ctx.obj)
    today = today_of(kitchen)
    week = kitchen.progress().nights.week(today, today, today)
    if as_json:
        entry = kitchen.file.book.find(week.entry) if week else None
        click.echo(json.dumps(dict(entry.body) if entry else None, ensure_ascii=False))
        return
    for line in _week_lines(kitchen, week) if week else ["No services are set."]:
        click.echo(line)


@services_command.command("set")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False, exists=True))
@click.pass_obj
def set_command(folder: Path, file: Path) -> None:
    """Set the services from a JSON file: `since`, `weekly` and `days`.

    A line of `weekly` has weekday (Monday is 1), service, opens, closes, guests, and needs: a list of stations and
    hands, where each hand holds all the stations of its need. A line of `days` has day, service, and closed or needs.

    It counts until the day another week set before begins: that one stays as it is.

    \b
    Example:
      trainer services set services.json
    """
    kitchen = open_here(folder)
    try:
        told = json.loads(file.read_text(encoding="utf-8"))
    except ValueError as problem:
        raise CommandError(f"{file} is not JSON: {problem}", USAGE) from None
    outcome = set_services(kitchen, by=LOCAL, told=told, now=clock.now(), key=str(uuid4()))
    if isinstance(outcome, Refused):
        raise refusal(outcome)
    click.echo(f"Set, from {told['since']} on. Entry {outcome.entry.seq} of the book says so.")
    for body in weeks_after(kitchen, date.fromisoformat(told["since"])):
        click.echo(f"The week set from {body['since']} on stays as it is.")


def _week_lines(kitchen: Kitchen, week: Week) -> Iterator[str]:
    """Yield the services in force, a line each."""
    yield f"Services from {week.since.isoformat()} on"
    for one in sorted(week.weekly, key=lambda one: (one.weekday, one.opens)):
        when = f"{word_of(kitchen, one.service)} {one.opens:%H:%M}-{one.closes:%H:%M}"
        yield f"  weekday {one.weekday} {when}, {one.guests} guests: {_needs_text(one.needs)}"
    for own in week.days:
        yield f"  {own.day} {word_of(kitchen, own.service)}: {'closed' if own.is_closed else _needs_text(own.needs)}"


def _needs_text(needs: tuple[Need, ...]) -> str:
    return ", ".join(f"{'+'.join(need.stations)} {need.hands}" for need in needs) or "no hands"


@click.group("plan")
def plan_command() -> None:
    """Publish the plan of some days, so that it counts; show it.

    \b
    Example:
      trainer plan publish --from 2026-11-30 --to 2026-12-06
      trainer plan show --on 2026-11-30
    """


@plan_command.command("publish")
@click.option("--from", "since", type=DayParam(), required=True, metavar="DATE", help="The first day.")
@click.option("--to", "until", type=DayParam(), required=True, metavar="DATE", help="The last day.")
@click.option("--in-charge", default="", metavar="COOK", help="Who is in charge on these days.")
@click.option("--away", type=(str, DayParam(), DayParam()), multiple=True, metavar="COOK FIRST LAST")
@click.option(
    "--despite",
    type=(DayParam(), str, str, str),
    multiple=True,
    metavar="DATE SERVICE COOK REASON",
    help="Why a cook who is not cleared runs the station.",
)
@click.option("--replace", "replaces", is_flag=True, help="Take the place of a plan of the same days.")
@click.option("--json", "as_json", is_flag=True, help="Print the plan as one JSON object.")
@click.pass_obj
def publish_command(folder: Path, /, as_json: bool, **typed: Any) -> None:  # noqa: ANN401 - click's own options
    """Publish the planned rows of some days, taken in from shift files, as the plan that counts.

    Rows of people who may not stand there at all are left out, and named. Who is not cleared trails.

    \b
    Example:
      trainer plan publish --from 2026-11-30 --to 2026-12-06
    """
    kitchen = open_here(folder)
    wanted = _wanted(kitchen, **typed)
    draft = plan_draft(kitchen, wanted, today_of(kitchen))
    outcome = publish_plan(kitchen, by=LOCAL, wanted=wanted, now=clock.now(), key=str(uuid4()))
    if isinstance(outcome, Refused):
        raise refusal(outcome)
    if as_json:
        click.echo(json.dumps({"entry": outcome.entry.seq, **_draft_record(kitchen, draft)}, ensure_ascii=False))
        return
    for one in draft.left_out:
        click.echo(f"Left out: {_line(kitchen, one.place)}. {translate(named(kitchen, one.reason))}")
    click.echo(f"Published {len(draft.places)} places. Entry {outcome.entry.seq} of the book holds the plan.")


def _wanted(
    kitchen: Kitchen,
    *,
    since: date,
    until: date,
    in_charge: str,
    away: Iterable[tuple[str, date, date]],
    despite: Iterable[tuple[date, str, str, str]],
    replaces: bool,
) -> PlanWanted:
    """Return what is to be planned, everybody by id."""
    reasons = {
        (day, _service_id(kitchen, service), find_cook(kitchen, cook).id): reason
        for day, service, cook, reason in despite
    }
    gone = tuple((find_cook(kitchen, cook).id, first, last) for cook, first, last in away)
    charge = find_cook(kitchen, in_charge).id if in_charge else ""
    return PlanWanted(since, until, charge, gone, reasons, replaces)


def _service_id(kitchen: Kitchen, typed: str) -> str:
    found = kitchen.services.named(typed)
    return found.id if found else typed


def _draft_record(kitchen: Kitchen, draft: PlanDraft) -> dict[str, Any]:
    return {
        "from": draft.since.isoformat(),
        "to": draft.until.isoformat(),
        "lines": [place_told(place) for place in draft.places],
        "left_out": [
            {**place_told(one.place), "reason": translate(named(kitchen, one.reason))} for one in draft.left_out
        ],
        "replaces": [plan.seq for plan in draft.overlaps],
    }


@plan_command.command("show")
@on_option
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def show_command(folder: Path, on: date | None, as_json: bool) -> None:
    """Print who is planned where on a day: by the published plan, or, where there is none, by the planned rows.

    \b
    Example:
      trainer plan show --on 2026-11-30 --json
    """
    kitchen = open_here(folder)
    day = on or today_of(kitchen)
    plan = kitchen.progress().nights.plan(day, day, day)
    lines = _lines_on(kitchen, plan, day)
    if as_json:
        click.echo(json.dumps({"day": day.isoformat(), **_plan_record(plan, day), "lines": lines}, ensure_ascii=False))
        return
    click.echo(f"Plan for {day.isoformat()}, " + (f"entry {plan.seq}" if plan else "not published"))
    for line in lines:
        trails = ", trails" if line.get("as") == "trails" else ""
        click.echo(f"  {word_of(kitchen, line['service'])}: {_who(kitchen, line['cook'])} at {line['station']}{trails}")
    if not lines:
        click.echo("  Nobody is planned.")


def _plan_record(plan: PlanPublished | None, day: date) -> dict[str, Any]:
    if plan is None:
        return {"entry": None}
    away = [cook for cook, first, last in plan.away if first <= day <= last]
    return {"entry": plan.seq, "in_charge": plan.in_charge.get(day), "away": away}


def _lines_on(kitchen: Kitchen, plan: PlanPublished | None, day: date) -> list[dict[str, str]]:
    """Return the lines of a day; `as` only where a plan says it."""
    if plan is None:
        rows = planned_on(kitchen, day)
        return [{"day": day.isoformat(), "service": x.service, "cook": x.cook, "station": x.station} for x in rows]
    return [
        {**place_told(place), **({"despite": plan.despite[place]} if place in plan.despite else {})}
        for place in plan.places
        if place.day == day
    ]


def _line(kitchen: Kitchen, place: Place) -> str:
    return (
        f"{_who(kitchen, place.cook)} at {place.station}, {word_of(kitchen, place.service)} on {place.day.isoformat()}"
    )


def _who(kitchen: Kitchen, cook: str) -> str:
    person = kitchen.people().get(cook)
    return person.name if person else cook
