"""A forecast of cooling is a window: what cools as physics has it lies inside, and nothing outside it is on course."""

from __future__ import annotations

from itertools import pairwise
from math import cos, exp, log

import pytest
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp

from tests.printed import english
from trainer.recipe_math.cooling import Gate
from trainer.recipe_math.cooling_forecast import Expected, forecasts
from trainer.recipe_math.cooling_window import CoolingPan, Window, vapour_kpa, window
from trainer.recipe_math.estimates import TimedReading
from trainer.recipe_math.quantity import QuantityProblem

STAGE_ONE, IN_ALL = Gate(57.2222, 21.1111, 120, "a code"), Gate(57.2222, 5, 360, "a code")
THIN = CoolingPan(depth_millimetres=50, is_open=False, is_stirred=True)


def kilopascals(celsius: float) -> float:
    """Return the pressure of saturated vapour by another library."""
    return float(PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water")) / 1000


def cooled(around: float, power: float, open_share: float, rate: float = 0.01) -> list[tuple[float, float]]:
    """Return how food cools from 60 °C, a minute a point, by another integrator and another library's steam.

    Radiation and air each take half at a gap of 50 °C, the air with a power of the gap; *open_share* of what the air
    takes leaves from a wet surface that steams.
    """

    def slope(_: float, state: list[float]) -> list[float]:
        gap = max(state[0] - around, 1e-6)
        air = 0.5 * gap * (gap / 50) ** power
        steam = (kilopascals(state[0]) - kilopascals(around)) / (0.0674 * gap)
        return [-rate * (0.5 * gap + air * (1 + open_share * steam))]

    found = solve_ivp(slope, (0, 900), [60.0], dense_output=True, rtol=1e-8)
    return [(float(at), float(found.sol(at)[0])) for at in range(901)]


def met(course: list[tuple[float, float]], celsius: float) -> float:
    """Return when a course comes to a temperature, between two of its minutes."""
    for (at, warm), (_, cool) in pairwise(course):
        if cool <= celsius:
            return at + (warm - celsius) / (warm - cool)
    raise AssertionError(celsius)


@pytest.mark.parametrize("celsius", [1, 5, 21, 40, 57, 75, 95])
def test_the_vapour_pressure_is_that_of_water(celsius: float) -> None:
    """IAPWS-95 in CoolProp 8.0.0; the equation of FAO Irrigation and Drainage Paper 56 is within 1 percent of it."""
    assert vapour_kpa(celsius) == pytest.approx(kilopascals(celsius), rel=0.01)


@pytest.mark.parametrize("around", [1.0, 3.3])
@pytest.mark.parametrize(
    ("power", "open_share"),
    [(0.0, 0.0), (0.25, 0.0), (0.25, 0.25), (0.25, 0.45), (0.0, 0.3)],
    ids=["moved air", "still air, lid", "half open", "open", "open, moved air"],
)
@pytest.mark.parametrize("second", [15, 40])
def test_food_that_cools_by_air_radiation_and_steam_comes_within_the_window(
    around: float, power: float, open_share: float, second: int
) -> None:
    """Early readings, then the rest as integrated by scipy: 70 °F and 45 °F come inside the window of an open pan."""
    course = cooled(around, power, open_share)
    readings = [TimedReading(at, course[at][1]) for at in (0, second)]
    pan = CoolingPan(50, is_open=open_share > 0, is_stirred=True)
    for celsius in (21.1111, 7.2222):
        found = window(readings, around, celsius, pan)
        assert found.earliest is not None
        assert found.latest is not None
        assert found.earliest <= met(course, celsius) <= found.latest, (celsius, found)


def test_an_open_pan_that_is_a_tenth_slower_than_its_first_curve_is_inside() -> None:
    """By Newton's law ln(54/17.8)/rate after two readings; real stock in an open pan took 10 percent longer."""
    readings = [TimedReading(0, 60), TimedReading(20, 52)]
    rate = log(57 / 49) / 20
    curve = log(57 / (21.1111 - 3)) / rate
    found = window(readings, 3, 21.1111, CoolingPan())
    assert (found.earliest or 0) < curve < 1.1 * curve < (found.latest or 0)


def test_a_lid_and_a_spoon_make_the_window_narrower() -> None:
    """Without steam nothing falls off with it; stirred food has no late middle; shallow food a less late one."""
    readings = [TimedReading(0, 60), TimedReading(30, 45)]
    widest, lidded, stirred = (
        window(readings, 3, 21, pan) for pan in (CoolingPan(), CoolingPan(is_open=False), CoolingPan(is_stirred=True))
    )
    shallow = window(readings, 3, 21, CoolingPan(depth_millimetres=25))
    assert widest.earliest == lidded.earliest == stirred.earliest == shallow.earliest
    assert all((found.latest or 0) < (widest.latest or 0) for found in (lidded, stirred, shallow))


@pytest.mark.parametrize(("half_depth", "minutes_to_half"), [(25, 35), (50, 120)])
def test_the_middle_comes_later_as_heat_is_led_through_a_slab(half_depth: int, minutes_to_half: int) -> None:
    """Finite differences of the heat equation, apart from this program: the lag between half way and the middle.

    Diffusivity 0.14 mm²/s; the face loses heat in proportion to its own gap, so that the gap halves in so long.
    """
    cells, rate = 40, log(2) / minutes_to_half
    width = half_depth / cells
    angle = half_depth * (rate / 8.4) ** 0.5
    biot = angle * (1 - cos(angle) ** 2) ** 0.5 / cos(angle)
    gaps = [1.0] * (cells + 1)  # from the middle to the face
    step = 0.4 * width**2 / 8.4
    half_way, middle, at = 0.0, 0.0, 0.0
    while not middle:
        inner = [gaps[1], *gaps[:-1]]
        outer = [*gaps[1:], gaps[-2] - 2 * width * biot / half_depth * gaps[-1]]
        gaps = [gap + 0.4 * (a - 2 * gap + b) for gap, a, b in zip(gaps, inner, outer, strict=True)]
        at += step
        half_way = half_way or (at if gaps[cells // 2] <= 0.3 else 0.0)
        middle = at if gaps[0] <= 0.3 else 0.0
    readings = [TimedReading(0, 1000.5), TimedReading(minutes_to_half, 499.5)]
    left, stirred = (window(readings, 0, 100, CoolingPan(2 * half_depth, False, moved)) for moved in (False, True))
    assert (left.latest or 0) - (stirred.latest or 0) == pytest.approx(middle - half_way, rel=0.05)


def test_the_earliest_is_by_the_law_of_newton() -> None:
    """By hand: 60.5 to 44.5 °C over 3 °C in 30 min, on from 44.5 °C to 21 °C: ln(41.5/18) / (ln(57.5/41.5)/30) + 30."""
    found = window([TimedReading(0, 60), TimedReading(30, 45)], 3, 21, THIN)
    assert found.earliest == pytest.approx(30 + log(41.5 / 18) / (log(57.5 / 41.5) / 30), rel=1e-6)


def test_two_readings_a_degree_apart_give_no_latest() -> None:
    """Each may be half a degree off: the food may not have cooled at all."""
    found = window([TimedReading(0, 57), TimedReading(5, 56)], 3, 21, THIN)
    assert found.earliest is not None
    assert found.latest is None


@pytest.mark.parametrize(
    ("readings", "around"),
    [([TimedReading(0, 57)], 3.0), ([TimedReading(0, 57), TimedReading(9, 40)], 21.0),
     ([TimedReading(0, 57), TimedReading(9, 40)], 45.0)],
)  # fmt: skip
def test_without_two_readings_above_the_cold_around_nothing_can_be_said(
    readings: list[TimedReading], around: float
) -> None:
    """One reading shows no pace, and food does not cool below what is around it."""
    assert window(readings, around, 21, THIN) == Window(None, None)


def test_the_last_stretch_counts_where_it_fell_far_enough() -> None:
    """A lid put on after an hour slows the food: the latest goes by the slower stretch, the earliest by the faster."""
    slowed = [TimedReading(0, 60), TimedReading(30, 40), TimedReading(60, 34)]
    found = window(slowed, 3, 21, THIN)
    newton_last = 60 + log(31 / 18) / (log(37 / 31) / 30)
    newton_all = 60 + log(31 / 18) / (log(57 / 31) / 60)
    assert (found.earliest or 0) < newton_all < newton_last < (found.latest or 0)


def outlook(readings: list[TimedReading], around: float, pan: CoolingPan = THIN) -> list[Expected]:
    return [found.expected for found in forecasts(readings, around, (STAGE_ONE, IN_ALL), pan)]


def test_the_first_gate_in_time_says_nothing_about_the_second() -> None:
    """Newton's law by hand: 135 to 70 °F in exactly 2 h in 38 °F gets to 41 °F only after 6.269 h: over 6 h."""
    log_so_far = [TimedReading(0, 57.2222), TimedReading(120, 21.1111)]
    assert outlook(log_so_far, 3.3333)[1] is Expected.LATE


def test_what_the_window_does_not_settle_is_open() -> None:
    """Newton's law says 110 min to 70 °F, in time; the latest is over 2 hours, so it is not."""
    rate = log(54.2222 / 18.1111) / 110
    readings = [TimedReading(at, 3 + 54.2222 * exp(-rate * at)) for at in (0, 30)]
    assert outlook(readings, 3, CoolingPan())[0] is Expected.OPEN


def test_food_that_cools_fast_is_in_time_at_the_latest_too() -> None:
    """A gap that falls by 3 percent a minute: 70 °F after about 34 min, by hand; the window ends well before 2 h."""
    readings = [TimedReading(at, 1 + 57 * exp(-0.03 * at)) for at in (0, 5, 10)]
    assert outlook(readings, 1) == [Expected.IN_TIME, Expected.IN_TIME]


def test_a_room_warmer_than_the_gate_is_never_cold_enough() -> None:
    """In 72 °F (22.2 °C) no food gets to 70 °F."""
    assert outlook([TimedReading(0, 57.3), TimedReading(60, 38)], 22.2) == [Expected.NEVER, Expected.NEVER]


def test_the_clock_begins_between_the_readings_around_the_first_temperature() -> None:
    """From 60 °C at 0 to 50 °C at 20 min: in all, the earliest counts from the 20th minute, the latest from 0."""
    (found, _) = forecasts([TimedReading(0, 60), TimedReading(20, 50)], 3, (STAGE_ONE, IN_ALL), THIN)
    assert found.in_all == Window((found.at.earliest or 0) - 20, found.at.latest)


def test_a_clock_still_to_begin_is_forecast_too() -> None:
    """Food above 135 °F has its beginning still to come, and its window counts from there."""
    (found, _) = forecasts([TimedReading(0, 80), TimedReading(10, 70)], 3, (STAGE_ONE, IN_ALL), THIN)
    assert 0 < (found.in_all.earliest or 0) < (found.at.earliest or 0) - 10


def test_food_made_cold_counts_from_its_first_reading() -> None:
    """FDA Food Code 2022, section 3-501.14(B): four hours from when it is made."""
    gate = Gate(None, 5, 240, "a code")
    (found,) = forecasts([TimedReading(30, 20), TimedReading(60, 14)], 1, (gate,), THIN)
    assert found.in_all == Window((found.at.earliest or 0) - 30, (found.at.latest or 0) - 30)


def test_a_forecast_names_what_it_does_not_know() -> None:
    """The surroundings, the middle of the food, what changes on the way; and readings are in order (else refused)."""
    (found, _) = forecasts([TimedReading(0, 60), TimedReading(20, 50)], 3, (STAGE_ONE, IN_ALL), THIN)
    assert any("middle of the food" in english(unknown) for unknown in found.not_known)
    with pytest.raises(QuantityProblem, match="does not follow"):
        forecasts([TimedReading(9, 60), TimedReading(0, 50)], 3, (STAGE_ONE,), THIN)
    with pytest.raises(QuantityProblem, match="depth in millimetres"):
        CoolingPan(depth_millimetres=0)
