"""A real server on this machine's own address, beset by connections that never finish and bodies that never end."""

from __future__ import annotations

import http.client
import socket
import time
from collections.abc import Iterator
from contextlib import ExitStack, closing
from pathlib import Path

import pytest

from tests.own_server import answering
from trainer.cli import server as own_server
from trainer.cli.opening import open_here
from trainer.web.app import create_app

HOST = "127.0.0.1"


@pytest.fixture
def port(demo: Path) -> Iterator[int]:
    """Serve the demo kitchen at a free port of this machine."""
    kitchen = open_here(demo)
    with answering(create_app(kitchen), HOST) as port:
        yield port
    kitchen.file.close()


def answer_of(port: int) -> tuple[int, float]:
    """Return the status of the first page, and how long it took."""
    begun = time.perf_counter()
    with closing(http.client.HTTPConnection(HOST, port, timeout=20)) as line:
        line.request("GET", "/")
        return line.getresponse().status, time.perf_counter() - begun


@pytest.mark.parametrize("sent", [b"", b"GET / HTTP/1.1\r\nHost: local"], ids=["nothing", "half a head"])
def test_half_open_connections_do_not_silence_the_server(port: int, sent: bytes) -> None:
    """A hundred and twenty of them stay open; a page comes all the same, and the oldest have made room for it."""
    assert answer_of(port)[0] == 200
    with ExitStack() as lines:
        held = []
        for _ in range(120):
            line = lines.enter_context(closing(socket.create_connection((HOST, port), timeout=5)))
            line.sendall(sent)
            held.append(line)
        status, seconds = answer_of(port)
        print(f"{len(held)} half-open connections, {sent!r}: {status} in {seconds:.2f} s")
        assert status == 200
        assert seconds < 15, "as long as a silent server takes to give up"


def sent_until_cut(port: int, header: bytes, piece: bytes) -> int:
    """Return how many bytes of a body of 150 MB left a stranger's machine before the server cut the line."""
    sent = 0
    with closing(socket.create_connection((HOST, port), timeout=10)) as line:
        line.sendall(b"POST /device HTTP/1.1\r\nHost: 127.0.0.1\r\n" + header + b"\r\n\r\n")
        try:
            while sent < 150_000_000:
                line.sendall(piece)
                sent += len(piece)
        except OSError:
            pass
    return sent


def test_a_body_far_too_long_is_cut_off_by_its_head(port: int) -> None:
    """Of 150 MB from a stranger less than 8 MB leave his machine (most of that waits in buffers on the way)."""
    sent = sent_until_cut(port, b"Content-Length: 150000000", bytes(65_536))
    print(f"sent {sent} bytes of 150,000,000")
    assert sent < 8_000_000
    assert answer_of(port)[0] == 200


def test_a_body_without_a_length_is_cut_off_too(port: int) -> None:
    """Sent in chunks, it is measured as it comes."""
    sent = sent_until_cut(port, b"Transfer-Encoding: chunked", b"10000\r\n" + bytes(65_536) + b"\r\n")
    assert sent < 8_000_000


def test_a_form_still_arrives(port: int) -> None:
    """A small body is read and answered."""
    with closing(http.client.HTTPConnection(HOST, port, timeout=20)) as line:
        line.request("POST", "/leave", "key=1", {"Content-Type": "application/x-www-form-urlencoded"})
        assert line.getresponse().status == 303


def test_who_takes_too_long_to_send_a_request_is_closed(port: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """A head sent a letter at a time keeps no line for ever (ten seconds; here none at all)."""
    monkeypatch.setattr(own_server, "HEAD_SECONDS", 0)
    with closing(socket.create_connection((HOST, port), timeout=20)) as line:
        line.sendall(b"GET / HT")
        begun = time.perf_counter()
        assert line.recv(1) == b""
        assert time.perf_counter() - begun < 15
