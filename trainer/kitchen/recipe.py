"""A recipe as the kitchen writes it down, and the batch of it for tonight: exact weights, percentages, what to buy."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from math import ceil, floor

from trainer.kitchen.technique import Hazard
from trainer.messages import message
from trainer.recipe_math.buying import Pack, PackOrder, amount_to_buy, ordered_in, packs_to_buy
from trainer.recipe_math.dough import Liquid, bakers_percentages, hydration
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.rounding import up_to
from trainer.recipe_math.scaling import factor_by_yield, scaled

MOST_PORTIONS = 20_000
COUNT = "count"
START_OF_TASTE = Fraction(3, 4)
"""How much of a seasoning goes in before the first taste (common practice; no law for spice was found)."""


class Growth(StrEnum):
    """How an ingredient grows when a batch does.

    With the batch, or with its flour (leavening, the salt of a dough); a bath's by the fill, what covers the floor of a
    pan by the pan, the salt of a reduction by what is left at the end; a seasoning is begun with three quarters and
    tasted; a bay leaf is whole.
    """

    BATCH = "with_batch"
    BATH = "with_bath"
    AREA = "with_area"
    FINAL = "with_final"
    FLOUR = "by_flour"
    TASTE = "to_taste"
    WHOLE = "whole"


BEFORE_THE_END = (Growth.BATCH, Growth.FLOUR, Growth.TASTE)
"""What goes in at the start and is on the plate in the end, less what is lost."""
PORTIONED = (*BEFORE_THE_END, Growth.FINAL)
"""What is on the plate in the end, so that portions are counted by it; water of a bath is poured off."""


@dataclass(frozen=True, slots=True)
class Bath:
    """How a pot of water is used: how much goes in at one time, and how many such batches one fill lasts."""

    takes: Quantity
    batches: Quantity

    def fills_for(self, portions: Fraction | int) -> int:
        """Return how many times the pot is filled for so many portions.

        >>> Bath(Quantity.of(6, "nest"), Quantity.of(7, "batch")).fills_for(43)
        2
        """
        return ceil(self.batches_for(portions) / self.batches.base)

    def batches_for(self, portions: Fraction | int) -> int:
        """Return in how many batches so many portions go in."""
        return ceil(portions / self.takes.base)


@dataclass(frozen=True, slots=True)
class Sulphites:
    """How much sulphite a kilogram holds, in milligrams, from the least to the most the law or the label lets in."""

    least: Fraction
    most: Fraction


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of a recipe: the amount as written, what it weighs ready to use, and what is known of it.

    `water_share` is what of it is water, for liquids of a dough; `edible_share` what is left of it once trimmed.
    `source` says where weight, water and trim come from; empty where the amount is all there is to know. `packs` are
    what it is bought in, the smallest first, where it is not bought by weight. `food` is what it is in every recipe
    that has it; `raw` says what of it is raw and animal (egg, meat ...). What runs from the tap is not `is_bought`;
    `bought_as` is its name on an order, where that is another one (with skin on).
    """

    id: str
    name: str
    amount: Quantity
    weight: Quantity
    is_flour: bool = False
    water_share: Fraction | None = None
    edible_share: Fraction | None = None
    allergens: tuple[str, ...] = ()
    source: str = ""
    packs: tuple[Pack, ...] = ()
    growth: Growth = Growth.BATCH
    food: str = ""
    raw: str = ""
    sulphites: Sulphites | None = None
    is_bought: bool = True
    bought_as: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A recipe that goes into another: how much of it, ready, and what it is called there (nest)."""

    recipe: Recipe
    amount: Quantity
    called: str = ""

    @property
    def pieces(self) -> Fraction:
        """Return how many portions of the part's own recipe that is: one nest a plate."""
        return self.amount / self.recipe.portion


@dataclass(frozen=True, slots=True)
class BathUse:
    """The pot a dish is cooked in: how much goes in at one time, and how many of that one portion of the dish has."""

    recipe: Recipe
    bath: Bath
    each: Fraction = Fraction(1)


@dataclass(frozen=True, slots=True)
class RawEnd:
    """The line of the method by which something is no longer raw: the limit of the code it meets."""

    raw: str
    at: str
    meets: str


@dataclass(frozen=True, slots=True)
class Recipe:
    """A recipe: what goes in, what one portion weighs, what share of a batch is lost, how it is made.

    `loss_text` says in words what is lost; `source` is where the amounts come from, or house. A recipe with a `bath` is
    a pot that many portions share: it does not grow with the guests, it is filled again. `parts` are recipes of their
    own; `ends` says what is raw in it no longer. It `keeps` so many days, and is begun so long before it is ready.
    """

    id: str
    title: str
    makes: str
    portion: Quantity
    portion_source: str
    loss: Fraction
    loss_text: str
    ingredients: tuple[Ingredient, ...]
    method: tuple[str, ...]
    hazards: tuple[Hazard, ...]
    techniques: tuple[str, ...]
    source: str
    words_edition: str = "en"
    bath: Bath | None = None
    parts: tuple[Part, ...] = ()
    baths: tuple[BathUse, ...] = ()
    ends: tuple[RawEnd, ...] = ()
    keeps: Quantity | None = None
    ready_in: Quantity | None = None

    @property
    def weight(self) -> Quantity:
        """Return what goes in weighs together, in the unit of the first; of a pot or a pan what stays there too."""
        weights = [line.weight for line in self.ingredients if self.bath or line.growth in PORTIONED]
        return total([*weights, *(part.amount for part in self.parts)])

    @property
    def finished(self) -> Quantity:
        """Return what is there in the end: the loss is of all but what is weighed in last."""
        last = [line.weight for line in self.ingredients if line.growth is Growth.FINAL]
        return total(
            [(self.weight - total(last)) * (1 - self.loss), *last] if last else [self.weight * (1 - self.loss)]
        )

    @property
    def allergens(self) -> tuple[str, ...]:
        """Return the allergens of all that goes in, each once, in the order they come; of parts as well."""
        own = [name for line in self.ingredients for name in line.allergens]
        carried = [name for part in self.parts for name in part.recipe.allergens]
        return tuple(dict.fromkeys([*carried, *own, *(name for use in self.baths for name in use.recipe.allergens)]))

    @property
    def portions(self) -> int:
        """Return how many full portions the recipe makes as it is written."""
        return floor(self.finished / self.portion)


@dataclass(frozen=True, slots=True)
class BatchLine:
    """One ingredient of a batch: amount and weight, its percentage of the flour (doughs only), and what to buy.

    `order` says in which packs, and what is left of them; None where it is not bought in packs.
    """

    ingredient: Ingredient
    amount: Quantity
    weight: Quantity
    percentage: Fraction | None
    to_buy: Quantity
    order: PackOrder | None = None

    @property
    def over(self) -> Quantity | None:
        """Return what is left of whole packs."""
        return self.order.over if self.order else None

    @property
    def start(self) -> Quantity | None:
        """Return how much goes in before the first taste; None for what is no seasoning."""
        return self.weight * START_OF_TASTE if self.ingredient.growth is Growth.TASTE else None


@dataclass(frozen=True, slots=True)
class PartLine:
    """A part of a batch: how much of it is needed, ready, and the batch that gives it."""

    part: Part
    needed: Quantity
    batch: Batch


@dataclass(frozen=True, slots=True)
class Batch:
    """A recipe made larger or smaller for so many portions; `hydration` and `flour` are there for doughs only.

    Of a bath the lines are those of one fill, and `fills` says how many; else it is none.
    """

    recipe: Recipe
    portions: int
    factor: Fraction
    weight: Quantity
    lines: tuple[BatchLine, ...]
    flour: Quantity | None
    hydration: Fraction | None
    fills: int | None = None
    parts: tuple[PartLine, ...] = ()


def total(weights: Iterable[Quantity]) -> Quantity:
    """Return what some weights come to, in the unit of the first; nothing at all is 0 g.

    >>> print(total([Quantity.of(1, "lb"), Quantity.of(8, "oz")]))
    1.5 lb
    """
    first, *others = [*weights] or [Quantity.of(0, "g")]
    return sum(others, first)


def portions_for(guests: int, percent_who_take_it: Fraction = Fraction(100)) -> int:
    """Return how many portions to make for so many guests of whom a part takes the dish: rounded up.

    At least one guest; the part is above 0 and at most 100 in the hundred (QuantityProblem).

    >>> portions_for(64, Fraction(45))
    29
    """
    if guests < 1:
        raise QuantityProblem(message("{guests} guests need no batch: give at least one.", guests=guests))
    if not 0 < percent_who_take_it <= 100:
        raise QuantityProblem(f"{percent_who_take_it} in a hundred is not possible: above 0 and at most 100.")
    return ceil(guests * percent_who_take_it / 100)


def batch_of(recipe: Recipe, portions: int) -> Batch:
    """Return the batch that gives so many full portions after the loss, every amount exact: round where it is shown.

    From one portion to 20,000 (QuantityProblem). The factor is the batch wanted over the batch as written; counted
    things are bought whole, trimmed things as purchased. A bath stays as it is written; `fills` says how often.
    """
    if not 1 <= portions <= MOST_PORTIONS:
        raise QuantityProblem(
            message("{portions} portions is no batch: from 1 to {most}.", portions=portions, most=MOST_PORTIONS)
        )
    if recipe.bath:
        return replace(_batch(recipe, portions, Fraction(1)), fills=recipe.bath.fills_for(portions))
    return _batch(recipe, portions, factor_by_yield(recipe.finished, recipe.portion * portions))


def batch_weighing(recipe: Recipe, ready: Quantity) -> Batch:
    """Return the batch that gives so much of a recipe after its loss: what a plate needs of its part.

    40 plates of 1.5 oz are 60 oz ready; with 4 % lost, 62.5 oz go into the bowl.
    """
    return _batch(recipe, ceil(ready / recipe.portion), factor_by_yield(recipe.finished, ready))


def as_written(recipe: Recipe) -> Batch:
    """Return the recipe as it stands, every amount as the card has it, with the full portions it gives."""
    return replace(_batch(recipe, recipe.portions, Fraction(1)), fills=1 if recipe.bath else None)


def _batch(recipe: Recipe, portions: int, factor: Fraction) -> Batch:
    percentages = _percentages(recipe)
    flour = _flour(recipe)
    return Batch(
        recipe=recipe,
        portions=portions,
        factor=factor,
        weight=scaled(recipe.weight, factor),
        lines=tuple(_line(line, _times(line, recipe, factor), percentages.get(line.id)) for line in recipe.ingredients),
        flour=scaled(flour, factor) if flour else None,
        hydration=_hydration(recipe, flour) if flour else None,
        parts=tuple(_part_line(part, factor) for part in recipe.parts),
    )


def _part_line(part: Part, factor: Fraction) -> PartLine:
    needed = scaled(part.amount, factor)
    return PartLine(part, needed, batch_weighing(part.recipe, needed))


def _times(line: Ingredient, recipe: Recipe, factor: Fraction) -> Fraction:
    """Return how many times the amount of an ingredient goes into a batch so many times the recipe."""
    if line.growth is Growth.WHOLE:
        return max(1, floor(line.amount.amount * factor + Fraction(1, 2))) / line.amount.amount
    if line.growth is Growth.AREA:
        return Fraction(ceil(factor))
    if line.growth is Growth.BATH and recipe.baths:
        use = recipe.baths[0]
        return Fraction(use.bath.fills_for(use.each * recipe.portions * factor))
    return factor


def _line(line: Ingredient, factor: Fraction, percentage: Fraction | None) -> BatchLine:
    amount, weight = scaled(line.amount, factor), scaled(line.weight, factor)
    needed = in_packs(line, amount, weight)
    if needed is None:
        return BatchLine(line, amount, weight, percentage, _to_buy(line, amount))
    order, smallest = ordered_in(needed, line.packs), line.packs[0]
    if needed.unit.dimension.startswith(COUNT):
        return BatchLine(line, amount, weight, percentage, _to_buy(line, amount), order)
    in_smallest = Quantity.of(packs_to_buy(needed, smallest.holds), smallest.unit)
    return BatchLine(line, amount, weight, percentage, in_smallest, order)


def in_packs(line: Ingredient, amount: Quantity, weight: Quantity) -> Quantity | None:
    """Return what is needed as purchased, by what its packs hold: a weight, or a count; None without such packs."""
    held = line.packs[0].holds.unit.dimension if line.packs else ""
    found = next((much for much in (weight, amount) if much.unit.dimension == held), None)
    return amount_to_buy(found, line.edible_share or Fraction(1)) if found else None


def _to_buy(line: Ingredient, amount: Quantity) -> Quantity:
    needed = amount_to_buy(amount, line.edible_share or Fraction(1))
    return Quantity(up_to(needed.amount), needed.unit) if needed.unit.dimension.startswith(COUNT) else needed


def _flour(recipe: Recipe) -> Quantity | None:
    flours = [line.weight for line in recipe.ingredients if line.is_flour]
    return sum(flours[1:], flours[0]) if flours else None


def _percentages(recipe: Recipe) -> dict[str, Fraction]:
    """Return baker's percentages; nothing where there is no flour."""
    flours = [line.id for line in recipe.ingredients if line.is_flour]
    return bakers_percentages({line.id: line.weight for line in recipe.ingredients}, flours) if flours else {}


def _hydration(recipe: Recipe, flour: Quantity) -> Fraction:
    liquids = [Liquid(line.weight, line.water_share) for line in recipe.ingredients if line.water_share is not None]
    return hydration(flour, liquids)
