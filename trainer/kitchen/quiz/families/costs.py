"""Money on the plate: what a portion costs, the price on the menu, and food cost over a stretch of time."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import CENTS, within
from trainer.kitchen.quiz.wording import any_of, dollars, figures, mixed, priced, roughly
from trainer.recipe_math.costs import CostLine, UnitPrice, cost_of_period, food_cost_percent, menu_price
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say
from trainer.recipe_math.units import UNITS


def _usable(n: Numbers) -> Fraction:
    return n["usable_percent"] / 100


def _money(amount: Fraction) -> Quantity:
    return Quantity(amount, UNITS["$"])


def _portion_cost(n: Numbers) -> Fraction:
    price, portion = UnitPrice.of(n["price_dollars"], "lb"), Quantity(n["portion_ounces"], UNITS["oz"])
    return CostLine(portion, price, _usable(n)).cost().amount


def _ask_portion(n: Numbers, w: Words) -> str:
    return say(
        "A pound of {food} costs {price} as purchased. You can use {percent} % of it. What does a ready "
        "portion of {ounces} oz cost?",
        food=w["food"],
        price=dollars(n["price_dollars"]),
        percent=figures(n["usable_percent"]),
        ounces=mixed(n["portion_ounces"]),
    )


def _solve_portion(n: Numbers) -> tuple[str, ...]:
    price, percent, ounces = figures(n["price_dollars"]), figures(n["usable_percent"]), figures(n["portion_ounces"])
    return (
        say(
            "A usable pound: {price} / {percent} × 100 = {result}.",
            price=price,
            percent=percent,
            result=roughly(n["price_dollars"] / _usable(n)),
        ),
        say("A portion is {ounces} / 16 of a pound.", ounces=ounces),
        priced(
            say(
                "Multiply, and round at the end: {price} / {percent} × 100 × {ounces} / 16 = {result}",
                price=price,
                percent=percent,
                ounces=ounces,
                result=roughly(_portion_cost(n)),
            ),
            f"{dollars(_portion_cost(n))}.",
        ),
    )


COST_PER_PORTION = Sum(
    name="cost_per_portion",
    title=say("What a portion costs"),
    level="two steps",
    unit="$",
    ranges={
        "price_dollars": span(3, 24, "1/20", "price of a pound as purchased, in dollars"),
        "usable_percent": span(40, 94, 1, "share that ends on the plate, in percent"),
        "portion_ounces": span(3, 12, "1/2", "size of a portion as served, in ounces"),
    },
    words={"food": any_of("lamb loin|beef rib|pork neck|cod|salmon|turkey|duck|monkfish|veal|trout")},
    ask=_ask_portion,
    told=lambda n: (n["price_dollars"],),
    right=_portion_cost,
    solve=_solve_portion,
    wrong=(
        WrongWay(
            "loss_forgotten",
            lambda n: n["price_dollars"] * n["portion_ounces"] / 16,
            say("You left out the loss. Divide the price by the share you can use first."),
            say("Leaves the loss out."),
        ),
        WrongWay(
            "multiplied_by_edible_share",
            lambda n: n["price_dollars"] * _usable(n) * n["portion_ounces"] / 16,
            say("You multiplied by the share you can use. Divide by it: the usable part carries the whole price."),
            say("Multiplies by the edible share instead of dividing."),
        ),
        WrongWay(
            "loss_added_on",
            lambda n: n["price_dollars"] * (2 - _usable(n)) * n["portion_ounces"] / 16,
            say("You added the loss to the price. Divide by the share you can use."),
            say("Adds the loss as a share of the price."),
        ),
        WrongWay(
            "whole_pound_cost",
            lambda n: n["price_dollars"] / _usable(n),
            say("You stopped at the cost of a pound. A portion is a part of it: ounces over 16."),
            say("Gives the cost of a pound for that of a portion."),
        ),
        WrongWay(
            "ounces_as_tenths",
            lambda n: n["price_dollars"] / _usable(n) * n["portion_ounces"] / 10,
            say("You took the ounces as tenths of a pound. An ounce is a sixteenth."),
            say("Writes ounces as tenths of a pound."),
        ),
        WrongWay(
            "twelve_ounces_to_a_pound",
            lambda n: n["price_dollars"] / _usable(n) * n["portion_ounces"] / 12,
            say("You took 12 ounces to the pound. There are 16."),
            say("Takes 12 ounces to the pound."),
        ),
    ),
    tolerance=CENTS,
    formula="price / edible share × portion",
    checked_against="Cooking-loss card of a lamb loin (a solved copy): $79.80 over 5 lb cooked, $15.96 a pound; 5 oz "
    "cost $4.99.",
)


def _food_cost(n: Numbers) -> Fraction:
    return n["cost_percent"] / 100


MENU_PRICE = Sum(
    name="menu_price",
    title=say("The price a plate needs"),
    level="one step",
    unit="$",
    ranges={
        "cost_dollars": span("3/2", 15, "1/100", "what the food on the plate costs, in dollars"),
        "cost_percent": span(22, 40, "1/2", "food cost wanted, in percent of the price"),
    },
    words={"dish": any_of("braised lamb|roast cod|mushroom pasta|beef stew|duck leg|bean soup|pork chop|fish pie")},
    ask=lambda n, w: say(
        "The food on a plate of {dish} costs {cost}. It may be {percent} % of the price. What price does "
        "the menu need?",
        dish=w["dish"],
        cost=dollars(n["cost_dollars"]),
        percent=figures(n["cost_percent"]),
    ),
    right=lambda n: menu_price(_money(n["cost_dollars"]), _food_cost(n)).amount,
    solve=lambda n: (
        say("{percent} % of the price is {cost}.", percent=figures(n["cost_percent"]), cost=dollars(n["cost_dollars"])),
        say(
            "Divide: {cost} / {percent} × 100 = {result}: {price}.",
            cost=figures(n["cost_dollars"]),
            percent=figures(n["cost_percent"]),
            result=roughly(n["cost_dollars"] / _food_cost(n)),
            price=dollars(n["cost_dollars"] / _food_cost(n)),
        ),
    ),
    wrong=(
        WrongWay(
            "percent_added_on",
            lambda n: n["cost_dollars"] * (1 + _food_cost(n)),
            say("You added the percentage to the cost. It is a share of the price: divide the cost by it."),
            say("Takes the food cost percentage as a mark-up."),
        ),
        WrongWay(
            "multiplied_by_percent",
            lambda n: n["cost_dollars"] * _food_cost(n),
            say("You multiplied the cost by the percentage. Divide by it: the price is more than the cost."),
            say("Multiplies by the percentage instead of dividing."),
        ),
        WrongWay(
            "divided_by_the_rest",
            lambda n: n["cost_dollars"] / (1 - _food_cost(n)),
            say("You divided by what is left of the price. Divide by the food cost share."),
            say("Divides by the margin instead of the food cost."),
        ),
        WrongWay(
            "rest_added_on",
            lambda n: n["cost_dollars"] * (2 - _food_cost(n)),
            say("You added the rest of the percentage to the cost. Divide the cost by the food cost share."),
            say("Takes the margin as a mark-up."),
        ),
        WrongWay(
            "percent_as_whole_number",
            lambda n: n["cost_dollars"] / n["cost_percent"],
            say("You divided by the percentage as a whole number. That is one percent of the price: multiply by 100."),
            say("Forgets that a percentage is out of a hundred."),
        ),
    ),
    tolerance=CENTS,
    formula="food cost of the plate / food cost share",
    checked_against="Work sheet 'Butcher test to find the yield cost': $7.07 at 30.5 % is $23.18.",
)


def _used(n: Numbers) -> Fraction:
    return n["opening_dollars"] + n["bought_dollars"] - n["closing_dollars"]


def _percent_of_sales(n: Numbers) -> Fraction:
    opening, bought, closing = (_money(n[f"{what}_dollars"]) for what in ("opening", "bought", "closing"))
    return food_cost_percent(cost_of_period(opening, bought, closing), _money(n["sales_dollars"]))


def _ask_period(n: Numbers, w: Words) -> str:
    return say(
        "Stock when the {time} began: ${opening}. Bought: ${bought}. Stock at its end: ${closing}. "
        "Sales: ${sales}. What is the food cost, in percent of sales?",
        time=w["time"],
        opening=n["opening_dollars"],
        bought=n["bought_dollars"],
        closing=n["closing_dollars"],
        sales=n["sales_dollars"],
    )


def _solve_period(n: Numbers) -> tuple[str, ...]:
    used = _used(n)
    return (
        say(
            "Used: {opening} + {bought} - {closing} = {result}.",
            opening=n["opening_dollars"],
            bought=n["bought_dollars"],
            closing=n["closing_dollars"],
            result=used,
        ),
        say(
            "Over sales: {used} / {sales} × 100 = {result} %.",
            used=used,
            sales=n["sales_dollars"],
            result=roughly(_percent_of_sales(n)),
        ),
    )


FOOD_COST_PERCENT = Sum(
    name="food_cost_percent",
    title=say("Food cost in percent of sales"),
    level="two steps",
    unit="%",
    ranges={
        "opening_dollars": span(4000, 12000, 100, "stock at the start, in dollars"),
        "bought_dollars": span(14000, 30000, 100, "food bought, in dollars"),
        "closing_dollars": span(4000, 12000, 100, "stock at the end, in dollars"),
        "sales_dollars": span(45000, 95000, 500, "sales, in dollars"),
    },
    words={"time": any_of("month|period|quarter")},
    ask=_ask_period,
    right=_percent_of_sales,
    solve=_solve_period,
    wrong=(
        WrongWay(
            "closing_added",
            lambda n: 100 * (_used(n) + 2 * n["closing_dollars"]) / n["sales_dollars"],
            say("You added the stock at the end. It was not used: take it off."),
            say("Adds the closing stock."),
        ),
        WrongWay(
            "stocks_swapped",
            lambda n: 100 * (n["closing_dollars"] + n["bought_dollars"] - n["opening_dollars"]) / n["sales_dollars"],
            say("You swapped the two stocks. Add what was there at the start and take off what is left."),
            say("Swaps the opening and the closing stock."),
        ),
        WrongWay(
            "bought_only",
            lambda n: 100 * n["bought_dollars"] / n["sales_dollars"],
            say("You counted what was bought. Used is start plus bought less end."),
            say("Leaves both stocks out."),
        ),
        WrongWay(
            "sales_over_used",
            lambda n: n["sales_dollars"] / _used(n),
            say("You divided the sales by the food. It is the other way around."),
            say("Turns the fraction upside down."),
        ),
        WrongWay(
            "over_the_margin",
            lambda n: 100 * _used(n) / (n["sales_dollars"] - _used(n)),
            say("You divided by what is left of the sales. Divide by all the sales."),
            say("Divides by the margin instead of the sales."),
        ),
    ),
    tolerance=within("1/20", "Half of a tenth of a percent: books give food cost to the tenth."),
    formula="(stock at start + bought - stock at end) / sales × 100",
    checked_against="Food cost formula, answered question in stored text: $25,780 over $64,575 is 39.9 %.",
    fits=lambda n: 20 <= _percent_of_sales(n) <= 48,
)
