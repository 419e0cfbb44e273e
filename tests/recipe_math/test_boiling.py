"""Water boils where the steam tables say, lower with altitude and hardly higher with salt."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI

from trainer.recipe_math.boiling import (
    BOILING_CONSTANT,
    FREEZING_CONSTANT,
    SALT_PARTICLES,
    boiling_at,
    boiling_celsius,
    moved,
    pressure_to_boil_at,
    salt_raises_boiling,
)
from trainer.recipe_math.quantity import QuantityProblem

FOOT = 0.3048


def in_fahrenheit(celsius: float) -> float:
    return celsius * 9 / 5 + 32


@pytest.mark.parametrize(("feet", "degrees"), [(2000, 208.4), (5000, 203), (6000, 201.1), (8000, 197.4)])
def test_the_published_altitude_table_is_met(feet: int, degrees: float) -> None:
    """Published table of the boiling point of pure water at altitude (credits NOAA): within half a degree F."""
    assert in_fahrenheit(boiling_at(feet * FOOT).celsius) == pytest.approx(degrees, abs=0.5)


@pytest.mark.parametrize(
    ("feet", "degrees"),
    [(1000, 210.13), (2000, 208.31), (5000, 202.83), (6000, 201.00), (8000, 197.33), (10_000, 193.66), (12_000, 189.98),
     (14_000, 186.30)],
)  # fmt: skip
def test_the_standard_atmosphere_and_the_steam_tables_agree(feet: int, degrees: float) -> None:
    """ICAO standard atmosphere with IAPWS-IF97 saturation, worked out with another library (iapws 1.5.5)."""
    assert in_fahrenheit(boiling_at(feet * FOOT).celsius) == pytest.approx(degrees, abs=0.006)


def test_water_in_a_high_town() -> None:
    """OpenStax Chemistry 2e, section 10.3: at 68 kPa, 10,200 ft, about 90 °C (read from a graph)."""
    assert boiling_celsius(68_000) == pytest.approx(90, abs=1)
    assert boiling_at(10_200 * FOOT).celsius == pytest.approx(90, abs=1)


@pytest.mark.parametrize(("celsius", "pascals", "off"), [(120.0, 1.99e5, 500), (70.0, 3.12e4, 100)])
def test_the_pressure_that_lets_water_boil(celsius: float, pascals: float, off: float) -> None:
    """OpenStax College Physics 2e, section 13.6: 1.99e5 Pa in a pressure cooker at 120 °C, 3.12e4 Pa for 70 °C."""
    assert pressure_to_boil_at(celsius) == pytest.approx(pascals, abs=off)


@pytest.mark.parametrize(("kelvin", "megapascals"), [(300, 0.353658941e-2), (500, 0.263889776e1), (600, 0.123443146e2)])
def test_the_saturation_pressure_is_that_of_the_verification_table(kelvin: float, megapascals: float) -> None:
    """IAPWS R7-97(2012), Table 35, to the nine digits printed."""
    assert pressure_to_boil_at(kelvin - 273.15) == pytest.approx(megapascals * 1e6, rel=2e-9)


@pytest.mark.parametrize(("megapascals", "kelvin"), [(0.1, 372.755919), (1, 453.035632), (10, 584.149488)])
def test_the_saturation_temperature_is_that_of_the_verification_table(megapascals: float, kelvin: float) -> None:
    """IAPWS R7-97(2012), Table 36, to the nine digits printed."""
    assert boiling_celsius(megapascals * 1e6) == pytest.approx(kelvin - 273.15, abs=1e-6)


@pytest.mark.parametrize("pascals", [2_000, 31_200, 68_000, 101_325, 199_000, 1_000_000])
def test_another_library_boils_water_at_the_same_heat(pascals: float) -> None:
    """CoolProp 8.0.0, IF97::Water and, within 0.01 °C, IAPWS-95."""
    found = boiling_celsius(pascals)
    assert found == pytest.approx(PropsSI("T", "P", pascals, "Q", 0, "IF97::Water") - 273.15, abs=1e-6)
    assert found == pytest.approx(PropsSI("T", "P", pascals, "Q", 0, "Water") - 273.15, abs=0.01)


def test_both_ways_meet() -> None:
    """Boiling under the pressure for 95 °C is at 95 °C."""
    assert boiling_celsius(pressure_to_boil_at(95)) == pytest.approx(95, abs=1e-7)


def test_the_weather_is_not_known() -> None:
    """The standard atmosphere is not today's."""
    assert any("weather" in unknown for unknown in boiling_at(0).not_known)
    assert boiling_at(0).pascals == 101_325


@pytest.mark.parametrize(("grams", "celsius"), [(7, 0.117), (10, 0.166)])
def test_salting_does_not_make_water_boil_hot(grams: float, celsius: float) -> None:
    """Particles x Kb x m with 1.9 and 0.512 (OpenStax Chemistry 2e, 11.4), salt in 1 kg of water: under 0.2 °C."""
    assert salt_raises_boiling(grams, 1000) == pytest.approx(celsius, abs=0.005)


def test_the_constants_are_those_of_the_text() -> None:
    """OpenStax Chemistry 2e, section 11.4, tables: Kb 0.512, Kf 1.86 °C/m; salt measured at 0.05 m, 1.9 particles."""
    assert (BOILING_CONSTANT, FREEZING_CONSTANT, SALT_PARTICLES) == (0.512, 1.86, 1.9)


def test_something_that_stays_whole_moves_the_boiling_point_once() -> None:
    """OpenStax Chemistry 2e, section 11.4: 1.0 g of glycerin (92.09 g/mol) in 47.8 g of water boils at 100.12 °C."""
    assert 100 + moved(BOILING_CONSTANT, 1.0 / 92.09, 47.8) == pytest.approx(100.12, abs=0.005)


def test_salt_lowers_the_freezing_point_more() -> None:
    """OpenStax Chemistry 2e, section 11.4: 1.0 mol of salt to a kilogram, two particles: 3.7 °C."""
    assert moved(FREEZING_CONSTANT, 2 * 1.0, 1000) == pytest.approx(3.7, abs=0.05)


def test_out_of_range_is_refused_and_named() -> None:
    """Heights, pressures and temperatures the formulas do not hold for, and weights that cannot be."""
    for metres in (-1001, 11_001, float("nan")):
        with pytest.raises(QuantityProblem, match=r"altitude|outside the standard atmosphere"):
            boiling_at(metres)
    for pascals in (600, 23e6):
        with pytest.raises(QuantityProblem, match="outside the saturation line"):
            boiling_celsius(pascals)
    for celsius in (-1, 374):
        with pytest.raises(QuantityProblem, match="outside the saturation line"):
            pressure_to_boil_at(celsius)
    with pytest.raises(QuantityProblem, match="mol is not possible"):
        salt_raises_boiling(-1, 1000)
    with pytest.raises(QuantityProblem, match="weight of water"):
        salt_raises_boiling(1, 0)
