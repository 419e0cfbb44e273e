"""A house's own services at the command line: the options of `trainer settings` that name them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

import click

from trainer.actions.house_services import Change, Listing, names_of
from trainer.actions.open_kitchen import Kitchen
from trainer.cli.exits import USAGE, CommandError
from trainer.kitchen.own_services import ServiceWanted
from trainer.kitchen.services import Service
from trainer.messages import translate
from trainer.store.catalogues import languages


def find_service(kitchen: Kitchen, typed: str) -> Service:
    """Return the service that was typed by its id or its name; otherwise stop and list the house's."""
    found = kitchen.services.named(typed)
    if found is None:
        known = translate(kitchen.services.in_words())
        raise CommandError(f"There is no service {typed!r}. There are: {known}.", USAGE)
    return found


def word_of(kitchen: Kitchen, service: str) -> str:
    """Return what the house calls a service."""
    return translate(kitchen.services.word(service))


SERVICE_OPTIONS = ("service", "call", "take_off", "put_back")
OPTIONS = (
    click.option(
        "--service",
        type=(str, str, str),
        multiple=True,
        metavar="NAME OPENS CLOSES",
        help="Add a service with its usual hours; of one that is there, change the hours.",
    ),
    click.option(
        "--call",
        type=(str, str, str),
        multiple=True,
        metavar="SERVICE NAME OTHER",
        help='Call a service so, and in the other language OTHER; "" calls it alike.',
    ),
    click.option("--take-off", multiple=True, metavar="SERVICE", help="Take a service off the list."),
    click.option("--put-back", multiple=True, metavar="SERVICE", help="Put a service back on the list."),
)


def service_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options that name, add, take off and put back services."""
    for option in reversed(OPTIONS):
        command = option(command)
    return command


def changes_asked(
    kitchen: Kitchen,
    service: Sequence[tuple[str, str, str]],
    call: Sequence[tuple[str, str, str]],
    take_off: Sequence[str],
    put_back: Sequence[str],
) -> Iterator[Change]:
    """Yield what the options ask for, in this sequence."""
    own = kitchen.file.settings.language
    other = next(tag for tag in languages() if tag != own)
    for name, opens, closes in service:
        there = kitchen.services.named(name)
        names = tuple(names_of(there).items()) if there else ((own, name),)
        yield ServiceWanted(there.id if there else "", names, opens, closes)
    for typed, name, second in call:
        there = find_service(kitchen, typed)
        yield ServiceWanted(there.id, ((own, name), (other, second)), f"{there.opens:%H:%M}", f"{there.closes:%H:%M}")
    for typed in take_off:
        yield Listing(find_service(kitchen, typed).id, is_offered=False)
    for typed in put_back:
        yield Listing(find_service(kitchen, typed).id, is_offered=True)
