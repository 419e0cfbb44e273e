"""Money on the plate: what a portion costs, the price on the menu, and food cost over a stretch of time."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.families.yields import PRICES
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, span
from trainer.kitchen.quiz.sentences import Sentence, Series, priced, sentence
from trainer.kitchen.quiz.tolerances import CENTS, TENTH_PERCENT
from trainer.kitchen.quiz.wording import dollars, figures, roughly
from trainer.recipe_math.costs import CostLine, UnitPrice, cost_of_period, food_cost_percent, menu_price
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS

CENT = Fraction(1, 100)


def _usable(n: Numbers) -> Fraction:
    return n["usable_percent"] / 100


def _money(amount: Fraction) -> Quantity:
    return Quantity(amount, UNITS["$"])


def _price(u: Weights, n: Numbers) -> Fraction:
    """Return the price of a pound or a kilogram as purchased."""
    return n[PRICES[u.system]]


def _portion(u: Weights, n: Numbers) -> Fraction:
    """Return the portion in the unit that has the price."""
    return u.small_of("portion", n) / u.small_in_large


def _portion_cost(u: Weights, n: Numbers) -> Fraction:
    portion = Quantity(u.small_of("portion", n), UNITS[u.small])
    return CostLine(portion, UnitPrice.of(_price(u, n), u.large), _usable(n)).cost().amount


def _ask_portion(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        unit=u.large,
        food=w["food"],
        price=dollars(_price(u, n)),
        percent=figures(n["usable_percent"]),
        portion=u.written_small(u.small_of("portion", n)),
    )


def _solve_portion(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    price, percent, portion = figures(_price(u, n)), figures(n["usable_percent"]), figures(u.small_of("portion", n))
    return (
        sentence(
            "what_can_be_used",
            price=price,
            percent=percent,
            result=roughly(_price(u, n) / _usable(n)),
            unit=u.large,
        ),
        sentence("a_portion_is_a_part", portion=portion, parts=u.small_in_large, unit=u.large),
        priced(
            sentence(
                "multiply_and_round_at",
                price=price,
                percent=percent,
                portion=portion,
                parts=u.small_in_large,
                result=roughly(_portion_cost(u, n)),
            ),
            Series((dollars(_portion_cost(u, n)), "."), ""),
        ),
    )


def _cost_per_portion(u: Weights, price: Range, portion: Range) -> NumericFamily:
    ounces = {
        "ounces_as_tenths": lambda n: _price(u, n) / _usable(n) * n["portion_ounces"] / 10,
        "twelve_ounces_to_a_pound": lambda n: _price(u, n) / _usable(n) * n["portion_ounces"] / 12,
    } if u.system == "us" else {
        "hundred_grams_for_a_kilogram": lambda n: _price(u, n) / _usable(n) * n["portion_grams"] / 100,
    }  # fmt: skip
    return NumericFamily(
        name="cost_per_portion",
        level="two steps",
        unit="$",
        system=u.system,
        ranges={
            PRICES[u.system]: price,
            "usable_percent": span(40, 94, 1, "share that ends on the plate, in percent"),
            f"portion_{u.small_name}": portion,
        },
        words=("food",),
        ask=partial(_ask_portion, u),
        told=lambda n: (_price(u, n),),
        right=partial(_portion_cost, u),
        solve=partial(_solve_portion, u),
        early=lambda n: (to_nearest(_price(u, n) / _usable(n), CENT) * _portion(u, n),),
        early_is_right=True,
        wrong={
            "loss_forgotten": lambda n: _price(u, n) * _portion(u, n),
            "multiplied_by_edible_share": lambda n: _price(u, n) * _usable(n) * _portion(u, n),
            "loss_added_on": lambda n: _price(u, n) * (2 - _usable(n)) * _portion(u, n),
            "whole_pound_cost": lambda n: _price(u, n) / _usable(n),
            **ounces,
        },
        tolerance=CENTS,
        formula="price / edible share × portion",
        checked_against="Cooking-loss card of a lamb loin (a solved copy): $79.80 over 5 lb cooked, $15.96 a pound; "
        "5 oz cost $4.99.",
    )


COST_PER_PORTION = replace(
    _cost_per_portion(
        POUND_WEIGHTS,
        span(3, 24, "1/20", "price of a pound as purchased, in dollars"),
        span(3, 12, "1/2", "size of a portion as served, in ounces"),
    ),
    other=_cost_per_portion(
        KILOGRAM_WEIGHTS,
        span(6, 50, "1/10", "price of a kilogram as purchased, in dollars"),
        span(80, 340, 5, "size of a portion as served, in grams"),
    ),
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
        opening=dollars(n["opening_dollars"]),
        bought=dollars(n["bought_dollars"]),
        closing=dollars(n["closing_dollars"]),
        sales=dollars(n["sales_dollars"]),
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
