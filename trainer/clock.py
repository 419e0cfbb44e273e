"""The only reader of wall time; used by the edge alone."""

from datetime import UTC, datetime


def now() -> datetime:
    """Return this moment in UTC, to the millisecond."""
    moment = datetime.now(UTC)  # noqa: TID251 - this is the one place
    return moment.replace(microsecond=moment.microsecond // 1000 * 1000)
