"""Every unit is exactly what the standard says, and shared names never mix systems."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest

from tests.printed import english
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import THINGS, UNITS, UnknownUnit, names_in, unit, word_of

UCUM = [
    ("qt", "946.352946"),
    ("pt", "473.176473"),
    ("gill", "118.29411825"),
    ("cup", "236.5882365"),
    ("fl oz", "29.5735295625"),
    ("Tbsp", "14.78676478125"),
    ("tsp", "4.92892159375"),
    ("gal", "3785.411784"),
    ("dry pt", "550.6104713575"),
    ("dry qt", "1101.220942715"),
    ("imperial gal", "4546.09"),
    ("imperial pt", "568.26125"),
    ("imperial fl oz", "28.4130625"),
    ("lb", "453.59237"),
    ("oz", "28.349523125"),
    ("grain", "0.06479891"),
    ("in", "25.4"),
    ("ft", "304.8"),
    ("cu in", "16.387064"),
]


@pytest.mark.parametrize(("symbol", "base"), UCUM)
def test_a_unit_is_exactly_its_definition(symbol: str, base: str) -> None:
    """Unified Code for Units of Measure, ucum-essence.xml; NIST Special Publication 811, Appendix B.8."""
    assert UNITS[symbol].factor == Fraction(base)


PINT_NAMES = {
    "gal": "gallon", "qt": "quart", "pt": "pint", "cup": "cup", "gill": "gill", "fl oz": "fluid_ounce",
    "Tbsp": "tablespoon", "tsp": "teaspoon", "dry pt": "dry_pint", "dry qt": "dry_quart",
    "imperial gal": "imperial_gallon", "imperial qt": "imperial_quart", "imperial pt": "imperial_pint",
    "imperial fl oz": "imperial_fluid_ounce", "imperial gill": "imperial_gill",
    "lb": "pound", "oz": "ounce", "grain": "grain",
    "in": "inch", "ft": "foot", "cu in": "inch ** 3", "mL": "milliliter", "L": "liter", "cL": "centiliter",
    "kg": "kilogram", "mg": "milligram", "cm": "centimeter", "m": "meter", "min": "minute", "h": "hour", "days": "day",
}  # fmt: skip
BASES = {"mass": "gram", "volume": "milliliter", "length": "millimeter", "duration": "second"}


@pytest.fixture(scope="module")
def outside() -> pint.UnitRegistry[Fraction]:
    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=None)


@pytest.mark.parametrize("symbol", PINT_NAMES)
def test_a_unit_agrees_with_an_outside_library_to_the_last_digit(
    symbol: str, outside: pint.UnitRegistry[Fraction]
) -> None:
    """The library is pint, computing in fractions."""
    one = outside.Quantity(Fraction(1), PINT_NAMES[symbol])
    assert UNITS[symbol].factor == one.to(BASES[UNITS[symbol].dimension]).magnitude


@pytest.mark.parametrize(
    ("symbol", "base"),
    [("label cup", 240), ("label Tbsp", 15), ("label tsp", 5), ("label fl oz", 30), ("label oz", 28)],
)
def test_label_measures_are_the_rounded_ones_of_the_law(symbol: str, base: int) -> None:
    """21 CFR 101.9(b)(5)(viii)."""
    assert UNITS[symbol].factor == base
    assert UNITS[symbol].system == "us_label"


TEMPERATURES = [
    ("212", "100"),
    ("32", "0"),
    ("392", "200"),
    ("68", "20"),
    ("37.4", "3"),
    ("64.4", "18"),
    ("-40", "-40"),
    ("350", "530/3"),  # 176.67: the formula by hand
    ("135", "515/9"),  # 57.22
]


@pytest.mark.parametrize(("fahrenheit", "celsius"), TEMPERATURES)
def test_temperatures_convert_with_the_offset(fahrenheit: str, celsius: str) -> None:
    """NIST SP 811 Appendix B.8; 392, 68 and 37.4 °F are examples of OpenStax, Contemporary Mathematics, section 9.5."""
    assert Quantity.of(fahrenheit, "°F").to("°C").amount == Fraction(celsius)
    assert Quantity.of(celsius, "°C").to("°F").amount == Fraction(fahrenheit)


def test_a_difference_of_temperatures_has_no_offset() -> None:
    """Ten Fahrenheit degrees are 50/9 Celsius degrees (NIST SP 811, Appendix B.8)."""
    assert Quantity.of(10, "°F difference").to("°C difference").amount == Fraction(50, 9)


PRINTED = [
    ("1", "cup", "48", "tsp", "0"),
    ("2000", "mL", "2", "L", "0"),  # 8 x 250 mL
    ("2400", "g", "2.4", "kg", "0"),  # 6 x 400 g
    ("4", "qt", "3.8", "L", "0.05"),
]


@pytest.mark.parametrize(("amount", "unit_from", "printed", "unit_to", "off"), PRINTED)
def test_a_textbooks_conversions_come_out_as_printed(
    amount: str, unit_from: str, printed: str, unit_to: str, off: str
) -> None:
    """OpenStax, Prealgebra 2e, section 7.5, each to its last figure."""
    found = Quantity.of(amount, unit_from).to(unit_to).amount
    assert abs(found - Fraction(printed)) <= Fraction(off)


def test_a_book_that_takes_thirty_millilitres_to_the_ounce_says_the_labels() -> None:
    """OpenStax, Prealgebra 2e, section 7.5: 500 mL is 16.7 fl oz: with the ounce of a label, not with the exact one."""
    half_litre = Quantity.of(500, "mL")
    assert abs(half_litre.to("label fl oz").amount - Fraction("16.7")) < Fraction("0.05")
    assert abs(half_litre.to("fl oz").amount - Fraction("16.907")) < Fraction("0.0005")


@pytest.mark.parametrize("system", ["us", "us_label", "imperial"])
def test_a_shared_name_means_the_measure_of_its_system_or_nothing(system: str) -> None:
    """A cup of one system is never lent to another."""
    own = {"us": "us_exact", "us_label": "us_label", "imperial": "imperial"}[system]
    for name in ("cup", "pint", "fl oz", "gallon", "teaspoon"):
        found = names_in(system).get(name)
        assert found is None or found.system == own
    assert names_in(system)["imperial pint"].system == "imperial"
    assert names_in(system)["label cup"].system == "us_label"
    assert names_in(system)["US cup"].system == "us_exact"


def test_an_ounce_of_weight_is_one_size_but_on_a_label() -> None:
    """Avoirdupois everywhere; 28 g on a US label (21 CFR 101.9(b)(5)(viii))."""
    assert unit("oz", "imperial") is unit("oz") is UNITS["oz"]
    assert unit("oz", "us_label").factor == 28


def test_capitals_matter_only_where_they_tell_units_apart() -> None:
    """Common practice: T is a tablespoon, t a teaspoon; TBSP and tbsp are the same."""
    assert unit("T").symbol == "Tbsp"
    assert unit("t").symbol == "tsp"
    assert unit("c").symbol == "cup"
    assert unit("C").symbol == "°C"
    assert unit("TBSP") is unit("Tbsp") is unit("tbsp.")
    for name in ("M", "G", "Mg", "metric cup", "thingummy"):
        with pytest.raises(UnknownUnit, match=name):
            unit(name)


def test_every_symbol_and_its_plural_are_names_of_the_unit() -> None:
    """What is printed can be read back."""
    for symbol, made in UNITS.items():
        assert unit(symbol) is made
    for thing in THINGS:
        assert unit(english(word_of(thing, 2))) is unit(thing)
