"""The only reader of wall time; used by the edge alone."""

import time
from datetime import UTC, datetime

STEADY = getattr(time, "CLOCK_BOOTTIME", time.CLOCK_MONOTONIC)
"""The clock that nobody sets and that counts sleep: Linux has one of its own; on macOS the monotonic one does."""


def now() -> datetime:
    """Return this moment in UTC, to the millisecond."""
    moment = datetime.now(UTC)  # noqa: TID251 - this is the one place
    return moment.replace(microsecond=moment.microsecond // 1000 * 1000)


def steady() -> float:
    """Return seconds on the machine's steady clock, from a beginning of its own; setting the time changes nothing."""
    return time.clock_gettime(STEADY)
