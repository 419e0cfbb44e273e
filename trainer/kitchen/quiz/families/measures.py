"""US measures in metric, inside one named system, and pounds with ounces times a number."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import MILLILITRES, OUNCES
from trainer.kitchen.quiz.wording import figures, mixed, roughly
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import GALLON, UNITS

HUNDREDTH = Fraction(1, 100)


class Measure(NamedTuple):
    """A US measure: how many make a gallon, and the millilitres of what it is taken for by mistake."""

    name: Sentence
    plural: Sentence
    in_a_gallon: int
    label: Fraction
    imperial: Fraction | None
    metric: Fraction | None


def _imperial(share_of_pint: int) -> Fraction:
    return UNITS["imperial pt"].factor / share_of_pint


MEASURES = (
    Measure(sentence("cup"), sentence("cups"), 16, Fraction(240), _imperial(2), Fraction(250)),
    Measure(sentence("pint"), sentence("pints"), 8, Fraction(480), _imperial(1), Fraction(500)),
    Measure(sentence("quart"), sentence("quarts"), 4, Fraction(960), 2 * _imperial(1), Fraction(1000)),
    Measure(sentence("fluid_ounce"), sentence("fluid_ounces"), 128, Fraction(30), None, Fraction(25)),
)
"""Label sizes: 21 CFR 101.9(b)(5)(viii). The imperial fluid ounce lies too near a weight ounce to tell them apart."""


def _measure(n: Numbers) -> Measure:
    return MEASURES[int(n["measure"]) - 1]


def _much(n: Numbers) -> Fraction:
    return n["amount"] * n["batches"]


def _times(n: Numbers, millilitres: Fraction | None) -> Fraction | None:
    return None if millilitres is None else _much(n) * millilitres


def _measured(n: Numbers) -> Sentence:
    measure = _measure(n)
    return sentence(
        "amount_of_measure", amount=mixed(n["amount"]), measure=measure.name if n["amount"] <= 1 else measure.plural
    )


def _ask_conversion(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        measured=_measured(n),
        food=w["food"],
        batches=n["batches"],
    )


def _solve_conversion(n: Numbers) -> tuple[Sentence, ...]:
    measure, much = _measure(n), _much(n)
    one = GALLON / measure.in_a_gallon
    return (
        sentence(
            "all_the_batches",
            measured=_measured(n),
            batches=n["batches"],
            result=mixed(much),
            measures=measure.plural,
        ),
        sentence(
            "a_gallon_holds_one",
            number=measure.in_a_gallon,
            measures=measure.plural,
            gallon=figures(GALLON),
            result=roughly(one),
        ),
        sentence(
            "multiply_and_round_at",
            amount=mixed(much),
            gallon=figures(GALLON),
            number=measure.in_a_gallon,
            result=roughly(much * one),
        ),
    )


def _right_millilitres(n: Numbers) -> Fraction:
    return _much(n) * GALLON / _measure(n).in_a_gallon


def _shown_measure(n: Numbers) -> tuple[Fraction, ...]:
    """Return what comes out with the millilitres of one measure as the solution shows them."""
    return (_much(n) * to_nearest(GALLON / _measure(n).in_a_gallon, HUNDREDTH),)


UNIT_CONVERSION = NumericFamily(
    name="unit_conversion",
    level="two steps",
    unit="mL",
    unit_rule="required",
    ranges={
        "amount": span("1/2", 12, "1/4", "how much one batch takes, in the measure"),
        "measure": span(1, 4, 1, "which measure: 1 cup, 2 pint, 3 quart, 4 fluid ounce"),
        "batches": span(2, 24, 1, "batches made"),
    },
    words=("food",),
    ask=_ask_conversion,
    right=_right_millilitres,
    solve=_solve_conversion,
    wrong={
        "label_measure": lambda n: _times(n, _measure(n).label),
        "metric_round_number": lambda n: _times(n, _measure(n).metric),
        "imperial_measure": lambda n: _times(n, _measure(n).imperial),
        "weight_ounce_for_fluid_ounce": lambda n: _much(n) * UNITS["oz"].factor * 128 / _measure(n).in_a_gallon,
        "one_rung_too_high": lambda n: 2 * _right_millilitres(n),
        "one_batch_only": lambda n: _right_millilitres(n) / n["batches"],
    },
    early=_shown_measure,
    tolerance=MILLILITRES,
    formula="amount × batches × 3785.41 mL / measures in a gallon",
    checked_against="Unified Code for Units of Measure: US gallon 3785.411784 mL, cup 236.5882365 mL.",
    fits=lambda n: n["batches"] != 2 and _right_millilitres(n) < 60000,
)


def _ounces(n: Numbers) -> Fraction:
    return 16 * n["pounds"] + n["ounces"]


def _ask_mixed(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        pounds=n["pounds"],
        ounces=mixed(n["ounces"]),
        trays=mixed(n["trays"]),
    )


def _solve_mixed(n: Numbers) -> tuple[Sentence, ...]:
    one, total = _ounces(n), _ounces(n) * n["trays"]
    whole, rest = divmod(total, 16)
    return (
        sentence(
            "one_tray_in_ounces",
            pounds=n["pounds"],
            ounces=mixed(n["ounces"]),
            result=mixed(one),
        ),
        sentence("times_trays_oz", trays=mixed(n["trays"]), answer=mixed(total)),
        sentence("in_pounds_carrying_at", pounds=whole, ounces=mixed(rest)),
    )


MIXED_UNITS = NumericFamily(
    name="mixed_units",
    level="two steps",
    unit="oz",
    ranges={
        "pounds": span(1, 8, 1, "whole pounds of one tray"),
        "ounces": span(1, 15, "1/2", "ounces over, of one tray"),
        "trays": span(2, 8, "1/2", "trays made"),
    },
    words=("food",),
    ask=_ask_mixed,
    right=lambda n: _ounces(n) * n["trays"],
    solve=_solve_mixed,
    wrong={
        "ounces_as_tenths": lambda n: 16 * (n["pounds"] + n["ounces"] / 10) * n["trays"],
        "ounces_as_hundredths": lambda n: 16 * (n["pounds"] + n["ounces"] / 100) * n["trays"],
        "only_pounds_multiplied": lambda n: 16 * n["pounds"] * n["trays"] + n["ounces"],
        "twelve_ounces_to_a_pound": lambda n: (12 * n["pounds"] + n["ounces"]) * n["trays"],
        "ten_ounces_to_a_pound": lambda n: (10 * n["pounds"] + n["ounces"]) * n["trays"],
        "only_ounces_multiplied": lambda n: 16 * n["pounds"] + n["ounces"] * n["trays"],
    },
    tolerance=OUNCES,
    formula="(pounds × 16 + ounces) × number",
    checked_against="OpenStax Prealgebra 2e, section 7.5: 3 × 1 lb 8 oz = 4 lb 8 oz.",
)
