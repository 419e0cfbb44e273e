"""What a signature shows: who, when with the zone, what it means, and how it was proved.

21 CFR 11.50(a): signed electronic records shall contain the printed name of the signer, the date and time when the
signature was executed, and the meaning associated with it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.web.conftest import PASSPHRASE, PIN, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import clear
from trainer.actions import giving_codes
from trainer.actions.open_kitchen import Kitchen

SHIFT = {"cook": "ana", "station": "pasta_room", "beside": "bo", "guests": "64"}
OFF: dict[str, Any] = {"stations": "pasta_room", "why": "not safe", "secret": PASSPHRASE}


def stands_down(cleo: Hands) -> None:
    """Take Bo off the pasta room."""
    cleo.open("/off/bo")
    page = cleo.press("Take Bo off", **OFF)
    assert page.status == 200, page.problems


def test_an_act_keeps_the_proof_it_was_done_on(cleo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The one it was sent with, with its moment; the device is the tablet."""
    clear(kitchen, "bo")
    clock.pass_by(minutes=1)
    stands_down(cleo)
    (device,) = kitchen.file.devices.all()
    proof = kitchen.file.book.of_kind("stood_down")[-1].body["proof"]
    assert proof == {
        "how": "passphrase",
        "at": "2026-11-03T17:01:00.000Z",
        "device": device.id,
        "secret_since": "",
    }


def test_a_proof_asked_for_again_is_the_one_that_is_kept(cleo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Three minutes later the passphrase is typed into the form itself."""
    clear(kitchen, "bo")
    clock.pass_by(minutes=3)
    stands_down(cleo)
    assert kitchen.file.book.of_kind("stood_down")[-1].body["proof"]["at"] == "2026-11-03T17:03:00.000Z"


def test_the_book_shows_the_whole_signature(cleo: Hands, kitchen: Kitchen) -> None:
    """Name, date and time with the zone, meaning, and the proof (New York in November: EST)."""
    clear(kitchen, "bo")
    stands_down(cleo)
    said = "Signed by Cleo Mbeki, 3 Nov 2026, 12:00 EST. It means: Stood down. Passphrase on Pass tablet"
    assert said in cleo.open("/book").work
    assert "Proof:" not in cleo.page.work


def test_a_supervised_shift_is_signed_with_a_fresh_proof(bo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """However lately the PIN was given."""
    clear(kitchen, "bo")
    bo.open("/shifts-worked/new")
    clock.pass_by(seconds=20)
    answers: dict[str, Any] = {**SHIFT, "sitting": "lunch"}
    assert bo.press("Keep this shift", **answers).problems
    assert bo.press("Keep this shift", secret=PIN, **answers).path == "/ready"
    (entry,) = kitchen.file.book.of_kind("shift_worked")
    assert (entry.body["proof"]["how"], entry.body["proof"]["at"]) == ("pin", "2026-11-03T17:00:20.000Z")


def comes_in_with_a_code(at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock) -> Hands:
    """Return Bo, who chose a new PIN after a code of Cleo's."""
    code = giving_codes.first_code(kitchen, by="cleo", cook="bo", now=clock())
    assert isinstance(code, giving_codes.FirstCode)
    hands = at_tablet()
    hands.open("/names/bo")
    hands.press("Sign in", {"PIN, 8 figures": code.code})
    page = hands.press("Keep it", {"New PIN, 8 figures": "59173026", "The same once more": "59173026"})
    assert page.path == "/ready", page.work
    return hands


def signs_a_shift(hands: Hands, day: str) -> None:
    """Sign a supervised shift of a day's breakfast."""
    hands.open("/shifts-worked/new")
    answers: dict[str, Any] = {**SHIFT, "sitting": "breakfast"}
    page = hands.press("Keep this shift", secret="59173026", worked_on=day, **answers)
    assert page.path == "/ready", page.problems


def test_for_a_day_a_signature_says_that_the_secret_is_new_and_who_gave_the_code(
    at_tablet: Callable[[], Hands], cleo: Hands, kitchen: Kitchen, clock: Clock
) -> None:
    """Whoever reads it can ask; a day later the secret is like any other."""
    clear(kitchen, "bo")
    bo = comes_in_with_a_code(at_tablet, kitchen, clock)
    signs_a_shift(bo, "2026-11-03")
    assert "PIN on Pass tablet; new since 12:00, code by Cleo Mbeki" in cleo.open("/book").work
    signed = len(kitchen.file.book.of_kind("shift_worked"))
    clock.pass_by(hours=24)
    bo = at_tablet()
    bo.open("/names/bo")
    bo.press("Sign in", {"PIN, 8 figures": "59173026"})
    signs_a_shift(bo, "2026-11-04")
    later = kitchen.file.book.of_kind("shift_worked")[signed]
    assert later.body["proof"]["secret_since"] == "2026-11-03T17:00:00.000Z"


def test_whoever_a_code_was_given_for_is_told_at_the_next_sign_in(
    at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """By whom and when, before anything else; once pressed on, not again."""
    assert isinstance(giving_codes.first_code(kitchen, by="cleo", cook="ana", now=clock()), giving_codes.FirstCode)
    clock.pass_by(minutes=5)
    hands = at_tablet()
    hands.open("/names/ana")
    page = hands.press("Sign in", {"PIN, 8 figures": PIN})
    assert page.path == "/codes-given"
    assert "A code was given for you by Cleo Mbeki, 3 Nov 2026, 12:00." in page.work
    assert hands.press("Go on").path == "/rail"
    hands.press("Sign out")
    hands.open("/names/ana")
    assert hands.press("Sign in", {"PIN, 8 figures": PIN}).path == "/rail"
