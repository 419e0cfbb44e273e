"""Recipes: the structure and the words of one folder, read together into one record."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace
from fractions import Fraction
from functools import partial
from pathlib import Path

from trainer.kitchen.recipe import Ingredient, Recipe
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.store.content_languages import note_stray_files, told_in
from trainer.store.content_limits import quantity_of, source_of
from trainer.store.content_nodes import Node, Sheet, Text
from trainer.store.content_pair import Around, Pair, ids_of, lines_of, listed, pair_of, told_of
from trainer.store.content_parts import hazards_of
from trainer.store.content_schema import SHORT, Fields

STRUCTURE = "recipe.yaml"
MASS, SHARE = "mass", "share"
GROWS = (MASS, "volume", "count")
AMOUNT_MEND = "Write a weight, a volume or a count: 7 lb, 2 qt, 10 eggs."
RATE = re.compile(r"(?P<weight>.+?) (?:an?|per) (?P<one>[A-Za-z].*)")
RATE_MEND = "Write the weight of all of it, 500 g, or of one: 50 g an egg, 244 g a cup."
SHARE_MEND = "Write a share in percent: 89 %."


def recipes_of(folder: Path, around: Around, techniques: Collection[str], problems: Sheet) -> dict[str, Recipe]:
    """Return the recipes that have no problem, by name; no recipes at all is no problem."""
    folders = sorted(each for each in folder.glob("recipes/*") if each.is_dir() and not each.name.startswith("."))
    read = (recipe_of(each, around, techniques, problems) for each in folders)
    return {recipe.id: recipe for recipe in read if recipe is not None}


def recipe_of(folder: Path, around: Around, techniques: Collection[str], problems: Sheet) -> Recipe | None:
    """Return the recipe in a folder; None where anything in it is wrong: a batch is never made from half a recipe.

    Its words are in the language asked for, in English where it has none or bad ones in that language.
    """
    sheet = Sheet(f"recipes/{folder.name}", problems.problems)
    note_stray_files(folder, STRUCTURE, sheet)
    return told_in(folder, around, sheet, partial(_told, folder, techniques))


def _told(folder: Path, techniques: Collection[str], around: Around, problems: Sheet) -> Recipe | None:
    """Return the recipe in one language; None, with the reasons noted, where anything in it is wrong."""
    before = problems.faults
    pair = pair_of(folder, STRUCTURE, around, problems, _weights_of)
    if pair is None:
        return None
    recipe = _recipe(pair, techniques)
    pair.structure.close()
    pair.told.close()
    return recipe if problems.faults == before else None


def _recipe(pair: Pair, techniques: Collection[str]) -> Recipe | None:
    """Return the record; None where portion or ingredients could not be read at all."""
    structure, told, words = pair.structure, pair.told, pair.words
    portion, portion_source = _portion_of(structure, pair.around.sources)
    loss = _loss_of(structure, pair.around.sources)
    ingredients = _ingredients_of(pair)
    hazards, method = hazards_of(pair), _method_of(pair)
    title, makes = words.under(told, "title", longest=SHORT), words.under(told, "makes", longest=SHORT)
    loss_text = words.under(told, "loss", required=loss > 0)
    named = structure.words("techniques", techniques, required=False)
    source = source_of(structure, pair.folder.name, pair.around.sources)
    if portion is None or not ingredients:
        return None
    return Recipe(
        id=pair.folder.name,
        title=title,
        makes=makes,
        portion=portion,
        portion_source=portion_source,
        loss=loss,
        loss_text=loss_text,
        ingredients=ingredients,
        method=method,
        hazards=hazards,
        techniques=named,
        source=source,
        words_edition=pair.around.language,
    )


def _weights_of(structure: Fields) -> dict[str, Quantity | None]:
    """Return what each ingredient weighs, or its amount where it has no weight; for the sums of the standard.

    None where that cannot be read. Nothing is noted here: the ingredients are read, and told about, further on.
    """
    found = {}
    for key, fields in listed(replace(structure, sheet=Sheet("", []), asked=set()), "ingredients").items():
        amount = _amount_of(fields)
        found[key] = _weighs(fields, amount) if "weighs" in fields.nodes else amount
    return found


def _portion_of(structure: Fields, sources: Collection[str]) -> tuple[Quantity | None, str]:
    """Return what one portion weighs, and where that is said."""
    block = structure.block("portion")
    if block is None:
        return None, ""
    weight, source = _weight_of(block, "weight"), source_of(block, "portion", sources)
    block.text("place", required=False)
    block.close()
    return weight, source


def _loss_of(structure: Fields, sources: Collection[str]) -> Fraction:
    """Return the share of a batch that is lost; none where none is written."""
    block = structure.block("loss", required=False)
    if block is None:
        return Fraction(0)
    block.node("share")
    share = _share_of(block, "share")
    source_of(block, "loss", sources)
    block.text("place", required=False)
    block.close()
    if share is not None and share >= 1:
        block.sheet.note(block.lines["share"], "loss is the whole batch.", "Write less than 100 %.")
        return Fraction(0)
    return share or Fraction(0)


def _ingredients_of(pair: Pair) -> tuple[Ingredient, ...]:
    """Return the ingredients in the order they are written, each with its name."""
    entries = listed(pair.structure, "ingredients")
    told = told_of(pair, "ingredients", lines_of(entries), "ingredient")
    read = [_ingredient(pair, key, fields, told.nodes.get(key)) for key, fields in entries.items()]
    return tuple(line for line in read if line is not None)


def _ingredient(pair: Pair, key: str, fields: Fields, node: Node | None) -> Ingredient | None:
    """Return one ingredient; what it weighs must be known, since a batch is portioned by weight."""
    amount = _amount_of(fields)
    weighs = _weighs(fields, amount) if fields.node("weighs", required=False) else None
    is_flour = fields.yes("flour", default=False)
    water, edible = _share_of(fields, "water"), _share_of(fields, "edible")
    allergens = fields.words("allergens", pair.around.allergens, required=False)
    needs_source = bool({"weighs", "water", "edible"} & fields.nodes.keys())
    has_source = fields.node("source", required=False) is not None
    source = source_of(fields, key, pair.around.sources) if needs_source or has_source else ""
    fields.text("place", required=False)
    fields.close()
    name = pair.words.of(node, key, SHORT)
    weight = weighs or amount
    if amount is None or weight is None:
        return None
    if weight.unit.dimension != MASS:
        mend = f"Add `weighs:` with what {amount} weigh together, and its source."
        fields.sheet.note(fields.line, f"{key} is {amount}, which has no weight.", mend)
        return None
    return Ingredient(key, name, amount, weight, is_flour, water, edible, allergens, source)


def _amount_of(fields: Fields) -> Quantity | None:
    """Return how much goes in: above nothing."""
    fields.node("amount")
    amount = quantity_of(fields, "amount")
    if amount is not None and amount.amount <= 0:
        fields.sheet.note(fields.lines["amount"], f"amount is {amount}.", "Write more than nothing, or take it out.")
        return None
    if amount is not None and not amount.unit.dimension.startswith(GROWS):
        fields.sheet.note(fields.lines["amount"], f"amount is {amount}, which does not grow with a batch.", AMOUNT_MEND)
        return None
    return amount


def _weight_of(fields: Fields, key: str) -> Quantity | None:
    """Return a weight above nothing; anything else is noted."""
    fields.node(key)
    weight = quantity_of(fields, key)
    if weight is None:
        return None
    if weight.unit.dimension != MASS or weight.amount <= 0:
        fields.sheet.note(fields.lines[key], f"{key} is {weight}, not a weight.", "Write a weight: 500 g, 6.5 oz.")
        return None
    return weight


def _weighs(fields: Fields, amount: Quantity | None) -> Quantity | None:
    """Return what an ingredient weighs: typed for all of it, or worked out from a rate such as "50 g an egg"."""
    node = fields.node("weighs")
    rate = RATE.fullmatch(node.value.strip()) if isinstance(node, Text) else None
    if rate is None:
        return _weight_of(fields, "weighs")
    try:
        each, one = parse_quantity(rate["weight"], decimal_mark="."), parse_quantity(f"1 {rate['one']}")
        weight = each * amount.over(one) if amount else each
    except QuantityProblem as problem:
        fields.sheet.note(fields.lines["weighs"], f"weighs is {rate[0]!r}. {problem}", RATE_MEND)
        return None
    if weight.unit.dimension != MASS or weight.amount <= 0:
        fields.sheet.note(fields.lines["weighs"], f"weighs is {rate[0]!r}, not a weight.", RATE_MEND)
        return None
    return weight


def _share_of(fields: Fields, key: str) -> Fraction | None:
    """Return a share from above nothing to all of it; None where none is written."""
    share = quantity_of(fields, key)
    if share is None:
        return None
    if share.unit.dimension != SHARE or not 0 < share.base <= 1:
        fields.sheet.note(fields.lines[key], f"{key} is {share}, not a share above 0 and up to 100 %.", SHARE_MEND)
        return None
    return share.base


def _method_of(pair: Pair) -> tuple[str, ...]:
    """Return how it is made, a sentence or two a line."""
    ids = ids_of(pair.structure, "method")
    told = told_of(pair, "method", ids, "line of the method")
    return tuple(pair.words.of(told.nodes[key], key) for key in ids if key in told.nodes)
