"""Whether egg has begun to set, and how many ladles it takes before it may: the sum of tempering, to its end."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import floor
from typing import NamedTuple

from trainer.kitchen.quiz.families.tempering import EGGS, HOT, Egg, Hot, stays_below
from trainer.kitchen.quiz.family import (
    ChoiceFamily,
    ChoiceItem,
    Draw,
    Numbers,
    NumericFamily,
    Option,
    Words,
    mixed_up,
    once_a_draw,
    span,
)
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.kitchen.tempering_bench import MARGIN_CELSIUS

MARGIN = Fraction(MARGIN_CELSIUS)
STATES = ("smooth", "thickens", "set")
FOODS = {
    "hot_food": span(1, len(HOT), 1, "which hot liquid: 1 water or thin stock, 2 whole milk, 3 heavy cream"),
    "cold_food": span(1, len(EGGS), 1, "which egg: 1 yolks, 2 whole eggs"),
}


def _hot(n: Numbers) -> Hot:
    return HOT[int(n["hot_food"]) - 1]


def _egg(n: Numbers) -> Egg:
    return EGGS[int(n["cold_food"]) - 1]


LIMITS = tuple(Fraction(egg.band.thickens_celsius) - MARGIN for egg in EGGS)
EGG_BY_HOT = tuple(tuple(egg.heat / hot.heat for hot in HOT) for egg in EGGS)
"""How much heat an egg holds beside each hot liquid."""


def _limit(n: Numbers) -> Fraction:
    return LIMITS[int(n["cold_food"]) - 1]


def _heat_wanted(n: Numbers, limit: Fraction) -> Fraction:
    """Return the grams by heat, times degrees, that warm the egg to a temperature."""
    return n["cold_grams"] * _egg(n).heat * (limit - n["cold_celsius"])


def _heat_of_a_ladle(n: Numbers, limit: Fraction) -> Fraction:
    """Return the same that one ladle gives off on its way down to it."""
    return n["ladle_grams"] * _hot(n).heat * (n["hot_celsius"] - limit)


def _ladles(n: Numbers, limit: Fraction) -> Fraction:
    """Return how many ladles warm the egg to a temperature: the heat wanted over that of a ladle."""
    beside = EGG_BY_HOT[int(n["cold_food"]) - 1][int(n["hot_food"]) - 1]
    return beside * (n["cold_grams"] * (limit - n["cold_celsius"]) / (n["ladle_grams"] * (n["hot_celsius"] - limit)))


class _Pot(NamedTuple):
    """What tempering one egg with one liquid comes to: the ladles, and what wrong methods make of them."""

    ladles: Fraction
    counted_alike: Fraction
    gaps_swapped: Fraction
    from_zero: Fraction


@once_a_draw
def _pot(n: Numbers) -> _Pot:
    """Return what the numbers come to."""
    limit, beside = _limit(n), EGG_BY_HOT[int(n["cold_food"]) - 1][int(n["hot_food"]) - 1]
    warmer, cooler = limit - n["cold_celsius"], n["hot_celsius"] - limit
    grams = n["cold_grams"] / n["ladle_grams"]
    alike = grams * warmer / cooler
    by_heat = grams * beside
    return _Pot(beside * alike, alike, by_heat * cooler / warmer, by_heat * limit / cooler)


def _whole(n: Numbers) -> Fraction:
    return Fraction(floor(_pot(n).ladles))


def _unless_right(of: Callable[[Numbers], Fraction]) -> Callable[[Numbers], Fraction | None]:
    """Return a wrong method in full ladles; None where it happens to come to the right number."""

    def found(n: Numbers) -> Fraction | None:
        value = Fraction(floor(of(n)))
        return None if value == _whole(n) or value < 0 else value

    return found


def _up_to_set(n: Numbers) -> Fraction:
    return _ladles(n, min(Fraction(_egg(n).band.sets_celsius), n["hot_celsius"] - 1))


def _are_counted_alike(n: Numbers) -> Fraction:
    return _pot(n).counted_alike


def _gaps_swapped(n: Numbers) -> Fraction:
    return _pot(n).gaps_swapped


def _from_zero(n: Numbers) -> Fraction:
    return _pot(n).from_zero


def _fits_ladles(n: Numbers) -> bool:
    """Return whether a cook would count them, no ladle is a close call, and tables of heat cannot set the egg."""
    if n["hot_celsius"] <= _limit(n) + 5:
        return False
    ladles = _pot(n).ladles
    whole, rest = divmod(ladles.numerator, ladles.denominator)
    if whole < 2 or (whole, rest) > (15, 0):
        return False
    is_clear = ladles.denominator <= 10 * rest <= 9 * ladles.denominator
    return is_clear and stays_below(n, whole * n["ladle_grams"])


def _ask_ladles(n: Numbers, w: Words) -> Sentence:
    hot, egg = _hot(n), _egg(n)
    return sentence(
        "ask",
        hot_food=w[hot.word],
        hot=figures(n["hot_celsius"]),
        ladle=n["ladle_grams"],
        cold_weight=n["cold_grams"],
        cold_food=w[egg.word],
        cold=figures(n["cold_celsius"]),
        hot_heat=figures(hot.heat),
        cold_heat=figures(egg.heat),
        thickens=figures(Fraction(egg.band.thickens_celsius)),
        limit=figures(_limit(n)),
    )


def _solve_ladles(n: Numbers) -> tuple[Sentence, ...]:
    limit = _limit(n)
    wanted, given = _heat_wanted(n, limit), _heat_of_a_ladle(n, limit)
    return (
        sentence(
            "the_egg_takes",
            grams=n["cold_grams"],
            heat=figures(_egg(n).heat),
            degrees=figures(limit - n["cold_celsius"]),
            result=figures(wanted),
        ),
        sentence(
            "a_ladle_gives",
            grams=n["ladle_grams"],
            heat=figures(_hot(n).heat),
            degrees=figures(n["hot_celsius"] - limit),
            result=figures(given),
        ),
        sentence(
            "how_often_it_goes",
            wanted=figures(wanted),
            given=figures(given),
            result=roughly(_ladles(n, limit)),
        ),
        sentence("full_ladles_only", answer=_whole(n), limit=figures(limit)),
    )


TEMPERING_LADLES = NumericFamily(
    name="tempering_ladles",
    level="in a shift",
    unit="ladle",
    ranges={
        "ladle_grams": span(40, 120, 10, "what one ladle holds, in grams"),
        "hot_celsius": span(75, 95, 1, "temperature of the hot liquid, in Celsius"),
        "cold_grams": span(100, 1000, 50, "weight of the egg, in grams"),
        "cold_celsius": span(4, 24, 1, "temperature of the egg, in Celsius"),
        **FOODS,
    },
    words=("water", "milk", "cream", "yolks", "whole"),
    ask=_ask_ladles,
    told=lambda n: (n["cold_celsius"],),
    right=_whole,
    solve=_solve_ladles,
    wrong={
        "rounded_up": lambda n: _whole(n) + 1,
        "grams_alike": _unless_right(_are_counted_alike),
        "up_to_set": _unless_right(_up_to_set),
        "gaps_swapped": _unless_right(_gaps_swapped),
        "egg_from_zero": _unless_right(_from_zero),
    },
    off=("copied",),
    tolerance=WHOLE,
    formula="grams of egg × heat × (limit - egg) / (grams of a ladle × heat × (liquid - limit)), rounded down",
    checked_against="Energy balance, OpenStax College Physics 2e, section 14.2; 120 g of yolk at 5 °C (3.1169 kJ/(kg "
    "K)) with water at 95 °C (4.19): 60 g come to 41.18 °C and 120 g to 56.61 °C. Band: McGee (2004), ch. 2.",
    fits=_fits_ladles,
    safety=True,
)


def _mix(n: Numbers, grams: Fraction) -> Fraction:
    hot, egg = grams * _hot(n).heat, n["cold_grams"] * _egg(n).heat
    return (hot * n["hot_celsius"] + egg * n["cold_celsius"]) / (hot + egg)


def _aimed_at(n: Numbers) -> Fraction:
    """Return the temperature that a state is drawn at: well inside it, whichever table of heat is right."""
    band, off = _egg(n).band, n["off_celsius"]
    thickens, sets = Fraction(band.thickens_celsius), Fraction(band.sets_celsius)
    return (thickens - 4 - off, (thickens + sets) / 2, sets + 2 + off / 2)[int(n["state"]) - 1]


def _liquid(n: Numbers) -> Fraction:
    """Return the hot liquid that brings the egg about there, in tens of grams."""
    aim = _aimed_at(n)
    grams = n["cold_grams"] * _egg(n).heat * (aim - n["cold_celsius"]) / (n["hot_celsius"] - aim) / _hot(n).heat
    return Fraction(floor(grams / 10) * 10)


def _state(n: Numbers, celsius: Fraction) -> str:
    band = _egg(n).band
    return STATES[(celsius >= band.thickens_celsius) + (celsius >= band.sets_celsius)]


def _options(right: str) -> list[Option]:
    place = STATES.index(right)
    return [
        Option(state, sentence(f"egg_{state}"))
        if state == right
        else Option(
            state,
            sentence(f"egg_{state}"),
            "called_softer" if at < place else "called_firmer",
            sentence("by_the_mix" if at < place else "not_yet_so_far"),
        )
        for at, state in enumerate(STATES)
    ]


def _choose_state(draw: Draw) -> ChoiceItem | None:
    """Return a question about one mix; None where so much liquid is asked for that no bowl holds it."""
    n, words = draw.numbers, draw.picked
    grams = _liquid(n)
    if not 20 <= grams <= 6 * n["cold_grams"]:
        return None
    mix = _mix(n, grams)
    right = _state(n, mix)
    if right != STATES[int(n["state"]) - 1]:
        return None
    hot, egg = _hot(n), _egg(n)
    hot_part, cold_part = grams * hot.heat, n["cold_grams"] * egg.heat
    warmth = hot_part * n["hot_celsius"] + cold_part * n["cold_celsius"]
    band = {"thickens": figures(Fraction(egg.band.thickens_celsius)), "sets": figures(Fraction(egg.band.sets_celsius))}
    return ChoiceItem(
        sentence(
            "ask",
            hot_weight=grams,
            hot_food=words[hot.word],
            hot=figures(n["hot_celsius"]),
            cold_weight=n["cold_grams"],
            cold_food=words[egg.word],
            cold=figures(n["cold_celsius"]),
            hot_heat=figures(hot.heat),
            cold_heat=figures(egg.heat),
            **band,
        ),
        mixed_up(draw.picks, _options(right)),
        (
            sentence(
                "parts",
                hot_grams=grams,
                hot_heat=figures(hot.heat),
                hot_part=figures(hot_part),
                cold_grams=n["cold_grams"],
                cold_heat=figures(egg.heat),
                cold_part=figures(cold_part),
            ),
            sentence(
                "the_mix",
                warmth=figures(warmth),
                hot_part=figures(hot_part),
                cold_part=figures(cold_part),
                result=roughly(mix),
            ),
            sentence("held_to_the_band", **band, state=sentence(f"egg_{right}")),
        ),
        hints=1,
    )


EGG_STATE = ChoiceFamily(
    name="egg_state",
    level="in a shift",
    unit="",
    ranges={
        "state": span(1, len(STATES), 1, "how the egg stands: 1 smooth, 2 begun to thicken, 3 set"),
        "off_celsius": span(0, 10, 1, "how far from its band the mix is drawn, in Celsius"),
        "hot_celsius": span(85, 95, 1, "temperature of the hot liquid, in Celsius"),
        "cold_grams": span(100, 600, 50, "weight of the egg, in grams"),
        "cold_celsius": span(4, 24, 1, "temperature of the egg, in Celsius"),
        **FOODS,
    },
    words=("water", "milk", "cream", "yolks", "whole"),
    safety=True,
    formula="the temperature of the mix, held to where this egg thickens and where it has set",
    checked_against="Energy balance, OpenStax College Physics 2e, section 14.2. Bands: McGee, On Food and Cooking "
    "(2004), ch. 2: yolk thickens at 65 °C and sets at 70 °C; white thickens at 63 °C, mixed egg sets at 73 °C.",
    choose=_choose_state,
    slips=("called_softer", "called_firmer"),
)
