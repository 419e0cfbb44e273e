"""Where photographs of a kitchen's own lie: beside the files of the technique they belong to."""

from __future__ import annotations

from pathlib import Path

from trainer.content.nodes import Diagnostics

ENDING = ".photo.jpg"
"""How the files of photographs end, so that no other picture that lies in a folder is taken for one."""
LARGEST = 2_000_000
JPEG = b"\xff\xd8\xff"


def photograph_in(folder: Path, name: str) -> bytes:
    """Return a photograph that lies in a technique's folder; empty where there is none, or where it is no JPEG.

    Only a plain file name is looked for.
    """
    path = folder / name
    if not name.endswith(ENDING) or Path(name).name != name or not path.is_file() or path.stat().st_size > LARGEST:
        return b""
    data = path.read_bytes()
    return data if data.startswith(JPEG) else b""


def check_photograph(line: int, name: str, folder: Path, diagnostics: Diagnostics) -> None:
    """Add a problem where no page shows a photograph that a step names; the step is taught without it."""
    if not photograph_in(folder, name):
        problem = f"There is no photograph {name} in {folder.name} that a page can show."
        diagnostics.warn(line, problem, f"Add it in the browser: a JPEG, its name ends in {ENDING}.")
