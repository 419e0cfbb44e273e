"""How much to buy: by weight with a trimming loss, and in whole packs."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import THREE_FIGURES, WHOLE
from trainer.kitchen.quiz.wording import any_of, figures, roughly
from trainer.recipe_math.buying import amount_to_buy, packs_to_buy
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say
from trainer.recipe_math.units import UNITS


def _share(n: Numbers) -> Fraction:
    return n["edible_percent"] / 100


def _ask_amount(n: Numbers, w: Words) -> str:
    return say(
        "You need {weight} kg of {food}, {work}. Your kitchen can use {percent} % of what it buys. How "
        "many kilograms do you buy?",
        weight=figures(n["edible_kilograms"]),
        food=w["food"],
        work=w["work"],
        percent=figures(n["edible_percent"]),
    )


def _solve_amount(n: Numbers) -> tuple[str, ...]:
    edible, share = n["edible_kilograms"], _share(n)
    percent = figures(n["edible_percent"])
    return (
        say("The edible share is {percent} %: {percent} / 100 is the part you keep.", percent=percent),
        say(
            "Divide by the share: {weight} kg / {percent} × 100 = {result} kg.",
            weight=figures(edible),
            percent=percent,
            result=roughly(edible / share),
        ),
        say("Check: you buy more than you serve."),
    )


AMOUNT_TO_BUY = Sum(
    name="amount_to_buy",
    title=say("How much to buy when some is trimmed away"),
    level="one step",
    unit="kg",
    ranges={
        "edible_kilograms": span(3, 30, "1/4", "ready weight needed, in kilograms"),
        "edible_percent": span(45, 92, 1, "edible share: the part left after trimming, in percent"),
    },
    words={
        "food": any_of("carrots|leeks|celery|broccoli|cabbage|pumpkin|fennel|beetroot|kale|potatoes"),
        "work": any_of("trimmed"),
    },
    ask=_ask_amount,
    right=lambda n: amount_to_buy(Quantity(n["edible_kilograms"], UNITS["kg"]), _share(n)).amount,
    solve=_solve_amount,
    wrong=(
        WrongWay(
            "multiplied_by_edible_share",
            lambda n: n["edible_kilograms"] * _share(n),
            say("You multiplied by the edible share. Divide by it: you must buy more than you serve."),
            say("Multiplies by the edible share instead of dividing."),
        ),
        WrongWay(
            "loss_added_on",
            lambda n: n["edible_kilograms"] * (2 - _share(n)),
            say(
                "You added the loss to the ready weight. The loss is a share of what you buy: divide by the "
                "edible share."
            ),
            say("Takes the loss as a share of the ready weight and adds it on."),
        ),
        WrongWay(
            "divided_by_loss",
            lambda n: n["edible_kilograms"] / (1 - _share(n)),
            say("You divided by the loss. Divide by the edible share, the part you keep."),
            say("Divides by the loss instead of the edible share."),
        ),
        WrongWay(
            "loss_forgotten",
            lambda n: n["edible_kilograms"],
            say("You bought just what you serve. Some of it is trimmed away: divide by the edible share."),
            say("Leaves the loss out."),
        ),
        WrongWay(
            "loss_only",
            lambda n: n["edible_kilograms"] * (1 - _share(n)),
            say("You worked out the loss alone. Divide the ready weight by the edible share."),
            say("Gives the loss as the answer."),
        ),
        WrongWay(
            "share_taken_off",
            lambda n: n["edible_kilograms"] - _share(n),
            say("You took the share away as if it were kilograms. A share divides the weight."),
            say("Subtracts the share as a number."),
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="ready weight / edible share",
    checked_against="Computed: 14.45 kg at 88.5 % is 16.33 kg. A strip loin of 5.2 kg gives 4.6 kg, 88.5 % "
    "(G. Wall, Trade Calculations, Objective 4).",
)


def _cans(n: Numbers) -> Fraction:
    return n["cans_per_hundred"] * n["guests"] / 100


def _cases(n: Numbers) -> Fraction:
    return _cans(n) / n["cans_per_case"]


def _packs_fit(n: Numbers) -> bool:
    """Return whether the cases come to a number of two places, and to two cases or more but no whole number."""
    cases = _cases(n)
    return cases >= 2 and cases.denominator != 1 and (cases * 100).denominator == 1


def _ask_packs(n: Numbers, w: Words) -> str:
    return say(
        "A hundred guests need {cans} cans of {food}. A case holds {in_a_case} cans. You "
        "buy whole cases. How many cases do you buy for {guests} guests?",
        cans=figures(n["cans_per_hundred"]),
        food=w["food"],
        in_a_case=n["cans_per_case"],
        guests=n["guests"],
    )


def _solve_packs(n: Numbers) -> tuple[str, ...]:
    cans, cases = _cans(n), _cases(n)
    return (
        say(
            "Cans: {cans} × {guests} / 100 = {result} cans.",
            cans=figures(n["cans_per_hundred"]),
            guests=n["guests"],
            result=figures(cans),
        ),
        say(
            "Cases: {cans} / {in_a_case} = {result} cases.",
            cans=figures(cans),
            in_a_case=n["cans_per_case"],
            result=figures(cases),
        ),
        say("Round up, for you cannot buy a part of a case: {cases} cases.", cases=ceil(cases)),
    )


CANNED = any_of(
    "crushed tomato|whole tomato|tomato paste|sweet corn|white beans|black beans|kidney beans|chickpeas|"
    "lentils|peas|peaches|pears|cherries|pineapple|olives|artichokes|beets|pumpkin|coconut milk|tuna|"
    "peppers|hominy|capers|plums"
)

PACKS_TO_BUY = Sum(
    name="packs_to_buy",
    title=say("How many whole cases to buy"),
    level="two steps",
    unit="case",
    ranges={
        "cans_per_hundred": span(2, 12, "1/2", "cans a hundred guests need"),
        "guests": span(120, 600, 5, "guests expected"),
        "cans_per_case": span(4, 12, 2, "cans in a case"),
    },
    words={"food": CANNED},
    ask=_ask_packs,
    told=lambda n: (n["cans_per_hundred"], n["cans_per_case"]),
    right=lambda n: Fraction(packs_to_buy(_cans(n), n["cans_per_case"])),
    solve=_solve_packs,
    wrong=(
        WrongWay(
            "rounded_down",
            lambda n: Fraction(floor(_cases(n))),
            say("You rounded down. Then the last guests get none: round up to whole cases."),
            say("Rounds down where one must round up."),
        ),
        WrongWay(
            "not_rounded",
            _cases,
            say("You left a part of a case. You can only buy whole ones: round up."),
            say("Leaves the number of cases unrounded."),
        ),
        WrongWay(
            "multiplied_by_pack",
            lambda n: _cans(n) * n["cans_per_case"],
            say("You multiplied by the cans in a case. Divide by them: a case holds many cans."),
            say("Multiplies by the pack size instead of dividing."),
        ),
        WrongWay(
            "cans_not_cases",
            lambda n: Fraction(ceil(_cans(n))),
            say("You counted cans. The question asks for cases: divide by the cans in a case, then round up."),
            say("Stops at single cans."),
        ),
        WrongWay(
            "one_spare",
            lambda n: Fraction(ceil(_cases(n)) + 1),
            say("You bought one case more than it takes. Rounding up once is enough."),
            say("Adds a spare case after rounding up."),
        ),
        WrongWay(
            "guests_not_hundreds",
            lambda n: n["cans_per_hundred"] * n["guests"] / n["cans_per_case"],
            say("You gave each guest what a hundred need. Divide the guests by 100 first."),
            say("Forgets that the need is for a hundred guests."),
        ),
    ),
    tolerance=WHOLE,
    formula="cans / cans in a case, rounded up",
    checked_against="USDA Food Buying Guide training slides: 3.0 cans × 4.6 × 2 = 27.6 cans, buy 28.",
    fits=_packs_fit,
)
