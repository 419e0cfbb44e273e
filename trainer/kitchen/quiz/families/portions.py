"""Portions from a batch, and pieces inside a tolerance."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import floor
from random import Random

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import any_of, figures, mixed, pounds, roughly
from trainer.recipe_math.portions import portions_from
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say
from trainer.recipe_math.units import UNITS


def _left(n: Numbers) -> Fraction:
    return 1 - n["loss_percent"] / 100


def _portions(n: Numbers) -> Fraction:
    return 16 * n["batch_pounds"] * _left(n) / n["portion_ounces"]


def _full_portions(n: Numbers) -> Fraction:
    batch, portion = Quantity(n["batch_pounds"], UNITS["lb"]), Quantity(n["portion_ounces"], UNITS["oz"])
    return Fraction(portions_from(batch, portion, n["loss_percent"] / 100))


def _whole(value: Fraction) -> Fraction:
    return Fraction(floor(value))


def _portions_fit(n: Numbers) -> bool:
    return _portions(n) >= 10 and _portions(n).denominator != 1


def _ask_portions(n: Numbers, w: Words) -> str:
    return say(
        "A batch of {food} weighs {batch}. You lose {percent} % {work}. One portion is {portion} oz. How "
        "many full portions do you get?",
        food=w["food"],
        batch=pounds(n["batch_pounds"]),
        percent=figures(n["loss_percent"]),
        work=w["work"],
        portion=mixed(n["portion_ounces"]),
    )


def _solve_portions(n: Numbers) -> tuple[str, ...]:
    ounces = 16 * n["batch_pounds"]
    usable, portions = ounces * _left(n), _portions(n)
    return (
        say(
            "The batch in ounces: {batch} lb × 16 = {result} oz.",
            batch=figures(n["batch_pounds"]),
            result=figures(ounces),
        ),
        say(
            "Take off the loss: {ounces} oz × {percent} / 100 = {result} oz.",
            ounces=figures(ounces),
            percent=figures(100 * _left(n)),
            result=roughly(usable),
        ),
        say(
            "Divide by the portion: {usable} / {portion} = {result}.",
            usable=figures(usable),
            portion=mixed(n["portion_ounces"]),
            result=roughly(portions),
        ),
        say("Round down, for a part of a portion feeds nobody: {number} portions.", number=floor(portions)),
    )


PORTIONS_FROM_BATCH = Sum(
    name="portions_from_batch",
    title=say("How many portions a batch gives"),
    level="two steps",
    unit="portion",
    ranges={
        "batch_pounds": span(6, 30, "1/2", "weight of the batch, in pounds"),
        "loss_percent": span(2, 30, 1, "what is lost on the way, in percent"),
        "portion_ounces": span(3, 8, "1/4", "size of a portion, in ounces"),
    },
    words={
        "food": any_of("pasta dough|braised beef|bean stew|meat sauce|polenta|risotto|lamb stew|gnocchi"),
        "work": any_of("on the way"),
    },
    ask=_ask_portions,
    right=_full_portions,
    solve=_solve_portions,
    wrong=(
        WrongWay(
            "rounded_up",
            lambda n: _whole(_portions(n)) + 1,
            say("You rounded up. The last portion would be short: round down to full portions."),
            say("Rounds up where one must round down."),
        ),
        WrongWay(
            "loss_forgotten",
            lambda n: _whole(16 * n["batch_pounds"] / n["portion_ounces"]),
            say("You left out the loss. Take it off the batch before you divide."),
            say("Leaves the loss out."),
        ),
        WrongWay(
            "divided_by_share_left",
            lambda n: _whole(16 * n["batch_pounds"] / _left(n) / n["portion_ounces"]),
            say("You divided by the share that is left. Multiply by it: there is less than you started with."),
            say("Divides by the share left instead of multiplying."),
        ),
        WrongWay(
            "twelve_ounces_to_a_pound",
            lambda n: _whole(12 * n["batch_pounds"] * _left(n) / n["portion_ounces"]),
            say("You took 12 ounces to the pound. There are 16."),
            say("Takes 12 ounces to the pound."),
        ),
        WrongWay(
            "ten_ounces_to_a_pound",
            lambda n: _whole(10 * n["batch_pounds"] * _left(n) / n["portion_ounces"]),
            say("You took 10 ounces to the pound. There are 16."),
            say("Takes 10 ounces to the pound, as if pounds were decimal."),
        ),
        WrongWay(
            "multiplied_by_portion",
            lambda n: _whole(16 * n["batch_pounds"] * _left(n) * n["portion_ounces"]),
            say("You multiplied by the portion. Divide by it: how often does a portion fit in the batch?"),
            say("Multiplies by the portion size instead of dividing."),
        ),
    ),
    tolerance=WHOLE,
    formula="batch × share left / portion, rounded down",
    checked_against="Computed: 16,335 g at 88.5 % in portions of 170 g is 85.04, so 85 portions.",
    fits=_portions_fit,
)


def _readings(n: Numbers) -> list[Fraction]:
    return [n[f"reading_{place}"] for place in range(int(n["pieces"]))]


def _weigh_pieces(rng: Random, n: Numbers) -> Numbers:
    """Return the numbers with a weight for each piece, up to twice the tolerance away from the target."""
    reach = int(2 * n["give_or_take_grams"])
    readings = (n["target_grams"] + rng.randrange(-reach, reach + 1) for _ in range(int(n["pieces"])))
    return {**n, **{f"reading_{place}": weight for place, weight in enumerate(readings)}}


def _count(n: Numbers, holds: Callable[[int, int], bool]) -> Fraction:
    """Return how many pieces hold a rule, told how far each is off the target and how far it may be, in whole grams."""
    target, may = n["target_grams"].numerator, n["give_or_take_grams"].numerator
    return Fraction(sum(holds(reading.numerator - target, may) for reading in _readings(n)))


def _are_whole_grams(n: Numbers) -> bool:
    """Return whether target and tolerance are whole grams, as the readings are."""
    return n["target_grams"].denominator == n["give_or_take_grams"].denominator == 1


def _inside(n: Numbers) -> Fraction:
    return _count(n, lambda off, may: abs(off) <= may)


def _ask_pieces(n: Numbers, w: Words) -> str:
    weights = ", ".join(figures(reading) for reading in _readings(n))
    return say(
        "One {piece} should weigh {target} g, give or take {give_or_take} g. Both ends count as inside. "
        "You weigh {number}, in grams: {weights}. How many are inside?",
        piece=w["piece"],
        target=figures(n["target_grams"]),
        give_or_take=figures(n["give_or_take_grams"]),
        number=n["pieces"],
        weights=weights,
    )


def _solve_pieces(n: Numbers) -> tuple[str, ...]:
    low, high = n["target_grams"] - n["give_or_take_grams"], n["target_grams"] + n["give_or_take_grams"]
    good = ", ".join(figures(reading) for reading in _readings(n) if low <= reading <= high)
    return (
        say(
            "Lowest: {target} - {give_or_take} = {result} g.",
            target=figures(n["target_grams"]),
            give_or_take=figures(n["give_or_take_grams"]),
            result=figures(low),
        ),
        say(
            "Highest: {target} + {give_or_take} = {result} g.",
            target=figures(n["target_grams"]),
            give_or_take=figures(n["give_or_take_grams"]),
            result=figures(high),
        ),
        say(
            "Inside, ends included: {weights}. That is {number} of {of}.",
            weights=good,
            number=_inside(n),
            of=n["pieces"],
        ),
    )


PIECE_SHARE = Sum(
    name="piece_share",
    title=say("How many pieces lie inside the tolerance"),
    level="in a shift",
    unit="each",
    ranges={
        "pieces": span(12, 20, 1, "pieces weighed"),
        "target_grams": span(30, 180, 2, "target weight, in whole grams"),
        "give_or_take_grams": span(3, 8, 1, "tolerance to either side, in whole grams"),
    },
    words={"piece": any_of("pasta nest|bread roll|dumpling|meatball|fish cake|burger|ball of dough|potato cake")},
    ask=_ask_pieces,
    right=_inside,
    solve=_solve_pieces,
    wrong=(
        WrongWay(
            "ends_left_out",
            lambda n: _count(n, lambda off, may: abs(off) < may),
            say("You left out the pieces right at the ends. A piece at the lowest or highest weight is inside."),
            say("Counts the ends of the tolerance as outside."),
        ),
        WrongWay(
            "only_heavy_turned_away",
            lambda n: _count(n, lambda off, may: off <= may),
            say("You looked at the highest weight alone. A piece that is too light is outside as well."),
            say("Checks the upper end alone."),
        ),
        WrongWay(
            "only_light_turned_away",
            lambda n: _count(n, lambda off, may: off >= -may),
            say("You looked at the lowest weight alone. A piece that is too heavy is outside as well."),
            say("Checks the lower end alone."),
        ),
        WrongWay(
            "counted_outside",
            lambda n: n["pieces"] - _inside(n),
            say("You counted the pieces outside. The question asks for those inside."),
            say("Counts the pieces outside the tolerance."),
        ),
        WrongWay(
            "half_the_tolerance",
            lambda n: _count(n, lambda off, may: 2 * abs(off) <= may),
            say("You used half the tolerance. Give or take means that much to each side."),
            say("Takes the tolerance as the whole width of the band."),
        ),
    ),
    tolerance=WHOLE,
    formula="pieces from target - tolerance to target + tolerance, ends in",
    checked_against="Counted by hand for one list in the tests; ends inclusive as in QTI 3.0 absolute tolerance.",
    fits=_are_whole_grams,
    more=_weigh_pieces,
)
