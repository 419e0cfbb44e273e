"""What the kitchen makes tonight: all dishes together, each part once, one order, and what to begin first.

Needs are added up from the plates down, each level's loss made up for there; what is bought is added up over all of it
and rounded up once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from trainer.kitchen.recipe import (
    COUNT,
    MOST_PORTIONS,
    Batch,
    BatchLine,
    BathUse,
    Ingredient,
    Recipe,
    as_written,
    batch_weighing,
    in_packs,
    total,
)
from trainer.messages import message
from trainer.recipe_math.buying import PackOrder, amount_to_buy, ordered_in
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.rounding import up_to

VOLUME = "volume"
LEAST_POURED = Quantity.of(1, "fl oz")


@dataclass(frozen=True, slots=True)
class Wanted:
    """A dish of tonight, and how many portions of it."""

    recipe: Recipe
    portions: int


@dataclass(frozen=True, slots=True)
class Prep:
    """One recipe as it is made tonight, once for all that it goes into, and how long before service it is begun.

    `ready` is how much of it there must be after its loss; `feeds` are the titles of what it goes into.
    """

    recipe: Recipe
    ready: Quantity
    batch: Batch
    before: Quantity
    feeds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pot:
    """A bath of tonight: what goes in at one time, in how many batches, how often it is filled, what one fill is.

    `held` are the allergens of what is cooked in it: from the first batch on they are in the water too.
    """

    recipe: Recipe
    at_once: Quantity
    batches: int
    fills: int
    fill: Batch
    held: tuple[str, ...]
    before: Quantity


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One thing to buy, as purchased, for all dishes together; in which packs, and what is over of them."""

    ingredient: Ingredient
    needed: Quantity
    order: PackOrder | None

    @property
    def name(self) -> str:
        """Return what it is called on an order."""
        return self.ingredient.bought_as or self.ingredient.name


@dataclass(frozen=True, slots=True)
class Production:
    """All that is made tonight: dishes, what to prepare in the order of time, pots, and what to buy."""

    dishes: tuple[Wanted, ...]
    preps: tuple[Prep, ...]
    pots: tuple[Pot, ...]
    order: tuple[OrderRow, ...]


def production_of(dishes: Sequence[Wanted]) -> Production:
    """Return what these dishes come to. A dish for fewer than one or more than 20,000 is refused (QuantityProblem)."""
    for dish in dishes:
        if not 1 <= dish.portions <= MOST_PORTIONS:
            raise QuantityProblem(
                message(
                    "{portions} portions is no batch: from 1 to {most}.", portions=dish.portions, most=MOST_PORTIONS
                )
            )
    served = [dish for dish in dishes if dish.recipe.bath is None]
    needs = _needs(served)
    batches = {id: batch_weighing(recipe, ready) for id, (recipe, ready) in needs.items()}
    pots = tuple(_pots(needs, dishes))
    return Production(tuple(dishes), tuple(_preps(needs, batches)), pots, tuple(_order(_lines(batches, pots))))


def _needs(dishes: Iterable[Wanted]) -> dict[str, tuple[Recipe, Quantity]]:
    """Return how much of each recipe must be ready, plates before what goes into them."""
    recipes: dict[str, Recipe] = {}
    for dish in dishes:
        recipes |= {recipe.id: recipe for recipe in _with_parts(dish.recipe)}
    ready = {dish.recipe.id: Quantity.of(0, "g") for dish in dishes}
    for dish in dishes:
        ready[dish.recipe.id] = ready[dish.recipe.id] + dish.recipe.portion * dish.portions
    for recipe in sorted(recipes.values(), key=_height, reverse=True):
        factor = ready[recipe.id] / recipe.finished
        for part in recipe.parts:
            id = part.recipe.id
            ready[id] = part.amount * factor + ready.get(id, Quantity.of(0, "g"))
    return {id: (recipes[id], much) for id, much in ready.items()}


def _with_parts(recipe: Recipe) -> Iterator[Recipe]:
    yield recipe
    for part in recipe.parts:
        yield from _with_parts(part.recipe)


def _height(recipe: Recipe) -> int:
    """Return how many levels stand below a recipe: none below what is made of things bought."""
    return max((_height(part.recipe) + 1 for part in recipe.parts), default=0)


def _preps(needs: Mapping[str, tuple[Recipe, Quantity]], batches: Mapping[str, Batch]) -> list[Prep]:
    """Return what is made, what is begun first on top; of what is begun together, parts before what they go into."""
    users = {id: [other for other, _ in needs.values() if any(p.recipe.id == id for p in other.parts)] for id in needs}

    def before(recipe: Recipe) -> Fraction:
        own = recipe.ready_in.base if recipe.ready_in else Fraction(0)
        return own + max((before(user) for user in users[recipe.id]), default=Fraction(0))

    found = [
        Prep(recipe, ready, batches[id], Quantity.of(before(recipe), "s"), tuple(user.title for user in users[id]))
        for id, (recipe, ready) in needs.items()
    ]
    return sorted(found, key=lambda prep: (-prep.before.base, _height(prep.recipe)))


@dataclass
class _Use:
    """A pot while it is counted: how it is used, how many pieces go in, and what these have in them."""

    use: BathUse
    pieces: Fraction = Fraction(0)
    held: tuple[str, ...] = ()

    def pot(self) -> Pot:
        """Return the pot for all pieces."""
        bath = self.use.bath
        batches = bath.batches_for(self.pieces)
        fills = ceil(batches / bath.batches.base)
        before = self.use.recipe.ready_in or Quantity.of(0, "s")
        held = tuple(dict.fromkeys(self.held))
        return Pot(self.use.recipe, bath.takes, batches, fills, as_written(self.use.recipe), held, before)


def _pots(needs: Mapping[str, tuple[Recipe, Quantity]], asked: Sequence[Wanted]) -> list[Pot]:
    """Return the pots of tonight; what goes into one by the same number at a time is counted together."""
    found: dict[tuple[str, Quantity], _Use] = {}
    for recipe, ready in needs.values():
        for use in recipe.baths:
            counted = found.setdefault((use.recipe.id, use.bath.takes), _Use(use))
            counted.pieces += use.each * (ready / recipe.portion)
            goes_in = [part.recipe for part in recipe.parts if part.called == use.bath.takes.unit.symbol] or [recipe]
            counted.held += tuple(name for each in goes_in for name in each.allergens)
    for dish in asked:
        if dish.recipe.bath is not None:
            use = BathUse(dish.recipe, dish.recipe.bath)
            found.setdefault((dish.recipe.id, use.bath.takes), _Use(use)).pieces += dish.portions
    return [counted.pot() for counted in found.values()]


def _lines(batches: Mapping[str, Batch], pots: Iterable[Pot]) -> Iterator[tuple[str, Ingredient, Quantity, Quantity]]:
    """Yield every ingredient that is bought, under what makes it the same thing, with its amount and its weight."""
    found: list[tuple[Recipe, BatchLine, int]] = [(b.recipe, line, 1) for b in batches.values() for line in b.lines]
    found += [(pot.recipe, line, pot.fills) for pot in pots for line in pot.fill.lines]
    for recipe, line, times in found:
        if line.ingredient.is_bought:
            key = line.ingredient.food or f"{recipe.id}.{line.ingredient.id}"
            yield key, line.ingredient, line.amount * times, line.weight * times


def _order(lines: Iterable[tuple[str, Ingredient, Quantity, Quantity]]) -> Iterator[OrderRow]:
    """Yield what to buy: needs added up as purchased, then packs, rounded up once."""
    by_key: dict[str, list[tuple[Ingredient, Quantity, Quantity]]] = {}
    for key, ingredient, amount, weight in lines:
        by_key.setdefault(key, []).append((ingredient, amount, weight))
    for group in by_key.values():
        first = group[0][0]
        packed = [in_packs(*each) for each in group]
        if first.packs and None not in packed:
            needed = _whole(total(much for much in packed if much is not None))
            yield OrderRow(first, needed, ordered_in(needed, first.packs))
        else:
            yield OrderRow(first, _whole(total(_as_purchased(group))), None)


def _as_purchased(group: Sequence[tuple[Ingredient, Quantity, Quantity]]) -> list[Quantity]:
    """Return the needs of one thing in one kind of measure: counted or poured where all of them are, else weighed.

    A spoon of something is weighed: nobody orders by the spoon.
    """
    shares = [line.edible_share or Fraction(1) for line, _, _ in group]
    written = [amount_to_buy(amount, share) for (_, amount, _), share in zip(group, shares, strict=True)]
    kinds = {much.unit.dimension for much in written}
    if len(kinds) == 1 and (kinds == {VOLUME} or kinds.pop().startswith(COUNT)):
        much = total(written)
        if much.unit.dimension != VOLUME or much >= LEAST_POURED:
            return written
    return [amount_to_buy(weight, share) for (_, _, weight), share in zip(group, shares, strict=True)]


def _whole(needed: Quantity) -> Quantity:
    """Return what is counted rounded up to a whole number; a weight or a volume as it is, to be rounded where shown."""
    is_counted = needed.unit.dimension.startswith(COUNT)
    return Quantity(up_to(needed.amount), needed.unit) if is_counted else needed
