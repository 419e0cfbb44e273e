"""Plain numbers are checked at the edge and written so that a cook can read them."""

from __future__ import annotations

import pytest

from trainer.recipe_math.estimates import TimedReading, above_zero, degrees, finite, hours_text, in_celsius, in_minutes
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


@pytest.mark.parametrize(("fahrenheit", "celsius"), [(392, 200), (68, 20), (41, 5), (32, 0)])
def test_a_temperature_becomes_celsius(fahrenheit: int, celsius: float) -> None:
    """OpenStax Contemporary Mathematics, section 9.5: 392 °F is 200 °C, 68 °F is 20 °C."""
    assert in_celsius(Quantity.of(fahrenheit, "°F")) == celsius


def test_a_duration_becomes_minutes_and_a_weight_neither() -> None:
    """A weight is no time and no temperature."""
    assert in_minutes(Quantity.of("1.5", "h")) == 90
    for plain in (in_celsius, in_minutes):
        with pytest.raises(WrongDimension):
            plain(Quantity.of(1, "lb"))


@pytest.mark.parametrize(
    ("minutes", "text"), [(0, "0 min"), (45.25, "45.3 min"), (60, "1 h"), (130, "2 h 10 min"), (119.99, "2 h")]
)
def test_minutes_are_written_in_hours(minutes: float, text: str) -> None:
    """To a tenth of a minute; a full hour has no minutes beside it."""
    assert hours_text(minutes) == text


@pytest.mark.parametrize(
    ("celsius", "text"), [(57.222222, "57.2 °C (135 °F)"), (-18, "-18 °C (-0.4 °F)"), (100, "100 °C (212 °F)")]
)
def test_a_temperature_is_written_both_ways(celsius: float, text: str) -> None:
    """By hand: 57.22 x 9 / 5 + 32 = 135; -18 x 9 / 5 + 32 = -0.4."""
    assert degrees(celsius) == text


def test_what_is_no_number_is_refused() -> None:
    """NaN, infinity, nothing, and colder than cold."""
    for value in (float("nan"), float("inf")):
        with pytest.raises(QuantityProblem, match="give a number"):
            finite(value, "a weight")
    with pytest.raises(QuantityProblem, match="must be above zero"):
        above_zero(0, "a weight")
    with pytest.raises(QuantityProblem, match="nothing is that cold"):
        TimedReading(0, -274)
    with pytest.raises(QuantityProblem, match="a time in minutes"):
        TimedReading(float("nan"), 20)
