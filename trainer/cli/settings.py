"""A kitchen's own settings at the command line."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.house_services import change_services
from trainer.actions.kitchen_settings import change_settings
from trainer.actions.outcome import Outcome, Refused
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.house_services import SERVICE_OPTIONS, changes_asked, service_options
from trainer.cli.opening import open_here
from trainer.kitchen.book import LOCAL
from trainer.kitchen.services import THE_THREE
from trainer.messages import joined, translate
from trainer.store.catalogues import languages
from trainer.store.settings import Settings


@click.command("settings")
@click.option("--name", help="The kitchen's name.")
@click.option("--timezone", help="An IANA time zone, for example Europe/Rome. No day that is past moves.")
@click.option("--units", "units_first", type=click.Choice(["us", "metric"]), help="Which units first.")
@click.option("--decimal-mark", type=click.Choice([".", ","]))
@click.option("--currency", help="What questions about money are asked in (ISO 4217), for example MXN.")
@click.option("--language", type=click.Choice(languages()), help="The language of whoever has not chosen one.")
@click.option(
    "--independence",
    type=click.Choice(["shown", "reason", "strict"]),
    help="Asked of a signer who trained the cook: to show it, a reason, a second signature.",
)
@click.option(
    "--own-phone",
    type=click.Choice(["nothing", "study", "asking"]),
    help="What the PIN of this shift opens on one's own phone: nothing, study, study and asking to be watched.",
)
@click.option("--pin-hours", type=int, help="For how many hours after the PIN that holds, 1 to 12.")
@click.option(
    "--not-cleared-in-100",
    type=int,
    help="Above so many of 100 services run by somebody not cleared the coming nights say so, 1 to 50.",
)
@service_options
@click.pass_obj
def settings_command(folder: Path, /, **changes: Any) -> None:  # noqa: ANN401 - click's own options
    """Show the kitchen's settings; change those that are named. A change is an entry in the book.

    A server that runs is started again afterwards.

    \b
    Example:
      trainer settings
      trainer settings --timezone America/Chicago
      trainer settings --service "Sunday brunch" 10:00 14:30
    """
    kitchen = open_here(folder)
    wanted_services = list(changes_asked(kitchen, *(changes.pop(name) for name in SERVICE_OPTIONS)))
    named = {name: value for name, value in changes.items() if value is not None}
    if named:
        wanted = replace(kitchen.file.settings, **named)
        _changed(change_settings(kitchen, settings=wanted, now=clock.now(), key=str(uuid4())))
    if wanted_services:
        _changed(change_services(kitchen, by=LOCAL, changes=wanted_services, now=clock.now(), key=str(uuid4())))
    _print(kitchen.file.settings)


def _changed(outcome: Outcome) -> None:
    """Print the entry of a change; a refusal ends the command."""
    if isinstance(outcome, Refused):
        raise CommandError(translate(joined([outcome.reason, outcome.who_can])), REFUSED)
    click.echo(f"Changed. Entry {outcome.entry.seq} of the book says so.")


def _print(settings: Settings) -> None:
    """Print the settings, one a line."""
    click.echo(f"name: {settings.name}")
    click.echo(f"time zone: {settings.timezone}")
    click.echo(f"units first: {settings.units_first}")
    click.echo(f"decimal mark: {settings.decimal_mark}")
    click.echo(f"currency: {settings.currency}")
    click.echo(f"language: {settings.language}")
    click.echo(f"independence: {settings.independence}")
    click.echo(f"own phone: {settings.own_phone}")
    click.echo(f"PIN hours: {settings.pin_hours}")
    click.echo(f"not cleared in 100: {settings.not_cleared_in_100}")
    if settings.services != THE_THREE:
        click.echo(f"services: {translate(settings.services.in_words())}")
