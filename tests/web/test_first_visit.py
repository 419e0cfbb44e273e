"""A phone's first visit in plain HTTP: the certificate, what to do with it, and the way on."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from flask.testing import FlaskClient

from trainer import clock
from trainer.actions.open_kitchen import Kitchen
from trainer.store.encryption import HouseCertificate, make_certificate
from trainer.web.first_visit.app import create_first_visit


@pytest.fixture
def made(tmp_path: Path) -> HouseCertificate:
    """Return the certificate of a kitchen."""
    return make_certificate(tmp_path, "The Querns", ["kitchen.lan"], clock.now())


@pytest.fixture
def visitor(kitchen: Kitchen, made: HouseCertificate) -> FlaskClient:
    """Return a phone that comes for the first time."""
    app = create_first_visit(kitchen, made)
    app.config["OVER_HTTPS"] = "https://kitchen.lan:8443/"
    return app.test_client()


def test_it_says_what_to_do_in_the_phones_language(visitor: FlaskClient, made: HouseCertificate) -> None:
    """The browser's language, or the one that is asked for; with the fingerprint and the way on."""
    for language in ("en-US", "es-MX"):
        page = visitor.get("/", headers={"Accept-Language": language}, base_url="http://kitchen.lan")
        assert page.status_code == 200
        soup = BeautifulSoup(page.text, "lxml")
        assert soup.html is not None
        assert soup.html["lang"] == language[:2]
        assert made.fingerprint in soup.text
        assert soup.find("a", href="https://kitchen.lan:8443/")


def test_the_file_is_the_authority_and_no_key(visitor: FlaskClient, made: HouseCertificate) -> None:
    """What a phone takes in is public."""
    taken = visitor.get("/kitchen.crt", base_url="http://kitchen.lan")
    assert taken.data == made.authority.read_bytes()
    assert taken.mimetype == "application/x-x509-ca-cert"
    assert b"PRIVATE" not in taken.data


def test_an_old_address_leads_to_the_same_page_over_https(visitor: FlaskClient) -> None:
    """A card that was printed before still opens."""
    led = visitor.get("/go/ab12", base_url="http://kitchen.lan")
    assert (led.status_code, led.location) == (307, "https://kitchen.lan:8443/go/ab12")


def test_a_name_that_is_not_the_kitchens_is_not_answered(visitor: FlaskClient) -> None:
    """Nobody leads a phone to another authority by a name of theirs."""
    assert visitor.get("/", base_url="http://evil.example").status_code == 400
