"""A manager: the board answers at a glance, a cell opens its proof, a past day, a faulty roster file, a new device."""

from __future__ import annotations

from collections.abc import Callable

from tests.browser.engine import PHONE, Screen, Served
from tests.browser.journeys import person_id, step_in
from tests.browser.somebody import Somebody
from trainer.actions.demo_door import DEMO_PASSPHRASE
from trainer.content.shipped import shipped

ROSTER = shipped("demo_roster") / "roster.csv"
FAULTS = ((14, "012"), (18, "31/02/1998"))  # as the file itself has them: a cook written twice, a day that is none


def test_the_board_answers_first_and_a_cell_opens_its_proof(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """Who can work the pasta room tonight: no tap. Why: one tap, with day and who signed; two, with every entry."""
    ottilie = sit_down(quernstone, screen)
    step_in(ottilie, quernstone, "Manager")
    assert ottilie.heading == "Tonight's board"
    ottilie.taps = 0
    for station in quernstone.kitchen.content.stations.values():
        assert station.title.casefold() in ottilie.work.casefold()
    assert "cleared" in ottilie.work
    cell = ottilie.page.locator("td.is-cleared a.cell").first
    ottilie.tap(cell)
    assert ottilie.taps == 1
    assert "signed off by " in ottilie.work
    assert "Nothing is missing." in ottilie.work
    ottilie.press("Show every entry in full")
    assert ottilie.taps == 2
    assert "Practical watched" in ottilie.work
    assert "Entry " in ottilie.work


def test_the_board_on_a_past_day_says_what_was_true_then(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """Eighteen months ago nobody was cleared; a day that is none, or still to come, is asked again."""
    ottilie = sit_down(quernstone, screen)
    step_in(ottilie, quernstone, "Manager")
    label = "Day, as year-month-day"
    ottilie.page.get_by_text("Another day").click()
    ottilie.fill(label, "2025-06-10")
    ottilie.press("Show that day")
    assert ottilie.heading == "The board on Tue 10 Jun 2025"
    assert "no one cleared" in ottilie.work.casefold()
    ottilie.fill(label, "30 February")
    ottilie.press("Show that day")
    assert ottilie.page.title().startswith("Error: ")
    assert ottilie.page.get_by_label(label).input_value() == "30 February"
    assert "“30 February” is not a day." in ottilie.work


def test_a_roster_with_faults_is_reported_answered_and_taken_in(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """Every fault with row, value and how to fix it; nothing is changed before the last press."""
    ottilie = sit_down(quernstone, screen)
    step_in(ottilie, quernstone, "Manager")
    entries = quernstone.kitchen.file.book.end()
    ottilie.press("Roster and shifts")
    ottilie.page.get_by_label("File").set_input_files(ROSTER)
    ottilie.next_act()
    assert "Nothing is changed yet." in ottilie.work
    for row, value in FAULTS:
        assert f"Row {row}" in ottilie.work
        assert value in ottilie.work
    assert not ottilie.page.get_by_role("button", name="Take in").count()

    ottilie.page.get_by_label("Day first").check()
    for row, _ in FAULTS:
        ottilie.page.get_by_label(f"Leave out row {row}").check()
    ottilie.press("Look again")
    assert quernstone.kitchen.file.book.end() == entries
    assert ottilie.next_act().startswith("Take in ")
    assert ottilie.heading == "Taken in"
    ottilie.next_act()
    assert ottilie.heading == "Tonight's board"


def test_a_device_is_enrolled_and_can_be_revoked(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """A new device asks for a code a manager made on another; revoked, it shows no page any more."""
    office = sit_down(quernstone, PHONE)
    step_in(office, quernstone, "Manager")
    office.open("/devices/invite")
    office.fill("Your PIN or passphrase", DEMO_PASSPHRASE)
    office.next_act()
    code = office.page.locator("main .big").inner_text()

    tablet = sit_down(quernstone, screen)
    tablet.open("/device")
    tablet.fill("Code, 8 figures", "0000 0000")
    tablet.fill("A name for this device", "Pass tablet")
    tablet.next_act()
    assert tablet.page.title().startswith("Error: ")
    assert tablet.page.get_by_label("A name for this device").input_value() == "Pass tablet"
    tablet.fill("Code, 8 figures", code)
    tablet.next_act()
    assert tablet.heading == "Who are you?"

    office.open("/devices")
    office.press("Revoke Pass tablet")
    office.fill("Your PIN or passphrase", DEMO_PASSPHRASE)
    office.next_act()
    assert "Revoked 27 Nov 2026" in office.work
    tablet.open(f"/names/{person_id(quernstone, 'Sous chef')}")
    assert not tablet.page.get_by_role("button", name="Sign in").count()
