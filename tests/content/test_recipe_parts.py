"""Recipes made of recipes, from files: read with their parts in them, and what cannot be is told by file and line."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.content.test_recipe_files import RECIPE, kitchen_with_recipe, loaded
from tests.store.small_kitchen import change
from trainer.kitchen.recipe import batch_of
from trainer.kitchen.roll_up import allergens_named, raw_in, shortest_date
from trainer.recipe_math.quantity import Quantity

PLATE = "recipes/plate/recipe.yaml"
PLATE_WORDS = "recipes/plate/en.yaml"
PLATE_TEXT = """\
source: house
parts:
  - {recipe: sheet_dough, as: sheet}
method: [boil]
"""
WORDS_TEXT = """\
title: A plate
makes: A plate a guest
method:
  boil: "Boil it. It is {code.egg_pooled}, {code.egg_pooled_time}."
"""
EGG_LINES = """\
  egg_pooled: {lowest: 155 F, source: town_code, place: Part 5}
  egg_pooled_time: {lowest: 17 s, source: town_code, place: Part 6}
"""
TECHNIQUE = "techniques/rolling/technique.yaml"


def write(folder: Path, name: str, text: str) -> None:
    """Write one file of a content folder."""
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")


def plate_in(folder: Path, text: str = PLATE_TEXT) -> Path:
    """Return a content folder whose sheet dough goes into a plate."""
    kitchen_with_recipe(folder)
    change(folder, "local_code/town.yaml", "  pause:", f"{EGG_LINES}  pause:")
    write(folder, PLATE, text)
    write(folder, PLATE_WORDS, WORDS_TEXT)
    return folder


def recipe_of(folder: Path, id: str, part: str) -> None:
    """Write a recipe that is one part and nothing else."""
    write(folder, f"recipes/{id}/recipe.yaml", f"source: house\nparts: [{{recipe: {part}}}]\nmethod: [boil]\n")
    write(folder, f"recipes/{id}/en.yaml", f"title: {id}\nmakes: A plate\nmethod: {{boil: Boil it.}}\n")


def test_a_part_without_an_amount_is_one_portion_of_its_recipe(tmp_path: Path) -> None:
    """What a portion weighs stands in the part's own recipe; a plate of parts weighs what they do together."""
    content, problems = loaded(plate_in(tmp_path))
    assert problems == ()
    plate = content.recipes["plate"]
    assert plate.portion == Quantity.of(4, "oz")
    assert [(part.recipe.id, part.amount, part.called) for part in plate.parts] == [
        ("sheet_dough", Quantity.of(4, "oz"), "sheet")
    ]


def test_a_part_may_say_how_much_of_it(tmp_path: Path) -> None:
    """8 oz of a dough of 4 oz a portion are two portions a plate."""
    folder = plate_in(tmp_path)
    change(folder, PLATE, "as: sheet}", "as: sheet, amount: 8 oz}")
    (part,) = loaded(folder)[0].recipes["plate"].parts
    assert (part.amount, part.pieces) == (Quantity.of(8, "oz"), Fraction(2))


def test_loss_is_made_up_for_at_the_level_it_comes_from(tmp_path: Path) -> None:
    """20 plates of 4 oz are 80 oz of dough; with 5 % lost, 84.21 oz go into the bowl. By hand: 80 / 0.95."""
    (part,) = batch_of(loaded(plate_in(tmp_path))[0].recipes["plate"], 20).parts
    assert part.needed == Quantity.of(80, "oz")
    assert float(part.batch.weight.to("oz").amount) == pytest.approx(84.21, abs=0.01)


def test_allergens_of_a_plate_follow_from_its_parts(tmp_path: Path) -> None:
    """The egg of the dough is the plate's egg."""
    assert allergens_named(loaded(plate_in(tmp_path))[0].recipes["plate"]) == ("egg",)


def test_a_plate_with_a_part_that_cannot_be_read_is_left_out(tmp_path: Path) -> None:
    """Nothing is made of half its parts, and the plate's own file says so."""
    folder = plate_in(tmp_path)
    change(folder, RECIPE, "amount: 2 lb", "amount: lots")
    content, problems = loaded(folder)
    assert content.recipes == {}
    assert [problem for problem in problems if problem.file == PLATE and "a problem of its own" in problem.message]


FAULTS = {
    "a part that is not there": ("sheet_dough", "sheet_doug", "recipe names 'sheet_doug'", "mean sheet_dough?"),
    "a part by volume": ("as: sheet}", "amount: 1 cup}", "not a weight", "6.5 oz"),
    "a part of nothing": ("as: sheet}", "amount: 0 oz}", "not a weight", "6.5 oz"),
    "a part called something unheard of": ("as: sheet", "as: blob", "'blob'", "Known here"),
    "allergens typed on a part": ("as: sheet}", "as: sheet, allergens: [egg]}", "allergens is not a key", ""),
    "allergens typed on a plate": ("parts:\n", "allergens: [egg]\nparts:\n", "allergens is not a key", ""),
    "a part twice": (
        "as: sheet}", "as: sheet}\n  - {recipe: sheet_dough}", "sheet_dough stands twice under parts", "Keep one"
    ),
    "a bath that is none": ("method:", "baths: [{recipe: sheet_dough}]\nmethod:", "is no bath", "under `parts`"),
    "a circle": ("recipe: sheet_dough", "recipe: plate", "A circle: plate from plate", "Take one"),
    "nothing in it": ("parts:\n  - {recipe: sheet_dough, as: sheet}\n", "", "plate has no ingredients", "Add"),
    "an end at no step": ("method:", "ends: [{raw: egg, step: bake, meets: egg_pooled}]\nmethod:", "'bake'", "boil"),
    "an end by no law of eggs": (
        "method:", "ends: [{raw: egg, step: boil, meets: cold_holding}]\nmethod:", "does not cook egg", "egg_pooled"
    ),
    "a number of a part typed again": (
        "method:", "standard: {rest: {target: 20 min, source: house}}\nmethod:",
        "rest stands in the recipe sheet_dough already", "{recipe: sheet_dough.rest}",
    ),
    "a time that is none": (
        "method:", "standard: {cold: {highest: 41 F, source: house}}\nkeeps: cold\nmethod:", "cold is no time", "3 days"
    ),
    "salt of a bath without one": (
        "method:", "ingredients: [{id: salt, amount: 1 oz, grows: with_bath}]\nmethod:", "grows with a bath", "`baths`"
    ),
    "leavening without flour": (
        "method:", "ingredients: [{id: powder, amount: 4 %, grows: by_flour}]\nmethod:", "there is none", "flour: yes"
    ),
    "a share of nothing": (
        "method:", "ingredients: [{id: powder, amount: 4 %}]\nmethod:", "does not grow with a batch", "a count"
    ),
}  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS.values(), ids=FAULTS)
def test_what_cannot_be_is_told_and_the_plate_left_out(tmp_path: Path, fault: tuple[str, str, str, str]) -> None:
    """One fault gives a problem in the plate's own file, with how to fix it."""
    old, new, problem, hint = fault
    folder = plate_in(tmp_path)
    change(folder, PLATE, old, new)
    content, problems = loaded(folder)
    found = [each for each in problems if each.file == PLATE and problem in each.message]
    assert found, problems
    assert hint in found[0].hint
    assert "plate" not in content.recipes


def test_an_end_is_told_to_the_cook(tmp_path: Path) -> None:
    """The line that ends raw egg names heat and seconds, both: FDA Food Code 2022, 3-401.11(A)(2)."""
    folder = plate_in(tmp_path)
    change(folder, PLATE, "method:", "ends: [{raw: egg, step: boil, meets: egg_pooled}]\nmethod:")
    assert loaded(folder)[1] == ()
    change(folder, PLATE_WORDS, ", {code.egg_pooled_time}", "")
    assert [each for each in loaded(folder)[1] if each.file == PLATE_WORDS and "ends what is raw" in each.message]


def test_raw_egg_is_carried_up_until_a_step_meets_its_law(tmp_path: Path) -> None:
    """A raw dough makes a plate with raw egg in it; boiled, by the code's pair, it is raw no longer."""
    folder = plate_in(tmp_path)
    change(folder, RECIPE, "allergens: [egg],", "allergens: [egg], raw: egg,")
    (raw,) = raw_in(loaded(folder)[0].recipes["plate"])
    assert (raw.what, raw.chains) == ("egg", (("Sheet dough", "Eggs"),))
    change(folder, PLATE, "method:", "ends: [{raw: egg, step: boil, meets: egg_pooled}]\nmethod:")
    assert raw_in(loaded(folder)[0].recipes["plate"]) == ()


def test_the_shortest_date_is_the_plates(tmp_path: Path) -> None:
    """A plate that says five days, of a dough that keeps two, keeps two."""
    folder = plate_in(tmp_path)
    change(folder, RECIPE, "standard:\n", "keeps: keep\nstandard:\n  keep: {highest: 2 days, source: house}\n")
    change(folder, PLATE, "method:", "standard: {days: {highest: 5 days, source: house}}\nkeeps: days\nmethod:")
    date = shortest_date(loaded(folder)[0].recipes["plate"])
    assert date is not None
    assert (date.keeps, date.chain) == (Quantity.of(2, "days"), ("Sheet dough",))


def test_four_levels_are_the_most(tmp_path: Path) -> None:
    """Plate, base, stock, roux; a fifth is refused, and so is all that is made of it."""
    folder = plate_in(tmp_path)
    recipe_of(folder, "third", "plate")
    recipe_of(folder, "fourth", "third")
    assert loaded(folder)[1] == ()
    recipe_of(folder, "fifth", "fourth")
    content, problems = loaded(folder)
    assert {(each.file, each.message) for each in problems} == {
        ("recipes/fifth/recipe.yaml", "More than 4 levels: fifth from fourth from third from plate from sheet_dough.")
    }
    assert "fifth" not in content.recipes
    assert "fourth" in content.recipes


def test_a_circle_of_three_is_told_in_each_of_them(tmp_path: Path) -> None:
    """A from b from c from a: none of the three can be made."""
    folder = plate_in(tmp_path)
    for id, part in (("a", "b"), ("b", "c"), ("c", "a")):
        recipe_of(folder, id, part)
    content, problems = loaded(folder)
    assert {each.file for each in problems if "A circle" in each.message} == {
        f"recipes/{id}/recipe.yaml" for id in "abc"
    }
    assert not {"a", "b", "c"} & content.recipes.keys()


def test_a_technique_takes_its_allergens_from_the_recipe_it_makes(tmp_path: Path) -> None:
    """`recipe: plate` in technique.yaml: its allergens are the roll-up, so that a change of a part changes them."""
    folder = plate_in(tmp_path)
    change(folder, TECHNIQUE, "allergens: [egg]\n", "recipe: plate\n")
    content, problems = loaded(folder)
    assert problems == ()
    assert content.techniques["rolling"].allergens == ("egg",)


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ("allergens: [egg]\n", "recipe: plate\nallergens: [egg]\n", "egg of allergens follow from the recipe plate"),
        ("allergens: [egg]\n", "recipe: plat\n", "recipe names 'plat'"),
        ("allergens: [egg]\nstandard:\n", "recipe: sheet_dough\nstandard:\n", "rest is typed here, and stands in"),
    ],
)
def test_what_follows_from_the_recipe_is_not_typed_again(tmp_path: Path, old: str, new: str, problem: str) -> None:
    """One home a number: the technique is left out until it is taken out there."""
    folder = plate_in(tmp_path)
    change(folder, TECHNIQUE, old, new)
    content, problems = loaded(folder)
    assert [each for each in problems if each.file == TECHNIQUE and problem in each.message], problems
    assert content.techniques == {}


def test_a_technique_of_a_recipe_with_a_fault_is_told_and_left_out(tmp_path: Path) -> None:
    """Nobody is taught a dish whose allergens cannot be known."""
    folder = plate_in(tmp_path)
    change(folder, TECHNIQUE, "allergens: [egg]\n", "recipe: plate\n")
    change(folder, RECIPE, "amount: 2 lb", "amount: lots")
    content, problems = loaded(folder)
    assert [each for each in problems if each.file == TECHNIQUE and "The recipe plate has a problem" in each.message]
    assert content.techniques == {}


def test_words_name_a_number_of_a_recipe(tmp_path: Path) -> None:
    """`{recipe.sheet_dough.rest}` prints the recipe's line, `.portion` what one weighs, an ingredient its amount."""
    folder = plate_in(tmp_path)
    braces = "{recipe.sheet_dough.rest}, {recipe.sheet_dough.portion}, {recipe.sheet_dough.flour}"
    change(folder, "techniques/rolling/en.yaml", "goal: An even sheet", f'goal: "{braces}. An even sheet')
    change(folder, "techniques/rolling/en.yaml", "that does not tear.", 'that does not tear."')
    content, problems = loaded(folder)
    assert problems == ()
    assert content.techniques["rolling"].goal.startswith("30 minutes, 4 oz (113 g), 2 lb (907 g). An even sheet")


def test_a_line_of_a_recipe_may_get_a_tolerance_where_it_is_judged(tmp_path: Path) -> None:
    """The weight stands in the recipe; how far off is right is the technique's own, with its source."""
    folder = plate_in(tmp_path)
    change(
        folder, TECHNIQUE, "{target: 4 oz, give_or_take: 0.2 oz, source: house}",
        "{recipe: sheet_dough.portion, give_or_take: 0.2 oz, source: house}",
    )  # fmt: skip
    content, problems = loaded(folder)
    assert problems == ()
    weight = content.techniques["rolling"].standard[0]
    assert (weight.lowest, weight.highest) == (Quantity.of("3.8", "oz"), Quantity.of("4.2", "oz"))


FOODS = "foods.yaml"


def test_what_a_food_says_stands_once(tmp_path: Path) -> None:
    """Allergens, trim and what a measure weighs come from foods.yaml: oil weighs 216 g a cup (USDA SR26, NDB 04053)."""
    folder = plate_in(tmp_path)
    write(folder, FOODS, "oil: {measure: olive_oil, allergens: [egg], edible: 80 %, source: house}\n")
    change(
        folder, RECIPE, "id: greens, amount: 8 oz, edible: 80 %, source: house", "id: greens, amount: 1 cup, food: oil"
    )
    content, problems = loaded(folder)
    assert problems == ()
    oil = content.recipes["sheet_dough"].ingredients[2]
    assert (oil.weight, oil.allergens, str(oil.edible_share)) == (Quantity.of(216, "g"), ("egg",), "4/5")


@pytest.mark.parametrize(
    ("typed", "problem"),
    [
        ("food: oil, allergens: [egg]", "allergens of greens stands in foods.yaml"),
        ("food: oil, edible: 70 %, source: house", "edible of greens stands in foods.yaml"),
        ("food: oil, weighs: 200 g, source: house", "What greens weighs follows from foods.yaml"),
        ("food: oyl", "food names 'oyl'"),
    ],
)
def test_what_a_food_says_is_not_typed_again(tmp_path: Path, typed: str, problem: str) -> None:
    """A second number for the same thing is refused where both can be seen."""
    folder = plate_in(tmp_path)
    write(folder, FOODS, "oil: {measure: olive_oil, allergens: [egg], edible: 80 %, source: house}\n")
    change(
        folder, RECIPE, "id: greens, amount: 8 oz, edible: 80 %, source: house", f"id: greens, amount: 1 cup, {typed}"
    )
    assert [each for each in loaded(folder)[1] if each.file == RECIPE and problem in each.message]


@pytest.mark.parametrize(
    ("food", "problem"),
    [
        ("wine: {sulphites: {lowest: 200 ppm, highest: 100 ppm, source: house}}", "run from 200 ppm to 100 ppm"),
        ("wine: {sulphites: {lowest: 1 g, highest: 2 g, source: house}}", "no share of a weight"),
        ("wine: {buying: [{unit: case, holds: 6 bottles, source: house}]}", "which is no pack before it"),
        ("wine: {buying: []}", "bought in no pack"),
        ("wine: {measure: wien}", "'wien'"),
        ("wine: {edible: 80 %}", "names no source"),
    ],
)  # fmt: skip
def test_a_fault_of_a_food_is_told(tmp_path: Path, food: str, problem: str) -> None:
    """Each by file and line, like any other."""
    folder = plate_in(tmp_path)
    write(folder, FOODS, f"{food}\n")
    assert [each for each in loaded(folder)[1] if each.file == FOODS and problem in each.message]
