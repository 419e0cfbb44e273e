"""A pan that cools against the gates of the local code: two conditions judged apart, and what the curve adds."""

from __future__ import annotations

from math import exp
from types import MappingProxyType

import pytest

from tests.printed import english
from trainer.kitchen.cooling_watch import CoolingStart, Outlook, gates_of, watched, wrong_start
from trainer.kitchen.technique import Limit, LocalCode
from trainer.recipe_math.cooling_forecast import Expected
from trainer.recipe_math.cooling_window import CoolingPan
from trainer.recipe_math.estimates import TimedReading, in_celsius
from trainer.recipe_math.quantity import Quantity, QuantityProblem


def limit(key: str, target: str = "", highest: str = "", unit: str = "°F") -> Limit:
    """Return a line of a code: a named temperature, or a time that may not be passed."""
    end = Quantity.of(highest, "h") if highest else None
    return Limit(key, None, end, Quantity.of(target, unit) if target else None, "town", f"Part {key}")


FOOD_CODE = {
    # FDA Food Code 2022, section 3-501.14(A): 135 to 70 °F within 2 hours, and to 41 °F within 6 hours in all
    "cooling_start": limit("cooling_start", target="135"),
    "cooling_middle": limit("cooling_middle", target="70"),
    "cooling_end": limit("cooling_end", target="41"),
    "cooling_to_middle_within": limit("cooling_to_middle_within", highest="2"),
    "cooling_to_end_within": limit("cooling_to_end_within", highest="6"),
    # section 3-501.14(B): made from ingredients at ambient temperature, to 41 °F within 4 hours
    "cooling_from_room_within": limit("cooling_from_room_within", highest="4"),
}


def code(**changes: Limit | None) -> LocalCode:
    """Return the Food Code's lines for cooling, some changed or taken out."""
    lines = {key: line for key, line in {**FOOD_CODE, **changes}.items() if line is not None}
    return LocalCode("town", "Town code", "1", MappingProxyType(lines))


GATES = gates_of(code())


def reading(minutes: float, fahrenheit: str) -> TimedReading:
    """Return a reading in the degrees a cook took it in."""
    return TimedReading(minutes, in_celsius(Quantity.of(fahrenheit, "°F")))


def outlooks(*readings: TimedReading, around: float | None = None) -> list[Outlook]:
    """Return how each gate stands."""
    return [gate.outlook for gate in watched(readings, GATES, around).gates]


def test_gates_come_from_the_local_code() -> None:
    """From where, to where, within how long, and where it is said."""
    first, second = GATES
    assert (first.within_minutes, second.within_minutes) == (120, 360)
    assert first.from_celsius == second.from_celsius == pytest.approx(57.2222, abs=1e-3)
    assert first.to_celsius == pytest.approx(21.1111, abs=1e-3)
    assert second.to_celsius == 5
    assert first.source == "Town code 1, Part cooling_to_middle_within"


def test_food_made_at_room_temperature_has_one_gate_of_its_own() -> None:
    """From when it is made to 41 °F within 4 hours (FDA Food Code 2022, section 3-501.14(B))."""
    (gate,) = gates_of(code(), CoolingStart.ROOM)
    assert (gate.from_celsius, gate.to_celsius, gate.within_minutes) == (None, 5, 240)
    assert gates_of(code(cooling_from_room_within=None), CoolingStart.ROOM) == ()
    assert gates_of(code(cooling_start=None)) == ()


def test_its_clock_begins_with_the_first_reading() -> None:
    """A minute over 4 hours is missed, 4 hours are met, and warming in between stops nothing (section 3-501.14(B))."""
    gates = gates_of(code(), CoolingStart.ROOM)
    for minutes, outlook in ((240, Outlook.MET), (241, Outlook.MISSED)):
        log = [reading(0, "68"), reading(60, "72"), reading(120, "50"), reading(minutes, "41")]
        assert [gate.outlook for gate in watched(log, gates, None).gates] == [outlook]
    (view,) = watched([reading(30, "68"), reading(60, "60")], gates, None).gates
    assert (view.outlook, view.begins_at_minutes, view.log.minutes_left) == (Outlook.COOLING, 30, 210)


@pytest.mark.parametrize(
    ("first", "start", "is_wrong"), [("135", "room", True), ("134", "room", False), ("150", "hot", False)]
)
def test_what_was_hot_was_not_made_at_room_temperature(first: str, start: str, is_wrong: bool) -> None:
    """Where the code's clock for cooked food begins, nothing is at room temperature any more."""
    said = wrong_start([reading(0, first), reading(30, "60")], code(), CoolingStart(start))
    assert bool(said) is is_wrong
    assert not is_wrong or "57.2 °C (135 °F) is no room temperature" in english(said)


def test_a_stricter_line_of_the_house_is_followed() -> None:
    """A house that asks for 90 minutes is judged by 90 minutes."""
    (first, _) = gates_of(code(cooling_to_middle_within=limit("cooling_to_middle_within", highest="3/2")))
    assert first.within_minutes == 90


@pytest.mark.parametrize("missing", ["cooling_start", "cooling_middle", "cooling_to_middle_within"])
def test_a_gate_the_code_does_not_set_is_not_made_up(missing: str) -> None:
    """Without its temperature or its time there is no gate."""
    assert all(gate.to_celsius == 5 for gate in gates_of(code(**{missing: None})))


def test_late_at_the_first_gate_is_missed_even_where_the_second_is_met() -> None:
    """135 to 70 °F in 2 h 10 min fails though 41 °F comes at 5 h (FDA Food Code 2022, section 3-501.14(A))."""
    view = watched([reading(0, "135"), reading(130, "70"), reading(300, "41")], GATES, None)
    assert [gate.outlook for gate in view.gates] == [Outlook.MISSED, Outlook.MET]
    assert view.is_missed


def test_in_time_at_the_first_gate_may_still_be_late_at_the_second() -> None:
    """70 °F at 2 h is met; 41 °F at 6 h 1 min is missed (FDA Food Code 2022, section 3-501.14(A))."""
    assert outlooks(reading(0, "135"), reading(120, "70"), reading(361, "41")) == [Outlook.MET, Outlook.MISSED]


def test_the_limits_themselves_are_in_time() -> None:
    """Within 2 hours and within 6 hours: 120 and 360 minutes are inside."""
    assert outlooks(reading(0, "135"), reading(120, "70"), reading(360, "41")) == [Outlook.MET, Outlook.MET]


def test_a_forecast_warns_while_there_is_time_to_act() -> None:
    """Newton's law, gap 55 to 45 °C in 30 min: ln(55/45)/30 = 0.00669 a minute, by hand: 70 °F comes far too late."""
    readings = [TimedReading(0, 58.0), TimedReading(30, 48.0)]
    assert outlooks(*readings, around=3.0) == [Outlook.LATE, Outlook.LATE]


def test_a_quick_pan_is_on_course() -> None:
    """A gap that falls by 3 % a minute from 57.2 °C over 1 °C: 70 °F after ln(56.2/20.1)/0.03 = 34 min, by hand."""
    readings = [TimedReading(at, 1 + 57 * exp(-0.03 * at)) for at in (0.0, 5.0, 10.0)]
    view = watched(readings, GATES, 1.0)
    assert [gate.outlook for gate in view.gates] == [Outlook.IN_TIME, Outlook.IN_TIME]
    forecast = view.gates[0].forecast
    assert forecast is not None
    assert (forecast.in_all.earliest or 0) < 34.3 < (forecast.in_all.latest or 0)


def test_what_may_be_late_is_not_on_course() -> None:
    """By Newton's law ln(54.2/18.1)/(ln(55/37)/30) = 83 min, in time by hand; an open pan may take over 2 hours."""
    readings = [TimedReading(0, 58.0), TimedReading(30, 40.0)]
    assert outlooks(*readings, around=3.0)[0] is Outlook.MAY_BE_LATE
    covered = watched(readings, GATES, 3.0, pan=CoolingPan(25, is_open=False, is_stirred=True))
    assert covered.gates[0].outlook is Outlook.IN_TIME


def test_nothing_is_on_course_by_a_curve_that_fits_badly() -> None:
    """A pan moved to ice half way follows no one curve: fast as it falls now, what comes is not known."""
    moved = [TimedReading(0, 57.3), TimedReading(60, 50.0), TimedReading(70, 30.0)]
    view = watched(moved, GATES, 1.0, pan=CoolingPan(25, is_open=False, is_stirred=True))
    assert view.gates[0].forecast is not None
    assert view.gates[0].forecast.expected is Expected.IN_TIME
    assert view.gates[0].outlook is Outlook.MAY_BE_LATE


def test_a_thermometer_in_celsius_is_judged_by_the_metric_figures_of_the_code() -> None:
    """FDA Food Code 2022, section 3-501.14(A), prints 57, 21 and 5 °C: 57 begins the clock, 21 at 2 h is in time."""
    in_celsius_log = [TimedReading(at, celsius, is_celsius=True) for at, celsius in ((0, 57), (120, 21), (360, 5))]
    assert outlooks(*in_celsius_log) == [Outlook.MET, Outlook.MET]
    late = [TimedReading(at, celsius, is_celsius=True) for at, celsius in ((0, 57), (121, 21), (361, 5))]
    assert outlooks(*late) == [Outlook.MISSED, Outlook.MISSED]


def test_without_surroundings_there_is_no_forecast_and_the_log_is_judged_all_the_same() -> None:
    """A guess at the cold around the food would be made up."""
    view = watched([reading(0, "136"), reading(30, "100")], GATES, None)
    assert view.fit is None
    assert "Type how cold" in english(view.no_fit_reason)
    assert [gate.outlook for gate in view.gates] == [Outlook.COOLING, Outlook.COOLING]


@pytest.mark.parametrize("around", [60.0, 45.0])
def test_surroundings_that_cannot_be_give_a_reason_and_no_crash(around: float) -> None:
    """Food does not cool toward something warmer, and no curve has readings on both sides of it."""
    view = watched([reading(0, "135"), reading(30, "100")], GATES, around)
    assert view.fit is None
    assert english(view.no_fit_reason).startswith("No forecast: ")


def test_food_that_warms_has_no_forecast() -> None:
    """Readings that rise toward the room pass no gate of cooling."""
    view = watched([TimedReading(0, 5.0), TimedReading(30, 12.0)], GATES, 22.0)
    assert "it warms" in english(view.no_fit_reason)
    assert [gate.outlook for gate in view.gates] == [Outlook.NOT_SHOWN, Outlook.NOT_SHOWN]


def test_readings_far_off_the_curve_are_told() -> None:
    """A pan moved to ice half way follows no one curve: the worst reading lies more than 3 °C off (the house's own)."""
    moved = [TimedReading(0, 57.0), TimedReading(60, 50.0), TimedReading(70, 20.0), TimedReading(80, 8.0)]
    assert watched(moved, GATES, 1.0).fits_badly
    assert not watched([TimedReading(0, 57.0), TimedReading(60, 40.0)], GATES, 1.0).fits_badly


def test_a_gate_that_was_reached_leaves_nothing_to_expect() -> None:
    """Once a reading is at 70 °F, the first gate is done."""
    first, second = watched([reading(0, "135"), reading(130, "70")], GATES, 3.0).gates
    assert first.is_reached
    assert not second.is_reached


def test_no_reading_is_refused() -> None:
    """There is nothing to judge."""
    with pytest.raises(QuantityProblem):
        watched([], GATES, None)
