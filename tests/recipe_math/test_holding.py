"""Clocks of holding count what was seen, and the day of preparation is day one."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from trainer.recipe_math.estimates import in_celsius
from trainer.recipe_math.holding import (
    Clock,
    HoldingLimit,
    TimedReading,
    TimeRule,
    combined_day,
    date_mark,
    spells_outside,
    time_control,
)
from trainer.recipe_math.quantity import Quantity, QuantityProblem

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


def fahrenheit(degrees: int) -> float:
    return in_celsius(Quantity.of(degrees, "°F"))


COLD = HoldingLimit("FDA Food Code 2022, section 3-501.16(A)(2)", at_most_celsius=fahrenheit(41))
HOT = HoldingLimit("FDA Food Code 2022, section 3-501.16(A)(1)", at_least_celsius=fahrenheit(135))
FOUR_HOURS = TimeRule(
    "FDA Food Code 2022, section 3-501.19(B)",
    within_minutes=240,
    begins_at_most_celsius=fahrenheit(41),
    begins_at_least_celsius=fahrenheit(135),
)
SIX_HOURS = TimeRule(
    "FDA Food Code 2022, section 3-501.19(C)",
    within_minutes=360,
    begins_at_most_celsius=fahrenheit(41),
    never_above_celsius=fahrenheit(70),
)


def at(minutes: float, degrees: int) -> TimedReading:
    return TimedReading(NOON + timedelta(minutes=minutes), fahrenheit(degrees))


@pytest.mark.parametrize(
    ("limit", "degrees", "holds"), [(COLD, 41, True), (COLD, 42, False), (HOT, 135, True), (HOT, 134, False)]
)
def test_the_limit_itself_is_inside(limit: HoldingLimit, degrees: int, holds: bool) -> None:
    """FDA Food Code 2022, section 3-501.16(A): 41 °F or below, 135 °F or above."""
    assert limit.holds(fahrenheit(degrees)) is holds


def test_a_spell_is_as_long_as_from_good_to_good_at_the_most() -> None:
    """Good at 0, out at 60 and 90, good at 120 min: 30 to 120 minutes, since nobody looked between."""
    (spell,) = spells_outside([at(0, 40), at(60, 45), at(90, 44), at(120, 41)], COLD)
    assert (spell.at_least_minutes, spell.at_most_minutes) == (30, 120)


def test_each_spell_stands_alone_and_one_may_have_no_end() -> None:
    """Out at 60 and again at 180 min, where the log ends: the second may go on."""
    first, second = spells_outside([at(0, 140), at(60, 130), at(120, 140), at(180, 120)], HOT)
    assert first.at_most_minutes == 120
    assert (second.good_from, second.at_most_minutes) == (None, None)
    assert second.good_until == NOON + timedelta(minutes=120)


def test_food_that_was_out_when_first_seen_has_no_known_beginning() -> None:
    """Nobody looked before the first reading."""
    (spell,) = spells_outside([at(0, 50), at(30, 40)], COLD)
    assert (spell.good_until, spell.at_most_minutes) == (None, None)


def test_food_within_its_limit_has_no_spell() -> None:
    """Nor has a log with no reading."""
    assert spells_outside([at(0, 40), at(30, 41)], COLD) == ()
    assert spells_outside([], COLD) == ()


def test_a_log_out_of_order_is_refused() -> None:
    """The message names the reading."""
    with pytest.raises(QuantityProblem, match="does not follow"):
        spells_outside([at(30, 40), at(30, 40)], COLD)


@pytest.mark.parametrize(
    ("minutes", "clock", "left"),
    [(0, Clock.RUNNING, 240), (180, Clock.RUNNING, 60), (240, Clock.RUNNING, 0), (241, Clock.TIME_IS_UP, 0)],
)
def test_four_hours_have_their_last_minute_inside(minutes: float, clock: Clock, left: float) -> None:
    """FDA Food Code 2022, section 3-501.19(B): cooked, served or discarded within 4 hours."""
    found = time_control(FOUR_HOURS, at(0, 135), NOON + timedelta(minutes=minutes))
    assert (found.clock, found.minutes_left) == (clock, left)
    assert found.until == NOON + timedelta(hours=4)


@pytest.mark.parametrize(
    ("rule", "degrees", "may"),
    [
        (FOUR_HOURS, 41, True),
        (FOUR_HOURS, 42, False),
        (FOUR_HOURS, 134, False),
        (FOUR_HOURS, 135, True),
        (SIX_HOURS, 41, True),
        (SIX_HOURS, 135, False),
    ],
)
def test_the_clock_begins_only_with_food_cold_or_hot_enough(rule: TimeRule, degrees: int, may: bool) -> None:
    """FDA Food Code 2022, section 3-501.19: 4 h from 41 °F or below or 135 °F or above; 6 h from 41 °F or below."""
    found = time_control(rule, at(0, degrees), NOON)
    assert (found.clock is not Clock.LIMIT_BROKEN) is may
    assert ("does not let food begin" in " ".join(found.reasons)) is not may


@pytest.mark.parametrize(("degrees", "clock"), [(70, Clock.RUNNING), (71, Clock.LIMIT_BROKEN)])
def test_six_hours_end_at_once_above_the_ceiling(degrees: int, clock: Clock) -> None:
    """FDA Food Code 2022, section 3-501.19(C): the food may not be above 70 °F at any time."""
    found = time_control(SIX_HOURS, at(0, 41), NOON + timedelta(minutes=60), warmest=fahrenheit(degrees))
    assert found.clock is clock
    assert ("never be" in " ".join(found.reasons)) is (clock is Clock.LIMIT_BROKEN)


def test_a_ceiling_nobody_checked_is_named() -> None:
    """Under the six hour rule, how warm it got is not known without readings."""
    unread = time_control(SIX_HOURS, at(0, 41), NOON)
    read = time_control(SIX_HOURS, at(0, 41), NOON, warmest=fahrenheit(60))
    assert "how warm the food got" in unread.not_known
    assert "how warm the food got between the readings" in read.not_known
    assert len(time_control(FOUR_HOURS, at(0, 41), NOON).not_known) == 1


def test_a_clock_that_changes_loses_no_hour() -> None:
    """New York, 2026-03-08, 01:00 to 03:00 is one hour of food; four hours from 01:00 end at 06:00 on the wall."""
    zone = ZoneInfo("America/New_York")
    began = TimedReading(datetime(2026, 3, 8, 1, tzinfo=zone), 57.3)
    found = time_control(FOUR_HOURS, began, datetime(2026, 3, 8, 3, tzinfo=zone))
    assert found.minutes_left == 180
    assert (found.until.hour, found.until.day) == (6, 8)
    (spell,) = spells_outside(
        [TimedReading(datetime(2026, 3, 8, hour, tzinfo=zone), celsius) for hour, celsius in ((1, 4), (3, 9), (4, 4))],
        COLD,
    )
    assert spell.at_most_minutes == 120


def test_a_clock_needs_a_zone_and_does_not_run_backward() -> None:
    """The message names the moment."""
    with pytest.raises(QuantityProblem, match="has no time zone"):
        TimedReading(NOON.replace(tzinfo=None), 4)
    with pytest.raises(QuantityProblem, match="has no time zone"):
        time_control(FOUR_HOURS, at(0, 41), NOON.replace(tzinfo=None))
    with pytest.raises(QuantityProblem, match="before the clock began"):
        time_control(FOUR_HOURS, at(0, 41), NOON - timedelta(minutes=1))


def test_a_limit_has_one_side_and_a_time_rule_a_beginning() -> None:
    """Neither none nor both."""
    with pytest.raises(QuantityProblem, match="one of the two"):
        HoldingLimit("nobody")
    with pytest.raises(QuantityProblem, match="one of the two"):
        HoldingLimit("nobody", at_most_celsius=5, at_least_celsius=57)
    with pytest.raises(QuantityProblem, match="when its clock begins"):
        TimeRule("nobody", 240)
    with pytest.raises(QuantityProblem, match="time limit"):
        TimeRule("nobody", 0, begins_at_most_celsius=5)


def test_the_day_of_preparation_is_day_one() -> None:
    """FDA Food Code 2022, section 3-501.17(A) to (B): 7 days, so the last day is preparation and 6."""
    mark = date_mark(date(2026, 10, 28), 7)
    assert (mark.last_day, mark.days_frozen) == (date(2026, 11, 3), 0)
    assert not mark.is_past_on(date(2026, 11, 3))
    assert mark.is_past_on(date(2026, 11, 4))


def test_one_day_is_the_day_itself() -> None:
    """A house rule of one day."""
    assert date_mark(date(2026, 3, 2), 1).last_day == date(2026, 3, 2)


def test_days_in_the_freezer_do_not_count_but_both_ends_do() -> None:
    """FDA Food Code 2022, section 3-501.18(A)(1): frozen time does not count. In on day 3, out 9 days on: 8 pause."""
    mark = date_mark(date(2026, 3, 2), 7, [(date(2026, 3, 4), date(2026, 3, 13))])
    assert (mark.last_day, mark.days_frozen) == (date(2026, 3, 16), 8)
    kept = [date(2026, 3, day) for day in (2, 3, 4, 13, 14, 15, 16)]
    assert len(kept) == 7
    assert kept[-1] == mark.last_day


def test_in_and_out_on_one_day_pauses_nothing() -> None:
    """Nor does overnight: both days had time outside the freezer."""
    assert date_mark(date(2026, 3, 2), 7, [(date(2026, 3, 4), date(2026, 3, 4))]).days_frozen == 0
    assert date_mark(date(2026, 3, 2), 7, [(date(2026, 3, 4), date(2026, 3, 5))]).days_frozen == 0


def test_two_times_in_the_freezer_add_up() -> None:
    """In any order given: 3 and 1 days pause."""
    spans = [(date(2026, 3, 10), date(2026, 3, 12)), (date(2026, 3, 4), date(2026, 3, 8))]
    mark = date_mark(date(2026, 3, 2), 7, spans)
    assert (mark.last_day, mark.days_frozen) == (date(2026, 3, 12), 4)


@pytest.mark.parametrize(
    ("days", "frozen", "rule"),
    [
        (0, [], "no time to keep food"),
        (7, [(date(2026, 3, 1), date(2026, 3, 4))], "does not fit"),
        (7, [(date(2026, 3, 4), date(2026, 3, 3))], "does not fit"),
        (7, [(date(2026, 3, 3), date(2026, 3, 6)), (date(2026, 3, 5), date(2026, 3, 8))], "does not fit"),
        (7, [(date(2026, 3, 9), date(2026, 4, 9))], "was over"),
    ],
)
def test_days_that_do_not_fit_are_refused(days: int, frozen: list[tuple[date, date]], rule: str) -> None:
    """Freezing on the day after the last brings nothing back."""
    with pytest.raises(QuantityProblem, match=rule):
        date_mark(date(2026, 3, 2), days, frozen)


def test_food_put_together_keeps_the_first_day() -> None:
    """FDA Food Code 2022, section 3-501.17(D)(3), from memory: the part prepared first."""
    assert combined_day([date(2026, 3, 4), date(2026, 3, 2), date(2026, 3, 3)]) == date(2026, 3, 2)
    with pytest.raises(QuantityProblem, match="at least one"):
        combined_day([])
