"""How much to buy: by weight with a trimming loss, and in whole packs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial
from math import ceil, floor

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.buying import amount_to_buy, packs_to_buy
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS


def _share(n: Numbers) -> Fraction:
    return n["edible_percent"] / 100


def _ask_amount(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        weight=u.written(u.of("edible", n)),
        food=w["food"],
        work=w["work"],
        percent=figures(n["edible_percent"]),
        unit=u.large,
    )


def _solve_amount(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    edible, percent = u.of("edible", n), figures(n["edible_percent"])
    return (
        sentence("the_edible_share_is", percent=percent),
        sentence(
            "divide_by_the_share",
            weight=figures(edible),
            percent=percent,
            result=roughly(edible / _share(n)),
            unit=u.large,
        ),
        sentence("check_you_buy_more"),
    )


def _amount_to_buy(u: Weights, edible: Range) -> NumericFamily:
    return NumericFamily(
        name="amount_to_buy",
        level="one step",
        unit=u.large,
        system=u.system,
        ranges={
            f"edible_{u.large_name}": edible,
            "edible_percent": span(45, 92, 1, "edible share: the part left after trimming, in percent"),
        },
        words=("food", "work"),
        ask=partial(_ask_amount, u),
        right=lambda n: amount_to_buy(Quantity(u.of("edible", n), UNITS[u.large]), _share(n)).amount,
        solve=partial(_solve_amount, u),
        wrong={
            "multiplied_by_edible_share": lambda n: u.of("edible", n) * _share(n),
            "loss_added_on": lambda n: u.of("edible", n) * (2 - _share(n)),
            "divided_by_loss": lambda n: u.of("edible", n) / (1 - _share(n)),
            "loss_forgotten": lambda n: u.of("edible", n),
            "loss_only": lambda n: u.of("edible", n) * (1 - _share(n)),
            "share_taken_off": lambda n: u.of("edible", n) - _share(n),
        },
        tolerance=u.tolerance.named_within("1/200"),
        formula="ready weight / edible share",
        checked_against="Computed: 14.45 kg at 88.5 % is 16.33 kg. A strip loin of 5.2 kg gives 4.6 kg, 88.5 % "
        "(G. Wall, Trade Calculations, Objective 4).",
    )


AMOUNT_TO_BUY = replace(
    _amount_to_buy(KILOGRAM_WEIGHTS, span(1, 15, "1/10", "ready weight needed, in kilograms")),
    other=_amount_to_buy(POUND_WEIGHTS, span(2, 30, "1/4", "ready weight needed, in pounds")),
)


def _cans(n: Numbers) -> Fraction:
    return n["cans_per_hundred"] * n["guests"] / 100


def _cases(n: Numbers) -> Fraction:
    return _cans(n) / n["cans_per_case"]


def _packs_fit(n: Numbers) -> bool:
    """Return whether the cases come to a number of two places, and to two cases or more but no whole number."""
    cases = _cases(n)
    return cases >= 2 and cases.denominator != 1 and (cases * 100).denominator == 1


def _ask_packs(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        cans=figures(n["cans_per_hundred"]),
        food=w["food"],
        in_a_case=n["cans_per_case"],
        guests=n["guests"],
    )


def _solve_packs(n: Numbers) -> tuple[Sentence, ...]:
    cans, cases = _cans(n), _cases(n)
    return (
        sentence(
            "cans_cans",
            cans=figures(n["cans_per_hundred"]),
            guests=n["guests"],
            result=figures(cans),
        ),
        sentence(
            "cases_cases",
            cans=figures(cans),
            in_a_case=n["cans_per_case"],
            result=figures(cases),
        ),
        sentence("round_up_for_you", answer=ceil(cases)),
    )


PACKS_TO_BUY = NumericFamily(
    name="packs_to_buy",
    level="two steps",
    unit="case",
    ranges={
        "cans_per_hundred": span(2, 12, "1/2", "cans a hundred guests need"),
        "guests": span(50, 300, 2, "guests expected"),
        "cans_per_case": span(4, 12, 2, "cans in a case"),
    },
    words=("food",),
    ask=_ask_packs,
    told=lambda n: (n["cans_per_hundred"], n["cans_per_case"]),
    right=lambda n: Fraction(packs_to_buy(_cans(n), n["cans_per_case"])),
    solve=_solve_packs,
    wrong={
        "rounded_down": lambda n: Fraction(floor(_cases(n))),
        "not_rounded": _cases,
        "multiplied_by_pack": lambda n: _cans(n) * n["cans_per_case"],
        "cans_not_cases": lambda n: Fraction(ceil(_cans(n))),
        "one_spare": lambda n: Fraction(ceil(_cases(n)) + 1),
        "guests_not_hundreds": lambda n: n["cans_per_hundred"] * n["guests"] / n["cans_per_case"],
    },
    off=("copied",),
    tolerance=WHOLE,
    formula="cans / cans in a case, rounded up",
    checked_against="USDA Food Buying Guide training slides: 3.0 cans × 4.6 × 2 = 27.6 cans, buy 28.",
    fits=_packs_fit,
)
