"""Making a kitchen, and serving it."""

from __future__ import annotations

import platform
import shutil
from contextlib import closing
from pathlib import Path
from threading import Event, Thread
from typing import Literal, TextIO
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.outcome import Refused
from trainer.cli.device import invite_first_device
from trainer.cli.exits import CHECK_FAILED, REFUSED, CommandError
from trainer.cli.opening import draft_beside, open_here
from trainer.cli.safekeeping import copy_every_night, save_what_is_left
from trainer.store.backup import backups_of
from trainer.store.catalogues import ENGLISH, languages
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import KitchenProblem
from trainer.store.settings import Settings

PORT, ENCRYPTED_PORT, PORTS_TRIED = 8070, 8443, 20


@click.command("demo")
@click.option("--anew", is_flag=True, help="Throw an old demo kitchen away and make it anew.")
@click.pass_obj
def demo_command(folder: Path, anew: bool) -> None:
    """Make the demo kitchen, with eighteen months of record. A demo kitchen that is there is kept.

    \b
    Example:
      trainer demo
    """
    from trainer.demo.build import QUERNSTONE, build

    if (folder / "kitchen.db").exists():
        if not _is_demo(folder):
            raise CommandError(
                f"{folder} holds a kitchen that is no demo. Name another folder with --kitchen.", REFUSED
            )
        if not anew:
            click.echo(f"The demo kitchen is in {folder} already. Next: trainer serve")
            return
        shutil.rmtree(folder)
    kitchen = build(folder, draft_beside(folder, QUERNSTONE), clock.now())
    entries, _ = kitchen.file.book.end()
    kitchen.file.close()
    click.echo(f"Made {QUERNSTONE.name} in {folder}: {entries} entries in its book. Next: trainer serve")


def _is_demo(folder: Path) -> bool:
    """Return whether the kitchen in a folder is a demo; one that cannot be opened ends the command."""
    try:
        with closing(KitchenFile.open(folder)) as file:
            return file.settings.is_demo
    except KitchenProblem as problem:
        raise CommandError(str(problem), CHECK_FAILED) from problem


@click.command("new")
@click.option("--name", prompt="The kitchen's name", help="The kitchen's name.")
@click.option("--manager", prompt="The first manager's name", help="The first manager's name.")
@click.option("--timezone", prompt="The time zone, for example Europe/Rome", help="An IANA time zone.")
@click.option(
    "--units", type=click.Choice(["us", "metric"]), default="us", show_default=True, help="Which units first."
)
@click.option("--decimal-mark", type=click.Choice([".", ","]), default=".", show_default=True)
@click.option(
    "--language",
    type=click.Choice(languages()),
    default="en",
    show_default=True,
    help="The language of whoever has not chosen one.",
)
@click.option(
    "--passphrase-from",
    type=click.File(encoding="utf-8"),
    help="A file with the manager's passphrase, or - for standard input; asked for if left out.",
)
@click.pass_obj
def new_command(
    folder: Path,
    name: str,
    manager: str,
    timezone: str,
    units: str,
    decimal_mark: str,
    language: str,
    passphrase_from: TextIO | None,
) -> None:
    """Make an empty kitchen and its first manager.

    \b
    Example:
      trainer --kitchen our-kitchen new --name "Our kitchen" --manager "Ida Brandt" --timezone Europe/Rome
    """
    from trainer.actions.opening import open_new_kitchen
    from trainer.actions.recovering import first_sheet
    from trainer.cli.recover import print_sheet

    secret = passphrase_from.read().rstrip("\r\n") if passphrase_from else _asked_passphrase()
    first: Literal["us", "metric"] = "us" if units == "us" else "metric"
    mark: Literal[".", ","] = "." if decimal_mark == "." else ","
    settings = Settings("", name, timezone, language, units_first=first, decimal_mark=mark)
    outcome = open_new_kitchen(
        folder, settings, draft_beside(folder, settings), (manager, secret), clock.now(), str(uuid4())
    )
    if isinstance(outcome, Refused):
        raise CommandError(outcome.reason, REFUSED)
    kitchen = open_here(folder)
    print_sheet(first_sheet(kitchen, clock.now()), name)
    kitchen.file.close()
    click.echo(f"Made {name} in {folder}. Next: take in the roster with trainer roster FILE, then: trainer serve")


def _asked_passphrase() -> str:
    """Return the passphrase typed twice; never taken from a flag or the environment, where others could read it."""
    secret: str = click.prompt(
        "The manager's passphrase (15 characters or more)", hide_input=True, confirmation_prompt=True
    )
    return secret


@click.command("serve")
@click.option("--host", default="127.0.0.1", show_default=True, help="The address to listen at.")
@click.option("--port", type=click.IntRange(1, 65535), help=f"The port; {PORT} or the next free one if left out.")
@click.option("--https", is_flag=True, help="Cookies keep to HTTPS: set it where a server in front speaks HTTPS.")
@click.option(
    "--name",
    "names",
    multiple=True,
    help="A name people open the kitchen by, besides this machine's own and its address; may be given again.",
)
@click.option(
    "--backups",
    "into",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="Where a copy goes every night; beside the kitchen's folder if left out.",
)
@click.option(
    "--keep", type=click.IntRange(min=1), default=30, show_default=True, help="How many nightly copies are kept."
)
@click.pass_obj
def serve_command(
    folder: Path, host: str, port: int | None, https: bool, names: tuple[str, ...], into: Path | None, keep: int
) -> None:
    """Serve the pages and print their address. Stop it with Ctrl-C.

    The kitchen is copied every night after 04:00, as trainer backup does; a demo kitchen is not. Where trainer https
    has made a certificate, pages come over HTTPS, and in plain HTTP only the one that makes a phone trust it.

    \b
    Example:
      trainer serve --port 8080
      trainer serve --https --name kitchen.example
    """
    from trainer.cli.listening import listen, listen_encrypted
    from trainer.store.encryption import house_certificate, renew_in_time
    from trainer.web.app import create_app
    from trainer.web.first_visit.app import create_first_visit
    from trainer.web.own_names import names_of

    ports = [port] if port else range(PORT, PORT + PORTS_TRIED)
    kitchen = open_here(folder)
    kitchen.content_for(ENGLISH, kitchen.file.settings.units_first)  # so that the thread asks the database for nothing
    Thread(target=kitchen.read_every_telling, daemon=True).start()
    kitchen.file.check_end()
    Thread(target=kitchen.file.check_while_open, daemon=True).start()
    Thread(target=save_what_is_left, args=(kitchen.file,), daemon=True).start()
    if not kitchen.file.settings.is_demo:
        nightly = (kitchen.file, into or backups_of(folder), keep, Event())
        Thread(target=copy_every_night, args=nightly, daemon=True).start()
    invite_first_device(kitchen)
    own = (host, *names_of(platform.node()), *names)
    certificate = house_certificate(folder)
    if certificate is None:
        listen(create_app(kitchen, steady=clock.steady, https=https, names=own), host, ports, f"Serving {folder}")
        return
    renew_in_time(certificate, clock.now())
    all_names = (*own, *certificate.names)
    app = create_app(kitchen, steady=clock.steady, https=True, names=all_names)
    encrypted = [port] if port else range(ENCRYPTED_PORT, ENCRYPTED_PORT + PORTS_TRIED)
    plain = range(PORT, PORT + PORTS_TRIED)
    listen_encrypted(app, create_first_visit(kitchen, certificate), certificate, host, (encrypted, plain))
