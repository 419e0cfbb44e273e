"""The recovery sheet on the pages: at the door for a lost passphrase, and as the second person."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import NOON, PASSPHRASE
from tests.web.hands import Hands
from trainer.actions import giving_codes, two_people
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.recovering import first_sheet
from trainer.actions.standing import NewRoles, change_roles
from trainer.kitchen.recovery_signs import SheetSigns, read_sheet, sheet_text

NEW = "yellow bucket under the sink"
FIELDS = {"New passphrase, 15 letters or more": NEW, "The same once more": NEW}
SIGNS = "The signs on the recovery sheet"


def new_sheet_on(hands: Hands) -> str:
    """Return the sheet a page shows."""
    found = [one for big in hands.page.soup.select("p.big") if (one := read_sheet(big.get_text())) and one]
    (sheet,) = [one for one in found if isinstance(one, SheetSigns)]
    return sheet


def test_a_manager_without_their_passphrase_comes_in_by_the_sheet(
    at_tablet: Callable[[], Hands], kitchen: Kitchen
) -> None:
    """From the door; a wrong sheet keeps what was typed and changes nothing; the next sheet is shown at once."""
    sheet, hands = first_sheet(kitchen, NOON).signs, at_tablet()
    hands.open("/names/cleo")
    hands.follow("Passphrase lost? Use the recovery sheet")
    page = hands.press("Set my new passphrase", {SIGNS: sheet_text(7), **FIELDS}, person="cleo")
    assert "not the recovery sheet that is good now" in page.work
    assert page.field(SIGNS)["value"] == sheet_text(7)
    page = hands.press("Set my new passphrase", {SIGNS: sheet.lower(), **FIELDS}, person="cleo")
    assert "Your new passphrase is set." in page.work
    assert new_sheet_on(hands) != sheet
    hands.open("/names/cleo")
    assert hands.press("Sign in", {"Passphrase": NEW}).path != "/names/cleo"
    assert "Used to set a new PIN or passphrase" in hands.open("/book/door").work
    assert "The recovery sheet that is good was made 3 Nov 2026, 12:00." in hands.page.work


def test_the_page_is_for_managers_alone(at_tablet: Callable[[], Hands], kitchen: Kitchen) -> None:
    """A cook is not on its list, and one sent all the same is refused; two secrets that differ too."""
    sheet, hands = first_sheet(kitchen, NOON).signs, at_tablet()
    page = hands.open("/recovery")
    assert "Cleo Mbeki" in page.work
    assert "Ana Pardo" not in page.work
    page = hands.press("Set my new passphrase", {SIGNS: sheet, **FIELDS}, person="ana")
    assert "choose one from the list" in page.work
    differ = {**FIELDS, "The same once more": "another one altogether"}
    assert "not the same" in hands.press("Set my new passphrase", {SIGNS: sheet, **differ}, person="cleo").work
    assert not kitchen.file.book.of_kind("recovery_used")


def test_a_device_nobody_enrolled_is_not_asked(stranger: Hands) -> None:
    """No stranger meets the door."""
    assert "recovery sheet" not in stranger.open("/recovery").work


def test_the_sheet_stands_as_the_second_person(cleo: Hands, kitchen: Kitchen) -> None:
    """What waited a day counts at once; with nothing that waits the sheet is kept."""
    sheet = first_sheet(kitchen, NOON).signs
    fields = {SIGNS: sheet, "Your PIN or passphrase": PASSPHRASE}
    cleo.open("/second/recovery")
    assert "The sheet was not used." in cleo.press("Enter all that waits", fields).work
    asked = change_roles(kitchen, by="cleo", change=NewRoles("ana", ("cook", "manager")), now=NOON, key="ask")
    assert isinstance(asked, two_people.Waits)
    cleo.open("/second")
    cleo.follow("Use the recovery sheet")
    assert "1 act waits" in cleo.page.work
    assert "1 act that waited is entered." in cleo.press("Enter all that waits", fields).work
    assert "manager" in kitchen.progress().roles("ana", NOON.date())
    assert new_sheet_on(cleo) != sheet
    assert "the recovery sheet" in cleo.open("/book").work


def test_a_code_that_waited_is_shown_with_the_next_sheet(cleo: Hands, kitchen: Kitchen) -> None:
    """To whoever used the sheet, once."""
    sheet = first_sheet(kitchen, NOON).signs
    change_roles(kitchen, by="cleo", change=NewRoles("ana", ("cook", "manager")), now=NOON, key="ask")
    cleo.open("/second/recovery")
    cleo.press("Enter all that waits", {SIGNS: sheet, "Your PIN or passphrase": PASSPHRASE})
    following = new_sheet_on(cleo)
    assert isinstance(giving_codes.first_code(kitchen, by="cleo", cook="ana", now=NOON, key="code"), two_people.Waits)
    cleo.open("/second/recovery")
    page = cleo.press("Enter all that waits", {SIGNS: following, "Your PIN or passphrase": PASSPHRASE})
    assert "First code for Ana Pardo" in page.work
