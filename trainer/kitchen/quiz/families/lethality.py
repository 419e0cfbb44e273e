"""How heat kills, for understanding alone: tenfold cuts, and D at another temperature. Never a permission."""

from __future__ import annotations

from fractions import Fraction
from math import exp, log

from trainer.kitchen.quiz.estimated import kept
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import TWO_PLACES, to_figures
from trainer.kitchen.quiz.wording import figures, mixed, roughly
from trainer.recipe_math.lethality import HeatResistance, log_reduction

_Z = 6.0


def _cuts(n: Numbers) -> Fraction:
    d = HeatResistance(float(n["d_minutes"]), 60.0, _Z, "a practice sum")
    return kept(log_reduction(d, float(n["hold_minutes"]), 60.0).logs)


def _ask_cuts(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        d=mixed(n["d_minutes"]),
        hold=mixed(n["hold_minutes"]),
    )


LOG_REDUCTION = NumericFamily(
    name="log_reduction",
    level="one step",
    unit="times",
    ranges={
        "d_minutes": span("1/2", 8, "1/4", "D, in minutes"),
        "hold_minutes": span(2, 60, "1/4", "time held, in minutes"),
    },
    words=("food",),
    ask=_ask_cuts,
    right=_cuts,
    solve=lambda n: (
        sentence("each_of_min_is", d=figures(n["d_minutes"])),
        sentence(
            "divide_cuts",
            hold=figures(n["hold_minutes"]),
            d=figures(n["d_minutes"]),
            result=roughly(_cuts(n)),
        ),
    ),
    wrong={
        "multiplied": lambda n: n["hold_minutes"] * n["d_minutes"],
        "upside_down": lambda n: n["d_minutes"] / n["hold_minutes"],
        "one_cut_short": lambda n: _cuts(n) - 1,
        "natural_logarithm": lambda n: kept(float(n["hold_minutes"] / n["d_minutes"]) * log(10)),
        "nine_tenths_each": lambda n: _cuts(n) * 9 / 10,
    },
    tolerance=TWO_PLACES,
    formula="time / D",
    checked_against="OpenStax Microbiology, section 13.1: D kills 90 %; an exercise: D of 3 min, 5 cuts, 15 min.",
    fits=lambda n: (100 * n["hold_minutes"] / n["d_minutes"]).denominator == 1 and 2 <= _cuts(n) <= 9,
    safety=True,
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


def _ask_d(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        d=mixed(n["d_minutes"]),
        at=n["at_celsius"],
        z=figures(n["z_celsius"]),
        other=figures(_other(n)),
    )


def _solve_d(n: Numbers) -> tuple[Sentence, ...]:
    steps, seconds = n["steps"], 60 * n["d_minutes"]
    tens = 10 ** abs(int(steps))
    last = {"seconds": figures(seconds), "tens": tens, "result": figures(_d_seconds(n))}
    return (
        sentence(
            "how_often",
            other=figures(_other(n)),
            at=n["at_celsius"],
            z=figures(n["z_celsius"]),
            result=figures(steps),
        ),
        sentence("in_seconds", d=figures(n["d_minutes"]), result=figures(seconds)),
        sentence("that_much_warmer", **last) if steps > 0 else sentence("that_much_cooler", **last),
    )


D_AT_OTHER_TEMPERATURE = NumericFamily(
    name="d_at_other_temperature",
    level="in a shift",
    asked=False,
    unit="s",
    unit_rule="required",
    ranges={
        "d_minutes": span(1, 30, "1/2", "D, in minutes"),
        "at_celsius": span(55, 66, 1, "temperature D belongs to, in Celsius"),
        "z_celsius": span(4, 8, "1/2", "z, in Celsius"),
        "steps": span(-2, 2, 1, "how often z the other temperature is warmer"),
    },
    words=("food",),
    ask=_ask_d,
    right=_d_seconds,
    solve=_solve_d,
    wrong={
        "sign_turned_around": lambda n: _tenfold(n, n["steps"]),
        "straight_line": _straight,
        "in_proportion": lambda n: 60 * n["d_minutes"] * n["at_celsius"] / _other(n),
        "natural_base": lambda n: kept(60 * float(n["d_minutes"]) * exp(-float(n["steps"]))),
        "z_in_other_degrees": lambda n: _tenfold(n, -n["steps"] * 5 / 9),
        "left_in_minutes": lambda n: _d_seconds(n) / 60,
    },
    tolerance=to_figures(3, "Rounded to three figures: D runs over many powers of ten."),
    formula="D × 10^((T of D - T) / z)",
    checked_against="FSIS Appendix A (1999), 6.5-log column: z of 10 °F by least squares; 112 min at 130 °F, 67 s at "
    "150 °F, within a second.",
    fits=lambda n: n["steps"] != 0,
    safety=True,
)
