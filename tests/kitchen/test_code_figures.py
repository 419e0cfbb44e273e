"""Readings in whole degrees Celsius against limits in Fahrenheit: the code's own metric figure is the limit."""

from __future__ import annotations

import pytest

from trainer.kitchen.code_figures import as_the_code_reads, metric_figure
from trainer.kitchen.cooling_watch import Outlook, Start, gates_of, watched, wrong_start
from trainer.kitchen.technique import Limit, LocalCode
from trainer.kitchen.typed_lines import cooling_log
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
    assert metric_figure(Quantity.of(fahrenheit, "°F")) == celsius


@pytest.mark.parametrize(("fahrenheit", "celsius"), PRINTED)
def test_a_reading_of_the_figure_is_the_limit(fahrenheit: int, celsius: int) -> None:
    """57 °C is 135 °F; one degree to either side stays what it is."""
    limit = Quantity.of(fahrenheit, "°F")
    assert as_the_code_reads(Quantity.of(celsius, "°C"), limit) == limit
    for beside in (celsius - 1, celsius + 1):
        assert as_the_code_reads(Quantity.of(beside, "°C"), limit) == Quantity.of(beside, "°C")


@pytest.mark.parametrize(
    ("amount", "unit"), [("57.1", "°C"), ("57.21", "°C"), ("56.9", "°C"), ("134", "°F"), ("57", "°F"), ("57", "g")]
)
def test_other_readings_stay_what_they_are(amount: str, unit: str) -> None:
    """A finer thermometer is taken at its word, and so is one in Fahrenheit."""
    reading = Quantity.of(amount, unit)
    assert as_the_code_reads(reading, Quantity.of(135, "°F")) == reading


def test_a_thermometer_of_tenths_shows_the_limit_at_its_own_tenth() -> None:
    """135 °F is 57.22 °C and 70 °F is 21.11 °C: what shows 57.2 and 21.1 shows them, as pages print them."""
    assert as_the_code_reads(Quantity.of("57.2", "°C"), Quantity.of(135, "°F")) == Quantity.of(135, "°F")
    assert outlooks("0 57.2 C\n120 21.1 C\n360 5.0 C") == [Outlook.MET, Outlook.MET]


def test_a_reading_against_a_limit_of_another_kind_stays() -> None:
    """A temperature is no time."""
    assert as_the_code_reads(Quantity.of(2, "°C"), Quantity.of(2, "h")) == Quantity.of(2, "°C")


def test_a_log_that_begins_at_the_codes_metric_figure_is_shown() -> None:
    """57, 21 and 5 °C (section 3-501.14(A)) in 2 and 6 hours: both limits met."""
    assert outlooks("0 57 C\n120 21 C\n360 5 C") == [Outlook.MET, Outlook.MET]
    assert outlooks("0 57 C\n130 21 C\n360 5 C") == [Outlook.MISSED, Outlook.MET]


def test_a_log_with_decimals_is_taken_at_its_word() -> None:
    """57.1 °C is 134.8 °F: when it fell through 135 °F nobody saw."""
    assert outlooks("0 57.1 C\n120 21 C\n360 5 C") == [Outlook.NOT_SHOWN, Outlook.NOT_SHOWN]


def test_a_log_that_begins_below_is_not_shown() -> None:
    """56 °C is below the code's figure."""
    assert outlooks("0 56 C\n100 21 C\n300 5 C") == [Outlook.NOT_SHOWN, Outlook.NOT_SHOWN]


def test_57_celsius_is_no_room_temperature() -> None:
    """The longer time is never given to what was hot, in either unit."""
    for text in ("0 57 C", "0 135 F"):
        assert wrong_start(cooling_log(text).readings, CODE, Start.ROOM)
    assert not wrong_start(cooling_log("0 56 C").readings, CODE, Start.ROOM)
