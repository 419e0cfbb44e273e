"""Words with braces: numbers are written once, in the structure, and the words name them.

`{nest_weight}` prints a measured line of the technique, `{code.hot_holding}` one of the local code, and in the words
of a step or a point `{seconds}`, `{pieces}` and `{pieces_inside}` its own figures.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from trainer.content.declarations import Block
from trainer.content.kinds import BRACE, Table, Written
from trainer.content.limits import First, label_text, limit_text
from trainer.content.mapping_reader import nearest
from trainer.content.nodes import Diagnostics
from trainer.kitchen.technique import Limit

ALT_WORDS = 15
Value = TypeVar("Value")


@dataclass(frozen=True, slots=True)
class Placeholders(Mapping[str, str]):
    """What the braces of a words file may name, each printed when it is asked for; `short` as a drawing's label."""

    lines: Mapping[str, Limit]
    language: str
    first: First
    short: bool = False
    printed: dict[str, str] = field(default_factory=dict)

    def __getitem__(self, name: str) -> str:
        """Return a line in words."""
        if name not in self.printed:
            told = label_text if self.short else limit_text
            self.printed[name] = told(self.lines[name], self.first, self.language)
        return self.printed[name]

    def __contains__(self, name: object) -> bool:
        """Return whether there is such a line, without printing it."""
        return name in self.lines

    def __iter__(self) -> Iterator[str]:
        """Return the names."""
        return iter(self.lines)

    def __len__(self) -> int:
        """Return how many lines there are."""
        return len(self.lines)


@dataclass(frozen=True, slots=True)
class Filler:
    """Fills the braces of one words file.

    `faulty` are the lines that are there and have a problem of their own, told already: a brace that names one stays
    silent.
    """

    diagnostics: Diagnostics
    language: str
    numbers: Placeholders
    faulty: Collection[str] = ()
    own: Mapping[str, str] = field(default_factory=dict)

    def with_own(self, own: Mapping[str, str]) -> Filler:
        """Return the same, with figures of one step or point that only its words may name."""
        return replace(self, own=own)

    def for_labels(self) -> Filler:
        """Return the same for the words on a drawing: numbers as short as they can be told."""
        return replace(self, numbers=Placeholders(self.numbers.lines, self.numbers.language, self.numbers.first, True))

    def fill(self, written: Written | None) -> str:
        """Return a text with its braces filled in; a brace that names nothing is a problem."""
        if written is None or "{" not in written.text:
            return written.text if written else ""
        return BRACE.sub(lambda found: self._filled(found[1].strip(), written), written.text)

    def _filled(self, name: str, written: Written) -> str:
        """Return what a brace stands for."""
        if name in self.own:
            return self.own[name]
        if name in self.numbers:
            return self.numbers[name]
        if name not in self.faulty:
            hint = nearest(name, {*self.numbers, *self.own})
            self.diagnostics.add(written.line, f"{{{name}}} in {written.key} names no known line.", hint)
        return name


def words_for(ids: Collection[str], table: Table[Value] | None, part: str, name: str, words: Block) -> dict[str, Value]:
    """Return the words of one part of the structure by its ids; ids without words, and words without ids, are problems.

    *name* is what problems call one of them; a part that is not there is missing where the structure has ids for it.
    """
    if table is None:
        if ids and not words.keys[part].required:
            words.at.missing(part)
        return {}
    at = table.at
    for id in set(ids) - at.nodes.keys():
        at.add(f"The {name} {id} has no words.", f"Add `{id}: ...` under {at.name}.")
    for id in at.nodes.keys() - set(ids):
        message = f"There are words for the {name} {id}, which the structure does not have."
        at.diagnostics.add(at.lines[id], message, nearest(id, ids))
    return table


def check_alt_text(figure: Written | None, step: Block, expected: bool, what: str = "figure") -> None:
    """Add a problem where what a picture shows is not told, is told too short, or there is no picture."""
    if figure is None:
        if expected:
            step.at.missing(what)
        return
    add = step.at.diagnostics.add
    if not expected:
        add(figure.line, f"{step.at.name} has words for a {what} it does not show.", f"Name the {what}'s file.")
    count = len(figure.text.split())
    if count < ALT_WORDS:
        hint = f"Say in {ALT_WORDS} words or more what somebody would see."
        add(figure.line, f"The {what} of {step.at.name} is told in {count} words.", hint)
