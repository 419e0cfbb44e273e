"""Recipes: the structure and the words of one folder, read together into one record."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional, read_file
from trainer.content.kinds import Kind, Table, Written
from trainer.content.languages import SourceFiles, check_stray_files, read_languages
from trainer.content.limits import First
from trainer.content.lines import amount
from trainer.content.mapping_reader import SHORT, MappingReader
from trainer.content.nodes import Diagnostics, Node, ScalarNode, SequenceNode, read_tree
from trainer.content.parts import HazardBlock
from trainer.content.standard import STANDARD, LoadContext, faulty_lines, standard_of
from trainer.content.words import Filler, Placeholders, words_for
from trainer.kitchen.recipe import Bath, Ingredient, Pack, Recipe
from trainer.kitchen.technique import Limit
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import COUNT, Quantity, QuantityProblem
from trainer.recipe_math.units import THINGS
from trainer.store.catalogues import ENGLISH

STRUCTURE = "recipe.yaml"
MASS, SHARE = "mass", "share"
GROWS = (MASS, "volume", "count")
RATE = re.compile(r"(?P<weight>.+?) (?:an?|per) (?P<one>[A-Za-z].*)")
RATE_HINT = "Write the weight of all of it, 500 g, or of one: 50 g an egg, 244 g a cup."


def weight() -> Kind:
    """Return a weight above nothing."""

    def check(found: Quantity, node: Node, name: str, at: MappingReader) -> Quantity | None:
        if _is_weight(found):
            return found
        at.diagnostics.add(node.line, f"{name} is {found}, not a weight.", "Write a weight: 500 g, 6.5 oz.")
        return None

    return amount().then("weight, 6.5 oz", check)


def amount_of_batch() -> Kind:
    """Return how much goes in: a weight, a volume or a count above nothing."""

    def check(found: Quantity, node: Node, name: str, at: MappingReader) -> Quantity | None:
        if found.amount <= 0:
            at.diagnostics.add(node.line, f"{name} is {found}.", "Write more than nothing, or take it out.")
        elif not found.unit.dimension.startswith(GROWS):
            hint = "Write a weight, a volume or a count: 7 lb, 2 qt, 10 eggs."
            at.diagnostics.add(node.line, f"{name} is {found}, which does not grow with a batch.", hint)
        else:
            return found
        return None

    return amount().then("weight, volume or count, 10 eggs", check)


def percent() -> Kind:
    """Return a share from above nothing to all of it."""

    def check(found: Quantity, node: Node, name: str, at: MappingReader) -> Fraction | None:
        if found.unit.dimension == SHARE and 0 < found.base <= 1:
            return found.base
        message = f"{name} is {found}, not a share above 0 and up to 100 %."
        at.diagnostics.add(node.line, message, "Write a share in percent: 89 %.")
        return None

    return amount().then("share, 89 %", check)


def weight_or_rate() -> Kind:
    """Return what all of an ingredient weighs; or, as it is typed, what one of it does."""
    all_of_it = weight()

    def read(node: Node, name: str, at: MappingReader) -> Quantity | Written | None:
        if isinstance(node, ScalarNode) and RATE.fullmatch(node.value.strip()):
            return Written(node.line, name, node.value.strip())
        found: Quantity | None = all_of_it.read(node, name, at)
        return found

    return replace(all_of_it, written="weight of all, 500 g, or of one, 50 g an egg", read=read)


class Sourced(Block):
    """A number with its source."""

    source: str = key(kinds.source(), "Who says so.")
    place: str = optional(kinds.text(), "Where.")


class Portion(Sourced):
    """What one portion weighs."""

    weight: Quantity | None = key(weight(), "The weight of one.")


class BathBlock(Block):
    """In place of a portion: a pot of water that many portions share, filled again when it is spent."""

    takes: Written | None = key(kinds.placed_text(SHORT), "A line: what goes in at one time.")
    fills_last: Written | None = key(kinds.placed_text(SHORT), "A line: how many batches one fill lasts.")


class Loss(Sourced):
    """The share of a batch that is lost."""

    share: Fraction | None = key(percent(), "How much.")

    def check(self) -> None:
        """Add a problem where nothing is left."""
        if self.share is not None and self.share >= 1:
            self.at.diagnostics.add(self.at.lines["share"], "loss is the whole batch.", "Write less than 100 %.")


class PackBlock(Sourced):
    """One kind of pack."""

    unit: str = key(kinds.one_of(THINGS), "What the pack is.")
    holds: Quantity | None = key(weight(), "What one holds.")


def one_pack() -> Kind:
    """Return a list of one kind of pack; more or fewer than one is a problem."""
    pack = kinds.nested(PackBlock)

    def read(node: Node, name: str, at: MappingReader) -> PackBlock | None:
        items = node.items if isinstance(node, SequenceNode) else ()
        if len(items) != 1:
            hint = "Write a list of one: [{unit: carton, holds: 2 lb, source: house}]."
            at.diagnostics.add(node.line, f"{name} is not bought in one kind of pack.", hint)
        return next((pack.read(item, name, at) for item in items[:1]), None)

    return replace(kinds.list_of(pack, 1), read=read, nothing=None)


class IngredientBlock(Block):
    """One ingredient; what is not a weight says what it weighs."""

    named_by = "id"

    id: str = key(kinds.own_id())
    amount: Quantity | None = key(amount_of_batch(), "How much goes in.")
    weighs: Quantity | Written | None = optional(weight_or_rate(), "What it weighs.")
    flour: bool = key(kinds.yes_no(), "Whether it is flour.", default=False)
    water: Fraction | None = optional(percent(), "The share of it that is water: 76 %.")
    edible: Fraction | None = optional(percent(), "The share of it that is left once trimmed: 90 %.")
    allergens: tuple[str, ...] = optional(kinds.names_of("allergens"), "What is in it.")
    source: str = key(kinds.source(), "Who says so.", beside=("weighs", "water", "edible"))
    place: str = optional(kinds.text(), "Where.")

    def weight(self) -> Quantity | None:
        """Return what all of it weighs; its amount where nothing else is written, None where that cannot be read."""
        if not isinstance(self.weighs, Written):
            return self.weighs if "weighs" in self.at.nodes else self.amount
        rate, add = RATE.fullmatch(self.weighs.text), self.at.diagnostics.add
        if rate is None:
            return None
        try:
            each, one = parse_quantity(rate["weight"], decimal_mark="."), parse_quantity(f"1 {rate['one']}")
            weight = each * (self.amount / one) if self.amount else each
        except QuantityProblem as problem:
            add(self.weighs.line, f"weighs is {rate[0]!r}. {problem}", RATE_HINT)
            return None
        if not _is_weight(weight):
            add(self.weighs.line, f"weighs is {rate[0]!r}, not a weight.", RATE_HINT)
            return None
        return weight


class RecipeFile(Block):
    """The structure of one recipe: `recipe.yaml`."""

    one_of = ("portion", "bath")

    portion: Portion | None = optional(kinds.nested(Portion), "What one portion weighs.")
    bath: BathBlock | None = optional(kinds.nested(BathBlock), "In place of a portion, for a pot of water.")
    loss: Loss | None = optional(kinds.nested(Loss), "What is lost of a batch.")
    source: str = key(kinds.source(), "Where the amounts come from; or house.")
    techniques: tuple[str, ...] = optional(kinds.names_of("techniques"), "Who learns these meets it.")
    ingredients: Mapping[str, IngredientBlock] = key(kinds.entries(IngredientBlock, at_least_one=True), "What goes in.")
    standard: Table[Block] | None = optional(STANDARD, "Measured lines by id, which the method names in braces.")
    hazards: Mapping[str, HazardBlock] = optional(kinds.entries(HazardBlock), "What can hurt.")
    method: Mapping[str, int] = key(kinds.own_ids(), "How it is made, a sentence or two a line.")
    buying: Table[PackBlock | None] | None = optional(
        kinds.by_id(one_pack()), "What an ingredient is bought in, whole: a list of one."
    )


class RecipeWords(Block):
    """The words of one recipe: `en.yaml`, `es.yaml`."""

    title: Written | None = key(kinds.words(SHORT), "What a cook calls it.")
    makes: Written | None = key(kinds.words(SHORT), "What one portion is.")
    loss: Written | None = optional(kinds.words(), "What is lost, where a share of the batch is.")
    ingredients: Table[Written] | None = key(kinds.words_by_id(SHORT), "The name of each ingredient.")
    hazards: Table[Written] | None = optional(kinds.words_by_id(), "The caution for each hazard.")
    method: Table[Written] | None = key(kinds.words_by_id(), "Each line of the method.")


@dataclass
class _Structure:
    """The structure of one recipe with all that does not hang on words, ready to be told."""

    id: str
    block: RecipeFile
    context: LoadContext
    standard: Mapping[str, Limit]
    weights: Mapping[str, Quantity]
    bath: Bath | None
    packs: Mapping[str, Pack]

    def told(self, words: RecipeWords, language: str, first: First) -> Recipe | None:
        """Return the record in the words of one language; None where portion or ingredients cannot be read."""
        block, loss = self.block, self.block.loss.share if self.block.loss else None
        lines = {**self.standard, **{f"code.{id}": limit for id, limit in self.context.code.items()}}
        faulty = faulty_lines(block.standard, self.standard)
        fill = Filler(words.at.diagnostics, language, Placeholders(lines, language, first), faulty).fill
        names = words_for(block.ingredients, words.ingredients, "ingredients", "ingredient", words)
        cautions = words_for(block.hazards, words.hazards, "hazards", "hazard", words)
        method = words_for(block.method, words.method, "method", "line of the method", words)
        if loss and words.loss is None:
            words.at.missing("loss")
        loss_text = fill(words.loss)
        hazards = tuple(each.hazard(fill(cautions.get(id))) for id, each in block.hazards.items())
        ingredients = tuple(
            Ingredient(
                id=id,
                name=fill(names.get(id)),
                amount=each.amount,
                weight=self.weights[id],
                is_flour=each.flour,
                water_share=each.water,
                edible_share=each.edible,
                allergens=each.allergens,
                source=each.source,
                pack=self.packs.get(id),
            )
            for id, each in block.ingredients.items()
            if each.amount is not None and id in self.weights
        )
        made = tuple(fill(method[id]) for id in block.method if id in method)
        title, makes = fill(words.title), fill(words.makes)
        portion = block.portion.weight if block.portion else None
        if self.bath and ingredients:
            portion = _share_of_a_fill(ingredients, self.bath)
        if portion is None or not ingredients:
            return None
        return Recipe(
            id=self.id,
            title=title,
            makes=makes,
            portion=portion,
            portion_source=block.portion.source if block.portion else "",
            loss=loss if loss and loss < 1 else Fraction(0),
            loss_text=loss_text,
            ingredients=ingredients,
            method=made,
            hazards=hazards,
            techniques=block.techniques,
            source=block.source,
            words_edition=language,
            bath=self.bath,
        )


def recipe_blocks(folder: Path, context: LoadContext, diagnostics: Diagnostics) -> dict[Path, RecipeFile | None]:
    """Return the structure of each recipe by its folder; None for one that cannot be read at all."""
    folders = sorted(each for each in folder.glob("recipes/*") if each.is_dir() and not each.name.startswith("."))
    return {
        each: read_file(
            each / STRUCTURE,
            kinds.nested(RecipeFile),
            each.name,
            diagnostics.of(f"recipes/{each.name}/{STRUCTURE}"),
            context.known,
        )
        for each in folders
    }


def recipe_lines(blocks: Mapping[Path, RecipeFile | None], context: LoadContext) -> dict[str, Limit]:
    """Return the measured lines of every recipe, each under `<recipe>.<line>`, for techniques to name.

    No problem is added here: a line that cannot be read is one where its recipe is read.
    """
    silent = Diagnostics("", [])
    found: dict[str, Limit] = {}
    for folder, block in blocks.items():
        if block is not None:
            lines = standard_of(block.standard, context, _amounts(block), silent)
            found.update({f"{folder.name}.{id}": line for id, line in lines.items()})
    return found


def recipe_files(
    folder: Path, block: RecipeFile | None, context: LoadContext, diagnostics: Diagnostics
) -> SourceFiles[Recipe] | None:
    """Return the recipe in a folder, to be told in any language; None where its structure cannot be read at all.

    It is sound where nothing in structure and English words is wrong: a batch is never made from half a recipe.
    """
    own = diagnostics.of(f"recipes/{folder.name}")
    check_stray_files(folder, STRUCTURE, own)
    if block is None:
        read_tree(folder / f"{ENGLISH}.yaml", own.of(f"{own.file}/{ENGLISH}.yaml"))
        return None
    before = own.faults
    structure = _structure_of(folder.name, block, context)
    is_sound = block.sound and own.faults == before
    files = read_languages(folder, RecipeWords, structure.told, own)
    files.is_sound = is_sound and ENGLISH in files.sound
    return files


def _structure_of(id: str, block: RecipeFile, context: LoadContext) -> _Structure:
    """Return the structure, what its keys have to do with each other and with other files checked."""
    standard = standard_of(block.standard, context, _amounts(block), block.at.diagnostics)
    bath = _bath_of(block.bath, standard) if block.bath else None
    if bath and block.portion:
        block.portion.at.add("A bath has no portion of its own.", "Take out either bath or portion.")
    weights = {id: weight for id, each in block.ingredients.items() if (weight := _weight_of(each))}
    return _Structure(id, block, context, standard, weights, bath, _packs_of(block))


def _amounts(block: RecipeFile) -> dict[str, Quantity | None]:
    """Return what each ingredient weighs, or its amount where it has no weight; for the formulas of the standard."""
    return {id: each.weight() for id, each in block.ingredients.items()}


def _weight_of(ingredient: IngredientBlock) -> Quantity | None:
    """Return what all of an ingredient weighs, which must be known, since a batch is portioned by weight."""
    weight = ingredient.weight() or ingredient.amount
    if ingredient.amount is None or weight is None or _is_weight(weight):
        return weight
    hint = f"Add `weighs:` with what {ingredient.amount} weigh together, and its source."
    ingredient.at.add(f"{ingredient.id} is {ingredient.amount}, which has no weight.", hint)
    return None


def _is_weight(quantity: Quantity) -> bool:
    """Return whether a quantity is a weight above nothing."""
    return quantity.unit.dimension == MASS and quantity.amount > 0


def _bath_of(block: BathBlock, lines: Mapping[str, Limit]) -> Bath | None:
    """Return how a pot of water is used, from two lines of the recipe."""
    takes, lasts = _most(block.takes, lines, block.at), _most(block.fills_last, lines, block.at)
    return Bath(takes, lasts) if takes and lasts else None


def _most(name: Written | None, lines: Mapping[str, Limit], at: MappingReader) -> Quantity | None:
    """Return the highest count of a line; one that is no count, or has no highest, is a problem."""
    if name is None:
        return None
    if name.text not in lines:
        at.unknown(name.line, name.key, name.text, lines)
        return None
    most = lines[name.text].highest
    if most is None or not most.unit.dimension.startswith(COUNT) or most.base < 1:
        hint = "Name a line such as {highest: 6 nests}."
        at.diagnostics.add(name.line, f"{name.text} is no highest count.", hint)
        return None
    return most


def _share_of_a_fill(ingredients: Sequence[Ingredient], bath: Bath) -> Quantity:
    """Return what one portion has of a fill when all of it is used."""
    weights = [line.weight for line in ingredients]
    return sum(weights[1:], weights[0]) / (bath.takes.base * bath.batches.base)


def _packs_of(block: RecipeFile) -> dict[str, Pack]:
    """Return what ingredients are bought in, whole: `buying: {yolks: [{unit: carton, holds: 2 lb, source: house}]}`."""
    packs = block.buying.known(block.ingredients) if block.buying else {}
    return {id: Pack(pack.unit, pack.holds) for id, pack in packs.items() if pack and pack.unit and pack.holds}
