"""Recipes: the structure and the words of one folder, read together into one record."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial
from pathlib import Path

from trainer.content.languages import note_stray_files, told_in
from trainer.content.limits import quantity_of, source_of
from trainer.content.nodes import Keyed, Many, Node, Sheet, Text, read_tree
from trainer.content.pair import Around, Pair, ids_of, lines_of, listed, pair_of, standard_of, told_of
from trainer.content.parts import hazards_of
from trainer.content.schema import SHORT, Fields
from trainer.kitchen.recipe import Bath, Ingredient, Pack, Recipe
from trainer.kitchen.technique import Limit
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import COUNT, Quantity, QuantityProblem
from trainer.recipe_math.units import THINGS

STRUCTURE = "recipe.yaml"
MASS, SHARE = "mass", "share"
GROWS = (MASS, "volume", "count")
AMOUNT_MEND = "Write a weight, a volume or a count: 7 lb, 2 qt, 10 eggs."
RATE = re.compile(r"(?P<weight>.+?) (?:an?|per) (?P<one>[A-Za-z].*)")
RATE_MEND = "Write the weight of all of it, 500 g, or of one: 50 g an egg, 244 g a cup."
PACK_MEND = "Write a list of one: [{unit: carton, holds: 2 lb, source: house}]."
SHARE_MEND = "Write a share in percent: 89 %."


def recipes_of(folder: Path, around: Around, techniques: Collection[str], problems: Sheet) -> dict[str, Recipe]:
    """Return the recipes that have no problem, by name; no recipes at all is no problem."""
    folders = sorted(each for each in folder.glob("recipes/*") if each.is_dir() and not each.name.startswith("."))
    read = (recipe_of(each, around, techniques, problems) for each in folders)
    return {recipe.id: recipe for recipe in read if recipe is not None}


def recipe_lines(folder: Path, around: Around) -> dict[str, Limit]:
    """Return the measured lines of every recipe, each under `<recipe>.<line>`, for techniques to name.

    Nothing is noted here: a line that cannot be read is told about where its recipe is read.
    """
    found: dict[str, Limit] = {}
    for each in sorted(folder.glob(f"recipes/*/{STRUCTURE}")):
        quiet = Sheet("", [])
        tree = read_tree(each, quiet)
        if isinstance(tree, Keyed):
            fields = Fields.of(tree, quiet, each.parent.name)
            lines = standard_of(fields, around, _weights_of(fields))
            found.update({f"{each.parent.name}.{key}": line for key, line in lines.items()})
    return found


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
    ingredients = _ingredients_of(pair)
    bath = _bath_of(pair)
    portion, portion_source = _portion_of(structure, pair.around.sources, bath is not None)
    loss = _loss_of(structure, pair.around.sources)
    hazards, method = hazards_of(pair), _method_of(pair)
    title, makes = words.under(told, "title", longest=SHORT), words.under(told, "makes", longest=SHORT)
    loss_text = words.under(told, "loss", required=loss > 0)
    named = structure.words("techniques", techniques, required=False)
    source = source_of(structure, pair.folder.name, pair.around.sources)
    if bath and ingredients:
        portion = _share_of_a_fill(ingredients, bath)
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
        bath=bath,
    )


def _bath_of(pair: Pair) -> Bath | None:
    """Return how a pot of water is used, from two lines of the recipe; None where the recipe is no bath."""
    block = pair.structure.block("bath", required=False)
    if block is None:
        return None
    takes, lasts = (_most(block, key, pair.standard) for key in ("takes", "fills_last"))
    block.close()
    return Bath(takes, lasts) if takes and lasts else None


def _most(block: Fields, key: str, lines: Mapping[str, Limit]) -> Quantity | None:
    """Return the highest count of the line a key names; one that is no count, or has no highest, is noted."""
    name = block.one_of(key, lines)
    most = lines[name].highest if name else None
    if name and (most is None or not most.unit.dimension.startswith(COUNT) or most.base < 1):
        block.sheet.note(block.lines[key], f"{name} is no highest count.", "Name a line such as {highest: 6 nests}.")
        return None
    return most


def _share_of_a_fill(ingredients: Sequence[Ingredient], bath: Bath) -> Quantity:
    """Return what one portion has of a fill when all of it is used."""
    weights = [line.weight for line in ingredients]
    return sum(weights[1:], weights[0]) / (bath.takes.base * bath.batches.base)


def _weights_of(structure: Fields) -> dict[str, Quantity | None]:
    """Return what each ingredient weighs, or its amount where it has no weight; for the sums of the standard.

    None where that cannot be read. Nothing is noted here: the ingredients are read, and told about, further on.
    """
    found = {}
    for key, fields in listed(replace(structure, sheet=Sheet("", []), asked=set()), "ingredients").items():
        amount = _amount_of(fields)
        found[key] = _weighs(fields, amount) if "weighs" in fields.nodes else amount
    return found


def _portion_of(structure: Fields, sources: Collection[str], is_bath: bool) -> tuple[Quantity | None, str]:
    """Return what one portion weighs, and where that is said; a bath has none of its own."""
    block = structure.block("portion", required=not is_bath)
    if block is None:
        return None, ""
    if is_bath:
        structure.sheet.note(block.line, "A bath has no portion of its own.", "Take out either bath or portion.")
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
    packs = _packs_of(pair, entries)
    return tuple(replace(line, pack=packs.get(line.id)) for line in read if line is not None)


def _packs_of(pair: Pair, ingredients: Collection[str]) -> dict[str, Pack]:
    """Return what ingredients are bought in, whole: `buying: {yolks: [{unit: carton, holds: 2 lb, source: house}]}`."""
    block = pair.structure.block("buying", required=False)
    found = {}
    for key, node in block.each(ingredients) if block else ():
        items = node.items if isinstance(node, Many) else ()
        if len(items) != 1:
            pair.structure.sheet.note(node.line, f"{key} is not bought in one kind of pack.", PACK_MEND)
        for item in items[:1]:
            pack = _pack(Fields.of(item, pair.structure.sheet, key), pair.around.sources)
            found.update({key: pack} if pack else {})
    return found


def _pack(fields: Fields, sources: Collection[str]) -> Pack | None:
    """Return one kind of pack: its unit, what it holds, and who says so."""
    unit, holds = fields.one_of("unit", THINGS), _weight_of(fields, "holds")
    source_of(fields, fields.name, sources)
    fields.text("place", required=False)
    fields.close()
    return Pack(unit, holds) if unit and holds else None


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
