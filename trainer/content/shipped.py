"""Finds the folders that come with the program, in a checkout and in an installed wheel alike."""

from __future__ import annotations

from pathlib import Path

import trainer


def shipped(name: str) -> Path:
    """Return the folder *name* ("content" or "demo_roster") beside the program in a checkout, or inside the wheel."""
    package = Path(trainer.__file__).resolve().parent
    inside = package / "shipped" / name
    beside = package.parent / name
    for folder in (inside, beside):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"The folder {name!r} did not come with the program; looked at {inside} and {beside}.")
