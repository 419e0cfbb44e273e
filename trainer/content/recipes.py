"""Recipes: the structure and the words of one folder, read together into one record."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional, read_file
from trainer.content.ingredients import IngredientBlock
from trainer.content.kinds import Table, Written
from trainer.content.languages import SourceFiles, check_stray_files, read_languages
from trainer.content.limits import First
from trainer.content.lines import TypedLine
from trainer.content.mapping_reader import SHORT, MappingReader
from trainer.content.nodes import Diagnostics, read_tree
from trainer.content.packs import packs
from trainer.content.parts import HazardBlock
from trainer.content.recipe_parts import (
    LEVELS,
    BathUseBlock,
    Cards,
    EndBlock,
    PartBlock,
    check_ends,
    check_ends_told,
    composed,
)
from trainer.content.shares import percent, weight
from trainer.content.standard import STANDARD, LoadContext, faulty_lines, standard_of
from trainer.content.words import Filler, Placeholders, words_for
from trainer.content.worked import COMPUTED
from trainer.kitchen.recipe import Bath, Growth, Ingredient, RawEnd, Recipe
from trainer.kitchen.technique import Limit
from trainer.recipe_math.buying import Pack
from trainer.recipe_math.quantity import COUNT, Quantity
from trainer.store.catalogues import ENGLISH

STRUCTURE = "recipe.yaml"


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


class RecipeFile(Block):
    """The structure of one recipe: `recipe.yaml`."""

    some_of = ("portion", "bath", "parts")

    portion: Portion | None = optional(
        kinds.nested(Portion), "What one portion weighs; of parts alone, all of them are one plate."
    )
    bath: BathBlock | None = optional(kinds.nested(BathBlock), "In place of a portion, for a pot of water.")
    loss: Loss | None = optional(kinds.nested(Loss), "What is lost of a batch.")
    source: str = key(kinds.source(), "Where the amounts come from; or house.")
    techniques: tuple[str, ...] = optional(kinds.names_of("techniques"), "Who learns these meets it.")
    parts: tuple[PartBlock, ...] = optional(kinds.list_of(kinds.nested(PartBlock), 1), "Recipes that go into it.")
    baths: tuple[BathUseBlock, ...] = optional(kinds.list_of(kinds.nested(BathUseBlock)), "Pots it is cooked in.")
    ingredients: Mapping[str, IngredientBlock] = optional(
        kinds.entries(IngredientBlock, at_least_one=True), "What goes in; a plate of parts may do without."
    )
    standard: Table[Block] | None = optional(STANDARD, "Measured lines by id, which the method names in braces.")
    hazards: Mapping[str, HazardBlock] = optional(kinds.entries(HazardBlock), "What can hurt.")
    ends: tuple[EndBlock, ...] = optional(
        kinds.list_of(kinds.nested(EndBlock)), "What is raw no longer, by which step."
    )
    keeps: Written | None = optional(kinds.placed_text(SHORT), "A line: how long it keeps.")
    ready_in: Written | None = optional(kinds.placed_text(SHORT), "A line: how long before it is ready it is begun.")
    method: Mapping[str, int] = key(kinds.own_ids(), "How it is made, a sentence or two a line.")
    buying: Table[tuple[Pack, ...]] | None = optional(
        kinds.by_id(packs()), "What an ingredient is bought in, whole; larger packs hold so many smaller ones."
    )

    @property
    def lost(self) -> Fraction:
        """Return the share of a batch that is lost."""
        share = self.loss.share if self.loss else None
        return share if share and share < 1 else Fraction(0)

    def check(self) -> None:
        """Add the problems of a recipe that nothing goes into, and of one that does not say what one portion is."""
        if "ingredients" not in self.at.nodes and "parts" not in self.at.nodes:
            self.at.missing("ingredients")
        if not {"portion", "bath", "parts"} & self.at.nodes.keys():
            self.at.missing("portion")


class RecipeWords(Block):
    """The words of one recipe: `en.yaml`, `es.yaml`."""

    title: Written | None = key(kinds.words(SHORT), "What a cook calls it.")
    makes: Written | None = key(kinds.words(SHORT), "What one portion is.")
    loss: Written | None = optional(kinds.words(), "What is lost, where a share of the batch is.")
    ingredients: Table[Written] | None = optional(kinds.words_by_id(SHORT), "The name of each ingredient.")
    bought: Table[Written] | None = optional(
        kinds.words_by_id(SHORT), "What an ingredient is called on an order, where it is another name: with skin on."
    )
    hazards: Table[Written] | None = optional(kinds.words_by_id(), "The caution for each hazard.")
    method: Table[Written] | None = key(kinds.words_by_id(), "Each line of the method.")


@dataclass
class _Structure:
    """The structure of one recipe with all that does not hang on words, ready to be told."""

    id: str
    block: RecipeFile
    context: LoadContext
    standard: Mapping[str, Limit]
    cards: Cards
    bath: Bath | None
    packs: Mapping[str, tuple[Pack, ...]]
    ends: tuple[RawEnd, ...]
    keeps: Quantity | None
    ready_in: Quantity | None

    def told(self, words: RecipeWords, language: str, first: First) -> Recipe | None:
        """Return the record in the words of one language, its parts left out; None where it has no portion."""
        block = self.block
        lines = {**as_written_lines(block), **self.standard, **self.context.lines}
        faulty = faulty_lines(block.standard, self.standard)
        fill = Filler(words.at.diagnostics, language, Placeholders(lines, language, first), faulty).fill
        cautions = words_for(block.hazards, words.hazards, "hazards", "hazard", words)
        method = words_for(block.method, words.method, "method", "line of the method", words)
        check_ends_told(self.ends, method, self.context.code, words.at.diagnostics)
        if block.lost and words.loss is None:
            words.at.missing("loss")
        loss_text = fill(words.loss)
        hazards = tuple(each.hazard(fill(cautions.get(id))) for id, each in block.hazards.items())
        ingredients = self._ingredients(words, fill)
        made = tuple(fill(method[id]) for id in block.method if id in method)
        title, makes = fill(words.title), fill(words.makes)
        portion = self.cards.portion(self.id)
        if self.bath and ingredients:
            portion = _share_of_a_fill(ingredients, self.bath)
        if portion is None or not (ingredients or block.parts):
            return None
        return Recipe(
            id=self.id,
            title=title,
            makes=makes,
            portion=portion,
            portion_source=block.portion.source if block.portion else "",
            loss=block.lost,
            loss_text=loss_text,
            ingredients=ingredients,
            method=made,
            hazards=hazards,
            techniques=block.techniques,
            source=block.source,
            words_edition=language,
            bath=self.bath,
            ends=self.ends,
            keeps=self.keeps,
            ready_in=self.ready_in,
        )

    def _ingredients(self, words: RecipeWords, fill: Callable[[Written | None], str]) -> tuple[Ingredient, ...]:
        """Return the ingredients whose weight is known, by name."""
        block, weights, foods = self.block, self.cards.weights(self.id), self.context.foods
        names = words_for(block.ingredients, words.ingredients, "ingredients", "ingredient", words)
        if block.ingredients and words.ingredients is None:
            words.at.missing("ingredients")
        bought = words.bought.known(block.ingredients) if words.bought else {}
        found = (
            each.ingredient(
                (fill(names.get(id)), fill(bought.get(id))), weights[id], foods.get(each.food), self.packs.get(id, ())
            )
            for id, each in block.ingredients.items()
            if id in weights
        )
        return tuple(each for each in found if each is not None)


@dataclass(frozen=True, slots=True)
class RecipeFiles:
    """The files of one recipe, read."""

    block: RecipeFile
    files: SourceFiles[Recipe]


@dataclass(frozen=True, slots=True)
class RecipeShelf:
    """All recipes of a kitchen, read, to be told in any language with their parts in them."""

    cards: Cards
    read: Mapping[str, RecipeFiles]

    def told(self, language: str, first: First) -> dict[str, Recipe]:
        """Return the recipes that can be made, in a language; one with a fault in a part of it is left out too."""
        told = {id: each.files.told(language, first) for id, each in self.read.items()}
        return composed({id: found for id, found in told.items() if found is not None}, self.cards.blocks, self.cards)


def recipe_blocks(
    folders: Sequence[Path], context: LoadContext, diagnostics: Diagnostics
) -> dict[str, RecipeFile | None]:
    """Return the structure of each recipe by its id; None for one that cannot be read at all."""
    return {
        each.name: read_file(
            each / STRUCTURE,
            kinds.nested(RecipeFile),
            each.name,
            diagnostics.of(f"recipes/{each.name}/{STRUCTURE}"),
            context.known,
        )
        for each in folders
    }


def recipe_lines(blocks: Mapping[str, RecipeFile | None], context: LoadContext) -> dict[str, Limit]:
    """Return the measured lines of every recipe, each under `<recipe>.<line>`, for techniques to name.

    What an ingredient comes to, as it is written and by weight, and what a portion is are lines too. No problem is
    added here: a line that cannot be read is one where its recipe is read. A line that names the line of another recipe
    is found by going through all of them once a level.
    """
    cards = Cards(blocks, context.foods)
    found: dict[str, Limit] = {}
    for _ in range(LEVELS):
        found = {
            f"{id}.{name}": line
            for id, block in blocks.items()
            if block is not None
            for name, line in _lines_of(id, block, cards, context.with_recipes(found)).items()
        }
    return found


def _lines_of(id: str, block: RecipeFile, cards: Cards, context: LoadContext) -> dict[str, Limit]:
    """Return the lines of one recipe: ingredients, parts by what they are called, portion, and its standard."""
    weights, portion = cards.weights(id), None if block.bath else cards.portion(id)
    silent, lines = Diagnostics("", []), as_written_lines(block)
    lines |= {f"{each}.weight": Limit(each, None, None, much, block.source) for each, much in weights.items()}
    for part in cards.parts(id):
        much, name = cards.amount(part), part.unit or part.recipe
        if much is not None:
            lines[name] = Limit(name, None, None, much, block.source)
    if portion is not None:
        source = block.portion.source if block.portion else COMPUTED
        lines["portion"] = Limit("portion", None, None, portion, source, block.portion.place if block.portion else "")
    return {**lines, **standard_of(block.standard, context, {**_amounts(block, context), **weights}, silent)}


def as_written_lines(block: RecipeFile) -> dict[str, Limit]:
    """Return the amount of each ingredient as it is written, for words to name."""
    written = {id: each.amount for id, each in block.ingredients.items()}
    return {id: Limit(id, None, None, much, block.source) for id, much in written.items() if much is not None}


def recipe_files(folder: Path, cards: Cards, context: LoadContext, diagnostics: Diagnostics) -> RecipeFiles | None:
    """Return the recipe in a folder, to be told in any language; None where its structure cannot be read at all.

    It is sound where nothing in structure and English words is wrong: a batch is never made from half a recipe.
    """
    own, block = diagnostics.of(f"recipes/{folder.name}"), cards.blocks[folder.name]
    check_stray_files(folder, STRUCTURE, own)
    if block is None:
        read_tree(folder / f"{ENGLISH}.yaml", own.of(f"{own.file}/{ENGLISH}.yaml"))
        return None
    before = own.faults
    structure = _structure_of(folder.name, block, cards, context)
    is_sound = block.sound and own.faults == before
    files = read_languages(folder, RecipeWords, structure.told, own)
    files.is_sound = is_sound and ENGLISH in files.sound
    return RecipeFiles(block, files)


def recipe_shelf(folders: Sequence[Path], cards: Cards, context: LoadContext, diagnostics: Diagnostics) -> RecipeShelf:
    """Return all recipes of a kitchen; a recipe that is sound and has a part that is not is a problem of its own."""
    read = {folder.name: recipe_files(folder, cards, context, diagnostics) for folder in folders}
    shelf = RecipeShelf(cards, {id: files for id, files in read.items() if files is not None})
    whole = shelf.told(ENGLISH, "us")
    for files in shelf.read.values():
        named: list[PartBlock | BathUseBlock] = [*files.block.parts, *files.block.baths]
        missing = [each for each in named if each.recipe and each.recipe not in whole]
        if files.files.is_sound and missing:
            message = f"{missing[0].recipe}, which is in it, has a problem of its own."
            missing[0].at.add(message, "Mend that recipe first: nothing is made of half its parts.")
    return shelf


def _structure_of(id: str, block: RecipeFile, cards: Cards, context: LoadContext) -> _Structure:
    """Return the structure, what its keys have to do with each other and with other files checked."""
    for each in block.ingredients.values():
        each.check_food(context.foods.get(each.food))
    cards.check(id, block)
    standard = standard_of(block.standard, context, _amounts(block, context), block.at.diagnostics)
    _check_one_home(id, block, cards)
    bath = _bath_of(block.bath, standard) if block.bath else None
    if bath and block.portion:
        block.portion.at.add("A bath has no portion of its own.", "Take out either bath or portion.")
    keeps, ready_in = _time(block.keeps, standard, block.at), _time(block.ready_in, standard, block.at)
    ends = check_ends(block, context.code)
    return _Structure(id, block, context, standard, cards, bath, _packs_of(block), ends, keeps, ready_in)


def _check_one_home(id: str, block: RecipeFile, cards: Cards) -> None:
    """Add a problem for a number that is typed here and stands in a part: it has one home."""
    for name, line in (block.standard or {}).items():
        for part in cards.parts(id) if isinstance(line, TypedLine) else ():
            other = cards.blocks[part.recipe]
            if other is not None and name in {*(other.standard or ()), *other.ingredients}:
                hint = f"Write {name}: {{recipe: {part.recipe}.{name}}}, or give the line an id of its own."
                line.at.add(f"{name} stands in the recipe {part.recipe} already.", hint)
    for each in block.ingredients.values():
        if each.growth is Growth.BATH and not (block.bath or block.baths):
            each.at.add(f"{each.id} grows with a bath, and there is none.", "Name the pot under `baths`.")


def _amounts(block: RecipeFile, context: LoadContext) -> dict[str, Quantity | None]:
    """Return what each ingredient weighs, or its amount where it has no weight; for the formulas of the standard."""
    return {id: each.weight(context.foods.get(each.food)) for id, each in block.ingredients.items()}


def _time(name: Written | None, lines: Mapping[str, Limit], at: MappingReader) -> Quantity | None:
    """Return the longest time of a line; one that is no time is a problem."""
    if name is None:
        return None
    if name.text not in lines:
        at.unknown(name.line, name.key, name.text, lines)
        return None
    found = lines[name.text].highest or lines[name.text].target
    if found is None or found.unit.dimension != "duration":
        at.diagnostics.add(name.line, f"{name.text} is no time.", "Name a line such as {highest: 3 days}.")
        return None
    return found


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


def _packs_of(block: RecipeFile) -> Mapping[str, tuple[Pack, ...]]:
    """Return what ingredients are bought in, whole: `buying: {yolks: [{unit: carton, holds: 2 lb, source: house}]}`."""
    return block.buying.known(block.ingredients) if block.buying else {}
