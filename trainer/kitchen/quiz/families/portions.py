"""Portions from a batch, and pieces inside a tolerance."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import floor
from random import Random

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import figures, mixed, pounds, roughly
from trainer.recipe_math.portions import portions_from
from trainer.recipe_math.quantity import Quantity
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


def _ask_portions(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        batch=pounds(n["batch_pounds"]),
        percent=figures(n["loss_percent"]),
        work=w["work"],
        portion=mixed(n["portion_ounces"]),
    )


def _solve_portions(n: Numbers) -> tuple[Sentence, ...]:
    ounces = 16 * n["batch_pounds"]
    usable, portions = ounces * _left(n), _portions(n)
    return (
        sentence(
            "the_batch_in_ounces",
            batch=figures(n["batch_pounds"]),
            result=figures(ounces),
        ),
        sentence(
            "take_off_the_loss",
            ounces=figures(ounces),
            percent=figures(100 * _left(n)),
            result=roughly(usable),
        ),
        sentence(
            "divide_by_the_portion",
            usable=figures(usable),
            portion=mixed(n["portion_ounces"]),
            result=roughly(portions),
        ),
        sentence("round_down_for_a", answer=floor(portions)),
    )


PORTIONS_FROM_BATCH = NumericFamily(
    name="portions_from_batch",
    level="two steps",
    unit="portion",
    ranges={
        "batch_pounds": span(6, 30, "1/2", "weight of the batch, in pounds"),
        "loss_percent": span(2, 30, 1, "what is lost on the way, in percent"),
        "portion_ounces": span(3, 8, "1/4", "size of a portion, in ounces"),
    },
    words=("food", "work"),
    ask=_ask_portions,
    right=_full_portions,
    solve=_solve_portions,
    wrong={
        "rounded_up": lambda n: _whole(_portions(n)) + 1,
        "loss_forgotten": lambda n: _whole(16 * n["batch_pounds"] / n["portion_ounces"]),
        "divided_by_share_left": lambda n: _whole(16 * n["batch_pounds"] / _left(n) / n["portion_ounces"]),
        "twelve_ounces_to_a_pound": lambda n: _whole(12 * n["batch_pounds"] * _left(n) / n["portion_ounces"]),
        "ten_ounces_to_a_pound": lambda n: _whole(10 * n["batch_pounds"] * _left(n) / n["portion_ounces"]),
        "multiplied_by_portion": lambda n: _whole(16 * n["batch_pounds"] * _left(n) * n["portion_ounces"]),
    },
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


def _ask_pieces(n: Numbers, w: Words) -> Sentence:
    weights = ", ".join(figures(reading) for reading in _readings(n))
    return sentence(
        "ask",
        piece=w["piece"],
        target=figures(n["target_grams"]),
        give_or_take=figures(n["give_or_take_grams"]),
        number=n["pieces"],
        weights=weights,
    )


def _solve_pieces(n: Numbers) -> tuple[Sentence, ...]:
    low, high = n["target_grams"] - n["give_or_take_grams"], n["target_grams"] + n["give_or_take_grams"]
    good = ", ".join(figures(reading) for reading in _readings(n) if low <= reading <= high)
    return (
        sentence(
            "lowest",
            target=figures(n["target_grams"]),
            give_or_take=figures(n["give_or_take_grams"]),
            result=figures(low),
        ),
        sentence(
            "highest",
            target=figures(n["target_grams"]),
            give_or_take=figures(n["give_or_take_grams"]),
            result=figures(high),
        ),
        sentence(
            "inside_ends_included_that",
            weights=good,
            answer=_inside(n),
            of=n["pieces"],
        ),
    )


PIECE_SHARE = NumericFamily(
    name="piece_share",
    level="in a shift",
    unit="each",
    ranges={
        "pieces": span(12, 20, 1, "pieces weighed"),
        "target_grams": span(30, 180, 2, "target weight, in whole grams"),
        "give_or_take_grams": span(3, 8, 1, "tolerance to either side, in whole grams"),
    },
    words=("piece",),
    ask=_ask_pieces,
    right=_inside,
    solve=_solve_pieces,
    wrong={
        "ends_left_out": lambda n: _count(n, lambda off, may: abs(off) < may),
        "only_heavy_turned_away": lambda n: _count(n, lambda off, may: off <= may),
        "only_light_turned_away": lambda n: _count(n, lambda off, may: off >= -may),
        "counted_outside": lambda n: n["pieces"] - _inside(n),
        "half_the_tolerance": lambda n: _count(n, lambda off, may: 2 * abs(off) <= may),
    },
    tolerance=WHOLE,
    formula="pieces from target - tolerance to target + tolerance, ends in",
    checked_against="Counted by hand for one list in the tests; ends inclusive as in QTI 3.0 absolute tolerance.",
    fits=_are_whole_grams,
    more=_weigh_pieces,
)
