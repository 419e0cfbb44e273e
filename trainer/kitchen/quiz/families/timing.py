"""Work timed backwards from one moment, and a rule of thumb for thickness."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import SECONDS, THREE_FIGURES
from trainer.kitchen.quiz.wording import any_of, figures, mixed, roughly
from trainer.recipe_math.pickup import Item, starts
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.saying import say
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
    return say(
        "Two plates leave the line at one moment. The {slow} cooks {cook} min and rests {rest} min. The "
        "{fast} boil {boil} s and are tossed {toss} s. How many seconds after the {slow} do the {fast} "
        "go in?",
        slow=w["slow"],
        cook=mixed(n["cook_minutes"]),
        rest=mixed(n["rest_minutes"]),
        fast=w["fast"],
        boil=n["boil_seconds"],
        toss=n["toss_seconds"],
    )


def _solve_start(n: Numbers) -> tuple[str, ...]:
    minutes = n["cook_minutes"] + n["rest_minutes"]
    return (
        say(
            "The slow part: {cook} + {rest} = {result} min.",
            cook=figures(n["cook_minutes"]),
            rest=figures(n["rest_minutes"]),
            result=figures(minutes),
        ),
        say("In seconds: {minutes} × 60 = {result} s.", minutes=figures(minutes), result=_slow(n)),
        say(
            "The fast part: {boil} + {toss} = {result} s.",
            boil=n["boil_seconds"],
            toss=n["toss_seconds"],
            result=_fast(n),
        ),
        say(
            "Start it so much later: {slow} - {fast} = {result} s.",
            slow=_slow(n),
            fast=_fast(n),
            result=_slow(n) - _fast(n),
        ),
    )


PICKUP_START = Sum(
    name="pickup_start",
    title=say("When to start so that all land together"),
    level="in a shift",
    unit="s",
    ranges={
        "cook_minutes": span(5, 14, "1/2", "minutes the slow part cooks"),
        "rest_minutes": span(1, 5, "1/2", "minutes the slow part rests"),
        "boil_seconds": span(75, 105, 5, "seconds fresh strands boil, about 90"),
        "toss_seconds": span(20, 60, 5, "seconds they are tossed in the sauce"),
    },
    words={
        "slow": any_of("fish|steak|duck breast|chop|chicken breast|lamb rack"),
        "fast": any_of("strands|noodles|ribbons"),
    },
    ask=_ask_start,
    told=lambda n: (60 * n["cook_minutes"], 60 * n["rest_minutes"], n["boil_seconds"], n["toss_seconds"]),
    right=_later,
    solve=_solve_start,
    wrong=(
        WrongWay(
            "rest_forgotten",
            lambda n: 60 * n["cook_minutes"] - _fast(n),
            say("You left out the rest. The plate leaves after it."),
            say("Leaves out the resting time."),
        ),
        WrongWay(
            "toss_forgotten",
            lambda n: _slow(n) - n["boil_seconds"],
            say("You left out the tossing. It comes between the pot and the plate."),
            say("Leaves out the tossing."),
        ),
        WrongWay(
            "hundred_seconds_to_a_minute",
            lambda n: _slow(n) * 100 / 60 - _fast(n),
            say("You took a minute as 100 seconds. It has 60."),
            say("Takes a minute as 100 seconds."),
        ),
        WrongWay(
            "started_at_the_end",
            _slow,
            say("You started the second when the first was done. Then the first waits: start earlier by its own time."),
            say("Starts the second part when the first is done."),
        ),
        WrongWay(
            "times_added",
            lambda n: _slow(n) + _fast(n),
            say("You added the times. They run side by side: take one from the other."),
            say("Adds times that run side by side."),
        ),
        WrongWay(
            "counted_from_the_end",
            _fast,
            say("You counted back from the end. The question counts from when the first part starts."),
            say("Counts back from the end instead of on from the start."),
        ),
    ),
    tolerance=SECONDS,
    fits=lambda n: _later(n) > 0,
    formula="longest time - own time, cooking, resting and tossing counted",
    checked_against="Common practice: fresh strands take about 90 s; one example is worked by hand in the tests.",
)


def _ask_thickness(n: Numbers, w: Words) -> str:
    return say(
        "A rule of thumb, from theory alone: the time goes with the thickness times itself. A {food} "
        "{old} mm thick takes {minutes} min. How many minutes would one of {new} mm take?",
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


THICKNESS_TIME = Sum(
    name="thickness_time",
    title=say("A guess at the time for another thickness"),
    level="in a shift",
    unit="min",
    ranges={
        "old_minutes": span(10, 60, 1, "minutes for the piece that was timed"),
        "old_millimetres": span(15, 60, 1, "its thickness, in millimetres"),
        "new_millimetres": span(15, 80, 1, "thickness of the new piece, in millimetres"),
    },
    words={"food": any_of("steak|chop|fish fillet|block of tofu|chicken breast|slab of pork")},
    ask=_ask_thickness,
    right=_thickness,
    solve=lambda n: (
        say(
            "New over old thickness: {new} / {old} = {result}.",
            new=n["new_millimetres"],
            old=n["old_millimetres"],
            result=roughly(_ratio(n)),
        ),
        say(
            "Times itself, times the minutes: {minutes} × {new} × {new} / {old} / {old} = {result} min.",
            minutes=n["old_minutes"],
            new=n["new_millimetres"],
            old=n["old_millimetres"],
            result=roughly(_thickness(n)),
        ),
        say("It is a guess for when to start to measure, never for when to stop."),
    ),
    wrong=(
        WrongWay(
            "in_proportion",
            lambda n: n["old_minutes"] * _ratio(n),
            say("You let the time grow like the thickness. By this rule it grows like the thickness times itself."),
            say("Uses plain proportion."),
        ),
        WrongWay(
            "unchanged",
            lambda n: n["old_minutes"],
            say("You kept the time. Another thickness takes another time."),
            say("Keeps the time unchanged."),
        ),
        WrongWay(
            "difference_added",
            lambda n: n["old_minutes"] + n["new_millimetres"] - n["old_millimetres"],
            say("You added millimetres to minutes. Multiply by the ratio, twice."),
            say("Adds the difference in thickness to the time."),
        ),
        WrongWay(
            "cubed",
            lambda n: n["old_minutes"] * _ratio(n) ** 3,
            say("You multiplied by the ratio three times. Twice is the rule."),
            say("Uses the third power."),
        ),
        WrongWay(
            "upside_down",
            lambda n: n["old_minutes"] / _ratio(n) ** 2,
            say("You turned the ratio around. It is new over old: thicker takes longer."),
            say("Turns the ratio upside down."),
        ),
    ),
    tolerance=THREE_FIGURES,
    formula="minutes × (new thickness / old thickness)²",
    checked_against="Theory only (heat led through a flat slab); no published worked example was found.",
    fits=lambda n: Fraction(1, 2) <= _ratio(n) <= 2 and _ratio(n) != 1,
    caution=say("Time and thickness never say that food is done: measure the thickest part with a clean probe."),
)
