"""The server under the pages, with limits: strangers can neither silence it nor make it read what they like.

A connection has ten seconds for the head of a request, two minutes for its body, a minute between two requests. Where
there are many, those that wait longest for the rest of a request make room: a page goes before a silence. A body is
judged by its head, before it is read, and against what this very request may send (see `trainer.web.body_limits`).
"""

from __future__ import annotations

import ssl
import time
from collections.abc import Callable, Mapping
from contextlib import suppress
from threading import Lock
from typing import Any

from flask import Flask
from waitress.adjustments import Adjustments
from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser
from waitress.server import MultiSocketServer, TcpWSGIServer
from waitress.task import ThreadedTaskDispatcher
from waitress.wasyncore import close_all

CROWDED = 100  # connections from which on those that send nothing make room
HEAD_SECONDS, BODY_SECONDS, IDLE_SECONDS = 10, 120, 60
SETTINGS = {
    "threads": 8,
    "ident": None,
    "connection_limit": 400,
    "backlog": 512,
    "asyncore_use_poll": True,  # the other way, select, ends at 1,024 connections
    "channel_timeout": IDLE_SECONDS,
    "cleanup_interval": 5,
    "max_request_header_size": 32_768,
    "max_request_body_size": 1_000_000,
    "recv_bytes": 32_768,  # more than a record of TLS, so that none of it waits where poll cannot see it
}
BodyLimit = Callable[[Mapping[str, str]], int]
"""How many bytes a request's body may have, by its headers (as the server keeps them: CONTENT_LENGTH, COOKIE)."""


def server_for(app: Flask, host: str, port: int, encryption: ssl.SSLContext | None = None) -> Any:  # noqa: ANN401
    """Return a server for an app, listening, over TLS where *encryption* is given; OSError where the port is taken."""
    scheme = "http" if encryption is None else "https"
    settings = Adjustments(host=host, port=port, url_scheme=scheme, **SETTINGS)
    settings.body_limit = app.extensions.get("body_limit")
    settings.encryption = encryption
    dispatcher = ThreadedTaskDispatcher()
    dispatcher.set_thread_count(settings.threads)
    lines: dict[int, Any] = {}
    try:
        servers = [
            RoomyServer(app, lines, dispatcher=dispatcher, adj=settings, sockinfo=address)
            for address in settings.listen
        ]
    except OSError:
        close_all(lines)
        dispatcher.shutdown()
        raise
    if len(servers) == 1:
        return servers[0]
    places = [(each.effective_host, each.effective_port) for each in servers]
    return MultiSocketServer(lines, settings, places, dispatcher, servers[0].log_info)


class _WithBodyLimit:
    """The server's settings with another limit on the body of one request."""

    def __init__(self, settings: Any, most: int) -> None:  # noqa: ANN401 - waitress has no types
        self._settings = settings
        self.max_request_body_size = most + 1  # the first size that is refused

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 - any setting
        """Return a setting as the server has it."""
        return getattr(self._settings, name)


class MeasuredRequest(HTTPRequestParser):  # type: ignore[misc]
    """A request whose body is judged by its head."""

    def parse_header(self, header_plus: bytes) -> None:
        """Read the head, then set how long the body may be."""
        super().parse_header(header_plus)
        limit: BodyLimit | None = self.adj.body_limit
        if limit is not None:
            self.adj: Any = _WithBodyLimit(self.adj, limit(self.headers))


class WatchedChannel(HTTPChannel):  # type: ignore[misc]
    """A connection that knows since when it has been waiting for the rest of a request."""

    parser_class = MeasuredRequest
    begun_at = 0.0

    def received(self, data: bytes) -> bool:
        """Take what came; a request that begins with it is waited for from now on."""
        if self.request is None:
            self.begun_at = time.monotonic()
        return bool(super().received(data))

    def is_too_slow(self, now: float) -> bool:
        """Return whether the request under way takes too long to come."""
        request = self.request
        if request is None:
            return False
        allowed = BODY_SECONDS if request.headers_finished else HEAD_SECONDS
        return bool(now - self.begun_at > allowed)

    def waits_since(self) -> float:
        """Return since when nothing whole has come here: the start of the request under way, or the last answer."""
        return self.begun_at if self.request is not None else self.last_heard

    def __init__(self, *args: Any, **settings: Any) -> None:  # noqa: ANN401 - waitress has no types
        self.last_heard = time.monotonic()
        super().__init__(*args, **settings)

    def service(self) -> None:
        """Answer one request; from then on the next is waited for."""
        super().service()
        self.last_heard = time.monotonic()


class _NotYet(Exception):
    """TLS has to hear or say more before there is anything to read."""


class EncryptedChannel(WatchedChannel):
    """A connection over TLS; the handshake goes along with the first reads, so that a slow one keeps nobody waiting.

    What a line over TLS hears and says is never done at the same time (OpenSSL asks for that).
    """

    def __init__(self, *args: Any, **settings: Any) -> None:  # noqa: ANN401 - as waitress has it
        self.one_at_a_time = Lock()
        super().__init__(*args, **settings)

    def recv(self, size: int) -> bytes:
        """Return what came, decrypted; a line that breaks the rules, or trusts us not, is closed."""
        try:
            with self.one_at_a_time:
                return bytes(super().recv(size))
        except (ssl.SSLWantReadError, ssl.SSLWantWriteError) as waiting:
            raise _NotYet from waiting
        except ssl.SSLError:
            self.handle_close()
            return b""

    def handle_read(self) -> None:
        """Read what came; what TLS keeps to itself is nothing yet."""
        with suppress(_NotYet):
            super().handle_read()

    def send(self, data: bytes, do_close: bool = True) -> int:
        """Send what the line takes now, and return how much that was."""
        try:
            with self.one_at_a_time:
                return int(super().send(data, do_close))
        except (ssl.SSLWantReadError, ssl.SSLWantWriteError):
            return 0


class RoomyServer(TcpWSGIServer):  # type: ignore[misc]
    """A server that closes slow connections before it keeps anybody waiting."""

    channel_class = WatchedChannel

    def accept(self) -> Any:  # noqa: ANN401 - as waitress has it
        """Return the next connection and whose it is; over TLS where the server has a certificate."""
        found = super().accept()
        encryption: ssl.SSLContext | None = self.adj.encryption
        if found is None or encryption is None:
            return found
        self.channel_class = EncryptedChannel
        line, whose = found
        line.setblocking(False)
        return encryption.wrap_socket(line, server_side=True, do_handshake_on_connect=False), whose

    def maintenance(self, now: float) -> None:
        """Close what was idle too long, and what takes too long to send a request."""
        super().maintenance(now)
        moment = time.monotonic()
        for each in list(self.active_channels.values()):
            if each.is_too_slow(moment):
                each.will_close = True

    def handle_accept(self) -> None:
        """Take a new connection; where there are many, close those that have waited longest for a whole request."""
        super().handle_accept()
        open_now = [each for each in self.active_channels.values() if not each.will_close]
        if len(open_now) <= CROWDED:
            return
        waiting = [each for each in open_now if not each.requests and not each.total_outbufs_len]
        for each in sorted(waiting, key=WatchedChannel.waits_since)[: len(open_now) - CROWDED]:
            each.will_close = True
