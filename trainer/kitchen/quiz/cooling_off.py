"""How long a cook waits after a failed sitting before the next one.

10 CFR 55.35 lets an operator sit again after two months, then six, then twenty-four. The days here are the house's own,
on a kitchen's scale. A cook who knows 70 % passes 8 of 10 once in 38 of 100, but within three tries in 76.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import Protocol

DAYS = (1, 3, 14)
"""Days to wait after the first, the second, and every further fail since the last pass."""


class Sitting(Protocol):
    """A finished sitting: its day, and whether it was passed or failed. A voided question may leave it neither."""

    @property
    def on(self) -> date: ...  # noqa: D102
    @property
    def passed(self) -> bool: ...  # noqa: D102
    @property
    def failed(self) -> bool: ...  # noqa: D102


def may_sit_from(sittings: Iterable[Sitting], days: Sequence[int] = DAYS) -> date | None:
    """Return the first day the quiz may be sat again, None where nothing stands in the way.

    *sittings* are of one technique in the order of the book. Fails count from the last pass on.
    """
    failed_on: list[date] = []
    for sitting in sittings:
        if sitting.passed:
            failed_on.clear()
        elif sitting.failed:
            failed_on.append(sitting.on)
    if not failed_on:
        return None
    return failed_on[-1] + timedelta(days=days[min(len(failed_on), len(days)) - 1])
