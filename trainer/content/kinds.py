"""What may be written under a key of a content file: how each kind of value is read, and how it is told.

Whatever cannot be read is a problem with its line, and reads as the kind's `nothing`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from trainer.content.mapping_reader import ID, LONG, SHORT, MappingReader, known_word, nearest, shown, text_of
from trainer.content.nodes import Diagnostics, Node, ScalarNode, SequenceNode

if TYPE_CHECKING:
    from trainer.content.declarations import Block

WHOLE = re.compile(r"[0-9]{1,6}")
DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
BRACE = re.compile(r"\{([^{}]*)\}")
FIGURE = re.compile(r"[\d¼½¾⅐-⅞]")
OUTSIDE_BRACES = r"^([^0-9¼½¾⅐-⅞{}]|\{[^{}]*\})*$"
NAMES = "x-names"
"""The key of a schema that says what a value is a name of, for whoever makes a form of it."""
AMOUNT = "x-amount"
"""The key of a schema that says that a text is a number and a unit."""
PLACES = {
    "sources": "id of sources.yaml",
    "allergens": "id of allergens.yaml",
    "techniques": "folder of techniques",
    "hazards": "id of hazards",
    "points": "id of the checklist",
    "skills": "folder of skills",
    "recipes": "folder of recipes",
    "foods": "id of foods.yaml",
    "steps": "id of steps",
    "cases": "id of cases",
    "instruments": "id of instruments.yaml",
}

Schema = dict[str, Any]
Read = Callable[[Node, str, MappingReader], Any]
"""Reads a node under a name, in a mapping."""
Value = TypeVar("Value")


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of value: what is written, how it is read, its JSON Schema, and what is read where nothing is written.

    `blocks` are the blocks below it, and `missing` adds the problem that a required one is not there.
    """

    written: str
    read: Read
    schema: Schema
    nothing: Any = None
    blocks: tuple[type[Block], ...] = ()
    missing: Callable[[str, MappingReader], None] = lambda name, at: at.missing(name)

    def then(self, written: str, check: Callable[[Any, Node, str, MappingReader], Any]) -> Kind:
        """Return a narrower kind: what this one reads is read further by *check*."""

        def read(node: Node, name: str, at: MappingReader) -> Any:  # noqa: ANN401 - as *check*
            found = self.read(node, name, at)
            return found if found is None else check(found, node, name, at)

        return replace(self, written=written, read=read)


@dataclass(frozen=True, slots=True)
class Written:
    """A text with its line and the key it is written under, for checks that come later."""

    line: int
    key: str
    text: str


class Table(dict[str, Value], Generic[Value]):
    """What is written under ids, with the place it is written in."""

    def __init__(self, at: MappingReader) -> None:
        super().__init__()
        self.at = at

    def known(self, ids: Collection[str]) -> dict[str, Value]:
        """Return what is written under the ids that are known; any other is a problem."""
        for id in (id for id in self if id not in ids):
            self.at.diagnostics.add(self.at.lines[id], f"{self.at.name} has no {id}.", nearest(id, ids))
        return {id: value for id, value in self.items() if id in ids}


def text(longest: int = LONG) -> Kind:
    """Return one text; a bare number is one too, since files are read as they were typed."""
    schema = {"type": ["string", "number"], "minLength": 1, "maxLength": longest}
    return Kind("text", lambda node, name, at: text_of(node, at.diagnostics, name, longest), schema, "")


def placed_text(longest: int = LONG) -> Kind:
    """Return one text that is read with its line."""
    kind = text(longest)
    return replace(kind, read=lambda node, name, at: Written(node.line, name, kind.read(node, name, at)), nothing=None)


def words(longest: int = LONG, called: str = "") -> Kind:
    """Return words for a cook, to be filled in later: no figure outside braces."""

    def read(node: Node, name: str, at: MappingReader) -> Written:
        name = called or name
        typed = text_of(node, at.diagnostics, name, longest)
        rest = BRACE.sub("", typed)
        figure = FIGURE.search(rest)
        if figure:
            near = rest[max(figure.start() - 10, 0) : figure.end() + 10].strip()
            hint = "Give the number a line under `standard` in technique.yaml and name it in braces, or spell it out."
            at.diagnostics.add(node.line, f"A number is typed in {name}: ... {near} ...", hint)
        if "{" in rest or "}" in rest:
            at.diagnostics.add(node.line, f"A brace in {name} is not closed.", "Write {name_of_the_line}.")
        return Written(node.line, name, typed)

    schema = {"type": "string", "minLength": 1, "pattern": OUTSIDE_BRACES, "maxLength": longest}
    return Kind("words", read, schema)


def own_id() -> Kind:
    """Return the id of an entry; whether it can be one is checked by the list it is in."""
    return replace(text(SHORT), written="id", schema={"type": "string", "pattern": f"^{ID.pattern}$"})


def whole(lowest: int, highest: int) -> Kind:
    """Return a whole number; the lowest where it cannot be read."""

    def read(node: Node, name: str, at: MappingReader) -> int:
        typed = int(node.value) if isinstance(node, ScalarNode) and WHOLE.fullmatch(node.value) else None
        if typed is not None and lowest <= typed <= highest:
            return typed
        hint = f"Write a whole number from {lowest} to {highest}."
        at.diagnostics.add(node.line, f"{name} is {shown(node)}, not a whole number.", hint)
        return lowest

    ends = {"minimum": lowest, "maximum": highest, "pattern": f"^{WHOLE.pattern}$"}
    return Kind(f"{lowest} to {highest}", read, {"type": ["integer", "string"], **ends}, lowest)


def yes_no() -> Kind:
    """Return yes or no; some editors read these as true and false."""

    def read(node: Node, name: str, at: MappingReader) -> bool:
        if not isinstance(node, ScalarNode) or node.value not in ("yes", "no"):
            at.diagnostics.add(node.line, f"{name} is {shown(node)}.", "Write yes or no.")
        return isinstance(node, ScalarNode) and node.value == "yes"

    return Kind("yes or no", read, {"enum": ["yes", "no", True, False]}, nothing=False)


def day() -> Kind:
    """Return a date; the first day of the calendar where it cannot be read."""

    def read(node: Node, name: str, at: MappingReader) -> date:
        try:
            if isinstance(node, ScalarNode) and DAY.fullmatch(node.value):
                return date.fromisoformat(node.value)
        except ValueError:
            pass
        hint = "Write the date as year-month-day: 2025-03-01."
        at.diagnostics.add(node.line, f"{name} is {shown(node)}, not a date.", hint)
        return date.min

    return Kind("date, 2025-03-01", read, {"type": "string", "pattern": f"^{DAY.pattern}$"}, date.min)


def one_of(known: Collection[str]) -> Kind:
    """Return a word out of a closed list."""

    def read(node: Node, name: str, at: MappingReader) -> str:
        return known_word(node, at.diagnostics, name, known)

    return Kind(", ".join(known), read, {"enum": [*known]}, "")


def name_of(what: str) -> Kind:
    """Return a name that other files, or other keys of the same file, give."""

    def read(node: Node, name: str, at: MappingReader) -> str:
        return known_word(node, at.diagnostics, name, at.known[what])

    schema = {**own_id().schema, "description": f"An {PLACES[what]}.", NAMES: what}
    return Kind(PLACES[what], read, schema, "")


def source(of: str = "") -> Kind:
    """Return the source of a number; *of* says what problems call the number, where it is not the block itself."""

    def missing(_: str, at: MappingReader) -> None:
        at.add(f"{of or at.name} names no source.", "Add `source:` with an id of sources.yaml, or house.")

    return replace(name_of("sources"), missing=missing)


def list_of(kind: Kind, fewest: int = 0) -> Kind:
    """Return a list of one kind of thing; how few are enough is for editors alone."""

    def read(node: Node, name: str, at: MappingReader) -> tuple[Any, ...]:
        return tuple(kind.read(item, name, at) for item in items_of(node, name, at))

    schema = {"type": "array", "items": kind.schema, **({"minItems": fewest} if fewest else {})}
    return Kind(f"list: {kind.written}", read, schema, (), kind.blocks)


def each_once(kind: Kind) -> Kind:
    """Return a list of words, each once."""

    def read(node: Node, name: str, at: MappingReader) -> tuple[str, ...]:
        return tuple(_once(node, name, at, lambda item: kind.read(item, name, at)))

    return replace(list_of(kind), read=read)


def names_of(what: str) -> Kind:
    """Return a list of names that other files, or other keys of the same file, give, each once."""
    return each_once(name_of(what))


def own_ids() -> Kind:
    """Return a list of ids that this list alone gives, each with its line."""

    def read(node: Node, name: str, at: MappingReader) -> dict[str, int]:
        found = _once(node, name, at, lambda item: text_of(item, at.diagnostics, f"a name under {name}", SHORT))
        return {id: line for id, line in found.items() if at.check_id(id, line)}

    return replace(list_of(own_id()), read=read, nothing=MappingProxyType({}))


def _once(node: Node, name: str, at: MappingReader, read: Callable[[Node], str]) -> dict[str, int]:
    """Return the words of a list with their lines; one that is there twice is a problem."""
    found: dict[str, int] = {}
    for item in items_of(node, name, at):
        word = read(item)
        if word in found:
            at.diagnostics.add(item.line, f"{word} stands twice under {name}.", "Keep one of the two.")
        elif word:
            found[word] = item.line
    return found


def nested(block: type[Block]) -> Kind:
    """Return a block under a key."""

    def read(node: Node, name: str, at: MappingReader) -> Block:
        return block.read(node, block.called or name, at)

    return Kind("keys, below", read, block.schema(), blocks=(block,))


def shapes(*blocks: type[Block]) -> Kind:
    """Return one of several blocks, told from each other by a key; the first one where no such key is there."""

    def read(node: Node, name: str, at: MappingReader) -> Block:
        there = MappingReader.of(node, Diagnostics("", []), name)
        return next((block for block in blocks if block.fits(there)), blocks[0]).read(node, name, at)

    schema = {"oneOf": [block.schema() for block in blocks]}
    return Kind("keys, one of the tables below", read, schema, blocks=blocks)


def entries(block: type[Block], *, at_least_one: bool = False) -> Kind:
    """Return a list of blocks that each have an id of their own."""

    def read(node: Node, name: str, at: MappingReader) -> Mapping[str, Block]:
        found: dict[str, Block] = {}
        for item in items_of(node, name, at):
            entry = block.read(item, block.called or name, at)
            id: str = getattr(entry, block.entry_id)
            if id in found:
                at.diagnostics.add(item.line, f"{id} stands twice under {name}.", block.twice)
            elif id and at.check_id(id, item.line):
                found[id] = entry
        if at_least_one and not found:
            at.add(f"{at.name} has nothing under {name}.", f"Add at least one to `{name}`.")
        return found

    schema = list_of(nested(block), int(at_least_one)).schema
    return Kind("list of keys, below", read, schema, MappingProxyType({}), (block,))


def by_id(kind: Kind, *, free: bool = False) -> Kind:
    """Return a mapping whose keys are ids; *free* ones are checked where the ids are known, or may be any words."""

    def read(node: Node, name: str, at: MappingReader) -> Table[Any]:
        table = Table[Any](at.inner(node, name))
        for key, value in table.at.nodes.items():
            if free or at.check_id(key, table.at.lines[key]):
                table[key] = kind.read(value, key, table.at)
        return table

    schema = {"type": "object", "propertyNames": own_id().schema, "additionalProperties": kind.schema}
    return Kind(f"under each id: {kind.written}", read, schema, blocks=kind.blocks)


def words_by_id(longest: int = LONG) -> Kind:
    """Return words for the ids that the structure has."""
    return by_id(words(longest), free=True)


def by_word(kind: Kind) -> Kind:
    """Return a mapping whose keys are words."""
    named = by_id(kind, free=True)
    schema = {"type": "object", "additionalProperties": kind.schema}
    return replace(named, written=f"under each word: {kind.written}", schema=schema)


def items_of(node: Node, name: str, at: MappingReader) -> tuple[Node, ...]:
    """Return the items of a list; what is no list is a problem."""
    if isinstance(node, SequenceNode):
        return node.items
    at.diagnostics.add(node.line, f"{name} is not a list.", f"Write it as `{name}: [one, another]`.")
    return ()
