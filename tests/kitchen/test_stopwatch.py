"""Stopwatches at a point: pressed once or twice, read as a stopwatch is read, and told from a time taken by hand."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from trainer.kitchen.measured import Typed
from trainer.kitchen.practical import PointSeen, judge_point
from trainer.kitchen.stopwatch import Stopwatch, is_timed, pressed_start, pressed_stop, with_how_timed
from trainer.kitchen.technique import Judged, Limit, Point
from trainer.recipe_math.parsing import parse_quantity

NOON = datetime(2026, 11, 3, 12, tzinfo=UTC)
WASH = Limit("wash", parse_quantity("20 s"), None, None, "food_code_2022")
HOT = Limit("hot", parse_quantity("155 F"), None, None, "food_code_2022")
HANDS = Point("hands", "Hands are washed.", True, "timed", WASH)
PAIR = Point("pair", "Holds.", True, "pair", HOT, then=WASH)


def after(seconds: float) -> datetime:
    """Return a moment so many seconds after noon."""
    return NOON + timedelta(seconds=seconds)


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [
        (0.97, "0.9 s"),
        (3.0, "3 s"),
        (9.99, "9.9 s"),
        (17.9, "17 s"),
        (60, "1 min"),
        (2467, "41 min 7 s"),
        (7200, "2 h"),
    ],
)
def test_it_is_read_as_a_stopwatch_is(seconds: float, shown: str) -> None:
    """What is not whole yet is not counted: tenths below ten seconds, else seconds (common practice)."""
    assert Stopwatch(0, NOON, after(seconds)).shown == shown


def test_one_that_runs_shows_no_reading_and_is_never_below_nothing() -> None:
    """A clock set back shows nothing gone, not less."""
    running = Stopwatch(0, NOON)
    assert running.shown == ""
    assert running.gone(after(-5)) == timedelta(0)


def test_a_second_tap_neither_starts_anew_nor_stops() -> None:
    """Two taps of one finger are 150 ms apart (common practice): the watch just started goes on."""
    running = pressed_start((), 0, NOON)
    assert pressed_start(running, 0, after(0.15)) == running
    assert pressed_stop(running, 0, after(0.15)) == running
    assert pressed_stop(running, 0, after(20)) == (Stopwatch(0, NOON, after(20)),)


def test_several_run_by_themselves() -> None:
    """The watch of one piece neither stops nor starts that of another; started again, one begins at nothing."""
    both = pressed_start(pressed_start((), 1, NOON), 3, after(5))
    stopped = pressed_stop(both, 1, after(20))
    assert stopped == (Stopwatch(1, NOON, after(20)), Stopwatch(3, after(5)))
    assert pressed_start(stopped, 1, after(30)) == (Stopwatch(3, after(5)), Stopwatch(1, after(30)))


@pytest.mark.parametrize(
    ("judged", "reading", "timed"),
    [("timed", 0, True), ("pair", 0, False), ("pair", 1, True), ("pair", 3, True), ("measured", 1, False)],
)
def test_times_alone_have_one(judged: Judged, reading: int, timed: bool) -> None:
    """A point that is timed, and the time of a pair; a temperature has none, nor a line on a label."""
    point = Point("p", "", True, judged, WASH if judged == "timed" else HOT, then=WASH if judged == "pair" else None)
    assert is_timed(point, reading) is timed


def seen(point: Point, *typed: str) -> PointSeen:
    """Return a point as its readings decide it."""
    found = judge_point(point, [Typed(text) for text in typed], None)
    assert isinstance(found, PointSeen), found
    return found


def test_a_reading_is_the_watchs_where_it_says_what_the_watch_showed() -> None:
    """Whatever the units: 1 min 30 s is 90 s. Anything else was taken by hand."""
    watch = (Stopwatch(0, NOON, after(90.4)),)
    assert with_how_timed(HANDS, seen(HANDS, "90"), watch).timed == ("watch",)
    assert with_how_timed(HANDS, seen(HANDS, "1 min 30 s"), watch).timed == ("watch",)
    assert with_how_timed(HANDS, seen(HANDS, "91"), watch).timed == ("hand",)
    assert with_how_timed(HANDS, seen(HANDS, "90"), ()).timed == ("hand",)
    assert with_how_timed(HANDS, seen(HANDS, "90"), (Stopwatch(0, NOON),)).timed == ("hand",)


def test_of_a_pair_the_time_alone_says_how_it_was_timed() -> None:
    """The temperature beside it says nothing."""
    watch = (Stopwatch(1, NOON, after(21)),)
    assert with_how_timed(PAIR, seen(PAIR, "160", "21"), watch).timed == ("", "watch")


def test_of_a_stop_nothing_is_said() -> None:
    """Only some of the readings may have been taken by then."""
    stopped = PointSeen("pair", "unsafe", ("160 °F",))
    assert with_how_timed(PAIR, stopped, ()) == stopped


def test_a_point_without_times_says_nothing() -> None:
    """Weights and temperatures are kept as they always were."""
    point = Point("hot", "", True, "measured", HOT)
    assert with_how_timed(point, seen(point, "160"), ()).timed == ()
