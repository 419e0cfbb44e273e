"""Where water boils: by pressure, by altitude, and with salt in it: an estimate, in floats.

Caution: boiling water and steam burn. Higher up, water boils cooler and food takes longer: a recipe's minutes do not
carry over, and a code's cooking temperatures stay as they are.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from trainer.recipe_math.estimates import above_zero, finite
from trainer.recipe_math.quantity import QuantityProblem

SEA_LEVEL_PASCALS = 101_325
BOILING_CONSTANT = 0.512
"""°C for one mole of particles in a kilogram of water: OpenStax Chemistry 2e, section 11.4."""
FREEZING_CONSTANT = 1.86
"""The same for freezing: OpenStax Chemistry 2e, section 11.4."""
SALT_GRAMS_A_MOLE = 58.44
SALT_PARTICLES = 1.9
"""Particles a unit of salt gives in water, as measured at 0.05 mol/kg; 2 in theory. OpenStax Chemistry 2e, 11.4."""
LOWEST_METRES, HIGHEST_METRES = -1_000, 11_000
_N = (
    1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333,
    14.91510861353, -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798,
)  # fmt: skip
"""IAPWS R7-97(2012), Table 34: the coefficients of the saturation line."""
_ZERO_CELSIUS_KELVIN = 273.15
_LOWEST_PASCALS, _HIGHEST_PASCALS = 611.213, 22_064_000
_COLDEST, _HOTTEST = 0, 373.946


@dataclass(frozen=True, slots=True)
class Boiling:
    """Where water boils at an altitude, in celsius; the standard pressure there, in pascals; what is not known."""

    celsius: float
    pascals: float
    not_known: tuple[str, ...]


def boiling_at(metres: float) -> Boiling:
    """Return where pure water boils at an altitude, in the standard atmosphere.

    From 1,000 m below the sea to 11,000 m above it (QuantityProblem). Source: ICAO standard atmosphere, and the
    saturation line of IAPWS R7-97(2012).

    >>> round(boiling_at(1609).celsius, 1)
    94.6
    """
    pascals = standard_pascals(metres)
    not_known = ("the weather: a deep low takes off about a degree, a high adds about half", "a lid under pressure")
    return Boiling(boiling_celsius(pascals), pascals, not_known)


def standard_pascals(metres: float) -> float:
    """Return the pressure of the standard atmosphere at an altitude, in pascals; limits as `boiling_at`.

    >>> round(standard_pascals(0))
    101325
    """
    if not LOWEST_METRES <= finite(metres, "an altitude in metres") <= HIGHEST_METRES:
        raise QuantityProblem(f"{metres:g} m is outside the standard atmosphere used: -1,000 to 11,000 m.")
    return float(SEA_LEVEL_PASCALS * (1 - 2.25577e-5 * metres) ** 5.25588)


def boiling_celsius(pascals: float) -> float:
    """Return where pure water boils under a pressure, in celsius.

    From 611.213 Pa to 22.064 MPa (QuantityProblem). Source: IAPWS R7-97(2012), equation 31.

    >>> round(boiling_celsius(101_325), 2)
    99.97
    """
    if not _LOWEST_PASCALS <= finite(pascals, "a pressure in pascals") <= _HIGHEST_PASCALS:
        raise QuantityProblem(f"{pascals:g} Pa is outside the saturation line: 611.213 Pa to 22.064 MPa.")
    beta = (pascals / 1e6) ** 0.25
    e = beta**2 + _N[2] * beta + _N[5]
    f = _N[0] * beta**2 + _N[3] * beta + _N[6]
    g = _N[1] * beta**2 + _N[4] * beta + _N[7]
    d = 2 * g / (-f - sqrt(f * f - 4 * e * g))
    kelvin = (_N[9] + d - sqrt((_N[9] + d) ** 2 - 4 * (_N[8] + _N[9] * d))) / 2
    return float(kelvin - _ZERO_CELSIUS_KELVIN)


def pressure_to_boil_at(celsius: float) -> float:
    """Return the pressure under which pure water boils at a temperature, in pascals.

    From 0 to 373.946 °C (QuantityProblem). Source: IAPWS R7-97(2012), equation 30.

    >>> round(pressure_to_boil_at(120), -2)
    198700.0
    """
    if not _COLDEST <= finite(celsius, "a temperature in celsius") <= _HOTTEST:
        raise QuantityProblem(f"{celsius:g} °C is outside the saturation line: 0 to 373.946 °C.")
    kelvin = celsius + _ZERO_CELSIUS_KELVIN
    theta = kelvin + _N[8] / (kelvin - _N[9])
    a = theta**2 + _N[0] * theta + _N[1]
    b = _N[2] * theta**2 + _N[3] * theta + _N[4]
    c = _N[5] * theta**2 + _N[6] * theta + _N[7]
    return float((2 * c / (-b + sqrt(b * b - 4 * a * c))) ** 4 * 1e6)


def salt_raises_boiling(salt_grams: float, water_grams: float) -> float:
    """Return by how many celsius salt raises the boiling point of water.

    The salt is per water, not per brine; the 10 g in a kilogram that pasta water takes raise it by less than 0.2 °C, so
    salting does not make water boil hot. Weights as `moved`. Source: OpenStax Chemistry 2e, section 11.4.

    >>> round(salt_raises_boiling(10, 1000), 2)
    0.17
    """
    return moved(BOILING_CONSTANT, SALT_PARTICLES * salt_grams / SALT_GRAMS_A_MOLE, water_grams)


def moved(constant: float, particle_moles: float, water_grams: float) -> float:
    """Return by how many celsius something dissolved moves the boiling (up) or freezing (down) point of water.

    Constant x moles of particles / kilograms of water. For thin solutions; a syrup or strong brine is moved further.
    Moles zero or more, water above zero (QuantityProblem). Source: OpenStax Chemistry 2e, section 11.4.

    >>> round(moved(FREEZING_CONSTANT, 2.0, 1000), 2)
    3.72
    """
    if finite(particle_moles, "an amount in moles") < 0:
        raise QuantityProblem(f"{particle_moles:g} mol is not possible: zero or more is dissolved.")
    return constant * particle_moles / (above_zero(water_grams, "a weight of water in grams") / 1000)
