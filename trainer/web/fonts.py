"""The two faces, read from their packages and pressed once: text, its bold, and the marker on tape."""

from __future__ import annotations

import gzip
from functools import cache
from importlib import resources

FACES = {
    "text": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Regular.ttf"),
    "bold": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Bold.ttf"),
    "tape": ("fontpkg_permanent_marker", "PermanentMarker-Regular.ttf"),
}


@cache
def face(name: str, *, pressed: bool) -> bytes:
    """Return a face's file, gzipped if *pressed*; KeyError for a name that is none of ours."""
    package, file = FACES[name]
    plain = resources.files(package).joinpath("files", file).read_bytes()
    return gzip.compress(plain, 9, mtime=0) if pressed else plain
