"""Temperatures: Fahrenheit and Celsius, and differences."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import CELSIUS, FAHRENHEIT
from trainer.kitchen.quiz.wording import figures, roughly

PER_DEGREE = Fraction(5, 9)


def _solve_celsius(n: Numbers) -> tuple[Sentence, ...]:
    f = n["fahrenheit"]
    return (
        sentence("take_off_first", fahrenheit=figures(f), result=figures(f - 32)),
        sentence(
            "then_times_over",
            rest=figures(f - 32),
            result=roughly((f - 32) * PER_DEGREE),
        ),
    )


TEMPERATURE_CONVERSION = NumericFamily(
    name="temperature_conversion",
    level="two steps",
    unit="°C",
    unit_rule="required",
    ranges={"fahrenheit": span(100, 480, "1/10", "the temperature, in Fahrenheit")},
    words=("place",),
    ask=lambda n, w: sentence(
        "ask",
        place=w["place"],
        fahrenheit=figures(n["fahrenheit"]),
    ),
    right=lambda n: (n["fahrenheit"] - 32) * PER_DEGREE,
    solve=_solve_celsius,
    wrong={
        "thirty_two_forgotten": lambda n: n["fahrenheit"] * PER_DEGREE,
        "thirty_two_taken_off_last": lambda n: n["fahrenheit"] * PER_DEGREE - 32,
        "nine_over_five": lambda n: (n["fahrenheit"] - 32) / PER_DEGREE,
        "rule_of_thumb": lambda n: (n["fahrenheit"] - 30) / 2,
        "only_thirty_two": lambda n: n["fahrenheit"] - 32,
    },
    tolerance=CELSIUS,
    formula="(F - 32) × 5 / 9",
    checked_against="OpenStax Contemporary Mathematics, section 9.5: 392 °F is 200 °C. NIST SP 811, Appendix B.8.",
    below_zero=True,
)


def _solve_fahrenheit(n: Numbers) -> tuple[Sentence, ...]:
    c = n["celsius"]
    return (
        sentence("times_over_first", celsius=figures(c), result=roughly(c / PER_DEGREE)),
        sentence(
            "then_add",
            product=figures(c / PER_DEGREE),
            result=roughly(c / PER_DEGREE + 32),
        ),
    )


TEMPERATURE_TO_FAHRENHEIT = NumericFamily(
    name="temperature_to_fahrenheit",
    level="two steps",
    unit="°F",
    unit_rule="required",
    ranges={"celsius": span(40, 250, "1/10", "the temperature, in Celsius")},
    words=("place",),
    ask=lambda n, w: sentence(
        "ask",
        place=w["place"],
        celsius=figures(n["celsius"]),
    ),
    right=lambda n: n["celsius"] / PER_DEGREE + 32,
    solve=_solve_fahrenheit,
    wrong={
        "thirty_two_forgotten": lambda n: n["celsius"] / PER_DEGREE,
        "thirty_two_added_first": lambda n: (n["celsius"] + 32) / PER_DEGREE,
        "five_over_nine": lambda n: n["celsius"] * PER_DEGREE + 32,
        "rule_of_thumb": lambda n: 2 * n["celsius"] + 30,
        "only_thirty_two": lambda n: n["celsius"] + 32,
        "thirty_two_taken_off": lambda n: n["celsius"] / PER_DEGREE - 32,
    },
    tolerance=FAHRENHEIT.named_within("1/20"),
    formula="C × 9 / 5 + 32",
    checked_against="OpenStax Contemporary Mathematics, section 9.5: 20 °C is 68 °F, 3 °C is 37.4 °F.",
    below_zero=True,
)


def _ask_difference(n: Numbers, w: Words) -> Sentence:
    start = n["start_fahrenheit"]
    return sentence(
        "ask",
        food=w["food"],
        start=figures(start),
        end=figures(start + n["rise_fahrenheit"]),
    )


def _solve_difference(n: Numbers) -> tuple[Sentence, ...]:
    start, rise = n["start_fahrenheit"], n["rise_fahrenheit"]
    return (
        sentence(
            "the_rise",
            end=figures(start + rise),
            start=figures(start),
            result=figures(rise),
        ),
        sentence(
            "a_difference_has_no",
            rise=figures(rise),
            result=roughly(rise * PER_DEGREE),
        ),
    )


TEMPERATURE_DIFFERENCE = NumericFamily(
    name="temperature_difference",
    level="two steps",
    unit="°C difference",
    unit_rule="required",
    ranges={
        "start_fahrenheit": span(36, 120, 1, "where it starts, in Fahrenheit"),
        "rise_fahrenheit": span(36, 144, "9/5", "how far it rises, in Fahrenheit"),
    },
    words=("food",),
    ask=_ask_difference,
    right=lambda n: n["rise_fahrenheit"] * PER_DEGREE,
    solve=_solve_difference,
    wrong={
        "thirty_two_taken_off": lambda n: (n["rise_fahrenheit"] - 32) * PER_DEGREE,
        "nine_over_five": lambda n: n["rise_fahrenheit"] / PER_DEGREE,
        "halved": lambda n: n["rise_fahrenheit"] / 2,
        "left_in_fahrenheit": lambda n: n["rise_fahrenheit"],
        "thirty_two_added": lambda n: n["rise_fahrenheit"] * PER_DEGREE + 32,
    },
    tolerance=CELSIUS.named_within("1/20"),
    formula="rise in F × 5 / 9",
    checked_against="NIST SP 811, Appendix B.8: an interval has no offset. With pint 0.25, 40 °F is 22.22 °C.",
)
