"""The recovery sheet: used once, by a manager, for a new secret or as the second person; wrong tries are limited.

NIST SP 800-63B-4, 3.1.2 (from memory): a look-up secret is used once, kept salted and hashed, and its tries limited.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.actions.crew import Crew, refused, saved
from tests.printed import english
from trainer.actions.giving_codes import FirstCode, first_code
from trainer.actions.outcome import Refused
from trainer.actions.recovering import (
    NewSheet,
    SheetTyped,
    first_sheet,
    new_sheet_here,
    second_by_sheet,
    secret_by_sheet,
)
from trainer.actions.signing_in import NewSession, sign_in
from trainer.actions.standing import NewRoles, change_roles
from trainer.actions.two_people import Waits, waiting
from trainer.kitchen.recovery_signs import sheet_text
from trainer.store.people import Secret

NEW = "yellow bucket under the sink"
OTHER = sheet_text(12345)


@pytest.fixture
def sheet(crew: Crew) -> str:
    """Return the first sheet of the kitchen; Mara is a manager, Nils is gone."""
    crew.write("cook_left", "nils", {"reason": "Moved."})
    return first_sheet(crew.k, crew.now).signs


def typed(signs: str, by: str = "mara", device: str = "d1") -> SheetTyped:
    """Return a sheet as it is typed on a device."""
    return SheetTyped(signs, by, device)


def made(outcome: NewSheet | Refused) -> NewSheet:
    """Return the next sheet; a refusal fails the test."""
    assert isinstance(outcome, NewSheet), outcome
    return outcome


def resets(crew: Crew, signs: str, by: str = "mara", secret: str = NEW, device: str = "d1") -> NewSheet | Refused:
    """Set a new secret by a sheet."""
    return secret_by_sheet(crew.k, typed=typed(signs, by, device), secret=secret, now=crew.now, key=crew.key())


def test_a_manager_sets_a_new_secret_and_is_shown_the_next_sheet(crew: Crew, sheet: str) -> None:
    """They come in with it; the book says both, and keeps neither the signs nor the secret."""
    device, _ = crew.k.file.devices.enrol("Pass tablet", "mara", crew.now)
    found = made(resets(crew, sheet.lower()))
    assert found.signs != sheet
    assert found.entry is not None
    assert (found.entry.kind, found.entry.cook, found.entry.by) == ("recovery_used", "mara", "mara")
    assert found.entry.body == {"for": "secret", "new_sheet": "2026-03-02T17:00:00.000Z"}
    (changed,) = crew.entries("secret_changed")
    assert (changed.by, changed.body["to"]) == ("mara", "passphrase")
    opened = sign_in(crew.k, device=device.id, person="mara", secret=NEW, now=crew.now)
    assert isinstance(opened, NewSession)
    kept = crew.k.file.recovery_sheets.current()
    assert kept is not None
    assert kept.hash.startswith("$argon2id$")


def test_a_used_sheet_is_dead_and_the_new_one_is_good(crew: Crew, sheet: str) -> None:
    """Once each."""
    following = made(resets(crew, sheet)).signs
    assert "is dead" in english(refused(resets(crew, sheet)).reason)
    made(resets(crew, following))


def test_a_new_sheet_of_the_machine_ends_the_one_before(crew: Crew, sheet: str) -> None:
    """It is an entry by the machine."""
    new = made(new_sheet_here(crew.k, now=crew.now, key="new"))
    assert new.entry is not None
    assert (new.entry.by, new.entry.cook, new.entry.body["for"]) == ("local", "book", "sheet")
    refused(resets(crew, sheet))
    made(resets(crew, new.signs))


@pytest.mark.parametrize(
    ("by", "secret", "field"), [("ada", NEW, "person"), ("nils", NEW, "person"), ("mara", "short", "secret")]
)
def test_it_is_for_managers_and_a_secret_that_will_do(crew: Crew, sheet: str, by: str, secret: str, field: str) -> None:
    """A cook, one who has left, a secret too short: refused, and the sheet is as good as before."""
    before = crew.k.file.book.end()
    assert refused(resets(crew, sheet, by, secret)).field == field
    assert crew.k.file.book.end() == before
    made(resets(crew, sheet))


def test_five_wrong_sheets_make_the_device_wait_and_a_slip_counts_for_nothing(crew: Crew, sheet: str) -> None:
    """Another device does not wait; the right sheet waits like the others; ten slips of the fingers cost nothing."""
    for _ in range(10):
        assert "typed wrong" in english(refused(resets(crew, OTHER[:-2] + "96")).reason)
    for _ in range(5):
        assert "is dead" in english(refused(resets(crew, OTHER)).reason)
    assert english(refused(resets(crew, sheet)).reason).startswith("Too many wrong tries. Wait 30 seconds")
    crew.later(seconds=31)
    made(resets(crew, sheet))
    crew.later(seconds=1)
    refused(resets(crew, sheet, device="d2"))


def test_a_new_sheet_opens_a_device_that_was_closed(crew: Crew, sheet: str) -> None:
    """A hundred wrong ones close it, to nobody's harm."""
    for _ in range(100):
        crew.later(minutes=16)
        refused(resets(crew, OTHER))
    crew.later(minutes=16)
    assert "A manager must open this again" in english(refused(resets(crew, sheet)).reason)
    signs = made(new_sheet_here(crew.k, now=crew.now, key="new")).signs
    made(resets(crew, signs))


def test_it_stands_as_the_second_person_for_all_that_waits(crew: Crew, sheet: str) -> None:
    """A role and a first code: entered at once, with the sheet's word; the code is shown."""
    crew.joins("olga", "manager")
    crew.k.file.people.set_secret("olga", Secret("", "first_code", must_change=True))
    change = NewRoles("ben", ("cook", "manager"))
    asked = change_roles(crew.k, by="mara", change=change, now=crew.now, key="ask")
    assert isinstance(asked, Waits)
    assert isinstance(first_code(crew.k, by="mara", cook="olga", now=crew.now, key="code"), Waits)
    found = made(second_by_sheet(crew.k, typed=typed(sheet), now=crew.now, key="sheet"))
    role, code = found.done
    assert saved(role).body["second"]["by"] == "recovery"
    assert saved(role).body["second"]["proof"]["how"] == "recovery_sheet"
    assert isinstance(code, FirstCode)
    assert waiting(crew.k) == ()
    assert found.entry is not None
    assert found.entry.body["for"] == "second"
    assert "manager" in crew.k.progress().roles("ben", crew.k.today(crew.now))


def test_with_nothing_that_waits_it_is_not_used_up(crew: Crew, sheet: str) -> None:
    """So that nobody spends it by mistake."""
    found = second_by_sheet(crew.k, typed=typed(sheet), now=crew.now, key="sheet")
    assert "was not used" in english(refused(found).reason)
    made(resets(crew, sheet))


def test_an_old_kitchen_has_none_and_is_told_how_to_get_one(crew: Crew) -> None:
    """By a command on the machine itself."""
    found = refused(resets(crew, OTHER))
    assert english(found.reason) == "No recovery sheet is good in this kitchen."
    assert "trainer recover --new-sheet" in english(found.who_can)


def test_a_clock_nobody_believes_uses_up_nothing(crew: Crew, sheet: str) -> None:
    """Behind the last entry."""
    crew.later(days=-3)
    assert "clock is behind" in english(refused(resets(crew, sheet)).reason)
    crew.later(days=3, seconds=timedelta(minutes=1).seconds)
    made(resets(crew, sheet))
