"""Reading the fields of a keyed block, each by its type; whatever is wrong is noted, and reading goes on."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches

from trainer.content.nodes import Keyed, Many, Node, Sheet, Text

ID = re.compile(r"[a-z][a-z0-9_]*")
WHOLE = re.compile(r"[0-9]{1,6}")
DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
SHORT, LONG = 80, 400
BLANK = "___"
"""What stands where something is still to be written, in a technique just begun."""
NEW_SOURCE = "A new one goes into sources.yaml first: its title, edition, place and known."


def nearest(word: str, known: Iterable[str]) -> str:
    """Return how to mend a wrong word: the nearest known one, or all that are known."""
    there = sorted(known)
    close = get_close_matches(word, there, n=1, cutoff=0.6)
    if close:
        return f"Did you mean {close[0]}?"
    if not there:
        return "Take it out; nothing is known here."
    return f"Known here: {', '.join(there[:12])}{' ...' if len(there) > 12 else ''}."


@dataclass
class Fields:
    """One keyed block being read. Each field is asked for once; `close` notes what nobody asked for."""

    sheet: Sheet
    line: int
    name: str
    nodes: dict[str, Node] = field(default_factory=dict)
    lines: dict[str, int] = field(default_factory=dict)
    asked: set[str] = field(default_factory=set)

    @classmethod
    def of(cls, node: Node, sheet: Sheet, name: str) -> Fields:
        """Return the fields of a block; a node that is no block has none, and that is noted."""
        fields = cls(sheet, node.line, name)
        if not isinstance(node, Keyed):
            sheet.note(node.line, f"{name} should hold keys with values.", "Write it as `key: value` lines.")
            return fields
        for key, value in node.items:
            if key.value in fields.nodes:
                sheet.note(key.line, f"{key.value} stands twice in {name}.", "Keep one of the two.")
            else:
                fields.nodes[key.value], fields.lines[key.value] = value, key.line
        return fields

    def close(self) -> None:
        """Note every key nobody asked for."""
        for key in self.nodes.keys() - self.asked:
            mend = nearest(key, self.asked)
            self.sheet.note(self.lines[key], f"{key} is not a key of {self.name}.", mend)

    def node(self, key: str, required: bool = True) -> Node | None:
        """Return what stands under a key; a missing one is noted where it is required."""
        self.asked.add(key)
        found = self.nodes.get(key)
        if found is None and required:
            self.sheet.note(self.line, f"{self.name} has no {key}.", f"Add `{key}: ...`.")
        return found

    def text(self, key: str, required: bool = True, longest: int = LONG) -> str:
        """Return a text, one line, never longer than *longest*; empty where there is none."""
        node = self.node(key, required)
        return "" if node is None else text_of(node, self.sheet, key, longest)

    def whole(self, key: str, lowest: int, highest: int, default: int | None = None) -> int:
        """Return a whole number between *lowest* and *highest*; *lowest* where it cannot be read."""
        node = self.node(key, default is None)
        if node is None:
            return lowest if default is None else default
        if isinstance(node, Text) and WHOLE.fullmatch(node.value) and lowest <= int(node.value) <= highest:
            return int(node.value)
        typed = shown(node)
        self.sheet.note(
            node.line, f"{key} is {typed}, not a whole number.", f"Write a whole number from {lowest} to {highest}."
        )
        return lowest

    def yes(self, key: str, default: bool | None = None) -> bool:
        """Return whether a key says yes."""
        node = self.node(key, default is None)
        if node is None:
            return bool(default)
        if isinstance(node, Text) and node.value in ("yes", "no"):
            return node.value == "yes"
        self.sheet.note(node.line, f"{key} is {shown(node)}.", "Write yes or no.")
        return bool(default)

    def day(self, key: str) -> date:
        """Return a date; the first day of the calendar where it cannot be read."""
        node = self.node(key)
        if node is None:
            return date.min
        if isinstance(node, Text) and DAY.fullmatch(node.value):
            try:
                return date.fromisoformat(node.value)
            except ValueError:
                pass
        self.sheet.note(
            node.line, f"{key} is {shown(node)}, not a date.", "Write the date as year-month-day: 2025-03-01."
        )
        return date.min

    def one_of(self, key: str, known: Collection[str], required: bool = True) -> str:
        """Return a word out of a closed list; empty where it is none of them."""
        node = self.node(key, required)
        if node is None:
            return ""
        return _known_word(node, self.sheet, key, known)

    def words(self, key: str, known: Collection[str] | None, required: bool = True) -> tuple[str, ...]:
        """Return a list of words, each once, each out of *known* (None lets any word in)."""
        found: dict[str, None] = {}
        for item in self.many(key, required):
            word = text_of(item, self.sheet, key, SHORT) if known is None else _known_word(item, self.sheet, key, known)
            if word in found:
                self.sheet.note(item.line, f"{word} stands twice under {key}.", "Keep one of the two.")
            elif word:
                found[word] = None
        return tuple(found)

    def many(self, key: str, required: bool = True) -> tuple[Node, ...]:
        """Return the items of a list."""
        node = self.node(key, required)
        if node is None:
            return ()
        if isinstance(node, Many):
            return node.items
        self.sheet.note(node.line, f"{key} is not a list.", f"Write it as `{key}: [one, another]`.")
        return ()

    def block(self, key: str, required: bool = True) -> Fields | None:
        """Return the fields under a key."""
        node = self.node(key, required)
        return None if node is None else Fields.of(node, self.sheet, key)

    def each(self, known: Collection[str] | None = None) -> Iterator[tuple[str, Node]]:
        """Yield every key with what stands under it, for blocks whose keys are ids; a key that is none is noted."""
        for key, node in self.nodes.items():
            self.asked.add(key)
            if known is not None and key not in known:
                self.sheet.note(self.lines[key], f"{self.name} has no {key}.", nearest(key, known))
            elif note_unless_id(key, self.lines[key], self.sheet):
                yield key, node


def note_unless_id(word: str, line: int, sheet: Sheet) -> bool:
    """Return whether a word can be an id, noting it when not."""
    if ID.fullmatch(word):
        return True
    sheet.note(line, f"{word!r} cannot be an id.", "Use small letters, figures and _, a letter first.")
    return False


def text_of(node: Node, sheet: Sheet, name: str, longest: int = LONG) -> str:
    """Return the words of a node; empty, and noted, where there are none or too many."""
    if not isinstance(node, Text):
        sheet.note(
            node.line, f"{name} should be words.", "Write one text; put quotes around it if it begins with a brace."
        )
        return ""
    words = " ".join(node.value.split())
    if not words:
        sheet.note(node.line, f"{name} is empty.", "Write it, or take the key out.")
    elif BLANK in words:
        sheet.note(node.line, f"{name} is still to be written.", f"Write it in place of {BLANK}.")
    elif len(words) > longest:
        sheet.note(
            node.line, f"{name} is {len(words)} letters long.", f"Keep it within {longest}; split or shorten it."
        )
    return words


def shown(node: Node) -> str:
    """Return what somebody typed, short enough to print in a problem."""
    if isinstance(node, Text):
        return repr(node.value[:40])
    return "a list" if isinstance(node, Many) else "a block of keys"


def note_differences(structure: Mapping[str, int], words: Fields, name: str) -> None:
    """Note ids of the structure that have no words here, and words no id of the structure asks for."""
    for key in structure.keys() - words.nodes.keys():
        words.sheet.note(words.line, f"The {name} {key} has no words.", f"Add `{key}: ...` under {words.name}.")
    for key in words.nodes.keys() - structure.keys():
        mend = nearest(key, structure)
        line = words.lines[key]
        words.sheet.note(line, f"There are words for the {name} {key}, which the structure does not have.", mend)


def _known_word(node: Node, sheet: Sheet, key: str, known: Collection[str]) -> str:
    """Return the word, or an empty one with the nearest known word noted."""
    if isinstance(node, Text) and node.value in known:
        return node.value
    word = node.value if isinstance(node, Text) else shown(node)
    mend = _nearest_source(word, known) if key in ("source", "sources") else nearest(word, known)
    sheet.note(node.line, f"{key} names {word!r}, which is not known.", mend)
    return ""


def _nearest_source(word: str, known: Collection[str]) -> str:
    """Return how to mend a source that is not known: the nearest one where one is near, and where a new one goes."""
    close = get_close_matches(word, sorted(known), n=1, cutoff=0.8)
    return " ".join([*(f"Did you mean {found}?" for found in close), NEW_SOURCE])
