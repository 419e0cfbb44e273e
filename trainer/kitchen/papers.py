"""Papers, the texts beside the book: which fields of which entries name one by its digest, and long ones packed.

Packed is by zlib (RFC 1950).
"""

from __future__ import annotations

import zlib
from collections.abc import Mapping
from typing import Any

from trainer.kitchen.book import canonical

PAPERS: Mapping[str, tuple[str, ...]] = {
    "person_named": ("name",),
    "age_seen": ("birth",),
    "authority_ended": ("reason",),
    "book_upgraded": ("days",),
    "quiz_sat": ("shown",),
    "standard_published": ("rules", "texts"),
}
DROPS = ("paper_dropped", "person_erased")
"""What takes texts away and says so: one text by its digest, or all about a person."""


def papers_named(kind: str, body: Mapping[str, Any]) -> frozenset[str]:
    """Return the digests an entry names; none for a kind without texts.

    >>> sorted(papers_named("age_seen", {"birth": "ab12", "seen": "passport"}))
    ['ab12']
    """
    return frozenset(str(body[name]) for name in PAPERS.get(kind, ()) if body.get(name))


MOST_BYTES = 1_000_000
_PACKED = b"\x78"
"""How a packed paper begins (RFC 1950, section 2.2: CMF of deflate with a 32 K window); no JSON begins so."""


def packed(value: Mapping[str, Any]) -> bytes:
    """Return a value as a packed paper."""
    return zlib.compress(canonical(value).encode(), 9)


def paper_text(paper: bytes) -> str:
    """Return the text of a paper, packed or not; ValueError for one that is no text, or too long to be one of ours.

    >>> paper_text(packed({"a": 1})), paper_text(b"a note")
    ('{"a":1}', 'a note')
    """
    if not paper.startswith(_PACKED):
        return paper.decode()
    unpacking = zlib.decompressobj()
    try:
        found = unpacking.decompress(paper, MOST_BYTES)
    except zlib.error:
        return paper.decode()  # a text that begins with the same letter
    if not unpacking.eof:
        raise ValueError(f"A packed paper holds at most {MOST_BYTES} bytes.")
    return found.decode()
