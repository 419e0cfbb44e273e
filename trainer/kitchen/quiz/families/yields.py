"""What is left of what was bought: the yield, two losses one after the other, and what the usable part costs."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import CENTS, THREE_FIGURES, within
from trainer.kitchen.quiz.wording import comes_to, dollars, figures, mixed, pounds
from trainer.recipe_math.buying import amount_to_buy, edible_cost
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS
from trainer.recipe_math.yields import two_step_share, yield_percent

GREENS = "carrots|leeks|celery|broccoli|cabbage|pumpkin|fennel|beetroot|kale|potatoes"
HALF_PERCENT = within("1/4", "A quarter of a percent: yields are written to the half.")


def _bought(n: Numbers) -> Fraction:
    """Return the ounces that were bought."""
    return 16 * n["bought_pounds"]


def _yield(n: Numbers) -> Fraction:
    bought, trim = Quantity(n["bought_pounds"], UNITS["lb"]), Quantity(n["trim_ounces"], UNITS["oz"])
    return yield_percent(bought, bought - trim)


def _ask_yield(n: Numbers, w: Words) -> str:
    return (
        f"You trim {pounds(n['bought_pounds'])} of {w['food']}. The trim weighs {mixed(n['trim_ounces'])} oz. "
        "What is the yield: the part you keep, in percent?"
    )


def _solve_yield(n: Numbers) -> tuple[str, ...]:
    bought, kept = _bought(n), _bought(n) - n["trim_ounces"]
    return (
        f"In ounces: {figures(n['bought_pounds'])} lb × 16 = {figures(bought)} oz.",
        f"What you keep: {figures(bought)} oz - {figures(n['trim_ounces'])} oz = {figures(kept)} oz.",
        f"Over what you bought: {figures(kept)} / {figures(bought)} × 100 {comes_to(100 * kept / bought)} %.",
    )


YIELD_PERCENT = Sum(
    name="yield_percent",
    title="The yield of a trimmed food",
    level="two steps",
    unit="%",
    ranges={
        "bought_pounds": span("3/2", 20, "1/4", "weight as purchased, in pounds"),
        "trim_ounces": span(5, 120, "1/2", "weight of the trim, in ounces"),
    },
    words={"food": GREENS},
    ask=_ask_yield,
    right=_yield,
    solve=_solve_yield,
    wrong=(
        WrongWay(
            "trim_percent",
            lambda n: 100 * n["trim_ounces"] / _bought(n),
            "You gave the part that is trimmed away. The yield is the part you keep.",
            "Gives the trim as a percentage instead of the yield.",
        ),
        WrongWay(
            "upside_down",
            lambda n: 100 * _bought(n) / (_bought(n) - n["trim_ounces"]),
            "You divided what you bought by what you keep. It is the other way around.",
            "Turns the fraction upside down.",
        ),
        WrongWay(
            "trim_over_usable",
            lambda n: 100 * n["trim_ounces"] / (_bought(n) - n["trim_ounces"]),
            "You divided the trim by what you keep. Divide what you keep by what you bought.",
            "Divides the trim by the usable part.",
        ),
        WrongWay(
            "ounces_as_tenths",
            lambda n: 100 * (n["bought_pounds"] - n["trim_ounces"] / 10) / n["bought_pounds"],
            "You took the ounces off as tenths of a pound. An ounce is a sixteenth.",
            "Writes ounces as tenths of a pound.",
        ),
        WrongWay(
            "usable_over_trim",
            lambda n: 100 * (_bought(n) - n["trim_ounces"]) / n["trim_ounces"],
            "You divided by the trim. Divide by what you bought.",
            "Divides the usable part by the trim.",
        ),
    ),
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


def _ask_two_steps(n: Numbers, w: Words) -> str:
    return (
        f"You need {figures(n['ready_kilograms'])} kg of {w['food']}, trimmed and cooked. "
        f"Trimming leaves {figures(n['trimmed_percent'])} % of what you buy. "
        f"Cooking leaves {figures(n['cooked_percent'])} % of what is trimmed. How many kilograms do you buy?"
    )


def _solve_two_steps(n: Numbers) -> tuple[str, ...]:
    ready, before_heat = n["ready_kilograms"], n["ready_kilograms"] / _cooked(n)
    return (
        f"Go backwards. Before the heat: {figures(ready)} kg / {figures(n['cooked_percent'])} × 100 "
        f"{comes_to(before_heat)} kg.",
        f"Before trimming, divide by that share too: {figures(ready)} / ({figures(n['cooked_percent'])} / 100) / "
        f"({figures(n['trimmed_percent'])} / 100) {comes_to(_two_step_buy(n))} kg.",
        "Check: you buy more than you trim, and you trim more than you serve.",
    )


TWO_STEP_YIELD = Sum(
    name="two_step_yield",
    title="How much to buy when trimming and cooking both take some",
    level="in a shift",
    unit="kg",
    ranges={
        "ready_kilograms": span(2, 30, "1/4", "weight wanted, trimmed and cooked, in kilograms"),
        "trimmed_percent": span(60, 95, 1, "share left by trimming, in percent of what is bought"),
        "cooked_percent": span(55, 95, 1, "share left by cooking, in percent of what is trimmed"),
    },
    words={"food": "beef shoulder|lamb leg|pork neck|turnips|mushrooms|spinach|cabbage|leeks|pumpkin|onions"},
    ask=_ask_two_steps,
    right=_two_step_buy,
    solve=_solve_two_steps,
    wrong=(
        WrongWay(
            "shares_averaged",
            lambda n: 2 * n["ready_kilograms"] / (_trimmed(n) + _cooked(n)),
            "You took the middle of the two shares. Divide by one, then by the other.",
            "Averages the two shares.",
        ),
        WrongWay(
            "losses_added",
            lambda n: n["ready_kilograms"] / (_trimmed(n) + _cooked(n) - 1) if _trimmed(n) + _cooked(n) > 1 else None,
            "You added the two losses. The second is a share of less: divide by one share, then by the other.",
            "Adds two losses that are shares of different weights.",
        ),
        WrongWay(
            "trimming_only",
            lambda n: n["ready_kilograms"] / _trimmed(n),
            "You left out what cooking takes. Divide by both shares.",
            "Uses the first share alone.",
        ),
        WrongWay(
            "cooking_only",
            lambda n: n["ready_kilograms"] / _cooked(n),
            "You left out what trimming takes. Divide by both shares.",
            "Uses the second share alone.",
        ),
        WrongWay(
            "multiplied_by_shares",
            lambda n: n["ready_kilograms"] * _trimmed(n) * _cooked(n),
            "You multiplied by the shares. Divide: you must buy more than you serve.",
            "Multiplies by the shares instead of dividing.",
        ),
        WrongWay(
            "shares_summed",
            lambda n: n["ready_kilograms"] / (_trimmed(n) + _cooked(n)),
            "You divided by the sum of the shares. Divide by one, then by the other.",
            "Divides by the sum of the shares.",
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="ready weight / (share after trimming × share after cooking)",
    checked_against="Theory only: one division after the other; no published worked example was found.",
)


def _usable(n: Numbers) -> Fraction:
    return n["usable_percent"] / 100


def _ask_cost(n: Numbers, w: Words) -> str:
    return (
        f"A pound of {w['food']} costs {dollars(n['price_dollars'])} as purchased. "
        f"You can use {figures(n['usable_percent'])} % of it. What does a usable pound cost?"
    )


def _solve_cost(n: Numbers) -> tuple[str, ...]:
    price, percent = n["price_dollars"], figures(n["usable_percent"])
    return (
        f"Of each pound you can use {percent} / 100 of a pound.",
        f"Divide the price by that share: {figures(price)} / {percent} × 100 {comes_to(price / _usable(n))}: "
        f"{dollars(price / _usable(n))}.",
        "Check: a usable pound costs more than a pound as purchased.",
    )


EDIBLE_COST = Sum(
    name="edible_cost",
    title="What a usable pound costs",
    level="one step",
    unit="$",
    ranges={
        "price_dollars": span(2, 24, "1/20", "price of a pound as purchased, in dollars"),
        "usable_percent": span(45, 94, 1, "edible share, in percent"),
    },
    words={"food": "beef loin|lamb leg|salmon|duck|carrots|broccoli|artichokes|asparagus|pork neck|cod"},
    ask=_ask_cost,
    right=lambda n: edible_cost(Quantity(n["price_dollars"], UNITS["$"]), _usable(n)).amount,
    solve=_solve_cost,
    wrong=(
        WrongWay(
            "multiplied_by_edible_share",
            lambda n: n["price_dollars"] * _usable(n),
            "You multiplied by the edible share. Divide by it: the usable part carries the whole price.",
            "Multiplies by the edible share instead of dividing.",
        ),
        WrongWay(
            "loss_added_on",
            lambda n: n["price_dollars"] * (2 - _usable(n)),
            "You added the loss to the price. Divide by the edible share.",
            "Adds the loss as a share of the price.",
        ),
        WrongWay(
            "divided_by_loss",
            lambda n: n["price_dollars"] / (1 - _usable(n)),
            "You divided by the loss. Divide by the edible share, the part you keep.",
            "Divides by the loss instead of the edible share.",
        ),
        WrongWay(
            "loss_only",
            lambda n: n["price_dollars"] * (1 - _usable(n)),
            "You gave what the loss cost. Divide the price by the edible share.",
            "Gives the cost of the loss.",
        ),
        WrongWay(
            "loss_forgotten",
            lambda n: n["price_dollars"],
            "You gave the price as purchased. A part is lost, so a usable pound costs more.",
            "Leaves the loss out.",
        ),
    ),
    tolerance=CENTS,
    formula="price / edible share",
    checked_against="Common practice in food cost texts: $10.00 a pound at 80 % is $12.50.",
)
