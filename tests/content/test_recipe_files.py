"""Recipes from files: read whole, left out whole, and every fault told by file, line and fix."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.store.older_content import older_content
from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import load_content
from trainer.kitchen.recipe import Growth, batch_of
from trainer.kitchen.technique import Content, Problem
from trainer.recipe_math.quantity import Quantity

RECIPE = "recipes/sheet_dough/recipe.yaml"
WORDS = "recipes/sheet_dough/en.yaml"
STRUCTURE = "techniques/rolling/technique.yaml"
STRUCTURE_TEXT = """\
portion: {weight: 4 oz, source: house}
loss: {share: 5 %, source: house}
source: house
techniques: [rolling]
ingredients:
  - {id: flour, amount: 2 lb, flour: yes}
  - {id: eggs, amount: 6 eggs, weighs: 300 g, water: 76 %, allergens: [egg], source: town_code}
  - {id: greens, amount: 8 oz, edible: 80 %, source: house}
standard:
  rest: {target: 30 min, source: house}
hazards:
  - {id: rollers, form: triangle, mark: hands_in_machine}
method: [mix, wait]
"""
WORDS_TEXT = """\
title: Sheet dough
makes: A sheet a guest
loss: Ends that are trimmed off.
ingredients:
  flour: Flour
  eggs: Eggs
  greens: Greens
hazards:
  rollers: Keep fingers away.
method:
  mix: Mix it.
  wait: "Wait {rest}. Hold it {code.cold_holding}."
"""


def kitchen_with_recipe(folder: Path) -> Path:
    """Return a small content folder with one recipe in it."""
    small_kitchen(folder)
    for name, text in ((RECIPE, STRUCTURE_TEXT), (WORDS, WORDS_TEXT)):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def loaded(folder: Path) -> tuple[Content, tuple[Problem, ...]]:
    """Return the content of a folder that has some, and its problems."""
    content, problems = load_content(folder)
    assert content is not None
    return content, problems


def test_a_recipe_is_read_with_its_amounts_and_words(tmp_path: Path) -> None:
    """Weights, shares, flours and allergens come from the structure, names and method from the words."""
    content, problems = loaded(kitchen_with_recipe(tmp_path))
    assert problems == ()
    found = content.recipes["sheet_dough"]
    flour, eggs, greens = found.ingredients
    assert (flour.name, flour.is_flour, flour.weight) == ("Flour", True, Quantity.of(2, "lb"))
    assert (eggs.amount, eggs.weight) == (Quantity.of(6, "egg"), Quantity.of(300, "g"))
    assert (eggs.water_share, greens.edible_share, found.loss) == (Fraction(19, 25), Fraction(4, 5), Fraction(1, 20))
    assert found.allergens == ("egg",)
    assert found.techniques == ("rolling",)


def test_a_weight_may_be_worked_out_from_a_rate(tmp_path: Path) -> None:
    """50 g an egg and six eggs are 300 g; so the weight of one is typed once, with its source."""
    folder = kitchen_with_recipe(tmp_path)
    change(folder, RECIPE, "weighs: 300 g", "weighs: 50 g an egg")
    content, problems = loaded(folder)
    assert problems == ()
    assert content.recipes["sheet_dough"].ingredients[1].weight == Quantity.of(300, "g")


def test_the_method_names_numbers_by_brace(tmp_path: Path) -> None:
    """A time of the recipe and a limit of the local code are printed where the words name them."""
    content, _ = loaded(kitchen_with_recipe(tmp_path))
    assert content.recipes["sheet_dough"].method[1] == "Wait 30 minutes. Hold it at or below 41 °F (5 °C)."


def test_a_kitchen_without_recipes_is_whole(tmp_path: Path) -> None:
    """Recipes may be left out: nothing is missing then."""
    content, problems = loaded(small_kitchen(tmp_path))
    assert problems == ()
    assert content.recipes == {}


def test_a_recipe_with_a_fault_is_left_out_and_nothing_else(tmp_path: Path) -> None:
    """Nobody weighs out half a recipe, and no station waits for one."""
    folder = kitchen_with_recipe(tmp_path)
    change(folder, RECIPE, "amount: 2 lb", "amount: two pounds or so")
    content, problems = loaded(folder)
    assert content.recipes == {}
    assert content.stations
    assert {problem.file for problem in problems} == {RECIPE}


class Fault(NamedTuple):
    """What is typed in place of what, on which line below it the problem is, and what is said of it."""

    file: str
    old: str
    new: str
    problem: str
    mend: str
    below: int = 0


FAULTS = {
    "no portion": Fault(RECIPE, "portion: {weight: 4 oz, source: house}\n", "", "has no portion", "Add `portion"),
    "a portion by volume": Fault(RECIPE, "weight: 4 oz", "weight: 1 cup", "not a weight", "6.5 oz"),
    "a portion of nothing": Fault(RECIPE, "weight: 4 oz", "weight: 0 oz", "weight is 0 oz", "6.5 oz"),
    "a portion without a source": Fault(RECIPE, "4 oz, source: house", "4 oz", "names no source", "source:"),
    "a loss that is all": Fault(RECIPE, "share: 5 %", "share: 100 %", "the whole batch", "less than"),
    "a loss above all": Fault(RECIPE, "share: 5 %", "share: 120 %", "not a share", "percent"),
    "a loss by weight": Fault(RECIPE, "share: 5 %", "share: 5 oz", "not a share", "percent"),
    "a loss without a source": Fault(RECIPE, "5 %, source: house", "5 %", "loss names no source", "Add `source:`"),
    "a loss that is a bare share": Fault(
        RECIPE, "{share: 5 %, source: house}", "5 %", "loss should hold", "key: value"
    ),
    "a rate for another measure": Fault(RECIPE, "weighs: 300 g", "weighs: 50 g a cup", "not the same kind", "an egg"),
    "a rate for no measure": Fault(RECIPE, "weighs: 300 g", "weighs: 50 g a yolk", "weighs is '50 g a yolk'", "an egg"),
    "a rate by volume": Fault(RECIPE, "weighs: 300 g", "weighs: 2 Tbsp an egg", "not a weight", "244 g a cup"),
    "no source": Fault(RECIPE, "source: house\ntech", "tech", "names no source", "source:", -2),
    "an unknown technique": Fault(RECIPE, "[rolling]", "[roling]", "'roling'", "Did you mean rolling?"),
    "an amount that is none": Fault(RECIPE, "amount: 2 lb", "amount: lots", "'lots'", "a number and a unit"),
    "an amount of nothing": Fault(RECIPE, "amount: 2 lb", "amount: 0 lb", "amount is 0 lb", "more than nothing"),
    "an amount that is a temperature": Fault(RECIPE, "amount: 2 lb", "amount: 2 C", "does not grow", "a count"),
    "no amount": Fault(RECIPE, "amount: 2 lb, ", "", "flour has no amount", "Add `amount"),
    "a count without a weight": Fault(RECIPE, "weighs: 300 g, ", "", "which has no weight", "weighs:"),
    "a weight without a source": Fault(RECIPE, "[egg], source: town_code", "[egg]", "names no source", "source:"),
    "an unknown source": Fault(RECIPE, "town_code", "town_cod", "'town_cod'", "mean town_code?"),
    "a water share above all": Fault(RECIPE, "water: 76 %", "water: 760 %", "not a share", "percent"),
    "an edible share of nothing": Fault(RECIPE, "edible: 80 %", "edible: 0 %", "not a share", "percent"),
    "an unknown allergen": Fault(RECIPE, "[egg]", "[eggs]", "'eggs'", "Did you mean egg?"),
    "a flour that is neither": Fault(RECIPE, "flour: yes", "flour: perhaps", "'perhaps'", "yes or no"),
    "an unknown key": Fault(RECIPE, "edible: 80 %", "edibel: 80 %", "edibel is not a key", "mean edible?"),
    "an ingredient twice": Fault(RECIPE, "{id: greens", "{id: flour", "flour stands twice", "its own id"),
    "an ingredient without a name": Fault(WORDS, "  greens: Greens\n", "", "greens has no words", "Add", -2),
    "a name without an ingredient": Fault(WORDS, "greens: Greens", "grens: Greens", "grens, which", "mean greens?"),
    "a line of the method twice": Fault(RECIPE, "[mix, wait]", "[mix, mix]", "mix stands twice", "Keep one"),
    "a digit in the words": Fault(WORDS, "mix: Mix it.", "mix: Mix 10 minutes.", "A number is typed", "standard"),
    "an unknown brace": Fault(WORDS, "{rest}", "{rst}", "{rst} in wait", "mean rest?"),
    "no method": Fault(RECIPE, "method: [mix, wait]\n", "", "has no method", "Add", -12),
}


@pytest.mark.parametrize("fault", FAULTS.values(), ids=FAULTS)
def test_a_fault_is_told_with_file_line_and_mend(tmp_path: Path, fault: Fault) -> None:
    """One fault gives a problem in its own file, at its own line, that says what is wrong and how to fix it."""
    folder = kitchen_with_recipe(tmp_path)
    line = change(folder, fault.file, fault.old, fault.new) + fault.below
    content, problems = loaded(folder)
    found = [each for each in problems if each.file == fault.file and fault.problem in each.message]
    assert found, problems
    assert fault.mend in found[0].hint
    assert found[0].line == line
    assert content.recipes == {}


def test_several_faults_are_all_told(tmp_path: Path) -> None:
    """Reading goes on after a fault, so one reading finds them all."""
    folder = kitchen_with_recipe(tmp_path)
    lines = {
        change(folder, RECIPE, "weight: 4 oz", "weight: 1 cup"),
        change(folder, RECIPE, "amount: 2 lb", "amount: lots"),
        change(folder, RECIPE, "water: 76 %", "water: 760 %"),
    }
    assert lines <= {problem.line for problem in loaded(folder)[1]}


def test_an_empty_recipe_folder_is_a_problem_not_a_crash(tmp_path: Path) -> None:
    """A folder without its files says which are missing."""
    folder = small_kitchen(tmp_path)
    (folder / "recipes" / "empty").mkdir(parents=True)
    assert {problem.file for problem in loaded(folder)[1]} == {"recipes/empty/recipe.yaml", "recipes/empty/en.yaml"}


def test_a_technique_names_a_line_of_a_recipe(tmp_path: Path) -> None:
    """A time of a dish stands once, in its recipe; a technique uses it under a name of its own."""
    folder = kitchen_with_recipe(tmp_path)
    change(folder, STRUCTURE, "rest: {lowest: 30 min, highest: 2 h, source: house}", "rest: {recipe: sheet_dough.rest}")
    content, problems = loaded(folder)
    assert problems == ()
    rest = next(limit for limit in content.techniques["rolling"].standard if limit.id == "rest")
    assert (rest.target, rest.source) == (Quantity.of(30, "min"), "house")
    assert content.techniques["rolling"].standard_text[1] == "It rests 30 minutes."


def test_a_line_of_a_recipe_that_is_not_there_is_told(tmp_path: Path) -> None:
    """The nearest line of any recipe is named."""
    folder = kitchen_with_recipe(tmp_path)
    line = change(folder, STRUCTURE, "{target: 68 F, source: house}", "{recipe: sheet_dough.rst}")
    found = [problem for problem in loaded(folder)[1] if problem.file == STRUCTURE and problem.line == line]
    assert found
    assert "'sheet_dough.rst'" in found[0].message
    assert "mean sheet_dough.rest?" in found[0].hint


LINES = "  at_once: {highest: 4 sheets, source: house}\n  batches: {highest: 5 batches, source: house}\n"
BATH = (
    ("portion: {weight: 4 oz, source: house}\n", "bath: {takes: at_once, fills_last: batches}\n"),
    ("loss: {share: 5 %, source: house}\n", ""),
    ("standard:\n", f"standard:\n{LINES}"),
)


def bath_in(folder: Path) -> Path:
    """Return a folder whose one recipe is a pot that twenty sheets share."""
    kitchen_with_recipe(folder)
    for old, new in BATH:
        change(folder, RECIPE, old, new)
    change(folder, WORDS, "loss: Ends that are trimmed off.\n", "")
    return folder


@pytest.mark.parametrize(("portions", "fills"), [(1, 1), (20, 1), (21, 2), (40, 2), (41, 3)])
def test_a_bath_is_filled_again_and_never_grows(tmp_path: Path, portions: int, fills: int) -> None:
    """Four sheets at once, five batches a fill: twenty sheets, then a new fill. By hand."""
    content, problems = loaded(bath_in(tmp_path))
    assert problems == ()
    batch = batch_of(content.recipes["sheet_dough"], portions)
    assert (batch.fills, batch.factor, batch.weight) == (fills, Fraction(1), content.recipes["sheet_dough"].weight)


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ("takes: at_once", "takes: rest", "rest is no highest count"),
        ("takes: at_once", "takes: at_onec", "'at_onec'"),
        ("source: house\ntech", "portion: {weight: 4 oz, source: house}\nsource: house\ntech", "no portion of its own"),
    ],
)
def test_a_bath_that_cannot_be_filled_is_told(tmp_path: Path, old: str, new: str, problem: str) -> None:
    """What goes in at once and how long a fill lasts are highest counts; a bath has no portion beside them."""
    folder = bath_in(tmp_path)
    change(folder, RECIPE, old, new)
    assert [each for each in loaded(folder)[1] if problem in each.message]


def test_what_is_sold_in_packs_is_bought_whole(tmp_path: Path) -> None:
    """2 lb of flour for nine sheets of 4 oz; twenty need 84.2 oz of dough: two bags of 3 lb, the rest told. By hand:
    a batch as written weighs 32 + 10.58 + 8 = 50.58 oz; 84.21 / 50.58 × 32 oz = 53.28 oz of flour; 96 - 53.28 = 42.72.
    """
    folder = kitchen_with_recipe(tmp_path)
    change(folder, RECIPE, "method:", "buying: {flour: [{unit: bag, holds: 3 lb, source: house}]}\nmethod:")
    content, problems = loaded(folder)
    assert problems == ()
    flour = batch_of(content.recipes["sheet_dough"], 20).lines[0]
    assert flour.to_buy == Quantity.of(2, "bag")
    assert flour.over is not None
    assert float(flour.over.to("oz").amount) == pytest.approx(42.72, abs=0.01)


@pytest.mark.parametrize(
    ("buying", "problem"),
    [
        ("{flur: [{unit: bag, holds: 3 lb, source: house}]}", "buying has no flur"),
        ("{flour: [{unit: bagg, holds: 3 lb, source: house}]}", "'bagg'"),
        ("{flour: [{unit: bag, holds: 3 cups, source: house}]}", "not a weight"),
        ("{flour: [{unit: bag, holds: 3 lb}]}", "names no source"),
        ("{flour: []}", "bought in no pack"),
    ],
)
def test_a_pack_that_cannot_be_bought_is_told(tmp_path: Path, buying: str, problem: str) -> None:
    """Each fault of a pack leaves the recipe out."""
    folder = kitchen_with_recipe(tmp_path)
    change(folder, RECIPE, "method:", f"buying: {buying}\nmethod:")
    content, problems = loaded(folder)
    assert [each for each in problems if problem in each.message]
    assert content.recipes == {}


@pytest.fixture(scope="module")
def older(tmp_path_factory: pytest.TempPathFactory) -> Content:
    """Return what a kitchen teaches that copied the content in November 2026."""
    content, _ = load_content(older_content(tmp_path_factory.mktemp("older")))
    assert content is not None
    return content


def test_recipes_of_a_former_format_are_still_read(older: Content) -> None:
    """Its six recipes say nothing of parts, foods or growth, and are all there, each with a batch for forty."""
    assert len(older.recipes) == 6
    for recipe in older.recipes.values():
        assert batch_of(recipe, 40).lines


def test_a_dough_of_a_former_format_weighs_what_it_weighed(older: Content) -> None:
    """40 portions of 6.5 oz less 2 %: 260 / 0.98 = 265.306 oz, 7521.3 g; wheat, gluten and egg. By hand."""
    dough = older.recipes["durum_dough"]
    assert float(batch_of(dough, 40).weight.to("g").amount) == pytest.approx(7521.3, abs=0.1)
    assert dough.allergens == ("wheat", "gluten_cereals", "egg")
    assert [line.growth for line in dough.ingredients] == [Growth.BATCH] * 4
