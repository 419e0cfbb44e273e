"""The workbench's page for tempering egg: ladle by ladle, with the band in which the yolk sets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response
from markupsafe import Markup

from trainer.kitchen.technique import Limit
from trainer.kitchen.tempering_bench import BASES, LIQUIDS, Bowl, Pot, TemperingView, tempering_of
from trainer.messages import Text, joined, message, plural
from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.tempering import EggState
from trainer.web import guard, reading
from trainer.web.bench import plots
from trainer.web.bench.fields import AmountField, own_unit
from trainer.web.bench.words import (
    degree_unit,
    degrees_of,
    in_celsius,
    in_grams,
    mass_of,
    mass_unit,
    sides,
    warmth,
    writing,
)
from trainer.web.forms import SumForm
from trainer.web.page import Page, show
from trainer.web.typed_fields import AtMost, OneOfField

pages = Blueprint("tempering", __name__)
HEAT, MUCH = ("temperature",), ("mass", "volume")
EXAMPLES = {
    "us": {
        "amount": "4.5 oz",
        "temperature": "41 F",
        "hot": "203 F",
        "ladle": "2 fl oz",
        "pot": "8 oz",
        "until": "125 F",
    },
    "metric": {
        "amount": "120 g",
        "temperature": "5 C",
        "hot": "95 C",
        "ladle": "60 g",
        "pot": "240 g",
        "until": "55 C",
    },
}
LINES = {message("Cracked to one order and served at once"): "egg_one_order", message("Pooled, or held"): "egg_pooled"}

STATES = {
    EggState.SMOOTH: message("The egg stays smooth."),
    EggState.MAY_THICKEN: message("The egg may begin to thicken."),
    EggState.THICKENS: message("The egg has begun to thicken."),
    EggState.MAY_BE_SET: message("The egg has begun to thicken, and may have set."),
    EggState.SET: message("The egg has set: the base is lumps."),
}


@dataclass(frozen=True, slots=True)
class LadleSeen:
    """One ladle as it is shown: its number, what goes in, how warm the base is then, and how warm at most."""

    number: int
    poured: Text
    poured_too: Text
    base: Text
    base_too: Text
    at_most: Text


@dataclass(frozen=True, slots=True)
class EggLine:
    """What the local code asks of eggs: of which, how hot, how long, where it is said."""

    of: Text
    heat: Limit
    time: Limit | None


@dataclass(frozen=True, slots=True)
class TemperingResult:
    """What came out: the answer in one line, why, how far one can go, the ladles, the plot, and what is not known."""

    answer: Text
    reached: bool
    reason: Text
    most: Text
    all_at_once: Text
    ladles: tuple[LadleSeen, ...]
    plot: Markup
    band: Text
    not_known: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class TemperingPage(Page):
    """Base and liquid typed in; the curve and the ladles below."""

    template: ClassVar[str] = "bench/tempering.html"
    form: TemperingForm
    found: TemperingResult | None
    is_example: bool
    limits: tuple[EggLine, ...]
    degrees: str
    weight: str


class TemperingForm(SumForm):
    """What stands in the bowl, what is in the pot, and how warm the base should get."""

    base = OneOfField(message("Egg base"))
    amount = AmountField(message("Weight of the base"), MUCH, validators=[AtMost(200)])
    temperature = AmountField(message("Temperature of the base"), HEAT, validators=[AtMost(200)])
    liquid = OneOfField(message("Hot liquid"))
    hot = AmountField(message("Temperature of the liquid"), HEAT, validators=[AtMost(200)])
    pot = AmountField(message("Liquid in the pot"), MUCH, validators=[AtMost(200)])
    ladle = AmountField(message("One ladle holds"), MUCH, validators=[AtMost(200)])
    until = AmountField(message("Warm the base to"), HEAT, validators=[AtMost(200)])


@pages.get("/bench/tempering")
@guard.needs("person")
def tempering() -> Response:
    """Show how warm an egg base gets, ladle by ladle."""
    form = TemperingForm({**EXAMPLES[reading.now().units], "base": "yolks", "liquid": "water"})
    form.base.offer({key: base.food.name for key, base in BASES.items()}, nothing="")
    form.liquid.offer({key: food.name for key, food in LIQUIDS.items()}, nothing="")
    found = _worked_out(form) if form.works() else None
    limits = reading.content().code.limits
    page = TemperingPage(
        title=message("Tempering egg"),
        form=form,
        found=found,
        is_example=not form.is_asked,
        degrees=own_unit("temperature"),
        weight=own_unit("mass"),
        limits=tuple(EggLine(of, limits[key], limits.get(f"{key}_time")) for of, key in LINES.items() if key in limits),
    )
    return show(page)


def _worked_out(form: TemperingForm) -> TemperingResult | None:
    bowl = Bowl(BASES[form.base.data], form.amount.amount(), form.temperature.amount())
    pot = Pot(LIQUIDS[form.liquid.data], form.pot.amount(), form.hot.amount(), form.ladle.amount())
    try:
        view = tempering_of(bowl, pot, form.until.amount(), writing())
    except QuantityProblem as problem:
        form.refuse(problem.reason)
        return None
    return _shown(view, form.base.data)


def _shown(view: TemperingView, base: str) -> TemperingResult:
    done, band = view.tempering, _band(view, base)
    margin = writing().apart(view.margin_celsius)
    return TemperingResult(
        answer=_answer(len(done.ladles), warmth(done.base_celsius)),
        reached=done.reached,
        reason=message("It is warm enough, and below where it sets.") if done.reached else done.reason,
        most=_most(view),
        all_at_once=message(
            "All of it at once: {warm}, at most {most}. {state}",
            warm=warmth(view.all_celsius),
            most=warmth(view.all_at_most_celsius),
            state=STATES[view.all_at_once],
        ),
        ladles=tuple(
            LadleSeen(
                each.number,
                *sides(in_grams(each.grams)),
                *sides(in_celsius(each.base_celsius)),
                sides(in_celsius(each.at_most_celsius))[0],
            )
            for each in done.ladles
        ),
        plot=_plot(view, band),
        band=message(
            "{band} ({source}). Books differ, so the ladles stop {margin} short of that.",
            band=band,
            source=view.band.source,
            margin=margin,
        ),
        not_known=done.not_known,
    )


def _most(view: TemperingView) -> Text:
    """Return how many ladles can go in before the egg may begin to set."""
    if view.most_ladles is None:
        return message("All of the liquid can go in before the egg may begin to thicken.")
    return plural(
        "{number} ladle at most can go in before the egg may begin to thicken.",
        "{number} ladles at most can go in before the egg may begin to thicken.",
        view.most_ladles,
    )


def _answer(ladles: int, base: Text) -> Text:
    if not ladles:
        return message("Not one ladle: the base is at {base}", base=base)
    return plural("{number} ladle: the base is at {base}", "{number} ladles: the base is at {base}", ladles, base=base)


def _band(view: TemperingView, base: str) -> Text:
    """Return where this egg thickens and where it has set."""
    thick, sets = warmth(view.band.thickens_celsius), warmth(view.band.sets_celsius)
    if base == "yolks":
        return message("Yolk begins to thicken at {thickens} and has set at {sets}", thickens=thick, sets=sets)
    return message("Whole egg begins to thicken at {thickens} and has set at {sets}", thickens=thick, sets=sets)


def _plot(view: TemperingView, band: Text) -> Markup:
    line = [(mass_of(grams), degrees_of(celsius)) for grams, celsius in view.curve]
    poured, ladles = 0.0, [line[0]]
    for each in view.tempering.ladles:
        poured += each.grams
        ladles.append((mass_of(poured), degrees_of(each.base_celsius)))
    warmest = max(line[-1][1], degrees_of(view.band.sets_celsius + 6))
    plot = plots.Plot(
        name="tempering",
        title=message("Temperature of the base as the liquid goes in"),
        told=message("{band}. {ladles}", band=band, ladles=_ladles_told(ladles[1:])),
        across=plots.Axis(0, line[-1][0], message("liquid in the base, {unit}", unit=mass_unit())),
        up=plots.Axis(min(line[0][1], degrees_of(0)), warmest, degree_unit()),
    )
    thick, sets = (degrees_of(each) for each in (view.band.thickens_celsius, view.band.sets_celsius))
    parts = [plots.band(plot, thick, sets, message("sets here")), plots.curve(plot, line, dashed=True)]
    return plots.drawn(plot, [*parts, plots.dots(plot, ladles)])


def _ladles_told(ladles: Sequence[plots.Point]) -> Text:
    """Return how warm the base is after each ladle, in words."""
    told = (message("ladle {number}: {degrees}", number=n, degrees=f"{up:.0f}") for n, (_, up) in enumerate(ladles, 1))
    return joined(told, "; ")
