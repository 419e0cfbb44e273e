"""The butcher's card: what a usable pound costs once the trim has earned something, a portion of it, and the factor."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Range, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import CENTS, asked_as
from trainer.kitchen.quiz.wording import comes_to, dollars, figures, mixed, pounds
from trainer.recipe_math.costs import UnitPrice
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS
from trainer.recipe_math.yields import ButcherCard, Trim, Yielded

CARD = "Butcher's card of a lamb loin (exercise 6.3, a solved copy): 12 lb for $79.80, trim worth $13.00, 6 lb usable: "
CUTS = "lamb loin|beef rib|pork loin|veal leg|beef strip loin|lamb shoulder|beef forequarter|turkey|salmon|pork leg"
A_POUND = Quantity(Fraction(1), UNITS["lb"])
_CARD: dict[str, Range] = {
    "bought_pounds": span(12, 30, "1/2", "weight as purchased, in pounds"),
    "price_dollars": span(4, 15, "1/20", "price of a pound as purchased, in dollars"),
    "trim_dollars": span(8, 40, "1/2", "what the trim is worth elsewhere, in dollars"),
    "usable_pounds": span(6, 20, "1/4", "usable weight, in pounds"),
}


def _cost(n: Numbers) -> Fraction:
    return n["bought_pounds"] * n["price_dollars"]


def _is_a_card(n: Numbers) -> bool:
    """Return whether a third to four fifths is usable, the trim worth 3 to 30 percent, and the cost in whole cents."""
    bought, usable = n["bought_pounds"], n["usable_pounds"]
    if not (bought <= 3 * usable and 5 * usable <= 4 * bought):
        return False
    trim, cost = n["trim_dollars"], _cost(n)
    return 100 % cost.denominator == 0 and 3 * cost <= 100 * trim and 10 * trim <= 3 * cost


def _usable_part(n: Numbers) -> Yielded:
    """Return the usable part as the card has it, all that the trim is worth being in one pound of it."""
    bought, usable = (Quantity(n[f"{what}_pounds"], UNITS["lb"]) for what in ("bought", "usable"))
    price, worth = (UnitPrice(Quantity(n[f"{what}_dollars"], UNITS["$"]), A_POUND) for what in ("price", "trim"))
    return ButcherCard(bought, price, usable, (Trim(A_POUND, worth),)).usable_part()


def _usable_cost(n: Numbers) -> Fraction:
    """Return what a usable pound costs, for the wrong methods and the worked lines."""
    return (_cost(n) - n["trim_dollars"]) / n["usable_pounds"]


def _card(n: Numbers, w: Words) -> str:
    return (
        f"{pounds(n['bought_pounds'])} of {w['food']} costs {dollars(n['price_dollars'])} a pound. "
        f"The trim goes into other dishes and is worth {dollars(n['trim_dollars'])}. "
        f"You can use {pounds(n['usable_pounds'])}."
    )


def _solve_usable(n: Numbers) -> tuple[str, ...]:
    cost, each = _cost(n), _usable_cost(n)
    left = cost - n["trim_dollars"]
    return (
        f"Bought for: {figures(n['bought_pounds'])} × {figures(n['price_dollars'])} {comes_to(cost)}.",
        f"Take off the worth of the trim: {figures(cost)} - {figures(n['trim_dollars'])} {comes_to(left)}.",
        f"Over the usable weight: {figures(left)} / {figures(n['usable_pounds'])} {comes_to(each)}: "
        f"{dollars(each)} a pound.",
    )


FORGOTTEN = "You left out what the trim is worth. Take it off the cost: another dish pays for it."
ADDED = "You added what the trim is worth. Take it off: another dish pays for it."

BUTCHER_CARD = Sum(
    name="butcher_card",
    title="What a usable pound costs when the trim is worth something",
    level="two steps",
    unit="$",
    ranges=_CARD,
    words={"food": CUTS},
    ask=lambda n, w: f"{_card(n, w)} What does a usable pound cost?",
    right=lambda n: _usable_part(n).price().for_one("lb").amount,
    solve=_solve_usable,
    wrong=(
        WrongWay(
            "trim_value_forgotten",
            lambda n: _cost(n) / n["usable_pounds"],
            FORGOTTEN,
            "Leaves out what the trim is worth.",
        ),
        WrongWay(
            "divided_by_bought_weight",
            lambda n: (_cost(n) - n["trim_dollars"]) / n["bought_pounds"],
            "You divided by the weight you bought. Divide by the weight you can use.",
            "Divides by the weight as purchased.",
        ),
        WrongWay(
            "trim_value_added",
            lambda n: (_cost(n) + n["trim_dollars"]) / n["usable_pounds"],
            ADDED,
            "Adds what the trim is worth instead of taking it off.",
        ),
        WrongWay(
            "price_as_purchased",
            lambda n: n["price_dollars"],
            "You gave the price as purchased. The usable part carries the whole cost, less the trim.",
            "Gives the price as purchased.",
        ),
        WrongWay(
            "trim_value_off_each_pound",
            lambda n: _cost(n) / n["usable_pounds"] - n["trim_dollars"],
            "You took the trim's worth off each pound. Take it off the whole cost, then divide.",
            "Takes the worth of the trim off the cost of one pound.",
        ),
    ),
    tolerance=CENTS,
    formula="(cost - worth of trim) / usable weight",
    checked_against=f"{CARD}$11.13 a pound.",
    fits=_is_a_card,
)


def _ounces(n: Numbers) -> Fraction:
    return n["portion_ounces"] / 16


BUTCHER_PORTION = Sum(
    name="butcher_portion",
    title="What a portion costs by the butcher's card",
    level="in a shift",
    unit="$",
    ranges={**_CARD, "portion_ounces": span(4, 12, "1/2", "size of a portion, in ounces")},
    words={"food": CUTS},
    ask=lambda n, w: f"{_card(n, w)} What does a portion of {mixed(n['portion_ounces'])} oz cost?",
    right=lambda n: _usable_part(n).portion_cost(Quantity(n["portion_ounces"], UNITS["oz"])).amount,
    solve=lambda n: (
        *_solve_usable(n),
        f"A portion is {figures(n['portion_ounces'])} / 16 of a pound: "
        f"{figures(_cost(n) - n['trim_dollars'])} / {figures(n['usable_pounds'])} × {figures(n['portion_ounces'])} "
        f"/ 16 {comes_to(_usable_cost(n) * _ounces(n))}: {dollars(_usable_cost(n) * _ounces(n))}.",
    ),
    wrong=(
        WrongWay(
            "trim_value_forgotten",
            lambda n: _cost(n) / n["usable_pounds"] * _ounces(n),
            FORGOTTEN,
            "Leaves out what the trim is worth.",
        ),
        WrongWay(
            "trim_value_added",
            lambda n: (_cost(n) + n["trim_dollars"]) / n["usable_pounds"] * _ounces(n),
            ADDED,
            "Adds what the trim is worth instead of taking it off.",
        ),
        WrongWay(
            "divided_by_bought_weight",
            lambda n: (_cost(n) - n["trim_dollars"]) / n["bought_pounds"] * _ounces(n),
            "You divided by the weight you bought. Divide by the weight you can use.",
            "Divides by the weight as purchased.",
        ),
        WrongWay(
            "whole_pound_cost",
            _usable_cost,
            "You stopped at the cost of a pound. A portion is a part of it: ounces over 16.",
            "Gives the cost of a pound for that of a portion.",
        ),
        WrongWay(
            "ounces_as_tenths",
            lambda n: _usable_cost(n) * n["portion_ounces"] / 10,
            "You took the ounces as tenths of a pound. An ounce is a sixteenth.",
            "Writes ounces as tenths of a pound.",
        ),
        WrongWay(
            "twelve_ounces_to_a_pound",
            lambda n: _usable_cost(n) * n["portion_ounces"] / 12,
            "You took 12 ounces to the pound. There are 16.",
            "Takes 12 ounces to the pound.",
        ),
    ),
    tolerance=CENTS,
    formula="(cost - worth of trim) / usable weight × portion",
    checked_against=f"{CARD}a portion of 5 oz costs $3.48.",
    fits=_is_a_card,
)


def _factor(n: Numbers) -> Fraction:
    return _usable_cost(n) / n["price_dollars"]


BUTCHER_FACTOR = Sum(
    name="butcher_factor",
    title="The cost factor of the butcher's card",
    level="in a shift",
    unit="times",
    ranges=_CARD,
    words={"food": CUTS},
    ask=lambda n, w: (
        f"{_card(n, w)} What is the cost factor: a usable pound's cost over the price of a pound as purchased?"
    ),
    right=lambda n: _usable_part(n).cost_factor(),
    solve=lambda n: (
        *_solve_usable(n),
        f"Over the price: {figures(_cost(n) - n['trim_dollars'])} / {figures(n['usable_pounds'])} / "
        f"{figures(n['price_dollars'])} {comes_to(_factor(n))}.",
    ),
    wrong=(
        WrongWay(
            "trim_value_forgotten",
            lambda n: n["bought_pounds"] / n["usable_pounds"],
            FORGOTTEN,
            "Leaves out what the trim is worth: the factor by weight alone.",
        ),
        WrongWay(
            "trim_value_added",
            lambda n: (_cost(n) + n["trim_dollars"]) / n["usable_pounds"] / n["price_dollars"],
            ADDED,
            "Adds what the trim is worth instead of taking it off.",
        ),
        WrongWay(
            "upside_down",
            lambda n: 1 / _factor(n),
            "You divided the price by the usable cost. It is the other way around: the factor is above 1.",
            "Turns the fraction upside down.",
        ),
        WrongWay(
            "difference_taken",
            lambda n: _usable_cost(n) - n["price_dollars"],
            "You took one price from the other. A factor is one over the other.",
            "Gives the difference of the two costs.",
        ),
        WrongWay(
            "trimmed_cost_over_cost",
            lambda n: (_cost(n) - n["trim_dollars"]) / _cost(n),
            "You left out the weights. The cost of a usable pound is what goes over the price.",
            "Divides the two whole costs.",
        ),
    ),
    tolerance=asked_as("1/200", "Round to two places.", "Half of the second place, as cards print the factor."),
    formula="usable cost of a pound / price of a pound",
    checked_against=f"{CARD}factor 1.67.",
    fits=_is_a_card,
)
