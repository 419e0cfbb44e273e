"""The program's own server at a free port of this machine, for as long as a test talks to it."""

from __future__ import annotations

import ssl
import threading
from collections.abc import Iterator
from contextlib import contextmanager

from flask import Flask

from trainer.cli.server import server_for


@contextmanager
def answering(app: Flask, host: str, encryption: ssl.SSLContext | None = None) -> Iterator[int]:
    """Serve an app, over TLS where *encryption* is given, and give the port; every line is closed afterwards."""
    server = server_for(app, host, 0, encryption)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        yield int(server.effective_port)
    finally:
        lines = list(server._map.values())
        server._map.clear()
        server.pull_trigger()
        thread.join(5)
        server.task_dispatcher.shutdown()
        for each in lines:
            each.close()
