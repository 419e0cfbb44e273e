"""A kitchen's own content of a former format, rewritten as the program reads it today.

Older files are read as they are: what they leave open the loader fills in (`content/law.py`, a family's `retired`
words). Here the files themselves are brought up to date, line by line, so that remarks and layout stay. Each changed
file is read again before anything is written; one that would say anything else than before is left as it is.
"""

from __future__ import annotations

import re
import shutil
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from difflib import unified_diff
from pathlib import Path

from trainer.content.files import Library, SharedFiles, folders_of
from trainer.content.kinds import Table
from trainer.content.languages import languages_of
from trainer.content.law import made_critical
from trainer.content.nodes import Diagnostics
from trainer.content.techniques import STRUCTURE, TechniqueStructure, TechniqueWords, technique_structure, words_of
from trainer.content.upgrade_skills import with_skills, without_questions, write
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.technique import Problem

Lines = list[str]


@dataclass(frozen=True, slots=True)
class Upgrade:
    """What would change: the new text of each file by its name, and what a person must decide afterwards.

    `stays` says of each technique that keeps questions and a quiz why it is not asked skill by skill.
    """

    folder: Path
    texts: dict[str, str]
    to_decide: tuple[Problem, ...]
    stays: tuple[str, ...] = ()

    def differences(self) -> Iterator[str]:
        """Yield the lines that change, file by file."""
        for name, text in self.texts.items():
            old = _text(self.folder / name).splitlines() if (self.folder / name).is_file() else []
            yield from unified_diff(old, text.splitlines(), name, name, lineterm="", n=0)

    def write(self, today: date) -> Path:
        """Keep a copy of the folder beside it, then write the changed files; return the copy."""
        kept = _free_name(self.folder.with_name(f"{self.folder.name}-{today.isoformat()}"))
        shutil.copytree(self.folder, kept)
        write(self.folder, self.texts)
        return kept


def upgrade_of(folder: Path) -> Upgrade:
    """Return how a content folder is brought up to date; nothing is written."""
    held = _held_to_the_code(folder)
    with tempfile.TemporaryDirectory() as room:
        copy = Path(room) / "content"
        shutil.copytree(folder, copy)
        write(copy, held.texts)
        found = with_skills(copy)
        if not found.texts:
            return replace(held, stays=found.stays)
        write(copy, found.texts)
        after = Library(copy)
        same = not set(_spoiled(folder, after, copy))
        if not same:
            return held
        return Upgrade(folder, {**held.texts, **found.texts}, after.problems, found.stays)


def _held_to_the_code(folder: Path) -> Upgrade:
    """Return the files that say what the code asks anyway, and no word that is used no more."""
    shared = SharedFiles.read(folder, Diagnostics("", []))
    texts: dict[str, str] = {}
    for technique in folders_of(folder, "techniques"):
        structure = technique_structure(technique, shared.context, Diagnostics("", []))
        edits: dict[str, Callable[[Lines], None]] = {}
        if structure is not None:
            edits[STRUCTURE] = _hold_to_the_code(structure)
        for language in languages_of(technique):
            words = words_of(technique, language, Diagnostics("", []))
            if words is not None:
                edits[f"{language}.yaml"] = _without_retired_words(words)
        for file, edit in edits.items():
            lines = (old := _text(technique / file)).splitlines(keepends=True)
            edit(lines)
            if "".join(lines) != old:
                texts[f"techniques/{technique.name}/{file}"] = "".join(lines)
    return _checked(folder, texts)


def _checked(folder: Path, texts: dict[str, str]) -> Upgrade:
    """Return the upgrade without the files that would be taught otherwise than now, or have a fault they had not."""
    with tempfile.TemporaryDirectory() as room:
        copy = Path(room) / "content"
        shutil.copytree(folder, copy)
        for name, text in texts.items():
            (copy / name).write_text(text, encoding="utf-8")
        after = Library(copy)
        spoiled = set(_spoiled(folder, after, copy))
        kept = {name: text for name, text in texts.items() if Path(name).parent.name not in spoiled}
        return Upgrade(folder, texts, after.problems) if kept == texts else _checked(folder, kept)


def _spoiled(folder: Path, after: Library, copy: Path) -> Iterator[str]:
    """Yield the techniques that are not taught, in some language, as they were; what they ask is left aside."""
    before = Library(folder)
    for language in {tag for technique in folders_of(copy, "techniques") for tag in languages_of(technique)}:
        yield from _taught_otherwise(before, after, language)


def _taught_otherwise(before: Library, after: Library, language: str) -> Iterator[str]:
    """Yield the techniques that are not taught in a language as they were."""
    was, is_now = before.content(language, "us"), after.content(language, "us")
    if was is None or is_now is None:
        return
    for id, technique in was.techniques.items():
        now = is_now.techniques.get(id)
        asks_alike = now is not None and (now.knowledge or now == technique)
        if not asks_alike or (now and without_questions(now) != without_questions(technique)):
            yield id


def _hold_to_the_code(structure: TechniqueStructure) -> Callable[[Lines], None]:
    """Return what writes into a checklist what the code asks of it anyway: critical, every piece, fewer scored."""

    def edit(lines: Lines) -> None:
        if any(point.type for point in structure.typed):
            return
        entries = list(structure.block.checklist.values())
        for block, typed, held in zip(entries, structure.typed, structure.points, strict=True):
            if block.limit is None or typed == held:
                continue
            first, last = _entry(lines, block.at.line)
            text = "".join(lines[first:last])
            if not typed.critical:
                text = _made_critical(text)
            if typed.pieces_inside != held.pieces_inside:
                text = re.sub(r"(, *|\n *)pieces_inside: *\d+|pieces_inside: *\d+, *", "", text, count=1)
            lines[first:last] = [text, *[""] * (last - first - 1)]
        fewer = made_critical(structure.typed, structure.points)
        at = structure.block.at.lines.get("scored_needed", 0) - 1
        if fewer and at >= 0:
            needed = max(0, (structure.block.scored_needed or 0) - fewer)
            lines[at] = re.sub(r"scored_needed: *\d+", f"scored_needed: {needed}", lines[at])

    return edit


def _made_critical(text: str) -> str:
    """Return the text of a point with `critical: yes` in it."""
    if "critical: no" in text:
        return text.replace("critical: no", "critical: yes", 1)
    indent = re.match(r" *(- +)?", text)
    between = ", " if "{" in text else "\n" + " " * len(indent[0] if indent else "")
    return re.sub(r"(limit: *[\w.]+)", rf"\1{between}critical: yes", text, count=1)


def _without_retired_words(words: TechniqueWords) -> Callable[[Lines], None]:
    """Return what takes out the words that a family uses no more."""

    def edit(lines: Lines) -> None:
        for family, table in (words.questions or {}).items():
            for word in FAMILIES[family].retired if family in FAMILIES and isinstance(table, Table) else ():
                if word in table:
                    _take_out(lines, table.at.lines[word] - 1, word)

    return edit


def _take_out(lines: Lines, at: int, key: str) -> None:
    """Take a key with its text out of a line; out of a line of its own with what goes on below it."""
    if lines[at].lstrip().startswith(f"{key}:"):
        first, last = _entry(lines, at + 1)
        lines[first:last] = [""] * (last - first)
    else:
        value = r"(?:\"[^\"]*\"|'[^']*'|[^,{}]*)"
        lines[at] = re.sub(rf", *{key}: *{value}|\b{key}: *{value}(?:, *)?", "", lines[at], count=1)


def _entry(lines: Lines, line: int) -> tuple[int, int]:
    """Return the place of an entry that starts on a line and of what follows it: what is not indented deeper."""
    first = line - 1
    indent = len(lines[first]) - len(lines[first].lstrip())
    last = first + 1
    while last < len(lines) and lines[last].strip() and len(lines[last]) - len(lines[last].lstrip()) > indent:
        last += 1
    return first, last


def _text(path: Path) -> str:
    """Return what a file says, its line ends as they are."""
    return path.read_bytes().decode("utf-8-sig")


def _free_name(path: Path) -> Path:
    """Return the path, or with a number behind it where something is there already."""
    names = (path.with_name(f"{path.name}-{number}") for number in range(2, 1000))
    return path if not path.exists() else next(name for name in names if not name.exists())
