"""Heads that enrolled devices reported and the book did not have, in a small file of the kitchen's folder.

The file lies beside the book, not in it: where another book was put in its place, the report outlives the exchange.
"""

from __future__ import annotations

import json
from contextlib import suppress
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path

NOTE = "device_heads.json"
MOST = 50
"""How many reports are kept: the newest. A kitchen has fewer devices."""


@dataclass(frozen=True, slots=True)
class DeviceHead:
    """A head a device reported: which device, the short head as text, and when (ISO 8601, UTC)."""

    device: str
    head: str
    at: str


def device_heads(folder: Path) -> tuple[DeviceHead, ...]:
    """Return what was reported in a kitchen's folder, the oldest first; nothing where nothing can be read."""
    try:
        return tuple(DeviceHead(**each) for each in json.loads((folder / NOTE).read_text("utf-8")))
    except (OSError, ValueError, TypeError):
        return ()


def note_device_head(folder: Path, device: str, head: str, at: datetime) -> None:
    """Keep a report, once for each device and head; where the disk does not take it, the device itself still knows."""
    known = device_heads(folder)
    if any((each.device, each.head) == (device, head) for each in known):
        return
    kept = (*known, DeviceHead(device, head, at.isoformat(timespec="seconds")))[-MOST:]
    part = folder / f"{NOTE}.part"
    with suppress(OSError):
        part.write_text(json.dumps([asdict(each) for each in kept], ensure_ascii=False), "utf-8")
        part.replace(folder / NOTE)
