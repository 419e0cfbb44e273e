"""The workbench's page for what a measure weighs, and what a weight measures: with how far it may be off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response

from trainer.messages import Text, message
from trainer.recipe_math.densities import DENSITIES, Between, volume_of, weight_of
from trainer.recipe_math.printing import written
from trainer.web import guard
from trainer.web.bench.fields import AmountField
from trainer.web.bench.words import both, decimal_mark, is_us_first
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost, OneOfField

pages = Blueprint("measures", __name__)
EXAMPLE = {"food": "flour", "amount": "1 cup"}


@dataclass(frozen=True, slots=True)
class MeasureResult:
    """What came out: about how much, from least to most, and the source."""

    answer: Text
    spread: Text
    source: Text


@dataclass(frozen=True, kw_only=True)
class MeasuresPage(Page):
    """A food and an amount typed in; the other way to measure it below."""

    template: ClassVar[str] = "bench/measures.html"
    form: MeasuresForm
    found: MeasureResult | None
    is_example: bool


class MeasuresForm(SumForm):
    """Which food, and how much of it by weight or by volume."""

    food = OneOfField(message("Food"))
    amount = AmountField(message("How much, by weight or volume"), ("volume", "mass"), validators=[AtMost(200)])


@pages.get("/bench/measures")
@guard.needs("person")
def measures() -> Response:
    """Show what a measure weighs, or what a weight measures."""
    form = MeasuresForm(EXAMPLE)
    form.food.offer({key: each.name for key, each in DENSITIES.items()}, nothing="")
    found = _worked_out(form) if form.works() else None
    page = MeasuresPage(title=message("Cups and grams"), form=form, found=found, is_example=not form.is_asked)
    return show(page)


def _worked_out(form: MeasuresForm) -> MeasureResult:
    amount, food = form.amount.amount(), form.food.data
    found = weight_of(amount, food) if amount.unit.dimension == "volume" else volume_of(amount, food)
    return MeasureResult(
        answer=message("{given} of it: about {about}", given=both(amount), about=both(found.about)),
        spread=_spread(found),
        source=DENSITIES[food].source,
    )


def _spread(found: Between) -> Text:
    system = "us" if is_us_first() else "metric"
    least, most = (written(end, system, decimal_mark()) for end in (found.least, found.most))
    return message("From {least} to {most}, by how it is filled.", least=least, most=most)
