"""US measures in metric, inside one named system, and pounds with ounces times a number."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import OUNCES, THREE_FIGURES
from trainer.kitchen.quiz.wording import comes_to, figures, mixed
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


TRAYS = (
    "lasagne|roast roots|braised greens|potato bake|meatballs|stuffed peppers|baked beans|corn bread|fish pie|"
    "rice bake|roast squash|moussaka|bread pudding|fruit crumble|pulled pork|sheet-pan chicken|cabbage rolls|polenta|"
    "ratatouille|shepherd's pie"
)
MEASURES = (
    Measure("cup", "cups", 16, Fraction(240), _imperial(2), Fraction(250)),
    Measure("pint", "pints", 8, Fraction(480), _imperial(1), Fraction(500)),
    Measure("quart", "quarts", 4, Fraction(960), 2 * _imperial(1), Fraction(1000)),
    Measure("fluid ounce", "fluid ounces", 128, Fraction(30), None, Fraction(25)),
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
    return f"{mixed(n['amount'])} {measure.name if n['amount'] <= 1 else measure.plural}"


def _ask_conversion(n: Numbers, w: Words) -> str:
    return (
        f"One batch takes {_measured(n)} of {w['food']}. You make {n['batches']} batches. Use US kitchen measures: "
        "1 gallon is 3.785 L. How many millilitres do you need?"
    )


def _solve_conversion(n: Numbers) -> tuple[str, ...]:
    measure, much = _measure(n), _much(n)
    one = GALLON / measure.in_a_gallon
    return (
        f"All the batches: {_measured(n)} × {n['batches']} = {mixed(much)} {measure.plural}.",
        f"A gallon holds {measure.in_a_gallon} {measure.plural}: one is {figures(GALLON)} mL / {measure.in_a_gallon} "
        f"{comes_to(one)} mL.",
        f"Multiply, and round at the end: {mixed(much)} × {figures(GALLON)} / {measure.in_a_gallon} "
        f"{comes_to(much * one)} mL.",
    )


def _right_millilitres(n: Numbers) -> Fraction:
    return _much(n) * GALLON / _measure(n).in_a_gallon


UNIT_CONVERSION = Sum(
    name="unit_conversion",
    title="US kitchen measures in metric",
    level="two steps",
    unit="mL",
    ranges={
        "amount": span("1/2", 12, "1/4", "how much one batch takes, in the measure"),
        "measure": span(1, 4, 1, "which measure: 1 cup, 2 pint, 3 quart, 4 fluid ounce"),
        "batches": span(2, 24, 1, "batches made"),
    },
    words={"food": "stock|milk|cream|water|wine|tomato juice|vinegar|broth"},
    ask=_ask_conversion,
    right=_right_millilitres,
    solve=_solve_conversion,
    wrong=(
        WrongWay(
            "label_measure",
            lambda n: _times(n, _measure(n).label),
            "You used the rounded measure of food labels. A label cup is 240 mL; the kitchen's cup is 236.6 mL.",
            "Uses the rounded measures of nutrition labels as exact.",
        ),
        WrongWay(
            "metric_round_number",
            lambda n: _times(n, _measure(n).metric),
            "You used a round metric size. A US cup is 236.6 mL, not 250; a quart is less than a litre.",
            "Takes round metric sizes (250, 500, 1000, 25 mL) for US measures.",
        ),
        WrongWay(
            "imperial_measure",
            lambda n: _times(n, _measure(n).imperial),
            "You used the imperial measure. It is a fifth larger than the US one of the same name.",
            "Mixes up US and imperial measures.",
        ),
        WrongWay(
            "weight_ounce_for_fluid_ounce",
            lambda n: _much(n) * UNITS["oz"].factor * 128 / _measure(n).in_a_gallon,
            "You used 28.35, the grams in an ounce of weight. A fluid ounce is a volume: 29.57 mL.",
            "Uses the weight ounce for the fluid ounce.",
        ),
        WrongWay(
            "one_rung_too_high",
            lambda n: 2 * _right_millilitres(n),
            "You took the next larger measure. Two cups make a pint and two pints a quart: halve it.",
            "Is one rung too high on the ladder of measures, a factor of two.",
        ),
        WrongWay(
            "one_batch_only",
            lambda n: _right_millilitres(n) / n["batches"],
            "You worked it out for one batch. Multiply by the number of batches.",
            "Leaves out the number of batches.",
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
    return (
        f"One tray of {w['food']} takes {n['pounds']} lb {mixed(n['ounces'])} oz. You make {mixed(n['trays'])} trays. "
        "How many ounces is that in all?"
    )


def _solve_mixed(n: Numbers) -> tuple[str, ...]:
    one, total = _ounces(n), _ounces(n) * n["trays"]
    whole, rest = divmod(total, 16)
    return (
        f"One tray in ounces: {n['pounds']} × 16 + {mixed(n['ounces'])} = {mixed(one)} oz.",
        f"Times {mixed(n['trays'])} trays: {mixed(total)} oz.",
        f"In pounds, carrying at 16: {whole} lb {mixed(rest)} oz.",
    )


MIXED_UNITS = Sum(
    name="mixed_units",
    title="Pounds and ounces times a number",
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
            "You wrote the ounces after the point, as tenths of a pound. An ounce is a sixteenth.",
            "Writes ounces as tenths of a pound.",
        ),
        WrongWay(
            "ounces_as_hundredths",
            lambda n: 16 * (n["pounds"] + n["ounces"] / 100) * n["trays"],
            "You wrote the ounces after the point, as hundredths of a pound. An ounce is a sixteenth.",
            "Writes ounces as hundredths of a pound.",
        ),
        WrongWay(
            "only_pounds_multiplied",
            lambda n: 16 * n["pounds"] * n["trays"] + n["ounces"],
            "You multiplied the pounds and left the ounces. Multiply both.",
            "Multiplies the pounds alone.",
        ),
        WrongWay(
            "twelve_ounces_to_a_pound",
            lambda n: (12 * n["pounds"] + n["ounces"]) * n["trays"],
            "You took 12 ounces to the pound. There are 16.",
            "Takes 12 ounces to the pound.",
        ),
        WrongWay(
            "ten_ounces_to_a_pound",
            lambda n: (10 * n["pounds"] + n["ounces"]) * n["trays"],
            "You took 10 ounces to the pound. There are 16.",
            "Takes 10 ounces to the pound, as if pounds were decimal.",
        ),
        WrongWay(
            "only_ounces_multiplied",
            lambda n: 16 * n["pounds"] + n["ounces"] * n["trays"],
            "You multiplied the ounces and left the pounds. Multiply both.",
            "Multiplies the ounces alone.",
        ),
    ),
    tolerance=OUNCES,
    formula="(pounds × 16 + ounces) × number",
    checked_against="OpenStax Prealgebra 2e, section 7.5: 3 × 1 lb 8 oz = 4 lb 8 oz.",
)
