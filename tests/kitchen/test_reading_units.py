"""Readings with their units: which is told, what may be keyed, what a kitchen could show, what is asked back."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from tests.printed import english
from trainer.kitchen.measured import Reading, Typed, is_inside, read, ways_to_read
from trainer.kitchen.plausible import plausible_range
from trainer.kitchen.practical import AskBack, PointSeen, is_too_soon, judge_point, point_seen, with_answers
from trainer.kitchen.reading_units import System, admits, reading_units, told_in
from trainer.kitchen.technique import Limit, Point
from trainer.messages import Text
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.printing import written

NOW = datetime(2026, 3, 2, 17, tzinfo=UTC)


def line(low: str = "", high: str = "") -> Limit:
    """Return a line from the one to the other."""
    ends = [parse_quantity(text) if text else None for text in (low, high)]
    return Limit("line", ends[0], ends[1], None, "house")


COLD, CREAM, WASH, COOLED = line(high="41 F"), line("155 F"), line("20 s"), line(high="2 h")


def reading(limit: Limit, text: str, unit: str = "") -> Reading:
    """Return a reading as it was keyed in beside a unit."""
    found = read(limit, Typed(text, unit))
    assert isinstance(found, Reading), found
    return found


@pytest.mark.parametrize(
    ("limit", "us", "metric"),
    [
        (COLD, ("°F", "°C"), ("°C", "°F")),
        (line("40 °C", "60 °C"), ("°F", "°C"), ("°C", "°F")),
        (line("6 oz", "7 oz"), ("oz", "g"), ("g", "oz")),
        (line("4 lb 11 oz", "5 lb 1 oz"), ("lb", "oz", "kg", "g"), ("kg", "g", "lb", "oz")),
        (line("122 g", "134 g"), ("oz", "g"), ("g", "oz")),
        (line("1/4 in", "5/16 in"), ("in", "mm"), ("mm", "in")),
        (line("9 in", "11 in"), ("in", "cm"), ("cm", "in")),
        (line("1.97 fl oz", "2.3 fl oz"), ("fl oz", "mL"), ("mL", "fl oz")),
        (WASH, ("s", "min"), ("s", "min")),
        (line(high="15 min"), ("min", "s"), ("min", "s")),
        (COOLED, ("h", "min"), ("h", "min")),
        (line("50 ppm", "200 ppm"), ("ppm",), ("ppm",)),
    ],
)
def test_the_readers_own_unit_is_told_first(limit: Limit, us: tuple[str, ...], metric: tuple[str, ...]) -> None:
    """The first stands beside the line, the others are keys; which units a kitchen's tools show is common practice."""
    assert (reading_units(limit, "us"), reading_units(limit, "metric")) == (us, metric)


def test_a_line_without_a_value_has_no_unit() -> None:
    """There is nothing to measure against."""
    assert reading_units(Limit("empty", None, None, None, "house"), "us") == ()
    assert plausible_range(Limit("empty", None, None, None, "house")) is None


def test_a_bare_number_is_in_the_unit_told_beside_it() -> None:
    """8 beside °C is 8 °C, which is 46.4 °F (exact: 8 x 9/5 + 32), over 41 °F; it is kept with its unit."""
    found = reading(COLD, "8", "°C")
    assert (str(found.number), found.unit.symbol, found.typed, found.kept) == ("8", "°C", "8", "8 °C")
    assert not is_inside(COLD, found)
    assert reading(COLD, "46 F", "°C").kept == "46 F"
    assert reading(COLD, "8°", "°C").unit.symbol == "°C"


@pytest.mark.parametrize(("typed", "unit", "kept"), [("4 lb 14", "oz", "4 lb 14 oz"), ("1 1/2", "oz", "1 1/2 oz")])
def test_a_bare_end_takes_the_unit_told(typed: str, unit: str, kept: str) -> None:
    """Four pounds, then fourteen beside ounces."""
    assert reading(line("1 oz", "6 lb"), typed, unit).kept == kept


def _rule(found: Reading | Text) -> Text:
    """Return why a text is no reading."""
    assert not isinstance(found, Reading)
    return found


def test_a_unit_of_another_kind_is_no_unit_of_this_line() -> None:
    """Whatever a page sends, seconds do not measure a weight."""
    assert "measures something else" in english(_rule(read(COLD, Typed("8", "s"))))


@pytest.mark.parametrize("text", ["-500", "-300"])
def test_what_is_beyond_physics_is_refused(text: str) -> None:
    """Nothing is colder than -459.67 °F or -273.15 °C (BIPM, SI Brochure, 9th edition, section 2.3.1)."""
    assert "colder" in english(_rule(read(COLD, Typed(text, "°C"))))


@pytest.mark.parametrize(("like", "typed"), [("128 g", "-5 g"), ("90 s", "-1 s"), ("2 in", "-1 in"), ("1 qt", "-1 qt")])
def test_nothing_weighs_lasts_or_measures_less_than_nothing(like: str, typed: str) -> None:
    """A mass, a time, a length, a volume is zero at the least: such a reading is refused, not asked back."""
    limit = Limit("held", None, parse_quantity(like), None, "house")
    assert "cannot be negative" in english(_rule(read(limit, Typed(typed))))


@pytest.mark.parametrize(
    ("limit", "typed", "unit", "ways"),
    [
        (CREAM, "72", "°F", ("72 °F", "72 °C")),
        (CREAM, "721", "°F", ("721 °F",)),
        (CREAM, "160", "°C", ("160 °C", "160 °F")),
        (COLD, "8", "°F", ("8 °F", "8 °C")),
        (COLD, "0", "°F", ("0 °F", "0 °C")),
        (COLD, "41", "°C", ("41 °C", "41 °F")),
        (line("30 F", "34 F"), "32", "°C", ("32 °C", "32 °F")),
        (WASH, "99999", "s", ("99999 s",)),
        (WASH, "20", "min", ("20 min", "20 s")),
        (WASH, "0", "s", ("0 s",)),
        (COOLED, "0", "h", ("0 h",)),
        (COOLED, "98", "h", ("98 h", "98 min")),
        (line("6 oz", "7 oz"), "184", "oz", ("184 oz", "184 g")),
        (line("6 oz", "7 oz"), "6.5", "g", ("6.5 g", "6.5 oz")),
        (line("7 lb"), "112", "lb", ("112 lb", "112 oz")),
        (line("1/4 in", "5/16 in"), "6.4", "in", ("6.4 in", "6.4 mm")),
        (line("50 ppm", "200 ppm"), "5000", "ppm", ("5000 ppm",)),
    ],
)
def test_a_reading_no_kitchen_could_show_is_asked_back(
    limit: Limit, typed: str, unit: str, ways: tuple[str, ...]
) -> None:
    """As typed first, then what it may have been; the numbers are common practice: what each tool can show there."""
    assert ways_to_read(limit, reading(limit, typed, unit)) == ways


@pytest.mark.parametrize(
    ("limit", "typed"),
    [
        (CREAM, "140 F"),
        (CREAM, "68 °C"),
        (COLD, "60 F"),
        (COLD, "38 F"),
        (line("65 F", "85 F"), "72 F"),
        (line("200 F", "250 F"), "260 F"),
        (line("450 F", "550 F"), "700 F"),
        (line("30 F", "34 F"), "38 F"),
        (WASH, "7 s"),
        (line("2 min", "3 min"), "5 min"),
        (COOLED, "2 h 40 min"),
        (line("6 oz", "7 oz"), "5 oz"),
        (line(high="0.25 in"), "0 in"),
        (line("50 ppm", "200 ppm"), "0 ppm"),
    ],
)
def test_a_reading_that_only_misses_its_line_is_judged(limit: Limit, typed: str) -> None:
    """Food too cold, a wash too short, a tray too light: a kitchen shows that every day (common practice)."""
    assert ways_to_read(limit, reading(limit, typed)) == ()


@pytest.mark.parametrize(
    ("end", "shown"),
    [("0 F", ("0 F", "-10 F", "12 F")), ("3 %", ("3 %", "2.5 %", "4 %")), ("2 days", ("48 h", "40 h"))],
)
def test_a_line_of_the_house_own_kind_is_read_as_it_is(end: str, shown: tuple[str, ...]) -> None:
    """A freezer, a brine, two days on a label: what meets such a line, or misses it by a little, is not asked back."""
    limit = Limit("own", None, None, parse_quantity(end), "house")
    found = plausible_range(limit)
    assert found
    assert [text for text in shown if not found.holds(parse_quantity(text))] == []


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize(
    "end", ["155 F", "41 F", "85 F", "63 °C", "0.5 oz", "4.3 oz", "5 lb", "28 lb", "122 g", "3 g", "0.19 in", "9 in"]
)
def test_an_end_is_told_as_pages_print_it(end: str, system: System) -> None:
    """The number a reading is held to is the number in the sentence above it."""
    quantity = parse_quantity(end)
    own = (quantity.unit.system == "metric") == (system == "metric")
    assert told_in(quantity, system) == (
        quantity if own else parse_quantity(english(written(quantity, system)), decimal_mark=".")
    )


@pytest.mark.parametrize(
    ("limit", "value", "is_in"),
    [
        (CREAM, "68 °C", True),
        (CREAM, "67 °C", False),
        (line("135 F"), "57 °C", True),
        (CREAM, "154.9 F", False),
        (line("0.5 oz", "0.7 oz"), "14 g", True),
        (line("0.5 oz", "0.7 oz"), "13 g", False),
        (COLD, "5 °C", True),
        (COLD, "6 °C", False),
    ],
)
def test_a_line_is_met_as_its_own_system_tells_it(limit: Limit, value: str, is_in: bool) -> None:
    """FDA Food Code 2022, 3-401.11(A)(2) and 3-501.16(A): 155 °F (68 °C), 135 °F (57 °C), 41 °F (5 °C)."""
    assert admits(limit, parse_quantity(value)) is is_in


def test_what_it_may_have_been_is_told_with_the_kitchens_own_mark() -> None:
    """0,125 where the decimal mark is a comma, so that the answer is read as it is told."""
    small = line("10 g", "12 g")
    assert ways_to_read(small, reading(small, "11 1/8", "oz"), ",") == ("11 1/8 oz", "11,125 g")


POINT = Point("cream", "The cream is probed.", True, "measured", CREAM)


def test_nothing_is_judged_before_it_is_answered() -> None:
    """72 °F is asked back, whatever the assessor says; answered, it is judged as what it was."""
    for tick in ("meets it", "not yet", None):
        assert judge_point(POINT, [Typed("72", "°F")], tick) == AskBack(0, "72", ("72 °F", "72 °C"))
    hot = judge_point(POINT, [Typed("72", "°F", "72 °C")], "meets it")
    assert isinstance(hot, PointSeen)
    assert (hot.seen, hot.readings) == ("meets it", ("72 °C",))
    cold = judge_point(POINT, [Typed("72", "°F", "72 °F")], None)
    assert isinstance(cold, PointSeen)
    assert (cold.seen, cold.readings) == ("not yet", ("72 °F",))


def test_only_an_answer_that_was_offered_counts() -> None:
    """Another reading is no answer: it is asked again."""
    assert isinstance(judge_point(POINT, [Typed("72", "°F", "160 °F")], "meets it"), AskBack)


def test_the_first_of_two_is_asked_first() -> None:
    """One question at a time; the first is answered, and the second asked."""
    two = Point("cold", "Two pans.", True, "measured", COLD, 2, 2)
    asked = judge_point(two, [Typed("8", "°F", "8 °C"), Typed("4", "°F")], "meets it")
    assert asked == AskBack(1, "4", ("4 °F", "4 °C"))


def test_unsafe_asks_nothing_back() -> None:
    """A stop waits for no figure; what was keyed in is kept, with its unit where it has one."""
    stopped = judge_point(POINT, [Typed("72", "°F")], "unsafe")
    assert isinstance(stopped, PointSeen)
    assert (stopped.seen, stopped.readings) == ("unsafe", ("72 °F",))
    odd = judge_point(POINT, [Typed("hot", "°F")], "unsafe")
    assert isinstance(odd, PointSeen)
    assert odd.readings == ("hot",)


def test_the_record_keeps_typed_asked_and_answered() -> None:
    """With the reading that was kept in the end, also where the probe was read again."""
    seen = PointSeen("cream", "meets it", ("160 °F",))
    kept = with_answers(seen, [AskBack(0, "721", ("721 °F",))])
    assert kept.asked == (AskBack(0, "721", ("721 °F",), "160 °F"),)


def test_a_stop_answers_nothing_that_was_asked_back() -> None:
    """Anyone who stops the work owes no answer: the record does not say that a person gave one."""
    seen = PointSeen("cream", "unsafe", ("721 °F",))
    asked = AskBack(0, "721", ("721 °F",))
    assert with_answers(seen, [asked]).asked == (asked,)
    read_again = replace(seen, readings=("160 °F",))
    assert with_answers(read_again, [asked]).asked == (replace(asked, answered="160 °F"),)


def test_an_older_line_of_the_book_was_asked_nothing() -> None:
    """It is read as it was written."""
    line_kept = {"point": "cream", "seen": "meets it", "readings": ["158"], "note": ""}
    assert point_seen(line_kept) == PointSeen("cream", "meets it", ("158",))


@pytest.mark.parametrize(
    ("milliseconds", "is_soon"), [(0, True), (150, True), (799, True), (800, False), (5000, False), (-60_000, False)]
)
def test_a_look_takes_eight_tenths_of_a_second(milliseconds: int, is_soon: bool) -> None:
    """Two taps of one finger are about 150 ms apart (common practice); a clock set back holds nobody up."""
    assert is_too_soon(NOW - timedelta(milliseconds=milliseconds), NOW) is is_soon


def test_a_page_never_sent_was_never_seen() -> None:
    """A verdict on it is too soon whenever it comes."""
    assert is_too_soon(None, NOW)
