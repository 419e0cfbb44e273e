"""Recipes that are made of recipes: parts and baths, what they weigh, and what cannot be: a circle, a fifth level."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.foods import RAW, FoodBlock
from trainer.content.ingredients import weights_of
from trainer.content.kinds import Kind, Written
from trainer.content.lines import amount
from trainer.content.mapping_reader import SHORT, MappingReader
from trainer.content.nodes import Diagnostics, Node
from trainer.content.shares import weight
from trainer.kitchen.recipe import BEFORE_THE_END, Bath, BathUse, Growth, Part, RawEnd, Recipe, total
from trainer.kitchen.technique import Limit
from trainer.recipe_math.quantity import COUNT, Quantity
from trainer.recipe_math.units import THINGS

if TYPE_CHECKING:
    from trainer.content.recipes import RecipeFile

LEVELS = 4
"""How deep a plate may go: plate, base, stock, roux. Deeper than that nobody can say what is in it."""
ENDS: Mapping[str, tuple[str, ...]] = {
    "egg": ("egg_one_order", "egg_pooled"),
    "meat": (
        "fish_and_whole_meat",
        "ground_meat",
        "injected_meat",
        "intact_steak_surface",
        "poultry_and_stuffed_pasta",
    ),
    "fish": ("fish_and_whole_meat", "ground_meat"),
    "shellfish": ("fish_and_whole_meat", "ground_meat"),
    "milk": ("egg_pooled", "reheat"),
}
"""The limits of the code by which something is raw no longer; each with its seconds, where the code has them."""
WHOLE_COUNT_HINT = "Write how many: 6 nests."


def whole_count() -> Kind:
    """Return a count of one and more."""

    def check(found: Quantity, node: Node, name: str, at: MappingReader) -> Quantity | None:
        if found.unit.dimension.startswith(COUNT) and found.base >= 1:
            return found
        at.diagnostics.add(node.line, f"{name} is {found}, no count of one or more.", WHOLE_COUNT_HINT)
        return None

    return amount().then("count, 6 nests", check)


class PartBlock(Block):
    """A recipe that goes into this one; what it has in it follows from it and is never typed."""

    called = "a part"

    recipe: str = key(kinds.name_of("recipes"), "Which.")
    unit: str = optional(kinds.one_of(THINGS), "What one portion of it is called here: nest.", name="as")
    amount: Quantity | None = optional(weight(), "How much of it, ready; left out, one portion as its own recipe says.")


class BathUseBlock(Block):
    """The pot it is cooked in."""

    called = "a bath"

    recipe: str = key(kinds.name_of("recipes"), "A recipe that is a bath.")
    takes: Quantity | None = optional(whole_count(), "What goes in at one time, where it is not what the bath says.")


class EndBlock(Block):
    """By which line of the method something is raw no longer."""

    called = "an end"

    raw: str = key(kinds.one_of(RAW), "What.")
    step: Written | None = key(kinds.placed_text(SHORT), "The line of the method; its words name heat and seconds.")
    meets: Written | None = key(kinds.placed_text(SHORT), "The limit of the code it meets: egg_pooled.")


@dataclass(frozen=True, slots=True)
class Cards:
    """The structures of all recipes, by id, to see what one is made of."""

    blocks: Mapping[str, RecipeFile | None]
    foods: Mapping[str, FoodBlock]

    def parts(self, id: str) -> tuple[PartBlock, ...]:
        """Return the parts of a recipe; none where it cannot be read."""
        block = self.blocks.get(id)
        return tuple(part for part in block.parts if part.recipe in self.blocks) if block else ()

    def portion(self, id: str, path: tuple[str, ...] = ()) -> Quantity | None:
        """Return what one portion weighs; of a plate without one, all of it. None where that cannot be known."""
        block = self.blocks.get(id)
        if block is None or id in path:
            return None
        if block.portion is not None:
            return block.portion.weight
        finished = self.finished(id, path)
        return finished if finished.amount > 0 and block.bath is None else None

    def amount(self, part: PartBlock, path: tuple[str, ...] = ()) -> Quantity | None:
        """Return how much of a part goes in: as it is typed, or one portion of it."""
        return part.amount or self.portion(part.recipe, path)

    def weights(self, id: str, path: tuple[str, ...] = ()) -> dict[str, Quantity]:
        """Return what each ingredient of a recipe weighs."""
        block = self.blocks.get(id)
        if block is None:
            return {}
        return weights_of(block.ingredients, self.foods, self._parts(id, path), block.lost)

    def finished(self, id: str, path: tuple[str, ...] = ()) -> Quantity:
        """Return what a recipe comes to in the end, as it is written; 0 g where nothing of it can be read."""
        block = self.blocks.get(id)
        if block is None:
            return Quantity.of(0, "g")
        weights, parts = self.weights(id, path), self._parts(id, path)
        goes_in = [found for each, found in weights.items() if block.ingredients[each].growth in BEFORE_THE_END]
        last = [found for each, found in weights.items() if block.ingredients[each].growth is Growth.FINAL]
        whole = total([*goes_in, *([parts] if parts else [])])
        return total([whole * (1 - block.lost), *last])

    def _parts(self, id: str, path: tuple[str, ...]) -> Quantity | None:
        amounts = [found for part in self.parts(id) if (found := self.amount(part, (*path, id)))]
        return total(amounts) if amounts else None

    def ways(self, id: str, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
        """Yield every way down from a recipe, each to its end, or to where it meets itself or goes too deep."""
        way = (*path, id)
        below = [part.recipe for part in self.parts(id)]
        if id in path or len(way) > LEVELS or not below:
            yield way
            return
        for each in below:
            yield from self.ways(each, way)

    def check(self, id: str, block: RecipeFile) -> None:
        """Add what is wrong with what a recipe is made of."""
        for way in self.ways(id):
            if way[-1] == id and len(way) > 1:
                block.at.add(f"A circle: {' from '.join(way)}.", "Take one of these parts out.")
            elif len(way) > LEVELS:
                hint = "Write two of them as one recipe."
                block.at.add(f"More than {LEVELS} levels: {' from '.join(way)}.", hint)
        self._check_parts(block)
        for use in block.baths:
            if not self._is_bath(use.recipe, unread=True):
                use.at.add(f"{use.recipe} is no bath.", "Name a recipe with `bath`, or put it under `parts`.")

    def _check_parts(self, block: RecipeFile) -> None:
        named = [part.recipe for part in block.parts]
        for part in block.parts:
            if named.count(part.recipe) > 1:
                part.at.add(f"{part.recipe} stands twice under parts.", "Keep one, with all that goes in.")
            elif self._is_bath(part.recipe, unread=False):
                part.at.add(f"{part.recipe} is a bath.", "Name it under `baths`: nobody serves the pot.")

    def _is_bath(self, id: str, *, unread: bool) -> bool:
        """Return whether a recipe is a bath; of one that cannot be read, which is told already, what is asked for."""
        block = self.blocks.get(id)
        return unread if block is None else block.bath is not None


def check_ends(block: RecipeFile, code: Mapping[str, Limit]) -> tuple[RawEnd, ...]:
    """Return by which lines of the method what is raw no longer; an end that no law names is a problem."""
    found = []
    for end in block.ends:
        add = end.at.diagnostics.add
        if end.step is None or end.meets is None or not end.raw:
            continue
        known = [id for id in ENDS[end.raw] if id in code]
        if end.step.text not in block.method:
            end.at.unknown(end.step.line, "step", end.step.text, block.method)
        elif end.meets.text not in known:
            message = f"meets names {end.meets.text!r}, by which the code does not cook {end.raw}."
            add(end.meets.line, message, f"Name one of: {', '.join(known)}.")
        else:
            found.append(RawEnd(end.raw, end.step.text, end.meets.text))
    return tuple(found)


def check_ends_told(
    ends: tuple[RawEnd, ...], method: Mapping[str, Written], code: Mapping[str, Limit], diagnostics: Diagnostics
) -> None:
    """Add a problem where a line that ends what is raw does not tell the cook how hot, and for how long."""
    for end in ends:
        told = method.get(end.at)
        needed = [f"{{code.{id}}}" for id in (end.meets, f"{end.meets}_time") if id in code]
        if told is not None and any(brace not in told.text for brace in needed):
            message = f"{end.at} ends what is raw, and its words do not name {' and '.join(needed)}."
            diagnostics.add(told.line, message, "Tell the cook heat and seconds, by these braces.")


def composed(told: Mapping[str, Recipe], blocks: Mapping[str, RecipeFile | None], cards: Cards) -> dict[str, Recipe]:
    """Return recipes with their parts in them; one that misses a part is left out."""
    made: dict[str, Recipe | None] = {}

    def make(id: str, path: tuple[str, ...]) -> Recipe | None:
        if id in path:
            return None
        if id not in made:
            made[id] = _made(id, path)
        return made[id]

    def _made(id: str, path: tuple[str, ...]) -> Recipe | None:
        recipe, block = told.get(id), blocks.get(id)
        if recipe is None or block is None:
            return None
        parts = tuple(_part(part, make(part.recipe, (*path, id)), cards) for part in block.parts)
        baths = tuple(_use(use, make(use.recipe, (*path, id)), parts) for use in block.baths)
        if None in parts or None in baths:
            return None
        return replace(recipe, parts=tuple(p for p in parts if p), baths=tuple(b for b in baths if b))

    return {id: recipe for id in told if (recipe := make(id, ()))}


def _part(block: PartBlock, recipe: Recipe | None, cards: Cards) -> Part | None:
    much = cards.amount(block)
    return Part(recipe, much, block.unit) if recipe and much else None


def _use(block: BathUseBlock, recipe: Recipe | None, parts: tuple[Part | None, ...]) -> BathUse | None:
    if recipe is None or recipe.bath is None:
        return None
    bath: Bath = recipe.bath if block.takes is None else replace(recipe.bath, takes=block.takes)
    pieces = [part.pieces for part in parts if part and part.called == bath.takes.unit.symbol]
    return BathUse(recipe, bath, sum(pieces, Fraction(0)) or Fraction(1))
