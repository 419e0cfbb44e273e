"""What to take in: cans for guests by a published need, and an order up to par."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from trainer.kitchen.quiz.families.buying import CANNED
from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import figures, mixed, roughly
from trainer.recipe_math.buying import packs_to_buy, units_for_servings
from trainer.recipe_math.saying import say
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
    return say(
        "A buying guide says: {cans} cans of {food} for 100 portions of 1/4 cup. You serve "
        "{cups} cup to each of {guests} guests. How many full cans do you buy?",
        cans=figures(n["cans_per_hundred"]),
        food=w["food"],
        cups=mixed(n["serving_cups"]),
        guests=n["guests"],
    )


def _solve_cans(n: Numbers) -> tuple[str, ...]:
    per, cans = figures(n["cans_per_hundred"]), _cans(n)
    return (
        say(
            "For so many portions of 1/4 cup: {cans} × {guests} / 100 = {result} cans.",
            cans=per,
            guests=n["guests"],
            result=roughly(n["cans_per_hundred"] * n["guests"] / 100),
        ),
        say(
            "Your portion in quarter cups: {cups} × 4 = {result}.",
            cups=mixed(n["serving_cups"]),
            result=roughly(_size(n)),
        ),
        say(
            "Multiply: {cans} × {guests} / 100 × {size} = {result} cans.",
            cans=per,
            guests=n["guests"],
            size=figures(_size(n)),
            result=roughly(cans),
        ),
        say("Round up, for you cannot buy a part of a can: {cans} cans.", cans=ceil(cans)),
    )


CANS_FOR_GUESTS = Sum(
    name="cans_for_guests",
    title=say("How many cans a number of guests needs"),
    level="two steps",
    unit="can",
    ranges={
        "cans_per_hundred": span(2, 9, "1/4", "cans for a hundred portions of 1/4 cup"),
        "serving_cups": span("1/8", "3/4", "1/8", "size of the portion served, in cups"),
        "guests": span(80, 600, 5, "guests expected"),
    },
    words={"food": CANNED},
    ask=_ask_cans,
    told=lambda n: (n["cans_per_hundred"], n["guests"], Fraction(100)),
    right=lambda n: Fraction(packs_to_buy(_cans(n), 1)),
    solve=_solve_cans,
    wrong=(
        WrongWay(
            "rounded_down",
            lambda n: Fraction(floor(_cans(n))),
            say("You rounded down. Then the last guests get none: round up to full cans."),
            say("Rounds down where one must round up."),
        ),
        WrongWay(
            "not_rounded",
            _cans,
            say("You left a part of a can. You can only buy full ones: round up."),
            say("Leaves the number of cans unrounded."),
        ),
        WrongWay(
            "portion_size_ignored",
            lambda n: _up(_cans(n) / _size(n)),
            say("You took the guide's portion for yours. Multiply by your size over theirs."),
            say("Leaves out that the portion has another size."),
        ),
        WrongWay(
            "size_upside_down",
            lambda n: _up(_cans(n) / _size(n) ** 2),
            say("You turned the portion sizes around. It is your size over theirs."),
            say("Turns the ratio of the sizes upside down."),
        ),
        WrongWay(
            "guests_not_hundreds",
            lambda n: _up(100 * _cans(n)),
            say("You gave each guest what a hundred need. Divide the guests by 100."),
            say("Forgets that the need is for a hundred portions."),
        ),
        WrongWay(
            "one_spare",
            lambda n: _up(_cans(n)) + 1,
            say("You bought one can more than it takes. Rounding up once is enough."),
            say("Adds a spare can after rounding up."),
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
    return say(
        "Your kitchen uses {cans} cans of {food} a day. The truck comes every {days} days. "
        "Par is what you use until then, and {percent} % more. There are {shelf} cans on the shelf. "
        "How many do you order to be at par?",
        cans=n["daily_cans"],
        food=w["food"],
        days=n["days_between"],
        percent=n["reserve_percent"],
        shelf=n["shelf_cans"],
    )


def _solve_par(n: Numbers) -> tuple[str, ...]:
    return (
        say(
            "Until the truck comes: {cans} × {days} = {result} cans.",
            cans=n["daily_cans"],
            days=n["days_between"],
            result=_need(n),
        ),
        say(
            "Par, with the reserve: {need} × {percent} / 100 = {result} cans.",
            need=_need(n),
            percent=100 + n["reserve_percent"],
            result=_par(n),
        ),
        say(
            "Take off what is there: {par} - {shelf} = {result} cans.",
            par=_par(n),
            shelf=n["shelf_cans"],
            result=_par(n) - n["shelf_cans"],
        ),
    )


PAR_LEVEL = Sum(
    name="par_level",
    title=say("An order up to par"),
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
    told=lambda n: (n["daily_cans"], n["shelf_cans"]),
    right=lambda n: _par(n) - n["shelf_cans"],
    solve=_solve_par,
    wrong=(
        WrongWay(
            "shelf_forgotten",
            _par,
            say("You ordered all of par. Take off what is on the shelf."),
            say("Leaves out what is on the shelf."),
        ),
        WrongWay(
            "reserve_forgotten",
            lambda n: _need(n) - n["shelf_cans"],
            say("You left out the reserve. Par is what you use, and some more."),
            say("Leaves the reserve out."),
        ),
        WrongWay(
            "shelf_added",
            lambda n: _par(n) + n["shelf_cans"],
            say("You added what is on the shelf. Take it off: you have it already."),
            say("Adds what is on the shelf."),
        ),
        WrongWay(
            "reserve_on_the_order",
            lambda n: (_need(n) - n["shelf_cans"]) * (100 + n["reserve_percent"]) / 100,
            say("You put the reserve on the order. Put it on what you use, then take off the shelf."),
            say("Takes the reserve as a share of the order."),
        ),
        WrongWay(
            "one_day_only",
            lambda n: n["daily_cans"] * (100 + n["reserve_percent"]) / 100,
            say("You covered one day. Multiply by the days until the truck comes."),
            say("Covers a single day."),
        ),
        WrongWay(
            "reserve_in_cans",
            lambda n: _need(n) + n["reserve_percent"] - n["shelf_cans"],
            say("You took the percentage as cans. It is a share of what you use."),
            say("Adds the percentage as a number of cans."),
        ),
    ),
    tolerance=WHOLE,
    formula="use a day × days × (1 + reserve) - on the shelf",
    checked_against="Common practice; the sum of one example is done by hand in the tests.",
    fits=_order_fits,
)
