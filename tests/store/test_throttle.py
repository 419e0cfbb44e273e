"""Guessing is slowed down: the table of waits, per person and per device, with a clock of our own."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.store.kitchens import NOON, new_kitchen
from trainer.store.throttle import Throttle, device_key, person_key, wait_after

TABLE = [(1, 0), (4, 0), (5, 30), (6, 60), (7, 120), (8, 240), (9, 480), (10, 900), (11, 900), (99, 900)]


@pytest.fixture
def throttle(tmp_path: Path) -> Throttle:
    """Return the counts of a new kitchen."""
    return new_kitchen(tmp_path).throttle


@pytest.mark.parametrize(("wrong", "seconds"), TABLE)
def test_the_wait_doubles_from_30_seconds_to_15_minutes(wrong: int, seconds: int) -> None:
    """Five wrong tries: 30 s; each further one doubles it; never more than 15 minutes."""
    assert wait_after(wrong) == timedelta(seconds=seconds)


def _guess(throttle: Throttle, times: int, at: datetime, device: str = "tablet", person: str = "ana") -> datetime:
    """Guess as often as that, as soon as it is allowed each time; return when the last one was."""
    for _ in range(times):
        waits = [throttle.standing(key).until or at for key in (person_key(person), device_key(device))]
        at = max(at, *waits)
        assert throttle.count_try(person, device, at) is None
    return at


def test_the_fifth_wrong_try_makes_wait_to_the_second(throttle: Throttle) -> None:
    """A try is refused until the wait is over, and taken at its last moment."""
    _guess(throttle, 5, NOON)
    standing = throttle.count_try("ana", "tablet", NOON + timedelta(seconds=29))
    assert standing is not None
    assert standing.until == NOON + timedelta(seconds=30)
    assert throttle.count_try("ana", "tablet", NOON + timedelta(seconds=30)) is None


def test_a_refused_try_is_not_counted(throttle: Throttle) -> None:
    """Hammering while it waits makes the wait no longer."""
    _guess(throttle, 5, NOON)
    for _ in range(20):
        throttle.count_try("ana", "tablet", NOON)
    assert throttle.standing(person_key("ana")).wrong == 5


def test_a_person_waits_on_every_device(throttle: Throttle) -> None:
    """Going to another tablet does not help."""
    _guess(throttle, 5, NOON)
    assert throttle.count_try("ana", "phone", NOON) is not None


def test_a_device_waits_for_every_person(throttle: Throttle) -> None:
    """Trying one secret on one person after another does not help."""
    for person in ("ana", "bo", "cy", "di", "ed"):
        assert throttle.count_try(person, "tablet", NOON) is None
    assert throttle.count_try("fay", "tablet", NOON) is not None
    assert throttle.count_try("fay", "phone", NOON) is None


def test_a_right_secret_takes_off_ones_own_wrong_tries_alone(throttle: Throttle) -> None:
    """A guesser's own secret does not clear what they guessed about others on that device."""
    _guess(throttle, 3, NOON, person="bo")
    _guess(throttle, 1, NOON, person="ana")
    throttle.forget("ana", "tablet", NOON)
    assert throttle.standing(person_key("ana")).wrong == 0
    assert throttle.standing(person_key("bo")).wrong == 3
    assert throttle.standing(device_key("tablet")).wrong == 3


def test_the_hundredth_wrong_try_disables_until_a_manager_resets(throttle: Throttle) -> None:
    """No wait is long enough then. NIST SP 800-63B-4, 3.2.2: no more than 100 in a row (from memory)."""
    at = _guess(throttle, 100, NOON)
    standing = throttle.count_try("ana", "phone", at + timedelta(days=365))
    assert standing is not None
    assert standing.is_disabled
    throttle.reset(person_key("ana"))
    assert throttle.count_try("ana", "phone", at) is None


def test_a_day_of_guessing_is_fewer_than_110_tries(throttle: Throttle) -> None:
    """One try per 15 minutes after the first ten: of 10^8 PINs, that finds none worth speaking of."""
    tries, at = 0, NOON
    while at < NOON + timedelta(days=1) and not throttle.standing(person_key("ana")).is_disabled:
        at = _guess(throttle, 1, at)
        tries += 1
    assert tries <= 110


def test_whoever_is_asked_for_is_kept_as_a_hash(throttle: Throttle) -> None:
    """What is typed for a name may be anything, so it is not kept as it is."""
    assert "ana" not in person_key("ana")
    assert throttle.count_try("x" * 100_000, "tablet", NOON) is None
