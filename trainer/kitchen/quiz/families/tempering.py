"""Hot liquid whisked into raw egg: what the two come to by the heat each holds, and where the egg begins to set."""

from __future__ import annotations

from fractions import Fraction
from math import floor
from random import Random
from typing import NamedTuple

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import CELSIUS
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.kitchen.tempering_bench import BASES, LIQUIDS, MARGIN_CELSIUS
from trainer.recipe_math.food_heat import least_heat_beside_water
from trainer.recipe_math.heat import Composition, heat_beside_water
from trainer.recipe_math.tempering import SettingBand

WEIGHED = 10


class Hot(NamedTuple):
    """A hot liquid: the word it is drawn by, and its heat beside water."""

    word: str
    heat: Fraction


class Egg(NamedTuple):
    """Raw egg: the word it is drawn by, its heat beside water and the least that tables have, and where it sets."""

    word: str
    heat: Fraction
    band: SettingBand
    least: Fraction


def _heat(food: Composition) -> Fraction:
    return heat_beside_water(food)


HOT = tuple(Hot(key, _heat(food.made_of)) for key, food in LIQUIDS.items())
EGGS = tuple(
    Egg(key, _heat(base.food.made_of), base.band, least_heat_beside_water(base.food.known))
    for key, base in BASES.items()
)


def _hot(n: Numbers) -> Hot:
    return HOT[int(n["hot_food"]) - 1]


def _egg(n: Numbers) -> Egg:
    return EGGS[int(n["cold_food"]) - 1]


_THICKENS = tuple(Fraction(egg.band.thickens_celsius) for egg in EGGS)
_WARMEST = tuple(each - Fraction(MARGIN_CELSIUS) for each in _THICKENS)
_HOT_BY_EGG = tuple(tuple(hot.heat / egg.heat for egg in EGGS) for hot in HOT)
"""How much heat each hot liquid holds beside an egg."""


def _thickens(n: Numbers) -> Fraction:
    return _THICKENS[int(n["cold_food"]) - 1]


def _hot_part(n: Numbers) -> Fraction:
    """Return the grams of the hot part, each counted by its heat beside water."""
    return n["hot_grams"] * _hot(n).heat


def _cold_part(n: Numbers) -> Fraction:
    return n["cold_grams"] * _egg(n).heat


def _both(n: Numbers) -> Fraction:
    return _hot_part(n) + _cold_part(n)


def _warmth(n: Numbers) -> Fraction:
    return _hot_part(n) * n["hot_celsius"] + _cold_part(n) * n["cold_celsius"]


def _mixed(n: Numbers) -> Fraction:
    """Return what the two come to: the hot part counted as so much egg."""
    hot = n["hot_grams"] * _HOT_BY_EGG[int(n["hot_food"]) - 1][int(n["cold_food"]) - 1]
    return (hot * n["hot_celsius"] + n["cold_grams"] * n["cold_celsius"]) / (hot + n["cold_grams"])


def _if_apart(n: Numbers, value: Fraction) -> Fraction | None:
    """Return a value; None where a probe could not tell it from the right one, as with foods that hold heat alike."""
    return None if abs(value - _mixed(n)) <= CELSIUS.of(value) else value


def _grams_alike(n: Numbers) -> Fraction | None:
    grams = n["hot_grams"] + n["cold_grams"]
    return _if_apart(n, (n["hot_grams"] * n["hot_celsius"] + n["cold_grams"] * n["cold_celsius"]) / grams)


def _warmest(n: Numbers) -> Fraction:
    """Return how warm this egg may get: as far below its band as at the workbench."""
    return _WARMEST[int(n["cold_food"]) - 1]


def warmest_mix(n: Numbers, hot_grams: Fraction) -> Fraction:
    """Return how warm the egg gets with so much hot liquid if it holds as little heat as any table says."""
    hot, egg = hot_grams * _hot(n).heat, n["cold_grams"] * _egg(n).least
    return (hot * n["hot_celsius"] + egg * n["cold_celsius"]) / (hot + egg)


def stays_below(n: Numbers, hot_grams: Fraction) -> bool:
    """Return whether egg stays below where it thickens with so much hot liquid, by every table of its heat."""
    return warmest_mix(n, hot_grams) < _thickens(n)


def _stays_smooth(n: Numbers) -> bool:
    """Return whether the mix stays below the egg's band: no question has a cook scramble."""
    return n["hot_celsius"] > n["cold_celsius"] and _mixed(n) <= _warmest(n)


def _poured_less(rng: Random, n: Numbers) -> Numbers:
    """Return the numbers with less hot liquid where all of it would set the egg: a part of the most it can take.

    So a content file whose weights are those of the whole pot still has questions.
    """
    if n["hot_celsius"] <= _warmest(n) or _stays_smooth(n):
        return n
    most = _cold_part(n) * (_warmest(n) - n["cold_celsius"]) / (n["hot_celsius"] - _warmest(n)) / _hot(n).heat
    part = Fraction(rng.randint(3, 10), 10)
    return {**n, "hot_grams": Fraction(floor(most * part / WEIGHED) * WEIGHED)}


def _ask_mix(n: Numbers, w: Words) -> Sentence:
    hot, egg = _hot(n), _egg(n)
    return sentence(
        "ask",
        hot_weight=n["hot_grams"],
        hot_food=w[hot.word],
        hot=figures(n["hot_celsius"]),
        cold_weight=n["cold_grams"],
        cold_food=w[egg.word],
        cold=figures(n["cold_celsius"]),
        hot_heat=figures(hot.heat),
        cold_heat=figures(egg.heat),
        thickens=figures(_thickens(n)),
        sets=figures(Fraction(egg.band.sets_celsius)),
    )


def _solve_mix(n: Numbers) -> tuple[Sentence, ...]:
    hot, egg = _hot_part(n), _cold_part(n)
    return (
        sentence(
            "count_the_grams_by",
            grams=n["hot_grams"],
            heat=figures(_hot(n).heat),
            result=figures(hot),
        ),
        sentence(
            "egg",
            grams=n["cold_grams"],
            heat=figures(_egg(n).heat),
            result=figures(egg),
        ),
        sentence(
            "times_their_degrees_and",
            hot_part=figures(hot),
            hot=figures(n["hot_celsius"]),
            cold_part=figures(egg),
            cold=figures(n["cold_celsius"]),
            result=figures(_warmth(n)),
        ),
        sentence(
            "divide_by_both_parts",
            sum=figures(_warmth(n)),
            hot_part=figures(hot),
            cold_part=figures(egg),
            result=roughly(_mixed(n)),
        ),
        _how_it_stands(n),
    )


def _how_it_stands(n: Numbers) -> Sentence:
    """Return whether the egg has begun to set; where one table of its heat says so and another not, that it may."""
    band = {"thickens": figures(_thickens(n)), "sets": figures(Fraction(_egg(n).band.sets_celsius))}
    if stays_below(n, n["hot_grams"]):
        return sentence("the_egg_stays_smooth", **band)
    return sentence("the_egg_may_thicken", **band, most=roughly(warmest_mix(n, n["hot_grams"])))


TEMPERING_MIX = NumericFamily(
    name="tempering_mix",
    level="in a shift",
    unit="°C",
    ranges={
        "hot_grams": span(100, 1200, 50, "weight of the hot liquid, in grams; less of it where all would set the egg"),
        "hot_celsius": span(70, 95, 1, "temperature of the hot liquid, in Celsius"),
        "cold_grams": span(100, 1000, 50, "weight of the egg, in grams"),
        "cold_celsius": span(4, 24, 1, "temperature of the egg, in Celsius"),
        "hot_food": span(1, len(HOT), 1, "which hot liquid: 1 water or thin stock, 2 whole milk, 3 heavy cream"),
        "cold_food": span(1, len(EGGS), 1, "which egg: 1 yolks, 2 whole eggs"),
    },
    words=("water", "milk", "cream", "yolks", "whole"),
    retired=("hot", "cold"),
    ask=_ask_mix,
    right=_mixed,
    solve=_solve_mix,
    wrong={
        "grams_alike": _grams_alike,
        "plain_middle": lambda n: _if_apart(n, (n["hot_celsius"] + n["cold_celsius"]) / 2),
        "temperatures_added": lambda n: n["hot_celsius"] + n["cold_celsius"],
        "weights_swapped": lambda n: (_hot_part(n) * n["cold_celsius"] + _cold_part(n) * n["hot_celsius"]) / _both(n),
        "not_divided": _warmth,
        "cold_part_at_zero": lambda n: _hot_part(n) * n["hot_celsius"] / _both(n),
    },
    tolerance=CELSIUS.named_within("1/20"),
    formula="sum of grams × heat × degrees / sum of grams × heat",
    checked_against="Choi and Okos (1986), Food Engineering and Process Applications vol. 1, pp. 93-101, on foods of "
    "USDA SR26: yolk 0.75 of the heat of water, whole egg 0.88, milk 0.93, cream 0.78. Band: McGee (2004), ch. 2.",
    fits=_stays_smooth,
    more=_poured_less,
    safety=True,
)
