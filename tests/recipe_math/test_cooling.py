"""Newton's law fits readings, and two gates of cooling are judged apart."""

from __future__ import annotations

from datetime import timedelta

import pytest
from scipy.optimize import curve_fit

from tests.printed import all_english
from trainer.recipe_math.cooling import Gate, fitted
from trainer.recipe_math.cooling_log import Shows, judged
from trainer.recipe_math.estimates import TimedReading, in_celsius
from trainer.recipe_math.quantity import Quantity, QuantityProblem

FDA = "FDA Food Code 2022, section 3-501.14(A)"


def fahrenheit(degrees: int) -> float:
    return in_celsius(Quantity.of(degrees, "°F"))


def reading(minutes: float, degrees: int) -> TimedReading:
    return TimedReading(minutes, fahrenheit(degrees))


def gate(start: int, end: int, hours: float, source: str) -> Gate:
    return Gate(fahrenheit(start), fahrenheit(end), timedelta(hours=hours).total_seconds() / 60, source)


STAGE_ONE = gate(135, 70, 2, FDA + "(1)")
IN_ALL = gate(135, 41, 6, FDA + "(2)")
GATES = (STAGE_ONE, IN_ALL)

WORKED = [
    # readings (minutes, °F), surroundings, wanted °F, minutes as printed, give or take, where
    ([(0, 200), (2, 180)], 70, 175, 2.56, 0.005, "OpenStax Calculus Volume 1, section 6.8, coffee"),
    ([(0, 200), (2, 180)], 70, 155, 5.09, 0.005, "OpenStax Calculus Volume 1, section 6.8, coffee"),
    ([(0, 200), (2, 185)], 75, 175, 3.5, 0.25, "OpenStax Calculus Volume 1, section 6.8, checkpoint"),
    ([(0, 200), (1, 190)], 75, 150, 6.12, 0.01, "OpenStax Calculus Volume 2, section 4.3, pizza"),
    ([(0, 210), (120, 170)], 20, 30, 24 * 60 + 57, 3, "OpenStax Calculus Volume 2, section 4.3, ice cream"),
    ([(0, 165), (10, 150)], 35, 70, 107, 0.5, "OpenStax College Algebra 2e, section 6.7, cheesecake"),
    ([(0, 40), (60, 45)], 70, 60, 6.026 * 60, 0.0005 * 60, "OpenStax College Algebra 2e, section 6.7, pitcher"),
    ([(0, 135), (120, 70)], 38, 41, 6.269 * 60, 0.001 * 60, "Newton's law on 135, 70 and 41 °F, by hand"),
]


@pytest.mark.parametrize(("seen", "around", "wanted", "minutes", "off"), [row[:5] for row in WORKED])
def test_two_readings_give_the_time_to_a_temperature(
    seen: list[tuple[float, int]], around: int, wanted: int, minutes: float, off: float
) -> None:
    """Printed answers; the ice cream's comes from a rounded rate (exactly 24 h 54.7 min)."""
    fit = fitted([reading(*one) for one in seen], fahrenheit(around))
    assert fit.minutes_until(fahrenheit(wanted)) == pytest.approx(minutes, abs=off)


def test_the_temperature_at_a_time_follows_the_curve() -> None:
    """OpenStax Calculus Volume 1, section 6.8, turkey: 165 °F in 70 °F, 155 °F at 10 min; 146.05 °F at 20 min."""
    fit = fitted([reading(0, 165), reading(10, 155)], fahrenheit(70))
    assert fit.celsius_at(20) == pytest.approx((146.05 - 32) * 5 / 9, abs=0.006)
    assert fit.celsius_at(10) == pytest.approx(fahrenheit(155), abs=1e-9)


def test_the_clock_of_the_readings_may_begin_anywhere() -> None:
    """The same coffee looked at 30 minutes later on the clock is at 155 °F 30 minutes later."""
    early, late = ([reading(at, 200), reading(at + 2, 180)] for at in (0, 30))
    first, second = (fitted(seen, fahrenheit(70)).minutes_until(fahrenheit(155)) for seen in (early, late))
    assert first is not None
    assert second == pytest.approx(first + 30)


def test_more_readings_are_fitted_by_least_squares_on_the_logarithm() -> None:
    """scipy.optimize.curve_fit of a line to the logarithm of the gap, and how far the worst reading lies off."""
    seen = [TimedReading(0, 62), TimedReading(20, 46), TimedReading(40, 38.5), TimedReading(70, 24)]
    fit = fitted(seen, 4)

    def curve(minutes: float, level: float, rate: float) -> float:
        return level - rate * minutes

    from math import exp, log

    (level, rate), _ = curve_fit(curve, [one.minutes for one in seen], [log(one.celsius - 4) for one in seen])
    assert fit.rate_per_minute == pytest.approx(rate, rel=1e-6)
    assert fit.first_gap_celsius == pytest.approx(exp(level), rel=1e-6)
    worst = max(abs(4 + exp(level - rate * one.minutes) - one.celsius) for one in seen)
    assert fit.largest_miss_celsius == pytest.approx(worst, rel=1e-5)
    assert fit.readings == 4


def test_two_readings_lie_on_the_curve() -> None:
    """Two points always do: no miss shows nothing."""
    assert fitted([TimedReading(0, 60), TimedReading(30, 30)], 4).largest_miss_celsius == pytest.approx(0, abs=1e-9)


def test_the_surroundings_are_never_reached() -> None:
    """A curve toward 21 °C never gets to 21 °C, nor below it."""
    fit = fitted([TimedReading(0, 60), TimedReading(30, 40)], 21)
    assert fit.minutes_until(21) is None
    assert fit.minutes_until(5) is None


@pytest.mark.parametrize(
    ("seen", "around", "rule"),
    [
        ([TimedReading(0, 60)], 4, "1 readings are too few"),
        ([TimedReading(0, 60), TimedReading(0, 50)], 4, "does not follow"),
        ([TimedReading(10, 60), TimedReading(0, 50)], 4, "does not follow"),
        ([TimedReading(0, 60), TimedReading(30, 4)], 4, "all be above"),
        ([TimedReading(0, 60), TimedReading(30, 3)], 4, "all be above"),
        ([TimedReading(0, 50), TimedReading(30, 60)], 4, "do not move toward"),
        ([TimedReading(0, 50), TimedReading(30, 50)], 4, "do not move toward"),
    ],
)
def test_readings_no_curve_goes_through_are_refused(seen: list[TimedReading], around: float, rule: str) -> None:
    """The message names the rule."""
    with pytest.raises(QuantityProblem, match=rule):
        fitted(seen, around)


def test_the_curve_begins_at_the_first_reading() -> None:
    """Nothing is known of the time before."""
    with pytest.raises(QuantityProblem, match="before the first reading"):
        fitted([TimedReading(5, 60), TimedReading(30, 30)], 4).celsius_at(4)


def test_a_gate_leads_down_and_leaves_time() -> None:
    """A gate that leads up, or has no time, is refused."""
    with pytest.raises(QuantityProblem, match="A gate leads down"):
        Gate(5, 57, 120, "nobody")
    with pytest.raises(QuantityProblem, match="time limit"):
        Gate(57, 5, 0, "nobody")


def shown(log: list[tuple[float, int]], *gates: Gate) -> list[Shows]:
    return [one.shows for one in judged([reading(*seen) for seen in log], gates or GATES)]


def test_both_gates_are_met_on_their_last_minute() -> None:
    """FDA Food Code 2022, section 3-501.14(A): within 2 h and within 6 h; the limit itself is in time."""
    assert shown([(0, 135), (120, 70), (360, 41)]) == [Shows.MET, Shows.MET]


@pytest.mark.parametrize(
    ("log", "first", "second"),
    [
        ([(0, 135), (130, 70), (300, 41)], Shows.MISSED, Shows.MET),
        ([(0, 135), (120, 70), (361, 41)], Shows.MET, Shows.MISSED),
        ([(0, 135), (121, 71), (400, 42)], Shows.MISSED, Shows.MISSED),
        ([(0, 135), (120, 71), (200, 60), (330, 40)], Shows.MISSED, Shows.MET),
    ],
)
def test_the_two_gates_are_judged_apart(log: list[tuple[float, int]], first: Shows, second: Shows) -> None:
    """Food Code 2022, 3-501.14(A): 135 to 70 °F in 2 h 10 min misses, even where 41 °F is met after 5 h."""
    assert shown(log) == [first, second]


@pytest.mark.parametrize(
    ("start", "end", "hours", "source"),
    [
        (135, 70, 2, FDA + "(1)"),
        (135, 41, 6, FDA + "(2)"),
        (140, 70, 2, "TM 10-412 (2003), card A-32"),
        (70, 41, 4, "TM 10-412 (2003), card A-32"),
        (140, 70, 2, "Code of Maine Rules 01-001 ch. 346, section 3.12"),
        (120, 55, 6, "FSIS Appendix B, option 2"),
        (130, 80, 1.5, "FSIS-GD-2021-13 (2021), option 1, from memory"),
        (80, 40, 5, "FSIS-GD-2021-13 (2021), option 1, from memory"),
        (130, 80, 5, "FSIS-GD-2021-13 (2021), option 3, from memory"),
        (80, 45, 10, "FSIS-GD-2021-13 (2021), option 3, from memory"),
    ],
)
def test_any_code_s_gate_has_its_last_minute_in_time(start: int, end: int, hours: float, source: str) -> None:
    """The limits come from the code named; one minute more is over."""
    one = gate(start, end, hours, source)
    assert shown([(0, start), (hours * 60, end)], one) == [Shows.MET]
    assert shown([(0, start), (hours * 60 + 1, end)], one) == [Shows.MISSED]


def test_a_gap_between_readings_is_not_taken_for_time() -> None:
    """From 140 °F at 0 and 130 °F at 10 min to 75 °F at 115 and 68 °F at 128 min: 105 to 128 min, so not shown."""
    (one,) = judged([reading(0, 140), reading(10, 130), reading(115, 75), reading(128, 68)], [STAGE_ONE])
    assert one.shows is Shows.NOT_SHOWN
    assert (one.at_least_minutes, one.at_most_minutes) == (105, 128)
    assert one.reason == "21 °C (70 °F) took 1 h 45 min to 2 h 8 min, the readings do not show which; the limit is 2 h."


def test_a_beginning_nobody_saw_shows_no_time() -> None:
    """A first reading of 120 °F leaves open how long it had been below 135 °F; too long since then is missed."""
    (one,) = judged([reading(0, 120), reading(60, 70)], [STAGE_ONE])
    assert (one.shows, one.at_most_minutes) == (Shows.NOT_SHOWN, None)
    assert "No reading shows when" in one.reason
    assert shown([(0, 120), (125, 70)], STAGE_ONE) == [Shows.MISSED]
    assert shown([(0, 60)], STAGE_ONE) == [Shows.NOT_SHOWN]


def test_food_on_its_way_has_time_left() -> None:
    """An hour after 135 °F the food at 100 °F has an hour for the first gate and five for the second."""
    first, second = judged([reading(0, 135), reading(60, 100)], GATES)
    assert (first.shows, first.minutes_left) == (Shows.STILL_COOLING, 60)
    assert (second.shows, second.minutes_left) == (Shows.STILL_COOLING, 300)


def test_food_that_may_be_late_already_is_not_said_to_have_time_left() -> None:
    """Last at 140 °F at 0, first below at 30, still warm at 125 min: 95 to 125 min have gone."""
    (one,) = judged([reading(0, 140), reading(30, 130), reading(125, 75)], [STAGE_ONE])
    assert (one.shows, one.minutes_left) == (Shows.NOT_SHOWN, None)
    assert "is not reached after 1 h 35 min to 2 h 5 min" in one.reason
    assert shown([(0, 140), (30, 130), (120, 75)], STAGE_ONE) == [Shows.NOT_SHOWN]


def test_food_still_warm_when_the_time_is_over_has_missed() -> None:
    """At 120 min still at 71 °F: 70 °F can only come later."""
    assert shown([(0, 135), (120, 71)], STAGE_ONE) == [Shows.MISSED]


def test_hot_food_has_not_begun() -> None:
    """At 135 °F it still is at the limit of hot holding."""
    assert shown([(0, 150), (30, 135)]) == [Shows.NOT_BEGUN, Shows.NOT_BEGUN]


def test_warming_again_does_not_stop_the_clock_and_is_named() -> None:
    """135, 100, 110, 70 °F at 0, 60, 90, 130 min: 130 min, and a question about 90 min."""
    (one,) = judged([reading(0, 135), reading(60, 100), reading(90, 110), reading(130, 70)], [STAGE_ONE])
    assert one.shows is Shows.MISSED
    assert "why the food was warmer at 90 min than at 60 min" in tuple(all_english(one.not_known))


def test_a_log_needs_a_reading() -> None:
    """No reading shows nothing."""
    with pytest.raises(QuantityProblem, match="at least 1"):
        judged([], GATES)
