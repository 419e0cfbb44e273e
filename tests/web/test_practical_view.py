"""The line of a measured point in large figures, and the keys its readings need."""

from __future__ import annotations

import pytest

from trainer.kitchen.technique import Limit, Point
from trainer.recipe_math.parsing import parse_quantity
from trainer.web.practical_view import as_typed, line_to_meet, two_units


def point(low: str = "", high: str = "") -> Point:
    """Return a measured point with a line from the one to the other; the ends are worked by hand in each case."""
    ends = [parse_quantity(text) if text else None for text in (low, high)]
    return Point("p", "Measure it.", False, "measured", Limit("p", ends[0], ends[1], None, "house"))


@pytest.mark.parametrize(
    ("low", "high", "first"),
    [
        ("6 oz", "7 oz", "6 to 7 oz"),
        ("13 oz", "1 lb 3 oz", "13 oz to 1 lb 3 oz"),
        ("4 lb 11 oz", "5 lb 1 oz", "4 lb 11 oz to 5 lb 1 oz"),
        ("1.97 fl oz", "2.3 fl oz", "1.97 to 2.3 fl oz"),
        ("59/30 fl oz", "2.3 fl oz", "1.97 to 2.3 fl oz"),
        ("32 F", "41 F", "32 to 41 °F"),
        ("", "41 F", "41 °F or less"),
        ("20 s", "", "20 s or more"),
    ],
)
def test_a_line_stays_in_its_own_unit_and_says_it_once(low: str, high: str, first: str) -> None:
    """A unit both ends share is said once; never where one of them is of two units, nor poured into spoons."""
    shown = line_to_meet(point(low, high))
    assert shown
    assert shown.first == first


@pytest.mark.parametrize(
    ("low", "high", "units"),
    [
        ("4 lb 11 oz", "5 lb 1 oz", ("lb", "oz")),
        ("6 oz", "7 oz", ("oz", "g")),
        ("", "41 F", ("°F", "°C")),
        ("63 C", "68 C", ("°C", "°F")),
        ("", "90 s", ()),
    ],
)
def test_the_keys_have_the_units_a_reading_may_need(low: str, high: str, units: tuple[str, ...]) -> None:
    """A scale that shows grams, a probe in the other degrees, a balance of pounds and ounces; a time needs none."""
    assert two_units(point(low, high)) == units


def test_a_kept_reading_goes_back_into_its_field_without_the_unit_beside_it() -> None:
    """6.5 oz is 6.5 where oz stands beside it; another unit stays, and so do two."""
    assert [as_typed(point("6 oz", "7 oz"), text) for text in ("6.5 oz", "185 g")] == ["6.5", "185 g"]
    assert as_typed(point("80 s", "100 s"), "1 min 30 s") == "1 min 30 s"
