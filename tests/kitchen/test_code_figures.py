"""Readings in degrees Celsius against limits in Fahrenheit: the code's own metric figure is the limit."""

from __future__ import annotations

import pytest

from trainer.kitchen.code_figures import metric_figure, read_by_the_code
from trainer.kitchen.cooling_watch import CoolingStart, Outlook, gates_of, watched, wrong_start
from trainer.kitchen.technique import Limit, LocalCode
from trainer.kitchen.typed_lines import cooling_log
from trainer.recipe_math.estimates import TimedReading, in_celsius
from trainer.recipe_math.quantity import Quantity

PRINTED = [(135, 57), (70, 21), (41, 5), (130, 54), (145, 63), (155, 68), (165, 74), (45, 7)]
"""FDA Food Code 2022: sections 3-501.14(A) and 3-501.16 (57, 21, 5, 54 and 7 °C), 3-401.11 (63, 68, 74 °C)."""


def line(key: str, amount: str, unit: str) -> tuple[str, Limit]:
    """Return a line of a local code: a temperature it names, or a time not to go over."""
    value = Quantity.of(amount, unit)
    return key, Limit(key, None, value, None, "code") if unit == "h" else Limit(key, None, None, value, "code")


CODE = LocalCode(
    "fda", "FDA Food Code", "2022",
    dict([
        line("cooling_start", "135", "°F"), line("cooling_middle", "70", "°F"), line("cooling_end", "41", "°F"),
        line("cooling_to_middle_within", "2", "h"), line("cooling_to_end_within", "6", "h"),
        line("cooling_from_room_within", "4", "h"),
    ]),
)  # fmt: skip


def outlooks(text: str) -> list[Outlook]:
    """Return how the two gates for hot food stand by a log typed so."""
    return [gate.outlook for gate in watched(cooling_log(text).readings, gates_of(CODE), None).gates]


@pytest.mark.parametrize(("fahrenheit", "celsius"), PRINTED)
def test_the_figure_is_the_one_the_code_prints(fahrenheit: int, celsius: int) -> None:
    """To the whole degree, as printed beside the limit."""
    assert metric_figure(in_celsius(Quantity.of(fahrenheit, "°F"))) == celsius


@pytest.mark.parametrize(("fahrenheit", "celsius"), PRINTED)
def test_a_reading_of_the_figure_is_the_limit(fahrenheit: int, celsius: int) -> None:
    """57 °C is 135 °F; one degree to either side stays what it is."""
    limit = in_celsius(Quantity.of(fahrenheit, "°F"))
    shown = [TimedReading(at, celsius + at, is_celsius=True) for at in (-1, 0, 1)]
    assert [one.celsius for one in read_by_the_code(shown, [limit])] == [celsius - 1, limit, celsius + 1]


def test_what_lies_between_the_figure_and_the_limit_is_the_limit() -> None:
    """135 °F is 57.22 °C: a pan at 57.1 °C is hotter than the code's own 57 °C, however fine the thermometer."""
    limit = in_celsius(Quantity.of(135, "°F"))
    shown = [TimedReading(0, celsius, is_celsius=True) for celsius in (56.9, 57, 57.1, 57.2, 57.21, 57.3)]
    assert [one.celsius for one in read_by_the_code(shown, [limit])] == [56.9, limit, limit, limit, limit, 57.3]


def test_a_reading_in_fahrenheit_is_taken_at_its_word() -> None:
    """134.9 °F is 57.17 °C and below 135 °F."""
    below = in_celsius(Quantity.of("134.9", "°F"))
    assert read_by_the_code([TimedReading(0, below)], [in_celsius(Quantity.of(135, "°F"))])[0].celsius == below


def test_a_thermometer_of_tenths_shows_the_limit_at_its_own_tenth() -> None:
    """135 °F is 57.22 °C and 70 °F is 21.11 °C: what shows 57.2 and 21.1 shows them, as pages print them."""
    assert outlooks("0 57.2 C\n120 21.1 C\n360 5.0 C") == [Outlook.MET, Outlook.MET]


def test_a_log_that_begins_at_the_codes_metric_figure_is_shown() -> None:
    """57, 21 and 5 °C (section 3-501.14(A)) in 2 and 6 hours: both limits met."""
    assert outlooks("0 57 C\n120 21 C\n360 5 C") == [Outlook.MET, Outlook.MET]
    assert outlooks("0 57 C\n130 21 C\n360 5 C") == [Outlook.MISSED, Outlook.MET]


def test_a_hotter_start_is_never_less_shown() -> None:
    """57 °C is shown, and so is every tenth above it."""
    for tenths in range(570, 590):
        assert outlooks(f"0 {tenths / 10} C\n120 21 C\n360 5 C") == [Outlook.MET, Outlook.MET]
    assert outlooks("0 134.9 F\n120 21 C\n360 5 C") == [Outlook.NOT_SHOWN, Outlook.NOT_SHOWN]


def test_a_log_that_begins_below_is_not_shown() -> None:
    """56 °C is below the code's figure."""
    assert outlooks("0 56 C\n100 21 C\n300 5 C") == [Outlook.NOT_SHOWN, Outlook.NOT_SHOWN]


def test_57_celsius_is_no_room_temperature() -> None:
    """The longer time is never given to what was hot, in either unit."""
    for text in ("0 57 C", "0 135 F"):
        assert wrong_start(cooling_log(text).readings, CODE, CoolingStart.ROOM)
    assert not wrong_start(cooling_log("0 56 C").readings, CODE, CoolingStart.ROOM)
