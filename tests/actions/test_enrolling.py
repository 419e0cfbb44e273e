"""Letting a device in: a code of eight digits, ten minutes, once; from a manager or from the machine itself."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from pathlib import Path

import pytest

from tests.actions.people_at_the_door import MINUTE, NOON, SECOND, id_of, staffed
from tests.printed import english
from trainer.actions.enrolling import (
    AtTheDoor,
    Enrolled,
    Invited,
    enrol_with_code,
    invite_device,
    revoke_device,
)
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.kitchen.book import LOCAL, NewEntry
from trainer.store.kitchen_file import KitchenFile

HERE, THERE = "192.0.2.7", "192.0.2.8"


@pytest.fixture
def house(tmp_path: Path) -> tuple[Kitchen, str]:
    """Return a kitchen in which no device is enrolled, and its manager."""
    k, manager, _ = staffed(tmp_path)
    return k, manager


def code(k: Kitchen, by: str = LOCAL) -> str:
    """Return a code made at noon."""
    invited = invite_device(k, by=by, now=NOON)
    assert isinstance(invited, Invited)
    assert len(invited.code) == 8
    assert invited.code.isdigit()
    return invited.code


def enrols(k: Kitchen, typed: str, after: timedelta = SECOND, *, name: str = "Tablet", address: str = HERE) -> object:
    """Type a code on a device a while after noon."""
    return enrol_with_code(k, given=AtTheDoor(typed, name, address), now=NOON + after)


def test_a_code_lets_one_device_in_once(house: tuple[Kitchen, str]) -> None:
    """The second device needs another code."""
    k, _ = house
    typed = code(k)
    assert isinstance(enrols(k, typed), Enrolled)
    assert isinstance(enrols(k, typed), Refused)
    assert len(k.file.devices.all()) == 1


@pytest.mark.parametrize(("after", "is_good"), [(10 * MINUTE - SECOND, True), (10 * MINUTE, False)])
def test_a_code_is_good_for_ten_minutes(house: tuple[Kitchen, str], after: timedelta, is_good: bool) -> None:
    """Its last second included."""
    k, _ = house
    assert isinstance(enrols(k, code(k), after), Enrolled) is is_good


def test_a_clock_set_back_makes_no_code_good_for_longer(house: tuple[Kitchen, str]) -> None:
    """A code of an hour ahead opens nothing."""
    k, _ = house
    assert isinstance(enrols(k, code(k), -60 * MINUTE), Refused)


def test_the_newest_code_is_the_only_one(house: tuple[Kitchen, str]) -> None:
    """One that was read over a shoulder is good no more once another is made."""
    k, _ = house
    first, second = code(k), code(k)
    assert isinstance(enrols(k, first), Refused)
    assert isinstance(enrols(k, second), Enrolled)


def test_the_entry_says_who_let_it_in_and_how(house: tuple[Kitchen, str]) -> None:
    """From a manager on an enrolled device, or from the machine; it comes from the new device itself."""
    k, manager = house
    for by, way in ((LOCAL, "local"), (manager, "invitation")):
        made = enrols(k, code(k, by), name=f" {way}  tablet ")
        assert isinstance(made, Enrolled)
        entry = k.file.book.of_kind("device_enrolled")[-1]
        assert entry.body == {"device": made.device.id, "name": f"{way} tablet", "way": way}
        assert (entry.by, entry.device) == (by, made.device.id)


def test_a_cook_invites_nothing_and_a_manager_who_is_none_any_more_neither(house: tuple[Kitchen, str]) -> None:
    """The code dies with the role."""
    k, manager = house
    ana = id_of(k, "002")
    assert isinstance(invite_device(k, by=ana, now=NOON), Refused)
    k.file.book.append(NewEntry("cook_changed", NOON, ana, manager, {"roles": ["cook", "manager"]}, "given"))
    typed = code(k, ana)
    k.file.book.append(NewEntry("cook_changed", NOON, ana, manager, {"roles": ["cook"]}, "taken"))
    assert isinstance(enrols(k, typed), Refused)


def test_wrong_codes_make_that_address_wait_and_no_other(house: tuple[Kitchen, str]) -> None:
    """Five in a row: half a minute, there alone; the right code, typed from elsewhere, is good still."""
    k, _ = house
    typed = code(k)
    for _ in range(5):
        refused = enrols(k, "11112222")
        assert isinstance(refused, Refused)
        assert (english(refused.reason), refused.field) == (
            "That code does not open this. It is good for ten minutes, and once.",
            "code",
        )
    waits = enrols(k, typed)
    assert isinstance(waits, Refused)
    assert english(waits.reason).startswith("Too many wrong tries. Wait 30 seconds")
    assert isinstance(enrols(k, typed, address=THERE), Enrolled)


def test_of_eight_devices_with_one_code_at_once_one_is_let_in(house: tuple[Kitchen, str]) -> None:
    """Whatever address each has."""
    k, _ = house
    typed = code(k)
    with ThreadPoolExecutor(8) as pool:
        outcomes = list(pool.map(lambda number: enrols(k, typed, address=f"192.0.2.{number}"), range(8)))
    assert sum(isinstance(outcome, Enrolled) for outcome in outcomes) == 1
    assert len(k.file.devices.all()) == 1


def test_a_device_without_a_name_leaves_the_code_good(house: tuple[Kitchen, str]) -> None:
    """Nothing typed is lost, and nothing counted."""
    k, _ = house
    typed = code(k)
    refused = enrols(k, typed, name="  ")
    assert isinstance(refused, Refused)
    assert refused.field == "name"
    assert isinstance(enrols(k, typed), Enrolled)


def test_only_the_hash_of_a_code_is_kept(house: tuple[Kitchen, str]) -> None:
    """Nobody who reads the file finds it; another process knows it all the same."""
    k, _ = house
    typed = code(k)
    assert typed.encode() not in k.file.path.read_bytes()
    file = KitchenFile.open(k.file.folder)
    assert isinstance(enrols(Kitchen(file, k.content), typed), Enrolled)
    file.close()


def test_revoking_a_device_is_an_entry(house: tuple[Kitchen, str]) -> None:
    """By the manager; a clock that is behind keeps no lost device trusted."""
    k, manager = house
    first, second = (enrols(k, code(k)) for _ in range(2))
    assert isinstance(first, Enrolled)
    assert isinstance(second, Enrolled)
    revoke_device(k, device=first.device.id, by=manager, now=NOON + MINUTE)
    (entry,) = k.file.book.of_kind("device_revoked")
    assert (entry.by, entry.body) == (manager, {"device": first.device.id})
    revoke_device(k, device=second.device.id, by=manager, now=NOON - timedelta(days=1))
    assert all(device.revoked_at for device in k.file.devices.all())
    assert len(k.file.book.of_kind("device_revoked")) == 1
