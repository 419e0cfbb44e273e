"""When a service can have begun: what is signed as worked must not lie ahead.

Common practice: breakfast from about 6, lunch from about 11, dinner from about 17. The hours here lie well before that,
so that no house with early hours is refused; they only keep a dinner from being signed at noon.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time

EARLIEST: Mapping[str, time] = {"breakfast": time(4), "lunch": time(10), "dinner": time(15)}


def has_begun(service: str, on: date, now: datetime) -> bool:
    """Return whether a service of a day can have begun by a moment of the kitchen's own clock."""
    return (on, EARLIEST.get(service, time.min)) <= (now.date(), now.time())
