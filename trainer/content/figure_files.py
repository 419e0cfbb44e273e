"""The drawings of a technique's steps, read from its folder, ready to stand in a page."""

from __future__ import annotations

import re
from pathlib import Path

HEAD = re.compile(r"<\?xml.*?\?>|<!DOCTYPE.*?>|<!--.*?-->", re.DOTALL)


def figure(content: Path, technique: str, name: str) -> str:
    """Return a figure of a content folder as SVG text without prologue and comments; empty where there is none.

    Only a plain file name is looked for.
    """
    return figure_in(content / "techniques" / technique, name)


def figure_in(folder: Path, name: str) -> str:
    """Return a figure that lies in a technique's folder; only a plain file name is looked for."""
    path = folder / name
    if not name.endswith(".svg") or Path(name).name != name or not path.is_file():
        return ""
    return HEAD.sub("", path.read_text(encoding="utf-8")).strip()
