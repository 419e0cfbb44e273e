"""How numbers stand in question texts."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.printed import all_english, english
from trainer.kitchen.quiz.wording import clock, dollars, fahrenheit, pounds, roughly, unit_word, with_unit


@pytest.mark.parametrize(
    ("value", "text"),
    [("4.5", "4 lb 8 oz"), ("3", "3 lb"), ("3/4", "12 oz"), ("139/32", "4 lb 5 1/2 oz"), ("1/64", "1/4 oz")],
)
def test_weights_stand_in_pounds_and_ounces(value: str, text: str) -> None:
    """4.5 lb is written 4 lb 8 oz, and what is under a pound in ounces alone (common practice; 16 oz to the pound)."""
    assert pounds(Fraction(value)) == text


def test_clock_times_go_on_past_midnight() -> None:
    """Twenty-five past midnight follows 23:59 by twenty-six minutes."""
    assert clock(Fraction(23 * 60 + 59)) == "23:59"
    assert clock(Fraction(24 * 60 + 25)) == "0:25"


def test_what_two_places_do_not_hold_is_said_to_be_about() -> None:
    """A third is about 0.33; a quarter is 0.25."""
    assert english(roughly(Fraction(1, 3))) == "about 0.33"
    assert english(roughly(Fraction(1, 4))) == "0.25"


def test_limits_stand_both_ways() -> None:
    """135 °F is 57 °C and 41 °F is 5 °C, as the FDA Food Code 2022 prints them (3-501.16)."""
    assert fahrenheit(Fraction(135)) == "135 °F (57 °C)"
    assert fahrenheit(Fraction(41)) == "41 °F (5 °C)"


@pytest.mark.parametrize(
    ("value", "text"), [("12.5", "$12.50"), ("13", "$13"), ("0.05", "$0.05"), ("11.1333", "$11.13"), ("1.999", "$2")]
)
def test_money_stands_in_cents(value: str, text: str) -> None:
    """Dollars are written with both cents, or none (common practice)."""
    assert english(dollars(Fraction(value))) == text


@pytest.mark.parametrize(
    ("value", "unit", "mark", "text"),
    [
        ("28", "case", ".", "28 cases"), ("1", "case", ".", "1 case"), ("1", "each", ".", "1 piece"),
        ("12", "each", ".", "12 pieces"), ("4.35", "lb", ",", "4,35 lb"), ("57.5", "%", ".", "57.5 %"),
        ("22.5", "°C difference", ".", "22.5 °C"), ("1.57", "times", ".", "1.57 times"), ("12.5", "$", ".", "$12.50"),
        ("3", "$", ".", "$3.00"), ("2.345", "$", ",", "$2,35"), ("-18", "°C", ".", "-18 °C"),
        ("1", "days", ".", "1 day"), ("2", "days", ".", "2 days"), ("1", "times", ".", "1 time"),
    ],
)  # fmt: skip
def test_a_value_stands_with_its_unit_as_it_is_read(value: str, unit: str, mark: str, text: str) -> None:
    """Things counted have their plural, money its sign in front and whole cents, a difference no word of its own."""
    assert english(with_unit(Fraction(value), unit, mark)) == text


def test_a_unit_alone_stands_as_for_many() -> None:
    """Beside an answer not yet given, things that are counted are many."""
    units = ("can", "each", "°C difference", "lb")
    assert all_english(map(unit_word, units)) == ["cans", "pieces", "°C", "lb"]
