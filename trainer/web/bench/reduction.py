"""The workbench's page for a reduction: how salty it ends, what salt goes in last, and the least time it takes."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from flask import Blueprint, Response

from trainer.messages import Text, message
from trainer.recipe_math.estimates import hours_text
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.reduction import least_time, salt_to_finish, strength_after
from trainer.web import guard
from trainer.web.bench.fields import AmountField, PercentField
from trainer.web.bench.words import both, number
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost

pages = Blueprint("reduction", __name__)
EXAMPLE = {"before": "4 kg", "after": "1 kg", "salt": "0.2", "wanted": "0.8"}
PER_KILOGRAM = 10
"""Grams in a kilogram for each in a hundred."""
KILOWATTS = Fraction(2)


@dataclass(frozen=True, slots=True)
class ReductionResult:
    """What came out, a sentence each; empty where it was not asked for."""

    ends: Text
    salt: Text
    time: Text


@dataclass(frozen=True, kw_only=True)
class ReductionPage(Page):
    """What goes in and what is left typed in; salt and time below."""

    template: ClassVar[str] = "bench/reduction.html"
    form: ReductionForm
    found: ReductionResult | None
    is_example: bool


class ReductionForm(SumForm):
    """How much there is, how much is to be left, how salty it is and is to be."""

    before = AmountField(message("It weighs now"), ("mass",), validators=[AtMost(200)])
    after = AmountField(message("It is to weigh"), ("mass",), validators=[AtMost(200)])
    salt = PercentField(message("Salt in 100 of it now"), [AtMost(20)])
    wanted = PercentField(message("Salt in 100 at the end"), [AtMost(20)])


@pages.get("/bench/reduction")
@guard.needs("person")
def reduction() -> Response:
    """Show how a reduction ends."""
    form = ReductionForm(EXAMPLE)
    found = _worked_out(form) if form.works() else None
    page = ReductionPage(title=message("Reducing"), form=form, found=found, is_example=not form.is_asked)
    return show(page)


def _worked_out(form: ReductionForm) -> ReductionResult | None:
    before, after, salt = form.before.amount(), form.after.amount(), form.salt.number or Fraction(0)
    try:
        ends = strength_after(salt, before, after)
        time = least_time(before, after, KILOWATTS)
    except QuantityProblem as problem:
        form.put("after", problem.reason)
        return None
    return ReductionResult(
        ends=message("It ends with {salt} g of salt in 100.", salt=number(ends, 2)),
        salt=_salt(form, before, after, salt),
        time=message(
            "With {power} kW of heat in the pan, at least {time}. A pan loses some to the air: watch it.",
            power=number(KILOWATTS),
            time=hours_text(round(float(time.to("min").amount))),
        ),
    )


def _salt(form: ReductionForm, before: Quantity, after: Quantity, salt: Fraction) -> Text:
    """Return how much salt goes in last; empty where nobody says how salty it is to be."""
    if form.wanted.number is None:
        return ""
    try:
        last = salt_to_finish(before, after, salt * PER_KILOGRAM, form.wanted.number * PER_KILOGRAM)
    except QuantityProblem:
        return message("That is more salt than wanted: begin with less, or do not reduce it so far.")
    if not last.amount:
        return message("No more salt goes in.")
    return message("Weigh in last, and taste: {salt} of salt.", salt=both(last))
