"""When two numbers count as the same, against rows of graded values."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.kitchen.quiz.comparison import Equal, EqualRounded
from trainer.kitchen.quiz.question import Answer

GRADED = (
    ("4.136", "4.3428", "relative", "5", "5", True, True),
    ("4.136", "4.3429", "relative", "5", "5", True, False),
    ("4.136", "3.9292", "relative", "5", "5", True, True),
    ("480", "485", "absolute", "5", "5", True, True),
    ("480", "485", "absolute", "5", "5", False, False),
    ("480", "485.01", "absolute", "5", "5", True, False),
    ("480", "474.99", "absolute", "5", "5", True, False),
    ("0.0123449", "0.0123", "significantFigures", "3", "0", True, True),
    ("0.0123500", "0.0124", "significantFigures", "3", "0", True, True),
    ("999.5", "1000", "significantFigures", "3", "0", True, True),
    ("999.4", "1000", "significantFigures", "3", "0", True, False),
    ("-3.25", "-3.3", "decimalPlaces", "1", "0", True, True),
    ("0", "0.004", "decimalPlaces", "2", "0", True, True),
    ("79.59", "80", "decimalPlaces", "0", "0", True, True),
)
"""Key, answer, mode, low tolerance or figures, high tolerance, ends included, accepted.

Graded values after the `equal` and `equal-rounded` examples of the QTI 3.0 specification (1EdTech, 2022): all rows of
the table there were.
"""


@pytest.mark.parametrize(("key", "answer", "mode", "low", "high", "ends_in", "accepted"), GRADED)
def test_comparisons_are_those_of_the_standard(  # noqa: PLR0917 - a row of a table
    key: str, answer: str, mode: str, low: str, high: str, ends_in: bool, accepted: bool
) -> None:
    """`equal` and `equal-rounded` accept and refuse as the rows say, in exact arithmetic."""
    rule: Equal | EqualRounded
    if mode == "relative":
        rule = Equal("relative", Fraction(low), Fraction(high), ends_in)
    elif mode == "absolute":
        rule = Equal("absolute", Fraction(low), Fraction(high), ends_in)
    else:
        rule = EqualRounded("decimalPlaces" if mode == "decimalPlaces" else "significantFigures", int(low))
    assert rule.accepts(Fraction(answer), Fraction(key)) is accepted


@pytest.mark.parametrize(("value", "places", "rounded"), [("2.675", 2, "2.68"), ("1.005", 2, "1.01"), ("0.5", 0, "1")])
def test_halves_are_rounded_as_on_paper(value: str, places: int, rounded: str) -> None:
    """2.675 is 2.68 to two places, where binary floats make it 2.67 (by hand)."""
    assert EqualRounded("decimalPlaces", places).rounded(Fraction(value)) == Fraction(rounded)


def test_exact_is_exact() -> None:
    """Without a tolerance only the key itself is the same; a negative key has its tolerance around it too."""
    assert Equal("exact").accepts(Fraction(28), Fraction(28))
    assert not Equal("exact").accepts(Fraction("28.01"), Fraction(28))
    assert Equal("relative", Fraction(10), Fraction(10)).accepts(Fraction(-11), Fraction(-10))


def test_low_and_high_are_apart() -> None:
    """The two ends of a tolerance need not be the same."""
    rule = Equal("absolute", low=Fraction(1), high=Fraction(5))
    assert [rule.accepts(Fraction(value), Fraction(100)) for value in (98, 99, 105, 106)] == [False, True, True, False]


@pytest.mark.parametrize(("value", "step"), [("1456", "10"), ("4.35", "0.01"), ("0.0123", "0.0001"), ("0", "0.01")])
def test_the_step_of_three_figures(value: str, step: str) -> None:
    """The third figure of 1456 is worth 10, that of 0.0123 a ten-thousandth (by hand); nothing counts as units."""
    assert EqualRounded("significantFigures", 3).step(Fraction(value)) == Fraction(step)


def test_an_answer_may_say_how_it_is_rounded() -> None:
    """The rule goes with the answer; without one its tolerance decides."""
    assert Answer(Fraction(1), "s", Fraction(0)).rounded is None
