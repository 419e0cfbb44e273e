"""Every number in the content has a source, is worked out, or is one of a short list of the house's own settings.

Each structure file is walked by its tree, not by its loader, so that a key the loader would let pass is met too.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.content.conftest import CONTENT
from tests.store.small_kitchen import change
from trainer.content.nodes import Diagnostics, MappingNode, Node, ScalarNode, SequenceNode, read_tree
from trainer.kitchen.technique import Problem

FIGURE = re.compile(r"[\d¼½¾⅐-⅞]")
SUMS = {"sum", "take", "times", "share", "mix"}
STRUCTURES = (
    "techniques/*/technique.yaml",
    "recipes/*/recipe.yaml",
    "local_code/*.yaml",
    "stations/*.yaml",
    "kitchen_code.yaml",
)
WORDS = ("techniques/*/??.yaml", "recipes/*/??.yaml")

NAMES = {
    # an id, a file or a citation may hold figures; none of them is a number to work by
    "id", "source", "sources", "law", "code", "figure", "limit", "lasts", "family", "place", "edition",
    # why a law or the house asks for an age or a line: it cites the section
    "age_reason", "reason",
}  # fmt: skip
SETTINGS = {
    # the count and the day of an edition
    "number", "since",
    # how many questions, how many right, and for how many months a proof is good: the house decides
    "count", "need_right", "months", "sign_off_months", "from", "to", "false_pass", "false_fail", "at_most",
    # how many readings an assessor takes, how many must be inside, how many scored points are needed
    "pieces", "pieces_inside", "scored_needed", "craft_needed", "need", "tries",
    # what a station asks for
    "supervised_shifts", "warn_days", "grace_days", "most_years", "within_days",
    "shifts", "days", "return_shifts", "return_days",
}  # fmt: skip
NESTING, HOLDING = "techniques/pasta_nesting/technique.yaml", "techniques/safe_holding/technique.yaml"
DOUGH, CODE = "recipes/durum_dough/recipe.yaml", "local_code/us_food_code_2022.yaml"


class Where(NamedTuple):
    """A text with a figure in it: the keys that lead to it, and the blocks around it from the outside in."""

    keys: tuple[str, ...]
    blocks: tuple[MappingNode, ...]
    text: ScalarNode


def texts_of(node: Node, keys: tuple[str, ...] = (), blocks: tuple[MappingNode, ...] = ()) -> Iterator[Where]:
    """Yield every text below a node with its keys and the blocks around it."""
    if isinstance(node, ScalarNode):
        yield Where(keys, blocks, node)
    elif isinstance(node, SequenceNode):
        for item in node.items:
            yield from texts_of(item, keys, blocks)
    else:
        for key, value in node.items:
            yield from texts_of(value, (*keys, key.value), (*blocks, node))


def said_in(block: MappingNode, key: str) -> str:
    """Return the text under a key of a block; empty where there is none."""
    return next((value.value for name, value in block.items if name.value == key and isinstance(value, ScalarNode)), "")


def is_accounted_for(where: Where, sources: set[str]) -> bool:
    """Return whether a number has a source, is worked out, is a setting of the house, or is no number at all."""
    key, block, top = where.keys[-1], where.blocks[-1], where.blocks[0]
    if key in NAMES or said_in(block, "source") in sources:
        return True
    if where.keys[0] == "standard":
        return key == "by" and any(name.value in SUMS for name, _ in block.items)
    if where.keys[0] == "ingredients":
        return key == "amount" and said_in(top, "source") in sources
    if key == "minimum_age":
        return bool(said_in(block, "age_reason"))
    return key in SETTINGS or "ranges" in where.keys or "draws" in where.keys


def tree_of(path: Path) -> Node:
    """Return the tree of a file that can be read."""
    problems: list[Problem] = []
    tree = read_tree(path, Diagnostics(path.name, problems))
    assert tree is not None, problems
    return tree


def known_sources(content: Path) -> set[str]:
    """Return the ids of sources.yaml."""
    tree = tree_of(content / "sources.yaml")
    assert isinstance(tree, MappingNode)
    return {key.value for key, _ in tree.items}


def unaccounted(content: Path) -> list[str]:
    """Return every number of the structure files that nobody answers for, with its file and line."""
    sources = known_sources(content)
    return [
        f"{path.relative_to(content)}:{where.text.line}: {'.'.join(where.keys)}: {where.text.value}"
        for pattern in STRUCTURES
        for path in sorted(content.glob(pattern))
        for where in texts_of(tree_of(path))
        if FIGURE.search(where.text.value) and not is_accounted_for(where, sources)
    ]


def typed_in_words(content: Path) -> list[str]:
    """Return every figure typed in a words file, of whatever language, with its file and line."""
    return [
        f"{path.relative_to(content)}:{where.text.line}: {where.text.value}"
        for pattern in WORDS
        for path in sorted(content.glob(pattern))
        for where in texts_of(tree_of(path))
        if FIGURE.search("".join((*where.keys, re.sub(r"\{[^{}]*\}", "", where.text.value))))
    ]


def test_every_number_has_a_source_or_is_worked_out() -> None:
    """Anyone who asks where a number comes from finds it beside the number."""
    assert unaccounted(CONTENT) == []


def test_no_words_file_holds_a_figure() -> None:
    """A number stands once, in the structure; the words name it in braces."""
    assert typed_in_words(CONTENT) == []


def test_the_walk_meets_the_numbers_it_is_for() -> None:
    """A walk that met nothing would find nothing wrong."""
    met = [where for path in CONTENT.glob("techniques/*/technique.yaml") for where in texts_of(tree_of(path))]
    assert len([where for where in met if where.keys[0] == "standard" and FIGURE.search(where.text.value)]) > 40


@pytest.mark.parametrize(
    ("file", "old", "new", "found"),
    [
        (NESTING, "highest: 30 min, source: house", "highest: 30 min", "highest: 30"),
        (NESTING, "highest: 30 min, source: house", "highest: 30 min, source: nobody", "30"),
        (HOLDING, "lasts: probe_wait", "seconds: 45", "seconds: 45"),
        (HOLDING, "sign_off_months: 12", "sign_off_months: 12\nspare: 7", "spare: 7"),
        (DOUGH, "2 %, source: house", "2 %", "loss.share: 2 %"),
        (DOUGH, "\nsource: common_practice", "", "ingredients.amount: 7 lb"),
        (CODE, "41 F, source: food_code_2022, place: § 3-501.16(A)(2)", "41 F", "41 F"),
        ("stations/grill.yaml", "age_reason: >-", "because: >-", "minimum_age: 16"),
    ],
)
def test_a_number_without_a_source_is_found(tmp_path: Path, file: str, old: str, new: str, found: str) -> None:
    """The walk can fail: a source taken away, an unknown one, a number under a key nobody knows."""
    folder = Path(shutil.copytree(CONTENT, tmp_path / "content"))
    change(folder, file, old, new)
    assert [line for line in unaccounted(folder) if line.startswith(file) and found in line]


def test_a_figure_in_the_words_of_any_language_is_found(tmp_path: Path) -> None:
    """A digit typed in Spanish is a digit typed."""
    folder = Path(shutil.copytree(CONTENT, tmp_path / "content"))
    (folder / "techniques/knife_cuts/es.yaml").write_text("title: Los 5 cortes\n", encoding="utf-8")
    assert typed_in_words(folder) == ["techniques/knife_cuts/es.yaml:1: Los 5 cortes"]
