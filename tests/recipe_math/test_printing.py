"""Quantities are printed as cooks read them, with the rounding the module states."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.printed import english
from trainer.recipe_math.figures import is_short_decimal
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.printing import as_given, both_ways, cascade, fraction_text, number_text, written
from trainer.recipe_math.quantity import Quantity, WrongDimension


def of(text: str) -> Quantity:
    return parse_quantity(text, decimal_mark=".")


def test_the_card_writes_435_pounds_as_pounds_and_half_ounces() -> None:
    """Armed Forces Recipe Service, General Information No. 1: 1 lb 4 oz x 3.48 = 4.35 lb, 5.60 oz = 5 1/2 oz."""
    assert english(written(of("1 lb 4 oz") * Fraction("3.48"), "us")) == "4 lb 5 1/2 oz"


CARD_OUNCES = [("5.12", "5"), ("5.13", "5 1/4"), ("5.37", "5 1/4"), ("5.38", "5 1/2"), ("5.62", "5 1/2"),
               ("5.63", "5 3/4"), ("5.87", "5 3/4"), ("5.88", "6"), ("5.99", "6")]  # fmt: skip


@pytest.mark.parametrize(("ounces", "card"), CARD_OUNCES)
def test_ounces_round_to_quarters_as_on_the_card(ounces: str, card: str) -> None:
    """Armed Forces Recipe Service, card 1(2), rounding scale: .00-.12, .13-.37, .38-.62, .63-.87, .88-.99."""
    assert english(written(Quantity.of(ounces, "oz"), "us")) == f"{card} oz"


def test_an_ounce_half_way_between_quarters_goes_up() -> None:
    """The card leaves .125 open; the house rule is up."""
    assert english(written(of("5.125 oz"), "us")) == "5 1/4 oz"


def test_a_volume_is_poured_down_the_measures_of_the_card() -> None:
    """US Navy training manual NAVEDTRA 14163, p. 110: 6 gal x 3.33 = 19.98 gal."""
    assert cascade(of("6 gal") * Fraction("3.33")) == "19 gal 3 qt 1 pt 1 c 10 Tbsp 2 3/4 tsp"


def test_a_cascade_carries_over_and_leaves_out_what_is_nothing() -> None:
    """15.99 oz round to a pound; nothing at all is nothing of the last measure."""
    assert cascade(of("2 lb 15.99 oz"), ("lb", "oz")) == "3 lb"
    assert cascade(of("0 lb"), ("lb", "oz")) == "0 oz"
    with pytest.raises(WrongDimension):
        cascade(of("1 lb"))


US = [
    ("4.5 oz", "4 1/2 oz"),
    ("0.2 oz", "0.2 oz"),
    ("1.75 oz", "1 3/4 oz"),
    ("1.6 oz", "1.6 oz"),
    ("2.1 oz", "2 oz"),
    ("0 g", "0 oz"),
    ("2 1/2 cups", "2 1/2 cups"),
    ("1 cup", "1 cup"),
    ("1/3 cup", "1/3 cup"),
    ("16 T", "1 cup"),
    ("38.25 cups", "2 gal 1 qt 2 1/4 cups"),
    ("1.4 cups", "1 cup 6 Tbsp 1 1/4 tsp"),
    ("4.4 cups", "1 qt 6 Tbsp 1 1/4 tsp"),
    ("5 1/16 cups", "1 qt 1 cup 1 Tbsp"),
    ("2 T", "2 Tbsp"),
    ("3/8 tsp", "3/8 tsp"),
    ("1 gal", "1 gal"),
    ("1 1/2 qt", "1 1/2 qt"),
    ("5 qt", "5 qt"),
    ("5 cups", "5 cups"),
    ("20 cups", "5 qt"),
    ("20 1/4 cups", "1 gal 1 qt 1/4 cup"),
    ("17 cups", "1 gal 1 cup"),
    ("135 °F", "135 °F"),
    ("57 °C", "135 °F"),
    ("1 °C difference", "1.8 °F difference"),
    ("3 mm", "1/8 in"),
    ("1 mm", "0.04 in"),
    ("6 cm", "2 3/8 in"),
    ("1 label cup", "1 label cup"),
    ("2 label cups", "2 label cups"),
]


@pytest.mark.parametrize(("text", "shown"), US)
def test_us_writing(text: str, shown: str) -> None:
    """Pounds and ounces, cups and spoons, Fahrenheit, inches; conversions by the exact factors of UCUM, by hand."""
    assert english(written(of(text), "us")) == shown


METRIC = [
    ("1250 g", "1.25 kg"),
    ("5 t", "25 mL"),
    ("1 lb", "454 g"),
    ("0.25 g", "0.25 g"),
    ("1/3 g", "0.33 g"),
    ("5.67 g", "5.7 g"),
    ("9.96 g", "10 g"),
    ("999.6 g", "1 kg"),
    ("5000 g", "5 kg"),
    ("12.347 kg", "12.35 kg"),
    ("2 1/2 cups", "591 mL"),
    ("1 gal", "3.785 L"),
    ("1 label cup", "240 mL"),
    ("135 °F", "57 °C"),
    ("-0.4 °C", "0 °C"),
    ("10 °F difference", "5.6 °C difference"),
    ("1/8 in", "3.2 mm"),
    ("2 1/2 in", "64 mm"),
    ("12 in", "30.5 cm"),
    ("90 s", "1 min 30 s"),
    ("59.96 s", "1 min"),
    ("1.5 s", "1.5 s"),
    ("1 1/2 h", "1 h 30 min"),
    ("30 h", "30 h"),
    ("48 h", "48 h"),
    ("2 days", "2 days"),
    ("72 h", "3 days"),
    ("7 days", "7 days"),
    ("$4.5", "$4.50"),
    ("$11.1333", "$11.13"),
    ("450 ¢", "$4.50"),
    ("€4.05", "€4.05"),
    ("1 can", "1 can"),
    ("28 cans", "28 cans"),
    ("27.6 cans", "27.6 cans"),
    ("2 boxes", "2 boxes"),
    ("1 1/2 dozen", "1 1/2 dozen"),
    ("2 (14.5 oz) cans", "2 (14.5 oz) cans"),
    ("57.5 %", "57.5 %"),
]


@pytest.mark.parametrize(("text", "shown"), METRIC)
def test_metric_writing(text: str, shown: str) -> None:
    """Grams and kilograms, millilitres and litres, Celsius, millimetres; and what reads the same everywhere."""
    assert english(written(of(text))) == shown


@pytest.mark.parametrize(("top", "under", "shown"), [(100, 3, "33.3 %"), (200, 3, "66.7 %"), (225, 4, "56.25 %")])
def test_a_share_no_two_decimals_hold_is_told_to_a_tenth(top: int, under: int, shown: str) -> None:
    """A third is 33.3 %, in a column of figures as in a sentence; 56.25 % stays as it is: by hand."""
    share = Quantity.of(Fraction(top, under), "%")
    assert english(written(share)) == english(both_ways(share)) == shown


def test_less_than_nothing_carries_a_minus_in_front() -> None:
    """What a sum leaves can be negative, though nobody may write it."""
    assert english(written(of("1 lb") - of("2 lb 4 oz"), "us")) == "-1 lb 4 oz"
    assert written(of("-18 °C"), "us") == "0 °F"


BOTH = [
    ("4.5 oz", "us", "4.5 oz (128 g)"),
    ("4.5 oz", "metric", "128 g (4.5 oz)"),
    ("135 °F", "metric", "57 °C (135 °F)"),
    ("57 °C", "metric", "57 °C (135 °F)"),
    ("1.25 kg", "us", "2 lb 12 oz (1.25 kg)"),
    ("4.35 lb", "us", "4 lb 5 1/2 oz (1.973 kg)"),
    ("2 1/2 cups", "us", "2 1/2 cups (591 mL)"),
    ("3/4 tsp", "us", "3/4 tsp (3.7 mL)"),
    ("1/8 in", "us", "1/8 in (3.2 mm)"),
    ("20 min", "us", "20 min"),
    ("$12.50", "metric", "$12.50"),
    # NIST Handbook 44, 2024, Appendix C: 1 foot is 0.3048 m exactly, so 30 ft is 9.144 m, and 300 cm is 9 ft 10.1 in.
    ("30 ft", "metric", "9.14 meters (30 ft)"),
    ("300 cm", "us", "9 ft 10 in (300 cm)"),
]


@pytest.mark.parametrize(("text", "first", "shown"), BOTH)
def test_both_systems_are_shown_the_kitchens_own_first(text: str, first: str, shown: str) -> None:
    """The side that was given stays as given; the other is rounded."""
    assert english(both_ways(of(text), first)) == shown


def test_what_two_decimals_cannot_hold_is_rounded_even_as_given() -> None:
    """A worked-out amount prints no endless tail."""
    assert english(as_given(of("1 oz") / 3)) == "0.33 oz"
    assert english(as_given(of("1000 g") / 3)) == "333 g"
    assert english(as_given(of("2 lb"))) == "2 lb"


def test_the_decimal_mark_is_the_kitchens() -> None:
    """Point and comma are both right (22nd General Conference on Weights and Measures, 2003, Resolution 10)."""
    assert english(written(of("1250 g"), decimal_mark=",")) == "1,25 kg"
    assert english(both_ways(of("4.5 oz"), decimal_mark=",")) == "4,5 oz (128 g)"
    assert english(written(of("$4.50"), decimal_mark=",")) == "$4,50"
    assert english(written(of("2 (14.5 oz) cans"), decimal_mark=",")) == "2 (14,5 oz) cans"


def test_another_system_is_a_callers_mistake() -> None:
    """There are metric and us."""
    with pytest.raises(ValueError, match="martian"):
        written(of("1 lb"), "martian")


def test_numbers_have_no_exponent_and_no_trailing_zeros() -> None:
    """A half goes away from zero; a rounded nothing has no minus."""
    assert number_text(Fraction(5000)) == "5000"
    assert number_text(10**20) == "1" + "0" * 20
    assert number_text(Fraction(1, 200)) == "0.01"
    assert number_text(Fraction(-1, 200)) == "-0.01"
    assert number_text(Fraction(-1, 1000)) == "0"
    assert number_text(Fraction(3, 2), 0) == "2"
    assert number_text(Fraction(1, 8), 12) == "0.125"


def test_fractions_are_written_as_cooks_write_them() -> None:
    """A whole number, a space, a fraction."""
    assert fraction_text(Fraction(11, 2)) == "5 1/2"
    assert fraction_text(Fraction(-3, 2)) == "-1 1/2"
    assert fraction_text(Fraction(0)) == "0"
    assert is_short_decimal(Fraction(1, 4))
