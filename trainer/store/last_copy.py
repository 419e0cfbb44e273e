"""What is known of a kitchen's last copy, in a small file of its folder: every program that copies it writes there."""

from __future__ import annotations

import json
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from datetime import datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

NOTE = "last_copy.json"
NIGHT = time(4)
"""When a copy is due, by the kitchen's clock: after the last service, before the first."""


@dataclass(frozen=True, slots=True)
class LastCopy:
    """The last copy made and, where a later one could not be, why; moments as ISO 8601, "" for none."""

    at: str = ""
    path: str = ""
    entries: int = 0
    short_head: str = ""
    failed_at: str = ""
    failed: str = ""

    def made(self) -> datetime | None:
        """Return when the last copy was made."""
        return datetime.fromisoformat(self.at) if self.at else None


def last_copy(folder: Path) -> LastCopy:
    """Return what a kitchen's folder says of its last copy; nothing where it says nothing that can be read."""
    try:
        found = LastCopy(**json.loads((folder / NOTE).read_text("utf-8")))
        found.made()
    except (OSError, ValueError, TypeError):
        return LastCopy()
    return found


def note_copy(folder: Path, copy: LastCopy) -> None:
    """Keep what is known of the last copy; where the disk does not take it, the copy itself still counts."""
    part = folder / f"{NOTE}.part"
    with suppress(OSError):
        part.write_text(json.dumps(asdict(copy), ensure_ascii=False), "utf-8")
        part.replace(folder / NOTE)


def note_failure(folder: Path, at: datetime, why: str) -> None:
    """Keep why no copy could be made now, beside the last one that was."""
    note_copy(folder, replace(last_copy(folder), failed_at=at.isoformat(), failed=why))


def is_due(last: datetime | None, now: datetime, timezone: str) -> bool:
    """Return whether no copy was made since the last 04:00 of the kitchen: one that was off at night is due at once.

    >>> from datetime import UTC
    >>> is_due(datetime(2026, 11, 25, 4, 1, tzinfo=UTC), datetime(2026, 11, 25, 23, tzinfo=UTC), "UTC")
    False
    """
    here = now.astimezone(ZoneInfo(timezone))
    night = datetime.combine(here.date(), NIGHT, here.tzinfo)
    if night > here:
        night = datetime.combine(here.date() - timedelta(days=1), NIGHT, here.tzinfo)
    return last is None or last < night
