"""Serves an app at a free port and says where, until it is stopped."""

from __future__ import annotations

import ssl
from collections.abc import Sequence
from threading import Thread
from typing import Any

import click
from flask import Flask

from trainer.cli.exits import USAGE, CommandError
from trainer.store.encryption import HouseCertificate


def listen(app: Flask, host: str, ports: Sequence[int], what: str) -> None:
    """Serve an app at the first of the ports that is free; with none free, the command ends and says so."""
    server, port = _server_at(app, host, ports)
    click.echo(f"{what} at http://{host}:{port}  (stop with Ctrl-C)")
    server.run()


def listen_encrypted(
    app: Flask, first_visit: Flask, certificate: HouseCertificate, host: str, ports: tuple[Sequence[int], Sequence[int]]
) -> None:
    """Serve an app over HTTPS, and in plain HTTP the page by which a phone learns to trust it.

    *ports* are the ones to try for each.
    """
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.minimum_version = ssl.TLSVersion.TLSv1_2
    context.load_cert_chain(certificate.server, certificate.server_key)
    server, port = _server_at(app, host, ports[0], context)
    plain, plain_port = _server_at(first_visit, host, ports[1])
    name = certificate.names[0]
    app.config["FIRST_VISIT"] = f"http://{name}:{plain_port}/"
    first_visit.config["OVER_HTTPS"] = f"https://{name}:{port}/"
    Thread(target=plain.run, daemon=True).start()
    click.echo(f"Serving at https://{name}:{port}  (stop with Ctrl-C)")
    click.echo(f"A phone's first visit: http://{name}:{plain_port}")
    server.run()


def _server_at(
    app: Flask, host: str, ports: Sequence[int], encryption: ssl.SSLContext | None = None
) -> tuple[Any, int]:
    """Return a server at the first of the ports that is free, and that port."""
    from trainer.cli.server import server_for

    for port in ports:
        try:
            return server_for(app, host, port, encryption), port
        except OSError:
            continue
    taken = f"Port {ports[0]} is" if len(ports) == 1 else f"Ports {ports[0]} to {ports[-1]} are"
    raise CommandError(f"{taken} taken. Name another one with --port.", USAGE)
