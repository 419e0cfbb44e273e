"""Two kitchens on one machine, at two ports: a browser sends both the same cookies, and neither disturbs the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.web.conftest import NOON, PASSPHRASE, PEOPLE, Clock
from tests.web.hands import Hands
from tests.web.small_content import CONTENT
from trainer.actions import enrolling, signing_in
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import LOCAL, NewEntry
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings
from trainer.web.app import create_app


@pytest.fixture
def other(tmp_path: Path, clock: Clock) -> Iterator[Flask]:
    """Return the app of another kitchen on the same machine, with the same manager."""
    file = KitchenFile.create(tmp_path / "other", Settings("", "Other Kitchen"))
    k = Kitchen(file, CONTENT)
    file.people.add(PEOPLE["cleo"][0])
    file.book.append(NewEntry("cook_joined", NOON, "cleo", "cleo", {"roles": ["manager"]}, "join"))
    signing_in.set_secret(k, person="cleo", secret=PASSPHRASE)
    yield create_app(k, clock=clock)
    file.close()


def enrol(app: Flask, browser: FlaskClient | None) -> FlaskClient:
    """Enrol a device in a kitchen as its manager does; *browser* brings the cookies of the kitchen before."""
    client = app.test_client()
    if browser is not None:
        client._cookies = browser._cookies
    hands = Hands(client)
    invited = enrolling.invite_device(app.extensions["kitchen"], by=LOCAL, now=NOON)
    assert isinstance(invited, enrolling.Invited)
    hands.open("/device")
    page = hands.press("Enrol this device", {"Code, 8 figures": invited.code, "A name for this device": "Tablet"})
    assert page.path == "/names", page.work
    return client


def test_a_tablet_enrolled_in_one_kitchen_stays_enrolled_in_the_other(app: Flask, other: Flask) -> None:
    """One browser, one host: each kitchen's cookies have the kitchen in their names (RFC 6265, section 8.5)."""
    first = enrol(app, None)
    second = enrol(other, first)
    assert Hands(first).open("/names").path == "/names"
    assert Hands(second).open("/names").path == "/names"


def with_former_cookies(app: Flask, ana: Hands, named: Callable[[str], str]) -> FlaskClient:
    """Return a browser that holds Ana's cookies under the names an earlier program gave them."""
    client = app.test_client()
    for name in ("device", "session"):
        found = ana.client.get_cookie(named(name))
        assert found is not None
        client.set_cookie(name, found.value)
    return client


def test_an_update_of_the_program_signs_nobody_out(app: Flask, ana: Hands, named: Callable[[str], str]) -> None:
    """Cookies of the former names count once more, and are handed out under the kitchen's own."""
    client = with_former_cookies(app, ana, named)
    hands = Hands(client)
    assert hands.open("/rail").path == "/rail"
    assert all(client.get_cookie(named(name)) for name in ("device", "session"))
    assert not any(client.get_cookie(name) for name in ("device", "session"))
    assert hands.open("/rail").path == "/rail"


def test_a_former_cookie_of_another_kitchen_is_left_to_it(
    app: Flask, ana: Hands, other: Flask, named: Callable[[str], str]
) -> None:
    """The other kitchen cannot use it, and does not take it away."""
    found = ana.client.get_cookie(named("device"))
    assert found is not None
    client = other.test_client()
    client.set_cookie("device", found.value)
    assert Hands(client).open("/names").path != "/names"
    kept = client.get_cookie("device")
    assert kept is not None
    assert kept.value == found.value


def test_signing_out_takes_the_former_cookie_back_too(app: Flask, ana: Hands, named: Callable[[str], str]) -> None:
    """Signed out is signed out, under whatever name the session was kept."""
    client = with_former_cookies(app, ana, named)
    hands = Hands(client)
    hands.open("/rail")
    hands.press("Sign out")
    assert not client.get_cookie("session")
    assert not client.get_cookie(named("session"))
    assert hands.open("/rail").path == "/names"
