"""What the tests of signing in and of the roster share: a small kitchen with a manager, and moments."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from trainer.actions.enrolling import Enrolled, enrol_device
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.actions.roster import apply_import, first_manager, plan_import
from trainer.actions.signing_in import Done, NewSession, set_secret, sign_in
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Content, LocalCode, Station
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings

NOON = datetime(2026, 11, 25, 17, tzinfo=UTC)  # noon in New York
SECOND = timedelta(seconds=1)
MINUTE = timedelta(minutes=1)
PIN = "70281936"
ROSTER = "number,name,birth date,roles\r\n001,Ottilie Brandvold,,manager\r\n002,Ana Roux,1990-03-04,cook\r\n"


def small_kitchen(folder: Path, *, is_demo: bool = False) -> Kitchen:
    """Return a kitchen with two stations and nobody in it."""
    stations = {
        name: Station(name, title, (), (), None, "", 0) for name, title in (("grill", "Grill"), ("saute", "Sauté"))
    }
    content = Content({}, stations, LocalCode("none", "None", "1", {}), {}, {})
    file = KitchenFile.create(folder, Settings("", "Quernstone", "America/New_York", is_demo=is_demo))
    return Kitchen(file, content)


def with_manager(folder: Path) -> tuple[Kitchen, str]:
    """Return a kitchen and its first manager, who has the PIN."""
    k = small_kitchen(folder)
    outcome = first_manager(k, name="Ottilie Brandvold", now=NOON - timedelta(days=1), key="first")
    assert isinstance(outcome, Saved)
    manager = outcome.entry.cook
    assert isinstance(set_secret(k, person=manager, secret=PIN), Done)
    return k, manager


def staffed(folder: Path) -> tuple[Kitchen, str, str]:
    """Return a kitchen with a manager and one cook, born on 4 March 1990, who has the PIN."""
    k, manager = with_manager(folder)
    apply_import(k, plan=plan_import(k, ROSTER.encode(), now=NOON), by=manager, now=NOON - MINUTE)
    ana = id_of(k, "002")
    assert isinstance(set_secret(k, person=ana, secret=PIN), Done)
    return k, manager, ana


def id_of(k: Kitchen, number: str) -> str:
    """Return the id of the person with a staff number."""
    return next(one.person.id for one in k.file.people.listed() if one.number == number)


def tablet(k: Kitchen, manager: str, name: str = "Tablet") -> str:
    """Return the id of a device the manager enrolled."""
    enrolled = enrol_device(k, name=name, by=manager, now=NOON)
    assert isinstance(enrolled, Enrolled)
    return enrolled.device.id


def signed_in(k: Kitchen, device: str, person: str, at: datetime = NOON) -> str:
    """Return the token of a session opened with the PIN."""
    outcome = sign_in(k, device=device, person=person, secret=PIN, now=at)
    assert isinstance(outcome, NewSession)
    return outcome.token


def person_of(k: Kitchen, number: str) -> tuple[Person, date | None]:
    """Return a person and their first day, by staff number."""
    return next((one.person, one.started) for one in k.file.people.listed() if one.number == number)
