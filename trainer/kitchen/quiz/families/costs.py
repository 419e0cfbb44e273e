"""Money on the plate: what a portion costs, the price on the menu, and food cost over a stretch of time."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, priced, sentence
from trainer.kitchen.quiz.tolerances import CENTS, TENTH_PERCENT
from trainer.kitchen.quiz.wording import dollars, figures, mixed, roughly
from trainer.recipe_math.costs import CostLine, UnitPrice, cost_of_period, food_cost_percent, menu_price
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS

CENT = Fraction(1, 100)


def _usable(n: Numbers) -> Fraction:
    return n["usable_percent"] / 100


def _money(amount: Fraction) -> Quantity:
    return Quantity(amount, UNITS["$"])


def _portion_cost(n: Numbers) -> Fraction:
    price, portion = UnitPrice.of(n["price_dollars"], "lb"), Quantity(n["portion_ounces"], UNITS["oz"])
    return CostLine(portion, price, _usable(n)).cost().amount


def _ask_portion(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        price=dollars(n["price_dollars"]),
        percent=figures(n["usable_percent"]),
        ounces=mixed(n["portion_ounces"]),
    )


def _solve_portion(n: Numbers) -> tuple[Sentence, ...]:
    price, percent, ounces = figures(n["price_dollars"]), figures(n["usable_percent"]), figures(n["portion_ounces"])
    return (
        sentence(
            "a_usable_pound",
            price=price,
            percent=percent,
            result=roughly(n["price_dollars"] / _usable(n)),
        ),
        sentence("a_portion_is_of", ounces=ounces),
        priced(
            sentence(
                "multiply_and_round_at",
                price=price,
                percent=percent,
                ounces=ounces,
                result=roughly(_portion_cost(n)),
            ),
            f"{dollars(_portion_cost(n))}.",
        ),
    )


COST_PER_PORTION = NumericFamily(
    name="cost_per_portion",
    level="two steps",
    unit="$",
    ranges={
        "price_dollars": span(3, 24, "1/20", "price of a pound as purchased, in dollars"),
        "usable_percent": span(40, 94, 1, "share that ends on the plate, in percent"),
        "portion_ounces": span(3, 12, "1/2", "size of a portion as served, in ounces"),
    },
    words=("food",),
    ask=_ask_portion,
    told=lambda n: (n["price_dollars"],),
    right=_portion_cost,
    solve=_solve_portion,
    early=lambda n: (to_nearest(n["price_dollars"] / _usable(n), CENT) * n["portion_ounces"] / 16,),
    early_is_right=True,
    wrong={
        "loss_forgotten": lambda n: n["price_dollars"] * n["portion_ounces"] / 16,
        "multiplied_by_edible_share": lambda n: n["price_dollars"] * _usable(n) * n["portion_ounces"] / 16,
        "loss_added_on": lambda n: n["price_dollars"] * (2 - _usable(n)) * n["portion_ounces"] / 16,
        "whole_pound_cost": lambda n: n["price_dollars"] / _usable(n),
        "ounces_as_tenths": lambda n: n["price_dollars"] / _usable(n) * n["portion_ounces"] / 10,
        "twelve_ounces_to_a_pound": lambda n: n["price_dollars"] / _usable(n) * n["portion_ounces"] / 12,
    },
    tolerance=CENTS,
    formula="price / edible share × portion",
    checked_against="Cooking-loss card of a lamb loin (a solved copy): $79.80 over 5 lb cooked, $15.96 a pound; 5 oz "
    "cost $4.99.",
)


def _food_cost(n: Numbers) -> Fraction:
    return n["cost_percent"] / 100


MENU_PRICE = NumericFamily(
    name="menu_price",
    level="one step",
    unit="$",
    ranges={
        "cost_dollars": span("3/2", 15, "1/100", "what the food on the plate costs, in dollars"),
        "cost_percent": span(22, 40, "1/2", "food cost wanted, in percent of the price"),
    },
    words=("dish",),
    ask=lambda n, w: sentence(
        "ask",
        dish=w["dish"],
        cost=dollars(n["cost_dollars"]),
        percent=figures(n["cost_percent"]),
    ),
    right=lambda n: menu_price(_money(n["cost_dollars"]), _food_cost(n)).amount,
    solve=lambda n: (
        sentence("of_the_price_is", percent=figures(n["cost_percent"]), cost=dollars(n["cost_dollars"])),
        sentence(
            "divide",
            cost=figures(n["cost_dollars"]),
            percent=figures(n["cost_percent"]),
            result=roughly(n["cost_dollars"] / _food_cost(n)),
            price=dollars(n["cost_dollars"] / _food_cost(n)),
        ),
    ),
    wrong={
        "percent_added_on": lambda n: n["cost_dollars"] * (1 + _food_cost(n)),
        "multiplied_by_percent": lambda n: n["cost_dollars"] * _food_cost(n),
        "divided_by_the_rest": lambda n: n["cost_dollars"] / (1 - _food_cost(n)),
        "rest_added_on": lambda n: n["cost_dollars"] * (2 - _food_cost(n)),
        "percent_as_whole_number": lambda n: n["cost_dollars"] / n["cost_percent"],
    },
    tolerance=CENTS,
    formula="food cost of the plate / food cost share",
    checked_against="Work sheet 'Butcher test to find the yield cost': $7.07 at 30.5 % is $23.18.",
)


def _used(n: Numbers) -> Fraction:
    return n["opening_dollars"] + n["bought_dollars"] - n["closing_dollars"]


def _percent_of_sales(n: Numbers) -> Fraction:
    opening, bought, closing = (_money(n[f"{what}_dollars"]) for what in ("opening", "bought", "closing"))
    return food_cost_percent(cost_of_period(opening, bought, closing), _money(n["sales_dollars"]))


def _ask_period(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        time=w["time"],
        opening=n["opening_dollars"],
        bought=n["bought_dollars"],
        closing=n["closing_dollars"],
        sales=n["sales_dollars"],
    )


def _solve_period(n: Numbers) -> tuple[Sentence, ...]:
    used = _used(n)
    return (
        sentence(
            "used",
            opening=n["opening_dollars"],
            bought=n["bought_dollars"],
            closing=n["closing_dollars"],
            result=used,
        ),
        sentence(
            "over_sales",
            used=used,
            sales=n["sales_dollars"],
            result=roughly(_percent_of_sales(n)),
        ),
    )


FOOD_COST_PERCENT = NumericFamily(
    name="food_cost_percent",
    level="two steps",
    unit="%",
    ranges={
        "opening_dollars": span(4000, 12000, 100, "stock at the start, in dollars"),
        "bought_dollars": span(14000, 30000, 100, "food bought, in dollars"),
        "closing_dollars": span(4000, 12000, 100, "stock at the end, in dollars"),
        "sales_dollars": span(45000, 95000, 500, "sales, in dollars"),
    },
    words=("time",),
    ask=_ask_period,
    right=_percent_of_sales,
    solve=_solve_period,
    wrong={
        "closing_added": lambda n: 100 * (_used(n) + 2 * n["closing_dollars"]) / n["sales_dollars"],
        "stocks_swapped": lambda n: (
            100 * (n["closing_dollars"] + n["bought_dollars"] - n["opening_dollars"]) / n["sales_dollars"]
        ),
        "bought_only": lambda n: 100 * n["bought_dollars"] / n["sales_dollars"],
        "sales_over_used": lambda n: n["sales_dollars"] / _used(n),
        "over_the_margin": lambda n: 100 * _used(n) / (n["sales_dollars"] - _used(n)),
    },
    tolerance=TENTH_PERCENT,
    formula="(stock at start + bought - stock at end) / sales × 100",
    checked_against="Food cost formula, answered question in stored text: $25,780 over $64,575 is 39.9 %.",
    fits=lambda n: 20 <= _percent_of_sales(n) <= 48,
)
