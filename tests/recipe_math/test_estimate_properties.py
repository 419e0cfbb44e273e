"""What physics says of every pot: hotter in is hotter out, and later is cooler."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.recipe_math.cooling import Gate, fitted
from trainer.recipe_math.cooling_log import Shows, judged
from trainer.recipe_math.estimates import TimedReading
from trainer.recipe_math.heat import PURE_WATER, Composition, Ice, Part, density, heat_capacity, mixed
from trainer.recipe_math.lethality import HeatResistance, log_reduction
from trainer.recipe_math.tempering import YOLK, Pour, tempered
from trainer.recipe_math.thickness import guess_for_thickness

grams = st.floats(1, 10_000)
warmth = st.floats(0, 100)
minutes = st.floats(0.1, 10_000)
EGG_YOLK = Composition(water=52.31, protein=15.86, fat=26.54, carbohydrate=3.59, ash=1.71)


@given(grams, warmth, grams, warmth)
def test_a_mixture_lies_between_its_parts_whatever_their_order(a: float, hot: float, b: float, cold: float) -> None:
    """Heat flows from hot to cold; mixing one way round or the other is the same."""
    parts = [Part.of_food(EGG_YOLK, a, hot), Part.of_food(PURE_WATER, b, cold)]
    found = mixed(parts).celsius
    assert min(hot, cold) - 1e-9 <= found <= max(hot, cold) + 1e-9
    assert mixed(parts[::-1]).celsius == pytest.approx(found, abs=1e-6)


@given(grams, warmth, grams, st.floats(0, 50), st.floats(0.1, 50))
def test_a_hotter_part_makes_a_hotter_mixture(a: float, celsius: float, b: float, cool: float, more: float) -> None:
    """More heat in, more heat in the mixture; what is taken up balances what is given off."""
    egg = Part.of_food(EGG_YOLK, a, celsius)
    cooler, hotter = (Part.of_food(PURE_WATER, b, cool + extra) for extra in (0, more))
    found = mixed([egg, hotter]).celsius
    assert mixed([egg, cooler]).celsius <= found + 1e-9
    given_and_taken = egg.kilojoules_to(found) + hotter.kilojoules_to(found)
    assert given_and_taken == pytest.approx(0, abs=1e-6 * (a + b))


@given(grams, st.floats(1, 100), st.floats(1, 5_000), st.floats(1, 5_000))
def test_more_ice_never_makes_it_warmer(water: float, celsius: float, ice: float, more: float) -> None:
    """Nor does any ice leave it below 0 °C or above where it was."""
    drink = Part.of_food(PURE_WATER, water, celsius)
    less, colder = mixed([drink], Ice(ice)), mixed([drink], Ice(ice + more))
    assert 0 <= colder.celsius <= less.celsius + 1e-9 <= celsius + 1e-9
    assert 0 <= less.ice_left_grams <= colder.ice_left_grams


@given(st.floats(0, 99), st.floats(0.1, 1), warmth)
def test_more_water_takes_more_heat(water: float, more: float, celsius: float) -> None:
    """Water has the largest heat capacity of the components, fat the least density."""
    drier, wetter = (Composition(water=share, fat=100 - share) for share in (water, water + more))
    assert heat_capacity(drier, celsius) < heat_capacity(wetter, celsius)
    assert density(drier, celsius) < density(wetter, celsius)


@given(grams, st.floats(0, 40), st.floats(1, 1_000), st.floats(60, 100), st.floats(50, 500))
@settings(deadline=None)
def test_ladles_only_warm_and_never_reach_the_band(
    yolk: float, cold: float, water: float, hot: float, ladle: float
) -> None:
    """Each ladle is warmer than the last, and the base stays below where yolk thickens."""
    base, liquid = Part.of_food(EGG_YOLK, yolk, cold), Part.of_food(PURE_WATER, water, hot)
    done = tempered(base, liquid, Pour(ladle, until_celsius=60, margin_celsius=2), YOLK)
    seen = [cold, *(one.base_celsius for one in done.ladles)]
    assert seen == sorted(seen)
    assert done.base_celsius < YOLK.thickens_celsius - 2
    assert done.reached is (done.base_celsius >= 60)


@given(st.floats(30, 90), st.floats(1, 20), minutes, st.floats(0, 9))
def test_food_cools_along_the_curve_and_slower_in_warmer_surroundings(
    start: float, fall: float, after: float, around: float
) -> None:
    """Newton's law: later is cooler, a lower end is later, and a curve made from two of its own points is the same."""
    fit = fitted([TimedReading(0, start), TimedReading(after, start - fall)], around)
    late, early = (fit.minutes_until(end) for end in (start - fall, start - fall / 2))
    assert late is not None
    assert early is not None
    assert early < late == pytest.approx(after)
    again = fitted([TimedReading(at, fit.celsius_at(at)) for at in (after, after * 1.5)], around)
    assert again.rate_per_minute == pytest.approx(fit.rate_per_minute, rel=1e-4)


@given(st.lists(st.tuples(st.integers(1, 90), st.integers(0, 20)), min_size=1, max_size=12), st.integers(30, 300))
def test_more_time_never_turns_met_into_missed(steps: list[tuple[int, int]], limit: int) -> None:
    """What is met within a limit is met within a longer one; what is missed is missed within a shorter one."""
    log = [TimedReading(0, 60)]
    for wait, fall in steps:
        log.append(TimedReading(log[-1].minutes + wait, log[-1].celsius - fall))
    tight, loose = judged(log, [Gate(57, 21, limit, "a code"), Gate(57, 21, limit + 30, "a code")])
    if tight.shows is Shows.MET:
        assert loose.shows is Shows.MET
    if loose.shows is Shows.MISSED:
        assert tight.shows is Shows.MISSED
    if tight.at_most_minutes is not None:
        assert tight.at_least_minutes <= tight.at_most_minutes


@given(st.floats(0.01, 10), st.floats(3, 12), st.floats(50, 75), minutes)
def test_hotter_or_longer_kills_more(d_minutes: float, z: float, celsius: float, time: float) -> None:
    """One z warmer kills ten times as fast; twice the time gives twice the logs."""
    resistance = HeatResistance(d_minutes, 60, z, "any")
    logs = log_reduction(resistance, time, celsius).logs
    assert log_reduction(resistance, time, celsius + z).logs == pytest.approx(10 * logs)
    assert log_reduction(resistance, 2 * time, celsius).logs == pytest.approx(2 * logs)


@given(minutes, st.floats(1, 100), st.floats(1.001, 5))
def test_thicker_takes_longer(time: float, thickness: float, times: float) -> None:
    """And there and back is where it began."""
    longer = guess_for_thickness(time, thickness, thickness * times).minutes
    assert longer > time
    assert guess_for_thickness(longer, thickness * times, thickness).minutes == pytest.approx(time)
