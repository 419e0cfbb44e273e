"""What to take in: cans for guests by a published need, and an order up to par."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import figures, mixed, roughly
from trainer.recipe_math.buying import packs_to_buy, units_for_servings
from trainer.recipe_math.scaling import ratio

LISTED_CUPS = Fraction(1, 4)


def _size(n: Numbers) -> Fraction:
    return n["serving_cups"] / LISTED_CUPS


def _cans(n: Numbers) -> Fraction:
    return ratio(units_for_servings(n["cans_per_hundred"], int(n["guests"]), _size(n)), 1)


def _up(value: Fraction) -> Fraction:
    return Fraction(ceil(value))


def _cans_fit(n: Numbers) -> bool:
    cans = _cans(n)
    return _size(n) != 1 and 3 <= cans <= 120 and cans.denominator != 1 and (cans * 100).denominator == 1


def _ask_cans(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        cans=figures(n["cans_per_hundred"]),
        food=w["food"],
        cups=mixed(n["serving_cups"]),
        guests=n["guests"],
    )


def _solve_cans(n: Numbers) -> tuple[Sentence, ...]:
    per, cans = figures(n["cans_per_hundred"]), _cans(n)
    return (
        sentence(
            "for_so_many_portions",
            cans=per,
            guests=n["guests"],
            result=roughly(n["cans_per_hundred"] * n["guests"] / 100),
        ),
        sentence(
            "your_portion_in_quarter",
            cups=mixed(n["serving_cups"]),
            result=roughly(_size(n)),
        ),
        sentence(
            "multiply_cans",
            cans=per,
            guests=n["guests"],
            size=figures(_size(n)),
            result=roughly(cans),
        ),
        sentence("round_up_for_you", answer=ceil(cans)),
    )


CANS_FOR_GUESTS = NumericFamily(
    name="cans_for_guests",
    level="two steps",
    unit="can",
    ranges={
        "cans_per_hundred": span(2, 9, "1/4", "cans for a hundred portions of 1/4 cup"),
        "serving_cups": span("1/8", "3/4", "1/8", "size of the portion served, in cups"),
        "guests": span(40, 240, 5, "guests expected"),
    },
    words=("food",),
    ask=_ask_cans,
    told=lambda n: (n["cans_per_hundred"], n["guests"], Fraction(100)),
    right=lambda n: Fraction(packs_to_buy(_cans(n), 1)),
    solve=_solve_cans,
    wrong={
        "rounded_down": lambda n: Fraction(floor(_cans(n))),
        "not_rounded": _cans,
        "portion_size_ignored": lambda n: _up(_cans(n) / _size(n)),
        "size_upside_down": lambda n: _up(_cans(n) / _size(n) ** 2),
        "guests_not_hundreds": lambda n: _up(100 * _cans(n)),
        "one_spare": lambda n: _up(_cans(n)) + 1,
    },
    off=("copied",),
    tolerance=WHOLE,
    formula="cans per 100 × guests / 100 × size / listed size, rounded up",
    checked_against="USDA Food Buying Guide training slides: corn, 3.0 × 4.6 × 2 = 27.6 cans, buy 28.",
    fits=_cans_fit,
)


def _need(n: Numbers) -> Fraction:
    return n["daily_cans"] * n["days_between"]


def _par(n: Numbers) -> Fraction:
    return _need(n) * (100 + n["reserve_percent"]) / 100


def _order_fits(n: Numbers) -> bool:
    return _par(n).denominator == 1 and n["shelf_cans"] < _need(n) and _par(n) - n["shelf_cans"] >= 4


def _ask_par(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        cans=n["daily_cans"],
        food=w["food"],
        days=n["days_between"],
        percent=n["reserve_percent"],
        shelf=n["shelf_cans"],
    )


def _solve_par(n: Numbers) -> tuple[Sentence, ...]:
    return (
        sentence(
            "until_the_truck_comes",
            cans=n["daily_cans"],
            days=n["days_between"],
            result=_need(n),
        ),
        sentence(
            "par_with_the_reserve",
            need=_need(n),
            percent=100 + n["reserve_percent"],
            result=_par(n),
        ),
        sentence(
            "take_off_what_is",
            par=_par(n),
            shelf=n["shelf_cans"],
            result=_par(n) - n["shelf_cans"],
        ),
    )


PAR_LEVEL = NumericFamily(
    name="par_level",
    level="two steps",
    unit="can",
    ranges={
        "daily_cans": span(2, 14, 1, "cans used a day"),
        "days_between": span(2, 7, 1, "days from one delivery to the next"),
        "reserve_percent": span(10, 50, 5, "reserve on top, in percent"),
        "shelf_cans": span(2, 40, 1, "cans on the shelf"),
    },
    words=("food",),
    ask=_ask_par,
    told=lambda n: (n["daily_cans"], n["shelf_cans"]),
    right=lambda n: _par(n) - n["shelf_cans"],
    solve=_solve_par,
    wrong={
        "shelf_forgotten": _par,
        "reserve_forgotten": lambda n: _need(n) - n["shelf_cans"],
        "shelf_added": lambda n: _par(n) + n["shelf_cans"],
        "reserve_on_the_order": lambda n: (_need(n) - n["shelf_cans"]) * (100 + n["reserve_percent"]) / 100,
        "one_day_only": lambda n: n["daily_cans"] * (100 + n["reserve_percent"]) / 100,
        "reserve_in_cans": lambda n: _need(n) + n["reserve_percent"] - n["shelf_cans"],
    },
    off=("copied",),
    tolerance=WHOLE,
    formula="use a day × days × (1 + reserve) - on the shelf",
    checked_against="Common practice; the sum of one example is done by hand in the tests.",
    fits=_order_fits,
)
