"""Entries about sign-offs looked at again in words: which sign-off, what was found, at which points."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from trainer.kitchen.practical import WORDS, note_text
from trainer.messages import Text, joined, message
from trainer.web import guard
from trainer.web.watched_words import is_kept_whole, points_in

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {"rechecked": message("Sign-off looked at again")}
FOUND_WORDS: Mapping[str, Text] = {"same": message("as it should be"), "not yet": WORDS["not yet"]}


def _rechecked(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which sign-off was looked at again, what was found, the points that were not right, and the note."""
    first = guard.kitchen().file.book.find(body["practical"])
    found = FOUND_WORDS.get(body["found"], body["found"])
    lines: list[Text] = [message("Found: {found}", found=found)]
    if first is not None:
        kept = is_kept_whole(first.body)
        technique = first.body["titles"]["technique"] if kept else naming.technique(first.body["technique"])
        words = message(
            "{technique}, signed off in entry {entry} by {name}",
            technique=technique,
            entry=first.seq,
            name=naming.person(first.by),
        )
        lines.insert(0, words)
        texts = {point.id: point.words.rstrip(".") for point in points_in(first.body, naming.content)}
        points = joined((texts.get(point, point) for point in body["points"]), "; ")
        lines += [message("Not as it should be: {points}", points=points)] if body["points"] else []
    return [*lines, *([message("Note: {note}", note=note_text(body["note"]))] if body["note"] else [])]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {"rechecked": _rechecked}
