"""How many eggs of a size give a weight of egg."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import asked_as
from trainer.kitchen.quiz.wording import any_of, roughly
from trainer.recipe_math.eggs import EGG_SIZES, EggSize, eggs_for
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say, say_many
from trainer.recipe_math.units import UNITS

SIZE_WORDS = {
    "jumbo": say("jumbo"),
    "extra large": say("extra large"),
    "large": say("large"),
    "medium": say("medium"),
    "small": say("small"),
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


def _ask_eggs(n: Numbers, w: Words) -> str:
    return say(
        "The {food} takes {weight} g of whole egg, without the shells. Your eggs are {size}: one gives "
        "{one} g. How many do you crack?",
        food=w["food"],
        weight=n["egg_grams"],
        size=SIZE_WORDS[_size(n).name],
        one=_edible(_size(n)),
    )


EGG_COUNT = Sum(
    name="egg_count",
    title=say("How many eggs give a weight of egg"),
    level="one step",
    unit="egg",
    ranges={
        "egg_grams": span(400, 6000, 10, "weight of whole egg wanted, in grams"),
        "size": span(1, len(SIZES), 1, "which size: 1 jumbo, 2 extra large, 3 large, 4 medium, 5 small"),
    },
    words={"food": any_of("pasta dough|custard base|sponge|omelette mix|brioche dough|quiche mix|choux paste|batter")},
    ask=_ask_eggs,
    right=lambda n: Fraction(eggs_for(Quantity(n["egg_grams"], UNITS["g"]), _size(n).name)),
    solve=lambda n: (
        say(
            "Divide: {weight} g / {one} g = {result} eggs.",
            weight=n["egg_grams"],
            one=_edible(_size(n)),
            result=roughly(_eggs(n)),
        ),
        say_many(
            "Round up, so that there is enough: {number} egg. Weigh it, and keep the rest for later.",
            "Round up, so that there is enough: {number} eggs. Weigh it, and keep the rest for later.",
            ceil(_eggs(n)),
        ),
    ),
    wrong=(
        WrongWay(
            "rounded_down",
            lambda n: Fraction(floor(_eggs(n))),
            say("You rounded down. Then there is too little: round up and weigh."),
            say("Rounds down where one must round up."),
        ),
        WrongWay(
            "not_rounded",
            _eggs,
            say("You left a part of an egg. Round up and weigh off what you need."),
            say("Leaves the number of eggs unrounded."),
        ),
        WrongWay(
            "shell_counted",
            _in_shell,
            say("You used the weight with the shell. The shell does not go in: use what one egg gives."),
            say("Divides by the weight in the shell."),
        ),
        WrongWay(
            "large_eggs_taken",
            _as_large,
            say("You used the 50 g of a large egg. Your eggs have another size."),
            say("Takes every egg as a large one."),
        ),
        WrongWay(
            "one_spare",
            lambda n: _up(_eggs(n)) + 1,
            say("You cracked one more than it takes. Rounding up once is enough."),
            say("Adds a spare egg after rounding up."),
        ),
        WrongWay(
            "multiplied_by_egg",
            lambda n: n["egg_grams"] * _edible(_size(n)),
            say("You multiplied by the weight of an egg. Divide by it."),
            say("Multiplies by the weight of an egg instead of dividing."),
        ),
    ),
    tolerance=asked_as(
        "1/20",
        say("Give a whole number."),
        "A twentieth of an egg, so that a sum left unrounded is known to one place.",
    ),
    formula="grams of egg / grams of one egg without shell, rounded up",
    checked_against="USDA Standard Reference 26, NDB 01123: a large egg gives 50 g, and 4.86 of them 243 g.",
    fits=lambda n: _eggs(n).denominator != 1,
)
