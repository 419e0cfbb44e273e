"""The parts of a technique: hazards, steps and faults, and the words of each."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from trainer.content import kinds
from trainer.content.declarations import Block, key
from trainer.content.kinds import NAMES, Kind, Written
from trainer.content.mapping_reader import ID, MappingReader, shown
from trainer.content.nodes import Node, ScalarNode, SequenceNode
from trainer.content.words import Filler
from trainer.kitchen.technique import Fault, Hazard, Limit

FORMS = ("triangle", "barred", "disc")
MARKS = (
    "hot_surface", "sharp", "hands_in_machine", "electricity", "unplug", "chemical", "slippery", "flame", "germs",
    "wear_gloves", "wash_hands", "raw_egg", "allergen",
)  # fmt: skip


def line_name() -> Kind:
    """Return the name of a measured line, of this file or of the local code; which there are is checked later."""

    def read(node: Node, name: str, at: MappingReader) -> Written:
        return Written(node.line, name, node.value if isinstance(node, ScalarNode) else shown(node))

    schema = {"type": "string", "pattern": rf"^(code\.|recipe\.{ID.pattern}\.)?{ID.pattern}$", NAMES: "lines"}
    return Kind("a line of the standard, or code.<id>", read, schema)


def line_names() -> Kind:
    """Return the name of a measured line, or a list of two and more."""
    one = line_name()

    def read(node: Node, name: str, at: MappingReader) -> Written | tuple[Written, ...]:
        if not isinstance(node, SequenceNode):
            found: Written = one.read(node, name, at)
            return found
        if len(node.items) < 2:
            hint = "Name one line, without the list."
            at.diagnostics.add(node.line, f"{name} is a list of fewer than two lines.", hint)
        return tuple(one.read(item, name, at) for item in node.items)

    schema = {"anyOf": [one.schema, kinds.list_of(one, 2).schema]}
    return Kind("a line of the standard, code.<id>, or a list of lines", read, schema)


class HazardBlock(Block):
    """What can hurt a person; its caution is in the words."""

    named_by = "id"

    id: str = key(kinds.own_id())
    form: str = key(kinds.one_of(FORMS), "The sign: a warning, what must not be, or what must be done.")
    mark: str = key(kinds.one_of(MARKS), "What the sign shows.")

    def hazard(self, caution: str) -> Hazard:
        """Return the record."""
        return Hazard(self.id, self.form, self.mark, caution)


class FaultWords(Block):
    """What goes wrong."""

    shows: Written | None = key(kinds.words(), "How it shows.")
    cause: Written | None = key(kinds.words(), "Why it comes.")
    cure: Written | None = key(kinds.words(), "How to put it right.")

    def fault(self, id: str, words: Filler) -> Fault:
        """Return the record."""
        return Fault(id, words.fill(self.shows), words.fill(self.cause), words.fill(self.cure))


@dataclass(frozen=True, slots=True)
class StandardLines:
    """The measured lines that steps and points may name: those of the technique, and those of the local code.

    `faulty` are there and could not be read, which is told already.
    """

    known: Mapping[str, Limit]
    faulty: Collection[str]

    def named(self, name: Written, at: MappingReader) -> Limit | None:
        """Return the line of a name; one that is not there is a problem."""
        if name.text not in self.known and name.text not in self.faulty:
            at.unknown(name.line, name.key, name.text, self.known)
        return self.known.get(name.text)
