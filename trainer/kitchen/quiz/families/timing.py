"""Work timed backwards from one moment, and a rule of thumb for thickness."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import SECONDS, THREE_FIGURES
from trainer.kitchen.quiz.wording import comes_to, figures, mixed
from trainer.recipe_math.pickup import Item, starts
from trainer.recipe_math.quantity import Quantity
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


def _ask_start(n: Numbers, w: Words) -> str:
    return (
        f"Two plates leave the line at one moment. The {w['slow']} cooks {mixed(n['cook_minutes'])} min and rests "
        f"{mixed(n['rest_minutes'])} min. The {w['fast']} boil {n['boil_seconds']} s and are tossed "
        f"{n['toss_seconds']} s. How many seconds after the {w['slow']} do the {w['fast']} go in?"
    )


def _solve_start(n: Numbers) -> tuple[str, ...]:
    minutes = n["cook_minutes"] + n["rest_minutes"]
    return (
        f"The slow part: {figures(n['cook_minutes'])} + {figures(n['rest_minutes'])} = {figures(minutes)} min.",
        f"In seconds: {figures(minutes)} × 60 = {_slow(n)} s.",
        f"The fast part: {n['boil_seconds']} + {n['toss_seconds']} = {_fast(n)} s.",
        f"Start it so much later: {_slow(n)} - {_fast(n)} = {_slow(n) - _fast(n)} s.",
    )


PICKUP_START = Sum(
    name="pickup_start",
    title="When to start so that all land together",
    level="in a shift",
    unit="s",
    ranges={
        "cook_minutes": span(5, 14, "1/2", "minutes the slow part cooks"),
        "rest_minutes": span(1, 5, "1/2", "minutes the slow part rests"),
        "boil_seconds": span(75, 105, 5, "seconds fresh strands boil, about 90"),
        "toss_seconds": span(20, 60, 5, "seconds they are tossed in the sauce"),
    },
    words={"slow": "fish|steak|duck breast|chop|chicken breast|lamb rack", "fast": "strands|noodles|ribbons"},
    ask=_ask_start,
    right=_later,
    solve=_solve_start,
    wrong=(
        WrongWay(
            "rest_forgotten",
            lambda n: 60 * n["cook_minutes"] - _fast(n),
            "You left out the rest. The plate leaves after it.",
            "Leaves out the resting time.",
        ),
        WrongWay(
            "toss_forgotten",
            lambda n: _slow(n) - n["boil_seconds"],
            "You left out the tossing. It comes between the pot and the plate.",
            "Leaves out the tossing.",
        ),
        WrongWay(
            "hundred_seconds_to_a_minute",
            lambda n: _slow(n) * 100 / 60 - _fast(n),
            "You took a minute as 100 seconds. It has 60.",
            "Takes a minute as 100 seconds.",
        ),
        WrongWay(
            "started_at_the_end",
            _slow,
            "You started the second when the first was done. Then the first waits: start earlier by its own time.",
            "Starts the second part when the first is done.",
        ),
        WrongWay(
            "times_added",
            lambda n: _slow(n) + _fast(n),
            "You added the times. They run side by side: take one from the other.",
            "Adds times that run side by side.",
        ),
        WrongWay(
            "counted_from_the_end",
            _fast,
            "You counted back from the end. The question counts from when the first part starts.",
            "Counts back from the end instead of on from the start.",
        ),
    ),
    tolerance=SECONDS,
    fits=lambda n: _later(n) > 0,
    formula="longest time - own time, cooking, resting and tossing counted",
    checked_against="Common practice: fresh strands take about 90 s; one example is worked by hand in the tests.",
)


def _ask_thickness(n: Numbers, w: Words) -> str:
    return (
        "A rule of thumb, from theory alone: the time goes with the thickness times itself. "
        f"A {w['food']} {n['old_millimetres']} mm thick takes {n['old_minutes']} min. How many minutes would one of "
        f"{n['new_millimetres']} mm take?"
    )


def _ratio(n: Numbers) -> Fraction:
    return n["new_millimetres"] / n["old_millimetres"]


def _thickness(n: Numbers) -> Fraction:
    old, new = float(n["old_millimetres"]), float(n["new_millimetres"])
    return kept(guess_for_thickness(float(n["old_minutes"]), old, new).minutes)


THICKNESS_TIME = Sum(
    name="thickness_time",
    title="A guess at the time for another thickness",
    level="in a shift",
    unit="min",
    ranges={
        "old_minutes": span(10, 60, 1, "minutes for the piece that was timed"),
        "old_millimetres": span(15, 60, 1, "its thickness, in millimetres"),
        "new_millimetres": span(15, 80, 1, "thickness of the new piece, in millimetres"),
    },
    words={"food": "steak|chop|fish fillet|block of tofu|chicken breast|slab of pork"},
    ask=_ask_thickness,
    right=_thickness,
    solve=lambda n: (
        f"New over old thickness: {n['new_millimetres']} / {n['old_millimetres']} {comes_to(_ratio(n))}.",
        f"Times itself, times the minutes: {n['old_minutes']} × {n['new_millimetres']} × {n['new_millimetres']} / "
        f"{n['old_millimetres']} / {n['old_millimetres']} {comes_to(_thickness(n))} min.",
        "It is a guess for when to start to measure, never for when to stop.",
    ),
    wrong=(
        WrongWay(
            "in_proportion",
            lambda n: n["old_minutes"] * _ratio(n),
            "You let the time grow like the thickness. By this rule it grows like the thickness times itself.",
            "Uses plain proportion.",
        ),
        WrongWay(
            "unchanged",
            lambda n: n["old_minutes"],
            "You kept the time. Another thickness takes another time.",
            "Keeps the time unchanged.",
        ),
        WrongWay(
            "difference_added",
            lambda n: n["old_minutes"] + n["new_millimetres"] - n["old_millimetres"],
            "You added millimetres to minutes. Multiply by the ratio, twice.",
            "Adds the difference in thickness to the time.",
        ),
        WrongWay(
            "cubed",
            lambda n: n["old_minutes"] * _ratio(n) ** 3,
            "You multiplied by the ratio three times. Twice is the rule.",
            "Uses the third power.",
        ),
        WrongWay(
            "upside_down",
            lambda n: n["old_minutes"] / _ratio(n) ** 2,
            "You turned the ratio around. It is new over old: thicker takes longer.",
            "Turns the ratio upside down.",
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="minutes × (new thickness / old thickness)²",
    checked_against="Theory only (heat led through a flat slab); no published worked example was found.",
    fits=lambda n: Fraction(1, 2) <= _ratio(n) <= 2 and _ratio(n) != 1,
    caution="Time and thickness never say that food is done: measure the thickest part with a clean probe.",
)
