"""One technique's files as a person writes them in forms: sheets of fields, kept as a draft in the content folder.

A sheet is one entry of a part (a step, a point) or the technique as a whole, with its structure and its words in every
language of the house. What is saved changes the lines it must and no other.
"""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

from ruamel.yaml.comments import CommentedMap, CommentedSeq

from trainer.content.editor_schemas import SCHEMAS
from trainer.content.form_fields import (
    Field,
    Part,
    fields_of,
    fitting,
    is_one_of_several,
    parts,
    put,
    value_of,
    whole_structure,
    whole_words,
)
from trainer.content.kinds import Schema
from trainer.content.languages import languages_of
from trainer.content.mapping_reader import BLANK, ID
from trainer.content.new_technique import technique_id
from trainer.content.round_trip import Node, drop_key, dumped, moved, parse, text_like, with_item, with_key, without
from trainer.kitchen.book import digest_of
from trainer.kitchen.technique import Problem
from trainer.store.catalogues import ENGLISH

STRUCTURE = "technique"
SPANISH = "es"
WHOLE = "whole"
NEW = "new"
"""Where the page of a new entry is: no entry is called so."""
CODE = "code."


@dataclass(frozen=True, slots=True)
class SheetField:
    """A field of a sheet: the file it stands in (`technique`, or a language), and the line, 0 where there is none."""

    file: str
    field: Field
    line: int = 0

    @property
    def name(self) -> str:
        """Return what its input is called."""
        return f"{self.file}.{self.field.key}"


@dataclass(frozen=True, slots=True)
class Sheet:
    """All there is to write about one entry, or about the technique as a whole (a part of None).

    `lines` are the first and the last line of the entry in each file it stands in.
    """

    part: Part | None
    id: str
    fields: tuple[SheetField, ...]
    lines: Mapping[str, tuple[int, int]]

    @property
    def digest(self) -> str:
        """Return what tells that somebody has changed any of it."""
        return digest_of("\n\0".join(f"{each.name}\0{each.field.value}" for each in self.fields).encode())[:16]

    def filled(self, typed: Mapping[str, str]) -> Sheet:
        """Return the sheet as it would be with what was typed."""
        fields = (
            replace(each, field=replace(each.field, value=typed.get(each.name, each.field.value)))
            for each in self.fields
        )
        return replace(self, fields=tuple(fields))

    def safety(self) -> tuple[tuple[str, str], ...]:
        """Return each sentence on which somebody's safety hangs: its field and its words.

        The cautions, the allergens, and what an assessor must see where the code is the judge.
        """
        name = self.part.name if self.part else WHOLE
        said = [each for each in self.fields if _is_about_safety(name, each)]
        if name == "checklist" and not self._is_law():
            return ()
        return tuple((each.name, each.field.value) for each in said if each.field.value)

    def _is_law(self) -> bool:
        """Return whether a point of the checklist cannot be missed."""
        says = {each.name: each.field.value for each in self.fields}
        law = says.get("technique.type") == "law" or says.get("technique.critical") == "yes"
        return law or says.get("technique.limit", "").startswith(CODE)


def _is_about_safety(part: str, each: SheetField) -> bool:
    if part == WHOLE:
        return each.name == f"{STRUCTURE}.allergens"
    return part in ("hazards", "checklist") and each.file != STRUCTURE


@dataclass(frozen=True)
class WrittenTechnique:
    """The files of one technique as they stand, by `technique` and by language; NotWritable where one is no YAML."""

    folder: Path
    texts: Mapping[str, str]

    @classmethod
    def read(cls, folder: Path) -> WrittenTechnique:
        """Return what stands in a folder; OSError where it cannot be read."""
        there = [STRUCTURE, *(tag for tag in languages_of(folder) if tag != STRUCTURE)]
        return cls(folder, {name: (folder / f"{name}.yaml").read_text(encoding="utf-8-sig") for name in there})

    def _ends_as_on_windows(self, name: str) -> bool:
        path = self.folder / f"{name}.yaml"
        return path.is_file() and b"\r\n" in path.read_bytes()

    @cached_property
    def trees(self) -> Mapping[str, CommentedMap]:
        """Return the files as trees, to be read; what is written is read anew."""
        return {name: _tree(text) for name, text in self.texts.items()}

    @property
    def languages(self) -> tuple[str, ...]:
        """Return the languages words are written in: English, Spanish, and any other that is there."""
        return (ENGLISH, SPANISH, *sorted(self.texts.keys() - {STRUCTURE, ENGLISH, SPANISH}))

    def entries(self, part: Part) -> tuple[str, ...]:
        """Return the ids of a part's entries in their order; of numbered ones, their places."""
        at = self.trees[STRUCTURE].get(part.name)
        if part.how == "numbered":
            return tuple(str(place) for place, _ in enumerate(at or (), 1))
        if part.how == "blocks":
            return tuple(str(each.get("id", "")) for each in at or () if isinstance(each, CommentedMap))
        return tuple(str(each) for each in at or ())

    def title(self, part: Part, id: str, language: str = ENGLISH) -> tuple[str, str]:
        """Return how an entry begins, so that a person knows it, and in which language: the one asked for, or English.

        Its id where nothing is written.
        """
        sheet = self.sheet(part, id)
        for file in (language, ENGLISH):
            said = [each.field.value for each in sheet.fields if each.file == file and each.field.value]
            if said:
                return said[0], file
        own = (each.field.value for each in sheet.fields if each.field.widget == "text" and each.field.value)
        return next(own, "") or id.replace("_", " "), ENGLISH

    def sheet(self, part: Part | None, id: str = "", way: int = 0) -> Sheet:
        """Return the fields of one entry, of a new one (""), or of the whole; *way* is how a new line is told."""
        if part is None:
            return Sheet(None, WHOLE, tuple(self._whole()), {})
        fields = [*self._structure(part, id, way), *self._words(part, id)]
        return Sheet(part, id, tuple(fields), self._lines(part, id) if id else {})

    def _whole(self) -> Iterator[SheetField]:
        for field in fields_of(whole_structure(), self.trees[STRUCTURE]):
            yield self._placed(STRUCTURE, self.trees[STRUCTURE], field)
        for name in self.languages:
            for field in fields_of(whole_words(), self.trees.get(name)):
                yield self._placed(name, self.trees.get(name), field)

    def _structure(self, part: Part, id: str, way: int) -> Iterator[SheetField]:
        at, path = self._entry(part, id)
        schema: Schema = part.item
        if part.how == "ids":
            return
        node = at.get(id) if part.how == "table" and at else at
        ways = schema.get("oneOf", ()) if "type" not in schema else ()
        if node is None and ways:
            schema = ways[way if 0 <= way < len(ways) else 0]
        for field in fields_of(schema, node, path):
            yield self._placed(STRUCTURE, at, field)

    def _entry(self, part: Part, id: str) -> tuple[CommentedMap | None, tuple[str, ...]]:
        """Return where the keys of an entry stand, and what leads to them from there."""
        at = self.trees[STRUCTURE].get(part.name)
        if part.how == "table":
            return (at if isinstance(at, CommentedMap) else None), (id,)
        place = self._place(part, id)
        return (at[place] if place is not None else None), ()

    def _place(self, part: Part, id: str) -> int | None:
        ids = self.entries(part)
        return ids.index(id) if id in ids else None

    def _words(self, part: Part, id: str) -> Iterator[SheetField]:
        """Yield the fields for the words of an entry in each language; what is numbered is told again in others."""
        for name in self.languages if part.words else ():
            at = self.trees[name].get(part.name) if name in self.trees else None
            if part.how != "numbered":
                node = at.get(id) if isinstance(at, CommentedMap) else None
                for field in fields_of(part.words, node, (id,)):
                    yield self._placed(name, at, field if field.help else replace(field, help=part.told))
            elif name != ENGLISH:
                place = int(id) - 1 if id else -1
                node = at[place] if isinstance(at, CommentedSeq) and 0 <= place < len(at) else None
                for field in fields_of(part.words, node, (id,)):
                    yield SheetField(name, replace(field, help=part.told))

    def _placed(self, file: str, at: Node, field: Field) -> SheetField:
        """Return a field with the line it stands on."""
        for each in field.path[:-1]:
            at = at.get(each) if isinstance(at, CommentedMap) else None
        is_there = isinstance(at, CommentedMap) and field.path and field.path[-1] in (at.lc.data or {})
        return SheetField(file, field, at.lc.key(field.path[-1])[0] + 1 if is_there else 0)

    def _lines(self, part: Part, id: str) -> dict[str, tuple[int, int]]:
        """Return the lines of an entry in each file."""
        found = {}
        for name, tree in self.trees.items():
            at = tree.get(part.name)
            if isinstance(at, CommentedMap):
                starts = {str(key): at.lc.key(key)[0] + 1 for key in at}
            elif isinstance(at, CommentedSeq):
                ids = self.entries(part) if name == STRUCTURE else [str(place) for place, _ in enumerate(at, 1)]
                starts = {each: at.lc.data[place][0] + 1 for place, each in enumerate(ids)}
            else:
                continue
            if id in starts:
                later = [line for line in starts.values() if line > starts[id]]
                found[name] = (starts[id], min(later) - 1 if later else self._end(tree, part.name))
        return found

    @staticmethod
    def _end(tree: CommentedMap, name: str) -> int:
        """Return the last line of a part: the one before the next key."""
        begin = tree.lc.key(name)[0]
        later = [tree.lc.key(each)[0] for each in tree if tree.lc.key(each)[0] > begin]
        return min(later) if later else 1_000_000

    # what is saved

    def saved(self, sheet: Sheet, typed: Mapping[str, str]) -> WrittenTechnique:
        """Return the files with what was typed into a sheet; NotWritable, with the field's name, where that is none."""
        changed = [each for each in sheet.fields if typed.get(each.name, each.field.value) != each.field.value]
        texts = self._with_languages({each.file for each in changed})
        for file in dict.fromkeys(each.file for each in changed):
            tree = parse(texts[file])
            for each in (one for one in changed if one.file == file):
                _put(_container(tree, sheet, file), each, typed[each.name])
            texts[file] = dumped(tree)
        if sheet.part is None and self._begins_skills(texts[STRUCTURE]):
            texts = {name: _dropped(text, ("questions", "quiz")) for name, text in texts.items()}
        return WrittenTechnique(self.folder, texts)

    def _begins_skills(self, text: str) -> bool:
        """Return whether skills are named for the first time: they stand in place of what a quiz asked."""
        return bool(parse(text).get("knowledge")) and not self.trees[STRUCTURE].get("knowledge")

    def _with_languages(self, files: Iterable[str]) -> dict[str, str]:
        """Return the texts, with a words file of blanks for each language that is to be written and has none."""
        texts = dict(self.texts)
        for name in files:
            if name not in texts:
                texts[name] = dumped(_blanked(parse(self.texts[ENGLISH])))
        return texts

    def added(
        self, part: Part, id: str, typed: Mapping[str, str], *, way: int = 0, after: int = -1
    ) -> WrittenTechnique:
        """Return the files with an entry more, behind the one in a place; what is not typed is left blank."""
        sheet = self.sheet(part, "", way)
        given = {each: typed.get(each.name, each.field.value) for each in sheet.fields}
        spanish = any(text for each, text in given.items() if each.file == SPANISH)
        texts = self._with_languages([SPANISH] if spanish else [])
        item = CommentedMap({"id": id} if part.how == "blocks" else {})
        item.fa.set_flow_style()
        for each, text in given.items():
            if each.file == STRUCTURE:
                _add(item, each.field, text, 1 if part.how == "table" else 0)
        if part.how == "table":
            texts[STRUCTURE] = with_key(texts[STRUCTURE], part.name, id, item)
        else:
            texts[STRUCTURE] = with_item(texts[STRUCTURE], part.name, id if part.how == "ids" else item, after)
        for name in texts.keys() - {STRUCTURE}:
            words = [(each.field, text) for each, text in given.items() if each.file == name]
            texts[name] = _told(texts[name], part, id, words)
        return WrittenTechnique(self.folder, texts)

    def moved(self, part: Part, id: str, by: int) -> WrittenTechnique:
        """Return the files with an entry one place up (-1) or down (1); where there is none, as they are."""
        place, count = self._place(part, id), len(self.entries(part))
        if place is None or not 0 <= place + by < count or part.how == "numbered":
            return self
        return WrittenTechnique(
            self.folder, {**self.texts, STRUCTURE: moved(self.texts[STRUCTURE], part.name, place, by)}
        )

    def without(self, part: Part, id: str) -> WrittenTechnique:
        """Return the files without an entry and its words."""
        texts = dict(self.texts)
        for name, tree in self.trees.items():
            at = tree.get(part.name)
            if isinstance(at, CommentedMap) and id in at:
                texts[name] = without(texts[name], part.name, id)
            elif isinstance(at, CommentedSeq) and (place := self._seq_place(part, id, name)) is not None:
                texts[name] = without(texts[name], part.name, place)
        if is_one_of_several(part.name) and len(self.entries(part)) == 1:
            texts = {name: _dropped(text, (part.name,)) for name, text in texts.items()}
        return WrittenTechnique(self.folder, texts)

    def _seq_place(self, part: Part, id: str, name: str) -> int | None:
        if name == STRUCTURE:
            return self._place(part, id)
        place = int(id) - 1 if part.how == "numbered" and id.isdigit() else -1
        return place if 0 <= place < len(self.trees[name][part.name]) else None

    def keep(self, before: WrittenTechnique) -> None:
        """Write the files that are not as they were before, each whole or not at all."""
        for name, text in self.texts.items():
            if before.texts.get(name) != text:
                ends = "\r\n" if self._ends_as_on_windows(name) else "\n"
                write_whole(self.folder / f"{name}.yaml", text.replace("\n", ends).encode())


@lru_cache(maxsize=24)
def _tree(text: str) -> CommentedMap:
    return parse(text)


def new_id(name: str, there: Iterable[str]) -> str:
    """Return an id for what a person calls a new entry; "" where the name gives none.

    >>> new_id("Dust the tray", ["roll"]), new_id("Roll", ["roll"]), new_id("¡!", [])
    ('dust_the_tray', 'roll_2', '')
    """
    found, known = technique_id(name)[:40].strip("_"), {*there, NEW}
    if not ID.fullmatch(found):
        return ""
    return next(each for each in (found, *(f"{found}_{number}" for number in range(2, 999))) if each not in known)


def problems_at(sheet: Sheet, problems: Iterable[Problem], folder: str) -> dict[str, tuple[Problem, ...]]:
    """Return the problems of a sheet by the name of the field they stand at; "" where they are of no one field.

    *folder* is what problems call the technique's folder. Of the whole, only what stands on the line of a field.
    """
    found: dict[str, tuple[Problem, ...]] = {}
    for problem in problems:
        file = problem.file.removeprefix(f"{folder}/").removesuffix(".yaml")
        here = [each.name for each in sheet.fields if each.file == file and each.line == problem.line]
        begin, end = sheet.lines.get(file, (0, -1))
        if begin <= problem.line <= end or (here and sheet.part is None):
            name = here[0] if len(here) == 1 else ""
            found[name] = (*found.get(name, ()), problem)
    return found


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that whoever reads meanwhile, or after a crash, finds the old one or the new one."""
    part = path.with_name(f".{path.name}.{secrets.token_hex(4)}")
    try:
        with part.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)


def _container(tree: CommentedMap, sheet: Sheet, file: str) -> Any:  # noqa: ANN401 - a mapping or a list of the tree
    """Return what the paths of a sheet's fields lead from, in one file; made where it is not there."""
    part = sheet.part
    if part is None:
        return tree
    if file == STRUCTURE and part.how in ("blocks", "numbered"):
        at = tree[part.name]
        ids = [str(each.get("id", "")) for each in at] if part.how == "blocks" else []
        return at[ids.index(sheet.id) if ids else int(sheet.id) - 1]
    if not isinstance(tree.get(part.name), CommentedMap | CommentedSeq):
        tree[part.name] = CommentedSeq() if part.how == "numbered" else CommentedMap()
    return tree[part.name]


def _put(at: Any, each: SheetField, typed: str) -> None:  # noqa: ANN401 - as `_container`
    if isinstance(at, CommentedSeq):
        place = int(each.field.path[0]) - 1
        while len(at) <= place:
            at.append(BLANK)
        at[place] = text_like(at[place], " ".join(typed.split()) or BLANK, in_flow=bool(at.fa.flow_style()))
        return
    put(at, each.field, typed)


def _add(at: CommentedMap, field: Field, typed: str, skip: int) -> None:
    """Write a field of a new entry, its path without what leads to the entry."""
    *above, name = field.path[skip:] or ("",)
    value = value_of(field, typed, None, in_flow=bool(at.fa.flow_style()))
    if value is None or not name:
        return
    for each in above:
        if not isinstance(at.get(each), CommentedMap):
            at[each] = CommentedMap()
            at[each].fa.set_flow_style()
        at = at[each]
    at[name] = value


def _dropped(text: str, keys: Iterable[str]) -> str:
    """Return a file without some of its keys."""
    tree = parse(text)
    for key in (each for each in keys if each in tree):
        drop_key(tree, key)
    return dumped(tree)


def _told(text: str, part: Part, id: str, words: Iterable[tuple[Field, str]]) -> str:
    """Return a words file with the words of a new entry."""
    found = list(words)
    if not part.words or part.how == "numbered":
        said = next((typed for _, typed in found if typed), "")
        return with_item(text, part.name, said or BLANK, len(parse(text).get(part.name) or ()) - 1) if said else text
    if "properties" not in fitting(part.words, None):
        typed = next((typed for _, typed in found), "")
        return with_key(text, part.name, id, text_like("", " ".join(typed.split()) or BLANK, in_flow=False))
    made = CommentedMap()
    for field, typed in found or [(each, "") for each in fields_of(part.words, None, ("",))]:
        _add(made, field, typed, 1)
    return with_key(text, part.name, id, made)


def _blanked(node: Node) -> Node:
    """Return a words file with a blank for each text."""
    if isinstance(node, CommentedMap):
        for key in node:
            node[key] = _blanked(node[key])
        return node
    if isinstance(node, CommentedSeq):
        for place, each in enumerate(node):
            node[place] = _blanked(each)
        return node
    return BLANK


def part_named(name: str) -> Part | None:
    """Return a part of a technique by its name."""
    return parts().get(name)


@dataclass(frozen=True)
class WrittenSkill:
    """The words of one skill as they stand, by language; NotWritable where a file is no YAML."""

    folder: Path
    texts: Mapping[str, str]

    @classmethod
    def read(cls, folder: Path) -> WrittenSkill:
        """Return what stands in a folder; OSError where it cannot be read."""
        there = languages_of(folder)
        return cls(folder, {name: (folder / f"{name}.yaml").read_text(encoding="utf-8-sig") for name in there})

    def sheet(self) -> Sheet:
        """Return the fields of its words in every language."""
        schema, fields = SCHEMAS["skill_words"](), []
        for name in dict.fromkeys([ENGLISH, SPANISH, *self.texts]):
            tree = _tree(self.texts[name]) if name in self.texts else None
            for field in fields_of(schema, tree):
                line = tree.lc.key(field.path[0])[0] + 1 if tree is not None and field.path[0] in tree else 0
                fields.append(SheetField(name, field, line))
        return Sheet(None, self.folder.name, tuple(fields), dict.fromkeys(self.texts, (1, 1_000_000)))

    def saved(self, typed: Mapping[str, str]) -> WrittenSkill:
        """Return the words with what was typed; a language that is not there yet begins with a blank for each text."""
        texts = dict(self.texts)
        changed = [each for each in self.sheet().fields if typed.get(each.name, each.field.value) != each.field.value]
        for each in changed:
            tree = parse(texts[each.file]) if each.file in texts else _blanked(parse(texts[ENGLISH]))
            put(tree, each.field, typed[each.name])
            texts[each.file] = dumped(tree)
        return WrittenSkill(self.folder, texts)

    def keep(self, before: WrittenSkill) -> None:
        """Write the files that are not as they were before, each whole or not at all."""
        for name, text in self.texts.items():
            if before.texts.get(name) != text:
                write_whole(self.folder / f"{name}.yaml", text.encode())
