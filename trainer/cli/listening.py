"""Serves an app at a free port and says where, until it is stopped."""

from __future__ import annotations

from collections.abc import Sequence

import click
from flask import Flask

from trainer.cli.exits import USAGE, CommandError


def listen(app: Flask, host: str, ports: Sequence[int], what: str) -> None:
    """Serve an app at the first of the ports that is free; with none free, the command ends and says so."""
    from trainer.cli.server import server_for

    for port in ports:
        try:
            server = server_for(app, host, port)
        except OSError:
            continue
        click.echo(f"{what} at http://{host}:{port}  (stop with Ctrl-C)")
        server.run()
        return
    taken = f"Port {ports[0]} is" if len(ports) == 1 else f"Ports {ports[0]} to {ports[-1]} are"
    raise CommandError(f"{taken} taken. Name another one with --port.", USAGE)
