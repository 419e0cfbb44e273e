"""The workbench's page for weighed portions: mean, spread, and what share of all may lie inside the tolerance."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response
from markupsafe import Markup

from trainer.kitchen.typed_lines import typed_weights
from trainer.messages import Text, joined, message
from trainer.recipe_math.portion_check import PortionCheck, PortionTarget, check_portions
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.web import guard
from trainer.web.bench import plots
from trainer.web.bench.fields import AmountField, LinesField, own_unit
from trainer.web.bench.words import decimal_mark, finely, number
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost

pages = Blueprint("portions", __name__)
PLENTY = 20
HUNDRED = 100


@dataclass(frozen=True, slots=True)
class PortionsResult:
    """What came out, a sentence each, and the plot."""

    answer: Text
    likely: Text
    mean: Text
    gives_away: Text
    spread: Text
    ends: Text
    few: Text
    plot: Markup


@dataclass(frozen=True, kw_only=True)
class PortionsPage(Page):
    """Weights typed in; what they show below."""

    template: ClassVar[str] = "bench/portions.html"
    form: PortionsForm
    found: PortionsResult | None
    unit: str


class PortionsForm(SumForm):
    """What a portion should weigh, how far it may be off, and what was weighed."""

    target = AmountField(message("A portion should weigh"), ("mass",), validators=[AtMost(200)])
    tolerance = AmountField(message("Give or take"), ("mass",), validators=[AtMost(200)])
    weights = LinesField(message("Weights"))


@pages.get("/bench/portions")
@guard.needs("person")
def portions() -> Response:
    """Show what weighed portions say of all of them."""
    form = PortionsForm()
    found = _worked_out(form) if form.works() else None
    return show(PortionsPage(title=message("Portions"), form=form, found=found, unit=own_unit("mass")))


def _worked_out(form: PortionsForm) -> PortionsResult | None:
    target = form.target.amount()
    typed = typed_weights(form.weights.data, default_unit=target.unit.symbol, decimal_mark=decimal_mark())
    for problem in typed.problems:
        form.put("weights", problem.as_text())
    if typed.problems:
        return None
    try:
        aim = PortionTarget(target, form.tolerance.amount())
    except QuantityProblem as problem:
        form.put("tolerance", problem.reason)
        return None
    try:
        return _shown(check_portions(typed.weights, aim), typed.weights)
    except QuantityProblem as problem:
        form.put("weights", problem.reason)
        return None


def _shown(check: PortionCheck, weights: tuple[Quantity, ...]) -> PortionsResult:
    low, high = (number(end * HUNDRED, 0) for end in (check.likely.low, check.likely.high))
    return PortionsResult(
        answer=_answer(check),
        likely=message(
            "Of all portions made like these, between {low} and {high} in a hundred lie inside.", low=low, high=high
        ),
        mean=message("On average {weight}.", weight=finely(check.mean)),
        gives_away=_gives_away(check),
        spread=message(
            "The spread is {spread}: as a rule two in three lie that near the average.", spread=finely(check.deviation)
        ),
        ends=message(
            "The lightest is {lightest}, the heaviest {heaviest}.",
            lightest=finely(check.lightest),
            heaviest=finely(check.heaviest),
        ),
        few=_few(check.weighed),
        plot=_plot(check, weights),
    )


def _few(weighed: int) -> Text:
    """Return how little so few portions say; empty where there are plenty."""
    if weighed >= PLENTY:
        return ""
    return message(
        "{weighed} portions say little. Weigh {plenty} for a narrower answer.", weighed=weighed, plenty=PLENTY
    )


def _answer(check: PortionCheck) -> Text:
    """Return how many are inside, and how many are not, on which side."""
    low, high = (Quantity(end, check.mean.unit) for end in (check.target.limits().low, check.target.limits().high))
    inside = message(
        "{inside} of {weighed} lie inside {low} to {high}",
        inside=check.inside,
        weighed=check.weighed,
        low=finely(low),
        high=finely(high),
    )
    light = [message("{number} too light", number=check.too_light)] if check.too_light else []
    heavy = [message("{number} too heavy", number=check.too_heavy)] if check.too_heavy else []
    return joined([joined([inside, *light, *heavy], ", "), "."], "")


def _gives_away(check: PortionCheck) -> Text:
    """Return in words by how much the average is off, for one portion and for a hundred."""
    off = check.off_target()
    if off.amount == 0:
        return message("That is right on the weight asked for.")
    much = off if off.amount > 0 else -off
    one, all_of_them = finely(much), finely(much * HUNDRED)
    if off.amount > 0:
        return message(
            "That is {weight} heavy: over {portions} portions, {in_all} given away.",
            weight=one,
            portions=HUNDRED,
            in_all=all_of_them,
        )
    return message(
        "That is {weight} light: over {portions} portions, {in_all} short on guests' plates.",
        weight=one,
        portions=HUNDRED,
        in_all=all_of_them,
    )


def _plot(check: PortionCheck, weights: tuple[Quantity, ...]) -> Markup:
    """Return the weights in the order they were typed, as dots against the hatched tolerance."""
    unit = check.mean.unit
    found = [float(weight.to(unit).amount) for weight in weights]
    limits = check.target.limits()
    low, high = float(limits.low), float(limits.high)
    room = max(max(*found, high) - min(*found, low), 1e-9) * 0.08
    plot = plots.Plot(
        name="portions",
        title=message("Each weighed portion against the tolerance"),
        told=message(
            "Inside is from {low} to {high} {unit}. Weighed: {weights}",
            low=f"{low:g}",
            high=f"{high:g}",
            unit=unit.symbol,
            weights=", ".join(f"{each:g}" for each in found),
        ),
        across=plots.Axis(0, len(found) + 1, message("in the order they were weighed")),
        up=plots.Axis(min(*found, low) - room, max(*found, high) + 2 * room, unit.symbol),
    )
    points = list(enumerate(found, 1))
    inside = [(at, each) for at, each in points if low <= each <= high]
    outside = [(at, each) for at, each in points if not low <= each <= high]
    parts = [
        plots.band(plot, low, high, ""),
        plots.curve(plot, [(0, float(check.mean.amount)), (len(found) + 1, float(check.mean.amount))], dashed=True),
        plots.dots(plot, inside),
        plots.dots(plot, outside, hollow=True),
    ]
    return plots.drawn(plot, parts)
