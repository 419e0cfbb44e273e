"""What must be on the disk before anything may be said to be there."""

from __future__ import annotations

import os
from pathlib import Path


def sync(path: Path) -> None:
    """Make the disk keep a file or a folder's list of files (on systems where that can be asked)."""
    if os.name != "posix":
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
