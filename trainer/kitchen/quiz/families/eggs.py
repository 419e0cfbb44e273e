"""How many eggs of a size give a weight of egg."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial
from math import ceil, floor
from typing import NamedTuple

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, System, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.eggs import EGG_SIZES, EggSize, eggs_for
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.units import UNITS

SIZE_WORDS = {
    "jumbo": sentence("jumbo"),
    "extra large": sentence("extra_large"),
    "large": sentence("large"),
    "medium": sentence("medium"),
    "small": sentence("small"),
}
SIZES: tuple[EggSize, ...] = tuple(size for size in EGG_SIZES.values() if size.edible is not None)


def _size(n: Numbers) -> EggSize:
    return SIZES[int(n["size"]) - 1]


class _Scale(NamedTuple):
    """What egg is weighed in: the unit, its name among the numbers, and what an egg of each size gives in it.

    In ounces that is rounded to a twentieth, as a cook would write it down; the question says it.
    """

    system: System
    unit: str
    name: str
    rounded_to: Fraction

    def of_one(self, size: EggSize) -> Fraction:
        """Return what one egg gives without its shell."""
        return to_nearest(size.edible.to(self.unit).amount, self.rounded_to) if size.edible else Fraction(0)

    def wanted(self, n: Numbers) -> Fraction:
        """Return the weight of egg wanted."""
        return n[self.name]


GRAM_SCALE = _Scale("metric", "g", "egg_grams", Fraction(1))
OUNCE_SCALE = _Scale("us", "oz", "egg_ounces", Fraction(1, 20))


def _eggs(s: _Scale, n: Numbers) -> Fraction:
    return s.wanted(n) / s.of_one(_size(n))


def _right(s: _Scale, n: Numbers) -> Fraction:
    """Return how many eggs give the weight: by the grams of the source, or by the ounces the question speaks of."""
    if s.system == "metric":
        return Fraction(eggs_for(Quantity(s.wanted(n), UNITS["g"]), _size(n).name))
    return _up(_eggs(s, n))


def _up(value: Fraction) -> Fraction:
    return Fraction(ceil(value))


def _in_shell(s: _Scale, n: Numbers) -> Fraction:
    return _up(s.wanted(n) / _size(n).egg_in_shell().to(s.unit).amount)


def _as_large(s: _Scale, n: Numbers) -> Fraction | None:
    return None if _size(n).name == "large" else _up(s.wanted(n) / s.of_one(EGG_SIZES["large"]))


def _ask_eggs(s: _Scale, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        weight=figures(s.wanted(n)),
        unit=s.unit,
        size=SIZE_WORDS[_size(n).name],
        one=figures(s.of_one(_size(n))),
    )


def _egg_count(s: _Scale, weight: Range) -> NumericFamily:
    return NumericFamily(
        name="egg_count",
        level="one step",
        unit="egg",
        system=s.system,
        ranges={
            s.name: weight,
            "size": span(1, len(SIZES), 1, "which size: 1 jumbo, 2 extra large, 3 large, 4 medium, 5 small"),
        },
        words=("food",),
        ask=partial(_ask_eggs, s),
        right=partial(_right, s),
        solve=lambda n: (
            sentence(
                "divide_eggs",
                weight=figures(s.wanted(n)),
                unit=s.unit,
                one=figures(s.of_one(_size(n))),
                result=roughly(_eggs(s, n)),
            ),
            sentence(
                "round_up_so_that",
                answer=ceil(_eggs(s, n)),
            ),
        ),
        wrong={
            "rounded_down": lambda n: Fraction(floor(_eggs(s, n))),
            "not_rounded": partial(_eggs, s),
            "shell_counted": partial(_in_shell, s),
            "large_eggs_taken": partial(_as_large, s),
            "one_spare": lambda n: _up(_eggs(s, n)) + 1,
            "multiplied_by_egg": lambda n: s.wanted(n) * s.of_one(_size(n)),
        },
        tolerance=WHOLE,
        formula="weight of egg / weight of one egg without shell, rounded up",
        checked_against="USDA Standard Reference 26, NDB 01123: a large egg gives 50 g, and 4.86 of them 243 g.",
        fits=lambda n: _eggs(s, n).denominator != 1,
    )


EGG_COUNT = replace(
    _egg_count(GRAM_SCALE, span(400, 6000, 10, "weight of whole egg wanted, in grams")),
    other=_egg_count(OUNCE_SCALE, span(14, 200, "1/4", "weight of whole egg wanted, in ounces")),
)
