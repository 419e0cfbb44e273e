"""What is left of what was bought: the yield, two losses one after the other, and what the usable part costs."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import CENTS, HALF_PERCENT, KILOGRAMS
from trainer.kitchen.quiz.wording import dollars, figures, mixed, pounds, roughly
from trainer.recipe_math.buying import amount_to_buy, edible_cost
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS
from trainer.recipe_math.yields import two_step_share, yield_percent

HUNDREDTH = Fraction(1, 100)


def _bought(n: Numbers) -> Fraction:
    """Return the ounces that were bought."""
    return 16 * n["bought_pounds"]


def _yield(n: Numbers) -> Fraction:
    bought, trim = Quantity(n["bought_pounds"], UNITS["lb"]), Quantity(n["trim_ounces"], UNITS["oz"])
    return yield_percent(bought, bought - trim)


def _ask_yield(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        bought=pounds(n["bought_pounds"]),
        food=w["food"],
        trim=mixed(n["trim_ounces"]),
    )


def _solve_yield(n: Numbers) -> tuple[Sentence, ...]:
    bought, kept = _bought(n), _bought(n) - n["trim_ounces"]
    return (
        sentence("in_ounces_lb_oz", bought=figures(n["bought_pounds"]), result=figures(bought)),
        sentence(
            "what_you_keep_oz",
            bought=figures(bought),
            trim=figures(n["trim_ounces"]),
            result=figures(kept),
        ),
        sentence(
            "over_what_you_bought",
            kept=figures(kept),
            bought=figures(bought),
            result=roughly(100 * kept / bought),
        ),
    )


YIELD_PERCENT = NumericFamily(
    name="yield_percent",
    level="two steps",
    unit="%",
    ranges={
        "bought_pounds": span("3/2", 20, "1/4", "weight as purchased, in pounds"),
        "trim_ounces": span(5, 120, "1/2", "weight of the trim, in ounces"),
    },
    words=("food",),
    ask=_ask_yield,
    right=_yield,
    solve=_solve_yield,
    wrong={
        "trim_percent": lambda n: 100 * n["trim_ounces"] / _bought(n),
        "upside_down": lambda n: 100 * _bought(n) / (_bought(n) - n["trim_ounces"]),
        "trim_over_usable": lambda n: 100 * n["trim_ounces"] / (_bought(n) - n["trim_ounces"]),
        "ounces_as_tenths": lambda n: 100 * (n["bought_pounds"] - n["trim_ounces"] / 10) / n["bought_pounds"],
        "usable_over_trim": lambda n: 100 * (_bought(n) - n["trim_ounces"]) / n["trim_ounces"],
    },
    tolerance=HALF_PERCENT,
    formula="(as purchased - trim) / as purchased × 100",
    checked_against="The Ultimate Guide to Recipe Calculation (Culinary Institute of America): 80 oz of carrots with "
    "8.8 oz of trim, 89 %.",
    fits=lambda n: 3 * _bought(n) <= 100 * n["trim_ounces"] <= 60 * _bought(n),
)


def _trimmed(n: Numbers) -> Fraction:
    return n["trimmed_percent"] / 100


def _cooked(n: Numbers) -> Fraction:
    return n["cooked_percent"] / 100


def _two_step_buy(n: Numbers) -> Fraction:
    ready = Quantity(n["ready_kilograms"], UNITS["kg"])
    return amount_to_buy(ready, two_step_share(_trimmed(n), _cooked(n))).amount


def _ask_two_steps(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        weight=figures(n["ready_kilograms"]),
        food=w["food"],
        trimmed=figures(n["trimmed_percent"]),
        cooked=figures(n["cooked_percent"]),
    )


def _solve_two_steps(n: Numbers) -> tuple[Sentence, ...]:
    ready, before_heat = n["ready_kilograms"], n["ready_kilograms"] / _cooked(n)
    return (
        sentence(
            "go_backwards_before_the",
            weight=figures(ready),
            cooked=figures(n["cooked_percent"]),
            result=roughly(before_heat),
        ),
        sentence(
            "before_trimming_divide_by",
            weight=figures(ready),
            cooked=figures(n["cooked_percent"]),
            trimmed=figures(n["trimmed_percent"]),
            result=roughly(_two_step_buy(n)),
        ),
        sentence("check_you_buy_more"),
    )


TWO_STEP_YIELD = NumericFamily(
    name="two_step_yield",
    level="in a shift",
    unit="kg",
    ranges={
        "ready_kilograms": span(2, 30, "1/4", "weight wanted, trimmed and cooked, in kilograms"),
        "trimmed_percent": span(60, 95, 1, "share left by trimming, in percent of what is bought"),
        "cooked_percent": span(55, 95, 1, "share left by cooking, in percent of what is trimmed"),
    },
    words=("food",),
    ask=_ask_two_steps,
    right=_two_step_buy,
    solve=_solve_two_steps,
    wrong={
        "shares_averaged": lambda n: 2 * n["ready_kilograms"] / (_trimmed(n) + _cooked(n)),
        "losses_added": lambda n: (
            n["ready_kilograms"] / (_trimmed(n) + _cooked(n) - 1) if _trimmed(n) + _cooked(n) > 1 else None
        ),
        "trimming_only": lambda n: n["ready_kilograms"] / _trimmed(n),
        "cooking_only": lambda n: n["ready_kilograms"] / _cooked(n),
        "multiplied_by_shares": lambda n: n["ready_kilograms"] * _trimmed(n) * _cooked(n),
        "shares_summed": lambda n: n["ready_kilograms"] / (_trimmed(n) + _cooked(n)),
    },
    early=lambda n: (to_nearest(n["ready_kilograms"] / _cooked(n), HUNDREDTH) / _trimmed(n),),
    tolerance=KILOGRAMS,
    formula="ready weight / (share after trimming × share after cooking)",
    checked_against="Theory only: one division after the other; no published worked example was found.",
)


def _usable(n: Numbers) -> Fraction:
    return n["usable_percent"] / 100


def _ask_cost(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        price=dollars(n["price_dollars"]),
        percent=figures(n["usable_percent"]),
    )


def _solve_cost(n: Numbers) -> tuple[Sentence, ...]:
    price, percent = n["price_dollars"], figures(n["usable_percent"])
    return (
        sentence("of_each_pound_you", percent=percent),
        sentence(
            "divide_the_price_by",
            price=figures(price),
            percent=percent,
            result=roughly(price / _usable(n)),
            cost=dollars(price / _usable(n)),
        ),
        sentence("check_a_usable_pound"),
    )


EDIBLE_COST = NumericFamily(
    name="edible_cost",
    level="one step",
    unit="$",
    ranges={
        "price_dollars": span(2, 24, "1/20", "price of a pound as purchased, in dollars"),
        "usable_percent": span(45, 94, 1, "edible share, in percent"),
    },
    words=("food",),
    ask=_ask_cost,
    right=lambda n: edible_cost(Quantity(n["price_dollars"], UNITS["$"]), _usable(n)).amount,
    solve=_solve_cost,
    wrong={
        "multiplied_by_edible_share": lambda n: n["price_dollars"] * _usable(n),
        "loss_added_on": lambda n: n["price_dollars"] * (2 - _usable(n)),
        "divided_by_loss": lambda n: n["price_dollars"] / (1 - _usable(n)),
        "loss_only": lambda n: n["price_dollars"] * (1 - _usable(n)),
        "loss_forgotten": lambda n: n["price_dollars"],
    },
    tolerance=CENTS,
    formula="price / edible share",
    checked_against="Common practice in food cost texts: $10.00 a pound at 80 % is $12.50.",
)
