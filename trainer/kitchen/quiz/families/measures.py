"""US measures in metric, inside one named system, and pounds with ounces times a number."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import OUNCES, THREE_FIGURES
from trainer.kitchen.quiz.wording import any_of, figures, mixed, roughly
from trainer.recipe_math.saying import say
from trainer.recipe_math.units import GALLON, UNITS


class Measure(NamedTuple):
    """A US measure: how many make a gallon, and the millilitres of what it is taken for by mistake."""

    name: str
    plural: str
    in_a_gallon: int
    label: Fraction
    imperial: Fraction | None
    metric: Fraction | None


def _imperial(share_of_pint: int) -> Fraction:
    return UNITS["imperial pt"].factor / share_of_pint


TRAYS = any_of(
    "lasagne|roast roots|braised greens|potato bake|meatballs|stuffed peppers|baked beans|corn bread|"
    "fish pie|rice bake|roast squash|moussaka|bread pudding|fruit crumble|pulled pork|sheet-pan chicken|"
    "cabbage rolls|polenta|ratatouille|shepherd's pie"
)
MEASURES = (
    Measure(say("cup"), say("cups"), 16, Fraction(240), _imperial(2), Fraction(250)),
    Measure(say("pint"), say("pints"), 8, Fraction(480), _imperial(1), Fraction(500)),
    Measure(say("quart"), say("quarts"), 4, Fraction(960), 2 * _imperial(1), Fraction(1000)),
    Measure(say("fluid ounce"), say("fluid ounces"), 128, Fraction(30), None, Fraction(25)),
)
"""Label sizes: 21 CFR 101.9(b)(5)(viii). The imperial fluid ounce lies too near a weight ounce to tell them apart."""


def _measure(n: Numbers) -> Measure:
    return MEASURES[int(n["measure"]) - 1]


def _much(n: Numbers) -> Fraction:
    return n["amount"] * n["batches"]


def _times(n: Numbers, millilitres: Fraction | None) -> Fraction | None:
    return None if millilitres is None else _much(n) * millilitres


def _measured(n: Numbers) -> str:
    measure = _measure(n)
    return say(
        "{amount} {measure}", amount=mixed(n["amount"]), measure=measure.name if n["amount"] <= 1 else measure.plural
    )


def _ask_conversion(n: Numbers, w: Words) -> str:
    return say(
        "One batch takes {measured} of {food}. You make {batches} batches. Use US kitchen measures: 1 "
        "gallon is 3.785 L. How many millilitres do you need?",
        measured=_measured(n),
        food=w["food"],
        batches=n["batches"],
    )


def _solve_conversion(n: Numbers) -> tuple[str, ...]:
    measure, much = _measure(n), _much(n)
    one = GALLON / measure.in_a_gallon
    return (
        say(
            "All the batches: {measured} × {batches} = {result} {measures}.",
            measured=_measured(n),
            batches=n["batches"],
            result=mixed(much),
            measures=measure.plural,
        ),
        say(
            "A gallon holds {number} {measures}: one is {gallon} mL / {number} = {result} mL.",
            number=measure.in_a_gallon,
            measures=measure.plural,
            gallon=figures(GALLON),
            result=roughly(one),
        ),
        say(
            "Multiply, and round at the end: {amount} × {gallon} / {number} = {result} mL.",
            amount=mixed(much),
            gallon=figures(GALLON),
            number=measure.in_a_gallon,
            result=roughly(much * one),
        ),
    )


def _right_millilitres(n: Numbers) -> Fraction:
    return _much(n) * GALLON / _measure(n).in_a_gallon


UNIT_CONVERSION = Sum(
    name="unit_conversion",
    title=say("US kitchen measures in metric"),
    level="two steps",
    unit="mL",
    unit_rule="required",
    ranges={
        "amount": span("1/2", 12, "1/4", "how much one batch takes, in the measure"),
        "measure": span(1, 4, 1, "which measure: 1 cup, 2 pint, 3 quart, 4 fluid ounce"),
        "batches": span(2, 24, 1, "batches made"),
    },
    words={"food": any_of("stock|milk|cream|water|wine|tomato juice|vinegar|broth")},
    ask=_ask_conversion,
    right=_right_millilitres,
    solve=_solve_conversion,
    wrong=(
        WrongWay(
            "label_measure",
            lambda n: _times(n, _measure(n).label),
            say("You used the rounded measure of food labels. A label cup is 240 mL; the kitchen's cup is 236.6 mL."),
            say("Uses the rounded measures of nutrition labels as exact."),
        ),
        WrongWay(
            "metric_round_number",
            lambda n: _times(n, _measure(n).metric),
            say("You used a round metric size. A US cup is 236.6 mL, not 250; a quart is less than a litre."),
            say("Takes round metric sizes (250, 500, 1000, 25 mL) for US measures."),
        ),
        WrongWay(
            "imperial_measure",
            lambda n: _times(n, _measure(n).imperial),
            say("You used the imperial measure. It is a fifth larger than the US one of the same name."),
            say("Mixes up US and imperial measures."),
        ),
        WrongWay(
            "weight_ounce_for_fluid_ounce",
            lambda n: _much(n) * UNITS["oz"].factor * 128 / _measure(n).in_a_gallon,
            say("You used 28.35, the grams in an ounce of weight. A fluid ounce is a volume: 29.57 mL."),
            say("Uses the weight ounce for the fluid ounce."),
        ),
        WrongWay(
            "one_rung_too_high",
            lambda n: 2 * _right_millilitres(n),
            say("You took the next larger measure. Two cups make a pint and two pints a quart: halve it."),
            say("Is one rung too high on the ladder of measures, a factor of two."),
        ),
        WrongWay(
            "one_batch_only",
            lambda n: _right_millilitres(n) / n["batches"],
            say("You worked it out for one batch. Multiply by the number of batches."),
            say("Leaves out the number of batches."),
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="amount × batches × 3785.41 mL / measures in a gallon",
    checked_against="Unified Code for Units of Measure: US gallon 3785.411784 mL, cup 236.5882365 mL.",
    fits=lambda n: n["batches"] != 2 and _right_millilitres(n) < 60000,
)


def _ounces(n: Numbers) -> Fraction:
    return 16 * n["pounds"] + n["ounces"]


def _ask_mixed(n: Numbers, w: Words) -> str:
    return say(
        "One tray of {food} takes {pounds} lb {ounces} oz. You make {trays} trays. How many ounces is that in all?",
        food=w["food"],
        pounds=n["pounds"],
        ounces=mixed(n["ounces"]),
        trays=mixed(n["trays"]),
    )


def _solve_mixed(n: Numbers) -> tuple[str, ...]:
    one, total = _ounces(n), _ounces(n) * n["trays"]
    whole, rest = divmod(total, 16)
    return (
        say(
            "One tray in ounces: {pounds} × 16 + {ounces} = {result} oz.",
            pounds=n["pounds"],
            ounces=mixed(n["ounces"]),
            result=mixed(one),
        ),
        say("Times {trays} trays: {total} oz.", trays=mixed(n["trays"]), total=mixed(total)),
        say("In pounds, carrying at 16: {pounds} lb {ounces} oz.", pounds=whole, ounces=mixed(rest)),
    )


MIXED_UNITS = Sum(
    name="mixed_units",
    title=say("Pounds and ounces times a number"),
    level="two steps",
    unit="oz",
    ranges={
        "pounds": span(1, 8, 1, "whole pounds of one tray"),
        "ounces": span(1, 15, "1/2", "ounces over, of one tray"),
        "trays": span(2, 8, "1/2", "trays made"),
    },
    words={"food": TRAYS},
    ask=_ask_mixed,
    right=lambda n: _ounces(n) * n["trays"],
    solve=_solve_mixed,
    wrong=(
        WrongWay(
            "ounces_as_tenths",
            lambda n: 16 * (n["pounds"] + n["ounces"] / 10) * n["trays"],
            say("You wrote the ounces after the point, as tenths of a pound. An ounce is a sixteenth."),
            say("Writes ounces as tenths of a pound."),
        ),
        WrongWay(
            "ounces_as_hundredths",
            lambda n: 16 * (n["pounds"] + n["ounces"] / 100) * n["trays"],
            say("You wrote the ounces after the point, as hundredths of a pound. An ounce is a sixteenth."),
            say("Writes ounces as hundredths of a pound."),
        ),
        WrongWay(
            "only_pounds_multiplied",
            lambda n: 16 * n["pounds"] * n["trays"] + n["ounces"],
            say("You multiplied the pounds and left the ounces. Multiply both."),
            say("Multiplies the pounds alone."),
        ),
        WrongWay(
            "twelve_ounces_to_a_pound",
            lambda n: (12 * n["pounds"] + n["ounces"]) * n["trays"],
            say("You took 12 ounces to the pound. There are 16."),
            say("Takes 12 ounces to the pound."),
        ),
        WrongWay(
            "ten_ounces_to_a_pound",
            lambda n: (10 * n["pounds"] + n["ounces"]) * n["trays"],
            say("You took 10 ounces to the pound. There are 16."),
            say("Takes 10 ounces to the pound, as if pounds were decimal."),
        ),
        WrongWay(
            "only_ounces_multiplied",
            lambda n: 16 * n["pounds"] + n["ounces"] * n["trays"],
            say("You multiplied the ounces and left the pounds. Multiply both."),
            say("Multiplies the ounces alone."),
        ),
    ),
    tolerance=OUNCES,
    formula="(pounds × 16 + ounces) × number",
    checked_against="OpenStax Prealgebra 2e, section 7.5: 3 × 1 lb 8 oz = 4 lb 8 oz.",
)
