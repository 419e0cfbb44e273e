"""The sign page of an assessor who trained the cook: a reason or a second signature, where the kitchen asks for it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tests.web.conftest import NOON, PIN
from tests.web.hands import Hands
from tests.web.kitchen_people import clear, write
from tests.web.test_assessor import watch_all
from trainer.actions.authorizing import give_with_role
from trainer.actions.kitchen_settings import change_settings
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.actions.signing_in import set_secret
from trainer.kitchen.progress import Person

TAUGHT = {"technique": "nests", "minutes": 20, "what": ""}
OTHERS = {"eva": "58203147", "fay": "90417263"}


def sets(k: Kitchen, independence: str) -> None:
    """Change the setting, as a command does."""
    wanted = replace(k.file.settings, independence=independence)  # type: ignore[arg-type]
    assert isinstance(change_settings(k, settings=wanted, now=NOON, key=f"set-{independence}"), Saved)


def more_who_sign(k: Kitchen) -> None:
    """Let Eva and Fay sign in the pasta room too."""
    for who, pin in OTHERS.items():
        k.file.people.add(Person(who, f"{who.title()} Moss", None))
        joined = write(k, "cook_joined", who, {"roles": ["cook", "assessor"]}, by="cleo", days=60)
        give_with_role(k, joined, (), joined.at)
        set_secret(k, person=who, secret=pin)
        clear(k, who)


def at_the_record(bo: Hands, k: Kitchen) -> None:
    """Bring Bo, who taught Ana the nests, to the signature."""
    watch_all(bo, k)
    write(k, "technique_taught", "ana", TAUGHT, by="bo", days=0)
    bo.open(bo.address)


def test_a_reason_is_asked_for_and_told_with_the_signature(bo: Hands, kitchen: Kitchen) -> None:
    """Left out it is named, and what was typed stays; in the record it stands beside the name."""
    sets(kitchen, "reason")
    at_the_record(bo, kitchen)
    page = bo.press("Sign", {"Your PIN": PIN, "Note": "Quick."})
    assert "Write why you sign all the same." in page.work
    assert "Quick." in page.work
    page = bo.press("Sign", {"Your PIN": PIN, "Why you sign, though you trained this cook": "I was alone."})
    assert "Why the trainer signed: I was alone." in page.work


def test_where_nothing_is_asked_the_page_has_no_such_field(bo: Hands, kitchen: Kitchen) -> None:
    """Shown is the default; and of anybody who did not train the cook nothing is asked."""
    at_the_record(bo, kitchen)
    assert "Why you sign" not in bo.page.work
    sets(kitchen, "reason")
    assert "Why you sign" in bo.open(bo.address).work


def test_a_second_types_their_own_pin_beside_the_signer(bo: Hands, kitchen: Kitchen) -> None:
    """A wrong one saves nothing and counts for them; nobody chosen is refused; with theirs both are on the record."""
    more_who_sign(kitchen)
    at_the_record(bo, kitchen)
    sets(kitchen, "strict")
    bo.open(bo.address)
    named: dict[str, Any] = {"second": "eva"}
    assert "A second assessor signs with you." in bo.press("Sign", {"Your PIN": PIN}).work
    wrong = {"Your PIN": PIN, "PIN or passphrase of the second": PIN}
    assert "not the PIN or passphrase of the second" in bo.press("Sign", wrong, **named).work
    signed = len(kitchen.file.book.of_kind("practical_watched"))
    right = {"Your PIN": PIN, "PIN or passphrase of the second": OTHERS["eva"]}
    assert "not on the list" not in bo.press("Sign", right, second="cleo").work
    assert len(kitchen.file.book.of_kind("practical_watched")) == signed
    assert "Signed with them: Eva Moss (PIN)" in bo.press("Sign", right, **named).work
    entry = kitchen.file.book.of_kind("practical_watched")[-1]
    assert (entry.by, entry.body["second"]["by"], entry.body["second"]["proof"]["how"]) == ("bo", "eva", "pin")


def test_five_wrong_pins_of_the_second_make_the_second_wait(bo: Hands, kitchen: Kitchen) -> None:
    """NIST SP 800-63B-4, 3.2.2 (from memory): tries are limited wherever a secret is asked."""
    more_who_sign(kitchen)
    at_the_record(bo, kitchen)
    sets(kitchen, "strict")
    bo.open(bo.address)
    wrong = {"Your PIN": PIN, "PIN or passphrase of the second": "11112222"}
    for _ in range(5):
        bo.press("Sign", wrong, second="eva")
    assert "Too many wrong tries." in bo.press("Sign", wrong, second="eva").work
