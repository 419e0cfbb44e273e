"""A content file changed by the program so that all a person wrote beside the change stays: comments, order, quotes.

Values are set in the tree that ruamel.yaml keeps with its comments, every scalar the text it is (as `nodes` reads it).
Whole entries are added, moved and taken out as lines of text, so that no comment goes with them.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any, cast

import yaml
from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq
from ruamel.yaml.error import YAMLError
from ruamel.yaml.resolver import VersionedResolver
from ruamel.yaml.scalarstring import DoubleQuotedScalarString, FoldedScalarString, SingleQuotedScalarString
from ruamel.yaml.tokens import CommentToken

from trainer.content.nodes import LOADER

WIDTH = 116
NEEDS_QUOTES = re.compile(r"^[-?:,\[\]#&*!|>'\"%@`\s]|[{}]|:(\s|$)|\s#|\s$")
OTHER_ENDS = re.compile("[\x85\u2028\u2029]")
"""Signs that YAML takes for the end of a line, and hardly any editor does."""
NEEDS_QUOTES_IN_LINE = re.compile(r"[,\[\]]")

Node = Any
"""A text, or a list or mapping that keeps its comments."""


class NotWritable(ValueError):
    """A file, or what was typed, that is no YAML of this format; changed by the program it might lose something."""


class _AsTyped(VersionedResolver):
    """Takes no plain word for anything but the word it is: `no`, `12:30` and `010` stay so."""

    @property
    def versioned_resolver(self) -> dict[str, Any]:
        """Return no rule at all."""
        return {}


def _yaml() -> YAML:
    found = YAML(typ="rt")
    found.Resolver = _AsTyped
    found.preserve_quotes = True
    found.allow_unicode = True
    found.width = 1 << 20
    found.brace_single_entry_mapping_in_flow_sequence = True
    found.indent(mapping=2, sequence=4, offset=2)
    return found


def parse(text: str) -> CommentedMap:
    """Return the tree of a file with its comments; NotWritable where it is no mapping, or no YAML."""
    try:
        found = _yaml().load(text)
    except (YAMLError, ValueError) as problem:
        raise NotWritable(str(problem)) from problem
    if not isinstance(found, CommentedMap):
        raise NotWritable("no mapping")
    return found


def dumped(tree: CommentedMap) -> str:
    """Return a tree as the text of a file."""
    out = io.StringIO()
    _yaml().dump(tree, out)
    return out.getvalue()


def in_line(node: Node) -> str:
    """Return a value on one line, as it may be typed into a field: [raw, medium].

    >>> in_line(["raw", "medium"]), in_line({"target": "4 oz"})
    ('[raw, medium]', '{target: 4 oz}')
    """
    if isinstance(node, str):
        return " ".join(node.split())
    out, printer = io.StringIO(), _yaml()
    printer.default_flow_style = True
    printer.dump(_plain(node), out)
    return out.getvalue().strip()


def from_line(typed: str) -> Node:
    """Return what was typed on one line as a value; NotWritable where a bracket or a brace is open."""
    if typed[:1] not in "[{":
        return typed
    try:
        return _flow(_yaml().load(typed))
    except (YAMLError, ValueError) as problem:
        raise NotWritable(typed) from problem


def _plain(node: Node) -> Node:
    """Return a value without its comments and its layout."""
    if isinstance(node, Mapping):
        return {str(key): _plain(value) for key, value in node.items()}
    return [_plain(each) for each in node] if isinstance(node, list | tuple) else _quoted(str(node))


def _quoted(text: str, *, in_flow: bool = True) -> str:
    """Return a text in the quotes it needs."""
    quoted: str = DoubleQuotedScalarString(text)
    needs = not text or NEEDS_QUOTES.search(text) or (in_flow and NEEDS_QUOTES_IN_LINE.search(text))
    return quoted if needs else text


def _flow(node: Node) -> Node:
    """Return a value that stands on one line."""
    if not isinstance(node, Mapping | list | tuple):
        return _quoted(str(node))
    made: Node = CommentedSeq(_flow(each) for each in node) if isinstance(node, list | tuple) else None
    if isinstance(node, Mapping):
        made = CommentedMap((key, _flow(value)) for key, value in node.items())
    made.fa.set_flow_style()
    return made


def text_like(before: Node, text: str, *, in_flow: bool) -> str:
    """Return a text in the style of the one it comes in place of; a long one is folded where lines may be."""
    if not in_flow and len(text) > WIDTH - 12:
        return _folded(text)
    if isinstance(before, DoubleQuotedScalarString | SingleQuotedScalarString):
        return cast(str, DoubleQuotedScalarString(text))
    return _quoted(text, in_flow=in_flow)


def _folded(text: str) -> str:
    """Return a text that is written over several lines."""
    made: Node = FoldedScalarString(text)
    line = 0
    made.fold_pos = []
    for at, sign in enumerate(text):
        end = text.find(" ", at + 1)
        if sign == " " and (len(text) if end < 0 else end) - line > WIDTH - 8:
            made.fold_pos.append(at)
            line = at + 1
    return cast(str, made)


def set_key(at: CommentedMap, key: str, value: Node) -> None:
    """Write a value under a key; under a new one at the end, what is said below the mapping staying below it."""
    if key in at or at.fa.flow_style() or not at:
        at[key] = value
        return
    said = _take_rest(at)
    at[key] = value
    if said:
        at.ca.items[key] = [None, None, said, None]


def drop_key(at: CommentedMap, key: str) -> None:
    """Take a key out, and leave what is said below it where it was."""
    keys = list(at)
    place = keys.index(key)
    said = at.ca.items.pop(key, [None, None, None, None])[2]
    del at[key]
    rest = _below(said) if said is not None else ""
    if place and rest:
        before = at.ca.items.setdefault(keys[place - 1], [None, None, None, None])
        own = before[2].value if before[2] is not None else "\n"
        before[2] = CommentToken(own.rstrip("\n") + "\n" + rest.lstrip("\n"), said.start_mark)


def _below(said: CommentToken) -> str:
    """Return what a comment says below its own line."""
    first, _, rest = said.value.partition("\n")
    return f"\n{rest}" if first.strip() and rest.strip() else said.value if rest.strip() else ""


def _take_rest(at: CommentedMap) -> CommentToken | None:
    """Take what is said below the last key of a block, and return it; what stands beside that key stays."""
    last, key = at[next(reversed(at))], next(reversed(at))
    if isinstance(last, CommentedMap) and last and not last.fa.flow_style():
        return _take_rest(last)
    kept = at.ca.items.get(key)
    said = kept[2] if kept else None
    rest = _below(said) if said is not None else ""
    if said is None or not rest:
        return None
    beside = said.value.partition("\n")[0]
    kept[2] = CommentToken(f"{beside}\n", said.start_mark) if beside.strip() else None
    return CommentToken(rest, said.start_mark)


# entries as lines of text


def moved(text: str, part: str, place: int, by: int) -> str:
    """Return a file with one entry of a list changed places with the one before (-1) or after it (1)."""
    first, second = sorted((place, place + by))
    spans = _spans(text, part)
    if spans is None:
        return _in_tree(text, lambda tree: _swap(tree[part], first, second))
    lines = _lines(text)
    (a, b), (c, d) = spans[first], spans[second]
    return "".join([*lines[:a], *_whole(lines[c:d]), *lines[b:c], *_whole(lines[a:b]), *lines[d:]])


def without(text: str, part: str, entry: int | str) -> str:
    """Return a file without one entry of a part: its place in a list, or its id; a part without entries is empty."""
    tree = parse(text)
    at = tree[part]
    place = list(at).index(entry) if isinstance(entry, str) and isinstance(at, CommentedMap) else int(entry)
    spans = _spans(text, part)
    if spans is None or len(at) == 1:
        return _in_tree(text, lambda tree: _emptied(tree, part, entry))
    lines = _lines(text)
    begin, end = spans[place]
    return "".join([*lines[:begin], *lines[end:]])


def with_item(text: str, part: str, item: Mapping[str, Node] | str, after: int) -> str:
    """Return a file with one item more in a list, behind the one in a place; -1 puts it first."""
    spans = _spans(text, part)
    if not spans:
        return _in_tree(text, lambda tree: _insert(tree, part, item, after))
    lines = _lines(text)
    if not lines[-1].endswith("\n"):
        lines[-1] += "\n"
    margin = re.match(r" *- *", lines[spans[0][0]])
    head = margin[0] if margin else "  - "
    at = spans[after][1] if after >= 0 else spans[0][0]
    return "".join([*lines[:at], f"{head}{in_line(item)}\n", *lines[at:]])


def with_key(text: str, part: str, key: str, value: Node) -> str:
    """Return a file with one id more in a part whose entries stand under their ids."""
    spans = _spans(text, part)
    if not spans:
        return _in_tree(text, lambda tree: _under(tree, part, key, value))
    lines = _lines(text)
    if not lines[-1].endswith("\n"):
        lines[-1] += "\n"
    begin, end = spans[-1]
    margin = len(lines[begin]) - len(lines[begin].lstrip(" "))
    written = dumped(CommentedMap({key: value}))
    added = "".join(f"{' ' * margin}{line}\n" for line in written.splitlines())
    return "".join([*lines[:end], added, *lines[end:]])


def with_or_without(text: str, part: str, key: str, value: Mapping[str, str] | None) -> str:
    """Return a file with what stands under an id of a part written anew; without that id where there is no value."""
    tree = parse(text)
    at = tree.get(part)
    if value is not None:
        if not isinstance(at, CommentedMap):
            set_key(tree, part, CommentedMap())
        set_key(tree[part], key, CommentedMap({name: _quoted(each, in_flow=False) for name, each in value.items()}))
    elif isinstance(at, CommentedMap) and key in at:
        drop_key(at, key) if len(at) > 1 else drop_key(tree, part)
    return dumped(tree)


def with_words(text: str, path: Sequence[str], words: str) -> str:
    """Return a file of words with those under a path written anew; without words it is without the path.

    What a path leads through is made where it lacks, and taken out where nothing is left of it. A file that says
    nothing yet begins with it.
    """
    tree = parse(text) if text.strip() else CommentedMap()
    if words:
        _put(tree, path, words)
    else:
        _take(tree, path)
    return dumped(tree)


def _put(at: CommentedMap, path: Sequence[str], words: str) -> None:
    key, *rest = path
    if not rest:
        set_key(at, key, _quoted(words, in_flow=bool(at.fa.flow_style())))
        return
    if not isinstance(at.get(key), CommentedMap):
        set_key(at, key, CommentedMap())
    _put(at[key], rest, words)


def _take(at: CommentedMap, path: Sequence[str]) -> None:
    key, *rest = path
    if key not in at:
        return
    if rest and isinstance(at[key], CommentedMap):
        _take(at[key], rest)
    if not rest or at[key] == {}:
        drop_key(at, key)


def _lines(text: str) -> list[str]:
    """Return the lines of a text as YAML counts them, each with its end."""
    return re.findall(r"[^\n]*\n|[^\n]+", text)


def _in_tree(text: str, change: Callable[[CommentedMap], None]) -> str:
    tree = parse(text)
    change(tree)
    return dumped(tree)


def _swap(at: CommentedSeq, first: int, second: int) -> None:
    at[first], at[second] = at[second], at[first]


def _emptied(tree: CommentedMap, part: str, entry: int | str) -> None:
    at = tree[part]
    if len(at) > 1:
        del at[entry]
        return
    empty: Node = CommentedSeq() if isinstance(at, CommentedSeq) else CommentedMap()
    empty.fa.set_flow_style()
    tree[part] = empty


def _insert(tree: CommentedMap, part: str, item: Mapping[str, Node] | str, after: int) -> None:
    if not isinstance(tree.get(part), CommentedSeq):
        made = CommentedSeq()
        made.fa.set_flow_style() if isinstance(item, str) else made.fa.set_block_style()
        set_key(tree, part, made)
    at = tree[part]
    if not at and not isinstance(item, str):
        at.fa.set_block_style()
    at.insert(after + 1, _flow(item))


def _under(tree: CommentedMap, part: str, key: str, value: Node) -> None:
    if not isinstance(tree.get(part), CommentedMap):
        set_key(tree, part, CommentedMap())
    at = tree[part]
    if not at:
        at.fa.set_block_style()
    set_key(at, key, _flow(value) if at.fa.flow_style() else value)


def _whole(lines: Sequence[str]) -> list[str]:
    """Return lines of which the last one ends."""
    return [*lines[:-1], lines[-1] if lines[-1].endswith("\n") else f"{lines[-1]}\n"]


def _spans(text: str, part: str) -> list[tuple[int, int]] | None:
    """Return the lines of each entry of a part that stands over several lines; None where it stands on one, or not."""
    if OTHER_ENDS.search(text):
        return None
    root = yaml.compose(text, Loader=LOADER)
    found = [value for key, value in root.value if key.value == part] if root else []
    value: Node = found[0] if found else None
    if value is None or isinstance(value, yaml.ScalarNode) or value.flow_style:
        return None
    starts = [(each[0] if isinstance(each, tuple) else each).start_mark.line for each in value.value]
    lines = _lines(text)
    ends = [*starts[1:], value.end_mark.line if value.end_mark.column == 0 else value.end_mark.line + 1]
    return [(start, _content_end(lines, start, end)) for start, end in zip(starts, ends, strict=True)]


def _content_end(lines: Sequence[str], start: int, end: int) -> int:
    """Return where an entry ends: blank lines and comments below it are not its own."""
    while end - 1 > start and (not lines[end - 1].strip() or lines[end - 1].lstrip().startswith("#")):
        end -= 1
    return end
