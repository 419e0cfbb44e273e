"""The content as the program came with it on 28 November 2026: what a kitchen that copied it then still has.

Its files of words and numbers are kept as they were; of a drawing only that it is there.
"""

from __future__ import annotations

import re
import tarfile
from pathlib import Path

KEPT = Path(__file__).parent / "older" / "content_2026_11_28.tar.xz"
FIGURE = re.compile(r"figure: (\w+\.svg)")


def older_content(folder: Path) -> Path:
    """Unpack the older content into a folder, which becomes that of a kitchen with its own; return the content."""
    with tarfile.open(KEPT) as kept:
        kept.extractall(folder, filter="data")
    for structure in folder.glob("content/techniques/*/technique.yaml"):
        for name in FIGURE.findall(structure.read_text(encoding="utf-8")):
            (structure.parent / name).write_text("<svg/>", encoding="utf-8")
    return folder / "content"
