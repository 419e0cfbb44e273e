"""Entries about help in words: what a cook asked to be shown, and that it was shown."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.skill_words import skill_named

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "help_asked": message("Asked to be shown"),
    "help_given": message("Shown what was asked for"),
}


def what_is_asked(technique: str, step: str, skill: str) -> Text:
    """Return what a cook wants to be shown: a step by its name or a skill, with the technique it is of."""
    found = reading.content().techniques.get(technique)
    title = found.title if found else technique
    names = {each.id: each.title for each in found.steps} if found else {}
    return joined([skill_named(skill) if skill else names.get(step, step), title], ", ")


def _asked(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return what was asked for, and whom the button named."""
    what = what_is_asked(body["technique"], body["step"], body["skill"])
    return [what, message("Asked: {name}", name=naming.person(body["whom"]))] if body["whom"] else [what]


def _given(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return what was asked for, and where."""
    asked = guard.kitchen().file.book.find(body["asked"])
    what = [what_is_asked(asked.body["technique"], asked.body["step"], asked.body["skill"])] if asked else []
    return [*what, message("Asked in entry {entry}", entry=naming.entry(body["asked"]))]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {"help_asked": _asked, "help_given": _given}
