"""The ingredients of a recipe: what goes in, what that weighs, and what is known of it here or in foods.yaml."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.foods import RAW, FoodBlock, SulphiteBlock
from trainer.content.kinds import Kind, Written
from trainer.content.lines import amount
from trainer.content.mapping_reader import MappingReader
from trainer.content.nodes import Node, ScalarNode
from trainer.content.shares import SHARE, is_weight, percent, weight
from trainer.kitchen.recipe import BEFORE_THE_END, Growth, Ingredient, total
from trainer.recipe_math.buying import Pack
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import Quantity, QuantityProblem

GROWS = ("mass", "volume", "count", SHARE)
OF_OTHERS = (Growth.FLOUR, Growth.FINAL)
"""What may be written as a share: of the flour, of what is there in the end."""
RATE = re.compile(r"(?P<weight>.+?) (?:an?|per) (?P<one>[A-Za-z].*)")
RATE_HINT = "Write the weight of all of it, 500 g, or of one: 50 g an egg, 244 g a cup."
AMOUNT_HINT = "Write a weight, a volume or a count: 7 lb, 2 qt, 10 eggs."
IN_FOOD = ("allergens", "edible", "water", "raw", "sulphites")


def amount_of_batch() -> Kind:
    """Return how much goes in: a weight, a volume or a count above nothing, or a share of the flour or of the end."""

    def check(found: Quantity, node: Node, name: str, at: MappingReader) -> Quantity | None:
        if found.amount <= 0:
            at.diagnostics.add(node.line, f"{name} is {found}.", "Write more than nothing, or take it out.")
        elif not found.unit.dimension.startswith(GROWS):
            at.diagnostics.add(node.line, f"{name} is {found}, which does not grow with a batch.", AMOUNT_HINT)
        else:
            return found
        return None

    return amount().then("weight, volume or count, 10 eggs; a share where it grows by the flour or the end", check)


def weight_or_rate() -> Kind:
    """Return what all of an ingredient weighs; or, as it is typed, what one of it does."""
    all_of_it = weight()

    def read(node: Node, name: str, at: MappingReader) -> Quantity | Written | None:
        if isinstance(node, ScalarNode) and RATE.fullmatch(node.value.strip()):
            return Written(node.line, name, node.value.strip())
        found: Quantity | None = all_of_it.read(node, name, at)
        return found

    return replace(all_of_it, written="weight of all, 500 g, or of one, 50 g an egg", read=read)


class IngredientBlock(Block):
    """One ingredient; what is not a weight says what it weighs."""

    named_by = "id"

    id: str = key(kinds.own_id())
    amount: Quantity | None = key(amount_of_batch(), "How much goes in.")
    grows: str = key(
        kinds.one_of([each.value for each in Growth]),
        "How it grows with the batch; a leavening, a bath's salt, a bay leaf and the like do it their own way.",
        default=Growth.BATCH.value,
    )
    food: str = optional(kinds.name_of("foods"), "What it is in every recipe; what stands there is not typed here.")
    weighs: Quantity | Written | None = optional(weight_or_rate(), "What it weighs.")
    flour: bool = key(kinds.yes_no(), "Whether it is flour.", default=False)
    water: Fraction | None = optional(percent(), "The share of it that is water: 76 %.")
    edible: Fraction | None = optional(percent(), "The share of it that is left once trimmed: 90 %.")
    allergens: tuple[str, ...] = optional(kinds.names_of("allergens"), "What is in it.")
    raw: str = optional(kinds.one_of(RAW), "What of it is raw and of animal origin.")
    sulphites: SulphiteBlock | None = optional(kinds.nested(SulphiteBlock), "How much sulphite is in it.")
    source: str = key(kinds.source(), "Who says so.", beside=("weighs", "water", "edible"))
    place: str = optional(kinds.text(), "Where.")

    @property
    def growth(self) -> Growth:
        """Return how it grows."""
        return Growth(self.grows) if self.grows else Growth.BATCH

    def check(self) -> None:
        """Add a problem for a share of nothing."""
        if self.amount is not None and self.amount.unit.dimension == SHARE and self.growth not in OF_OTHERS:
            message = f"amount is {self.amount}, which does not grow with a batch."
            self.at.diagnostics.add(self.at.lines["amount"], message, AMOUNT_HINT)

    def check_food(self, food: FoodBlock | None) -> None:
        """Add a problem for what is typed here and stands in foods.yaml: one home a number."""
        if food is None:
            return
        for name in IN_FOOD:
            if name in self.at.nodes and name in food.at.nodes:
                message = f"{name} of {self.id} stands in foods.yaml, under {self.food}."
                self.at.diagnostics.add(self.at.lines[name], message, "Take it out here, or there.")
        if food.measure and "weighs" in self.at.nodes:
            message = f"What {self.id} weighs follows from foods.yaml, under {self.food}."
            self.at.diagnostics.add(self.at.lines["weighs"], message, "Take weighs out.")

    def weight(self, food: FoodBlock | None = None) -> Quantity | None:
        """Return what all of it weighs; its amount where nothing else is written, None where that cannot be read."""
        if not isinstance(self.weighs, Written):
            if "weighs" in self.at.nodes:
                return self.weighs
            return food.weight(self.amount) or self.amount if food and self.amount else self.amount
        rate, add = RATE.fullmatch(self.weighs.text), self.at.diagnostics.add
        if rate is None:
            return None
        try:
            each, one = parse_quantity(rate["weight"], decimal_mark="."), parse_quantity(f"1 {rate['one']}")
            found = each * (self.amount / one) if self.amount else each
        except QuantityProblem as problem:
            add(self.weighs.line, f"weighs is {rate[0]!r}. {problem}", RATE_HINT)
            return None
        if not is_weight(found):
            add(self.weighs.line, f"weighs is {rate[0]!r}, not a weight.", RATE_HINT)
            return None
        return found

    def ingredient(
        self, names: tuple[str, str], weight: Quantity, food: FoodBlock | None, packs: tuple[Pack, ...]
    ) -> Ingredient | None:
        """Return the record, what stands in foods.yaml taken from there; its names are at the bench and on an order."""
        if self.amount is None:
            return None
        sulphites = self.sulphites or (food.sulphites if food else None)
        return Ingredient(
            id=self.id,
            name=names[0],
            bought_as=names[1],
            amount=weight if self.amount.unit.dimension == SHARE else self.amount,
            weight=weight,
            is_flour=self.flour,
            water_share=self.water or (food.water if food else None),
            edible_share=self.edible or (food.edible if food else None),
            allergens=self.allergens or (food.allergens if food else ()),
            source=self.source or (food.source if food else ""),
            packs=packs or (food.buying if food else ()),
            growth=self.growth,
            food=self.food,
            raw=self.raw or (food.raw if food else ""),
            sulphites=sulphites.sulphites() if sulphites else None,
            is_bought=food.bought if food else True,
        )


def weights_of(
    ingredients: Mapping[str, IngredientBlock], foods: Mapping[str, FoodBlock], others: Quantity | None, loss: Fraction
) -> dict[str, Quantity]:
    """Return what each ingredient weighs, shares worked out: of all flour, or of what is there in the end.

    *others* are the parts of the recipe. What cannot be known is left out, and is a problem.
    """
    found = {id: weight for id, each in ingredients.items() if (weight := _own_weight(each, foods))}
    flour = [found[id] for id, each in ingredients.items() if each.flour and id in found]
    for id, each in ingredients.items():
        if each.growth is Growth.FLOUR and not flour:
            each.at.add(f"{id} grows by the flour, and there is none.", "Mark the flour with `flour: yes`.")
        elif each.growth is Growth.FLOUR and (share := _share(each)):
            found[id] = total(flour) * share
    last = {id: share for id, each in ingredients.items() if each.growth is Growth.FINAL and (share := _share(each))}
    goes_in = [weight for id, weight in found.items() if ingredients[id].growth in BEFORE_THE_END]
    goes_in += [others] if others else []
    if last and goes_in and sum(last.values()) < 1:
        end = total(goes_in) * (1 - loss) / (1 - sum(last.values()))
        found |= {id: end * share for id, share in last.items()}
    return {id: found[id] for id in ingredients if id in found}


def _share(ingredient: IngredientBlock) -> Fraction | None:
    """Return the share an ingredient is written as; None for a weight, a volume or a count."""
    amount = ingredient.amount
    return amount.base if amount is not None and amount.unit.dimension == SHARE else None


def _own_weight(ingredient: IngredientBlock, foods: Mapping[str, FoodBlock]) -> Quantity | None:
    """Return what all of an ingredient weighs, which must be known, since a batch is portioned by weight."""
    if ingredient.amount is None or _share(ingredient):
        return None
    weight = ingredient.weight(foods.get(ingredient.food)) or ingredient.amount
    if is_weight(weight):
        return weight
    hint = f"Add `weighs:` with what {ingredient.amount} weigh together, and its source."
    ingredient.at.add(f"{ingredient.id} is {ingredient.amount}, which has no weight.", hint)
    return None
