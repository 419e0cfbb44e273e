"""The words of one technique or recipe in every language there is: all read, all checked, and held alike."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from trainer.content.nodes import Keyed, Many, Node, Sheet, Text, read_tree
from trainer.content.pair import Around
from trainer.content.said import ENGLISH
from trainer.content.schema import BLANK
from trainer.content.words import BRACE

TAG = re.compile(r"[a-z]{2,3}")
BESIDE = {"steps": ("cue", "why")}
"""What English may leave out, so that nothing else shows when another language leaves it out."""

UNWRITTEN_MEND = "When en.yaml is done, copy it over this file and write each text in this language; or take it away."

Found = TypeVar("Found")
Read = Callable[[Around, Sheet], Found | None]


def languages_of(folder: Path) -> tuple[str, ...]:
    """Return the languages a folder has words in, by their tags: those of its `<language>.yaml` files."""
    return tuple(sorted(path.stem for path in folder.glob("*.yaml") if TAG.fullmatch(path.stem)))


def told_in(folder: Path, around: Around, problems: Sheet, read: Read[Found]) -> Found | None:
    """Return what a folder teaches in the language asked for; in English where it has no good words in that one.

    Structure and English words decide whether there is anything at all: a fault in another language leaves that
    language out, and nobody's technique. Every words file there is is read, so that its problems are told.
    """
    found = english = read(replace(around, language=ENGLISH), problems)
    for language in languages_of(folder):
        if language == ENGLISH:
            continue
        name = f"{problems.file}/{language}.yaml"
        if _is_unwritten(folder / f"{language}.yaml"):
            Sheet(name, problems.problems).note(1, "Nothing is written here yet.", UNWRITTEN_MEND)
            continue
        sheet = Sheet(problems.file, [])
        other = read(replace(around, language=language), sheet)
        note_unlike_english(folder, Sheet(name, sheet.problems), language, around)
        own = [problem for problem in sheet.problems if problem.file == name]
        problems.problems.extend(own)
        if language == around.language and english is not None and not own:
            found = other
    return found


def _is_unwritten(path: Path) -> bool:
    """Return whether a words file is as it was made: every text in it a blank."""
    tree = read_tree(path, Sheet("", []))
    return tree is not None and bool(texts := list(_texts(tree))) and all(BLANK in text.value for _, text in texts)


def note_stray_files(folder: Path, structure: str, problems: Sheet) -> None:
    """Note a file beside the structure that no language reads."""
    for path in sorted(folder.glob("*.y*ml")):
        if path.name != structure and not (path.suffix == ".yaml" and TAG.fullmatch(path.stem)):
            sheet = Sheet(f"{problems.file}/{path.name}", problems.problems)
            sheet.note(1, "Nobody reads this file.", "Name words by their language: en.yaml, es.yaml.")


def note_unlike_english(folder: Path, sheet: Sheet, language: str, around: Around) -> None:
    """Note where the words of another language are not those of English: braces, lists, alternatives, cues."""
    silent = Sheet("", [])
    english, other = (read_tree(folder / f"{tag}.yaml", silent) for tag in (ENGLISH, language))
    if not isinstance(english, Keyed) or not isinstance(other, Keyed):
        return
    _note_other_braces(english, other, sheet)
    for key in ("words", "tools"):
        _note_other_count(key, english, other, sheet)
    for block, keys in BESIDE.items():
        for step, pair in _in_both(english, other, block):
            _note_other_keys(step, keys, pair, sheet)
    _note_other_questions(english, other, sheet, around)


def _note_other_braces(english: Node, other: Node, sheet: Sheet) -> None:
    """Note each text that names other numbers than its English."""
    said = dict(_texts(english))
    for path, text in _texts(other):
        if path in said and path[0] != "questions":
            here, there = (sorted(BRACE.findall(each.value)) for each in (text, said[path]))
            if here != there:
                names = " and ".join(f"{{{name}}}" for name in there) or "none"
                problem = f"{path[-1]} names other numbers than in English."
                sheet.note(text.line, problem, f"English names here: {names}.")


def _note_other_count(key: str, english: Keyed, other: Keyed, sheet: Sheet) -> None:
    """Note a list that is longer or shorter than in English; one that is missing as well."""
    there, here = _under(english, key), _under(other, key)
    counts = [len(node.items) if isinstance(node, Many | Keyed) else 0 for node in (here, there)]
    if counts[0] != counts[1]:
        problem = f"{key} holds {counts[0]} here and {counts[1]} in English."
        sheet.note(here.line if here else other.line, problem, "Say the same in both, in the same order.")


def _note_other_keys(name: str, keys: tuple[str, ...], pair: tuple[Keyed, Keyed], sheet: Sheet) -> None:
    """Note what one language says and the other leaves out, of what may be left out."""
    english, other = pair
    for key in keys:
        there, here = _under(english, key), _under(other, key)
        if there and not here:
            sheet.note(other.line, f"{name} has no {key}, which English has.", f"Add `{key}: ...`.")
        if here and not there:
            sheet.note(here.line, f"{name} has a {key}, which English lacks.", "Take it out, or add it to en.yaml.")


def _note_other_questions(english: Keyed, other: Keyed, sheet: Sheet, around: Around) -> None:
    """Note words for questions that are missing, or have more or fewer alternatives: one seed must draw one thing."""
    blocks = {key: _keyed(_under(tree, "questions")) for key, tree in (("there", english), ("here", other))}
    for family, usual in around.families.items():
        there, here = (_keyed(_under(block, family)) for block in (blocks["there"], blocks["here"]))
        for word, default in usual.words.items():
            text, told = _under(there, word), _under(here, word)
            if isinstance(text, Text) and not told:
                line = here.line if here.items else blocks["here"].line or other.line
                sheet.note(line, f"questions: {family} has no {word}, which English has.", f"Add `{word}: ...`.")
            elif isinstance(told, Text):
                count, asked = (
                    _alternatives(each) for each in (told.value, text.value if isinstance(text, Text) else default)
                )
                if count != asked:
                    problem = f"{word} of {family} has {count} alternatives here and {asked} in English."
                    sheet.note(told.line, problem, "Give the same, in the same order, with | between them.")


def _alternatives(text: str) -> int:
    """Return how many things a question may draw from a text."""
    return len(text.split("|"))


def _texts(node: Node, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Text]]:
    """Yield every text with the keys, or the places in lists, that lead to it."""
    if isinstance(node, Text):
        yield path, node
    elif isinstance(node, Many):
        for place, item in enumerate(node.items, 1):
            yield from _texts(item, (*path, str(place)))
    else:
        for key, value in node.items:
            yield from _texts(value, (*path, key.value))


def _under(block: Keyed, key: str) -> Node | None:
    """Return what stands under a key of a block."""
    return next((value for name, value in block.items if name.value == key), None)


def _keyed(node: Node | None) -> Keyed:
    """Return a block, an empty one where there is none."""
    return node if isinstance(node, Keyed) else Keyed(0, ())


def _in_both(english: Keyed, other: Keyed, block: str) -> Iterator[tuple[str, tuple[Keyed, Keyed]]]:
    """Yield the entries that a block has in both languages."""
    there, here = _keyed(_under(english, block)), _keyed(_under(other, block))
    for key, node in there.items:
        twin = _under(here, key.value)
        if isinstance(node, Keyed) and isinstance(twin, Keyed):
            yield key.value, (node, twin)


def languages_missing(folders: Mapping[str, Path]) -> dict[str, tuple[str, ...]]:
    """Return, for each language some folders have words in, the names of those that have none."""
    there = {name: languages_of(folder) for name, folder in folders.items()}
    known = sorted({language for languages in there.values() for language in languages})
    lacking = {tag: tuple(name for name, languages in there.items() if tag not in languages) for tag in known}
    return {tag: names for tag, names in lacking.items() if names}
