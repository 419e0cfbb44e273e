"""What is left of what was bought: the yield, two losses one after the other, and what the usable part costs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import CENTS, HALF_PERCENT
from trainer.kitchen.quiz.wording import dollars, figures, roughly
from trainer.recipe_math.buying import amount_to_buy, edible_cost
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS
from trainer.recipe_math.yields import two_step_share, yield_percent

HUNDREDTH = Fraction(1, 100)


def _bought(u: Weights, n: Numbers) -> Fraction:
    """Return what was bought in the unit the trim is weighed in."""
    return u.small_in_large * u.of("bought", n)


def _trim(u: Weights, n: Numbers) -> Fraction:
    return u.small_of("trim", n)


def _yield(u: Weights, n: Numbers) -> Fraction:
    bought, trim = Quantity(u.of("bought", n), UNITS[u.large]), Quantity(_trim(u, n), UNITS[u.small])
    return yield_percent(bought, bought - trim)


def _ask_yield(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        bought=u.written(u.of("bought", n)),
        food=w["food"],
        trim=u.written_small(_trim(u, n)),
    )


def _solve_yield(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    bought, trim = _bought(u, n), _trim(u, n)
    return (
        sentence(
            "bought_in_small",
            bought=figures(u.of("bought", n)),
            large=u.large,
            times=u.small_in_large,
            result=figures(bought),
            unit=u.small,
        ),
        sentence(
            "what_you_keep",
            bought=figures(bought),
            trim=figures(trim),
            result=figures(bought - trim),
            unit=u.small,
        ),
        sentence(
            "over_what_you_bought",
            kept=figures(bought - trim),
            bought=figures(bought),
            result=roughly(100 * (bought - trim) / bought),
        ),
    )


def _yield_percent(u: Weights, bought: Range, trim: Range) -> NumericFamily:
    tenths = {
        "ounces_as_tenths": lambda n: 100 * (u.of("bought", n) - _trim(u, n) / 10) / u.of("bought", n)
    } if u.system == "us" else {}  # fmt: skip
    return NumericFamily(
        name="yield_percent",
        level="two steps",
        unit="%",
        system=u.system,
        ranges={f"bought_{u.large_name}": bought, f"trim_{u.small_name}": trim},
        words=("food",),
        ask=partial(_ask_yield, u),
        right=partial(_yield, u),
        solve=partial(_solve_yield, u),
        wrong={
            "trim_percent": lambda n: 100 * _trim(u, n) / _bought(u, n),
            "upside_down": lambda n: 100 * _bought(u, n) / (_bought(u, n) - _trim(u, n)),
            "trim_over_usable": lambda n: 100 * _trim(u, n) / (_bought(u, n) - _trim(u, n)),
            **tenths,
            "usable_over_trim": lambda n: 100 * (_bought(u, n) - _trim(u, n)) / _trim(u, n),
        },
        tolerance=HALF_PERCENT,
        formula="(as purchased - trim) / as purchased × 100",
        checked_against="The Ultimate Guide to Recipe Calculation (Culinary Institute of America): 80 oz of carrots "
        "with 8.8 oz of trim, 89 %.",
        fits=lambda n: 3 * _bought(u, n) <= 100 * _trim(u, n) <= 60 * _bought(u, n),
    )


YIELD_PERCENT = replace(
    _yield_percent(
        POUND_WEIGHTS,
        span("3/2", 20, "1/4", "weight as purchased, in pounds"),
        span(5, 120, "1/2", "weight of the trim, in ounces"),
    ),
    other=_yield_percent(
        KILOGRAM_WEIGHTS,
        span("3/4", 9, "1/20", "weight as purchased, in kilograms"),
        span(100, 3500, 5, "weight of the trim, in grams"),
    ),
)


def _trimmed(n: Numbers) -> Fraction:
    return n["trimmed_percent"] / 100


def _cooked(n: Numbers) -> Fraction:
    return n["cooked_percent"] / 100


def _two_step_buy(u: Weights, n: Numbers) -> Fraction:
    ready = Quantity(u.of("ready", n), UNITS[u.large])
    return amount_to_buy(ready, two_step_share(_trimmed(n), _cooked(n))).amount


def _ask_two_steps(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        weight=u.written(u.of("ready", n)),
        food=w["food"],
        trimmed=figures(n["trimmed_percent"]),
        cooked=figures(n["cooked_percent"]),
        unit=u.large,
    )


def _solve_two_steps(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    ready = u.of("ready", n)
    return (
        sentence(
            "go_backwards_before_the",
            weight=figures(ready),
            cooked=figures(n["cooked_percent"]),
            result=roughly(ready / _cooked(n)),
            unit=u.large,
        ),
        sentence(
            "before_trimming_divide_by",
            weight=figures(ready),
            cooked=figures(n["cooked_percent"]),
            trimmed=figures(n["trimmed_percent"]),
            result=roughly(_two_step_buy(u, n)),
            unit=u.large,
        ),
        sentence("check_you_buy_more"),
    )


def _losses_added(ready: Fraction, n: Numbers) -> Fraction | None:
    left = _trimmed(n) + _cooked(n) - 1
    return ready / left if left > 0 else None


def _two_step_yield(u: Weights, ready: Range) -> NumericFamily:
    return NumericFamily(
        name="two_step_yield",
        level="in a shift",
        unit=u.large,
        system=u.system,
        ranges={
            f"ready_{u.large_name}": ready,
            "trimmed_percent": span(60, 95, 1, "share left by trimming, in percent of what is bought"),
            "cooked_percent": span(55, 95, 1, "share left by cooking, in percent of what is trimmed"),
        },
        words=("food",),
        ask=partial(_ask_two_steps, u),
        right=partial(_two_step_buy, u),
        solve=partial(_solve_two_steps, u),
        wrong={
            "shares_averaged": lambda n: 2 * u.of("ready", n) / (_trimmed(n) + _cooked(n)),
            "losses_added": lambda n: _losses_added(u.of("ready", n), n),
            "trimming_only": lambda n: u.of("ready", n) / _trimmed(n),
            "cooking_only": lambda n: u.of("ready", n) / _cooked(n),
            "multiplied_by_shares": lambda n: u.of("ready", n) * _trimmed(n) * _cooked(n),
            "shares_summed": lambda n: u.of("ready", n) / (_trimmed(n) + _cooked(n)),
        },
        early=lambda n: (to_nearest(u.of("ready", n) / _cooked(n), HUNDREDTH) / _trimmed(n),),
        tolerance=u.tolerance,
        formula="ready weight / (share after trimming × share after cooking)",
        checked_against="Theory only: one division after the other; no published worked example was found.",
    )


TWO_STEP_YIELD = replace(
    _two_step_yield(KILOGRAM_WEIGHTS, span(1, 12, "1/10", "weight wanted, trimmed and cooked, in kilograms")),
    other=_two_step_yield(POUND_WEIGHTS, span(2, 25, "1/4", "weight wanted, trimmed and cooked, in pounds")),
)


def _usable(n: Numbers) -> Fraction:
    return n["usable_percent"] / 100


def _price(u: Weights, n: Numbers) -> Fraction:
    """Return the price of a pound or a kilogram as purchased."""
    return n[PRICES[u.system]]


PRICES = {"us": "price_dollars", "metric": "kilogram_dollars"}
"""What the price of the large unit is called among the numbers drawn."""


def _ask_cost(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        unit=u.large,
        food=w["food"],
        price=dollars(_price(u, n)),
        percent=figures(n["usable_percent"]),
    )


def _solve_cost(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    price, percent = _price(u, n), figures(n["usable_percent"])
    return (
        sentence("you_can_use_of_each", percent=percent, unit=u.large),
        sentence(
            "divide_the_price_by",
            price=figures(price),
            percent=percent,
            result=roughly(price / _usable(n)),
            cost=dollars(price / _usable(n)),
        ),
        sentence("check_it_costs_more", unit=u.large),
    )


def _edible_cost(u: Weights, price: Range) -> NumericFamily:
    return NumericFamily(
        name="edible_cost",
        level="one step",
        unit="$",
        system=u.system,
        ranges={PRICES[u.system]: price, "usable_percent": span(45, 94, 1, "edible share, in percent")},
        words=("food",),
        ask=partial(_ask_cost, u),
        right=lambda n: edible_cost(Quantity(_price(u, n), UNITS["$"]), _usable(n)).amount,
        solve=partial(_solve_cost, u),
        wrong={
            "multiplied_by_edible_share": lambda n: _price(u, n) * _usable(n),
            "loss_added_on": lambda n: _price(u, n) * (2 - _usable(n)),
            "divided_by_loss": lambda n: _price(u, n) / (1 - _usable(n)),
            "loss_only": lambda n: _price(u, n) * (1 - _usable(n)),
            "loss_forgotten": partial(_price, u),
        },
        tolerance=CENTS,
        formula="price / edible share",
        checked_against="Common practice in food cost texts: $10.00 a pound at 80 % is $12.50.",
    )


EDIBLE_COST = replace(
    _edible_cost(POUND_WEIGHTS, span(2, 24, "1/20", "price of a pound as purchased, in dollars")),
    other=_edible_cost(KILOGRAM_WEIGHTS, span(4, 50, "1/10", "price of a kilogram as purchased, in dollars")),
)
