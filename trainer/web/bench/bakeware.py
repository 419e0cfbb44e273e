"""The workbench's page for a recipe that goes from one pan into another."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from flask import Blueprint, Response

from trainer.messages import Text, joined, message
from trainer.recipe_math.bakeware import HOTEL_PANS, Floor, Moved, circular, hotel_pan, moved, rectangular
from trainer.recipe_math.not_in_proportion import DOUBLE, Grows, first_seasoning, time_to_reduce
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.thickness import guess_for_thickness
from trainer.web import guard
from trainer.web.bench.fields import AmountField, own_length
from trainer.web.bench.words import number
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost, OneOfField, WholeField

pages = Blueprint("bakeware", __name__)
ROUND, STRAIGHT = "round", "straight"
SHAPES = {
    ROUND: message("Round"),
    STRAIGHT: message("Square or oblong"),
    **{size: message("Steam-table pan, {size}", size=size) for size in HOTEL_PANS},
    "full": message("Full steam-table pan"),
}
LENGTH = ("length",)
SPOON, MINUTE = Quantity.of(1, "tsp"), Quantity.of(1, "min")


@dataclass(frozen=True, slots=True)
class PansResult:
    """What came out: the factor in one line, what happens without it, both floors, a warning, what to season with."""

    answer: Text
    unchanged: Text
    floors: Text
    warning: Text
    seasoning: Text


@dataclass(frozen=True, kw_only=True)
class PansPage(Page):
    """Two pans typed in; the factor below."""

    template: ClassVar[str] = "bench/bakeware.html"
    form: PansForm
    found: PansResult | None
    unit: Text


class PansForm(SumForm):
    """The pan of the recipe and the pan at hand: a shape and its sides, and how many of the second."""

    old = OneOfField(message("The pan of the recipe"), default=STRAIGHT)
    old_length = AmountField(message("Its length, or across"), LENGTH, needed=False, validators=[AtMost(200)])
    old_width = AmountField(message("Its width"), LENGTH, needed=False, validators=[AtMost(200)])
    new = OneOfField(message("The pan at hand"), default=STRAIGHT)
    new_length = AmountField(message("Length of it, or across"), LENGTH, needed=False, validators=[AtMost(200)])
    new_width = AmountField(message("Width of it"), LENGTH, needed=False, validators=[AtMost(200)])
    pans = WholeField(message("How many of them"), [AtMost(20)])


@pages.get("/bench/pans")
@guard.needs("person")
def pans() -> Response:
    """Show by how much a recipe is multiplied for another pan."""
    form = PansForm()
    form.old.offer(SHAPES, nothing="")
    form.new.offer(SHAPES, nothing="")
    found = _worked_out(form) if form.is_asked and form.validate() else None
    return show(PansPage(title=message("Another pan"), form=form, found=found, unit=own_length()))


def _worked_out(form: PansForm) -> PansResult | None:
    old, new = _floor(form, "old"), _floor(form, "new")
    if form.pans.number == 0:
        form.put("pans", message("Nothing goes into no pan: write 1 or more."))
        return None
    if old is None or new is None:
        return None
    return _shown(moved(old, new, form.pans.number or 1), old, new, form.pans.number or 1)


def _floor(form: PansForm, which: str) -> Floor | None:
    """Return a pan's floor; where a side is missing, it is told at its field."""
    shape, length, width = (form[name] for name in (which, f"{which}_length", f"{which}_width"))
    if shape.data in HOTEL_PANS:
        return hotel_pan(shape.data)
    across: Quantity | None = length.quantity
    if across is None:
        form.put(length.name, message("A pan of this shape needs its length, like {example}.", example="9 in"))
        return None
    if shape.data == ROUND:
        return circular(across)
    side: Quantity | None = width.quantity
    return rectangular(across, across if side is None else side)


def _shown(found: Moved, old: Floor, new: Floor, pans: int) -> PansResult:
    return PansResult(
        answer=message("Multiply every ingredient by {factor}", factor=number(found.factor, 2)),
        unchanged=_unchanged(found, time_to_reduce(MINUTE, (old, new), Fraction(1)).amount / pans),
        floors=message(
            "Floor of the one: {old} sq in. Of the other: {new} sq in.",
            old=number(old.square_inches, 1),
            new=number(new.square_inches, 1),
        ),
        warning=found.warning,
        seasoning=_seasoning(found),
    )


def _unchanged(found: Moved, reduced: Fraction) -> Text:
    """Return what becomes of a batch that is left as it is; how long it cooks only where it is about as deep."""
    deep = message(
        "Left as it is, the batch stands {ratio} times as deep and boils down in {reduced} times the time.",
        ratio=number(found.depth_ratio, 2),
        reduced=number(reduced, 2),
    )
    if not Fraction(1, 2) <= found.depth_ratio <= DOUBLE:
        return deep
    cooked = number(Fraction(guess_for_thickness(1, 1, float(found.depth_ratio)).minutes), 1)
    return joined([deep, message("It cooks through in about {cooked} times (a rule of thumb).", cooked=cooked)])


def _seasoning(found: Moved) -> Text:
    """Return with how much herb and hot pepper to begin; empty up to twice the recipe, where all grows alike."""
    if found.factor <= DOUBLE:
        return ""
    herb, pepper = (
        number(first_seasoning(SPOON, found.factor, grows).amount, 1) for grows in (Grows.HERB, Grows.HOT_PEPPER)
    )
    return message(
        "Begin with {herb} times the herbs and {pepper} times the hot pepper, then taste (a spice maker's rule).",
        herb=herb,
        pepper=pepper,
    )
