"""What cooks type a line each: times with temperatures, and weights; every bad line told by its number and rule."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.printed import english
from trainer.kitchen.typed_lines import cooling_log, typed_weights, when_text
from trainer.recipe_math.quantity import Quantity


def minutes_of(text: str) -> list[float]:
    """Return the minutes of a log without a problem."""
    log = cooling_log(text, degrees="°F")
    assert log.problems == ()
    return [reading.minutes for reading in log.readings]


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("14:05 135 F\n16:15 70 F", [845, 975]),
        ("2:05 pm 135 F\n4:15 p.m. 70 F", [845, 975]),
        ("12:10 am 135 F\n12:10 pm 70", [10, 730]),
        ("0 135\n130 70\n300 41", [0, 130, 300]),
        ("0 min, 135 F\n2 h 10 min, 70 F\n5 h 41 F", [0, 130, 300]),
        ("1.5 h 57 C\n2 hours 40 C", [90, 120]),
        ("14:00 135 F; 14:30 120 F", [840, 870]),
        ("\n\n14:00 135 F\n\n", [840]),
    ],
)
def test_times_are_read_as_cooks_write_them(text: str, minutes: list[float]) -> None:
    """By the clock of 24 or of 12 hours, or in hours and minutes from the start; blank lines are let pass."""
    assert minutes_of(text) == minutes


def test_a_clock_may_pass_midnight() -> None:
    """Half an hour after 23:50 is 0:20 the next day, not 23 and a half hours earlier."""
    assert minutes_of("23:50 135 F\n0:20 110 F\n5:40 41 F") == [1430, 1460, 1780]


def test_temperatures_are_read_in_any_degrees() -> None:
    """57 °C as written, 135 °F is 57.22 °C, and a bare number is in the degrees given."""
    log = cooling_log("0 57 C\n10 130 F\n20 120", degrees="°F")
    assert [round(reading.celsius, 2) for reading in log.readings] == [57, 54.44, 48.89]


BAD = {
    "no time": ("135 F", "Write a time and a temperature"),
    "words": ("after lunch it was warm", "Write a time and a temperature"),
    "no number": ("14:00 hot", "Write a time and a temperature"),
    "no temperature": ("14:00", "Write a time and a temperature"),
    "a weight": ("14:00 3 oz", "is no temperature"),
    "no such hour": ("25:00 41 F", "25:00 is no time of day"),
    "no such minute": ("12:75 41 F", "12:75 is no time of day"),
    "an hour of twelve that is none": ("13:00 pm 41 F", "is no time of day"),
    "colder than a kitchen": ("14:00 -200 F", "outside what a kitchen measures"),
    "hotter than a kitchen": ("14:00 900 F", "outside what a kitchen measures"),
    "two readings of one figure": ("14:00 1,350 F", "1,350"),
    "a drawing": ("🍝 🍝", "Write a time and a temperature"),
}


@pytest.mark.parametrize(("text", "rule"), BAD.values(), ids=BAD)
def test_a_bad_line_is_told_and_the_rest_is_read(text: str, rule: str) -> None:
    """The problem names the line, what stands there, and the rule; good lines around it are read."""
    log = cooling_log(f"13:00 136 F\n{text}\n23:00 40 F")
    (problem,) = log.problems
    assert problem.line == 2
    assert rule in english(problem)
    assert text[:20] in english(problem)
    assert len(log.readings) == 2


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("14:00 135 F\n14:00 120 F", "not later than the line before (14:00)"),
        ("14:00 135 F\n13:50 120 F", "not later than the line before"),
        ("11:30 135 F\n1:15 70 F", "Write the afternoon as 13:15"),
        ("20 135 F\n10 120 F", "not later than the line before (20 min)"),
        ("14:00 135 F\n30 min 120 F", "by the clock, or all as minutes"),
    ],
)
def test_times_go_forward_in_one_way_of_writing(text: str, rule: str) -> None:
    """A time that goes back is a slip of the pen, asked back and never guessed."""
    (problem,) = cooling_log(text).problems
    assert rule in english(problem.rule)


def test_a_bare_temperature_without_degrees_is_asked_back() -> None:
    """70 may be warm or hot: the unit is missing."""
    (problem,) = cooling_log("14:00 70").problems
    assert "unit is missing" in english(problem.rule)


def test_a_log_without_end_is_refused_whole() -> None:
    """At most 200 lines are read."""
    (problem,) = cooling_log("\n".join(f"{at} 100 F" for at in range(201))).problems
    assert "At most 200" in english(problem.rule)


@pytest.mark.parametrize(
    ("minutes", "clock", "said"),
    [
        (0, False, "0 min"),
        (120, False, "2 h"),
        (130, False, "2 h 10 min"),
        (845, True, "14:05"),
        (1460, True, "0:20 the next day"),
        (2 * 1440 + 61, True, "1:01 2 days later"),
    ],
)
def test_a_moment_is_said_as_it_was_typed(minutes: float, clock: bool, said: str) -> None:
    """By the clock, or as hours and minutes from the start."""
    assert english(when_text(minutes, clock)) == said


@pytest.mark.parametrize(
    "text", ["6.4 6.6 7", "6.4\n6.6\n7", "6.4; 6.6; 7 oz", "6.4, 6.6, 7", "6.4\t6.6\n7", "6 2/5 oz\n6.6 oz\n7"]
)
def test_weights_are_read_one_a_line_or_apart(text: str) -> None:
    """Lines, semicolons, commas with a blank, or bare numbers apart by blanks; a fraction stays whole."""
    typed = typed_weights(text, default_unit="oz")
    assert typed.problems == ()
    assert [weight.amount for weight in typed.weights] == [Fraction("6.4"), Fraction("6.6"), Fraction(7)]


def test_a_weight_keeps_its_own_unit() -> None:
    """190 g among ounces is 190 g."""
    assert typed_weights("190 g", default_unit="oz").weights == (Quantity.of(190, "g"),)


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("1 cup", "is no weight"),
        ("0 oz", "weighs nothing"),
        ("-3 oz", "-3 oz"),
        ("heavy", "no number"),
        ("1 lb x 2", "an area"),
    ],
)
def test_what_is_no_weight_is_told(text: str, rule: str) -> None:
    """The problem names the line, the text once, and the rule."""
    typed = typed_weights(f"6.4\n{text}\n6.6", default_unit="oz")
    (problem,) = typed.problems
    assert problem.line == 2
    assert english(problem).count(f"“{text}”") == 1
    assert rule in english(problem)
    assert len(typed.weights) == 2


def test_a_weight_with_two_readings_is_asked_back() -> None:
    """1,500 g is one and a half grams or a kilo and a half: both are named."""
    (problem,) = typed_weights("1,500 g", default_unit="oz").problems
    assert "1.5 g or 1500 g" in english(problem)


def test_weights_without_end_are_cut_off_in_words() -> None:
    """At most 200 weights are read."""
    typed = typed_weights(" ".join(["6.5"] * 500), default_unit="oz")
    assert len(typed.weights) == 200
    assert "At most 200" in english(typed.problems[0].rule)
