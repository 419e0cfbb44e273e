"""Days between a failed sitting and the next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import pytest

from trainer.kitchen.quiz.retry_wait import may_sit_from


@dataclass
class Sat:
    """A finished sitting."""

    on: date
    passed: bool = False
    failed: bool = True

    @property
    def entry(self) -> str:
        """Return a name of its own for each day."""
        return f"on {self.on.day}"


def fails(*days: int) -> list[Sat]:
    """Return failed sittings on these days of March."""
    return [Sat(date(2026, 3, day)) for day in days]


PASS, UNDECIDED = Sat(date(2026, 3, 2), passed=True, failed=False), Sat(date(2026, 3, 20), failed=False)


def test_nobody_waits_who_failed_nothing() -> None:
    """Neither before the first sitting nor after a pass."""
    assert may_sit_from([]) is None
    assert may_sit_from([*fails(1), PASS]) is None


@pytest.mark.parametrize(
    ("days", "expected"),
    [
        ((2,), date(2026, 3, 3)),
        ((2, 3), date(2026, 3, 6)),
        ((2, 3, 6), date(2026, 3, 20)),
        ((2, 3, 6, 20), date(2026, 4, 3)),
    ],
)
def test_the_wait_grows_with_every_fail(days: tuple[int, ...], expected: date) -> None:
    """One day after the first, three after the second, fourteen from the third on (the house's own days).

    The shape is that of 10 CFR 55.35: two months, six, twenty-four.
    """
    assert may_sit_from(fails(*days)) == expected


def test_a_pass_wipes_the_fails_before_it() -> None:
    """The next fail is a first one again."""
    assert may_sit_from([*fails(1, 1), PASS, *fails(5)]) == date(2026, 3, 6)


def test_a_sitting_left_undecided_is_no_fail() -> None:
    """A voided question may leave a sitting neither passed nor failed: it starts no wait and ends none."""
    assert may_sit_from([UNDECIDED]) is None
    assert may_sit_from([*fails(2), UNDECIDED]) == date(2026, 3, 3)


def test_the_days_are_the_houses_to_choose() -> None:
    """A house may ask for other days."""
    assert may_sit_from(fails(2, 4), days=(2, 7)) == date(2026, 3, 11)


def test_a_lifted_wait_is_no_wait_and_the_fail_still_counts() -> None:
    """After the second fail nothing is waited for; the third asks for its fourteen days all the same."""
    assert may_sit_from(fails(2, 3), lifted=["on 3"]) is None
    assert may_sit_from(fails(2, 3), lifted=["on 2"]) == date(2026, 3, 6)
    assert may_sit_from(fails(2, 3, 4), lifted=["on 3"]) == date(2026, 3, 18)
