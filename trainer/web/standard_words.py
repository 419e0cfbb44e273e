"""Entries about the book and its standards in words: what was published, what was taken over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from trainer.messages import Text, joined, message, plural
from trainer.web.filters import weekday

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "standard_published": message("Standard published"),
    "book_upgraded": message("Book taken over from an earlier program"),
}


def _published(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which standard was published, since when it holds, and how much it rules."""
    del naming
    number, rules = body["number"], body["rules"]
    in_force = message(
        "Standard {number}, in force from {since}", number=number, since=weekday(date.fromisoformat(body["since"]))
    )
    if body.get("not_kept_before"):
        in_force = message("Standard {number}, in force on every day before too: none was kept then", number=number)
    stations = plural("{number} station", "{number} stations", len(rules["stations"]))
    techniques = plural("{number} technique", "{number} techniques", len(rules["techniques"]))
    return [in_force, joined([stations, techniques], ", ")]


def _upgraded(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return how many entries were taken over as they were written."""
    del naming
    return [plural("{number} entry of before", "{number} entries of before", body["size"])]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "standard_published": _published,
    "book_upgraded": _upgraded,
}
