"""Guessing is slowed down: the table of waits, for a person on a device and for an address, with our own clock."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.store.kitchens import NOON, new_kitchen
from trainer.store.throttle import ADDRESS_KEPT, PersonOnDevice, Throttle, address_pair, pair_of, wait_after

TABLE = [(1, 0), (4, 0), (5, 30), (6, 60), (7, 120), (8, 240), (9, 480), (10, 900), (11, 900), (99, 900)]
ANA = pair_of("ana", "tablet")
STRANGER = address_pair("192.0.2.7")


@pytest.fixture
def throttle(tmp_path: Path) -> Throttle:
    """Return the counts of a new kitchen."""
    return new_kitchen(tmp_path).throttle


@pytest.mark.parametrize(("wrong", "seconds"), TABLE)
def test_the_wait_doubles_from_30_seconds_to_15_minutes(wrong: int, seconds: int) -> None:
    """Five wrong tries: 30 s; each further one doubles it; never more than 15 minutes."""
    assert wait_after(wrong) == timedelta(seconds=seconds)


def _guess(throttle: Throttle, times: int, at: datetime, pair: PersonOnDevice = ANA) -> datetime:
    """Guess as often as that, as soon as it is allowed each time; return when the last one was."""
    for _ in range(times):
        at = max(at, throttle.standing(pair).until or at)
        assert not throttle.standing(pair).must_wait(at)
        throttle.count_wrong(pair, at)
    return at


def test_the_fifth_wrong_try_makes_wait_to_the_second(throttle: Throttle) -> None:
    """A try is refused until the wait is over, and taken at its last moment."""
    _guess(throttle, 4, NOON)
    assert not throttle.standing(ANA).must_wait(NOON)
    _guess(throttle, 1, NOON)
    standing = throttle.standing(ANA)
    assert standing.until == NOON + timedelta(seconds=30)
    assert standing.must_wait(NOON + timedelta(seconds=29))
    assert not standing.must_wait(NOON + timedelta(seconds=30))


@pytest.mark.parametrize("other", [pair_of("ana", "phone"), pair_of("bo", "tablet"), STRANGER])
def test_no_other_person_and_no_other_device_waits(throttle: Throttle, other: PersonOnDevice) -> None:
    """Counted for the pair, and for nobody else."""
    _guess(throttle, 5, NOON)
    assert throttle.standing(other).wrong == 0


def test_a_right_secret_clears_the_pair_alone(throttle: Throttle) -> None:
    """A guesser's own secret does not clear what they guessed about others on that device."""
    _guess(throttle, 3, NOON, pair_of("bo", "tablet"))
    _guess(throttle, 1, NOON)
    throttle.clear(ANA)
    assert throttle.standing(ANA).wrong == 0
    assert throttle.standing(pair_of("bo", "tablet")).wrong == 3


def test_clearing_a_person_opens_every_device(throttle: Throttle) -> None:
    """And leaves the others as they were."""
    pairs = pair_of("ana", "tablet"), pair_of("ana", "phone"), pair_of("bo", "tablet")
    for pair in pairs:
        _guess(throttle, 2, NOON, pair)
    throttle.clear_person("ana")
    assert [throttle.standing(pair).wrong for pair in pairs] == [0, 0, 2]


def test_the_hundredth_wrong_try_closes_the_pair(throttle: Throttle) -> None:
    """No wait is long enough then. NIST SP 800-63B-4, 3.2.2: no more than 100 in a row (from memory)."""
    at = _guess(throttle, 100, NOON)
    assert throttle.standing(ANA).is_disabled
    assert throttle.standing(ANA).must_wait(at + timedelta(days=365))


def test_a_day_of_guessing_is_fewer_than_110_tries(throttle: Throttle) -> None:
    """One try per 15 minutes after the first ten: of 10^8 PINs, that finds none worth speaking of."""
    tries, at = 0, NOON
    while at < NOON + timedelta(days=1) and not throttle.standing(ANA).is_disabled:
        at = _guess(throttle, 1, at)
        tries += 1
    assert tries <= 110


def test_an_address_waits_and_is_never_closed(throttle: Throttle) -> None:
    """Anyone who enrols a device from there may do it a quarter of an hour later."""
    at = _guess(throttle, 150, NOON, STRANGER)
    assert throttle.standing(STRANGER).must_wait(at)
    assert not throttle.standing(STRANGER).must_wait(at + timedelta(minutes=15))


def test_addresses_not_heard_of_for_a_day_are_dropped(throttle: Throttle) -> None:
    """Strangers do not fill the disk; people's counts stay."""
    _guess(throttle, 3, NOON, STRANGER)
    _guess(throttle, 3, NOON)
    throttle.count_wrong(address_pair("192.0.2.8"), NOON + ADDRESS_KEPT + timedelta(seconds=1))
    assert throttle.standing(STRANGER).wrong == 0
    assert throttle.standing(ANA).wrong == 3


def test_whoever_is_asked_for_is_kept_as_a_hash(throttle: Throttle) -> None:
    """What is typed for a name may be anything, and an address is nobody's business."""
    assert "ana" not in pair_of("ana", "tablet").person
    assert "192" not in STRANGER.device
    assert throttle.count_wrong(pair_of("x" * 100_000, "tablet"), NOON).wrong == 1


def test_checks_of_a_pair_come_one_by_one_and_leave_nothing_behind(throttle: Throttle) -> None:
    """The locks of pairs nobody asks for are not kept."""
    with throttle.one_at_a_time(ANA), throttle.one_at_a_time(STRANGER):
        assert len(throttle._checks) == 2
    assert throttle._checks == {}
