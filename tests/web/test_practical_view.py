"""The line of a measured point in large figures, and the keys its readings need."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.printed import english
from trainer.kitchen.reading_units import System
from trainer.kitchen.technique import Limit, Point
from trainer.recipe_math.parsing import parse_quantity
from trainer.web.assessor.practical_view import UnitKey, as_typed, line_to_meet, unit_keys


def point(low: str = "", high: str = "") -> Point:
    """Return a measured point with a line from the one to the other; the ends are worked by hand in each case."""
    ends = [parse_quantity(text) if text else None for text in (low, high)]
    return Point("p", "Measure it.", False, "measured", Limit("p", ends[0], ends[1], None, "house"))


@pytest.mark.parametrize(
    ("low", "high", "first"),
    [
        ("6 oz", "7 oz", "from 6 to 7 oz"),
        ("13 oz", "1 lb 3 oz", "from 13 oz to 1 lb 3 oz"),
        ("4 lb 11 oz", "5 lb 1 oz", "from 4 lb 11 oz to 5 lb 1 oz"),
        ("1.97 fl oz", "2.3 fl oz", "from 1.97 to 2.3 fl oz"),
        ("59/30 fl oz", "2.3 fl oz", "from 1.97 to 2.3 fl oz"),
        ("2 cups", "3 cups", "from 2 to 3 cups"),
        ("1 cup", "2 cups", "from 1 to 2 cups"),
        ("32 F", "41 F", "from 32 to 41 °F"),
        ("", "41 F", "at or below 41 °F"),
        ("20 s", "", "at least 20 s"),
    ],
)
def test_a_line_stays_in_its_own_unit_and_says_it_once(low: str, high: str, first: str) -> None:
    """A unit both ends share is said once; never where one of them is of two units, nor poured into spoons."""
    shown = line_to_meet(point(low, high), "us")
    assert shown
    assert english(shown.first) == first


@pytest.mark.parametrize(
    ("low", "high", "system", "first", "also"),
    [
        ("", "41 F", "metric", "at or below 5 °C", "(at or below 41 °F)"),
        ("63 °C", "68 °C", "us", "from 145 to 154 °F", "(from 63 to 68 °C)"),
        ("20 s", "", "metric", "at least 20 s", ""),
    ],
)
def test_a_line_is_told_in_the_readers_own_units_first(
    low: str, high: str, system: System, first: str, also: str
) -> None:
    """A bare number is read in the reader's units, so these stand large (41 °F is 5 °C; 63 °C is 145.4 °F)."""
    shown = line_to_meet(point(low, high), system)
    assert shown
    assert (english(shown.first), english(shown.also)) == (first, also)


def test_a_larger_unit_names_the_one_that_goes_on_behind_it() -> None:
    """4 lb 14 oz, 2 kg 100 g; a degree has nothing behind it."""
    keys = unit_keys(point("4 lb 11 oz", "5 lb 1 oz"), "us")
    assert keys == (
        UnitKey("lb", "oz"),
        UnitKey("oz", ""),
        UnitKey("kg", "g", is_theirs=True),
        UnitKey("g", "", is_theirs=True),
    )
    assert unit_keys(point("", "41 F"), "metric") == (UnitKey("°C", ""), UnitKey("°F", "", is_theirs=True))
    assert unit_keys(replace(point("", "41 F"), judged="ticked"), "us") == ()


def test_kept_readings_go_back_into_their_fields_under_the_unit_they_share() -> None:
    """8 °C is 8 with °C pressed; where they share no unit each stands with its own, and so do two units in one."""
    assert as_typed(("8 °C", "4.5 °C"), ("°F", "°C")) == ("°C", ("8", "4.5"))
    assert as_typed(("4.5 oz", "128 g"), ("oz", "g")) == ("", ("4.5 oz", "128 g"))
    assert as_typed(("1 min 30 s",), ("s", "min")) == ("", ("1 min 30 s",))
    assert as_typed((), ("s",)) == ("", ())
