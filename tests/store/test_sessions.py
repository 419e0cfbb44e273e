"""Devices, sessions, and what the file keeps of their tokens."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from tests.store.kitchens import NOON, new_kitchen
from trainer.store.identity import new_token

MINUTE = timedelta(minutes=1)
HOUR = timedelta(hours=1)


def test_only_the_hash_of_a_token_is_kept(tmp_path: Path) -> None:
    """Nobody who reads the file finds a token or a device secret in it."""
    file = new_kitchen(tmp_path)
    token = file.sessions.open("ana", "tablet", NOON, 15)
    _, secret = file.devices.enrol("Tablet by the pass", "ana", NOON)
    file.close()
    kept = file.path.read_bytes()
    assert token.encode() not in kept
    assert secret.encode() not in kept


def test_a_token_has_256_bits() -> None:
    """OWASP ASVS 5.0.0, 7.2.3, asks for 128 at least; 32 bytes are 43 characters of base64."""
    assert len(new_token()) == 43
    assert new_token() != new_token()


@pytest.mark.parametrize(
    ("idle", "after", "live"), [(15, 14.9, True), (15, 15, False), (30, 29, True), (30, 30, False)]
)
def test_an_idle_session_ends(tmp_path: Path, idle: int, after: float, live: bool) -> None:
    """At the idle limit it is over; just before it, it is not."""
    sessions = new_kitchen(tmp_path).sessions
    token = sessions.open("ana", "tablet", NOON, idle)
    assert (sessions.find(token, NOON + after * MINUTE) is not None) is live


def test_a_session_that_is_used_lives_on_but_never_past_12_hours(tmp_path: Path) -> None:
    """Each use starts the idle time again; the absolute limit stands."""
    sessions = new_kitchen(tmp_path).sessions
    token = sessions.open("ana", "tablet", NOON, 15)
    at = NOON
    while at < NOON + 12 * HOUR - 10 * MINUTE:
        at += 10 * MINUTE
        assert sessions.seen(token, at) is not None
    assert sessions.seen(token, NOON + 12 * HOUR) is None
    assert sessions.drop_old(NOON + 12 * HOUR) == 1


def test_a_session_from_the_future_does_not_count(tmp_path: Path) -> None:
    """A clock that was set back opens nothing."""
    sessions = new_kitchen(tmp_path).sessions
    assert sessions.find(sessions.open("ana", "tablet", NOON, 15), NOON - MINUTE) is None


def test_proving_again_renews_the_proof(tmp_path: Path) -> None:
    """The moment of the proof is kept apart from the moment last seen."""
    sessions = new_kitchen(tmp_path).sessions
    token = sessions.open("ana", "tablet", NOON, 15)
    sessions.seen(token, NOON + 5 * MINUTE)
    before = sessions.find(token, NOON + 5 * MINUTE)
    sessions.prove(token, NOON + 6 * MINUTE)
    after = sessions.find(token, NOON + 6 * MINUTE)
    assert before is not None
    assert after is not None
    assert (before.proved_at, before.seen_at) == (NOON, NOON + 5 * MINUTE)
    assert after.proved_at == NOON + 6 * MINUTE


def test_signing_out_bites_at_once(tmp_path: Path) -> None:
    """One session, or all of a person's."""
    sessions = new_kitchen(tmp_path).sessions
    first, second, third = (sessions.open("ana", "tablet", NOON, 15) for _ in range(3))
    sessions.close(first)
    assert sessions.find(first, NOON) is None
    assert sessions.find(second, NOON) is not None
    sessions.close_all_of("ana")
    assert sessions.find(third, NOON) is None


def test_a_revoked_device_is_unknown_and_its_sessions_are_closed(tmp_path: Path) -> None:
    """Others stay open; the device stays listed, with the moment."""
    file = new_kitchen(tmp_path)
    tablet, secret = file.devices.enrol("Tablet", "ana", NOON)
    phone, _ = file.devices.enrol("Phone", "ana", NOON)
    gone = file.sessions.open("ana", tablet.id, NOON, 15)
    stays = file.sessions.open("ana", phone.id, NOON, 15)
    assert file.devices.find(secret) == tablet
    file.devices.revoke(tablet.id, NOON + MINUTE)
    assert file.devices.find(secret) is None
    assert (file.sessions.find(gone, NOON), file.sessions.find(stays, NOON) is None) == (None, False)
    assert {device.name: device.revoked_at for device in file.devices.all()} == {"Tablet": NOON + MINUTE, "Phone": None}


def test_a_secret_with_half_a_character_is_just_unknown(tmp_path: Path) -> None:
    """Whatever a cookie holds, the answer is nobody."""
    file = new_kitchen(tmp_path)
    assert file.devices.find("\ud800") is None
    assert file.sessions.find("", NOON) is None
    assert file.people.find("\ud800") is None
