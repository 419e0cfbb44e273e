"""The workbench's sheet for tonight: all dishes together, what to begin first, one order, what each has in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response

from trainer.kitchen.production import OrderRow, Pot, Prep, Production, Wanted, production_of
from trainer.kitchen.recipe import BatchLine
from trainer.kitchen.technique import Hazard
from trainer.messages import Text, joined, message
from trainer.recipe_math.estimates import hours_text
from trainer.recipe_math.order_text import on_order
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.web import guard, reading
from trainer.web.bench.carried import DishTold, dish_told, titles_of
from trainer.web.bench.words import both, decimal_mark, is_us_first, sides
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost, WholeField

pages = Blueprint("tonight", __name__)


@dataclass(frozen=True, slots=True)
class WeighRow:
    """One thing to weigh out, in both systems, and what else is to know of it."""

    name: str
    weight: Text
    weight_too: Text
    note: Text


@dataclass(frozen=True, slots=True)
class PrepTold:
    """What is made of one recipe: when it is begun, how much is ready, what it goes into, what to weigh, cautions."""

    title: str
    begin: str
    ready: Text
    feeds: Text
    rows: tuple[WeighRow, ...]
    hazards: tuple[Hazard, ...]


@dataclass(frozen=True, slots=True)
class PotRow:
    """A pot of tonight: how often it is filled, what goes in, what a fill is, and which allergens it holds then."""

    title: str
    begin: str
    fills: int
    batches: int
    at_once: Text
    rows: tuple[WeighRow, ...]
    held: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BuyRow:
    """One thing to buy, in both systems; in which packs and what is over of them, empty where there are none."""

    name: str
    amount: Text
    amount_too: Text
    packs: Text
    over: Text


@dataclass(frozen=True, slots=True)
class TonightSheet:
    """Everything on the sheet."""

    dishes: tuple[DishTold, ...]
    preps: tuple[PrepTold, ...]
    pots: tuple[PotRow, ...]
    order: tuple[BuyRow, ...]


@dataclass(frozen=True, kw_only=True)
class TonightPage(Page):
    """How many of each dish; below, the sheet to print."""

    template: ClassVar[str] = "bench/tonight.html"
    form: SumForm
    sheet: TonightSheet | None


@pages.get("/bench/tonight")
@guard.needs("person")
def tonight() -> Response:
    """Show what all dishes of tonight come to."""
    form = _form()
    made = _made(form) if form.works() else None
    page = TonightPage(
        title=message("Production for tonight"),
        form=form,
        sheet=_sheet(made) if made else None,
    )
    return show(page)


def _form() -> SumForm:
    """Return a form with a field for each recipe but the pots, which come with what is cooked in them; plates first."""
    served = [recipe for recipe in reading.content().recipes.values() if recipe.bath is None]
    fields = {
        f"of_{recipe.id}": WholeField(recipe.title, [AtMost(20)], name=recipe.id, id=f"portions-{recipe.id}")
        for recipe in sorted(served, key=lambda recipe: not recipe.parts)
    }
    kind: type[SumForm] = type("TonightForm", (SumForm,), fields)
    return kind()


def _made(form: SumForm) -> Production | None:
    """Return what is made of all that is asked for; None, with the reason at its field, where that cannot be."""
    recipes = reading.content().recipes
    asked = [(field, Wanted(recipes[field.name], field.number)) for field in form if field.number is not None]
    for field, wanted in asked:
        try:
            production_of([wanted])
        except QuantityProblem as problem:
            form.put(f"of_{field.name}", problem.reason)
            return None
    return production_of([wanted for _, wanted in asked]) if asked else None


def _sheet(made: Production) -> TonightSheet:
    return TonightSheet(
        dishes=tuple(dish_told(dish.recipe, dish.portions) for dish in made.dishes),
        preps=tuple(_prep(prep) for prep in made.preps),
        pots=tuple(_pot(pot) for pot in made.pots),
        order=tuple(_buy(row) for row in made.order),
    )


def _prep(prep: Prep) -> PrepTold:
    parts = [(part.part.recipe.title, part.needed, message("ready")) for part in prep.batch.parts]
    rows = [_weigh(*part) for part in parts] + [_line(line) for line in prep.batch.lines]
    return PrepTold(
        title=prep.recipe.title,
        begin=_begin(prep.before),
        ready=both(prep.ready),
        feeds=joined(prep.feeds, ", "),
        rows=tuple(rows),
        hazards=prep.recipe.hazards,
    )


def _pot(pot: Pot) -> PotRow:
    held = titles_of(pot.held)
    rows = tuple(_weigh(line.ingredient.name, line.amount, "") for line in pot.fill.lines)
    return PotRow(pot.recipe.title, _begin(pot.before), pot.fills, pot.batches, both(pot.at_once), rows, held)


def _begin(before: Quantity) -> str:
    """Return how long before service something is begun; empty where nobody says."""
    return hours_text(float(before.base / 60)) if before.base else ""


def _line(line: BatchLine) -> WeighRow:
    if line.start is None:
        return _weigh(line.ingredient.name, line.weight, "")
    whole = both(line.weight)
    return _weigh(line.ingredient.name, line.start, message("to begin with; taste, then up to {whole}", whole=whole))


def _weigh(name: str, much: Quantity, note: Text) -> WeighRow:
    weight, weight_too = sides(much)
    return WeighRow(name, weight, weight_too if weight_too != weight else "", note)


def _buy(row: OrderRow) -> BuyRow:
    systems = ("us", "metric") if is_us_first() else ("metric", "us")
    amount, too = (on_order(row.needed, system, decimal_mark()) for system in systems)
    if row.order is None:
        return BuyRow(row.name, amount, too if too != amount else "", "", "")
    packs = [
        message("{number} of {holds}", number=both(Quantity.of(number, pack.unit)), holds=both(pack.holds))
        for number, pack in row.order.packs
    ]
    return BuyRow(row.name, amount, too if too != amount else "", joined(packs, " + "), both(row.order.over))
