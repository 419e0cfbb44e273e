"""Work timed backwards from one moment, and a rule of thumb for thickness."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import ON_THE_CLOCK, ON_THE_TIMER
from trainer.kitchen.quiz.wording import figures, mixed, roughly
from trainer.recipe_math.pickup import Item, starts
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.thickness import guess_for_thickness
from trainer.recipe_math.units import UNITS


def _slow(n: Numbers) -> Fraction:
    """Return the seconds of the slow part, its rest counted."""
    return 60 * (n["cook_minutes"] + n["rest_minutes"])


def _fast(n: Numbers) -> Fraction:
    return n["boil_seconds"] + n["toss_seconds"]


def _later(n: Numbers) -> Fraction:
    """Return how many seconds after the slow part the fast one starts; below zero the other way around."""
    minutes, seconds = UNITS["min"], UNITS["s"]
    slow = Item("slow", Quantity(n["cook_minutes"], minutes), Quantity(n["rest_minutes"], minutes))
    fast = Item("fast", Quantity(_fast(n), seconds))
    first, second = starts((slow, fast))
    later = second.after_first.to(seconds).amount
    return later if first.name == "slow" else -later


def _ask_start(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        slow=w["slow"],
        cook=mixed(n["cook_minutes"]),
        rest=mixed(n["rest_minutes"]),
        fast=w["fast"],
        boil=n["boil_seconds"],
        toss=n["toss_seconds"],
    )


def _solve_start(n: Numbers) -> tuple[Sentence, ...]:
    minutes = n["cook_minutes"] + n["rest_minutes"]
    return (
        sentence(
            "the_slow_part_min",
            cook=figures(n["cook_minutes"]),
            rest=figures(n["rest_minutes"]),
            result=figures(minutes),
        ),
        sentence("in_seconds", minutes=figures(minutes), result=_slow(n)),
        sentence(
            "the_fast_part",
            boil=n["boil_seconds"],
            toss=n["toss_seconds"],
            result=_fast(n),
        ),
        sentence(
            "start_it_so_much",
            slow=_slow(n),
            fast=_fast(n),
            result=_slow(n) - _fast(n),
        ),
    )


PICKUP_START = NumericFamily(
    name="pickup_start",
    level="in a shift",
    unit="s",
    ranges={
        "cook_minutes": span(5, 14, "1/2", "minutes the slow part cooks"),
        "rest_minutes": span(1, 5, "1/2", "minutes the slow part rests"),
        "boil_seconds": span(75, 105, 5, "seconds fresh strands boil, about 90"),
        "toss_seconds": span(20, 60, 5, "seconds they are tossed in the sauce"),
    },
    words=("slow", "fast"),
    ask=_ask_start,
    told=lambda n: (60 * n["cook_minutes"], 60 * n["rest_minutes"], n["boil_seconds"], n["toss_seconds"]),
    right=_later,
    solve=_solve_start,
    wrong={
        "rest_forgotten": lambda n: 60 * n["cook_minutes"] - _fast(n),
        "toss_forgotten": lambda n: _slow(n) - n["boil_seconds"],
        "hundred_seconds_to_a_minute": lambda n: _slow(n) * 100 / 60 - _fast(n),
        "started_at_the_end": _slow,
        "times_added": lambda n: _slow(n) + _fast(n),
        "counted_from_the_end": _fast,
    },
    tolerance=ON_THE_TIMER,
    fits=lambda n: _later(n) > 0,
    formula="longest time - own time, cooking, resting and tossing counted",
    checked_against="Common practice: fresh strands take about 90 s; one example is worked by hand in the tests.",
)


def _ask_thickness(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        old=n["old_millimetres"],
        minutes=n["old_minutes"],
        new=n["new_millimetres"],
    )


def _ratio(n: Numbers) -> Fraction:
    return n["new_millimetres"] / n["old_millimetres"]


def _thickness(n: Numbers) -> Fraction:
    old, new = float(n["old_millimetres"]), float(n["new_millimetres"])
    return kept(guess_for_thickness(float(n["old_minutes"]), old, new).minutes)


THICKNESS_TIME = NumericFamily(
    name="thickness_time",
    level="in a shift",
    unit="min",
    ranges={
        "old_minutes": span(10, 60, 1, "minutes for the piece that was timed"),
        "old_millimetres": span(15, 60, 1, "its thickness, in millimetres"),
        "new_millimetres": span(15, 80, 1, "thickness of the new piece, in millimetres"),
    },
    words=("food",),
    ask=_ask_thickness,
    right=_thickness,
    solve=lambda n: (
        sentence(
            "new_over_old_thickness",
            new=n["new_millimetres"],
            old=n["old_millimetres"],
            result=roughly(_ratio(n)),
        ),
        sentence(
            "times_itself_times_the",
            minutes=n["old_minutes"],
            new=n["new_millimetres"],
            old=n["old_millimetres"],
            result=roughly(_thickness(n)),
        ),
        sentence("it_is_a_guess"),
    ),
    wrong={
        "in_proportion": lambda n: n["old_minutes"] * _ratio(n),
        "unchanged": lambda n: n["old_minutes"],
        "difference_added": lambda n: n["old_minutes"] + n["new_millimetres"] - n["old_millimetres"],
        "cubed": lambda n: n["old_minutes"] * _ratio(n) ** 3,
        "upside_down": lambda n: n["old_minutes"] / _ratio(n) ** 2,
    },
    early=lambda n: (n["old_minutes"] * to_nearest(_ratio(n), Fraction(1, 100)) ** 2,),
    early_is_right=True,
    tolerance=ON_THE_CLOCK,
    formula="minutes × (new thickness / old thickness)²",
    checked_against="Theory only (heat led through a flat slab); no published worked example was found.",
    fits=lambda n: Fraction(1, 2) <= _ratio(n) <= 2 and _ratio(n) != 1,
    safety=True,
)
