"""What is left of what was bought: the yield, two losses one after the other, and what the usable part costs."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import CENTS, THREE_FIGURES, within
from trainer.kitchen.quiz.wording import any_of, dollars, figures, mixed, pounds, roughly
from trainer.recipe_math.buying import amount_to_buy, edible_cost
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say
from trainer.recipe_math.units import UNITS
from trainer.recipe_math.yields import two_step_share, yield_percent

GREENS = any_of("carrots|leeks|celery|broccoli|cabbage|pumpkin|fennel|beetroot|kale|potatoes")
HALF_PERCENT = within("1/4", "A quarter of a percent: yields are written to the half.")


def _bought(n: Numbers) -> Fraction:
    """Return the ounces that were bought."""
    return 16 * n["bought_pounds"]


def _yield(n: Numbers) -> Fraction:
    bought, trim = Quantity(n["bought_pounds"], UNITS["lb"]), Quantity(n["trim_ounces"], UNITS["oz"])
    return yield_percent(bought, bought - trim)


def _ask_yield(n: Numbers, w: Words) -> str:
    return say(
        "You trim {bought} of {food}. The trim weighs {trim} oz. What is the yield: the part you keep, in percent?",
        bought=pounds(n["bought_pounds"]),
        food=w["food"],
        trim=mixed(n["trim_ounces"]),
    )


def _solve_yield(n: Numbers) -> tuple[str, ...]:
    bought, kept = _bought(n), _bought(n) - n["trim_ounces"]
    return (
        say("In ounces: {bought} lb × 16 = {result} oz.", bought=figures(n["bought_pounds"]), result=figures(bought)),
        say(
            "What you keep: {bought} oz - {trim} oz = {result} oz.",
            bought=figures(bought),
            trim=figures(n["trim_ounces"]),
            result=figures(kept),
        ),
        say(
            "Over what you bought: {kept} / {bought} × 100 = {result} %.",
            kept=figures(kept),
            bought=figures(bought),
            result=roughly(100 * kept / bought),
        ),
    )


YIELD_PERCENT = Sum(
    name="yield_percent",
    title=say("The yield of a trimmed food"),
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
            say("You gave the part that is trimmed away. The yield is the part you keep."),
            say("Gives the trim as a percentage instead of the yield."),
        ),
        WrongWay(
            "upside_down",
            lambda n: 100 * _bought(n) / (_bought(n) - n["trim_ounces"]),
            say("You divided what you bought by what you keep. It is the other way around."),
            say("Turns the fraction upside down."),
        ),
        WrongWay(
            "trim_over_usable",
            lambda n: 100 * n["trim_ounces"] / (_bought(n) - n["trim_ounces"]),
            say("You divided the trim by what you keep. Divide what you keep by what you bought."),
            say("Divides the trim by the usable part."),
        ),
        WrongWay(
            "ounces_as_tenths",
            lambda n: 100 * (n["bought_pounds"] - n["trim_ounces"] / 10) / n["bought_pounds"],
            say("You took the ounces off as tenths of a pound. An ounce is a sixteenth."),
            say("Writes ounces as tenths of a pound."),
        ),
        WrongWay(
            "usable_over_trim",
            lambda n: 100 * (_bought(n) - n["trim_ounces"]) / n["trim_ounces"],
            say("You divided by the trim. Divide by what you bought."),
            say("Divides the usable part by the trim."),
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
    return say(
        "You need {weight} kg of {food}, trimmed and cooked. Trimming leaves {trimmed} % of what you buy. "
        "Cooking leaves {cooked} % of what is trimmed. How many kilograms do you buy?",
        weight=figures(n["ready_kilograms"]),
        food=w["food"],
        trimmed=figures(n["trimmed_percent"]),
        cooked=figures(n["cooked_percent"]),
    )


def _solve_two_steps(n: Numbers) -> tuple[str, ...]:
    ready, before_heat = n["ready_kilograms"], n["ready_kilograms"] / _cooked(n)
    return (
        say(
            "Go backwards. Before the heat: {weight} kg / {cooked} × 100 = {result} kg.",
            weight=figures(ready),
            cooked=figures(n["cooked_percent"]),
            result=roughly(before_heat),
        ),
        say(
            "Before trimming, divide by that share too: {weight} / ({cooked} / 100) / ({trimmed} / 100) = {result} kg.",
            weight=figures(ready),
            cooked=figures(n["cooked_percent"]),
            trimmed=figures(n["trimmed_percent"]),
            result=roughly(_two_step_buy(n)),
        ),
        say("Check: you buy more than you trim, and you trim more than you serve."),
    )


TWO_STEP_YIELD = Sum(
    name="two_step_yield",
    title=say("How much to buy when trimming and cooking both take some"),
    level="in a shift",
    unit="kg",
    ranges={
        "ready_kilograms": span(2, 30, "1/4", "weight wanted, trimmed and cooked, in kilograms"),
        "trimmed_percent": span(60, 95, 1, "share left by trimming, in percent of what is bought"),
        "cooked_percent": span(55, 95, 1, "share left by cooking, in percent of what is trimmed"),
    },
    words={"food": any_of("beef shoulder|lamb leg|pork neck|turnips|mushrooms|spinach|cabbage|leeks|pumpkin|onions")},
    ask=_ask_two_steps,
    right=_two_step_buy,
    solve=_solve_two_steps,
    wrong=(
        WrongWay(
            "shares_averaged",
            lambda n: 2 * n["ready_kilograms"] / (_trimmed(n) + _cooked(n)),
            say("You took the middle of the two shares. Divide by one, then by the other."),
            say("Averages the two shares."),
        ),
        WrongWay(
            "losses_added",
            lambda n: n["ready_kilograms"] / (_trimmed(n) + _cooked(n) - 1) if _trimmed(n) + _cooked(n) > 1 else None,
            say("You added the two losses. The second is a share of less: divide by one share, then by the other."),
            say("Adds two losses that are shares of different weights."),
        ),
        WrongWay(
            "trimming_only",
            lambda n: n["ready_kilograms"] / _trimmed(n),
            say("You left out what cooking takes. Divide by both shares."),
            say("Uses the first share alone."),
        ),
        WrongWay(
            "cooking_only",
            lambda n: n["ready_kilograms"] / _cooked(n),
            say("You left out what trimming takes. Divide by both shares."),
            say("Uses the second share alone."),
        ),
        WrongWay(
            "multiplied_by_shares",
            lambda n: n["ready_kilograms"] * _trimmed(n) * _cooked(n),
            say("You multiplied by the shares. Divide: you must buy more than you serve."),
            say("Multiplies by the shares instead of dividing."),
        ),
        WrongWay(
            "shares_summed",
            lambda n: n["ready_kilograms"] / (_trimmed(n) + _cooked(n)),
            say("You divided by the sum of the shares. Divide by one, then by the other."),
            say("Divides by the sum of the shares."),
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="ready weight / (share after trimming × share after cooking)",
    checked_against="Theory only: one division after the other; no published worked example was found.",
)


def _usable(n: Numbers) -> Fraction:
    return n["usable_percent"] / 100


def _ask_cost(n: Numbers, w: Words) -> str:
    return say(
        "A pound of {food} costs {price} as purchased. You can use {percent} % of it. What does a usable pound cost?",
        food=w["food"],
        price=dollars(n["price_dollars"]),
        percent=figures(n["usable_percent"]),
    )


def _solve_cost(n: Numbers) -> tuple[str, ...]:
    price, percent = n["price_dollars"], figures(n["usable_percent"])
    return (
        say("Of each pound you can use {percent} / 100 of a pound.", percent=percent),
        say(
            "Divide the price by that share: {price} / {percent} × 100 = {result}: {cost}.",
            price=figures(price),
            percent=percent,
            result=roughly(price / _usable(n)),
            cost=dollars(price / _usable(n)),
        ),
        say("Check: a usable pound costs more than a pound as purchased."),
    )


EDIBLE_COST = Sum(
    name="edible_cost",
    title=say("What a usable pound costs"),
    level="one step",
    unit="$",
    ranges={
        "price_dollars": span(2, 24, "1/20", "price of a pound as purchased, in dollars"),
        "usable_percent": span(45, 94, 1, "edible share, in percent"),
    },
    words={"food": any_of("beef loin|lamb leg|salmon|duck|carrots|broccoli|artichokes|asparagus|pork neck|cod")},
    ask=_ask_cost,
    right=lambda n: edible_cost(Quantity(n["price_dollars"], UNITS["$"]), _usable(n)).amount,
    solve=_solve_cost,
    wrong=(
        WrongWay(
            "multiplied_by_edible_share",
            lambda n: n["price_dollars"] * _usable(n),
            say("You multiplied by the edible share. Divide by it: the usable part carries the whole price."),
            say("Multiplies by the edible share instead of dividing."),
        ),
        WrongWay(
            "loss_added_on",
            lambda n: n["price_dollars"] * (2 - _usable(n)),
            say("You added the loss to the price. Divide by the edible share."),
            say("Adds the loss as a share of the price."),
        ),
        WrongWay(
            "divided_by_loss",
            lambda n: n["price_dollars"] / (1 - _usable(n)),
            say("You divided by the loss. Divide by the edible share, the part you keep."),
            say("Divides by the loss instead of the edible share."),
        ),
        WrongWay(
            "loss_only",
            lambda n: n["price_dollars"] * (1 - _usable(n)),
            say("You gave what the loss cost. Divide the price by the edible share."),
            say("Gives the cost of the loss."),
        ),
        WrongWay(
            "loss_forgotten",
            lambda n: n["price_dollars"],
            say("You gave the price as purchased. A part is lost, so a usable pound costs more."),
            say("Leaves the loss out."),
        ),
    ),
    tolerance=CENTS,
    formula="price / edible share",
    checked_against="Common practice in food cost texts: $10.00 a pound at 80 % is $12.50.",
)
