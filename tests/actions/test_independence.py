"""What a kitchen asks of a signer who trained the cook: shown, a reason, or a second signature.

ISO/IEC 17024:2012, 5.2 and 6.2.2 (from memory): who trains does not examine, or the bias is dealt with and shown.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tests.actions.crew import Crew, refused, saved
from tests.printed import english
from trainer.actions.countersigning import asks_of
from trainer.actions.kitchen_settings import change_settings
from trainer.actions.outcome import Outcome
from trainer.actions.showing import Taught, teach_technique
from trainer.actions.two_people import Second
from trainer.actions.watching import Look, Practical
from trainer.store.kitchen_file import KitchenFile

PROOF = {"how": "pin", "at": "2026-03-02T17:00:00.000Z", "device": "d1", "secret_since": ""}
WHY = "Nobody else was on the line."


def sets(crew: Crew, independence: str) -> Outcome:
    """Change the setting by a command."""
    wanted = replace(crew.k.file.settings, independence=independence)  # type: ignore[arg-type]
    return change_settings(crew.k, settings=wanted, now=crew.now, key=crew.key())


def third_signer(crew: Crew) -> None:
    """Let Nils and Ines sign on the cold side too."""
    crew.clears("nils")
    crew.joins("ines", "cook", "assessor")
    crew.clears("ines")


def trained(crew: Crew, by: str = "sous") -> Practical:
    """Let somebody teach Ada, and begin a practical of hers with every point seen."""
    saved(teach_technique(crew.k, by=by, taught=Taught("ada", "cold_sauces"), now=crew.now, key=crew.key()))
    practical = crew.begins_practical()
    crew.sees(practical)
    return practical


def second(who: str) -> Second:
    """Return somebody's word as the second signer."""
    return Second(who, PROOF)


def test_an_old_kitchen_shows_it_and_asks_for_nothing(crew: Crew) -> None:
    """The setting it begins with, and the one a file of before is given."""
    assert crew.k.file.settings.independence == "shown"
    entry = saved(crew.signs(trained(crew)))
    assert entry.body["taught_by"]
    assert not {"independence", "second"} & entry.body.keys()


def test_with_a_reason_asks_for_one_only_of_whoever_trained_the_cook(crew: Crew) -> None:
    """It is kept apart from the book, so that it goes with the person; nobody else is asked."""
    saved(sets(crew, "reason"))
    practical = trained(crew)
    found = refused(crew.signs(practical))
    assert english(found.reason) == "You trained this cook. Write why you sign all the same."
    assert found.field == "independence"
    assert "500" in english(refused(crew.signs(practical, independence="x" * 501)).reason)
    entry = saved(crew.signs(practical, independence=WHY))
    assert entry.body["independence"] == {"asked": "reason", "reason": WHY}
    ((kept,),) = crew.k.file._connections.read("SELECT body FROM book WHERE id = ?", (entry.id,))
    assert WHY not in kept
    other = crew.begins_practical("ben")
    crew.sees(other)
    assert "independence" not in saved(crew.signs(other, independence="not asked")).body


@pytest.mark.parametrize("changes", [{"coached": True}, {"said": "not yet", "note": "Slow."}])
def test_what_frees_nobody_needs_neither(crew: Crew, changes: dict[str, Any]) -> None:
    """A *not yet* holds a cook back, and is written down by whoever saw it."""
    saved(sets(crew, "reason"))
    assert saved(crew.signs(trained(crew), **changes)).body["verdict"] == "not yet"


def test_strict_is_set_only_with_three_who_can_sign(crew: Crew) -> None:
    """Two leave nobody to be the second while one of them is off."""
    crew.clears("nils")
    words = english(refused(sets(crew, "strict")).reason)
    assert words == "A second signature takes three people who can sign; today there are 2."
    assert crew.k.file.settings.independence == "shown"
    crew.joins("ines", "cook", "assessor")
    crew.clears("ines")
    assert saved(sets(crew, "strict")).body["independence"] == "strict"
    assert KitchenFile.open(crew.k.file.folder).settings.independence == "strict"


def test_strict_asks_for_another_who_may_sign_and_did_not_train(crew: Crew) -> None:
    """Neither the signer, nor a cook, nor another who taught it; their word is kept with its proof."""
    third_signer(crew)
    saved(sets(crew, "strict"))
    saved(teach_technique(crew.k, by="ines", taught=Taught("ada", "cold_sauces"), now=crew.now, key=crew.key()))
    practical = trained(crew)
    wanted = refused(crew.signs(practical, independence=WHY))
    assert english(wanted.reason) == "You trained this cook. A second assessor signs with you."
    assert (english(wanted.who_can), wanted.field) == ("Who can: Nils.", "second")
    for who in ("sous", "ben", "ines", "mara", "nobody"):
        assert refused(crew.signs(practical, second=second(who))).field == "second"
    entry = saved(crew.signs(practical, second=second("nils")))
    assert entry.body["second"] == {"by": "nils", "proof": PROOF, "reason": ""}


def test_with_fewer_than_three_left_strict_asks_for_a_reason(crew: Crew) -> None:
    """Nobody is locked out when one of three leaves."""
    third_signer(crew)
    saved(sets(crew, "strict"))
    practical = trained(crew)
    crew.write("cook_left", "ines", {"reason": "Moved."})
    assert asks_of(crew.k, practical, crew.k.day(crew.k.today(crew.now))) == "reason"
    assert saved(crew.signs(practical, independence=WHY)).body["independence"]["reason"] == WHY


def test_a_stop_is_signed_at_once_whatever_is_set(crew: Crew) -> None:
    """What bars waits for nobody."""
    third_signer(crew)
    saved(sets(crew, "strict"))
    saved(teach_technique(crew.k, by="sous", taught=Taught("ada", "cold_sauces"), now=crew.now, key=crew.key()))
    practical = crew.begins_practical()
    crew.sees(practical, Look("guard_on", "unsafe", note="Guard off."))
    assert saved(crew.signs(practical)).body["verdict"] == "stopped"
