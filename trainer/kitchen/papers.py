"""Which fields of which entries name a text kept beside the book, by its digest."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

PAPERS: Mapping[str, tuple[str, ...]] = {
    "person_named": ("name",),
    "age_seen": ("birth",),
    "authority_ended": ("reason",),
    "book_upgraded": ("days",),
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
