"""The workbench's page for a dough: what to weigh, preferment and egg counted, and how warm the water must be."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from flask import Blueprint, Response

from trainer.messages import Text, message
from trainer.recipe_math.dough import Liquid
from trainer.recipe_math.dough_plan import NO_PREFERMENT, DoughPlan, Preferment, planned, water_temperature
from trainer.recipe_math.quantity import TEMPERATURE, Quantity, QuantityProblem
from trainer.recipe_math.units import UNITS
from trainer.web import guard
from trainer.web.bench.fields import AmountField, PercentField, own_unit
from trainer.web.bench.words import both, sides
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost

pages = Blueprint("dough", __name__)
EGG_WATER = Fraction("0.76")
"""Of whole egg without shell: USDA SR26, NDB 01123, 76.15 g in 100 g."""
HEAT = (TEMPERATURE,)
EXAMPLE = {"flour": "1 kg", "hydration": "65", "salt": "2", "yeast": "1", "early": "20", "early_water": "100"}


@dataclass(frozen=True, slots=True)
class WeighRow:
    """One line to weigh out, in both systems."""

    name: Text
    weight: Text
    weight_too: Text


@dataclass(frozen=True, slots=True)
class DoughResult:
    """What came out: the dough in one line, rows for the preferment and for the dough, the water's temperature."""

    answer: Text
    early: tuple[WeighRow, ...]
    rows: tuple[WeighRow, ...]
    warmth: Text


@dataclass(frozen=True, kw_only=True)
class DoughPage(Page):
    """Flour, percentages and temperatures typed in; what to weigh below."""

    template: ClassVar[str] = "bench/dough.html"
    form: DoughForm
    found: DoughResult | None
    is_example: bool
    weight: str
    degrees: str


class DoughForm(SumForm):
    """The flour, the percentages of it, egg by weight, and the temperatures that set the dough's."""

    flour = AmountField(message("All the flour"), ("mass",), validators=[AtMost(200)])
    hydration = PercentField(message("Water on 100 of flour"), [AtMost(20)])
    salt = PercentField(message("Salt on 100 of flour"), [AtMost(20)])
    yeast = PercentField(message("Yeast on 100 of flour"), [AtMost(20)])
    egg = AmountField(message("Egg without shells"), ("mass",), needed=False, validators=[AtMost(200)])
    early = PercentField(message("Of 100 flour, in the preferment"), [AtMost(20)])
    early_water = PercentField(message("Water on 100 of its flour"), [AtMost(20)])
    wanted = AmountField(message("Dough wanted at"), HEAT, needed=False, validators=[AtMost(200)])
    flour_at = AmountField(message("Flour is at"), HEAT, needed=False, validators=[AtMost(200)])
    room_at = AmountField(message("Room is at"), HEAT, needed=False, validators=[AtMost(200)])
    early_at = AmountField(message("Preferment is at"), HEAT, needed=False, validators=[AtMost(200)])
    friction = AmountField(
        message("What your mixer adds"), ("temperature difference", TEMPERATURE), needed=False, validators=[AtMost(200)]
    )


@pages.get("/bench/dough")
@guard.needs("person")
def dough() -> Response:
    """Show what to weigh for a dough, and how warm its water must be."""
    form = DoughForm(EXAMPLE)
    found = _worked_out(form) if form.works() else None
    page = DoughPage(
        title=message("Dough"),
        form=form,
        found=found,
        is_example=not form.is_asked,
        weight=own_unit("mass"),
        degrees=own_unit("temperature"),
    )
    return show(page)


def _worked_out(form: DoughForm) -> DoughResult | None:
    others = {name: form[name].number for name in ("salt", "yeast") if form[name].number is not None}
    egg = form.egg.quantity
    try:
        plan = planned(
            form.flour.amount(),
            form.hydration.number or Fraction(0),
            others,
            _preferment(form),
            [] if egg is None else [Liquid(egg, EGG_WATER)],
        )
        warmth = _warmth(form)
    except QuantityProblem as problem:
        form.refuse(problem.reason)
        return None
    return _shown(plan, egg, warmth)


def _preferment(form: DoughForm) -> Preferment:
    share = form.early.number
    return NO_PREFERMENT if share is None else Preferment(share, form.early_water.number or Fraction(0))


def _warmth(form: DoughForm) -> Text:
    """Return how warm the water must be; empty where a temperature is not known."""
    wanted, flour, room, friction = (form[name].quantity for name in ("wanted", "flour_at", "room_at", "friction"))
    if wanted is None or flour is None or room is None or friction is None:
        return ""
    early = form.early_at.quantity
    parts = [flour, room, *([] if early is None else [early])]
    water = water_temperature(wanted, parts, _difference(friction))
    return message("Water at {warmth}", warmth=both(water))


def _difference(typed: Quantity) -> Quantity:
    """Return what a mixer adds as a difference: 26 F beside this field is 26 degrees more, not a temperature."""
    if typed.unit.dimension != TEMPERATURE:
        return typed
    return Quantity(typed.amount, UNITS[f"{typed.unit.symbol} difference"])


def _shown(plan: DoughPlan, egg: Quantity | None, warmth: Text) -> DoughResult:
    names = {"salt": message("Salt"), "yeast": message("Yeast")}
    has_early = plan.preferment_flour.amount > 0
    early = [(message("Flour"), plan.preferment_flour), (message("Water"), plan.preferment_water)] if has_early else []
    rows = [
        (message("Flour"), plan.flour),
        (message("Water"), plan.water),
        *([] if egg is None else [(message("Egg"), egg)]),
        *((names[name], weight) for name, weight in plan.others.items()),
    ]
    return DoughResult(
        answer=message("{dough} of dough", dough=both(plan.dough)),
        early=tuple(WeighRow(name, *sides(weight)) for name, weight in early),
        rows=tuple(WeighRow(name, *sides(weight)) for name, weight in rows),
        warmth=warmth,
    )
