"""An invented kitchen with a cook, an assessor and a manager, each with a browser of their own."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from flask import Flask

from tests.web.hands import Hands
from tests.web.small_content import CONTENT
from trainer.actions import signing_in
from trainer.actions.authorizing import give_with_role
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import NewEntry
from trainer.kitchen.progress import Person
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings
from trainer.web import guard
from trainer.web.app import create_app

NOON = datetime(2026, 11, 3, 17, 0, tzinfo=UTC)  # noon in New York
PIN, PASSPHRASE = "70281936", "blue apron on the hook"
PEOPLE = {
    "ana": (Person("ana", "Ana Pardo", date(2000, 2, 29)), ["cook"], PIN),
    "dev": (Person("dev", "Dev Karim", date(2001, 5, 1)), ["cook"], PIN),
    "bo": (Person("bo", "Bo Lind", date(1990, 7, 1)), ["cook", "assessor"], PIN),
    "cleo": (Person("cleo", "Cleo Mbeki", date(1985, 1, 1)), ["manager"], PASSPHRASE),
}


class Clock:
    """A clock the test sets."""

    def __init__(self) -> None:
        """Start at noon."""
        self.at = NOON

    def __call__(self) -> datetime:
        """Return the moment it shows."""
        return self.at

    def pass_by(self, **span: float) -> None:
        """Let time pass."""
        self.at += timedelta(**span)


@pytest.fixture(scope="session")
def prepared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the kitchen made once; each test gets a copy."""
    folder = tmp_path_factory.mktemp("prepared") / "kitchen"
    file = KitchenFile.create(folder, Settings("", "Corner Kitchen", timezone="America/New_York"))
    kitchen = Kitchen(file, CONTENT)
    for who, (person, roles, secret) in PEOPLE.items():
        file.people.add(person)
        joined = NOON - timedelta(days=90)
        entry = file.book.append(NewEntry("cook_joined", joined, who, "cleo", {"roles": roles}, f"join-{who}"))
        give_with_role(kitchen, entry, (), joined)
        outcome = signing_in.set_secret(kitchen, person=who, secret=secret)
        assert isinstance(outcome, signing_in.Done), outcome
    file.secret_key()
    file.close()
    return folder


@pytest.fixture
def kitchen(prepared: Path, tmp_path: Path) -> Iterator[Kitchen]:
    """Return the invented kitchen, open, in a folder of this test's own."""
    folder = tmp_path / "kitchen"
    shutil.copytree(prepared, folder)
    file = KitchenFile.open(folder)
    yield Kitchen(file, CONTENT)
    file.close()


@pytest.fixture
def named(kitchen: Kitchen) -> Callable[[str], str]:
    """Return the whole name of a cookie of this kitchen."""
    return lambda name: f"{name}-{kitchen.file.settings.kitchen[:8]}"


@pytest.fixture
def clock() -> Clock:
    """Return a clock the test sets."""
    return Clock()


@pytest.fixture
def app(kitchen: Kitchen, clock: Clock) -> Flask:
    """Return the app over the invented kitchen."""
    made = create_app(kitchen, clock=clock)
    made.testing = True
    made.config["PROPAGATE_EXCEPTIONS"] = False
    return made


@pytest.fixture
def stranger(app: Flask) -> Hands:
    """Return a person with a device nobody enrolled."""
    return Hands(app.test_client())


@pytest.fixture
def at_tablet(app: Flask, kitchen: Kitchen, clock: Clock, named: Callable[[str], str]) -> Callable[[], Hands]:
    """Return a way to sit down at an enrolled device, not signed in."""

    def sit_down() -> Hands:
        _, secret = kitchen.file.devices.enrol("Pass tablet", "cleo", clock())
        client = app.test_client()
        client.set_cookie(named(guard.DEVICE), secret)
        return Hands(client, lambda: clock.pass_by(seconds=1))

    return sit_down


@pytest.fixture
def sign_in(
    at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock, named: Callable[[str], str]
) -> Callable[[str], Hands]:
    """Return a way to get the browser of a person signed in."""

    def signed(person: str) -> Hands:
        hands = at_tablet()
        cookie = hands.client.get_cookie(named(guard.DEVICE))
        assert cookie is not None
        device = kitchen.file.devices.find(cookie.value)
        assert device is not None
        outcome = signing_in.sign_in(kitchen, device=device.id, person=person, secret=PEOPLE[person][2], now=clock())
        assert isinstance(outcome, signing_in.NewSession), outcome
        hands.client.set_cookie(named(guard.SESSION), outcome.token)
        return hands

    return signed


@pytest.fixture
def ana(sign_in: Callable[[str], Hands]) -> Hands:
    """Return Ana, a cook with no history."""
    return sign_in("ana")


@pytest.fixture
def bo(sign_in: Callable[[str], Hands]) -> Hands:
    """Return Bo, a cook and assessor."""
    return sign_in("bo")


@pytest.fixture
def cleo(sign_in: Callable[[str], Hands]) -> Hands:
    """Return Cleo, a manager."""
    return sign_in("cleo")
