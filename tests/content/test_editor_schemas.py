"""The schemas for editors: they are schemas, and they know every key the loader asks for and no other."""

from __future__ import annotations

import json
import shutil
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.content.test_content_languages import SPANISH, spanish_kitchen
from tests.content.test_recipe_files import RECIPE, kitchen_with_recipe
from tests.content.test_skill_files import add_skill
from tests.store.small_kitchen import change
from trainer.content.editor_schemas import SCHEMAS
from trainer.content.files import load_content
from trainer.content.mapping_reader import MappingReader
from trainer.content.nodes import Diagnostics, MappingNode, Node, ScalarNode, SequenceNode, read_tree
from trainer.content.shipped import shipped
from trainer.kitchen.technique import Problem

STRUCTURE, STATION = "techniques/rolling/technique.yaml", "stations/bench.yaml"
FILES = {
    "technique": STRUCTURE,
    "words": SPANISH,
    "recipe": RECIPE,
    "recipe_words": "recipes/sheet_dough/en.yaml",
    "foods": "foods.yaml",
    "skill": "skills/sheets/skill.yaml",
    "skill_words": "skills/sheets/en.yaml",
    "question_words": "questions/dough/en.yaml",
    "food_names": "questions/foods/en.yaml",
    "station": STATION,
    "sources": "sources.yaml",
    "instruments": "instruments.yaml",
    "allergens": "allergens.yaml",
    "kitchen_code": "kitchen_code.yaml",
    "local_code": "local_code/town.yaml",
}
SUMS = """\
  all: {sum: [sheet_weight, sheet_weight], give_or_take: 1 oz, source: house}
  left: {take: sheet_weight, from: all, give_or_take: 1 oz, source: house}
  dozen: {times: sheet_weight, by: 12, give_or_take: 1 oz, source: house}
  part: {share: sheet_weight, of: all, give_or_take: 1 %, source: house}
  warm:
    mix:
      - {food: yolks, amount: sheet_weight, at: bench}
      - {food: milk, amount: all, at: bench}
    give_or_take: 2 C
    source: house
"""
EGG_LINE = "  egg_pooled: {lowest: 155 F, source: town_code, place: Part 5}\n"
INSTRUMENTS = "scale: {title: Scale, step: 0.1 oz}\n"
FOODS = """\
oil:
  measure: olive_oil
  sulphites: {lowest: 1 ppm, highest: 2 ppm, source: house}
  buying: [{unit: bottle, holds: 1 kg, source: house}]
"""
PLATE = """\
source: house
parts: [{recipe: sheet_dough, as: sheet}]
baths: [{recipe: pot}]
ingredients: [{id: oil, amount: 1 tsp, food: oil}]
ends: [{raw: egg, step: boil, meets: egg_pooled}]
method: [boil]
"""
PLATE_WORDS = "title: Plate\nmakes: A plate\ningredients: {oil: Oil}\nmethod: {boil: 'Boil it {code.egg_pooled}.'}\n"
POT = """\
source: house
bath: {takes: at_once, fills_last: batches}
ingredients: [{id: water, amount: 1 L, weighs: 1 kg, source: house}]
standard: {at_once: {highest: 2 sheets, source: house}, batches: {highest: 2 batches, source: house}}
method: [boil]
"""
POT_WORDS = "title: Pot\nmakes: A pot\ningredients: {water: Water}\nmethod: {boil: Boil it.}\n"
DECIDES = "{decides: yes, months: 6}"


def plain(node: Node) -> Any:
    """Return a tree as an editor hands it to a schema: blocks, lists and texts."""
    if isinstance(node, ScalarNode):
        return node.value
    if isinstance(node, SequenceNode):
        return [plain(item) for item in node.items]
    return {key.value: plain(value) for key, value in node.items}


def tree_of(path: Path) -> Node:
    """Return the tree of a file that can be read."""
    tree = read_tree(path, Diagnostics(path.name, list[Problem]()))
    assert tree is not None
    return tree


def faults(kind: str, tree: Node) -> list[str]:
    """Return what a schema finds wrong in a file."""
    return [
        f"{found.json_path}: {found.message}"
        for found in Draft202012Validator(SCHEMAS[kind]()).iter_errors(plain(tree))
    ]


def full_kitchen(folder: Path) -> Path:
    """Return a small kitchen in which every kind of block stands at least once."""
    kitchen_with_recipe(folder)
    spanish_kitchen(folder)
    add_skill(folder, "sheets")
    for group in ("dough", "foods"):
        shutil.copytree(shipped("content") / "questions" / group, folder / "questions" / group)
    (folder / "foods.yaml").write_text(FOODS, "utf-8")
    (folder / "instruments.yaml").write_text(INSTRUMENTS, "utf-8")
    change(folder, "local_code/town.yaml", "  pause:", f"{EGG_LINE}  pause:")
    for id, structure, words in (("plate", PLATE, PLATE_WORDS), ("pot", POT, POT_WORDS)):
        (folder / "recipes" / id).mkdir()
        (folder / "recipes" / id / "recipe.yaml").write_text(structure, "utf-8")
        (folder / "recipes" / id / "en.yaml").write_text(words, "utf-8")
    change(folder, STRUCTURE, "steps:\n", f"{SUMS}steps:\n")
    change(folder, STRUCTURE, "count: 3}", "count: 3, ranges: {amount_pounds: 2 to 12 step 1/2}}")
    for file in ("techniques/rolling/en.yaml", SPANISH):
        told = "".join(f'  {name}: "{{{name}}}."\n' for name in ("all", "left", "dozen", "part", "warm"))
        change(folder, file, "tools:", f"{told}tools:")
    return folder


def closed_blocks(schema: Any, node: Node) -> Iterator[tuple[int, frozenset[str]]]:
    """Yield the line and the keys of every block of a file whose keys a schema closes."""
    for branch in schema.get("oneOf", ()):
        if Draft202012Validator(branch).is_valid(plain(node)):
            yield from closed_blocks(branch, node)
    if isinstance(node, SequenceNode):
        for item in node.items:
            yield from closed_blocks(schema.get("items", {}), item)
    if isinstance(node, MappingNode):
        known = schema.get("properties", {})
        if known and "description" in schema:
            yield node.line, frozenset(known)
        for key, value in node.items:
            inner = known.get(key.value, schema.get("additionalProperties"))
            yield from closed_blocks(inner if isinstance(inner, dict) else {}, value)


@pytest.mark.parametrize("kind", SCHEMAS)
def test_a_schema_is_a_schema(kind: str) -> None:
    """JSON Schema, draft 2020-12: each is valid against the meta-schema it names."""
    schema = SCHEMAS[kind]()
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("quiz", ["{need_right: 3, months: 12}", DECIDES])
def test_a_schema_knows_the_keys_the_loader_asks_for_and_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, quiz: str
) -> None:
    """Each closed block of each file: the keys of the schema are the keys the loader asked for there."""
    folder = full_kitchen(tmp_path)
    change(folder, STRUCTURE, "{need_right: 3, months: 12}", quiz)
    asked: set[tuple[str, int, frozenset[str]]] = set()
    refuse_others = MappingReader.refuse_others

    def noting(reader: MappingReader, keys: Collection[str]) -> None:
        asked.add((reader.diagnostics.file, reader.line, frozenset(keys)))
        refuse_others(reader, keys)

    monkeypatch.setattr(MappingReader, "refuse_others", noting)
    assert load_content(folder)[1] == ()
    by_schema = {
        (file, line, keys)
        for kind, file in FILES.items()
        for line, keys in closed_blocks(SCHEMAS[kind](), tree_of(folder / file))
    }
    by_loader = {found for found in asked if found[0] in FILES.values()}
    assert by_schema == by_loader
    assert len(by_schema) > 25


def test_every_kind_of_file_is_looked_at() -> None:
    """A kind that is added is tried here, too."""
    assert list(FILES) == list(SCHEMAS)


@pytest.mark.parametrize(("kind", "file"), FILES.items())
def test_a_whole_file_passes(tmp_path: Path, kind: str, file: str) -> None:
    """What `content check` takes, the editor takes."""
    assert faults(kind, tree_of(full_kitchen(tmp_path) / file)) == []


@pytest.mark.parametrize(("kind", "file"), [each for each in FILES.items() if each[0] != "food_names"])
def test_a_misspelt_key_is_marked(tmp_path: Path, kind: str, file: str) -> None:
    """The same slip that `content check` tells is marked in the editor."""
    tree = tree_of(full_kitchen(tmp_path) / file)
    assert isinstance(tree, MappingNode)
    (id, block), *others = tree.items
    closed = block if kind in ("sources", "allergens", "foods", "instruments", "question_words") else tree
    assert isinstance(closed, MappingNode)
    first, value = closed.items[0]
    slipped = MappingNode(closed.line, ((ScalarNode(first.line, f"{first.value}x"), value), *closed.items[1:]))
    whole = slipped if closed is tree else MappingNode(tree.line, ((id, slipped), *others))
    assert any("'" + first.value + "x' was unexpected" in found for found in faults(kind, whole))


SLIPS = {
    "an unknown kind of step": ("technique", "kind: do", "kind: done"),
    "an unknown mark": ("technique", "mark: hands_in_machine", "mark: skull"),
    "an unknown family": ("technique", "scale_by_yield", "scale_by_yeld"),
    "an unknown range": ("technique", "amount_pounds: 2", "nobody: 2"),
    "a timed step without its line": ("technique", "kind: time, lasts: code.pause", "kind: time"),
    "a time typed in a step": ("technique", "lasts: code.pause", "lasts: 90 s"),
    "a line without a source": ("technique", "target: 68 F, source: house", "target: 68 F"),
    "a line without a value": ("technique", "target: 68 F, source", "source"),
    "a source of no tolerance": ("technique", "by: 12, give_or_take: 1 oz", "by: 12"),
    "a sum of one": ("technique", "sum: [sheet_weight, sheet_weight]", "sum: [sheet_weight]"),
    "a need beside a plan": ("technique", "{need_right: 3, months: 12}", "{decides: yes, need_right: 3, months: 12}"),
    "an id in capitals": ("technique", "id: guard_on", "id: Guard"),
    "a date that is none": ("technique", "2025-03-01", "March"),
    "a whole number that is a word": ("technique", "scored_needed: 1", "scored_needed: two"),
    "a digit in the words": ("words", "Un hoyo.", "1 hoyo."),
    "a brace left open": ("words", "{rest}", "{rest"),
    "a word a family does not use": (
        "words",
        "title: Estirar",
        "title: Estirar\nquestions: {scale_by_yield: {fod: x}}",
    ),
    "an unknown family in its words": ("question_words", "bakers_percent:", "bakers_share:"),
    "a wrong method without its teacher's sentence": (
        "question_words",
        "teacher: Divides by everything",
        "teachers: Divides by everything",
    ),
    "a family without a title": ("question_words", "  title: A part", "  titles: A part"),
    "a list that is none": ("food_names", "flour: flour", "flour: [flour]"),
    "a food's id in capitals": ("food_names", "flour: flour", "Flour: flour"),
    "a skill of no family": ("skill", "family: scale_by_yield", "families: scale_by_yield"),
    "a skill's range that its family has not": ("skill", "by_yield", "by_yield\nranges: {bowls: 1 to 2 step 1}"),
    "months of a skill that are a word": ("skill", "by_yield", "by_yield\nmonths: six"),
    "a digit in a skill's words": ("skill_words", "More sheets", "2 sheets"),
    "a portion without a weight": ("recipe", "weight: 4 oz, source", "source"),
    "an ingredient without an amount": ("recipe", "amount: 2 lb, ", ""),
    "an age without its reason": ("station", "age_reason: An invented rule.", "warn_days: 30"),
    "an age below fourteen": ("station", "minimum_age: 16", "minimum_age: 160000000"),
}


@pytest.mark.parametrize(("kind", "old", "new"), SLIPS.values(), ids=SLIPS)
def test_a_slip_the_loader_tells_is_marked_by_the_schema(tmp_path: Path, kind: str, old: str, new: str) -> None:
    """Both refuse the same text."""
    folder = full_kitchen(tmp_path)
    change(folder, FILES[kind], old, new)
    assert faults(kind, tree_of(folder / FILES[kind]))
    assert [found for found in load_content(folder)[1] if found.file == FILES[kind]]


def test_an_editor_can_show_what_each_range_means() -> None:
    """A range is named, and anyone who sets it reads what the number is."""
    told = json.dumps(SCHEMAS["technique"](), ensure_ascii=False)
    assert "The weight of the ice, in kilograms: 8 to 16 step 1/2" in told
