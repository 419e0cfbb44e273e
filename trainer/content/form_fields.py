"""What a person fills in to write a content file: fields worked out from the declared format, and put back into it.

The format is told by its JSON Schema (`editor_schemas`), which comes from the declarations themselves: a key declared
tomorrow has its field tomorrow. What no plain field can hold is typed on one line, as it stands in the file.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from ruamel.yaml.comments import CommentedMap, CommentedSeq

from trainer.content.editor_schemas import SCHEMAS
from trainer.content.kinds import AMOUNT, NAMES, Schema
from trainer.content.mapping_reader import BLANK, SHORT
from trainer.content.round_trip import Node, NotWritable, drop_key, from_line, in_line, set_key, text_like

Widget = Literal["line", "text", "one", "some", "lines", "pairs", "as_typed"]
"""A line, a longer text, one or some of what is known, a line for each, `word: what it means`, as in the file."""
Path = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Field:
    """One thing to fill in: where it stands below its entry, what it says, how it is typed, and what it says now.

    Of several lines each is one thing. `names` says what is chosen from (sources, hazards, lines), where that is not
    a closed list, `choices`.
    """

    path: Path
    help: str
    widget: Widget
    value: str
    choices: tuple[str, ...] = ()
    names: str = ""
    needed: bool = False
    is_number: bool = False
    is_amount: bool = False

    @property
    def key(self) -> str:
        """Return the path in one word, as an input is called."""
        return ".".join(self.path)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a technique that has entries of its own: steps, hazards, lines.

    `how` says where an entry is found: a block of a list by its id or by its place, a key of a mapping, a word of a
    list. `words` says how each is told, and is empty where it is not; `told` what that says.
    """

    name: str
    help: str
    how: Literal["blocks", "numbered", "table", "ids"]
    item: Schema
    words: Schema
    told: str = ""


@cache
def parts() -> Mapping[str, Part]:
    """Return the parts of a technique, in the order of its declaration."""
    structure, words = SCHEMAS["technique"]()["properties"], SCHEMAS["words"]()["properties"]
    found = {name: _part(name, schema, words.get(name, {})) for name, schema in structure.items()}
    return {name: part for name, part in found.items() if part is not None}


def _part(name: str, schema: Schema, words: Schema) -> Part | None:
    """Return how the entries of a key are written; None where it has none."""
    told, item = words.get("additionalProperties") or words.get("items", {}), schema.get("items", {})
    help, said = schema.get("description", ""), words.get("description", "")
    if _is_object(item):
        properties = [each.get("properties", {}) for each in item.get("oneOf", [item])]
        has_id = any("id" in each for each in properties)
        return Part(name, help, "blocks" if has_id else "numbered", item, told if isinstance(told, dict) else {}, said)
    if schema.get("type") == "object" and isinstance(schema.get("additionalProperties"), dict):
        return Part(name, help, "table", schema["additionalProperties"], told if isinstance(told, dict) else {}, said)
    if schema.get("type") == "array" and NAMES not in item and isinstance(told, dict) and told:
        return Part(name, help, "ids", {}, told, said)
    return None


def _is_object(schema: Schema) -> bool:
    return schema.get("type") == "object" or any(_is_object(each) for each in schema.get("oneOf", ()))


@cache
def whole_structure() -> Schema:
    """Return what stands in the structure beside the parts."""
    return _beside("technique")


@cache
def whole_words() -> Schema:
    """Return what stands in the words beside the parts."""
    return _beside("words")


def _beside(kind: str) -> Schema:
    schema = SCHEMAS[kind]()
    own = {name: each for name, each in schema["properties"].items() if name not in parts()}
    return {**schema, "properties": own}


def is_one_of_several(name: str) -> bool:
    """Return whether a key of the structure stands in place of another one: empty, it is not there at all."""
    return any(name in each.get("required", ()) for each in SCHEMAS["technique"]().get("oneOf", ()))


@cache
def helps() -> frozenset[str]:
    """Return every sentence that tells what is written under a key, so that all can be translated."""
    ways = {way["description"] for part in parts().values() for way in ways_of(part.item) if way.get("description")}
    return frozenset(_helps([SCHEMAS["technique"](), SCHEMAS["words"]()])) | ways


def _helps(schema: Any) -> Iterator[str]:  # noqa: ANN401 - JSON
    if isinstance(schema, list):
        for each in schema:
            yield from _helps(each)
    elif isinstance(schema, dict):
        for name, each in schema.get("properties", {}).items():
            if name != "ranges" and each.get("description"):
                yield each["description"]
        for name, each in schema.items():
            if name != "ranges":
                yield from _helps(each)


def fields_of(schema: Schema, node: Node, path: Path = (), *, needed: bool = True) -> Iterator[Field]:
    """Yield the fields of a value, with what it says now; a blank is nothing written yet."""
    schema = fitting(schema, node)
    if schema.get("type") == "object" and "properties" in schema:
        there = node if isinstance(node, CommentedMap) else {}
        for name, each in schema["properties"].items():
            if (name, path) != ("id", ()):
                inside = needed and name in schema.get("required", ())
                yield from fields_of(each, there.get(name), (*path, name), needed=inside)
        return
    yield _field(schema, node, path, needed)


def fitting(schema: Schema, node: Node) -> Schema:
    """Return the one of several ways to write a value that it is written in; the first, where it is not there."""
    ways: Sequence[Schema] = () if "type" in schema else schema.get("oneOf") or schema.get("anyOf") or ()
    if not ways:
        return schema
    kind = {CommentedMap: "object", CommentedSeq: "array"}.get(type(node), "string")
    alike = [way for way in ways if kind in _types(way)] if node is not None else list(ways)
    keys = set(node) if isinstance(node, CommentedMap) else set()
    best = max(alike or ways, key=lambda way: len(keys & way.get("properties", {}).keys()))
    return {**best, **({"description": schema["description"]} if "description" in schema else {})}


def ways_of(schema: Schema) -> tuple[Schema, ...]:
    """Return the ways a mapping may be written in, where there are several."""
    return tuple(schema.get("oneOf", ())) if "type" not in schema else ()


def _types(schema: Schema) -> Sequence[str]:
    found = schema.get("type", ())
    return [found] if isinstance(found, str) else found


def _field(schema: Schema, node: Node, path: Path, needed: bool) -> Field:
    """Return the field of one value."""
    item = schema.get("items", {})
    choices = tuple(each for each in schema.get("enum", item.get("enum", ())) if isinstance(each, str))
    widget = _widget(schema, item, choices)
    value = _shown(widget, node)
    if value is None:
        widget, value, choices = "as_typed", in_line(node), ()
    names = str(schema.get(NAMES) or item.get(NAMES) or "")
    is_number = "integer" in _types(schema)
    return Field(
        path, schema.get("description", ""), widget, value, choices, names, needed, is_number, AMOUNT in schema
    )


def _widget(schema: Schema, item: Schema, choices: Sequence[str]) -> Widget:
    """Return how a value is typed."""
    if schema.get("type") == "array":
        is_plain = "string" in _types(item) or "enum" in item
        return ("some" if choices or NAMES in item else "lines") if is_plain else "as_typed"
    if choices or NAMES in schema:
        return "one"
    if schema.get("type") == "object":
        inner = schema.get("additionalProperties")
        return "pairs" if isinstance(inner, dict) and "string" in _types(inner) else "as_typed"
    if "string" not in _types(schema) and "integer" not in _types(schema):
        return "as_typed"
    return "text" if schema.get("maxLength", 0) > SHORT else "line"


def _shown(widget: Widget, node: Node) -> str | None:
    """Return what is written as a person sees it in a field; None where the field cannot hold it."""
    if node is None:
        return ""
    if widget in ("some", "lines"):
        is_plain = isinstance(node, list) and all(isinstance(each, str) and "\n" not in each for each in node)
        return "\n".join(_said(each) for each in node) if is_plain else None
    if widget == "pairs":
        is_plain = isinstance(node, CommentedMap) and all(isinstance(each, str) for each in node.values())
        return "\n".join(f"{key}: {_said(value)}" for key, value in node.items()) if is_plain else None
    if widget == "as_typed":
        return in_line(node)
    return _said(node) if isinstance(node, str) else None


def _said(text: str) -> str:
    """Return a text on one line; a blank is no text."""
    return "" if text.strip() == BLANK else " ".join(text.split())


def put(at: CommentedMap, field: Field, typed: str) -> None:
    """Write what was typed into an entry, if it says anything new; NotWritable where it cannot be read.

    What was optional and is empty now is taken out; what is needed is a blank until it is written.
    """
    if typed == field.value:
        return
    *above, name = field.path
    for each in above:
        if not isinstance(at.get(each), CommentedMap):
            if not typed:
                return
            made = CommentedMap()
            if at.fa.flow_style():
                made.fa.set_flow_style()
            set_key(at, each, made)
        at = at[each]
    value = value_of(field, typed, at.get(name), in_flow=bool(at.fa.flow_style()))
    if value is not None:
        set_key(at, name, value)
    elif name in at:
        drop_key(at, name)


def value_of(field: Field, typed: str, before: Node, *, in_flow: bool) -> Node:
    """Return what was typed as it is written; None where that is nothing."""
    lines = [" ".join(line.split()) for line in typed.splitlines() if line.strip()]
    if not lines:
        empty = CommentedSeq()
        empty.fa.set_flow_style()
        return (empty if field.widget in ("some", "lines") else BLANK) if field.needed else None
    if field.widget in ("some", "lines"):
        return _items(lines, before, is_short=field.widget == "some")
    if field.widget == "pairs":
        return _pairs(lines, in_flow=in_flow)
    if field.widget == "as_typed":
        return from_line(" ".join(lines))
    return text_like(before, " ".join(lines), in_flow=in_flow)


def _items(lines: Sequence[str], before: Node, *, is_short: bool) -> CommentedSeq:
    """Return a list in the style of the one before; ids stand on one line."""
    is_flow = before.fa.flow_style() if isinstance(before, CommentedSeq) and before else is_short
    made = CommentedSeq(text_like("", each, in_flow=True) for each in lines)
    if is_flow:
        made.fa.set_flow_style()
    if isinstance(before, CommentedSeq) and len(before) == len(made):
        for place, each in enumerate(made):
            if before[place] != each:
                before[place] = each
        return before
    return made


def _pairs(lines: Sequence[str], *, in_flow: bool) -> CommentedMap:
    """Return words with what they mean; NotWritable where a line has no colon."""
    made = CommentedMap()
    for line in lines:
        word, colon, means = line.partition(":")
        if not colon or not word.strip() or word.strip() in made:
            raise NotWritable(line)
        made[word.strip()] = text_like("", means.strip() or BLANK, in_flow=in_flow)
    return made
