"""How the format of content files is declared, once: a class for a mapping, a `key` for each of its keys.

    class Certificate(Block):
        \"\"\"A paper from outside.\"\"\"

        id: str = key(kinds.own_id())
        title: str = key(kinds.text(SHORT), "What the paper is called.")
        bars: bool = key(kinds.yes_no(), "Nobody works here without it.")

`Certificate.read` takes one from a file: types, missing and unknown keys are checked, and every problem is added with
its line. `Certificate.schema` is the same as JSON Schema, for editors, and the tables of content/README.md are made
from it too. What one key has to do with another is checked in `check`, and one file with another where blocks are used.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from typing import Any, ClassVar, Self, dataclass_transform

from trainer.content.kinds import Kind, Schema
from trainer.content.mapping_reader import Known, MappingReader
from trainer.content.nodes import Diagnostics, MappingNode, Node, ScalarNode, SequenceNode, read_tree


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a block: what is written under it and what that says.

    It is required, or *beside* one of some other keys alone, or *when* another key has one of some values. One that
    says nothing *alone* is refused where none of the keys beside it is there.
    """

    kind: Kind
    help: str
    required: bool
    default: Any
    name: str
    beside: tuple[str, ...]
    when: tuple[str, tuple[str, ...]] | None
    alone: bool

    def read(self, name: str, at: MappingReader, before: Mapping[str, Any]) -> Any:  # noqa: ANN401 - as its kind
        """Return the value under the key; *before* are the values of the keys declared before it."""
        node = at.nodes.get(name)
        if node is not None:
            return self.kind.read(node, name, at)
        needed = self.when is not None and before[self.when[0]] in self.when[1]
        if self.required or needed or not at.nodes.keys().isdisjoint(self.beside):
            self.kind.missing(name, at)
            return self.kind.nothing
        return self.kind.nothing if self.default is None else self.default

    def schema(self) -> Schema:
        """Return what is written under the key as JSON Schema."""
        return {**self.kind.schema, "description": self.help} if self.help else self.kind.schema


def key(  # noqa: PLR0913 - a declaration, all by name
    kind: Kind,
    help: str = "",
    *,
    required: bool = True,
    default: Any = None,  # noqa: ANN401 - as its kind
    name: str = "",
    beside: tuple[str, ...] = (),
    when: tuple[str, tuple[str, ...]] | None = None,
    alone: bool = True,
) -> Any:  # noqa: ANN401 - stands for a value of the annotated type
    """Declare a key of a block; one with a default, or that is asked for beside or when, is not required otherwise."""
    is_required = required and default is None and not beside and when is None
    return field(metadata={"key": Key(kind, help, is_required, default, name, beside, when, alone)})


def optional(kind: Kind, help: str, *, name: str = "") -> Any:  # noqa: ANN401 - as `key`
    """Declare a key that may be left out; nothing is read then."""
    return key(kind, help, required=False, name=name)


@dataclass_transform(kw_only_default=True, frozen_default=True, field_specifiers=(key, optional))
@dataclass(frozen=True, kw_only=True)
class Block:
    """A mapping with declared keys; its docstring is what an editor shows.

    `at` is where it is written, `sound` whether nothing in it was a problem.
    """

    at: MappingReader
    sound: bool

    keys: ClassVar[Mapping[str, Key]] = {}
    fields_of: ClassVar[Mapping[str, str]] = {}
    called: ClassVar[str] = ""
    """What problems call a block of a list that has no id."""
    named_by: ClassVar[str] = ""
    """The key whose value problems call the block by."""
    entry_id: ClassVar[str] = "id"
    """The field that tells blocks of one list apart, and how to fix that two are alike."""
    twice: ClassVar[str] = "Give each its own id."
    told_by: ClassVar[str] = ""
    """The key that tells this block from the others that may be written in its place."""
    own_names: ClassVar[tuple[tuple[str, str], ...]] = ()
    """Names that the file itself gives: what they are names of, and the key whose entries have them as ids.

    A list of words gives the words; a key that holds a block gives its own name."""
    one_of: ClassVar[tuple[str, ...]] = ()
    """Keys of which exactly one is written."""
    some_of: ClassVar[tuple[str, ...]] = ()
    """Keys of which one or more are written."""

    def __init_subclass__(cls) -> None:
        """Gather the declared keys in their order, a class's own before those it inherits."""
        dataclass(frozen=True, kw_only=True)(cls)
        declared = [(each.name, each.metadata["key"]) for each in fields(cls) if "key" in each.metadata]
        declared.sort(key=lambda found: found[0] not in cls.__annotations__)
        cls.keys = {found.name or name: found for name, found in declared}
        cls.fields_of = {found.name or name: name for name, found in declared}

    @classmethod
    def read(cls, node: Node, name: str, around: MappingReader) -> Self:
        """Return the block a node holds; problems call it by *name*, or by its own where it has one."""
        before = len(around.diagnostics.problems)
        at = around.inner(node, name)
        given = [(what, id) for what, own in cls.own_names for id in _ids_under(own, at.nodes.get(own))]
        at.known = {**at.known, **{what: [id for of, id in given if of == what] for what, _ in cls.own_names}}
        values: dict[str, Any] = {}
        for written, declared in cls.keys.items():
            values[cls.fields_of[written]] = declared.read(written, at, values)
            if written == cls.named_by:
                at.name = values[written] or name
        if cls.one_of and at.nodes.keys().isdisjoint(cls.one_of):
            at.missing(cls.one_of[0])
        at.refuse_others(
            [key for key, each in cls.keys.items() if each.alone or not at.nodes.keys().isdisjoint(each.beside)]
        )
        found = cls(at=at, sound=True, **values)
        found.check()
        return found if len(around.diagnostics.problems) == before else replace(found, sound=False)

    def check(self) -> None:
        """Add the problems of keys that do not go together; blocks with such keys override this."""

    @classmethod
    def fits(cls, at: MappingReader) -> bool:
        """Return whether a mapping is this block and none of the others that may be written in its place."""
        return cls.told_by in at.nodes

    @classmethod
    def schema(cls) -> Schema:
        """Return the block as JSON Schema with closed keys."""
        rules = {
            "dependentRequired": {there: [name] for name, each in cls.keys.items() for there in each.beside}
            | {name: [*each.beside] for name, each in cls.keys.items() if not each.alone},
            "oneOf": [{"required": [name]} for name in cls.one_of],
            "anyOf": [{"required": [name]} for name in cls.some_of],
            "allOf": [
                {"if": {"properties": {each.when[0]: {"enum": [*each.when[1]]}}}, "then": {"required": [name]}}
                for name, each in cls.keys.items()
                if each.when
            ],
        }
        return {
            "type": "object",
            "description": cls.__doc__,
            "properties": {name: each.schema() for name, each in cls.keys.items()},
            "additionalProperties": False,
            "required": [name for name, each in cls.keys.items() if each.required],
            **{rule: found for rule, found in rules.items() if found},
        }


def read_file(path: Path, kind: Kind, name: str, diagnostics: Diagnostics, known: Known | None = None) -> Any:  # noqa: ANN401 - as its kind
    """Return what a file says; None, with the reasons added, where it cannot be read at all."""
    tree = read_tree(path, diagnostics)
    return None if tree is None else kind.read(tree, name, MappingReader(diagnostics, 1, name, known or {}))


def _ids_under(own: str, entries: Node | None) -> list[str]:
    """Return the ids of a list of blocks or words, before it is read; of one block the name of its key."""
    if isinstance(entries, MappingNode):
        return [own]
    items = entries.items if isinstance(entries, SequenceNode) else ()
    if items and all(isinstance(item, ScalarNode) for item in items):
        return [item.value for item in items if isinstance(item, ScalarNode)]
    pairs = (pair for item in items if isinstance(item, MappingNode) for pair in item.items)
    return [value.value for name, value in pairs if name.value == "id" and isinstance(value, ScalarNode)]
