"""Work timed backwards from one moment, and a rule of thumb for thickness."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import NamedTuple

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, System, Words, once_a_draw, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import ON_THE_CLOCK, ON_THE_TIMER
from trainer.kitchen.quiz.wording import figures, mixed, roughly
from trainer.recipe_math.figures import number_text
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
    fits=lambda n: _slow(n) > _fast(n),
    formula="longest time - own time, cooking, resting and tossing counted",
    checked_against="Common practice: fresh strands take about 90 s; one example is worked by hand in the tests.",
)


class _Rule(NamedTuple):
    """One ruler: its system, its unit and the name of that unit, and how a thickness is printed."""

    system: System
    unit: str
    name: str
    printed: Callable[[Fraction], str]


INCHES = _Rule("us", "in", "inches", mixed)
MILLIMETRES = _Rule("metric", "mm", "millimetres", figures)


def _to_the_eighth(value: Fraction) -> str:
    """Return a thickness in decimals, three places: an eighth of an inch is 0.125."""
    return number_text(value, 3)


def _old(r: _Rule, n: Numbers) -> Fraction:
    return n[f"old_{r.name}"]


def _new(r: _Rule, n: Numbers) -> Fraction:
    return n[f"new_{r.name}"]


def _ask_thickness(r: _Rule, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        old=r.printed(_old(r, n)),
        minutes=n["old_minutes"],
        new=r.printed(_new(r, n)),
        unit=r.unit,
    )


def _ratio(r: _Rule, n: Numbers) -> Fraction:
    return _new(r, n) / _old(r, n)


def _is_another_thickness(r: _Rule, n: Numbers) -> bool:
    """Return whether a piece is thicker or thinner, by half or twice at most."""
    old, new = _old(r, n), _new(r, n)
    return old != new and old <= 2 * new and new <= 2 * old


def _thickness(r: _Rule, n: Numbers) -> Fraction:
    old, new = (float(UNITS[r.unit].factor * each) for each in (_old(r, n), _new(r, n)))
    return kept(guess_for_thickness(float(n["old_minutes"]), old, new).minutes)


def _solve_thickness(r: _Rule, n: Numbers) -> tuple[Sentence, ...]:
    old, new = _to_the_eighth(_old(r, n)), _to_the_eighth(_new(r, n))
    return (
        sentence("new_over_old_thickness", new=new, old=old, result=roughly(_ratio(r, n))),
        sentence(
            "times_itself_times_the",
            minutes=n["old_minutes"],
            new=new,
            old=old,
            result=roughly(_thickness(r, n)),
        ),
        sentence("it_is_a_guess"),
    )


def _thickness_time(r: _Rule, old: Range, new: Range) -> NumericFamily:
    ratio = once_a_draw(partial(_ratio, r))
    return NumericFamily(
        name="thickness_time",
        level="in a shift",
        unit="min",
        system=r.system,
        ranges={
            "old_minutes": span(10, 60, 1, "minutes for the piece that was timed"),
            f"old_{r.name}": old,
            f"new_{r.name}": new,
        },
        words=("food",),
        ask=partial(_ask_thickness, r),
        told=lambda n: (n["old_minutes"], _old(r, n), _new(r, n)),
        right=partial(_thickness, r),
        solve=partial(_solve_thickness, r),
        wrong={
            "in_proportion": lambda n: n["old_minutes"] * ratio(n),
            "unchanged": lambda n: n["old_minutes"],
            "difference_added": lambda n: n["old_minutes"] + _new(r, n) - _old(r, n),
            "cubed": lambda n: n["old_minutes"] * ratio(n) ** 3,
            "upside_down": lambda n: n["old_minutes"] / ratio(n) ** 2,
        },
        early=lambda n: (n["old_minutes"] * to_nearest(ratio(n), Fraction(1, 100)) ** 2,),
        early_is_right=True,
        tolerance=ON_THE_CLOCK.named_within("1/20"),
        formula="minutes × (new thickness / old thickness)²",
        checked_against="Theory only (heat led through a flat slab); no published worked example was found.",
        fits=partial(_is_another_thickness, r),
        safety=True,
    )


THICKNESS_TIME = replace(
    _thickness_time(
        MILLIMETRES,
        span(15, 60, 1, "its thickness, in millimetres"),
        span(15, 80, 1, "thickness of the new piece, in millimetres"),
    ),
    other=_thickness_time(
        INCHES,
        span("1/2", 3, "1/8", "its thickness, in inches"),
        span("1/2", 4, "1/8", "thickness of the new piece, in inches"),
    ),
)
