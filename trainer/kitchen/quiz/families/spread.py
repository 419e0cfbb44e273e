"""Portions weighed: their mean, and how far they spread."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import partial
from math import sqrt
from random import Random

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, below, once_a_draw, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import TWO_PLACES, Tolerance, to_the
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.statistics import mean, sample_deviation

TENTH_GRAM = to_the("1/10", "0.1 g", "The weights are whole grams, so a tenth can be worked out.")
HUNDREDTH_OUNCE = to_the("1/100", "0.01 oz", "The weights are tenths of an ounce, so a hundredth can be worked out.")
_RANGES: dict[str, Range] = {
    "pieces": span(5, 6, 1, "pieces weighed"),
    "target_grams": span(40, 92, 1, "target weight, in grams"),
    "off_by_grams": span(3, 7, 1, "how far a piece may lie from the target, in whole grams"),
}
_OUNCES: dict[str, Range] = {
    "pieces": span(5, 6, 1, "pieces weighed"),
    "target_ounces": span("3/2", 7, "1/10", "target weight, in ounces"),
    "off_by_ounces": span("2/10", "5/10", "1/10", "how far a piece may lie from the target, in ounces"),
}


def _weigh(rng: Random, n: Numbers) -> Numbers:
    """Return the numbers with a reading for each piece."""
    off = int(n["off_by_grams"])
    readings = {f"reading_{place}": n["target_grams"] + rng.randint(-off, off) for place in range(int(n["pieces"]))}
    return {**n, **readings}


def _readings(n: Numbers) -> list[Fraction]:
    return [n[f"reading_{place}"] for place in range(int(n["pieces"]))]


def _mean(n: Numbers) -> Fraction:
    return mean(_readings(n))


def _middle(n: Numbers) -> Fraction:
    ordered = sorted(_readings(n))
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


def _listed(n: Numbers) -> str:
    return ", ".join(str(reading) for reading in _readings(n))


def _ask_mean(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        piece=w["piece"],
        target=figures(u.small_of("target", n)),
        number=n["pieces"],
        weights=", ".join(map(figures, _readings(n))),
        unit=u.small,
    )


def _solve_mean(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    total = sum(_readings(n), Fraction(0))
    return (
        sentence("add_them", weights=" + ".join(map(figures, _readings(n))), result=figures(total), unit=u.small),
        sentence(
            "divide_by_how_many",
            sum=figures(total),
            number=n["pieces"],
            result=roughly(_mean(n)),
            unit=u.small,
        ),
    )


def _weigh_in_tenths(rng: Random, n: Numbers) -> Numbers:
    """Return the numbers with a reading for each piece, in tenths of an ounce."""
    off = int(10 * n["off_by_ounces"])
    target = int(10 * n["target_ounces"])
    readings = (Fraction(target - off + below(rng, 2 * off + 1), 10) for _ in range(int(n["pieces"])))
    return {**n, **{f"reading_{place}": weight for place, weight in enumerate(readings)}}


def _portion_mean(
    u: Weights, ranges: Mapping[str, Range], weigh: Callable[[Random, Numbers], Numbers], tolerance: Tolerance
) -> NumericFamily:
    average = once_a_draw(_mean)
    return NumericFamily(
        name="portion_mean",
        level="one step",
        unit=u.small,
        system=u.system,
        ranges=ranges,
        words=("piece",),
        ask=partial(_ask_mean, u),
        told=_readings,
        right=average,
        solve=partial(_solve_mean, u),
        wrong={
            "not_divided": lambda n: average(n) * n["pieces"],
            "middle_one_taken": _middle,
            "ends_only": lambda n: (max(_readings(n)) + min(_readings(n))) / 2,
            "target_given": lambda n: u.small_of("target", n),
            "divided_by_one_less": lambda n: average(n) * n["pieces"] / (n["pieces"] - 1),
        },
        off=("copied",),
        tolerance=tolerance,
        formula="sum / number",
        checked_against="NIST StRD, NumAcc1: the mean of 10000001, 10000003 and 10000002 is 10000002, exactly.",
        more=weigh,
    )


PORTION_MEAN = replace(
    _portion_mean(KILOGRAM_WEIGHTS, _RANGES, _weigh, TENTH_GRAM),
    other=_portion_mean(POUND_WEIGHTS, _OUNCES, _weigh_in_tenths, HUNDREDTH_OUNCE),
)


def _squares(n: Numbers) -> Fraction:
    """Return the sum of the squares about the mean: of the weights less the square of their sum over the number."""
    readings = _readings(n)
    return sum((reading * reading for reading in readings), Fraction(0)) - sum(readings) ** 2 / n["pieces"]


def _root(value: Fraction) -> Fraction:
    return kept(sqrt(value))


def _spread(n: Numbers) -> Fraction:
    return sample_deviation(_readings(n))


def _mean_distance(n: Numbers) -> Fraction:
    middle = _mean(n)
    return mean([abs(reading - middle) for reading in _readings(n)])


def _ask_spread(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        number=n["pieces"],
        piece=w["piece"],
        weights=_listed(n),
    )


def _solve_spread(n: Numbers) -> tuple[Sentence, ...]:
    readings, middle, squares = _readings(n), _mean(n), _squares(n)
    off = [reading - middle for reading in readings]
    return (
        sentence("the_mean", sum=sum(readings), number=n["pieces"], result=roughly(middle)),
        sentence("how_far_each_is", distances=", ".join(map(figures, off))),
        sentence("each_times_itself_added", squares=figures(squares)),
        sentence(
            "over_one_less_than",
            squares=figures(squares),
            number=n["pieces"] - 1,
            result=roughly(squares / (n["pieces"] - 1)),
            answer=figures(_spread(n)),
        ),
    )


PORTION_SPREAD = NumericFamily(
    name="portion_spread",
    level="in a shift",
    asked=False,
    unit="g",
    ranges=_RANGES,
    words=("piece",),
    ask=_ask_spread,
    told=lambda n: (n["pieces"], *_readings(n)),
    right=_spread,
    solve=_solve_spread,
    wrong={
        "divided_by_the_number": lambda n: _root(_squares(n) / n["pieces"]),
        "root_forgotten": lambda n: _squares(n) / (n["pieces"] - 1),
        "lightest_to_heaviest": lambda n: max(_readings(n)) - min(_readings(n)),
        "mean_distance": _mean_distance,
        "spread_of_the_mean": lambda n: _root(_squares(n) / (n["pieces"] - 1) / n["pieces"]),
    },
    tolerance=TWO_PLACES,
    formula="root of (sum of squared distances from the mean / (number - 1))",
    checked_against="NIST StRD, NumAcc1: the standard deviation of 10000001, 10000003 and 10000002 is 1, exactly.",
    fits=lambda n: _squares(n) > 0,
    more=_weigh,
)
