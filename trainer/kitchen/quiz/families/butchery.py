"""The butcher's card: what a usable pound costs once the trim has earned something, a portion of it, and the factor."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, span
from trainer.kitchen.quiz.sentences import Sentence, priced, sentence
from trainer.kitchen.quiz.tolerances import CENTS, TWO_PLACES
from trainer.kitchen.quiz.wording import dollars, figures, mixed, pounds, roughly
from trainer.recipe_math.costs import UnitPrice
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS
from trainer.recipe_math.yields import ButcherCard, Trim, Yielded

CARD = "Butcher's card of a lamb loin (exercise 6.3, a solved copy): 12 lb for $79.80, trim worth $13.00, 6 lb usable: "
CENT = Fraction(1, 100)
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


def _card(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "of_costs_a_pound",
        bought=pounds(n["bought_pounds"]),
        food=w["food"],
        price=dollars(n["price_dollars"]),
        trim=dollars(n["trim_dollars"]),
        usable=pounds(n["usable_pounds"]),
    )


def _solve_usable(n: Numbers) -> tuple[Sentence, ...]:
    cost, each = _cost(n), _usable_cost(n)
    left = cost - n["trim_dollars"]
    return (
        sentence(
            "bought_for",
            bought=figures(n["bought_pounds"]),
            price=figures(n["price_dollars"]),
            result=roughly(cost),
        ),
        sentence(
            "take_off_the_worth",
            cost=figures(cost),
            trim=figures(n["trim_dollars"]),
            result=roughly(left),
        ),
        priced(
            sentence(
                "over_the_usable_weight",
                left=figures(left),
                usable=figures(n["usable_pounds"]),
                result=roughly(each),
            ),
            sentence("a_pound", price=dollars(each)),
        ),
    )


BUTCHER_CARD = NumericFamily(
    name="butcher_card",
    level="two steps",
    unit="$",
    ranges=_CARD,
    words=("food",),
    ask=lambda n, w: sentence("ask", card=_card(n, w)),
    told=lambda n: (n["price_dollars"], n["trim_dollars"]),
    right=lambda n: _usable_part(n).price().for_one("lb").amount,
    solve=_solve_usable,
    wrong={
        "trim_value_forgotten": lambda n: _cost(n) / n["usable_pounds"],
        "divided_by_bought_weight": lambda n: (_cost(n) - n["trim_dollars"]) / n["bought_pounds"],
        "trim_value_added": lambda n: (_cost(n) + n["trim_dollars"]) / n["usable_pounds"],
        "price_as_purchased": lambda n: n["price_dollars"],
        "trim_value_off_each_pound": lambda n: _cost(n) / n["usable_pounds"] - n["trim_dollars"],
    },
    tolerance=CENTS,
    formula="(cost - worth of trim) / usable weight",
    checked_against=f"{CARD}$11.13 a pound.",
    fits=_is_a_card,
)


def _ounces(n: Numbers) -> Fraction:
    return n["portion_ounces"] / 16


BUTCHER_PORTION = NumericFamily(
    name="butcher_portion",
    level="in a shift",
    unit="$",
    ranges={**_CARD, "portion_ounces": span(4, 12, "1/2", "size of a portion, in ounces")},
    words=("food",),
    ask=lambda n, w: sentence("ask", card=_card(n, w), portion=mixed(n["portion_ounces"])),
    told=lambda n: (n["price_dollars"], n["trim_dollars"]),
    right=lambda n: _usable_part(n).portion_cost(Quantity(n["portion_ounces"], UNITS["oz"])).amount,
    solve=lambda n: (
        *_solve_usable(n),
        priced(
            sentence(
                "a_portion_is_of",
                portion=figures(n["portion_ounces"]),
                left=figures(_cost(n) - n["trim_dollars"]),
                usable=figures(n["usable_pounds"]),
                result=roughly(_usable_cost(n) * _ounces(n)),
            ),
            f"{dollars(_usable_cost(n) * _ounces(n))}.",
        ),
    ),
    early=lambda n: (to_nearest(_usable_cost(n), CENT) * _ounces(n),),
    early_is_right=True,
    wrong={
        "trim_value_forgotten": lambda n: _cost(n) / n["usable_pounds"] * _ounces(n),
        "trim_value_added": lambda n: (_cost(n) + n["trim_dollars"]) / n["usable_pounds"] * _ounces(n),
        "divided_by_bought_weight": lambda n: (_cost(n) - n["trim_dollars"]) / n["bought_pounds"] * _ounces(n),
        "whole_pound_cost": _usable_cost,
        "ounces_as_tenths": lambda n: _usable_cost(n) * n["portion_ounces"] / 10,
        "twelve_ounces_to_a_pound": lambda n: _usable_cost(n) * n["portion_ounces"] / 12,
    },
    tolerance=CENTS,
    formula="(cost - worth of trim) / usable weight × portion",
    checked_against=f"{CARD}a portion of 5 oz costs $3.48.",
    fits=_is_a_card,
)


def _factor(n: Numbers) -> Fraction:
    return _usable_cost(n) / n["price_dollars"]


BUTCHER_FACTOR = NumericFamily(
    name="butcher_factor",
    level="in a shift",
    unit="times",
    ranges=_CARD,
    words=("food",),
    ask=lambda n, w: sentence(
        "ask",
        card=_card(n, w),
    ),
    right=lambda n: _usable_part(n).cost_factor(),
    solve=lambda n: (
        *_solve_usable(n),
        sentence(
            "over_the_price",
            left=figures(_cost(n) - n["trim_dollars"]),
            usable=figures(n["usable_pounds"]),
            price=figures(n["price_dollars"]),
            result=roughly(_factor(n)),
        ),
    ),
    early=lambda n: (to_nearest(_usable_cost(n), CENT) / n["price_dollars"],),
    early_is_right=True,
    wrong={
        "trim_value_forgotten": lambda n: n["bought_pounds"] / n["usable_pounds"],
        "trim_value_added": lambda n: (_cost(n) + n["trim_dollars"]) / n["usable_pounds"] / n["price_dollars"],
        "upside_down": lambda n: 1 / _factor(n),
        "difference_taken": lambda n: _usable_cost(n) - n["price_dollars"],
        "trimmed_cost_over_cost": lambda n: (_cost(n) - n["trim_dollars"]) / _cost(n),
    },
    tolerance=TWO_PLACES,
    formula="usable cost of a pound / price of a pound",
    checked_against=f"{CARD}factor 1.67.",
    fits=_is_a_card,
)
