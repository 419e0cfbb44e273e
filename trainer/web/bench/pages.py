"""The workbench: recipes worked out for tonight, and the sums of tempering, cooling and portions. Nothing is saved."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from flask import Blueprint, Response, abort

from trainer.kitchen.recipe import Batch, BatchLine, Recipe, as_written, batch_of, portions_for
from trainer.kitchen.roll_up import allergens_named, sulphites_of
from trainer.kitchen.technique import Hazard, Source, Technique
from trainer.messages import Text, joined, message
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.web import guard, reading
from trainer.web.bench import bakeware, cooling, dough, holds, measures, portions, reduction, tempering, tonight
from trainer.web.bench.carried import made_with, titles_of
from trainer.web.bench.fields import PercentField
from trainer.web.bench.words import both, number, roughly, sides
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost, WholeField

pages = Blueprint("bench", __name__)
for part in (tonight, tempering, cooling, holds, portions, dough, bakeware, measures, reduction):
    pages.register_blueprint(part.pages)


@dataclass(frozen=True, slots=True)
class IngredientRow:
    """One ingredient as it is weighed out: both systems, the measure as a card says it, part of the flour, to buy.

    `packed` says what a pack holds and what is left over; empty where it is not bought in packs.
    """

    name: str
    weight: Text
    weight_too: Text
    measure: Text
    percentage: str
    to_buy: Text
    to_buy_too: Text
    is_trimmed: bool
    is_bought_otherwise: bool
    packed: Text
    allergens: str


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part of a plate: what it is, and how much of it is ready, in both systems."""

    name: str
    weight: Text
    weight_too: Text


@dataclass(frozen=True, slots=True)
class PotTold:
    """How a pot of water is used tonight: how often it is filled, what goes in at one time, how long a fill lasts."""

    fills: int
    at_once: Text
    batches: Text
    lasts: Text


@dataclass(frozen=True, slots=True)
class Tonight:
    """A batch as it is printed: what it makes, and its rows; `pot` is there for a bath."""

    portions: int
    weight: Text
    portion: Text
    factor: str
    hydration: str
    flour: Text
    rows: tuple[IngredientRow, ...]
    pot: PotTold | None = None
    parts: tuple[PartRow, ...] = ()

    @property
    def buying(self) -> tuple[IngredientRow, ...]:
        """Return the rows that are bought in another amount than they are weighed: trimmed or counted."""
        return tuple(row for row in self.rows if row.is_bought_otherwise)


@dataclass(frozen=True, kw_only=True)
class ToolsPage(Page):
    """What lies on the workbench: the recipes, and the sums."""

    template: ClassVar[str] = "bench/tools.html"
    recipes: tuple[Recipe, ...]


@dataclass(frozen=True, kw_only=True)
class BatchPage(Page):
    """One recipe for so many portions; a sheet to print with boxes to tick."""

    template: ClassVar[str] = "bench/batch.html"
    recipe: Recipe
    form: BatchForm
    tonight: Tonight | None
    is_as_written: bool
    asked: Text
    allergens: tuple[str, ...]
    made_with: Text
    hazards: tuple[Hazard, ...]
    techniques: tuple[Technique, ...]
    sources: tuple[Source, ...]
    loss: str


class BatchForm(SumForm):
    """For how many: portions, or guests and how many in a hundred of them take the dish."""

    portions = WholeField(message("Portions"), [AtMost(20)])
    guests = WholeField(message("Or guests tonight"), [AtMost(20)])
    share = PercentField(message("Of 100 guests, how many take it"), [AtMost(20)])

    def is_asked_for(self) -> bool:
        """Return whether portions or guests are typed; else the recipe is shown as it is written."""
        return bool(self.portions.data or self.guests.data)

    def wanted(self) -> int | None:
        """Return the portions asked for; None, with the reason put at a field, where they cannot be made out."""
        if self.portions.number is not None and self.guests.number is not None:
            self.put(
                "guests",
                message(
                    "{portions} portions and {guests} guests were typed. Give one of the two.",
                    portions=self.portions.number,
                    guests=self.guests.number,
                ),
            )
            return None
        if self.guests.number is not None:
            return self._for_guests(self.guests.number)
        return self.portions.number

    def _for_guests(self, guests: int) -> int | None:
        share = Fraction(100) if self.share.number is None else Fraction(self.share.number)
        try:
            return portions_for(guests, share)
        except QuantityProblem as problem:
            self.put("guests", problem.reason)
            return None


@pages.get("/bench")
@guard.needs("person")
def tools() -> Response:
    """Show what lies on the workbench."""
    return show(ToolsPage(title=message("Workbench"), recipes=tuple(reading.content().recipes.values())))


@pages.get("/bench/batch/<recipe>")
@guard.needs("person")
def batch(recipe: str) -> Response:
    """Show a recipe worked out for so many portions; as it is written where none are asked for."""
    content = reading.content()
    found = content.recipes.get(recipe)
    if found is None:
        abort(404, message("There is no recipe '{recipe}' in this kitchen.", recipe=recipe))
    form = BatchForm()
    made, summed = _batch(found, form), sulphites_of(found)
    named = dict.fromkeys([found.source, found.portion_source, *(line.source for line in found.ingredients)])
    page = BatchPage(
        title=found.title,
        recipe=found,
        form=form,
        tonight=_tonight(made) if made else None,
        is_as_written=not form.is_asked_for(),
        asked=_asked(form),
        allergens=titles_of(allergens_named(found)),
        made_with=made_with(summed) if summed else "",
        hazards=found.hazards,
        techniques=tuple(content.techniques[name] for name in found.techniques if name in content.techniques),
        sources=tuple(content.sources[name] for name in named if name in content.sources),
        loss=f"{number(found.loss * 100)} %",
    )
    return show(page)


def _batch(recipe: Recipe, form: BatchForm) -> Batch | None:
    if not form.validate():
        return None
    if not form.is_asked_for():
        return as_written(recipe)
    wanted = form.wanted()
    if wanted is None:
        return None
    try:
        return batch_of(recipe, wanted)
    except QuantityProblem as problem:
        form.put("portions" if form.guests.number is None else "guests", problem.reason)
        return None


def _asked(form: BatchForm) -> Text:
    """Return how guests became portions, in words; empty where portions were typed."""
    if form.guests.number is None:
        return ""
    guests = form.guests.number
    if form.share.number is None:
        return message("For {guests} guests, one portion each.", guests=guests)
    return message("For {guests} guests, of whom {share} in 100 take it.", guests=guests, share=form.share.data)


def _tonight(made: Batch) -> Tonight:
    return Tonight(
        portions=made.portions,
        weight=both(made.weight),
        portion=both(made.recipe.portion),
        factor=number(made.factor, 3),
        hydration="" if made.hydration is None else number(made.hydration),
        flour="" if made.flour is None else both(made.flour),
        rows=tuple(_row(line) for line in made.lines),
        pot=_pot(made),
        parts=tuple(PartRow(part.part.recipe.title, *sides(part.needed)) for part in made.parts),
    )


def _pot(made: Batch) -> PotTold | None:
    """Return how a pot of water is used for these portions; None for what is no bath."""
    bath = made.recipe.bath
    if bath is None or made.fills is None:
        return None
    batches = Quantity.of(bath.batches_for(made.portions), bath.batches.unit.symbol)
    return PotTold(made.fills, both(bath.takes), both(batches), both(bath.batches))


def _row(line: BatchLine) -> IngredientRow:
    (weight, weight_too), (to_buy, to_buy_too) = sides(line.weight), sides(line.to_buy)
    ingredient = line.ingredient
    return IngredientRow(
        name=ingredient.name,
        weight=weight,
        weight_too=weight_too,
        measure=_measure(line),
        percentage="" if line.percentage is None else number(line.percentage),
        to_buy=to_buy,
        to_buy_too=to_buy_too if to_buy_too != to_buy else "",
        is_trimmed=ingredient.edible_share is not None,
        is_bought_otherwise=ingredient.edible_share is not None or _is_counted(line) or line.order is not None,
        packed=_packed(line),
        allergens=", ".join(title.split(" (")[0].lower() for title in titles_of(ingredient.allergens)),
    )


def _packed(line: BatchLine) -> Text:
    """Return what one pack holds and what is left over of all of them; empty where it is not bought in packs."""
    if line.order is None:
        return ""
    holds = joined([both(pack.holds) for _, pack in line.order.packs], ", ")
    return message("of {holds}; {over} left over", holds=holds, over=both(line.order.over))


def _measure(line: BatchLine) -> Text:
    """Return the measure a card gives where it is no weight: from so many eggs, about so many quarts."""
    if line.start is not None:
        return message("begin with {start}, taste, and write down what it took", start=both(line.start))
    if _is_counted(line):
        return message("from {amount}", amount=both(line.to_buy))
    return message("about {amount}", amount=roughly(line.amount)) if line.amount.unit.dimension == "volume" else ""


def _is_counted(line: BatchLine) -> bool:
    return line.amount.unit.dimension.startswith("count")
