"""What the machine under a kitchen can be asked: the sort of disk a folder is on, and whether its clock is right.

Both by what Linux says (the table of mounts, the state of the kernel's clock); elsewhere nothing is known.
"""

from __future__ import annotations

import ctypes
import re
import sys
from pathlib import Path

MOUNTS = Path("/proc/self/mountinfo")
TIME_ERROR = 5  # what adjtimex(2) returns while nothing keeps the clock right
ROOM_FOR_TIMEX = 1024  # bytes; the kernel's record has fewer


def disk_of(folder: Path, mounts: Path | None = None) -> str:
    """Return the sort of file system a folder is on, by the table of mounts (`ext4`, `nfs4`, `fuse.sshfs`); "" unknown.

    The last mount at the longest path counts, as in proc(5).
    """
    try:
        lines = (mounts or MOUNTS).read_text("utf-8", "surrogateescape").splitlines()
    except OSError:
        return ""
    place, longest, kind = folder.resolve(), 0, ""
    for line in lines:
        before, _, after = line.partition(" - ")
        point = Path(_plain(before.split(" ")[4]))
        if len(point.parts) >= longest and (point == place or point in place.parents):
            longest, kind = len(point.parts), after.split(" ")[0]
    return kind


def _plain(text: str) -> str:
    """Return a path of the table with its blanks back in: they stand there as octal figures."""
    return re.sub(r"\\([0-7]{3})", lambda match: chr(int(match[1], 8)), text)


def clock_is_kept_right() -> bool | None:
    """Return whether the kernel says that a time server keeps the clock right; None where it cannot be asked."""
    if not sys.platform.startswith("linux"):
        return None
    try:
        state = ctypes.CDLL(None).adjtimex(ctypes.create_string_buffer(ROOM_FOR_TIMEX))
    except (OSError, AttributeError):
        return None
    return None if state < 0 else state != TIME_ERROR
