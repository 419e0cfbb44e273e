"""What to take in: cans for guests by a published need, and an order up to par."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from trainer.kitchen.quiz.families.buying import CANNED
from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import comes_to, figures, mixed
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


def _ask_cans(n: Numbers, w: Words) -> str:
    return (
        f"A buying guide says: {figures(n['cans_per_hundred'])} cans of {w['food']} for 100 portions of 1/4 cup. "
        f"You serve {mixed(n['serving_cups'])} cup to each of {n['guests']} guests. How many full cans do you buy?"
    )


def _solve_cans(n: Numbers) -> tuple[str, ...]:
    per, cans = figures(n["cans_per_hundred"]), _cans(n)
    return (
        f"For so many portions of 1/4 cup: {per} × {n['guests']} / 100 "
        f"{comes_to(n['cans_per_hundred'] * n['guests'] / 100)} cans.",
        f"Your portion in quarter cups: {mixed(n['serving_cups'])} × 4 {comes_to(_size(n))}.",
        f"Multiply: {per} × {n['guests']} / 100 × {figures(_size(n))} {comes_to(cans)} cans.",
        f"Round up, for you cannot buy a part of a can: {ceil(cans)} cans.",
    )


CANS_FOR_GUESTS = Sum(
    name="cans_for_guests",
    title="How many cans a number of guests needs",
    level="two steps",
    unit="can",
    ranges={
        "cans_per_hundred": span(2, 9, "1/4", "cans for a hundred portions of 1/4 cup"),
        "serving_cups": span("1/8", "3/4", "1/8", "size of the portion served, in cups"),
        "guests": span(80, 600, 5, "guests expected"),
    },
    words={"food": CANNED},
    ask=_ask_cans,
    right=lambda n: Fraction(packs_to_buy(_cans(n), 1)),
    solve=_solve_cans,
    wrong=(
        WrongWay(
            "rounded_down",
            lambda n: Fraction(floor(_cans(n))),
            "You rounded down. Then the last guests get none: round up to full cans.",
            "Rounds down where one must round up.",
        ),
        WrongWay(
            "not_rounded",
            _cans,
            "You left a part of a can. You can only buy full ones: round up.",
            "Leaves the number of cans unrounded.",
        ),
        WrongWay(
            "portion_size_ignored",
            lambda n: _up(_cans(n) / _size(n)),
            "You took the guide's portion for yours. Multiply by your size over theirs.",
            "Leaves out that the portion has another size.",
        ),
        WrongWay(
            "size_upside_down",
            lambda n: _up(_cans(n) / _size(n) ** 2),
            "You turned the portion sizes around. It is your size over theirs.",
            "Turns the ratio of the sizes upside down.",
        ),
        WrongWay(
            "guests_not_hundreds",
            lambda n: _up(100 * _cans(n)),
            "You gave each guest what a hundred need. Divide the guests by 100.",
            "Forgets that the need is for a hundred portions.",
        ),
        WrongWay(
            "one_spare",
            lambda n: _up(_cans(n)) + 1,
            "You bought one can more than it takes. Rounding up once is enough.",
            "Adds a spare can after rounding up.",
        ),
    ),
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
    return _par(n).denominator == 1 and n["shelf_cans"] < _need(n) and _par(n) - n["shelf_cans"] >= 8


def _ask_par(n: Numbers, w: Words) -> str:
    return (
        f"Your kitchen uses {n['daily_cans']} cans of {w['food']} a day. The truck comes every {n['days_between']} "
        f"days. Par is what you use until then, and {n['reserve_percent']} % more. There are {n['shelf_cans']} cans on "
        "the shelf. How many do you order to be at par?"
    )


def _solve_par(n: Numbers) -> tuple[str, ...]:
    return (
        f"Until the truck comes: {n['daily_cans']} × {n['days_between']} = {_need(n)} cans.",
        f"Par, with the reserve: {_need(n)} × {100 + n['reserve_percent']} / 100 = {_par(n)} cans.",
        f"Take off what is there: {_par(n)} - {n['shelf_cans']} = {_par(n) - n['shelf_cans']} cans.",
    )


PAR_LEVEL = Sum(
    name="par_level",
    title="An order up to par",
    level="two steps",
    unit="can",
    ranges={
        "daily_cans": span(4, 60, 1, "cans used a day"),
        "days_between": span(2, 7, 1, "days from one delivery to the next"),
        "reserve_percent": span(10, 50, 5, "reserve on top, in percent"),
        "shelf_cans": span(3, 120, 1, "cans on the shelf"),
    },
    words={"food": CANNED},
    ask=_ask_par,
    right=lambda n: _par(n) - n["shelf_cans"],
    solve=_solve_par,
    wrong=(
        WrongWay(
            "shelf_forgotten",
            _par,
            "You ordered all of par. Take off what is on the shelf.",
            "Leaves out what is on the shelf.",
        ),
        WrongWay(
            "reserve_forgotten",
            lambda n: _need(n) - n["shelf_cans"],
            "You left out the reserve. Par is what you use, and some more.",
            "Leaves the reserve out.",
        ),
        WrongWay(
            "shelf_added",
            lambda n: _par(n) + n["shelf_cans"],
            "You added what is on the shelf. Take it off: you have it already.",
            "Adds what is on the shelf.",
        ),
        WrongWay(
            "reserve_on_the_order",
            lambda n: (_need(n) - n["shelf_cans"]) * (100 + n["reserve_percent"]) / 100,
            "You put the reserve on the order. Put it on what you use, then take off the shelf.",
            "Takes the reserve as a share of the order.",
        ),
        WrongWay(
            "one_day_only",
            lambda n: n["daily_cans"] * (100 + n["reserve_percent"]) / 100,
            "You covered one day. Multiply by the days until the truck comes.",
            "Covers a single day.",
        ),
        WrongWay(
            "reserve_in_cans",
            lambda n: _need(n) + n["reserve_percent"] - n["shelf_cans"],
            "You took the percentage as cans. It is a share of what you use.",
            "Adds the percentage as a number of cans.",
        ),
    ),
    tolerance=WHOLE,
    formula="use a day × days × (1 + reserve) - on the shelf",
    checked_against="Common practice; the sum of one example is done by hand in the tests.",
    fits=_order_fits,
)
