"""Words with braces: numbers stand once, in the structure, and the words name them.

`{nest_weight}` prints a measured line of the technique, `{code.hot_holding}` one of the local code, and in the words
of a step or a point `{seconds}`, `{pieces}` and `{pieces_inside}` its own figures.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace

from trainer.content.nodes import Node, Sheet
from trainer.content.schema import LONG, Fields, nearest, text_of

BRACE = re.compile(r"\{([^{}]*)\}")
FIGURE = re.compile(r"[\d¼½¾⅐-⅞]")
ALT_WORDS = 15


@dataclass(frozen=True, slots=True)
class Words:
    """A words file being read, with what its braces may name.

    `faulty` are the lines that are there and have a problem of their own, told already: a brace that names one stays
    silent.
    """

    sheet: Sheet
    numbers: Mapping[str, str]
    faulty: Collection[str] = ()
    own: Mapping[str, str] = field(default_factory=dict)

    def with_own(self, own: Mapping[str, str]) -> Words:
        """Return the same, with figures of one step or point that only its words may name."""
        return replace(self, own=own)

    def of(self, node: Node | None, name: str, longest: int = LONG) -> str:
        """Return a text with its braces filled in; a figure typed in it, or an unknown brace, is noted."""
        if node is None:
            return ""
        typed = text_of(node, self.sheet, name, longest)
        self._note_figures(typed, node.line, name)
        return BRACE.sub(lambda found: self._filled(found, node.line, name), typed)

    def under(self, fields: Fields, key: str, required: bool = True, longest: int = LONG) -> str:
        """Return the text under a key, with its braces filled in."""
        return self.of(fields.node(key, required), key, longest)

    def _note_figures(self, typed: str, line: int, name: str) -> None:
        """Note a figure, or a brace that is not closed, outside the braces."""
        rest = BRACE.sub("", typed)
        figure = FIGURE.search(rest)
        if figure:
            near = rest[max(figure.start() - 10, 0) : figure.end() + 10].strip()
            mend = "Give the number a line under `standard` in technique.yaml and name it in braces, or spell it out."
            self.sheet.note(line, f"A number is typed in {name}: ... {near} ...", mend)
        if "{" in rest or "}" in rest:
            self.sheet.note(line, f"A brace in {name} is not closed.", "Write {name_of_the_line}.")

    def _filled(self, found: re.Match[str], line: int, name: str) -> str:
        """Return what a brace stands for."""
        key = found[1].strip()
        if key in self.own:
            return self.own[key]
        if key in self.numbers:
            return self.numbers[key]
        if key in self.faulty:
            return key
        self.sheet.note(line, f"{{{key}}} in {name} names no known line.", nearest(key, {*self.numbers, *self.own}))
        return key


def alt_text(words: Words, fields: Fields, key: str, expected: bool) -> str:
    """Return what a figure shows, in words; noted where it is missing, too short, or there is no figure."""
    node = fields.node(key, required=expected)
    if node is None:
        return ""
    if not expected:
        words.sheet.note(
            node.line, f"{fields.name} has words for a figure it does not show.", "Name the figure's file."
        )
    text = words.of(node, key)
    count = len(text.split())
    if count < ALT_WORDS:
        mend = f"Say in {ALT_WORDS} words or more what somebody would see."
        words.sheet.note(node.line, f"The figure of {fields.name} is told in {count} words.", mend)
    return text
