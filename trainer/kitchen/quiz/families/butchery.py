"""The butcher's card: what a usable pound costs once the trim has earned something, a portion of it, and the factor."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.families.yields import PRICES
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, once_a_draw, span
from trainer.kitchen.quiz.sentences import Sentence, Series, priced, sentence
from trainer.kitchen.quiz.tolerances import CENTS, TWO_PLACES
from trainer.kitchen.quiz.wording import dollars, figures, roughly
from trainer.recipe_math.costs import UnitPrice
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS
from trainer.recipe_math.yields import ButcherCard, Trim, Yielded

CARD = "Butcher's card of a lamb loin (exercise 6.3, a solved copy): 12 lb for $79.80, trim worth $13.00, 6 lb usable: "
CENT = Fraction(1, 100)


def _card_ranges(u: Weights) -> dict[str, Range]:
    """Return the ranges of a card: of about the same weights and prices in both systems."""
    if u.system == "us":
        return {
            "bought_pounds": span(12, 30, "1/2", "weight as purchased, in pounds"),
            PRICES["us"]: span(4, 15, "1/20", "price of a pound as purchased, in dollars"),
            "trim_dollars": span(8, 40, "1/2", "what the trim is worth elsewhere, in dollars"),
            "usable_pounds": span(6, 20, "1/4", "usable weight, in pounds"),
        }
    return {
        "bought_kilograms": span(5, 15, "1/5", "weight as purchased, in kilograms"),
        PRICES["metric"]: span(9, 34, "1/10", "price of a kilogram as purchased, in dollars"),
        "trim_dollars": span(8, 40, "1/2", "what the trim is worth elsewhere, in dollars"),
        "usable_kilograms": span(3, 10, "1/10", "usable weight, in kilograms"),
    }


def _price(u: Weights, n: Numbers) -> Fraction:
    return n[PRICES[u.system]]


def _cost(u: Weights, n: Numbers) -> Fraction:
    return u.of("bought", n) * _price(u, n)


def _is_a_card(u: Weights, n: Numbers) -> bool:
    """Return whether a third to four fifths is usable, the trim worth 3 to 30 percent, and the cost in whole cents."""
    bought, usable = u.of("bought", n), u.of("usable", n)
    if not (bought <= 3 * usable and 5 * usable <= 4 * bought):
        return False
    trim, cost = n["trim_dollars"], _cost(u, n)
    return 100 % cost.denominator == 0 and 3 * cost <= 100 * trim and 10 * trim <= 3 * cost


def _usable_part(u: Weights, n: Numbers) -> Yielded:
    """Return the usable part as the card has it, all that the trim is worth being in one pound or kilogram of it."""
    one = Quantity(Fraction(1), UNITS[u.large])
    bought, usable = (Quantity(u.of(what, n), UNITS[u.large]) for what in ("bought", "usable"))
    price, worth = (UnitPrice(Quantity(each, UNITS["$"]), one) for each in (_price(u, n), n["trim_dollars"]))
    return ButcherCard(bought, price, usable, (Trim(one, worth),)).usable_part()


def _usable_cost(u: Weights, n: Numbers) -> Fraction:
    """Return what a usable pound or kilogram costs, for the wrong methods and the worked lines."""
    return (_cost(u, n) - n["trim_dollars"]) / u.of("usable", n)


def _card(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "bought_at_so_much",
        bought=u.written(u.of("bought", n)),
        food=w["food"],
        price=dollars(_price(u, n)),
        unit=u.large,
        trim=dollars(n["trim_dollars"]),
        usable=u.written(u.of("usable", n)),
    )


def _solve_usable(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    cost, each = _cost(u, n), _usable_cost(u, n)
    left = cost - n["trim_dollars"]
    return (
        sentence(
            "bought_for",
            bought=figures(u.of("bought", n)),
            price=figures(_price(u, n)),
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
                usable=figures(u.of("usable", n)),
                result=roughly(each),
            ),
            sentence("for_each", price=dollars(each), unit=u.large),
        ),
    )


def _butcher_card(u: Weights) -> NumericFamily:
    return NumericFamily(
        name="butcher_card",
        level="two steps",
        unit="$",
        system=u.system,
        ranges=_card_ranges(u),
        words=("food",),
        ask=lambda n, w: sentence("ask", card=_card(u, n, w), unit=u.large),
        told=lambda n: (_price(u, n), n["trim_dollars"]),
        right=lambda n: _usable_part(u, n).price().for_one(u.large).amount,
        solve=partial(_solve_usable, u),
        wrong={
            "trim_value_forgotten": lambda n: _cost(u, n) / u.of("usable", n),
            "divided_by_bought_weight": lambda n: (_cost(u, n) - n["trim_dollars"]) / u.of("bought", n),
            "trim_value_added": lambda n: (_cost(u, n) + n["trim_dollars"]) / u.of("usable", n),
            "price_as_purchased": partial(_price, u),
            "trim_value_off_each_pound": lambda n: _cost(u, n) / u.of("usable", n) - n["trim_dollars"],
        },
        tolerance=CENTS,
        formula="(cost - worth of trim) / usable weight",
        checked_against=f"{CARD}$11.13 a pound.",
        fits=partial(_is_a_card, u),
    )


BUTCHER_CARD = replace(_butcher_card(POUND_WEIGHTS), other=_butcher_card(KILOGRAM_WEIGHTS))


def _portion(u: Weights, n: Numbers) -> Fraction:
    """Return the portion in the unit that has the price."""
    return u.small_of("portion", n) / u.small_in_large


def _solve_portion(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    cost = _usable_cost(u, n) * _portion(u, n)
    return (
        *_solve_usable(u, n),
        priced(
            sentence(
                "a_portion_is_a_part",
                portion=figures(u.small_of("portion", n)),
                parts=u.small_in_large,
                unit=u.large,
                left=figures(_cost(u, n) - n["trim_dollars"]),
                usable=figures(u.of("usable", n)),
                result=roughly(cost),
            ),
            Series((dollars(cost), "."), ""),
        ),
    )


def _butcher_portion(u: Weights, portion: Range) -> NumericFamily:
    usable_cost, portion_of = once_a_draw(partial(_usable_cost, u)), partial(_portion, u)
    ounces = {
        "ounces_as_tenths": lambda n: usable_cost(n) * n["portion_ounces"] / 10,
        "twelve_ounces_to_a_pound": lambda n: usable_cost(n) * n["portion_ounces"] / 12,
    } if u.system == "us" else {
        "hundred_grams_for_a_kilogram": lambda n: usable_cost(n) * n["portion_grams"] / 100,
    }  # fmt: skip
    return NumericFamily(
        name="butcher_portion",
        level="in a shift",
        unit="$",
        system=u.system,
        ranges={**_card_ranges(u), f"portion_{u.small_name}": portion},
        words=("food",),
        ask=lambda n, w: sentence("ask", card=_card(u, n, w), portion=u.written_small(u.small_of("portion", n))),
        told=lambda n: (_price(u, n), n["trim_dollars"]),
        right=lambda n: _usable_part(u, n).portion_cost(Quantity(u.small_of("portion", n), UNITS[u.small])).amount,
        solve=partial(_solve_portion, u),
        early=lambda n: (to_nearest(usable_cost(n), CENT) * portion_of(n),),
        early_is_right=True,
        wrong={
            "trim_value_forgotten": lambda n: _cost(u, n) / u.of("usable", n) * portion_of(n),
            "trim_value_added": lambda n: (_cost(u, n) + n["trim_dollars"]) / u.of("usable", n) * portion_of(n),
            "divided_by_bought_weight": lambda n: (_cost(u, n) - n["trim_dollars"]) / u.of("bought", n) * portion_of(n),
            "whole_pound_cost": usable_cost,
            **ounces,
        },
        tolerance=CENTS,
        formula="(cost - worth of trim) / usable weight × portion",
        checked_against=f"{CARD}a portion of 5 oz costs $3.48.",
        fits=partial(_is_a_card, u),
    )


BUTCHER_PORTION = replace(
    _butcher_portion(POUND_WEIGHTS, span(4, 12, "1/2", "size of a portion, in ounces")),
    other=_butcher_portion(KILOGRAM_WEIGHTS, span(110, 340, 5, "size of a portion, in grams")),
)


def _factor(u: Weights, n: Numbers) -> Fraction:
    return _usable_cost(u, n) / _price(u, n)


def _solve_factor(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    return (
        *_solve_usable(u, n),
        sentence(
            "over_the_price",
            left=figures(_cost(u, n) - n["trim_dollars"]),
            usable=figures(u.of("usable", n)),
            price=figures(_price(u, n)),
            result=roughly(_factor(u, n)),
        ),
    )


def _butcher_factor(u: Weights) -> NumericFamily:
    return NumericFamily(
        name="butcher_factor",
        level="in a shift",
        unit="times",
        system=u.system,
        ranges=_card_ranges(u),
        words=("food",),
        ask=lambda n, w: sentence("ask", card=_card(u, n, w), unit=u.large),
        right=lambda n: _usable_part(u, n).cost_factor(),
        solve=partial(_solve_factor, u),
        early=lambda n: (to_nearest(_usable_cost(u, n), CENT) / _price(u, n),),
        early_is_right=True,
        wrong={
            "trim_value_forgotten": lambda n: u.of("bought", n) / u.of("usable", n),
            "trim_value_added": lambda n: (_cost(u, n) + n["trim_dollars"]) / u.of("usable", n) / _price(u, n),
            "upside_down": lambda n: 1 / _factor(u, n),
            "difference_taken": lambda n: _usable_cost(u, n) - _price(u, n),
            "trimmed_cost_over_cost": lambda n: (_cost(u, n) - n["trim_dollars"]) / _cost(u, n),
        },
        tolerance=TWO_PLACES,
        formula="usable cost of a pound / price of a pound",
        checked_against=f"{CARD}factor 1.67.",
        fits=partial(_is_a_card, u),
    )


BUTCHER_FACTOR = replace(_butcher_factor(POUND_WEIGHTS), other=_butcher_factor(KILOGRAM_WEIGHTS))
