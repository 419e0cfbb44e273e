"""How heat kills, for understanding alone: tenfold cuts, and D at another temperature. Never a permission."""

from __future__ import annotations

from fractions import Fraction
from math import exp, log

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import asked_as, to_figures
from trainer.kitchen.quiz.wording import any_of, figures, mixed, roughly
from trainer.recipe_math.lethality import HeatResistance, log_reduction
from trainer.recipe_math.saying import say

NEVER = say(
    "For understanding, never a permission: cooking times and temperatures come from the local code, "
    "and a lower one needs a licensed process authority and an approved plan."
)
FOODS = any_of(
    "egg mix|milk|custard base|meat sauce|poultry stock|cream|fish paste|bean soup|yolk mix|broth|gravy|juice"
)
_Z = 6.0


def _cuts(n: Numbers) -> Fraction:
    d = HeatResistance(float(n["d_minutes"]), 60.0, _Z, "a practice sum")
    return kept(log_reduction(d, float(n["hold_minutes"]), 60.0).logs)


def _ask_cuts(n: Numbers, w: Words) -> str:
    return say(
        "For one germ in {food}, at one temperature, D is {d} min: that long kills nine in ten. How many "
        "such tenfold cuts are {hold} min?",
        food=w["food"],
        d=mixed(n["d_minutes"]),
        hold=mixed(n["hold_minutes"]),
    )


LOG_REDUCTION = Sum(
    name="log_reduction",
    title=say("How many tenfold cuts a time gives (for understanding)"),
    level="one step",
    unit="times",
    ranges={
        "d_minutes": span("1/2", 8, "1/4", "D, in minutes"),
        "hold_minutes": span(2, 60, "1/4", "time held, in minutes"),
    },
    words={"food": FOODS},
    ask=_ask_cuts,
    right=_cuts,
    solve=lambda n: (
        say("Each D of {d} min is one cut to a tenth.", d=figures(n["d_minutes"])),
        say(
            "Divide: {hold} / {d} = {result} cuts.",
            hold=figures(n["hold_minutes"]),
            d=figures(n["d_minutes"]),
            result=roughly(_cuts(n)),
        ),
    ),
    wrong=(
        WrongWay(
            "multiplied",
            lambda n: n["hold_minutes"] * n["d_minutes"],
            say("You multiplied the times. Divide: how often does D go into the time?"),
            say("Multiplies instead of dividing."),
        ),
        WrongWay(
            "upside_down",
            lambda n: n["d_minutes"] / n["hold_minutes"],
            say("You divided D by the time. It is the other way around."),
            say("Turns the fraction upside down."),
        ),
        WrongWay(
            "one_cut_short",
            lambda n: _cuts(n) - 1,
            say("You left out the first cut. The first D counts as well."),
            say("Counts one cut too few."),
        ),
        WrongWay(
            "natural_logarithm",
            lambda n: kept(float(n["hold_minutes"] / n["d_minutes"]) * log(10)),
            say("You used another base. D counts cuts to a tenth, so nothing is multiplied by 2.3."),
            say("Mixes natural and decimal logarithms."),
        ),
        WrongWay(
            "nine_tenths_each",
            lambda n: _cuts(n) * 9 / 10,
            say("You took nine tenths of each cut. A cut is to a tenth, and each counts once."),
            say("Takes 90 percent of the number of cuts."),
        ),
    ),
    tolerance=asked_as(
        "1/200", say("Round to two places."), "Half of the second place: the numbers come to two places."
    ),
    formula="time / D",
    checked_against="OpenStax Microbiology, section 13.1: D kills 90 %; an exercise: D of 3 min, 5 cuts, 15 min.",
    fits=lambda n: (100 * n["hold_minutes"] / n["d_minutes"]).denominator == 1 and 2 <= _cuts(n) <= 9,
    caution=NEVER,
)


def _warmer(n: Numbers) -> Fraction:
    return n["steps"] * n["z_celsius"]


def _other(n: Numbers) -> Fraction:
    return n["at_celsius"] + _warmer(n)


def _d_seconds(n: Numbers) -> Fraction:
    d = HeatResistance(float(n["d_minutes"]), float(n["at_celsius"]), float(n["z_celsius"]), "a practice sum")
    return kept(60 * d.d_at(float(_other(n))))


def _tenfold(n: Numbers, steps: Fraction) -> Fraction:
    return kept(60 * float(n["d_minutes"]) * 10.0 ** float(steps))


def _straight(n: Numbers) -> Fraction | None:
    return 60 * n["d_minutes"] / n["steps"] if n["steps"] >= 2 else None


def _ask_d(n: Numbers, w: Words) -> str:
    return say(
        "For one germ in {food}, D is {d} min at {at} °C, and z is {z} °C: D falls to a tenth for every "
        "z warmer. What is D at {other} °C, in seconds?",
        food=w["food"],
        d=mixed(n["d_minutes"]),
        at=n["at_celsius"],
        z=figures(n["z_celsius"]),
        other=figures(_other(n)),
    )


def _solve_d(n: Numbers) -> tuple[str, ...]:
    steps, seconds = n["steps"], 60 * n["d_minutes"]
    tens = 10 ** abs(int(steps))
    last = {"seconds": figures(seconds), "tens": tens, "result": figures(_d_seconds(n))}
    return (
        say(
            "How often z: ({other} - {at}) / {z} = {result}.",
            other=figures(_other(n)),
            at=n["at_celsius"],
            z=figures(n["z_celsius"]),
            result=figures(steps),
        ),
        say("D in seconds: {d} × 60 = {result} s.", d=figures(n["d_minutes"]), result=figures(seconds)),
        say("That much warmer: {seconds} / {tens} = {result} s.", **last)
        if steps > 0
        else say("That much cooler: {seconds} × {tens} = {result} s.", **last),
    )


D_AT_OTHER_TEMPERATURE = Sum(
    name="d_at_other_temperature",
    title=say("D at another temperature (for understanding)"),
    level="in a shift",
    unit="s",
    unit_rule="required",
    ranges={
        "d_minutes": span(1, 30, "1/2", "D, in minutes"),
        "at_celsius": span(55, 66, 1, "temperature D belongs to, in Celsius"),
        "z_celsius": span(4, 8, "1/2", "z, in Celsius"),
        "steps": span(-2, 2, 1, "how often z the other temperature is warmer"),
    },
    words={"food": FOODS},
    ask=_ask_d,
    right=_d_seconds,
    solve=_solve_d,
    wrong=(
        WrongWay(
            "sign_turned_around",
            lambda n: _tenfold(n, n["steps"]),
            say("You went the wrong way. Warmer is quicker: D gets smaller."),
            say("Turns the sign of the temperature difference around."),
        ),
        WrongWay(
            "straight_line",
            _straight,
            say("You divided D by the number of steps. Each step divides it by ten."),
            say("Takes the change as linear."),
        ),
        WrongWay(
            "in_proportion",
            lambda n: 60 * n["d_minutes"] * n["at_celsius"] / _other(n),
            say("You used the ratio of the temperatures. D falls to a tenth for every z."),
            say("Uses inverse proportion."),
        ),
        WrongWay(
            "natural_base",
            lambda n: kept(60 * float(n["d_minutes"]) * exp(-float(n["steps"]))),
            say("You used another base. Each z is a factor of ten."),
            say("Mixes natural and decimal logarithms."),
        ),
        WrongWay(
            "z_in_other_degrees",
            lambda n: _tenfold(n, -n["steps"] * 5 / 9),
            say("You turned z into Fahrenheit. Keep it in the degrees of the temperatures."),
            say("Has z in Fahrenheit and the temperatures in Celsius."),
        ),
        WrongWay(
            "left_in_minutes",
            lambda n: _d_seconds(n) / 60,
            say("You gave minutes. The question asks for seconds."),
            say("Leaves the answer in minutes."),
        ),
    ),
    tolerance=to_figures(3, "Rounded to three figures: D runs over many powers of ten."),
    formula="D × 10^((T of D - T) / z)",
    checked_against="FSIS Appendix A (1999), 6.5-log column: z of 10 °F by least squares; 112 min at 130 °F, 67 s at "
    "150 °F, within a second.",
    fits=lambda n: n["steps"] != 0,
    caution=NEVER,
)
