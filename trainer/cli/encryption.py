"""HTTPS for a kitchen's own network, by one command: its certificate authority and its server's certificate."""

from __future__ import annotations

import platform
import re
import socket
from contextlib import suppress
from ipaddress import ip_address
from pathlib import Path

import click

from trainer import clock
from trainer.cli.exits import REFUSED, USAGE, CommandError
from trainer.cli.opening import open_here
from trainer.store.encryption import house_certificate, make_certificate

A_NAME = re.compile(r"(?!-)[a-z0-9-]{1,63}(?<!-)(\.(?!-)[a-z0-9-]{1,63}(?<!-))*")
"""A host name (RFC 1123, section 2.1)."""


@click.command("https")
@click.option(
    "--name",
    "names",
    multiple=True,
    help="A name or address people open the kitchen by; may be given again. This machine's own if left out.",
)
@click.option("--anew", is_flag=True, help="Make another authority: every phone has to take it in again.")
@click.pass_obj
def https_command(folder: Path, names: tuple[str, ...], anew: bool) -> None:
    """Make what HTTPS takes: an authority of the kitchen's own, and a certificate for its server.

    trainer serve then serves over HTTPS, and renews the server's certificate in time. The keys stay in the kitchen's
    folder and are in no backup: after a restore, run this again.

    \b
    Example:
      trainer https --name kitchen.lan --name 192.168.1.20
      trainer serve --host 0.0.0.0
    """
    kitchen = open_here(folder)
    title = kitchen.file.settings.name
    kitchen.file.close()
    if house_certificate(folder) is not None and not anew:
        raise CommandError(
            "There is a certificate already, and phones trust it. To make another, which each takes in again: --anew",
            REFUSED,
        )
    made = make_certificate(folder, title, [_checked(name) for name in names or _own_names()], clock.now())
    click.echo(f"Made a certificate for {', '.join(made.names)}, good until {made.ends:%Y-%m-%d} and renewed in time.")
    click.echo(f"Its authority's fingerprint, as phones show it: {made.fingerprint}")
    click.echo("Next: trainer serve --host 0.0.0.0, and open the address of a phone's first visit on each phone.")


def _checked(name: str) -> str:
    """Return a host name or an address in small letters; anything else ends the command."""
    with suppress(ValueError):
        return str(ip_address(name))
    if A_NAME.fullmatch(name.lower()) is None:
        raise CommandError(
            f"“{name}” is no host name and no address. Give one like kitchen.lan or 192.168.1.20.", USAGE
        )
    return name.lower()


def _own_names() -> list[str]:
    """Return this machine's name as networks tell it, and its address on the network, as far as it has one."""
    own = platform.node().lower().partition(".")[0] or "localhost"
    found = [f"{own}.local", own, "localhost", "127.0.0.1"]
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        asked.connect(("192.0.2.1", 9))  # RFC 5737: nobody; no packet is sent, the way out is looked up
        found.insert(1, asked.getsockname()[0])
    return list(dict.fromkeys(found))
