"""One's own phone: whose it is, and what the PIN of this shift still opens there."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from tests.actions.people_at_the_door import MINUTE, NOON, signed_in, staffed, tablet
from tests.printed import english
from trainer.actions.enrolling import revoke_device
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.own_phone import make_own, owner_of, remembered, share_again
from trainer.actions.signing_in import Done, choose_secret, session_of
from trainer.actions.standing import Leaving, cook_leaves
from trainer.kitchen.security import SECURITY
from trainer.store.settings import OwnPhone

HOUR = timedelta(hours=1)
IDLE = 20 * MINUTE


@pytest.fixture
def phone(tmp_path: Path) -> tuple[Kitchen, str, str, str, str]:
    """Return a kitchen, its manager, Ana, Ana's own phone and the token of her session there, begun at noon."""
    k, manager, ana = staffed(tmp_path)
    device = tablet(k, manager, "Ana's phone")
    token = signed_in(k, device, ana)
    assert isinstance(make_own(k, device=device, person=ana, now=NOON), Done)
    return k, manager, ana, device, token


Phone = tuple[Kitchen, str, str, str, str]


def test_an_idle_session_is_remembered_on_ones_own_phone(phone: Phone) -> None:
    """It is no live session any more, and it is not made one by being looked at."""
    k, _, ana, device, token = phone
    for minutes in (16, 60, 11 * 60):
        at = NOON + minutes * MINUTE
        found = remembered(k, token=token, device=device, now=at)
        assert found is not None
        assert found.person == ana
        assert session_of(k, token=token, now=at) is None


def test_a_session_in_use_needs_no_memory(phone: Phone) -> None:
    """Before it is idle it is a session like any other."""
    k, _, _, device, token = phone
    assert remembered(k, token=token, device=device, now=NOON + 5 * MINUTE) is None
    assert session_of(k, token=token, now=NOON + 5 * MINUTE) is not None


@pytest.mark.parametrize(("hours", "minutes", "is_remembered"), [(12, 719, True), (12, 720, False), (4, 240, False)])
def test_it_lasts_for_the_hours_the_kitchen_has_set(
    phone: Phone, hours: int, minutes: int, is_remembered: bool
) -> None:
    """To the last minute before."""
    k, _, _, device, token = phone
    k.file.change_settings(replace(k.file.settings, pin_hours=hours))
    assert (remembered(k, token=token, device=device, now=NOON + minutes * MINUTE) is not None) is is_remembered


@pytest.mark.parametrize(("opens", "is_remembered"), [("nothing", False), ("study", True), ("asking", True)])
def test_a_kitchen_may_let_it_open_nothing(phone: Phone, opens: OwnPhone, is_remembered: bool) -> None:
    """Then everybody gives their PIN after each quarter of an hour."""
    k, _, _, device, token = phone
    k.file.change_settings(replace(k.file.settings, own_phone=opens))
    assert (remembered(k, token=token, device=device, now=NOON + IDLE) is not None) is is_remembered


def test_a_token_is_worth_nothing_on_another_device(phone: Phone) -> None:
    """Somebody who took the session's cookie has another device, or none."""
    k, manager, ana, _, token = phone
    other = tablet(k, manager, "Another phone")
    assert isinstance(make_own(k, device=other, person=ana, now=NOON), Done)
    assert remembered(k, token=token, device=other, now=NOON + IDLE) is None
    assert remembered(k, token=token, device="", now=NOON + IDLE) is None


def test_a_shared_tablet_remembers_nobody(phone: Phone) -> None:
    """Nor does a phone that is shared again, by its owner or by a manager, from the same second on."""
    k, manager, ana, device, token = phone
    pass_tablet = tablet(k, manager)
    there = signed_in(k, pass_tablet, ana)
    assert remembered(k, token=there, device=pass_tablet, now=NOON + IDLE) is None
    for by in (ana, manager):
        make_own(k, device=device, person=ana, now=NOON)
        assert remembered(k, token=token, device=device, now=NOON + IDLE) is not None
        assert isinstance(share_again(k, device=device, by=by, now=NOON), Done)
        assert remembered(k, token=token, device=device, now=NOON + IDLE) is None


def test_a_lost_phone_remembers_nobody_once_it_is_revoked(phone: Phone) -> None:
    """At once."""
    k, manager, _, device, token = phone
    assert isinstance(revoke_device(k, device=device, by=manager, now=NOON + MINUTE), Done)
    assert remembered(k, token=token, device=device, now=NOON + IDLE) is None
    assert owner_of(k, device=device, now=NOON + IDLE) is None


def test_who_left_is_remembered_nowhere(phone: Phone) -> None:
    """The phone is nobody's own then."""
    k, manager, ana, device, token = phone
    cook_leaves(k, by=manager, leaving=Leaving(ana, "Moved away"), now=NOON + MINUTE, key="left")
    assert remembered(k, token=token, device=device, now=NOON + IDLE) is None
    assert owner_of(k, device=device, now=NOON + IDLE) is None


def test_a_new_secret_chosen_elsewhere_ends_it(phone: Phone) -> None:
    """Who chooses a new PIN because the old one was seen is asked for it on the phone."""
    k, manager, ana, device, token = phone
    there = signed_in(k, tablet(k, manager), ana)
    assert isinstance(choose_secret(k, token=there, secret="59173026", now=NOON + MINUTE), Done)
    assert remembered(k, token=token, device=device, now=NOON + IDLE) is None


def test_nobody_makes_a_tablet_their_own_that_others_use(phone: Phone) -> None:
    """Somebody else signed in there within 30 days; after that it may change hands."""
    k, manager, ana, _, _ = phone
    device = tablet(k, manager)
    signed_in(k, device, manager)
    refused = make_own(k, device=device, person=ana, now=NOON + timedelta(days=29))
    assert isinstance(refused, Refused)
    assert "30 days" in english(refused.reason)
    assert isinstance(make_own(k, device=device, person=ana, now=NOON + timedelta(days=30)), Done)


def test_a_phone_has_one_owner(phone: Phone) -> None:
    """A second is refused with the first one's name; a device nobody enrolled is nobody's."""
    k, manager, _, device, _ = phone
    refused = make_own(k, device=device, person=manager, now=NOON)
    assert isinstance(refused, Refused)
    assert "Ana Roux" in english(refused.reason)
    assert isinstance(make_own(k, device="nowhere", person=manager, now=NOON), Refused)


def test_whose_phone_it_is_stands_in_the_book(phone: Phone) -> None:
    """Made one's own, shared again by its owner or a manager: an entry each, with who did it, and none where nothing
    changes. OWASP ASVS 5.0.0, 16.3.1 (from memory): what lets a person in is logged, with when, where, who and what.
    """
    k, manager, ana, device, _ = phone
    make_own(k, device=device, person=ana, now=NOON + MINUTE)
    share_again(k, device=device, by=ana, now=NOON + MINUTE)
    share_again(k, device=device, by=ana, now=NOON + MINUTE)
    make_own(k, device=device, person=ana, now=NOON + 2 * MINUTE)
    share_again(k, device=device, by=manager, now=NOON + 3 * MINUTE)
    found = [entry for entry in k.file.book.since(0) if entry.kind in ("phone_made_own", "phone_shared")]
    assert [(entry.kind, entry.by) for entry in found] == [
        ("phone_made_own", ana),
        ("phone_shared", ana),
        ("phone_made_own", ana),
        ("phone_shared", manager),
    ]
    assert {(entry.cook, entry.body["device"]) for entry in found} == {(ana, device)}
    assert {entry.kind for entry in found} <= set(SECURITY)


def test_a_phone_made_own_by_an_older_program_is_shared_again(phone: Phone) -> None:
    """It has no entry of the day it was made so; the book takes the later one all the same, and stays whole."""
    k, manager, ana, _, _ = phone
    device = tablet(k, manager, "Kept by an older program")
    k.file.devices.give_to(device, ana)
    owner = owner_of(k, device=device, now=NOON)
    assert owner is not None
    assert isinstance(share_again(k, device=device, by=ana, now=NOON + MINUTE), Done)
    assert owner_of(k, device=device, now=NOON + MINUTE) is None
    assert k.file.book.of_kind("phone_shared")[-1].body == {"device": device}
    assert k.file.book.verify().is_whole


def test_a_colleague_does_not_take_a_phone_from_its_owner(phone: Phone) -> None:
    """Only its owner or a manager lets it be shared."""
    k, _, ana, device, _ = phone
    assert isinstance(share_again(k, device=device, by="somebody", now=NOON), Refused)
    owner = owner_of(k, device=device, now=NOON)
    assert owner is not None
    assert owner.id == ana


def test_erasing_a_person_leaves_no_phone_with_their_name(phone: Phone) -> None:
    """Nor when they used a tablet last."""
    k, _, ana, device, _ = phone
    k.file.people.erase(ana)
    found = k.file.devices.get(device)
    assert found is not None
    assert found.owner == ""
    assert ana not in k.file.devices.users_of(device)
