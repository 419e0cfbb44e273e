"""A checklist of law, result and craft: what its files say becomes what is asked, in both languages."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.content.test_editor_schemas import faults, tree_of
from tests.store.small_kitchen import change, small_kitchen
from tests.store.typed_kitchen import SPANISH, STRUCTURE, WORDS, typed_kitchen
from trainer.content.files import load_content
from trainer.kitchen.technique import Content, Point, Problem, Technique


def loaded(folder: Path, language: str = "en") -> Content:
    """Return the content of a folder without a fault."""
    content, problems = load_content(folder, language)
    assert problems == ()
    assert content is not None
    return content


def sauce(folder: Path, language: str = "en") -> Technique:
    """Return the typed technique."""
    return loaded(folder, language).techniques["sauce"]


def point(technique: Technique, name: str) -> Point:
    """Return a point of the checklist."""
    return next(point for point in technique.checklist if point.id == name)


def choices(technique: Technique, name: str) -> list[str]:
    """Return what is to be said or picked at a point."""
    return [choice.text for choice in point(technique, name).choices]


def problems_of(folder: Path, old: str, new: str, file: str = STRUCTURE) -> list[Problem]:
    """Return the problems after a change."""
    change(folder, file, old, new)
    return list(load_content(folder)[1])


@pytest.fixture
def kitchen(tmp_path: Path) -> Path:
    """Return the folder of the typed kitchen."""
    return typed_kitchen(tmp_path)


def test_law_and_results_are_always_needed_and_craft_is_counted(kitchen: Path) -> None:
    """The time of the whole work is a point of its own, the last, and is counted as craft."""
    technique = sauce(kitchen)
    kinds = {kind: [p.id for p in technique.checklist if p.type == kind] for kind in ("law", "result", "craft")}
    assert kinds == {
        "law": ["says_limit", "at_risk", "says_words", "heat_raw", "allergens"],
        "result": ["heat_past", "line_open"],
        "craft": ["weighed", "taste", "spoon", "finish"],
    }
    assert [p.id for p in technique.checklist if p.critical] == [
        p.id for p in technique.checklist if p.type in ("law", "result")
    ]
    assert technique.scored_needed == 3


def test_a_pair_is_held_to_two_lines(kitchen: Path) -> None:
    """A temperature, then its time, measured with what the house has."""
    found = point(sauce(kitchen), "heat_raw")
    assert [line.id for line in found.lines] == ["egg_pooled", "egg_pooled_time"]
    assert found.tools == ("thin_probe", "stopwatch")


def test_what_is_said_is_filled_in_from_the_code(kitchen: Path) -> None:
    """The key changes with the code: another line, another answer."""
    assert choices(sauce(kitchen), "says_limit") == ["at or above 155 °F (68 °C)", "at least 17 seconds"]
    change(
        kitchen,
        "kitchen_code.yaml",
        "overrides:",
        "overrides:\n  egg_pooled: {lowest: 160 F, source: house, reason: R.}",
    )
    assert choices(sauce(kitchen), "says_limit")[0] == "at or above 160 °F (71 °C)"


def test_the_words_below_a_line_are_worked_out(kitchen: Path) -> None:
    """Rare from 120 °F and medium from 140 °F begin below 155 °F; well done from 160 °F does not."""
    assert choices(sauce(kitchen), "says_words") == ["rare", "medium"]
    assert point(sauce(kitchen), "says_words").need == 2
    change(
        kitchen,
        "kitchen_code.yaml",
        "overrides:",
        "overrides:\n  egg_pooled: {lowest: 165 F, source: house, reason: R.}",
    )
    assert choices(sauce(kitchen), "says_words") == ["rare", "medium", "well done"]


def test_so_many_as_are_needed_of_what_is_expected(kitchen: Path) -> None:
    """All where nothing else is said."""
    technique = sauce(kitchen)
    assert (point(technique, "at_risk").need, choices(technique, "at_risk")) == (
        1,
        ["Pasteurized yolk", "Another dish"],
    )
    assert (point(technique, "allergens").need, choices(technique, "allergens")) == (2, ["Egg", "Milk"])


def test_taste_and_pictures_have_three_sides(kitchen: Path) -> None:
    """Too little, right, too far."""
    technique = sauce(kitchen)
    assert [choice.id for choice in point(technique, "taste").choices] == ["under", "right", "over"]
    assert choices(technique, "line_open") == ["it runs over", "it stays open", "it has grains"]
    assert (point(technique, "line_open").tries, point(technique, "line_open").step) == (2, "coat")


def test_everything_is_said_in_spanish(kitchen: Path) -> None:
    """Allergens, cases and instruments too."""
    content = loaded(kitchen, "es")
    technique = content.techniques["sauce"]
    assert choices(technique, "allergens") == ["Huevo", "Leche"]
    assert choices(technique, "says_limit") == ["155 °F (68 °C) o más", "al menos 17 segundos"]
    assert choices(technique, "taste") == ["aguada", "lechosa", "quemada"]
    assert [case.text for case in technique.cases] == ["Huevos crudos", "Yema pasteurizada"]
    assert content.instruments["thin_probe"].title == "Sonda delgada"
    assert point(technique, "finish").text == "Del primer huevo al tazón"


def test_points_of_another_case_are_not_asked(kitchen: Path) -> None:
    """Points without a case always are."""
    technique = sauce(kitchen)
    asked = {case: {p.id for p in technique.points_in(case)} for case in ("raw", "pasteurized")}
    everywhere = {p.id for p in technique.checklist if not p.cases}
    assert asked == {
        "raw": everywhere | {"says_limit", "heat_raw"},
        "pasteurized": everywhere | {"heat_past"},
    }


def test_a_list_without_types_is_of_the_former_kind(tmp_path: Path) -> None:
    """Critical and scored, as before."""
    technique = loaded(small_kitchen(tmp_path)).techniques["rolling"]
    assert not technique.is_typed
    assert [(p.type, p.critical) for p in technique.checklist] == [("", True), ("", False), ("", True)]


@pytest.mark.parametrize(("kind", "file"), [("technique", STRUCTURE), ("words", WORDS), ("words", SPANISH)])
def test_an_editor_takes_what_the_check_takes(kitchen: Path, kind: str, file: str) -> None:
    """The schemas know each kind of point, and its words."""
    assert faults(kind, tree_of(kitchen / file)) == []


FAULTS = {
    "an instrument nobody has": ("with: [scale]", "with: [scales]", "with names 'scales'"),
    "a case that is not there": ("tries: 2}", "tries: 2, cases: [row]}", "cases names 'row'"),
    "a pair of one line": ("limit: [code.egg_pooled, code.egg_pooled_time]", "limit: code.egg_pooled", "names 1 lines"),
    "a pair the wrong way round": (
        "limit: [code.egg_pooled, code.egg_pooled_time]",
        "limit: [code.egg_pooled_time, code.egg_pooled]",
        "heat_raw is pair, but egg_pooled_time is a duration.",
    ),
    "two lines and no pair": ("judged: weighed, limit: portion", "judged: weighed, limit: [portion, band]", "names 2"),
    "more needed than expected": ("need: 1", "need: 3", "at_risk needs 3 of 2 expected."),
    "expected without says": ("judged: ticked", "judged: ticked, expects: [allergens]", "spoon expects words"),
    "says and expects nothing": ("expects: [allergens]", "pieces: 1", "allergens has no expects."),
    "a line that is not there": ("expects: [code.egg_pooled, code", "expects: [code.egg_poled, code", "code.egg_poled"),
    "a finish that is no time": ("within: 25 min", "within: 25 g", "finish is held to finish"),
    "both kinds of count": ("craft_needed: 3", "craft_needed: 3\nscored_needed: 3", "not counted by scored_needed"),
    "no count": ("craft_needed: 3\n", "", "sauce has no craft_needed."),
    "critical beside a type": ("judged: ticked", "judged: ticked, critical: no", "spoon has a type and critical."),
    "a step that is not there": ("step: coat", "step: cot", "step names 'cot'"),
}


@pytest.mark.parametrize("name", sorted(FAULTS))
def test_what_does_not_go_together_is_a_problem_with_its_line(kitchen: Path, name: str) -> None:
    """The sentence names the value; the technique is left out."""
    old, new, words = FAULTS[name]
    line = (kitchen / STRUCTURE).read_text(encoding="utf-8").split(old)[0].count("\n") + 1
    found = [problem for problem in problems_of(kitchen, old, new) if words in problem.message]
    assert found, load_content(kitchen)[1]
    assert found[0].line in (line - 3, line, line + 1) or name == "no count"
    assert load_content(kitchen)[0] is not None
    assert "sauce" not in load_content(kitchen)[0].techniques  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("pasteurized: Pasteurized yolk, other_dish", "other_dish", "at_risk expects pasteurized, which has no words."),
        ("{pasteurized: Pasteurized yolk, ", "{soap: Soap, pasteurized: Pasteurized yolk, ", "words for soap"),
        ("under: thin, ", "", "taste does not say under."),
        ("allergens: Says what is in it", "allergens: {act: Says it, right: yes}", "says under, right or over"),
        ("  finish: From the first egg to the bowl\n", "", "The point finish has no words."),
        ("cases: {raw: Raw shell eggs, pasteurized", "cases: {pasteurized", "The case raw has no words."),
        ("rare: rare, ", "", "says_words expects rare, which has no words."),
    ],
)
def test_words_that_are_missing_or_too_many_are_a_problem(kitchen: Path, old: str, new: str, words: str) -> None:
    """Each thing expected has its words, and each word something that expects it."""
    assert [p for p in problems_of(kitchen, old, new, WORDS) if words in p.message and p.file == WORDS]
