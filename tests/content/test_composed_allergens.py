"""Ten composed plates against a matrix made by hand: which allergens each has, and from which ingredient each comes.

The matrix was written from the ingredient lists of the shipped recipes, by reading them, and not from what the program
printed. Names of allergens: 21 U.S.C. 321(qq) and Regulation (EU) No 1169/2011, Annex II.
"""

from __future__ import annotations

import shutil
from collections.abc import Mapping

import pytest

from tests.content.conftest import CONTENT
from trainer.content.files import load_content
from trainer.kitchen.recipe import Recipe
from trainer.kitchen.roll_up import allergens_carried, allergens_named, raw_in, sulphites_of

WHEAT = ("wheat", "gluten_cereals")
PLATES: Mapping[str, str] = {
    "pork_alone": "parts: [{recipe: rendered_pork}]",
    "salad": (
        "parts: [{recipe: shallot_dressing}]\n"
        "ingredients: [{id: leaves, amount: 3 oz}, {id: walnuts, amount: 0.4 oz, allergens: [tree_nuts]}]"
    ),
    "custard_glass": "parts: [{recipe: pastry_custard}]\ningredients: [{id: berries, amount: 2 oz}]",
    "tart": (
        "parts: [{recipe: pastry_custard}]\n"
        "ingredients: [{id: flour, amount: 1 oz, allergens: [wheat, gluten_cereals]}, "
        "{id: fat, amount: 0.5 oz, food: butter}]"
    ),
    "anchovy_beans": (
        "parts: [{recipe: shallot_dressing}]\n"
        "ingredients: [{id: beans, amount: 4 oz}, {id: anchovy, amount: 0.3 oz, allergens: [fish]}]"
    ),
    "bare_nest": (
        "parts: [{recipe: durum_dough, as: nest}]\nbaths: [{recipe: pasta_water}]\n"
        "ingredients: [{id: oil, amount: 0.5 fl oz, food: olive_oil}]"
    ),
    "much_pork": "parts: [{recipe: durum_dough, as: nest}, {recipe: rendered_pork, amount: 6 oz}]",
    "soy_custard": (
        "parts: [{recipe: pastry_custard}]\n"
        "ingredients: [{id: tamari, amount: 1 tsp, weighs: 6 g, allergens: [soy], source: usda_sr26}]"
    ),
    "salad_with_pork": "parts: [{recipe: salad}, {recipe: rendered_pork}]",
}
MATRIX: Mapping[str, Mapping[str, set[str]]] = {
    # plate: allergen: the ingredients it comes from
    "yolk_pasta": {
        **{name: {"Durum flour", "Semolina"} for name in WHEAT},
        "egg": {"Whole eggs, large, without shells", "Pasteurized yolk"},
        "milk": {"Aged sheep's milk cheese, grated fine"},
        "celery": {"Celery, small dice"},
    },
    "pork_alone": {"celery": {"Celery, small dice"}, "sulphites": {"Dry white wine"}},
    "salad": {"sulphites": {"Red wine vinegar"}, "mustard": {"Mustard"}, "tree_nuts": {"walnuts"}},
    "custard_glass": {"milk": {"Whole milk", "Butter, cold, in cubes"}, "egg": {"Yolks of large eggs"}},
    "tart": {
        **{name: {"flour"} for name in WHEAT},
        "milk": {"Whole milk", "Butter, cold, in cubes", "fat"},
        "egg": {"Yolks of large eggs"},
    },
    "anchovy_beans": {"sulphites": {"Red wine vinegar"}, "mustard": {"Mustard"}, "fish": {"anchovy"}},
    "bare_nest": {
        **{name: {"Durum flour", "Semolina"} for name in WHEAT},
        "egg": {"Whole eggs, large, without shells"},
    },
    "much_pork": {
        **{name: {"Durum flour", "Semolina"} for name in WHEAT},
        "egg": {"Whole eggs, large, without shells"},
        "celery": {"Celery, small dice"},
    },
    "soy_custard": {
        "milk": {"Whole milk", "Butter, cold, in cubes"},
        "egg": {"Yolks of large eggs"},
        "soy": {"tamari"},
    },
    "salad_with_pork": {
        "sulphites": {"Red wine vinegar", "Dry white wine"},
        "mustard": {"Mustard"},
        "tree_nuts": {"walnuts"},
        "celery": {"Celery, small dice"},
    },
}
STILL_RAW = {"bare_nest": {"egg"}, "much_pork": {"egg"}}
"""Plates whose method names no step that cooks what is raw in them, by heat and seconds."""


@pytest.fixture(scope="module")
def recipes(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Recipe]:
    """Return the shipped recipes, and the plates above made of them."""
    folder = tmp_path_factory.mktemp("content")
    for name in ("recipes", "local_code"):
        shutil.copytree(CONTENT / name, folder / name)
    for name in ("foods.yaml", "sources.yaml", "allergens.yaml", "kitchen_code.yaml"):
        shutil.copy(CONTENT / name, folder / name)
    for technique in (CONTENT / "techniques").iterdir():
        (folder / "techniques" / technique.name).mkdir(parents=True)
    for id, text in PLATES.items():
        (folder / "recipes" / id).mkdir()
        (folder / "recipes" / id / "recipe.yaml").write_text(f"source: house\n{text}\nmethod: [plate]\n", "utf-8")
        names = [word.split(",")[0] for word in text.split("{id: ")[1:]]
        own = f"ingredients: {{{', '.join(f'{name}: {name}' for name in names)}}}\n" if names else ""
        words = f"title: {id}\nmakes: A plate\n{own}method: {{plate: Plate it.}}\n"
        (folder / "recipes" / id / "en.yaml").write_text(words, "utf-8")
    content, problems = load_content(folder)
    assert [each for each in problems if each.file.startswith(("recipes", "foods"))] == []
    assert content is not None
    return content.recipes


@pytest.mark.parametrize("plate", MATRIX)
def test_a_plate_names_what_the_hand_made_matrix_names(recipes: Mapping[str, Recipe], plate: str) -> None:
    """Union over all parts, sulphites above their line; each from the ingredients that bring it and no other."""
    found = recipes[plate]
    came = {each.what: {chain[-1] for chain in each.chains} for each in allergens_carried(found)}
    assert {name: came[name] for name in allergens_named(found)} == MATRIX[plate]


@pytest.mark.parametrize("plate", MATRIX)
def test_raw_egg_is_on_the_plate_until_a_step_cooks_it(recipes: Mapping[str, Recipe], plate: str) -> None:
    """The pasta of the shipped plate meets its pair in the pot; a nest on a plate without such a step is raw."""
    assert {each.what for each in raw_in(recipes[plate])} == STILL_RAW.get(plate, set())


@pytest.mark.parametrize(
    ("plate", "least", "most", "named"),
    [("pork_alone", 6.1, 12.2, True), ("yolk_pasta", 0.87, 1.74, False), ("much_pork", 2.94, 5.88, False)],
)
def test_sulphites_are_summed_as_served(
    recipes: Mapping[str, Recipe], plate: str, least: float, most: float, named: bool
) -> None:
    """118 g of wine with 100 to 200 mg in a kilogram, in 1,928 g of base; 1.5 oz of it in 10 1/2 oz, 6 in 12 1/2.

    By hand: 11.8 mg / 1.928 kg = 6.12; × 1.5 / 10.54 = 0.87; × 6 / 12.5 = 2.94; each doubled. The line: more than 10 mg
    in a kilogram (Regulation (EU) No 1169/2011, Annex II, point 12).
    """
    summed = sulphites_of(recipes[plate])
    assert summed is not None
    assert summed.most is not None
    assert (float(summed.least), float(summed.most)) == pytest.approx((least, most), abs=0.05)
    assert summed.is_named is named


def test_wine_is_told_where_the_list_leaves_sulphites_out(recipes: Mapping[str, Recipe]) -> None:
    """A guest who asks hears that the plate is made with wine, and by which part."""
    summed = sulphites_of(recipes["yolk_pasta"])
    assert summed is not None
    assert summed.chains == (("Rendered cured pork", "Dry white wine"),)


def test_sulphites_of_an_unknown_amount_are_named(recipes: Mapping[str, Recipe]) -> None:
    """Nobody says how much is in the vinegar: no sum is made up, and the law's line is taken as passed."""
    summed = sulphites_of(recipes["salad"])
    assert summed is not None
    assert (summed.most, summed.is_named) == (None, True)
