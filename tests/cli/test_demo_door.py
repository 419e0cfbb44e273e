"""The ways into the demo kitchen: whoever is offered can be stepped into, whatever was done to the demo since."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from tests.cli.conftest import NOW
from tests.printed import english
from trainer.actions import enrolling, roster, signing_in
from trainer.actions.demo_door import DEMO_PIN, Door, doors
from trainer.actions.open_kitchen import Kitchen
from trainer.cli.opening import open_here

TODAY = NOW.date()
NEW_HIRE = "number,name,birth date,roles\n900,Eve Fox,1999-05-01,cook\n"
OWN_PIN = "59173026"


@pytest.fixture
def kitchen(demo: Path) -> Iterator[Kitchen]:
    """Return a demo kitchen of the test's own, open."""
    k = open_here(demo)
    with closing(k.file):
        yield k


def stepped_in(k: Kitchen, door: Door) -> object:
    """Step in by a door, as its button does."""
    enrolled = enrolling.enrol_device(k, name="Demo device", by=door.person, now=NOW)
    assert isinstance(enrolled, enrolling.Enrolled)
    return signing_in.sign_in(k, device=enrolled.device.id, person=door.person, secret=door.secret, now=NOW)


def roles_of(k: Kitchen) -> dict[str, str]:
    """Return who stands behind each door, by what they are; every door opens."""
    found = doors(k, TODAY)
    for door in found:
        assert isinstance(stepped_in(k, door), signing_in.NewSession), door
    return {english(door.role): door.name for door in found}


def test_a_new_hire_of_a_roster_takes_nobodys_door(kitchen: Kitchen) -> None:
    """The newest cook of the file has no PIN yet: the demo's own new hire is offered as before."""
    before = roles_of(kitchen)
    assert list(before) == ["New hire", "Sous chef", "Manager"]
    boss = next(door.person for door in doors(kitchen, TODAY) if english(door.role) == "Manager")
    plan = roster.plan_import(kitchen, NEW_HIRE.encode(), now=NOW)
    assert isinstance(roster.apply_import(kitchen, plan=plan, by=boss, now=NOW), roster.Imported)
    assert roles_of(kitchen) == before


def test_whoever_chose_a_pin_of_their_own_is_offered_no_more(kitchen: Kitchen) -> None:
    """Another of the cast is, whose demo PIN still opens; the own PIN is shown to nobody."""
    hire = next(door for door in doors(kitchen, TODAY) if english(door.role) == "New hire")
    assert isinstance(signing_in.set_secret(kitchen, person=hire.person, secret=OWN_PIN), signing_in.Done)
    after = roles_of(kitchen)
    assert after["New hire"] != hire.name


def test_somebody_outside_the_cast_is_never_offered(kitchen: Kitchen) -> None:
    """Not even with the demo's PIN: who is made up is kept with the demo, not guessed."""
    before = roles_of(kitchen)
    boss = next(door.person for door in doors(kitchen, TODAY) if english(door.role) == "Manager")
    plan = roster.plan_import(kitchen, NEW_HIRE.encode(), now=NOW)
    roster.apply_import(kitchen, plan=plan, by=boss, now=NOW)
    eve = next(listed.person.id for listed in kitchen.file.people.listed() if listed.number == "900")
    assert isinstance(signing_in.set_secret(kitchen, person=eve, secret=DEMO_PIN), signing_in.Done)
    assert roles_of(kitchen) == before
