"""One thing judged in two techniques by other lines: told with file and line, and both are taught all the same.

The rule is this house's own: whoever makes one dish at two stations is judged alike at both.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.content.conftest import CONTENT
from tests.store.small_kitchen import change
from tests.store.typed_kitchen import typed_kitchen
from trainer.content.files import Library
from trainer.content.verdict_check import two_verdicts
from trainer.kitchen.technique import Problem

SECOND = "techniques/second_sauce/technique.yaml"
STRAND = "techniques/pasta_water/technique.yaml"


def problems(folder: Path) -> tuple[Problem, ...]:
    """Return what is judged by two lines in a folder, whose techniques are all taught."""
    library = Library(folder)
    content = library.content("en", "us")
    assert content is not None
    assert content.techniques.keys() == library.techniques_read.keys()
    return two_verdicts(library.techniques_read, content)


@pytest.fixture
def kitchen(tmp_path: Path) -> Path:
    """Return a kitchen in which two techniques make one sauce, in the same words and by the same lines."""
    folder = typed_kitchen(tmp_path)
    shutil.copytree(folder / "techniques/sauce", folder / "techniques/second_sauce")
    return folder


def test_two_techniques_that_judge_alike_are_fine(kitchen: Path) -> None:
    """The same words and the same ends, though each file types them."""
    assert problems(kitchen) == ()


def test_the_same_words_by_another_line_are_told(kitchen: Path) -> None:
    """By the point, both lines, and the technique that judged it before."""
    change(kitchen, SECOND, "band: {lowest: 160 F", "band: {lowest: 155 F")
    line = change(kitchen, SECOND, "{id: heat_past, type: result", "{id: heat_past, type: result")
    (found,) = problems(kitchen)
    assert (found.file, found.line, found.leaves_out) == (SECOND, line, False)
    assert found.message == (
        "heat_past is judged by from 155 °F (68 °C) to 170 °F (77 °C), and sauce judges the same (heat_past) by from "
        "160 °F (71 °C) to 170 °F (77 °C)."
    )
    assert "one line at both" in found.hint


def test_other_words_are_another_thing(kitchen: Path) -> None:
    """Who says in the words what differs may judge it by another line."""
    change(kitchen, SECOND, "band: {lowest: 160 F", "band: {lowest: 155 F")
    words = kitchen / "techniques/second_sauce/en.yaml"
    text = next(each for each in words.read_text("utf-8").splitlines() if each.startswith("  heat_past: "))
    change(kitchen, "techniques/second_sauce/en.yaml", text, f"{text} for the second sauce")
    assert problems(kitchen) == ()


@pytest.mark.parametrize(
    "strand",
    [
        # once "90 s meets the pick-up and fails the pasta water; 120 s the reverse", one strand at one station
        "strand: {target: 120 s, give_or_take: 10 s, source: house}",
        "strand: {recipe: durum_dough.boil, give_or_take: 20 s, source: house}",
    ],
)
def test_one_strand_with_two_times_is_told(tmp_path: Path, strand: str) -> None:
    """Typed beside the recipe, or taken from it with another tolerance: both points are named."""
    folder = tmp_path / "content"
    shutil.copytree(CONTENT, folder)
    change(folder, STRAND, "strand: {recipe: durum_dough.boil}", strand)
    found = problems(folder)
    assert {(each.file, each.message.split()[0]) for each in found} == {
        ("techniques/yolk_pasta_pickup/technique.yaml", "boiled")
    }
    assert all("pasta_water judges the same (cooked_for)" in each.message for each in found)


def test_no_shipped_techniques_judge_one_thing_twice() -> None:
    """What ships judges a strand, a sauce and washed hands alike wherever they are judged."""
    assert problems(CONTENT) == ()
