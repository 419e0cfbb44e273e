"""Portions from a batch, and pieces inside a tolerance."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache, lru_cache, partial
from math import floor
from random import Random
from typing import NamedTuple

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import (
    Numbers,
    NumericFamily,
    Range,
    System,
    Words,
    once_a_draw,
    several_below,
    span,
)
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import figures, mixed, roughly
from trainer.recipe_math.portions import portions_from
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS


def _left(n: Numbers) -> Fraction:
    return 1 - n["loss_percent"] / 100


def _usable(u: Weights, n: Numbers) -> Fraction:
    """Return what is left of the batch, in the unit the portions are weighed in."""
    return u.small_in_large * u.of("batch", n) * _left(n)


def _portions(u: Weights, n: Numbers) -> Fraction:
    return _usable(u, n) / u.small_of("portion", n)


def _full_portions(u: Weights, n: Numbers) -> Fraction:
    batch, portion = Quantity(u.of("batch", n), UNITS[u.large]), Quantity(u.small_of("portion", n), UNITS[u.small])
    return Fraction(portions_from(batch, portion, n["loss_percent"] / 100))


def _whole(value: Fraction) -> Fraction:
    return Fraction(floor(value))


def _ask_portions(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        batch=u.written(u.of("batch", n)),
        percent=figures(n["loss_percent"]),
        work=w["work"],
        portion=u.written_small(u.small_of("portion", n)),
    )


def _solve_portions(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    batch, portion, usable = u.small_in_large * u.of("batch", n), u.small_of("portion", n), _usable(u, n)
    portions = usable / portion
    return (
        sentence(
            "the_batch_in_small",
            batch=figures(u.of("batch", n)),
            large=u.large,
            times=u.small_in_large,
            result=figures(batch),
            unit=u.small,
        ),
        sentence(
            "take_off_what_is_lost",
            batch=figures(batch),
            percent=figures(100 * _left(n)),
            result=roughly(usable),
            unit=u.small,
        ),
        sentence(
            "divide_by_the_portion",
            usable=figures(usable),
            portion=mixed(portion),
            result=roughly(portions),
        ),
        sentence("round_down_for_a", answer=floor(portions)),
    )


def _portions_from_batch(u: Weights, batch: Range, portion: Range) -> NumericFamily:
    ounces = {
        "twelve_ounces_to_a_pound": lambda n: _whole(_portions(u, n) * 12 / 16),
        "ten_ounces_to_a_pound": lambda n: _whole(_portions(u, n) * 10 / 16),
    } if u.system == "us" else {
        "loss_given": lambda n: _whole(_portions(u, n) / _left(n) * (1 - _left(n))),
    }  # fmt: skip
    return NumericFamily(
        name="portions_from_batch",
        level="two steps",
        unit="portion",
        system=u.system,
        ranges={
            f"batch_{u.large_name}": batch,
            "loss_percent": span(2, 30, 1, "what is lost on the way, in percent"),
            f"portion_{u.small_name}": portion,
        },
        words=("food", "work"),
        ask=partial(_ask_portions, u),
        told=lambda n: (n["loss_percent"], u.small_of("portion", n), u.of("batch", n)),
        right=partial(_full_portions, u),
        solve=partial(_solve_portions, u),
        wrong={
            "rounded_up": lambda n: _whole(_portions(u, n)) + 1,
            "loss_forgotten": lambda n: _whole(_portions(u, n) / _left(n)),
            "divided_by_share_left": lambda n: _whole(_portions(u, n) / _left(n) ** 2),
            **ounces,
            "multiplied_by_portion": lambda n: _whole(_usable(u, n) * u.small_of("portion", n)),
        },
        tolerance=WHOLE,
        formula="batch × share left / portion, rounded down",
        checked_against="Computed: 16,335 g at 88.5 % in portions of 170 g is 85.04, so 85 portions.",
        fits=lambda n: _portions(u, n) >= 10 and _portions(u, n).denominator != 1,
    )


PORTIONS_FROM_BATCH = replace(
    _portions_from_batch(
        POUND_WEIGHTS,
        span(6, 30, "1/2", "weight of the batch, in pounds"),
        span(3, 8, "1/4", "size of a portion, in ounces"),
    ),
    other=_portions_from_batch(
        KILOGRAM_WEIGHTS,
        span(3, 14, "1/10", "weight of the batch, in kilograms"),
        span(80, 240, 5, "size of a portion, in grams"),
    ),
)


class _SmallScale(NamedTuple):
    """The scale pieces are weighed on: its system, its unit and the name of that unit, and its step."""

    system: System
    unit: str
    name: str
    step: Fraction

    @property
    def target(self) -> str:
        """Return what the target is called among the numbers drawn."""
        return f"target_{self.name}"

    @property
    def give_or_take(self) -> str:
        """Return what the tolerance is called among the numbers drawn."""
        return f"give_or_take_{self.name}"

    def steps(self, weight: Fraction) -> Fraction:
        """Return how many steps of the scale a weight is."""
        return weight / self.step

    def whole_steps(self, weight: Fraction) -> int:
        """Return how many full steps of the scale a weight is, in whole numbers for speed."""
        return weight.numerator * self.step.denominator // (weight.denominator * self.step.numerator)


def _readings(n: Numbers) -> list[Fraction]:
    return [n[f"reading_{place}"] for place in range(int(n["pieces"]))]


RULES: Mapping[str, Callable[[int, int], bool]] = {
    "inside": lambda off, may: abs(off) <= may,
    "ends_left_out": lambda off, may: abs(off) < may,
    "only_heavy_turned_away": lambda off, may: off <= may,
    "only_light_turned_away": lambda off, may: off >= -may,
    "counted_outside": lambda off, may: abs(off) > may,
    "half_the_tolerance": lambda off, may: 2 * abs(off) <= may,
}
"""Whether a piece so many scale steps off the target counts, the right way first."""
MOST_WEIGHINGS = 50
_BITS = 32
_ONE_COUNT = 2**_BITS - 1
_PLACES = range(0, _BITS * len(RULES), _BITS)


def _off_target(rng: Random, pieces: int, may: int) -> list[int]:
    """Return how far each piece is off, in scale steps, up to twice the tolerance; all rules count another number.

    Where no such pieces are found, the last ones: the draw is then refused.
    """
    counts_for, lightest, off = _rules_held(may), -2 * may, []
    values = len(counts_for)
    for _ in range(MOST_WEIGHINGS if may > 1 else 1):  # one step has no half
        off = several_below(rng, values, pieces)
        together = sum([counts_for[each] for each in off])
        if len(set(_counted(together))) == len(RULES):
            break
    return [lightest + each for each in off]


@cache
def _rules_held(may: int) -> tuple[int, ...]:
    """Return which rules each piece holds, from the lightest on."""
    return tuple(_held(off, may) for off in range(-2 * may, 2 * may + 1))


@lru_cache(maxsize=2**12)
def _held(off: int, may: int) -> int:
    """Return which rules a piece so far off holds: a count of one in each rule's place of one number.

    Added up they are all the counts at once, which a draw needs hundreds of times.
    """
    return sum(holds(off, may) << place for place, holds in zip(_PLACES, RULES.values(), strict=True))


@lru_cache(maxsize=2**14)
def _counted(together: int) -> tuple[int, ...]:
    """Return the counts of all rules, in their order, from what their pieces hold together."""
    return tuple(together >> place & _ONE_COUNT for place in _PLACES)


def _weigh_pieces(s: _SmallScale, rng: Random, n: Numbers) -> Numbers:
    """Return the numbers with a weight for each piece, on the scale's steps."""
    target, off = s.whole_steps(n[s.target]), _off_target(rng, int(n["pieces"]), s.whole_steps(n[s.give_or_take]))
    up, under = s.step.numerator, s.step.denominator
    return {**n, **{f"reading_{place}": Fraction((target + each) * up, under) for place, each in enumerate(off)}}


def _counts(s: _SmallScale, n: Numbers) -> dict[str, Fraction]:
    """Return how many pieces hold each rule."""
    target, may = s.whole_steps(n[s.target]), s.whole_steps(n[s.give_or_take])
    together = sum([_held(s.whole_steps(reading) - target, may) for reading in _readings(n)])
    return dict(zip(RULES, map(Fraction, _counted(together)), strict=True))


def _are_whole_steps(s: _SmallScale, n: Numbers) -> bool:
    """Return whether target and tolerance are on the scale's steps, as the readings are, and the pieces alike."""
    is_alike = 6 * n[s.give_or_take] <= n[s.target]
    return is_alike and s.steps(n[s.target]).denominator == s.steps(n[s.give_or_take]).denominator == 1


def _ask_pieces(s: _SmallScale, n: Numbers, w: Words) -> Sentence:
    weights = ", ".join(figures(reading) for reading in _readings(n))
    return sentence(
        "ask",
        piece=w["piece"],
        target=figures(n[s.target]),
        give_or_take=figures(n[s.give_or_take]),
        unit=s.unit,
        number=n["pieces"],
        weights=weights,
    )


def _solve_pieces(s: _SmallScale, n: Numbers) -> tuple[Sentence, ...]:
    low, high = n[s.target] - n[s.give_or_take], n[s.target] + n[s.give_or_take]
    good = ", ".join(figures(reading) for reading in _readings(n) if low <= reading <= high)
    return (
        sentence(
            "lowest",
            target=figures(n[s.target]),
            give_or_take=figures(n[s.give_or_take]),
            result=figures(low),
            unit=s.unit,
        ),
        sentence(
            "highest",
            target=figures(n[s.target]),
            give_or_take=figures(n[s.give_or_take]),
            result=figures(high),
            unit=s.unit,
        ),
        sentence(
            "inside_ends_included_that",
            weights=good,
            answer=_counts(s, n)["inside"],
            of=n["pieces"],
        ),
    )


def _piece_share(s: _SmallScale, target: Range, give_or_take: Range) -> NumericFamily:
    counts = once_a_draw(partial(_counts, s))

    def counted_by(rule: str, n: Numbers) -> Fraction:
        return counts(n)[rule]

    return NumericFamily(
        name="piece_share",
        level="in a shift",
        unit="each",
        system=s.system,
        ranges={
            "pieces": span(12, 20, 1, "pieces weighed"),
            s.target: target,
            s.give_or_take: give_or_take,
        },
        words=("piece",),
        ask=partial(_ask_pieces, s),
        told=lambda n: (n[s.give_or_take], n["pieces"], n[s.target], *_readings(n)),
        off=("copied",),
        right=partial(counted_by, "inside"),
        solve=partial(_solve_pieces, s),
        wrong={rule: partial(counted_by, rule) for rule in RULES if rule != "inside"},
        tolerance=WHOLE,
        formula="pieces from target - tolerance to target + tolerance, ends in",
        checked_against="Counted by hand for one list in the tests; ends inclusive as in QTI 3.0 absolute tolerance.",
        fits=partial(_are_whole_steps, s),
        more=partial(_weigh_pieces, s),
    )


PIECE_SHARE = replace(
    _piece_share(
        _SmallScale("metric", "g", "grams", Fraction(1)),
        span(30, 180, 2, "target weight, in whole grams"),
        span(3, 8, 1, "tolerance to either side, in whole grams"),
    ),
    other=_piece_share(
        _SmallScale("us", "oz", "ounces", Fraction(1, 10)),
        span(2, 7, "1/10", "target weight, in ounces"),
        span("1/5", "2/5", "1/10", "tolerance to either side, in ounces"),
    ),
)
