"""A technique of the former format, with questions and a quiz, rewritten to ask for skills: a file for each setting.

A setting that several techniques have alike becomes one skill. A technique that the rule would refuse as it is (fewer
than three skills, too much luck about safety) keeps its quiz, and it is said why.
"""

from __future__ import annotations

import json
import shutil
import tempfile
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from trainer.content.files import Library, SharedFiles, folders_of
from trainer.content.kinds import Table, Written
from trainer.content.languages import languages_of
from trainer.content.mapping_reader import SHORT
from trainer.content.nodes import Diagnostics, Node, ScalarNode
from trainer.content.questions import QuestionBlock, takes_words
from trainer.content.techniques import STRUCTURE, TechniqueStructure, TechniqueWords, technique_structure, words_of
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.technique import Content, Technique
from trainer.store.catalogues import ENGLISH

Lines = list[str]
Lists = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Setting:
    """A family as a technique sets it, as typed: its ranges, and its lists of words by language.

    `of` is the technique whose words it asks about; alike settings of several techniques are one.
    """

    family: str
    ranges: Lists
    words: tuple[tuple[str, Lists], ...]
    of: str


@dataclass(frozen=True, slots=True)
class Former:
    """A technique of the former format: its settings, its titles by language, its structure."""

    id: str
    structure: TechniqueStructure
    titles: Mapping[str, str]
    settings: tuple[Setting, ...]


@dataclass(frozen=True, slots=True)
class WithSkills:
    """The new texts by file name, and of each technique that keeps its quiz the reason."""

    texts: Mapping[str, str]
    stays: tuple[str, ...]


def with_skills(folder: Path) -> WithSkills:
    """Return a folder's techniques rewritten to ask for skills, as many of them as the rule takes as they are."""
    shared = SharedFiles.read(folder, Diagnostics("", []))
    before = Library(folder).content(ENGLISH, "us")
    former = [each for each in _former(folder, shared) if before and each.id in before.techniques]
    stays: list[str] = []
    while former:
        texts = _texts(folder, shared, former)
        after, reasons = _loaded(folder, texts)
        kept = [each for each in former if after and each.id in after.techniques]
        if len(kept) == len(former):
            return WithSkills(texts, tuple(sorted(stays)))
        stays += [f"{each.id} keeps its quiz: {_why(each.id, reasons)}" for each in former if each not in kept]
        former = kept
    return WithSkills({}, tuple(sorted(stays)))


def without_questions(technique: Technique) -> Technique:
    """Return a technique with nothing of what it asks to be known, so that the rest can be compared."""
    return replace(
        technique, questions=(), knowledge=(), plan=None, need_right=0, safety_percent=0, waits=(), quiz_months=0
    )


def _former(folder: Path, shared: SharedFiles) -> Iterator[Former]:
    """Yield the techniques that have questions and a quiz."""
    for own in folders_of(folder, "techniques"):
        structure = technique_structure(own, shared.context, Diagnostics("", []))
        if structure is None or not structure.block.questions:
            continue
        told = {tag: words_of(own, tag, Diagnostics("", [])) for tag in languages_of(own)}
        words = {tag: each for tag, each in told.items() if each is not None}
        settings = tuple(_setting(block, own.name, words) for block in structure.block.questions.values())
        titles = {tag: each.title.text for tag, each in words.items() if each.title}
        yield Former(own.name, structure, titles, settings)


def _setting(block: QuestionBlock, technique: str, words: Mapping[str, TechniqueWords]) -> Setting:
    nodes: Mapping[str, Node] = block.ranges or {}
    ranges = tuple((id, node.value) for id, node in nodes.items() if isinstance(node, ScalarNode))
    lists = tuple((tag, _lists(each.questions, block.family)) for tag, each in words.items())
    return Setting(block.family, ranges, lists, technique if takes_words(FAMILIES[block.family]) else "")


def _lists(questions: Table[Table[Written]] | None, family: str) -> Lists:
    """Return the lists of words of a family as they are typed, those it uses no more left out."""
    found = questions.get(family) if questions else None
    return tuple((id, text.text) for id, text in found.items() if id in FAMILIES[family].words) if found else ()


def _texts(folder: Path, shared: SharedFiles, former: Collection[Former]) -> dict[str, str]:
    """Return every new text: of techniques without their questions, and of the skills in their place."""
    names = _names(former)
    texts: dict[str, str] = {}
    for each in former:
        place = f"techniques/{each.id}"
        asked = list(dict.fromkeys(names[setting] for setting in each.settings))
        texts[f"{place}/{STRUCTURE}"] = _asking(_lines(folder / place / STRUCTURE), each.structure, asked)
        for tag in languages_of(folder / place):
            lines = _lines(folder / place / f"{tag}.yaml")
            if (at := _top_level(lines, "questions")) is not None:
                texts[f"{place}/{tag}.yaml"] = "".join([*lines[: at[0]], *lines[at[1] :]])
        for setting in each.settings:
            texts |= _skill_texts(names[setting], setting, each, shared)
    return texts


def _names(former: Collection[Former]) -> dict[Setting, str]:
    """Return the id of each skill: its family where it is the only one of it, else with the technique's name."""
    owners: dict[Setting, str] = {}
    for each in former:
        for setting in each.settings:
            owners.setdefault(setting, each.id)
    alike = Counter(setting.family for setting in owners)
    return {
        setting: setting.family if alike[setting.family] == 1 and not setting.of else f"{setting.family}_{technique}"
        for setting, technique in owners.items()
    }


def _skill_texts(name: str, setting: Setting, technique: Former, shared: SharedFiles) -> dict[str, str]:
    """Return the files of one skill: structure, and words in each language of the technique."""
    structure = [f"family: {setting.family}", *_block("ranges", setting.ranges)]
    texts = {f"skills/{name}/skill.yaml": _joined([*structure, *([f"of: {setting.of}"] if setting.of else [])])}
    for tag, lists in setting.words:
        title = shared.questions.told(tag).families[setting.family].title
        told = f"{technique.titles.get(tag, '')}: {title}" if setting.of else title
        lines = [f"title: {_quoted(told if len(told) <= SHORT else title)}", *_block("words", lists)]
        texts[f"skills/{name}/{tag}.yaml"] = _joined(lines)
    return texts


def _block(key: str, pairs: Lists) -> list[str]:
    return [f"{key}:", *(f"  {name}: {_quoted(text)}" for name, text in pairs)] if pairs else []


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _joined(lines: list[str]) -> str:
    return "\n".join([*lines, ""])


def _asking(lines: Lines, structure: TechniqueStructure, asked: list[str]) -> str:
    """Return the text of a structure that names its skills, and of the quiz only how long one passed still counts."""
    for key, text in (
        ("questions", f"knowledge: [{', '.join(asked)}]\n"),
        ("quiz", f"quiz: {{months: {structure.quiz.months}}}\n"),
    ):
        if (at := _top_level(lines, key)) is not None:
            lines[at[0] : at[1]] = [text]
    return "".join(lines)


def _top_level(lines: Lines, key: str) -> tuple[int, int] | None:
    """Return the place of a key of the whole file with all that is written under it; None where it is not there."""
    first = next((place for place, line in enumerate(lines) if line.startswith(f"{key}:")), None)
    if first is None:
        return None
    last = first + 1
    while last < len(lines) and (lines[last].startswith((" ", "- ", "-\n")) or not lines[last].strip()):
        last += 1
    return first, last


def _lines(path: Path) -> Lines:
    return path.read_bytes().decode("utf-8-sig").splitlines(keepends=True)


def _loaded(folder: Path, texts: Mapping[str, str]) -> tuple[Content | None, Mapping[str, str]]:
    """Return what the folder would teach with these texts, and the first problem of each technique and skill."""
    with tempfile.TemporaryDirectory() as room:
        copy = Path(room) / "content"
        shutil.copytree(folder, copy)
        write(copy, texts)
        library = Library(copy)
        reasons: dict[str, str] = {}
        for each in library.problems:
            reasons.setdefault(each.file.split("/")[1] if "/" in each.file else each.file, each.message)
        asked = {id: read.structure.block.knowledge for id, read in library.techniques_read.items()}
        for id, skills in asked.items():
            reasons.setdefault(id, next((reasons[skill] for skill in skills if skill in reasons), ""))
        return library.content(ENGLISH, "us"), reasons


def write(folder: Path, texts: Mapping[str, str]) -> None:
    """Write texts into a folder, each whole or not at all."""
    for name, text in texts.items():
        part = (folder / name).with_suffix(".part")
        part.parent.mkdir(parents=True, exist_ok=True)
        part.write_text(text, encoding="utf-8")
        part.replace(folder / name)


def _why(technique: str, reasons: Mapping[str, str]) -> str:
    return reasons.get(technique) or "what it asks would not be taken as skills."
