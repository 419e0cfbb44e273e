"""The words of one technique or recipe in every language there is: all read, all checked, and held alike."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Generic, TypeVar

from trainer.content.declarations import Block
from trainer.content.kinds import BRACE
from trainer.content.limits import First
from trainer.content.mapping_reader import BLANK, MappingReader
from trainer.content.nodes import (
    Diagnostics,
    MappingNode,
    Node,
    ScalarNode,
    SequenceNode,
    read_tree,
)
from trainer.content.questions import alternatives
from trainer.kitchen.quiz.sentences import FamilyWords, QuestionWords
from trainer.store.catalogues import ENGLISH

TAG = re.compile(r"[a-z]{2,3}")
BESIDE = {"steps": ("cue", "why", "name")}
"""What English may leave out, so that nothing else shows when another language leaves it out."""

UNWRITTEN_HINT = "When en.yaml is done, copy it over this file and write each text in this language; or take it away."

Found = TypeVar("Found")
Tell = Callable[[Any, str, First], Found | None]
"""What makes a record from the words of one language, with either units first."""
Compare = Callable[[MappingNode, MappingNode, Diagnostics], None]
"""Adds a problem where words that draw questions are not those of English; takes both, English first."""


def languages_of(folder: Path) -> tuple[str, ...]:
    """Return the languages a folder has words in, by their tags: those of its `<language>.yaml` files."""
    return tuple(sorted(path.stem for path in folder.glob("*.yaml") if TAG.fullmatch(path.stem)))


@dataclass
class SourceFiles(Generic[Found]):
    """The files of one technique or recipe, read: its words by language, and which of them have no problem.

    `is_sound` is no where structure or English words have one: then nothing is taught.
    """

    tell: Tell[Found]
    words: dict[str, Block] = field(default_factory=dict)
    sound: set[str] = field(default_factory=set)
    is_sound: bool = False
    made: dict[tuple[str, First], Found | None] = field(default_factory=dict)

    def told(self, language: str, first: First) -> Found | None:
        """Return what the files teach in a language, in English where it has no good words in that one."""
        return self.draft(language if language in self.sound else ENGLISH, first) if self.is_sound else None

    def draft(self, language: str, first: First) -> Found | None:
        """Return as much as can be read in a language, right or wrong; None where its words cannot be read at all."""
        if language in self.words and (language, first) not in self.made:
            self.made[language, first] = self.tell(self.words[language], language, first)
        return self.made.get((language, first))


def read_languages(
    folder: Path,
    kind: type[Block],
    tell: Tell[Found],
    diagnostics: Diagnostics,
    alike: Compare | None = None,
) -> SourceFiles[Found]:
    """Return the words of a folder in every language there is, each checked.

    A problem in another language than English leaves that language out, and nobody's technique.
    """
    files, english = SourceFiles(tell), None
    for language in (ENGLISH, *(tag for tag in languages_of(folder) if tag != ENGLISH)):
        own, before = diagnostics.of(f"{diagnostics.file}/{language}.yaml"), len(diagnostics.problems)
        tree = read_tree(folder / f"{language}.yaml", own)
        if tree is None:
            continue
        if language != ENGLISH and _is_unwritten(tree):
            own.add(1, "Nothing is written here yet.", UNWRITTEN_HINT)
            continue
        files.words[language] = kind.read(tree, "the words", MappingReader(own, 1, ""))
        files.draft(language, "us")
        if language == ENGLISH:
            english = tree
        elif isinstance(english, MappingNode) and isinstance(tree, MappingNode):
            check_like_english(english, tree, own)
            if alike is not None:
                alike(english, tree, own)
        if len(diagnostics.problems) == before:
            files.sound.add(language)
    return files


def _is_unwritten(tree: Node) -> bool:
    """Return whether a words file is as it was made: every text in it a blank."""
    texts = list(_texts(tree))
    return bool(texts) and all(BLANK in text.value for _, text in texts)


def check_stray_files(folder: Path, structure: str, diagnostics: Diagnostics) -> None:
    """Add a problem for a file beside the structure that no language reads."""
    for path in sorted(folder.glob("*.y*ml")):
        if path.name != structure and not (path.suffix == ".yaml" and TAG.fullmatch(path.stem)):
            own = diagnostics.of(f"{diagnostics.file}/{path.name}")
            own.add(1, "Nobody reads this file.", "Name words by their language: en.yaml, es.yaml.")


def check_like_english(english: MappingNode, other: MappingNode, diagnostics: Diagnostics) -> None:
    """Add a problem where the words are not those of English: braces, lists, cues."""
    _check_braces(english, other, diagnostics)
    for key in ("words", "tools", "equipment"):
        _check_count(key, english, other, diagnostics)
    for block, keys in BESIDE.items():
        for step, there, here in _in_both(english, other, block):
            _check_keys(step, keys, (there, here), diagnostics)


def _check_braces(english: Node, other: Node, diagnostics: Diagnostics) -> None:
    """Add a problem for each text that names other numbers than its English."""
    said = dict(_texts(english))
    for path, text in _texts(other):
        if path in said and path[0] != "questions":
            here, there = (sorted(BRACE.findall(each.value)) for each in (text, said[path]))
            if here != there:
                names = " and ".join(f"{{{name}}}" for name in there) or "none"
                problem = f"{path[-1]} names other numbers than in English."
                diagnostics.add(text.line, problem, f"English names here: {names}.")


def _check_count(key: str, english: MappingNode, other: MappingNode, diagnostics: Diagnostics) -> None:
    """Add a problem for a list that is longer or shorter than in English; one that is missing as well."""
    there, here = _under(english, key), _under(other, key)
    counts = [len(node.items) if isinstance(node, SequenceNode | MappingNode) else 0 for node in (here, there)]
    if counts[0] != counts[1]:
        problem = f"{key} holds {counts[0]} here and {counts[1]} in English."
        diagnostics.add(here.line if here else other.line, problem, "Say the same in both, in the same order.")


def _check_keys(
    name: str, keys: tuple[str, ...], pair: tuple[MappingNode, MappingNode], diagnostics: Diagnostics
) -> None:
    """Add a problem for what one language says and the other leaves out, of what may be left out."""
    english, other = pair
    for key in keys:
        there, here = _under(english, key), _under(other, key)
        if there and not here:
            diagnostics.add(other.line, f"{name} has no {key}, which English has.", f"Add `{key}: ...`.")
        if here and not there:
            diagnostics.add(
                here.line, f"{name} has a {key}, which English lacks.", "Take it out, or add it to en.yaml."
            )


def check_questions(asked: QuestionWords, english: MappingNode, other: MappingNode, diagnostics: Diagnostics) -> None:
    """Add a problem for words of questions that are missing, or have more or fewer alternatives than in English."""
    blocks = {key: _mapping(_under(tree, "questions")) for key, tree in (("there", english), ("here", other))}
    for family, usual in asked.families.items():
        there, here = (_mapping(_under(block, family)) for block in (blocks["there"], blocks["here"]))
        line = here.line if here.items else blocks["here"].line or other.line
        _check_alternatives(family, usual, (there, here), diagnostics, line)


def check_lists(
    family: str, asked: QuestionWords, english: MappingNode, other: MappingNode, diagnostics: Diagnostics
) -> None:
    """Add a problem for lists of a skill that are missing, or have more or fewer alternatives than in English."""
    there, here = (_mapping(_under(tree, "words")) for tree in (english, other))
    if family in asked.families:
        line = here.line or other.line
        _check_alternatives(family, asked.families[family], (there, here), diagnostics, line)


def _check_alternatives(
    family: str, usual: FamilyWords, pair: tuple[MappingNode, MappingNode], diagnostics: Diagnostics, line: int
) -> None:
    """Add a problem for each list of a family that is not there, or has more or fewer alternatives than in English."""
    there, here = pair
    for word, default in usual.words.items():
        text, told = _under(there, word), _under(here, word)
        if isinstance(text, ScalarNode) and not told:
            diagnostics.add(line, f"questions: {family} has no {word}, which English has.", f"Add `{word}: ...`.")
        elif isinstance(told, ScalarNode):
            own = alternatives(text.value) if isinstance(text, ScalarNode) else default
            count = len(alternatives(told.value))
            if count != len(own):
                problem = f"{word} of {family} has {count} alternatives here and {len(own)} in English."
                diagnostics.add(told.line, problem, "Give the same, in the same order, with | between them.")


def _texts(node: Node, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], ScalarNode]]:
    """Yield every text with the keys, or the places in lists, that lead to it."""
    if isinstance(node, ScalarNode):
        yield path, node
    elif isinstance(node, SequenceNode):
        for place, item in enumerate(node.items, 1):
            yield from _texts(item, (*path, str(place)))
    else:
        for key, value in node.items:
            yield from _texts(value, (*path, key.value))


def _under(block: MappingNode, key: str) -> Node | None:
    """Return what stands under a key of a block."""
    return next((value for name, value in block.items if name.value == key), None)


def _mapping(node: Node | None) -> MappingNode:
    """Return a block, an empty one where there is none."""
    return node if isinstance(node, MappingNode) else MappingNode(0, ())


def _in_both(english: MappingNode, other: MappingNode, block: str) -> Iterator[tuple[str, MappingNode, MappingNode]]:
    """Yield the entries that a block has in both languages."""
    there, here = _mapping(_under(english, block)), _mapping(_under(other, block))
    for key, node in there.items:
        twin = _under(here, key.value)
        if isinstance(node, MappingNode) and isinstance(twin, MappingNode):
            yield key.value, node, twin


def languages_missing(folders: Mapping[str, Path]) -> dict[str, tuple[str, ...]]:
    """Return, for each language some folders have words in, the names of those that have none."""
    there = {name: languages_of(folder) for name, folder in folders.items()}
    known = sorted({language for languages in there.values() for language in languages})
    lacking = {tag: tuple(name for name, languages in there.items() if tag not in languages) for tag in known}
    return {tag: names for tag, names in lacking.items() if names}
