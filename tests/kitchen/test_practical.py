"""Points judged by their readings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from tests.kitchen.kitchen_for_tests import CHECKLIST
from tests.printed import english
from trainer.kitchen.practical import PointProblem, PointSeen, Seen, judge_point
from trainer.kitchen.technique import Limit
from trainer.recipe_math.parsing import parse_quantity

GUARD, WEIGHTS, BOIL, TOLD = CHECKLIST
INSIDE = ("122 g", "128 g", "134", "4.5 oz", "200 g")


def problem_of(*args: object, **named: object) -> PointProblem:
    """Return what is wrong with a point as typed."""
    found = judge_point(*args, **named)  # type: ignore[arg-type]
    assert isinstance(found, PointProblem)
    return found


def seen_at(*args: object, **named: object) -> PointSeen:
    """Return a point as judged."""
    found = judge_point(*args, **named)  # type: ignore[arg-type]
    assert isinstance(found, PointSeen)
    return found


def test_a_ticked_point_is_what_the_assessor_says() -> None:
    """No reading is asked for."""
    assert seen_at(GUARD, (), "meets it", "good") == PointSeen("guard_on", "meets it", (), "good")


def test_a_ticked_point_needs_a_word() -> None:
    """Nothing said is nothing seen."""
    assert "say meets it, not yet or unsafe" in english(problem_of(GUARD, (), None).rule)


def test_a_word_nobody_knows_is_refused_by_name() -> None:
    """The value and the rule."""
    found = problem_of(GUARD, (), "fine")
    assert (found.value, english(found.rule)) == ("fine", "say meets it, not yet or unsafe.")


def test_enough_readings_inside_meet_it() -> None:
    """Four of five inside 122 to 134 g, both ends counted; a bare number is grams; 4.5 oz is 127.6 g (NIST HB 44)."""
    assert seen_at(WEIGHTS, INSIDE, None).seen == "meets it"


def test_too_few_readings_inside_are_not_yet() -> None:
    """Three of five where four are needed."""
    assert seen_at(WEIGHTS, ("121.9 g", *INSIDE[1:]), None).seen == "not yet"


def test_nobody_says_meets_it_over_readings_outside() -> None:
    """The numbers decide, and the reason counts them."""
    found = problem_of(WEIGHTS, ("100 g", *INSIDE[1:]), "meets it")
    assert (
        english(found.rule) == "3 of 5 inside the line, 4 needed: the readings decide. Say not yet, or measure again."
    )


def test_not_yet_over_readings_inside_needs_a_note() -> None:
    """The assessor may be stricter than the numbers, and says why."""
    assert "say in the note" in english(problem_of(WEIGHTS, INSIDE, "not yet").rule)
    assert seen_at(WEIGHTS, INSIDE, "not yet", "coached twice").seen == "not yet"


@pytest.mark.parametrize("tick", [None, "not yet"])
def test_not_yet_over_readings_outside_needs_no_note(tick: Seen | None) -> None:
    """The numbers say it already."""
    assert seen_at(BOIL, ("2 min",), tick).seen == "not yet"


def test_unsafe_needs_no_reading() -> None:
    """A danger is stopped at once; what was read before is kept."""
    assert seen_at(WEIGHTS, (), "unsafe", "hand in the die") == PointSeen("weights", "unsafe", (), "hand in the die")
    assert seen_at(WEIGHTS, ("128 g", ""), "unsafe").readings == ("128 g",)


@pytest.mark.parametrize(
    ("readings", "place"),
    [((), 0), (("128 g",), 1), (("128 g", " ", "128 g", "128 g", "128 g"), 1), (("128 g",) * 6, 6)],
)
def test_every_reading_is_taken(readings: Sequence[str], place: int) -> None:
    """Five pieces, five readings: the first that is missing is named."""
    found = problem_of(WEIGHTS, readings, "meets it")
    assert "of 5 readings: take 5." in english(found.rule)
    assert found.reading == place


@pytest.mark.parametrize("text", ["heavy", "120-130 g", "-5 g", "1 cup"])
def test_an_unusable_reading_is_named_with_the_rule_it_breaks(text: str) -> None:
    """Which reading, what was typed, and why it will not do."""
    found = problem_of(WEIGHTS, ("128 g", text, "128 g", "128 g", "128 g"), None)
    assert (found.value, found.reading) == (text, 1)
    assert found.rule


def test_a_reading_of_another_kind_is_no_reading() -> None:
    """A volume where a weight is asked: both units are named."""
    rule = problem_of(WEIGHTS, ("1 cup", *INSIDE[1:]), None).rule
    assert english(rule) == "cup measures something else; this point is measured in g."


def test_a_figure_that_reads_two_ways_is_asked_back() -> None:
    """1,250 g is one and a quarter or twelve hundred; with the kitchen's own decimal mark it is read one way."""
    heavy = replace(WEIGHTS, limit=Limit("batch", parse_quantity("1300 g"), None, None, "house"))
    readings = ("1,250 g",) * 5
    assert "1,250" in english(problem_of(heavy, readings, None).rule)
    assert seen_at(heavy, readings, None, "", ".").seen == "not yet"


def test_a_time_may_be_typed_in_minutes_and_seconds() -> None:
    """A bare number is seconds; 1 min 30 s is 90, the last that is inside."""
    assert seen_at(BOIL, ("85",), None).seen == "meets it"
    assert seen_at(BOIL, ("1 min 30 s",), None).seen == "meets it"


@pytest.mark.parametrize(("typed", "kept"), [("1:25", "1 min 25 s"), ("85", "85 s"), ("1.5 min", "1.5 min")])
def test_a_short_time_may_be_typed_as_the_timer_shows_it(typed: str, kept: str) -> None:
    """On a line of 90 s a timer's 1:25 is minutes and seconds; what is kept has its units."""
    seen = seen_at(BOIL, (typed,), None)
    assert (seen.seen, seen.readings) == ("meets it", (kept,))


def test_a_clock_on_a_line_in_hours_is_hours_and_minutes() -> None:
    """1:50 of cooling on a line of 2 h is inside; 2:10 is not, though two minutes would be."""
    cooled = replace(BOIL, limit=Limit("cooled", None, parse_quantity("2 h"), None, "house"))
    assert seen_at(cooled, ("1:50",), None).readings == ("1 h 50 min",)
    assert seen_at(cooled, ("2:10",), None).seen == "not yet"


def test_a_clock_on_a_line_of_half_an_hour_is_asked_back() -> None:
    """1:30 can be an hour and a half there: taken for minutes it would pass."""
    held = replace(BOIL, limit=Limit("held", None, parse_quantity("30 min"), None, "house"))
    assert "hours or minutes" in english(problem_of(held, ("1:30",), None).rule)
    assert seen_at(held, ("28 min 30 s",), None).seen == "meets it"


def test_a_bare_degree_is_the_lines_own() -> None:
    """145° on a line in Fahrenheit is 145 °F."""
    hot = replace(BOIL, judged="measured", limit=Limit("hot", parse_quantity("145 F"), None, None, "house"))
    assert seen_at(hot, ("145°",), None).readings == ("145°F",)
    assert seen_at(hot, ("62 C",), None).seen == "not yet"


def test_a_bare_number_is_kept_with_the_unit_it_was_read_in() -> None:
    """134 on a line in grams is kept as 134 g; what was typed with a unit stays as typed."""
    assert seen_at(WEIGHTS, INSIDE, None).readings == ("122 g", "128 g", "134 g", "4.5 oz", "200 g")


def test_one_reading_outside_is_told_as_one() -> None:
    """Nobody counts to one."""
    assert english(problem_of(BOIL, ("300",), "meets it").rule).startswith("the reading is outside the line")


def test_a_line_without_a_value_is_ticked() -> None:
    """Nothing to measure against is said, not guessed."""
    empty = replace(BOIL, limit=Limit("boil_time", None, None, None, "house"))
    assert "tick the point" in english(problem_of(empty, ("85 s",), None).rule)
    assert seen_at(replace(BOIL, limit=None), (), "meets it").seen == "meets it"
