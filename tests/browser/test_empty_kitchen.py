"""An empty kitchen: from a device nobody has enrolled to the first signature in its book."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.browser.conftest import FRIDAY_AT_SIX
from tests.browser.engine import Screen, Served
from tests.browser.journeys import ready_to_show, sign, watch
from tests.browser.somebody import Somebody
from trainer.actions.enrolling import Invited, invite_device
from trainer.actions.opening import open_new_kitchen
from trainer.actions.outcome import Saved
from trainer.actions.teaching import draft_in
from trainer.content.shipped import shipped
from trainer.kitchen.book import LOCAL
from trainer.kitchen.technique import Content
from trainer.store.settings import Settings

MANAGER, PASSPHRASE = "Ida Brandt", "a wet towel under the board"
PIN = "40915826"
ROSTER = """number,name,birth date,roles,started,language
101,Jonas Okafor,1988-04-17,"cook, assessor",2020-01-06,en
102,Mirela Santos,2003-09-30,cook,2026-11-23,en
"""

BESIDES = frozenset(
    {
        "kitchen_set",
        "standard_published",
        "person_named",
        "age_seen",
        "authority_given",
        "device_enrolled",
        "first_code_given",
        "secret_changed",
    }
)
"""What is written besides the acts of this journey: what a kitchen begins with, and what happens at its door."""


@pytest.fixture
def new_kitchen(tmp_path: Path, content: Content, serve: Callable[[Path], Served]) -> Served:
    """Return a kitchen with one manager and nothing else in its book."""
    folder = tmp_path / "new"
    settings = Settings("", "Green Door", timezone="America/New_York")
    made = open_new_kitchen(
        folder, settings, draft_in(shipped("content"), "us"), (MANAGER, PASSPHRASE), FRIDAY_AT_SIX, "first"
    )
    assert isinstance(made, Saved)
    return serve(folder)


def enrol(tablet: Somebody, served: Served) -> None:
    """Let the manager enrol the device, with a code made on the machine, and sign in on it."""
    invited = invite_device(served.kitchen, by=LOCAL, now=served.clock())
    assert isinstance(invited, Invited)
    tablet.open("/")
    assert tablet.heading == "This device is new here"
    tablet.next_act()
    tablet.fill("Code, 8 figures", invited.code)
    tablet.fill("A name for this device", "Pass tablet")
    tablet.next_act()
    tablet.press(MANAGER)
    tablet.fill("Passphrase", PASSPHRASE)
    tablet.next_act()


def bring_in_the_roster(tablet: Somebody, folder: Path) -> None:
    """Take in two people from a file; the empty board says what comes next, in order, with a mark at what is done."""
    assert "No cooks on the roster yet." in tablet.work
    assert "1 of 8 steps are done. Next: People on the roster." in tablet.work
    (folder / "roster.csv").write_text(ROSTER, encoding="utf-8")
    tablet.press("Bring in the roster")
    tablet.page.get_by_label("File").set_input_files(folder / "roster.csv")
    tablet.next_act()
    assert tablet.next_act() == "Take in 2 rows"


def give_a_first_code(tablet: Somebody, name: str) -> str:
    """Return the code the manager hands to a person."""
    tablet.press("People")
    tablet.press(name)
    tablet.press("First code")
    tablet.fill("Your PIN or passphrase", PASSPHRASE)
    tablet.next_act()
    return tablet.page.locator("main .big").inner_text().replace(" ", "")


def open_a_station(tablet: Somebody, name: str, station: str) -> None:
    """Let an assessor sign at a station nobody is cleared on."""
    tablet.press(f"Back to {name}")
    tablet.press("Open a station")
    tablet.choose("Station", station)
    tablet.fill("Good to", "2026-12-31")
    tablet.fill("Reason", "First opening.")
    tablet.fill("Your PIN or passphrase", PASSPHRASE)
    tablet.next_act()
    assert "Stations opened" in tablet.work


def sign_out(tablet: Somebody) -> None:
    """Sign out, through the folded list of places where the screen is narrow."""
    fold = tablet.page.locator(".places.narrow summary")
    if fold.is_visible():
        tablet.tap(fold)
    tablet.press("Sign out")


def choose_an_own_pin(tablet: Somebody, name: str, code: str) -> None:
    """Sign in with a first code, which must be changed at once."""
    tablet.press(name)
    tablet.key_in("PIN, 8 figures", code)
    tablet.next_act()
    assert tablet.heading == "Choose your own PIN"
    tablet.fill("New PIN, 8 figures", PIN)
    tablet.fill("The same once more", PIN)
    tablet.next_act()


def test_from_nothing_to_the_first_signature(
    new_kitchen: Served, sit_down: Callable[..., Somebody], screen: Screen, tmp_path: Path
) -> None:
    """Device, roster, first code, a station opened, an own PIN, and a person is signed off."""
    tablet = sit_down(new_kitchen, screen)
    enrol(tablet, new_kitchen)
    bring_in_the_roster(tablet, tmp_path)
    code = give_a_first_code(tablet, "Jonas Okafor")
    assert len(code) == 8
    open_a_station(tablet, "Jonas Okafor", new_kitchen.kitchen.content.stations["pasta_room"].title)
    sign_out(tablet)
    tablet.open("/")
    choose_an_own_pin(tablet, "Jonas Okafor", code)

    assert "No one is waiting to be watched." in tablet.work
    technique = new_kitchen.kitchen.content.techniques["pasta_nesting"]
    mirela = next(p.id for p in new_kitchen.kitchen.people().values() if p.name == "Mirela Santos")
    tablet.press("Watch somebody else")
    tablet.choose("Cook", "Mirela Santos")
    tablet.choose("Technique", technique.title)
    tablet.next_act()
    assert "The cook reads it, and then answers." in tablet.work
    ready_to_show(new_kitchen, mirela, technique)
    tablet.open("/ready")
    tablet.press_starting("Watch Mirela")
    tablet.next_act()
    watch(tablet, technique)
    sign(tablet, PIN)
    assert tablet.heading.startswith("Saved 18:")
    kinds = [entry.kind for entry in new_kitchen.kitchen.file.book.since(0)]
    assert [kind for kind in kinds if kind not in BESIDES] == [
        "cook_joined",
        "cook_joined",
        "cook_joined",
        "roster_taken_in",
        "station_opened",
        "technique_read",
        "quiz_sat",
        "watch_asked",
        "practical_watched",
    ]
    print(f"{screen.width} px: {tablet.taps} presses, {tablet.figures} on number keys, to the first signature")
