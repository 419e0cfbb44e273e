"""US measures in metric, inside one named system, and pounds with ounces times a number."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import NamedTuple

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import MILLILITRES
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


def _one_tray(u: Weights, n: Numbers) -> Fraction:
    """Return what one tray takes, in the small unit."""
    return u.small_in_large * n[u.large_name] + n[u.small_name]


def _ask_mixed(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        whole=f"{figures(n[u.large_name])} {u.large}",
        over=u.written_small(n[u.small_name]),
        trays=mixed(n["trays"]),
        unit=u.small,
    )


def _solve_mixed(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    one, total = _one_tray(u, n), _one_tray(u, n) * n["trays"]
    whole, rest = divmod(total, u.small_in_large)
    return (
        sentence(
            "one_tray_in_small",
            whole=n[u.large_name],
            times=u.small_in_large,
            over=mixed(n[u.small_name]),
            result=mixed(one),
            unit=u.small,
        ),
        sentence("times_trays", trays=mixed(n["trays"]), answer=mixed(total), unit=u.small),
        sentence(
            "carried",
            times=u.small_in_large,
            whole=f"{figures(Fraction(whole))} {u.large}",
            over=u.written_small(rest),
        ),
    )


def _misread(u: Weights, n: Numbers, in_large: int) -> Fraction:
    """Return what comes out where so many of the small unit are taken to make the large one."""
    return (in_large * n[u.large_name] + n[u.small_name]) * n["trays"]


def _behind_the_point(u: Weights, n: Numbers, parts: int) -> Fraction:
    """Return what comes out where the small unit is written behind the point, as so many parts."""
    return u.small_in_large * (n[u.large_name] + n[u.small_name] / parts) * n["trays"]


def _own_mixups(u: Weights) -> dict[str, Callable[[Numbers], Fraction | None]]:
    """Return the wrong methods of one system: what pounds and ounces invite, kilograms and grams do not."""
    if u.system == "us":
        return {
            "ounces_as_tenths": lambda n: _behind_the_point(u, n, 10),
            "ounces_as_hundredths": lambda n: _behind_the_point(u, n, 100),
            "twelve_ounces_to_a_pound": lambda n: _misread(u, n, 12),
            "ten_ounces_to_a_pound": lambda n: _misread(u, n, 10),
        }
    return {
        "hundred_grams_for_a_kilogram": lambda n: _misread(u, n, 100),
        "one_tray_only": partial(_one_tray, u),
        "kilograms_added": lambda n: u.small_in_large * n["trays"] + _one_tray(u, n),
    }


def _mixed_units(u: Weights, whole: Range, over: Range) -> NumericFamily:
    return NumericFamily(
        name="mixed_units",
        level="two steps",
        unit=u.small,
        system=u.system,
        ranges={
            u.large_name: whole,
            u.small_name: over,
            "trays": span(2, 8, "1/2", "trays made"),
        },
        words=("food",),
        ask=partial(_ask_mixed, u),
        right=lambda n: _one_tray(u, n) * n["trays"],
        solve=partial(_solve_mixed, u),
        wrong={
            **_own_mixups(u),
            "only_pounds_multiplied": lambda n: u.small_in_large * n[u.large_name] * n["trays"] + n[u.small_name],
            "only_ounces_multiplied": lambda n: u.small_in_large * n[u.large_name] + n[u.small_name] * n["trays"],
        },
        tolerance=u.small_tolerance,
        formula="(pounds × 16 + ounces) × number",
        checked_against="OpenStax Prealgebra 2e, section 7.5: 3 × 1 lb 8 oz = 4 lb 8 oz.",
    )


MIXED_UNITS = replace(
    _mixed_units(
        POUND_WEIGHTS,
        span(1, 8, 1, "whole pounds of one tray"),
        span(1, 15, "1/2", "ounces over, of one tray"),
    ),
    other=_mixed_units(
        KILOGRAM_WEIGHTS,
        span(1, 4, 1, "whole kilograms of one tray"),
        span(50, 950, 10, "grams over, of one tray"),
    ),
)
