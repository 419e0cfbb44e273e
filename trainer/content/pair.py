"""The two files of one technique or recipe while they are read, structure and words, and what both may name."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from trainer.content.law import lines_held
from trainer.content.limits import First, limit_of, limit_text
from trainer.content.nodes import Keyed, Node, Sheet, read_tree
from trainer.content.schema import SHORT, Fields, note_differences, note_unless_id, text_of
from trainer.content.sums import Sum, is_worked_out, sum_of
from trainer.content.words import Words
from trainer.content.worked import WorkedOut
from trainer.kitchen.quiz.family import AnyFamily
from trainer.kitchen.technique import Limit
from trainer.recipe_math.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Around:
    """What the techniques and recipes of one kitchen may name, and how their words and numbers are told.

    `recipes` holds the measured lines of all recipes, each under `<recipe>.<line>`.
    """

    sources: Collection[str]
    allergens: Collection[str]
    code: Mapping[str, Limit]
    families: Mapping[str, AnyFamily]
    language: str
    first: First
    recipes: Mapping[str, Limit] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Pair:
    """The two files of one technique or recipe while they are read."""

    folder: Path
    structure: Fields
    told: Fields
    words: Words
    standard: Mapping[str, Limit]
    around: Around


def pair_of(
    folder: Path,
    structure: str,
    around: Around,
    problems: Sheet,
    amounts: Callable[[Fields], Mapping[str, Quantity | None]] = lambda _: {},
) -> Pair | None:
    """Return the two files of a folder being read, its measured lines worked out; None where one cannot be read.

    *problems* is named after the folder; the words are those of the language asked for.
    """
    sheet, words_sheet = (
        Sheet(f"{problems.file}/{name}", problems.problems) for name in (structure, f"{around.language}.yaml")
    )
    tree, told_tree = read_tree(folder / structure, sheet), read_tree(folder / f"{around.language}.yaml", words_sheet)
    if tree is None or told_tree is None:
        return None
    fields, told = Fields.of(tree, sheet, folder.name), Fields.of(told_tree, words_sheet, "the words")
    standard = standard_of(fields, around, amounts(fields))
    words = Words(words_sheet, numbers_of(standard, around), _faulty_lines(tree, standard))
    return Pair(folder, fields, told, words, standard, around)


def _faulty_lines(tree: Node, standard: Collection[str]) -> frozenset[str]:
    """Return the measured lines that stand in the file and could not be read."""
    block = {key.value: node for key, node in tree.items}.get("standard") if isinstance(tree, Keyed) else None
    typed = {key.value for key, _ in block.items} if isinstance(block, Keyed) else set()
    return frozenset(typed - set(standard))


def told_of(pair: Pair, key: str, structure: Mapping[str, int], name: str) -> Fields:
    """Return the words for one part of the structure, differences between the two noted."""
    told = pair.told.block(key, required=bool(structure))
    if told is None:
        return Fields(pair.words.sheet, pair.told.line, key)
    note_differences(structure, told, name)
    told.asked.update(told.nodes)
    return told


def listed(structure: Fields, key: str, required: bool = True) -> dict[str, Fields]:
    """Return the entries of a list by their id; one that stands twice is noted."""
    found: dict[str, Fields] = {}
    for node in structure.many(key, required):
        fields = Fields.of(node, structure.sheet, f"{key}")
        name = fields.text("id", longest=SHORT)
        fields.name = name or key
        if name in found:
            structure.sheet.note(fields.line, f"{name} stands twice under {key}.", "Give each its own id.")
        elif name and note_unless_id(name, fields.line, structure.sheet):
            found[name] = fields
    if required and not found:
        structure.sheet.note(
            structure.line, f"{structure.name} has nothing under {key}.", f"Add at least one to `{key}`."
        )
    return found


def ids_of(structure: Fields, key: str, required: bool = True) -> dict[str, int]:
    """Return the line of each id in a list of ids; one that stands twice, or can be none, is noted."""
    found: dict[str, int] = {}
    for node in structure.many(key, required):
        name = text_of(node, structure.sheet, f"a name under {key}", SHORT)
        if name in found:
            structure.sheet.note(node.line, f"{name} stands twice under {key}.", "Keep one of the two.")
        elif name and note_unless_id(name, node.line, structure.sheet):
            found[name] = node.line
    return found


def lines_of(entries: Mapping[str, Fields]) -> dict[str, int]:
    """Return the line of each entry."""
    return {key: fields.line for key, fields in entries.items()}


def standard_of(
    structure: Fields, around: Around, amounts: Mapping[str, Quantity | None] | None = None
) -> dict[str, Limit]:
    """Return the measured lines by id, in their order; those with a sum are worked out, none laxer than the code.

    *amounts* are numbers outside `standard` that a sum may name too: the ingredients of a recipe.
    """
    block = structure.block("standard", required=False)
    typed: dict[str, Limit | None] = {}
    sums: dict[str, Sum] = {}
    for key, node in block.each() if block else ():
        fields = Fields.of(node, structure.sheet, key)
        if key in (amounts or {}):
            structure.sheet.note(fields.line, f"{key} is an ingredient too.", "Give the line an id of its own.")
        found = sum_of(fields, around.sources) if is_worked_out(fields) else None
        if found:
            sums[key] = found
        else:
            typed[key] = None if is_worked_out(fields) else _typed_line(fields, key, around)
            fields.close()
    worked = WorkedOut(sums, typed, amounts or {})
    lines = {key: worked.line(key) if key in sums else typed.get(key) for key in (block.nodes if block else ())}
    read = {key: line for key, line in lines.items() if line is not None}
    return lines_held(read, around.code, block.lines if block else {}, structure.sheet)


def _typed_line(fields: Fields, key: str, around: Around) -> Limit | None:
    """Return a line as it is typed, or the line of the recipe it names: `{recipe: durum_dough.boil}`."""
    if "recipe" not in fields.nodes:
        return limit_of(fields, key, around.sources)
    name = fields.one_of("recipe", around.recipes)
    found = around.recipes.get(name)
    return replace(found, id=key) if found else None


@dataclass(frozen=True, slots=True)
class Printed(Mapping[str, str]):
    """What the braces of a words file may name, each printed when it is asked for."""

    lines: Mapping[str, Limit]
    around: Around

    def __getitem__(self, key: str) -> str:
        """Return a line in words."""
        return limit_text(self.lines[key], self.around.first, self.around.language)

    def __iter__(self) -> Iterator[str]:
        """Return the names."""
        return iter(self.lines)

    def __len__(self) -> int:
        """Return how many lines there are."""
        return len(self.lines)


def numbers_of(standard: Mapping[str, Limit], around: Around) -> Printed:
    """Return what the braces of a words file may name: the lines of its own standard and those of the local code."""
    return Printed({**standard, **{f"code.{key}": limit for key, limit in around.code.items()}}, around)
