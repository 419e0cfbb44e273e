"""How many eggs of a size give a weight of egg."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import roughly
from trainer.recipe_math.eggs import EGG_SIZES, EggSize, eggs_for
from trainer.recipe_math.quantity import Quantity
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


def _edible(size: EggSize) -> Fraction:
    """Return the grams of one egg without its shell."""
    return size.edible.amount if size.edible else Fraction(0)


def _eggs(n: Numbers) -> Fraction:
    return n["egg_grams"] / _edible(_size(n))


def _up(value: Fraction) -> Fraction:
    return Fraction(ceil(value))


def _in_shell(n: Numbers) -> Fraction:
    return _up(n["egg_grams"] / _size(n).egg_in_shell().to("g").amount)


def _as_large(n: Numbers) -> Fraction | None:
    return None if _size(n).name == "large" else _up(n["egg_grams"] / 50)


def _ask_eggs(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        weight=n["egg_grams"],
        size=SIZE_WORDS[_size(n).name],
        one=_edible(_size(n)),
    )


EGG_COUNT = NumericFamily(
    name="egg_count",
    level="one step",
    unit="egg",
    ranges={
        "egg_grams": span(400, 6000, 10, "weight of whole egg wanted, in grams"),
        "size": span(1, len(SIZES), 1, "which size: 1 jumbo, 2 extra large, 3 large, 4 medium, 5 small"),
    },
    words=("food",),
    ask=_ask_eggs,
    right=lambda n: Fraction(eggs_for(Quantity(n["egg_grams"], UNITS["g"]), _size(n).name)),
    solve=lambda n: (
        sentence(
            "divide_eggs",
            weight=n["egg_grams"],
            one=_edible(_size(n)),
            result=roughly(_eggs(n)),
        ),
        sentence(
            "round_up_so_that",
            answer=ceil(_eggs(n)),
        ),
    ),
    wrong={
        "rounded_down": lambda n: Fraction(floor(_eggs(n))),
        "not_rounded": _eggs,
        "shell_counted": _in_shell,
        "large_eggs_taken": _as_large,
        "one_spare": lambda n: _up(_eggs(n)) + 1,
        "multiplied_by_egg": lambda n: n["egg_grams"] * _edible(_size(n)),
    },
    tolerance=WHOLE,
    formula="grams of egg / grams of one egg without shell, rounded up",
    checked_against="USDA Standard Reference 26, NDB 01123: a large egg gives 50 g, and 4.86 of them 243 g.",
    fits=lambda n: _eggs(n).denominator != 1,
)
