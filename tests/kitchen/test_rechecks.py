"""Sign-offs looked at again: which are drawn and in which sequence, who may judge them, what came of it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import FIRST, Scribe
from tests.printed import english
from trainer.kitchen.agreement import Agreement
from trainer.kitchen.entitlement import may_void
from trainer.kitchen.rechecks import SignOff, drawn, looked_again, lot, may_look_again, not_yet_open, who_saw

ON = date(2026, 3, 2)
COLD: dict[str, Any] = {"station": "cold_side"}


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe with Sous and Nils assessors cleared on the cold side, Ada and Ben cooks, Mara a manager."""
    scribe = Scribe()
    scribe.joins("mara", FIRST, "manager")
    for who in ("sous", "nils"):
        scribe.joins(who, FIRST, "cook", "assessor")
        scribe.reads(who, "cold_sauces", FIRST)
        scribe.watched(who, "cold_sauces", FIRST - timedelta(days=100), **COLD)
    for who in ("ada", "ben"):
        scribe.joins(who, FIRST)
    return scribe


def signs_off(scribe: Scribe, cook: str = "ada", when: date = ON, **more: Any) -> str:
    """Let Sous sign a cook off."""
    return scribe.watched(cook, "cold_sauces", when, **{**COLD, **more})


def looks(scribe: Scribe, entry: str, found: str = "same", when: date = ON, by: str = "nils") -> str:
    """Let somebody look at a sign-off again."""
    cook = next(one.cook for one in scribe.entries if one.id == entry)
    body = {"practical": entry, "found": found, "points": [], "note": ""}
    return scribe.write("rechecked", cook, when, body, by=by)


def ids(scribe: Scribe, on: date = ON) -> list[str]:
    """Return the entries that are drawn on a day."""
    return [one.line.entry for one in drawn(scribe.day(on))]


def may(scribe: Scribe, by: str, entry: str, on: date = ON) -> str:
    """Return why a person may not look at what is drawn; "" where they may."""
    one = next(one for one in drawn(scribe.day(on)) if one.line.entry == entry)
    return english(may_look_again(by, one, {one.line.by}, scribe.day(on)).reason)


def test_the_lot_is_the_digest_of_the_entrys_id() -> None:
    """As sha256sum of the GNU core utilities prints it: anybody can draw again what the program drew."""
    assert lot("e7") == "f3e2e400523c506868ca413bc55dc213c38e7084caeb10f6f629d8bf5ee9a160"


def test_the_lot_and_not_the_day_says_what_comes_first(scribe: Scribe) -> None:
    """Five cooks signed off one after the other come by their lots, and so they do on the day after."""
    found = []
    for who in ("ada", "ben", "cy", "dee", "eli"):
        if who not in scribe.people:
            scribe.joins(who, FIRST)
        found.append(signs_off(scribe, who))
    assert ids(scribe) == sorted(found, key=lot) == ids(scribe, ON + timedelta(days=1))
    assert sorted(found, key=lot) != found


def test_sign_offs_of_ninety_days_are_drawn(scribe: Scribe) -> None:
    """Signed on 2 March: 30 May is the 90th day counted with it, 31 May the 91st (on a calendar)."""
    entry = signs_off(scribe)
    assert ids(scribe, date(2026, 5, 30)) == [entry]
    assert ids(scribe, date(2026, 5, 31)) == []


def test_not_yet_and_stopped_are_no_sign_offs(scribe: Scribe) -> None:
    """Only what let a cook on is looked at again."""
    for verdict in ("not yet", "stopped"):
        scribe.watched("ada", "cold_sauces", ON, verdict, **COLD)
    assert ids(scribe) == []


def test_of_each_cook_and_technique_the_latest_practical_alone(scribe: Scribe) -> None:
    """Whatever it said: after a not yet there is nothing left that holds."""
    first = signs_off(scribe)
    assert ids(scribe) == [first]
    second = signs_off(scribe)
    assert ids(scribe) == [second]
    scribe.watched("ada", "cold_sauces", ON, "not yet", **COLD)
    assert ids(scribe) == []


def test_each_part_of_a_checklist_by_itself(scribe: Scribe) -> None:
    """A later practical of another part leaves it; one of the whole list takes its place."""
    parts: dict[str, Any] = {"divided": ["hot", "cold"]}
    hot = signs_off(scribe, **parts, part=["hot", "Hot"])
    cold = signs_off(scribe, **parts, part=["cold", "Cold"])
    assert sorted(ids(scribe)) == sorted([hot, cold])
    whole = signs_off(scribe)
    assert ids(scribe) == [whole]


def test_what_is_voided_or_of_somebody_who_left_is_not_drawn(scribe: Scribe) -> None:
    """Nor what was looked at again, until that is voided."""
    ada, ben = signs_off(scribe), signs_off(scribe, "ben")
    scribe.voids(ada, ON)
    again = looks(scribe, ben)
    assert ids(scribe) == []
    scribe.voids(again, ON)
    assert ids(scribe) == [ben]
    scribe.leaves("ben", ON)
    assert ids(scribe) == []


def test_another_who_may_sign_there_looks_again(scribe: Scribe) -> None:
    """Not the signer, not the cook, not a cook or a manager without the role."""
    entry = signs_off(scribe)
    assert may(scribe, "nils", entry) == ""
    assert may(scribe, "sous", entry) == "You saw what was found the first time: somebody else looks again."
    assert may(scribe, "ada", entry) == "Nobody signs their own work."
    assert may(scribe, "ben", entry) == "Ben is no assessor."
    assert may(scribe, "mara", entry) == "Mara is no assessor."


def test_who_looked_before_is_blind_no_more(scribe: Scribe) -> None:
    """Though a manager voided it."""
    entry = signs_off(scribe)
    scribe.voids(looks(scribe, entry), ON)
    assert may(scribe, "nils", entry) == "You saw what was found the first time: somebody else looks again."


def test_whoever_saw_a_point_or_signed_with_them_knows_what_was_found() -> None:
    """A practical handed on is known to both; entries of before keep neither."""
    looked = [{"point": "a", "looks": [{"by": "nils", "seen": "meets it"}, {"seen": "meets it"}]}]
    assert who_saw("sous", {"points": looked, "second": {"by": "olga"}}) == {"sous", "nils", "olga"}
    assert who_saw("sous", {"points": [{"point": "a", "seen": "meets it"}], "second": None}) == {"sous"}


@pytest.mark.parametrize(
    ("acts", "technique", "why"),
    [
        (["recheck"], "cold_sauces", ""),
        (["beside"], "cold_sauces", "Rita has no authority in writing to sign at Cold side today."),
        (["recheck"], "fresh_pasta", "Rita has no authority in writing to sign at Cold side today."),
    ],
)
def test_authority_to_check_again_stands_in_for_that_to_sign(
    scribe: Scribe, acts: list[str], technique: str, why: str
) -> None:
    """For what it covers, of somebody cleared there."""
    entry = signs_off(scribe)
    scribe.joins("rita", FIRST, "cook", "assessor", edition=2)
    scribe.reads("rita", "cold_sauces", FIRST)
    scribe.watched("rita", "cold_sauces", FIRST - timedelta(days=100), **COLD)
    given = {"scope": {"techniques": [technique]}, "from": "2026-01-05", "until": "2027-01-05", "may": acts}
    scribe.write("authority_given", "rita", FIRST, given)
    assert may(scribe, "rita", entry) == why


def test_who_is_not_cleared_there_does_not_look_again(scribe: Scribe) -> None:
    """Whoever cannot do it does not judge it, whatever stands in writing."""
    entry = signs_off(scribe)
    scribe.joins("rita", FIRST, "cook", "assessor")
    assert may(scribe, "rita", entry) == "Rita is not cleared today at Cold side."


def test_a_not_yet_waits_until_something_is_done_about_it(scribe: Scribe) -> None:
    """Watched again since, or the sign-off voided; as it should be waits for nothing. The clearance stands."""
    ada, ben = signs_off(scribe), signs_off(scribe, "ben")
    looks(scribe, ada, "not yet")
    looks(scribe, ben)
    (waiting,) = not_yet_open(scribe.day(ON))
    assert (waiting.sign_off, waiting.found.by) == (SignOff("ada", waiting.sign_off.line), "nils")
    day = scribe.day(ON)
    scribe.reads("ada", "cold_sauces", ON)
    assert scribe.day(ON).is_cleared("ada", day.rules.stations["cold_side"])
    scribe.watched("ada", "cold_sauces", ON, "not yet", **COLD)
    assert not_yet_open(scribe.day(ON)) == ()


def test_a_sign_off_voided_for_it_counts_on(scribe: Scribe) -> None:
    """Two of Sous' three sign-offs of the year looked at again, one did not hold and was voided; a fourth is too old.

    Sign-offs nobody looked at are gone with their void.
    """
    ada, ben, other = signs_off(scribe), signs_off(scribe, "ben"), signs_off(scribe, "nils")
    looks(scribe, ada, "not yet")
    looks(scribe, ben)
    scribe.voids(ada, ON)
    assert not_yet_open(scribe.day(ON)) == ()
    found = looked_again(scribe.progress(), ON)
    assert (found.sign_offs, found.all) == (5, Agreement(1, 2))  # those two, Nils' two and Sous' one
    assert found.by_signer == {"sous": Agreement(1, 2)}
    scribe.voids(other, ON)
    assert looked_again(scribe.progress(), ON).sign_offs == 4
    assert looked_again(scribe.progress(), ON + timedelta(days=364)).all.pairs == 2
    assert looked_again(scribe.progress(), ON + timedelta(days=365)).all.pairs == 0


def test_its_writer_does_not_take_it_back(scribe: Scribe) -> None:
    """Not even in the first ten minutes: by then they have seen what the first one found. A manager voids it."""
    looks(scribe, signs_off(scribe))
    entry, progress = scribe.entries[-1], scribe.progress()
    assert not may_void("nils", entry, "slip", entry.at, progress).may
    assert may_void("mara", entry, "It was another cook.", entry.at, progress).may
