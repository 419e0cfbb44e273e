"""A content file as a tree of texts, lists and keyed blocks, each with its line.

Every value stays the text a person typed; what it means is decided later by the field it stands in. So `no`, `12:30`
and `010` are never turned into something else behind the writer's back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

import yaml

from trainer.kitchen.technique import Problem

LARGEST_FILE = 1_000_000
DEEPEST = 20
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class ScalarNode(NamedTuple):
    """One value, as typed."""

    line: int
    value: str


class SequenceNode(NamedTuple):
    """A list."""

    line: int
    items: tuple[Node, ...]


class MappingNode(NamedTuple):
    """Keys with values, in the order they are written; a key may be there twice, and the reader says so."""

    line: int
    items: tuple[tuple[ScalarNode, Node], ...]


Node = ScalarNode | SequenceNode | MappingNode


@dataclass(frozen=True, slots=True)
class Diagnostics:
    """The problems of one content file while it is read: its name for people, and the list they go to."""

    file: str
    problems: list[Problem]

    def add(self, line: int, message: str, hint: str) -> None:
        """Add a problem of this file."""
        self.problems.append(Problem(self.file, line, message, hint))

    def warn(self, line: int, message: str, hint: str) -> None:
        """Add a problem of this file that leaves nothing out: what it touches is taught all the same."""
        self.problems.append(Problem(self.file, line, message, hint, leaves_out=False))

    def of(self, name: str) -> Diagnostics:
        """Return the diagnostics of another file, whose problems go to the same list."""
        return Diagnostics(name, self.problems)

    @property
    def faults(self) -> int:
        """Return how many of the problems leave out what they touch."""
        return sum(problem.leaves_out for problem in self.problems)


class _NotRead(Exception):
    """A file, or what is in it, cannot be taken: the line, what is wrong, and how to fix it."""

    def __init__(self, line: int, message: str, hint: str) -> None:
        super().__init__(message)
        self.line, self.message, self.hint = line, message, hint


def read_tree(path: Path, diagnostics: Diagnostics) -> Node | None:
    """Return the tree of a file; or None, with every reason added to *diagnostics*."""
    try:
        text = _text_of(path)
        tabs = [number for number, line in enumerate(text.splitlines(), 1) if "\t" in line]
        for number in tabs:
            diagnostics.add(number, "A tab stands in this line.", "Use spaces in place of the tab.")
        return None if tabs else _tree_of(text)
    except _NotRead as found:
        diagnostics.add(found.line, found.message, found.hint)
        return None


def _text_of(path: Path) -> str:
    """Return what the file says; raises where it is missing, too large or not UTF-8."""
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise _NotRead(1, "This file is missing.", f"Make {path.name} here, or remove what asks for it.") from None
    except OSError as error:
        raise _NotRead(1, f"This cannot be read: {error.strerror}.", "Check the file and its permissions.") from error
    if len(raw) > LARGEST_FILE:
        raise _NotRead(1, "This file is larger than 1 MB.", "Split it, or take out what does not belong here.")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise _NotRead(line, "This line is not UTF-8 text.", "Save the file as UTF-8.") from error


def _tree_of(text: str) -> Node:
    """Return the tree of a text; raises at the first thing that cannot be read as YAML."""
    try:
        events = _events_of(text)
        first = next(events, None)
        if first is None:
            raise _NotRead(1, "This file is empty.", "Write what belongs here; content/README.md shows the format.")
        tree = _node_of(first, events, 0)
        for extra in events:
            raise _NotRead(
                _line_of(extra), "A second document starts here.", "Keep one document a file: take out the ---."
            )
        return tree
    except yaml.YAMLError as error:
        raise _broken(error, text) from error


def _events_of(text: str) -> Iterator[yaml.Event]:
    """Return the events that make up nodes; the marks of stream and document are left out."""
    marks = (yaml.StreamStartEvent, yaml.StreamEndEvent, yaml.DocumentStartEvent, yaml.DocumentEndEvent)
    for event in yaml.parse(text, Loader=LOADER):
        if not isinstance(event, marks):
            yield event


def _node_of(event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
    """Return the node that starts with *event*, taking its inside from *events*."""
    line = _line_of(event)
    _refuse_what_is_not_ours(event, line, depth)
    if isinstance(event, yaml.ScalarEvent):
        return ScalarNode(line, event.value)
    if isinstance(event, yaml.SequenceStartEvent):
        return SequenceNode(line, tuple(_inside(events, depth, yaml.SequenceEndEvent)))
    inside = list(_inside(events, depth, yaml.MappingEndEvent))
    pairs = []
    for key, value in zip(inside[::2], inside[1::2], strict=True):
        if not isinstance(key, ScalarNode):
            raise _NotRead(key.line, "A key is not a plain word.", "Put quotes around words that begin with a brace.")
        pairs.append((key, value))
    return MappingNode(line, tuple(pairs))


def _line_of(event: yaml.Event) -> int:
    """Return the line an event starts on, the first being 1."""
    return event.start_mark.line + 1 if event.start_mark else 1


def _inside(events: Iterator[yaml.Event], depth: int, end: type) -> Iterator[Node]:
    """Return the nodes up to the event that ends this list or block."""
    for event in events:
        if isinstance(event, end):
            return
        yield _node_of(event, events, depth + 1)


def _refuse_what_is_not_ours(event: yaml.Event, line: int, depth: int) -> None:
    """Raise for anchors, aliases, tags and deep nesting: content is plain, so that anybody can edit it."""
    if isinstance(event, yaml.AliasEvent):
        raise _NotRead(line, f"An alias, *{event.anchor}, is not read here.", "Write the value out where it belongs.")
    if not isinstance(event, yaml.NodeEvent):
        return
    if event.anchor:
        raise _NotRead(line, f"An anchor, &{event.anchor}, is not read here.", "Take it out, or put quotes around it.")
    tag = getattr(event, "tag", None)
    if tag:
        raise _NotRead(line, f"A tag, {tag}, is not read here.", "Take it out, or put quotes around it.")
    if depth > DEEPEST:
        raise _NotRead(line, "This is nested too deep.", "Close the brackets; nothing here goes that deep.")


def _broken(error: yaml.YAMLError, text: str) -> _NotRead:
    """Return where a text stops being YAML, and the likeliest fix."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    position = getattr(error, "position", 0)
    line = mark.line + 1 if mark else text.count("\n", 0, position) + 1
    what = getattr(error, "problem", None) or getattr(error, "reason", None) or "it cannot be read"
    return _NotRead(line, f"This is not YAML: {what}.", _likely_hint(text, line))


def _likely_hint(text: str, line: int) -> str:
    """Return what most often helps for a line like this one."""
    lines = text.splitlines()
    typed = lines[min(line, len(lines)) - 1] if lines else ""
    if "{" in typed or typed.count(": ") > 1:
        return "Put quotes around words that hold a colon or begin with a brace."
    return "Check quotes, brackets and the spaces at the start of this line and the one before."
