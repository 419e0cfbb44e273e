"""One mapping of a content file while its keys are read: its place, what it holds, and which names are known."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

from trainer.content.nodes import Diagnostics, MappingNode, Node, ScalarNode, SequenceNode

ID = re.compile(r"[a-z][a-z0-9_]*")
SHORT, LONG = 80, 400
BLANK = "___"
"""What is written where something is still to be said, in a technique just begun."""
NEW_SOURCE = "A new one goes into sources.yaml first: its title, edition, place and known."

Known = Mapping[str, Collection[str]]
"""The names a file may use, by what they are names of: sources, allergens, techniques, hazards, points."""


@dataclass
class MappingReader:
    """One mapping being read: its keys with what they hold and their lines, and what problems call it."""

    diagnostics: Diagnostics
    line: int
    name: str
    known: Known = field(default_factory=dict)
    nodes: dict[str, Node] = field(default_factory=dict)
    lines: dict[str, int] = field(default_factory=dict)

    @classmethod
    def of(cls, node: Node, diagnostics: Diagnostics, name: str, known: Known | None = None) -> MappingReader:
        """Return the reader of a mapping; any other node has no keys, and that is a problem."""
        reader = cls(diagnostics, node.line, name, known or {})
        if not isinstance(node, MappingNode):
            reader.add(f"{name} should hold keys with values.", "Write it as `key: value` lines.")
            return reader
        for key, value in node.items:
            if key.value in reader.nodes:
                diagnostics.add(key.line, f"{key.value} stands twice in {name}.", "Keep one of the two.")
            else:
                reader.nodes[key.value], reader.lines[key.value] = value, key.line
        return reader

    def inner(self, node: Node, name: str) -> MappingReader:
        """Return the reader of a mapping inside this one."""
        return MappingReader.of(node, self.diagnostics, name, self.known)

    def add(self, message: str, hint: str) -> None:
        """Add a problem of the whole mapping."""
        self.diagnostics.add(self.line, message, hint)

    def missing(self, key: str) -> None:
        """Add the problem that a key is missing."""
        self.add(f"{self.name} has no {key}.", f"Add `{key}: ...`.")

    def unknown(self, line: int, key: str, word: str, known: Iterable[str]) -> None:
        """Add the problem that a key names what is not there."""
        self.diagnostics.add(line, f"{key} names {word!r}, which is not known.", nearest(word, known))

    def refuse_others(self, keys: Collection[str]) -> None:
        """Add a problem for each key that is none of *keys*."""
        for key in self.nodes.keys() - set(keys):
            self.diagnostics.add(self.lines[key], f"{key} is not a key of {self.name}.", nearest(key, keys))

    def check_id(self, word: str, line: int) -> bool:
        """Return whether a word can be an id; add a problem where not."""
        return check_id(word, line, self.diagnostics)


def check_id(word: str, line: int, diagnostics: Diagnostics) -> bool:
    """Return whether a word can be an id; add a problem where not."""
    if ID.fullmatch(word):
        return True
    diagnostics.add(line, f"{word!r} cannot be an id.", "Use small letters, figures and _, a letter first.")
    return False


def nearest(word: str, known: Iterable[str]) -> str:
    """Return how to fix a wrong word: the nearest known one, or all that are known."""
    there = sorted(known)
    close = get_close_matches(word, there, n=1, cutoff=0.6)
    if close:
        return f"Did you mean {close[0]}?"
    if not there:
        return "Take it out; nothing is known here."
    return f"Known here: {', '.join(there[:12])}{' ...' if len(there) > 12 else ''}."


def text_of(node: Node, diagnostics: Diagnostics, name: str, longest: int = LONG) -> str:
    """Return the words of a node on one line; empty, with a problem, where there are none or too many."""
    if not isinstance(node, ScalarNode):
        hint = "Write one text; put quotes around it if it begins with a brace."
        diagnostics.add(node.line, f"{name} should be words.", hint)
        return ""
    words = " ".join(node.value.split())
    if not words:
        diagnostics.add(node.line, f"{name} is empty.", "Write it, or take the key out.")
    elif BLANK in words:
        diagnostics.add(node.line, f"{name} is still to be written.", f"Write it in place of {BLANK}.")
    elif len(words) > longest:
        hint = f"Keep it within {longest}; split or shorten it."
        diagnostics.add(node.line, f"{name} is {len(words)} letters long.", hint)
    return words


def known_word(node: Node, diagnostics: Diagnostics, key: str, known: Collection[str]) -> str:
    """Return a word out of a closed list; empty, with the nearest known word as the hint, where it is none of them."""
    if isinstance(node, ScalarNode) and node.value in known:
        return node.value
    word = node.value if isinstance(node, ScalarNode) else shown(node)
    hint = _nearest_source(word, known) if key in ("source", "sources") else nearest(word, known)
    diagnostics.add(node.line, f"{key} names {word!r}, which is not known.", hint)
    return ""


def shown(node: Node) -> str:
    """Return what was typed, short enough to print in a problem."""
    if isinstance(node, ScalarNode):
        return repr(node.value[:40])
    return "a list" if isinstance(node, SequenceNode) else "a block of keys"


def _nearest_source(word: str, known: Collection[str]) -> str:
    """Return how to fix a source that is not known: the nearest one where one is near, and where a new one goes."""
    close = get_close_matches(word, sorted(known), n=1, cutoff=0.8)
    return " ".join([*(f"Did you mean {found}?" for found in close), NEW_SOURCE])
