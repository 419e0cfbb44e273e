"""Entries about the book itself in words: what was lost with a copy put back, and heads kept outside."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from trainer.kitchen.short_head import ShortHead
from trainer.messages import Text, message
from trainer.web.authority_words import second_told

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "book_restored": message("Put back from a copy"),
    "day_closed": message("Day closed"),
    "head_witnessed": message("Check value kept outside"),
}
HOW_WORDS: Mapping[str, Text] = {"printed": message("Printed for"), "mailed": message("Mailed to")}


def _restored(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which entries were lost, the check value of the book that had them, and the second manager."""
    first, last = body["lost_from"], body["lost_to"]
    if not last:
        return [message("Entries from {first} on were lost; how many, nobody can know", first=f"{first:,}")]
    lost = message("Entries {first} to {last} were lost", first=f"{first:,}", last=f"{last:,}")
    head = [message("Check value of what was lost: {head}", head=body["head"])] if body["head"] else []
    return [lost, *head, *second_told(body, naming)]


def _head_kept(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the check value of the book so far, and where it went."""
    del naming
    value = message("Check value {head}", head=ShortHead.of(body["size"], bytes.fromhex(body["root"])).as_text())
    if "how" not in body:
        return [value]
    return [value, message("{how}: {whom}", how=HOW_WORDS.get(body["how"], body["how"]), whom=body["whom"])]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "book_restored": _restored,
    "day_closed": _head_kept,
    "head_witnessed": _head_kept,
}
