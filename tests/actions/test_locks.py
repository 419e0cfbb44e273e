"""What a guesser meets: wrong tries alone are counted, for one person on one device, and nobody else waits."""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from pathlib import Path

import pytest

from tests.actions.people_at_the_door import MINUTE, NOON, PIN, SECOND, id_of, signed_in, staffed, tablet
from tests.printed import english
from trainer.actions import giving_codes, signing_in
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.signing_in import NO_MATCH, NewSession, let_try_again, prove_again, sign_in
from trainer.store.kitchen_file import KitchenFile
from trainer.store.secret_hash import is_right
from trainer.store.sessions import Session

WRONG = "70281930"
Doorway = tuple[Kitchen, str, str, str]


@pytest.fixture
def kitchen(tmp_path: Path) -> Doorway:
    """Return a kitchen, its manager, a cook and an enrolled tablet."""
    k, manager, ana = staffed(tmp_path)
    return k, manager, ana, tablet(k, manager)


def guess(kitchen: Doorway, times: int = 5, person: str = "") -> None:
    """Type a wrong PIN for the cook, or another person, so often."""
    k, _, ana, device = kitchen
    for _ in range(times):
        assert sign_in(k, device=device, person=person or ana, secret=WRONG, now=NOON) == NO_MATCH


def test_wrong_pins_for_one_name_let_everybody_else_on_that_tablet_go_on(kitchen: Doorway) -> None:
    """Anyone who is signed in there proves themselves, and another signs in at once."""
    k, manager, _, device = kitchen
    token = signed_in(k, device, manager)
    guess(kitchen)
    assert isinstance(prove_again(k, token=token, secret=PIN, now=NOON + SECOND), Session)
    signed_in(k, device, manager, NOON + SECOND)


def test_the_one_guessed_at_waits_on_that_tablet_and_signs_in_on_another(kitchen: Doorway) -> None:
    """The rule is per person and device: a prank at one tablet keeps nobody off the others."""
    k, manager, ana, device = kitchen
    other = tablet(k, manager, "Phone")
    guess(kitchen)
    refused = sign_in(k, device=device, person=ana, secret=PIN, now=NOON + SECOND)
    assert isinstance(refused, Refused)
    assert english(refused.reason) == "Too many wrong tries. Wait 29 seconds, then try again."
    signed_in(k, other, ana, NOON + SECOND)


def test_names_nobody_has_lock_nobody(kitchen: Doorway) -> None:
    """Wrong PINs for one name after another leave the tablet open."""
    k, _, ana, device = kitchen
    for number in range(20):
        assert sign_in(k, device=device, person=f"nobody {number}", secret=WRONG, now=NOON) == NO_MATCH
    signed_in(k, device, ana)


def test_sixteen_right_ones_at_once_are_all_let_in(kitchen: Doorway) -> None:
    """A right secret is never counted, not even while it is looked at."""
    k, _, ana, device = kitchen

    def enter(_: int) -> object:
        return sign_in(k, device=device, person=ana, secret=PIN, now=NOON)

    with ThreadPoolExecutor(16) as pool:
        outcomes = list(pool.map(enter, range(16)))
    assert [type(outcome) for outcome in outcomes] == [NewSession] * 16


def test_of_64_wrong_ones_at_once_five_are_looked_at(kitchen: Doorway, monkeypatch: pytest.MonkeyPatch) -> None:
    """One at a time is looked at for a person on a device, so that tries side by side gain nothing."""
    k, manager, ana, device = kitchen
    looked_at: list[str] = []

    def counted(kept: str, secret: str) -> bool:
        looked_at.append(secret)
        return is_right(kept, secret)

    monkeypatch.setattr(signing_in, "is_right", counted)
    with ThreadPoolExecutor(16) as pool:
        outcomes = list(
            pool.map(lambda _: sign_in(k, device=device, person=ana, secret=WRONG, now=NOON), range(64)),
        )
    assert all(isinstance(outcome, Refused) for outcome in outcomes)
    assert len(looked_at) == 5
    signed_in(k, device, manager)


def crash(*_: object) -> bool:
    """End as if the power went."""
    raise KeyboardInterrupt


def test_twenty_crashes_while_a_secret_is_looked_at_count_nothing(
    kitchen: Doorway, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A try is counted once it is known to be wrong, and not before."""
    k, _, ana, device = kitchen
    with monkeypatch.context() as patch:
        patch.setattr(signing_in, "is_right", crash)
        for _ in range(20):
            with pytest.raises(KeyboardInterrupt):
                sign_in(k, device=device, person=ana, secret=PIN, now=NOON)
    signed_in(k, device, ana, NOON + SECOND)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="takes a system that can fork")
@pytest.mark.filterwarnings("ignore:.*multi-threaded:DeprecationWarning")
def test_twenty_programs_killed_while_a_secret_is_looked_at_count_nothing(
    kitchen: Doorway, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same with real programs that end in the middle: 20 of them, and the right PIN still opens."""
    k, _, ana, device = kitchen
    monkeypatch.setattr(signing_in, "is_right", lambda *_: os._exit(9))
    for _ in range(20):
        child = os.fork()
        if not child:
            sign_in(k, device=device, person=ana, secret=PIN, now=NOON)
            os._exit(0)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9
    monkeypatch.setattr(signing_in, "is_right", is_right)
    file = KitchenFile.open(k.file.folder)
    signed_in(Kitchen(file, k.content), device, ana, NOON + SECOND)
    file.close()


def spend(kitchen: Doorway, person: str, times: int) -> None:
    """Type that many wrong PINs, each as soon as it may be."""
    k, _, _, device = kitchen
    for number in range(times):
        at = NOON + number * 16 * MINUTE
        assert sign_in(k, device=device, person=person, secret=WRONG, now=at) == NO_MATCH


LATER = NOON + timedelta(days=2)


def test_a_hundred_wrong_ones_close_that_person_on_that_device_until_a_manager_opens(kitchen: Doorway) -> None:
    """NIST SP 800-63B-4, 3.2.2: no more than 100 in a row (from memory). The other tablet is still open."""
    k, manager, ana, device = kitchen
    other = tablet(k, manager, "Phone")
    spend(kitchen, ana, 100)
    refused = sign_in(k, device=device, person=ana, secret=PIN, now=LATER)
    assert isinstance(refused, Refused)
    assert (english(refused.reason), english(refused.who_can)) == (
        "Too many wrong tries. A manager must open this again.",
        "",
    )
    signed_in(k, other, ana, LATER)
    assert isinstance(let_try_again(k, by=manager, person=ana, now=LATER), signing_in.Done)
    signed_in(k, device, ana, LATER)


def test_the_only_manager_closed_on_one_tablet_opens_the_kitchen_on_another(kitchen: Doorway) -> None:
    """Nobody who stands at one tablet can lock a kitchen's only manager out of the house."""
    k, manager, _, device = kitchen
    other = tablet(k, manager, "Phone")
    spend(kitchen, manager, 100)
    assert isinstance(sign_in(k, device=device, person=manager, secret=PIN, now=LATER), Refused)
    signed_in(k, other, manager, LATER)


@pytest.mark.parametrize("typed", ["7028 1936", " 70281936 ", "7028\u00a01936", "70 28 19 36"])
def test_a_pin_typed_with_spaces_is_the_pin(kitchen: Doorway, typed: str) -> None:
    """A code is read out and shown in two groups of four, and so it is typed."""
    k, _, ana, device = kitchen
    assert isinstance(sign_in(k, device=device, person=ana, secret=typed, now=NOON), NewSession)


def code_of(k: Kitchen, manager: str, cook: str) -> str:
    """Return a first code in two groups of four."""
    given = giving_codes.first_code(k, by=manager, cook=cook, now=NOON)
    assert isinstance(given, giving_codes.FirstCode)
    return f"{given.code[:4]} {given.code[4:]}"


def test_a_first_code_typed_with_its_space_opens(kitchen: Doorway) -> None:
    """As it stands on the manager's page; an own PIN chosen with a space is the PIN without it."""
    k, manager, ana, device = kitchen
    opened = sign_in(k, device=device, person=ana, secret=code_of(k, manager, ana), now=NOON)
    assert isinstance(opened, NewSession)
    chosen = signing_in.choose_secret(k, token=opened.token, secret="5917 3026", now=NOON)
    assert isinstance(chosen, signing_in.Done)
    assert isinstance(sign_in(k, device=device, person=ana, secret="59173026", now=NOON), NewSession)


def test_a_lock_is_an_entry_by_the_program(kitchen: Doorway) -> None:
    """Whose name, on which device and after how many; a wrong try less writes nothing, a name nobody has neither."""
    k, _, ana, device = kitchen
    guess(kitchen, 4)
    guess(kitchen, 5, "nobody")
    assert [entry.kind for entry in k.file.book.since(0)].count("locked_out") == 0
    guess(kitchen, 1)
    (entry,) = [entry for entry in k.file.book.since(0) if entry.kind == "locked_out"]
    assert (entry.cook, entry.by, entry.body) == (ana, "program", {"device": device, "wrong": 5})
    assert k.progress().roles(id_of(k, "002"), k.today(NOON)) == {"cook"}


def test_a_clock_set_back_makes_nobody_wait_for_the_old_one(kitchen: Doorway) -> None:
    """One slip under a clock a year ahead; once that is set right, the PIN opens. A wait that fits its count stays."""
    k, _, ana, device = kitchen
    ahead = NOON + timedelta(days=365)
    assert sign_in(k, device=device, person=ana, secret=WRONG, now=ahead) == NO_MATCH
    signed_in(k, device, ana, NOON)
    guess(kitchen)
    assert isinstance(sign_in(k, device=device, person=ana, secret=PIN, now=NOON - SECOND), Refused)


def test_a_clock_before_everybody_joined_keeps_nobody_out(kitchen: Doorway) -> None:
    """A machine that starts in another year: the right PIN opens, so that a cook can be stopped; a wrong one not."""
    k, _, ana, device = kitchen
    early = NOON - timedelta(days=900)
    signed_in(k, device, ana, early)
    assert sign_in(k, device=device, person=ana, secret=WRONG, now=early) == NO_MATCH
