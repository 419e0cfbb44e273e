"""A recipe as the kitchen writes it down, and the batch of it for tonight: exact weights, percentages, what to buy."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from trainer.kitchen.technique import Hazard
from trainer.messages import message
from trainer.recipe_math.buying import amount_to_buy, order_line
from trainer.recipe_math.dough import Liquid, bakers_percentages, hydration
from trainer.recipe_math.portions import batch_for, portions_from
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.rounding import up_to
from trainer.recipe_math.scaling import factor_by_yield, scaled

MOST_PORTIONS = 20_000
COUNT = "count"


@dataclass(frozen=True, slots=True)
class Pack:
    """What an ingredient is bought in, whole: the name of the unit (carton) and what one holds."""

    unit: str
    holds: Quantity


@dataclass(frozen=True, slots=True)
class Bath:
    """How a pot of water is used: how much goes in at one time, and how many such batches one fill lasts."""

    takes: Quantity
    batches: Quantity

    def fills_for(self, portions: int) -> int:
        """Return how many times the pot is filled for so many portions.

        >>> Bath(Quantity.of(6, "nest"), Quantity.of(7, "batch")).fills_for(43)
        2
        """
        return ceil(self.batches_for(portions) / self.batches.base)

    def batches_for(self, portions: int) -> int:
        """Return in how many batches so many portions go in."""
        return ceil(portions / self.takes.base)


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of a recipe: the amount as written, what it weighs ready to use, and what is known of it.

    `water_share` is what of it is water, for liquids of a dough; `edible_share` what is left of it once trimmed.
    `source` says where weight, water and trim come from; empty where the amount is all there is to know. `pack` is what
    it is bought in, where it is not bought by weight.
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
    pack: Pack | None = None


@dataclass(frozen=True, slots=True)
class Recipe:
    """A recipe: what goes in, what one portion weighs, what share of a batch is lost, how it is made.

    `loss_text` says in words what is lost; `source` is where the amounts come from, or house. A recipe with a `bath` is
    a pot that many portions share: it does not grow with the guests, it is filled again.
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

    @property
    def weight(self) -> Quantity:
        """Return what all ingredients weigh together, in the unit of the first."""
        weights = [line.weight for line in self.ingredients]
        return sum(weights[1:], weights[0])

    @property
    def allergens(self) -> tuple[str, ...]:
        """Return the allergens of all ingredients, each once, in the order they come."""
        return tuple(dict.fromkeys(name for line in self.ingredients for name in line.allergens))

    @property
    def portions(self) -> int:
        """Return how many full portions the recipe makes as it is written."""
        return portions_from(self.weight, self.portion, self.loss)


@dataclass(frozen=True, slots=True)
class BatchLine:
    """One ingredient of a batch: amount and weight, its percentage of the flour (doughs only), and what to buy.

    `over` is what is left of whole packs; None where it is not bought in packs.
    """

    ingredient: Ingredient
    amount: Quantity
    weight: Quantity
    percentage: Fraction | None
    to_buy: Quantity
    over: Quantity | None = None


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
    whole = batch_for(portions, recipe.portion, recipe.loss).to(recipe.weight.unit)
    return _batch(recipe, portions, factor_by_yield(recipe.weight, whole))


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
        lines=tuple(_line(line, factor, percentages.get(line.id)) for line in recipe.ingredients),
        flour=scaled(flour, factor) if flour else None,
        hydration=_hydration(recipe, flour) if flour else None,
    )


def _line(line: Ingredient, factor: Fraction, percentage: Fraction | None) -> BatchLine:
    amount, weight = scaled(line.amount, factor), scaled(line.weight, factor)
    if line.pack is None:
        return BatchLine(line, amount, weight, percentage, _to_buy(line, amount))
    order = order_line(weight, line.edible_share or Fraction(1), line.pack.holds)
    packs = Quantity.of(order.packs, line.pack.unit)
    return BatchLine(line, amount, weight, percentage, packs, order.left_over)


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
