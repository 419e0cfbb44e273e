"""The kitchen's own certificate: what trusts it, what it may speak for, and what OpenSSL says to that."""

from __future__ import annotations

import http.client
import socket
import ssl
import threading
from collections.abc import Iterator
from contextlib import ExitStack, closing
from datetime import timedelta
from pathlib import Path

import pytest
from flask import Flask, request

from tests.own_server import answering
from trainer import clock
from trainer.store import encryption
from trainer.store.encryption import HouseCertificate, house_certificate, make_certificate, renew_in_time
from trainer.store.problems import NotAKitchen

NOW = clock.now()
HOST = "127.0.0.1"
NAMES = ["kitchen.lan", HOST]


@pytest.fixture
def made(tmp_path: Path) -> HouseCertificate:
    """Return a certificate for a name and an address."""
    return make_certificate(tmp_path, "The Querns", NAMES, NOW)


def shown_by(made: HouseCertificate) -> ssl.SSLContext:
    """Return what a server shows with it."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(made.server, made.server_key)
    return context


@pytest.fixture
def port(made: HouseCertificate) -> Iterator[int]:
    """Serve an app that tells how much it was sent, over TLS."""
    app = Flask("told")
    app.add_url_rule("/", "long", lambda: "x" * 300_000)
    app.add_url_rule("/sent", "sent", lambda: str(len(request.get_data())), methods=["POST"])
    app.extensions["body_limit"] = lambda headers: 1_000_000
    with answering(app, HOST, shown_by(made)) as port:
        yield port


def line_to(port: int, made: HouseCertificate, name: str) -> ssl.SSLSocket:
    """Return a line to the server of a client that trusts the authority and asks for a name."""
    trusts = ssl.create_default_context(cafile=str(made.authority))
    return trusts.wrap_socket(socket.create_connection((HOST, port), timeout=20), server_hostname=name)


def asked(port: int, made: HouseCertificate, name: str, body: bytes | None = None) -> bytes:
    """Return what the server answers under a name."""
    with closing(http.client.HTTPConnection(name, port)) as line:
        line.sock = line_to(port, made, name)
        line.request("GET" if body is None else "POST", "/" if body is None else "/sent", body)
        return line.getresponse().read()


@pytest.mark.parametrize("name", NAMES)
def test_who_trusts_the_authority_reads_pages_by_each_name(port: int, made: HouseCertificate, name: str) -> None:
    """By its name and by its address, a page longer than many records of TLS comes whole."""
    assert len(asked(port, made, name)) == 300_000


def test_a_long_body_comes_whole(port: int, made: HouseCertificate) -> None:
    """What a browser sends in records that do not end where reads do is read to its last byte."""
    assert asked(port, made, NAMES[0], b"y" * 654_321) == b"654321"


def test_who_trusts_nobody_yet_is_refused_and_the_server_goes_on(port: int, made: HouseCertificate) -> None:
    """A browser without the authority closes the line; the next one reads its page."""
    strict = ssl.create_default_context()
    with pytest.raises(ssl.SSLCertVerificationError), closing(socket.create_connection((HOST, port))) as line:
        strict.wrap_socket(line, server_hostname=NAMES[0])
    assert asked(port, made, NAMES[0])


@pytest.mark.parametrize("sent", [b"", b"GET / HTTP/1.1\r\n\r\n"], ids=["silence", "plain HTTP"])
def test_lines_that_never_shake_hands_keep_nobody_waiting(port: int, made: HouseCertificate, sent: bytes) -> None:
    """A hundred and twenty of them stay open, and a page comes all the same."""
    with ExitStack() as lines:
        for _ in range(120):
            line = lines.enter_context(closing(socket.create_connection((HOST, port), timeout=5)))
            line.sendall(sent)
        assert asked(port, made, NAMES[0])


def test_the_authority_can_speak_for_no_other_name(made: HouseCertificate) -> None:
    """Its key signs a certificate for a bank, and OpenSSL refuses it: RFC 5280, section 4.2.1.10."""
    encryption._certify(made, ["bank.example"], NOW)
    here, there = socket.socketpair()
    with closing(here), closing(there):
        server = threading.Thread(target=_shake_hands, args=(shown_by(made), there), daemon=True)
        server.start()
        trusts = ssl.create_default_context(cafile=str(made.authority))
        with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
            trusts.wrap_socket(here, server_hostname="bank.example")
        here.close()
        server.join(5)


def _shake_hands(context: ssl.SSLContext, line: socket.socket) -> None:
    try:
        context.wrap_socket(line, server_side=True).close()
    except (ssl.SSLError, OSError):
        line.close()


def test_a_certificate_is_renewed_in_its_last_month_and_the_authority_stays(made: HouseCertificate) -> None:
    """397 days, renewed 30 days before: phones that trust the authority notice nothing."""
    before, authority = made.server.read_bytes(), made.authority.read_bytes()
    assert not renew_in_time(made, NOW + timedelta(days=366))
    assert made.server.read_bytes() == before
    assert renew_in_time(made, NOW + timedelta(days=368))
    assert made.server.read_bytes() != before
    assert made.authority.read_bytes() == authority
    assert made.names == tuple(NAMES)


def test_keys_are_for_their_owner_alone(made: HouseCertificate) -> None:
    """A key that others on the machine can read is refused, with the way to mend it."""
    made.server_key.chmod(0o644)
    with pytest.raises(NotAKitchen, match="chmod 600"):
        renew_in_time(made, NOW)


def test_a_kitchen_without_a_certificate_has_none(tmp_path: Path) -> None:
    """Nothing is made by looking."""
    assert house_certificate(tmp_path) is None
