"""Roster and shift files at the command line: a preview, then all of it or none of it."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO

import click

from trainer import clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.roster import apply_import, plan_import
from trainer.actions.signing_in import NO_MATCH, proved
from trainer.actions.two_people import local_second
from trainer.cli.exits import CHECK_FAILED, REFUSED, CommandError
from trainer.cli.opening import open_here, today_of
from trainer.cli.secret import read_secret
from trainer.imports.roster_plan import Choices, RosterPlan
from trainer.kitchen.book import LOCAL
from trainer.messages import translate


@click.command("roster")
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--apply", "take_in", is_flag=True, help="Take in all of it. Without this, nothing is changed.")
@click.option("--dates", type=click.Choice(["dmy", "mdy"]), help="How dates like 03/04/2001 are meant.")
@click.option("--sheet", default="", metavar="NAME", help="Which sheet of a workbook is meant.")
@click.option("--leave-out", type=int, multiple=True, metavar="ROW", help="Leave a row out; may be given often.")
@click.option("--by", metavar="MANAGER", help="Which manager takes it in; needed where there is more than one.")
@click.option(
    "--passphrase-file",
    type=click.File(encoding="utf-8"),
    help="A file with that manager's passphrase, or - for standard input; asked for, unseen, if left out.",
)
@click.pass_obj
def roster_command(
    folder: Path,
    file: Path,
    take_in: bool,
    dates: str | None,
    sheet: str,
    leave_out: tuple[int, ...],
    by: str | None,
    passphrase_file: TextIO | None,
) -> None:
    """Preview a roster or shift file, row by row; with --apply, take in all of it or none.

    Changes of people ask for the manager's passphrase, and each is an entry in the book. A command on the machine
    itself counts as the second person: nothing waits.

    \b
    Example:
      trainer roster roster.csv
      trainer roster roster.csv --dates dmy --leave-out 14 --apply
    """
    kitchen = open_here(folder)
    answers = Choices(date_order=dates or "", left_out=frozenset(leave_out), sheet=sheet)  # type: ignore[arg-type]
    now = clock.now()
    plan = plan_import(kitchen, file.read_bytes(), answers, now=now)
    print_plan(plan)
    if not plan.is_ready:
        raise CommandError("Nothing was taken in.", CHECK_FAILED)
    if not take_in:
        click.echo("This is a preview: nothing was taken in. Add --apply to take in all of it.")
        return
    manager = manager_of(kitchen, by)
    if plan.needs_proof:
        prove_manager(kitchen, manager, passphrase_file)
    outcome = apply_import(kitchen, plan=plan, by=manager, now=now, second=local_second(now))
    if isinstance(outcome, Refused):
        raise CommandError(outcome.reason, REFUSED)
    click.echo(translate(outcome.text))


def prove_manager(kitchen: Kitchen, manager: str, file: TextIO | None) -> None:
    """Ask for the manager's secret, and stop where it is not theirs; wrong ones are counted for this machine."""
    name = kitchen.people()[manager].name
    secret = read_secret(file, f"Passphrase of {name}")
    outcome = proved(kitchen, device=LOCAL, person=manager, secret=secret, now=clock.now())
    if outcome == NO_MATCH:
        raise CommandError(f"That is not the passphrase of {name}. Nothing was taken in.", REFUSED)
    if isinstance(outcome, Refused):
        raise CommandError(f"{translate(outcome.reason)} Nothing was taken in.", REFUSED)


def print_plan(plan: RosterPlan) -> None:
    """Print what each row would do, birth dates and roles once more apart, then what has to be mended or answered."""
    for change in plan.changes:
        click.echo(
            f"row {change.row}: {change.name}: {translate(change.text)}"
            + (f". {translate(change.note)}" if change.note else "")
        )
    for heading, apart in (("Birth dates that change:", "birth"), ("Roles given or taken:", "roles")):
        weighty = [change for change in plan.changes if getattr(change, apart)]
        for line in (
            [heading, *(f"  row {c.row}: {c.name}: {translate(getattr(c, apart))}" for c in weighty)] if weighty else []
        ):
            click.echo(line)
    for each in plan.problems:
        where = f"row {each.row}, {translate(each.column)} {each.value!r}" if each.column else f"row {each.row}"
        click.echo(f"{where}: {translate(each.reason)} {translate(each.hint)}")
    for asked in plan.questions:
        readings = " or ".join(translate(reading.text) for reading in asked.readings)
        where = f"row {asked.row}, {asked.column} {asked.value!r}"
        click.echo(f"{where}: {translate(asked.text)} {readings}. Say which with --dates.")
    click.echo(f"{plan.kind}: {len(plan.changes)} rows, {len(plan.problems)} problems, {len(plan.questions)} questions")


def manager_of(kitchen: Kitchen, asked: str | None) -> str:
    """Return the id of the manager who takes the file in: the one named, or the only one there is."""
    day = kitchen.day(today_of(kitchen))
    managers = {cook: day.name(cook) for cook in day.progress.cooks_on(day.on) if "manager" in day.roles(cook)}
    found = [cook for cook, name in managers.items() if asked in (None, cook, name)]
    if len(found) == 1:
        return found[0]
    raise CommandError(f"Say which manager with --by: {', '.join(managers.values()) or 'there is none'}.", REFUSED)
