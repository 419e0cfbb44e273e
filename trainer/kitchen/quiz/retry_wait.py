"""How long a cook waits after a failed sitting before the next one.

10 CFR 55.35 lets an operator sit again after two months, then six, then twenty-four. The days here are the house's own,
on a kitchen's scale. A cook who knows 70 % passes 8 of 10 once in 38 of 100, but within three tries in 76.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from datetime import date, timedelta
from typing import Protocol, TypeVar

DAYS = (1, 3, 14)
"""Days to wait after the first, the second, and every further fail since the last pass."""


class SatQuiz(Protocol):
    """A finished sitting: its entry, its day, and whether it was passed or failed.

    A voided question may leave it neither.
    """

    @property
    def entry(self) -> str: ...  # noqa: D102
    @property
    def on(self) -> date: ...  # noqa: D102
    @property
    def passed(self) -> bool: ...  # noqa: D102
    @property
    def failed(self) -> bool: ...  # noqa: D102


SittingT = TypeVar("SittingT", bound=SatQuiz)


def fails_since_pass(sittings: Iterable[SittingT]) -> tuple[SittingT, ...]:
    """Return the failed sittings of one technique since the last pass, in the order of the book."""
    failed: list[SittingT] = []
    for sitting in sittings:
        if sitting.passed:
            failed.clear()
        elif sitting.failed:
            failed.append(sitting)
    return tuple(failed)


def may_sit_from(sittings: Iterable[SatQuiz], days: Sequence[int] = DAYS, lifted: Collection[str] = ()) -> date | None:
    """Return the first day the quiz may be sat again, None where nothing stands in the way.

    *sittings* are of one technique in the order of the book; fails count from the last pass on. *lifted* are the
    entries of fails whose wait was lifted: the last fail asks for none then, and counts for the next all the same.
    """
    failed = fails_since_pass(sittings)
    if not failed or failed[-1].entry in lifted:
        return None
    return failed[-1].on + timedelta(days=days[min(len(failed), len(days)) - 1])
