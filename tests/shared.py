"""What one process of a test run makes for all of them."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Callable
from pathlib import Path

import pytest


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], None]) -> Path:
    """Return a folder of this run, made by the first process that asks for it while the others wait."""
    own = factory.getbasetemp()
    shared = own.parent if "PYTEST_XDIST_WORKER" in os.environ else own
    folder = shared / name
    with (shared / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not folder.exists():
            begun = shared / f"{name}.begun"
            make(begun)
            begun.rename(folder)
    return folder
