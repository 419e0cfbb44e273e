"""Devices at the command line: a code for a new one, made on the machine itself."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import ZoneInfo

import click

from trainer import clock
from trainer.actions.enrolling import invite_device
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.own_phone import owner_of
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import open_here
from trainer.kitchen.book import LOCAL


@click.group("device")
def device_command() -> None:
    """Let devices in, and see which there are.

    \b
    Example:
      trainer device invite
      trainer device list
    """


@device_command.command("invite")
@click.pass_obj
def invite(folder: Path) -> None:
    """Print a code with which one new device is enrolled: good for ten minutes, and once.

    For the first device of a kitchen, or where no enrolled one is at hand.

    \b
    Example:
      trainer device invite
    """
    print_invitation(open_here(folder))


@device_command.command("list")
@click.pass_obj
def listed(folder: Path) -> None:
    """Print the devices in use, one a line: its name, since when, and whose own phone it is.

    \b
    Example:
      trainer device list
    """
    kitchen = open_here(folder)
    zone, now = ZoneInfo(kitchen.file.settings.timezone), clock.now()
    in_use = [one for one in kitchen.file.devices.all() if one.revoked_at is None]
    for one in sorted(in_use, key=lambda each: (each.name, each.id)):
        owner = owner_of(kitchen, device=one.id, now=now)
        whose = f"own phone of {owner.name}" if owner else "shared"
        click.echo(f"{one.name}: {whose}, enrolled {one.enrolled_at.astimezone(zone):%Y-%m-%d}")
    if not in_use:
        click.echo("No device is enrolled. A code for the first one: trainer device invite")


def print_invitation(kitchen: Kitchen) -> None:
    """Make a code for one new device and print it, with what to do."""
    made = invite_device(kitchen, by=LOCAL, now=clock.now())
    if isinstance(made, Refused):
        raise CommandError(made.reason, REFUSED)
    until = made.good_until.astimezone(ZoneInfo(kitchen.file.settings.timezone))
    click.echo(f"Code for one new device: {made.code[:4]} {made.code[4:]}, good until {until:%H:%M}.")
    click.echo("On that device open the kitchen's address, press “Enrol this device” and type the code.")


def invite_first_device(kitchen: Kitchen) -> None:
    """Print a code where no device is enrolled yet: whoever serves a new kitchen needs one at once."""
    if not kitchen.file.settings.is_demo and all(one.revoked_at is not None for one in kitchen.file.devices.all()):
        click.echo("No device is enrolled yet.")
        print_invitation(kitchen)
        click.echo("Another code, later: trainer device invite")
