"""Temperatures: Fahrenheit and Celsius, and differences."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import within
from trainer.kitchen.quiz.wording import any_of, figures, roughly
from trainer.recipe_math.saying import say

PER_DEGREE = Fraction(5, 9)
PLACES = any_of(
    "the deck oven|the bread oven|the top oven|the low oven|the smoker|the grill|the spit|the pizza oven|"
    "the hot box|the drying oven|the flat top|the griddle|the clay oven|the range oven|the cast-iron pan|"
    "the roasting pan|the pie oven|the toaster oven|the barrel grill|the steam oven|the fan oven|"
    "the wood oven"
)
WHOLE_DEGREE = within(
    "1/2", "Half a degree, ends included: a food thermometer may be off by 1 °C (FDA Food Code 4-203.11)."
)


def _solve_celsius(n: Numbers) -> tuple[str, ...]:
    f = n["fahrenheit"]
    return (
        say("Take off 32 first: {fahrenheit} - 32 = {result}.", fahrenheit=figures(f), result=figures(f - 32)),
        say(
            "Then times 5 over 9: {rest} × 5 / 9 = {result} °C.",
            rest=figures(f - 32),
            result=roughly((f - 32) * PER_DEGREE),
        ),
    )


TEMPERATURE_CONVERSION = Sum(
    name="temperature_conversion",
    title=say("Fahrenheit to Celsius"),
    level="two steps",
    unit="°C",
    unit_rule="required",
    ranges={"fahrenheit": span(100, 480, "1/10", "the temperature, in Fahrenheit")},
    words={"place": PLACES},
    ask=lambda n, w: say(
        "The thermometer of {place} reads {fahrenheit} °F. What is that in °C?",
        place=w["place"],
        fahrenheit=figures(n["fahrenheit"]),
    ),
    right=lambda n: (n["fahrenheit"] - 32) * PER_DEGREE,
    solve=_solve_celsius,
    wrong=(
        WrongWay(
            "thirty_two_forgotten",
            lambda n: n["fahrenheit"] * PER_DEGREE,
            say("You left out the 32. Take it off before you multiply."),
            say("Leaves out the offset of 32."),
        ),
        WrongWay(
            "thirty_two_taken_off_last",
            lambda n: n["fahrenheit"] * PER_DEGREE - 32,
            say("You took off 32 at the end. Take it off first, while it is still Fahrenheit."),
            say("Takes off the 32 after the ratio instead of before."),
        ),
        WrongWay(
            "nine_over_five",
            lambda n: (n["fahrenheit"] - 32) / PER_DEGREE,
            say("You multiplied by 9 over 5. Going to Celsius it is 5 over 9: the number gets smaller."),
            say("Turns the ratio upside down."),
        ),
        WrongWay(
            "rule_of_thumb",
            lambda n: (n["fahrenheit"] - 30) / 2,
            say("You took off 30 and halved. That is a rough guess; here take off 32, then times 5 over 9."),
            say("Uses the estimate (F - 30) / 2 as exact."),
        ),
        WrongWay(
            "only_thirty_two",
            lambda n: n["fahrenheit"] - 32,
            say("You took off 32 and stopped. Multiply by 5 over 9 as well."),
            say("Stops after taking off 32."),
        ),
    ),
    tolerance=WHOLE_DEGREE,
    formula="(F - 32) × 5 / 9",
    checked_against="OpenStax Contemporary Mathematics, section 9.5: 392 °F is 200 °C. NIST SP 811, Appendix B.8.",
    below_zero=True,
)


def _solve_fahrenheit(n: Numbers) -> tuple[str, ...]:
    c = n["celsius"]
    return (
        say("Times 9 over 5 first: {celsius} × 9 / 5 = {result}.", celsius=figures(c), result=roughly(c / PER_DEGREE)),
        say(
            "Then add 32: {product} + 32 = {result} °F.",
            product=figures(c / PER_DEGREE),
            result=roughly(c / PER_DEGREE + 32),
        ),
    )


TEMPERATURE_TO_FAHRENHEIT = Sum(
    name="temperature_to_fahrenheit",
    title=say("Celsius to Fahrenheit"),
    level="two steps",
    unit="°F",
    unit_rule="required",
    ranges={"celsius": span(40, 250, "1/10", "the temperature, in Celsius")},
    words={"place": PLACES},
    ask=lambda n, w: say(
        "The thermometer of {place} reads {celsius} °C. What is that in °F?",
        place=w["place"],
        celsius=figures(n["celsius"]),
    ),
    right=lambda n: n["celsius"] / PER_DEGREE + 32,
    solve=_solve_fahrenheit,
    wrong=(
        WrongWay(
            "thirty_two_forgotten",
            lambda n: n["celsius"] / PER_DEGREE,
            say("You left out the 32. Add it at the end."),
            say("Leaves out the offset of 32."),
        ),
        WrongWay(
            "thirty_two_added_first",
            lambda n: (n["celsius"] + 32) / PER_DEGREE,
            say("You added 32 first. Multiply first, then add 32."),
            say("Adds the 32 before the ratio instead of after."),
        ),
        WrongWay(
            "five_over_nine",
            lambda n: n["celsius"] * PER_DEGREE + 32,
            say("You multiplied by 5 over 9. Going to Fahrenheit it is 9 over 5: the number gets bigger."),
            say("Turns the ratio upside down."),
        ),
        WrongWay(
            "rule_of_thumb",
            lambda n: 2 * n["celsius"] + 30,
            say("You doubled and added 30. That is a rough guess; here times 9 over 5, then add 32."),
            say("Uses the estimate 2 C + 30 as exact."),
        ),
        WrongWay(
            "only_thirty_two",
            lambda n: n["celsius"] + 32,
            say("You added 32 and left out the ratio. Multiply by 9 over 5 first."),
            say("Adds 32 alone."),
        ),
        WrongWay(
            "thirty_two_taken_off",
            lambda n: n["celsius"] / PER_DEGREE - 32,
            say("You took 32 off. Going to Fahrenheit you add it."),
            say("Takes off 32 instead of adding it."),
        ),
    ),
    tolerance=WHOLE_DEGREE,
    formula="C × 9 / 5 + 32",
    checked_against="OpenStax Contemporary Mathematics, section 9.5: 20 °C is 68 °F, 3 °C is 37.4 °F.",
    below_zero=True,
)


def _ask_difference(n: Numbers, w: Words) -> str:
    start = n["start_fahrenheit"]
    return say(
        "A pan of {food} goes from {start} °F to {end} °F. By how many degrees Celsius does it warm up?",
        food=w["food"],
        start=figures(start),
        end=figures(start + n["rise_fahrenheit"]),
    )


def _solve_difference(n: Numbers) -> tuple[str, ...]:
    start, rise = n["start_fahrenheit"], n["rise_fahrenheit"]
    return (
        say(
            "The rise: {end} - {start} = {result} °F.",
            end=figures(start + rise),
            start=figures(start),
            result=figures(rise),
        ),
        say(
            "A difference has no 32 in it: {rise} × 5 / 9 = {result} °C.",
            rise=figures(rise),
            result=roughly(rise * PER_DEGREE),
        ),
    )


TEMPERATURE_DIFFERENCE = Sum(
    name="temperature_difference",
    title=say("A rise in temperature, in the other degrees"),
    level="two steps",
    unit="°C difference",
    unit_rule="required",
    ranges={
        "start_fahrenheit": span(36, 120, 1, "where it starts, in Fahrenheit"),
        "rise_fahrenheit": span(36, 144, "9/5", "how far it rises, in Fahrenheit"),
    },
    words={"food": any_of("soup|milk|sauce|stock|custard base|syrup|beans|brine")},
    ask=_ask_difference,
    right=lambda n: n["rise_fahrenheit"] * PER_DEGREE,
    solve=_solve_difference,
    wrong=(
        WrongWay(
            "thirty_two_taken_off",
            lambda n: (n["rise_fahrenheit"] - 32) * PER_DEGREE,
            say("You took 32 off a rise. The 32 belongs to a reading; a difference has none."),
            say("Uses the offset of 32 on a difference."),
        ),
        WrongWay(
            "nine_over_five",
            lambda n: n["rise_fahrenheit"] / PER_DEGREE,
            say("You multiplied by 9 over 5. Going to Celsius it is 5 over 9."),
            say("Turns the ratio upside down."),
        ),
        WrongWay(
            "halved",
            lambda n: n["rise_fahrenheit"] / 2,
            say("You halved the rise. Five ninths is a bit more than a half: multiply by 5 over 9."),
            say("Halves instead of multiplying by 5/9."),
        ),
        WrongWay(
            "left_in_fahrenheit",
            lambda n: n["rise_fahrenheit"],
            say("You gave the rise in Fahrenheit. Multiply by 5 over 9 for Celsius."),
            say("Leaves the difference in Fahrenheit."),
        ),
        WrongWay(
            "thirty_two_added",
            lambda n: n["rise_fahrenheit"] * PER_DEGREE + 32,
            say("You added 32 to a rise. The 32 belongs to a reading; a difference has none."),
            say("Adds 32 to a difference."),
        ),
    ),
    tolerance=within("1/4", "A quarter of a degree: the numbers come to whole degrees."),
    formula="rise in F × 5 / 9",
    checked_against="NIST SP 811, Appendix B.8: an interval has no offset. With pint 0.25, 40 °F is 22.22 °C.",
)
