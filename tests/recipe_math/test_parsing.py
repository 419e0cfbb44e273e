"""What cooks write is read exactly, refused in plain words, or asked back; nothing is guessed.

The readings are common practice of recipe cards. Values in mL and g follow from the exact definitions of the Unified
Code for Units of Measure (ucum-essence.xml): US cup 236.5882365 mL, pound 453.59237 g, imperial pint 568.26125 mL.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.printed import english
from trainer.recipe_math.parsing import Ambiguous, NotAQuantity, parse_number, parse_quantity
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.units import UnknownUnit

CUP, POUND = Fraction("236.5882365"), Fraction("453.59237")
EXACT = [
    ("1 lb 2 oz", "g", POUND * 9 / 8),
    ("2 1/2 cups", "mL", CUP * 5 / 2),
    ("1½ cups", "mL", CUP * 3 / 2),
    ("1 ½ c", "mL", CUP * 3 / 2),
    ("510 g", "g", Fraction(510)),
    ("1,5 kg", "g", Fraction(1500)),
    ("1.500,25 g", "g", Fraction("1500.25")),
    ("1,500.25 g", "g", Fraction("1500.25")),
    ("1,234,567 g", "g", Fraction(1234567)),
    ("1.234.567 g", "g", Fraction(1234567)),
    ("2 3/4 lb", "g", POUND * 11 / 4),
    ("2 3⁄4 lb", "g", POUND * 11 / 4),
    ("3 oz", "g", POUND * 3 / 16),
    ("3 fl oz", "mL", CUP * 3 / 8),
    ("3 fl. oz.", "mL", CUP * 3 / 8),
    ("1 pt", "mL", CUP * 2),
    ("1 imperial pint", "mL", Fraction("568.26125")),
    ("2 T", "mL", CUP / 8),
    ("2 t", "mL", CUP / 24),
    ("1 Tbsp + 1 tsp", "mL", CUP / 16 + CUP / 48),
    ("1 Tbsp plus 1 tsp", "mL", CUP / 16 + CUP / 48),
    ("1 qt 1 pt", "mL", CUP * 6),
    ("¾ tsp", "mL", CUP / 64),
    (".5 oz", "g", POUND / 32),
    ("0.125 lb", "g", POUND / 8),
    ("½ gal", "mL", CUP * 8),
    ("350°F", "°C", Fraction(1590, 9)),
    ("350ºF", "°C", Fraction(1590, 9)),
    ("-18 °C", "°C", Fraction(-18)),
    ("−18 C", "°C", Fraction(-18)),
    ("-5 °C difference", "°C difference", Fraction(-5)),
    ("12x20x2.5 in", "mL", Fraction("9832.2384")),
    ("12 in x 1 ft x 2 1/2 in", "cu in", Fraction(360)),
    ("12 × 20 × 2.5 in", "cu in", Fraction(600)),
    ("30 x 20 x 10 cm", "L", Fraction(6)),
    ("600 in3", "cu in", Fraction(600)),
    ("１kg", "g", Fraction(1000)),
    ("4 min 30 s", "s", Fraction(270)),
    ("1:02:30", "s", Fraction(3750)),
    ("$4.50", "¢", Fraction(450)),
    ("$1.50 + $2", "$", Fraction("3.5")),
    ("4.50 USD", "$", Fraction("4.5")),
    ("€4,50", "€", Fraction("4.5")),
    ("2 dozen", "each", Fraction(24)),
    ("2 dozen eggs", "egg", Fraction(24)),
    ("57.5 %", "%", Fraction("57.5")),
    ("1 lb, 2 oz", "oz", Fraction(18)),
    ("1 lb and 2 oz", "oz", Fraction(18)),
    ("5#", "lb", Fraction(5)),
    ("3 KG", "kg", Fraction(3)),
    ("12 Lbs.", "lb", Fraction(12)),
    ("1-1/2 lb", "lb", Fraction(3, 2)),
    ("1-½ lb", "lb", Fraction(3, 2)),
    ("2-1/2 cups", "mL", CUP * 5 / 2),
    ("1 lb 5-1/2 oz", "oz", Fraction(43, 2)),
    ("9-1/2 x 12 x 2 in", "cu in", Fraction(228)),
    ("1 and 1/2 cups", "mL", CUP * 3 / 2),
    ("1 y 1/2 tazas", "mL", CUP * 3 / 2),
    ("1 libra y 4 onzas", "oz", Fraction(20)),
    ("1 taza y 2 cucharadas", "mL", CUP * 9 / 8),
    ("1/4 de taza", "mL", CUP / 4),
    ("3/4 of a cup", "mL", CUP * 3 / 4),
    ("2 lts", "mL", Fraction(2000)),
    ("250 grs", "g", Fraction(250)),
    ("250 grs.", "g", Fraction(250)),
    ("2 C 3 T", "mL", CUP * 35 / 16),
    ("3 m 30 s", "s", Fraction(210)),
]


@pytest.mark.parametrize(("text", "unit", "amount"), EXACT)
def test_what_a_cook_writes_is_read_exactly(text: str, unit: str, amount: Fraction) -> None:
    """The value is exact in any unit of the same kind."""
    assert parse_quantity(text).to(unit).amount == amount


def test_sums_of_mixed_measures_come_out_as_printed() -> None:
    """OpenStax, Prealgebra 2e, section 7.5: 14 oz + 1 lb 2 oz + 1 lb 6 oz = 3 lb 6 oz, and two more."""
    assert parse_quantity("14 oz + 1 lb 2 oz + 1 lb 6 oz") == parse_quantity("3 lb 6 oz")
    assert parse_quantity("3 lb 12 oz + 3 lb 3 oz + 2 lb 9 oz") == parse_quantity("9 lb 8 oz")
    assert parse_quantity("1 lb 8 oz") * 3 == parse_quantity("4 lb 8 oz")
    assert parse_quantity("5 gal 3 qt") * 2 == parse_quantity("11 gal 2 qt")


@pytest.mark.parametrize("text", ["1 (14.5 oz) can", "1 can (14.5 oz)"])
def test_a_can_with_its_size_is_a_count_with_a_size(text: str) -> None:
    """A can is counted; what it holds stands beside it (14.5 oz = 411.068 g)."""
    read = parse_quantity(text)
    assert read.amount == 1
    assert read.unit.symbol == "can"
    assert read.each == Quantity.of("14.5", "oz")
    assert abs(read.whole().to("g").amount - Fraction("411.068")) < Fraction("0.0005")


REFUSED = [
    ("a pinch", "cannot be measured"),
    ("una pizca", "cannot be measured"),
    ("2 a 3 kg", "range"),
    ("entre 2 y 3 kg", "range"),
    ("unos 2 kg", "exact"),
    ("1/0 cup", "divides by zero"),
    ("1 1/0 cup", "divides by zero"),
    ("-2 g", "negative"),
    ("-$4", "negative"),
    ("NaN", "NaN"),
    ("nan g", "NaN"),
    ("inf", "infinity"),
    ("Infinity kg", "infinity"),
    ("2-3 cups", "a range"),
    ("2–3 cups", "a range"),
    ("2 - 3 cups", "a range"),
    ("2 to 3 cups", "a range"),
    ("1/4-1/2 cup", "a range"),
    ("2-3/2 cups", "less than 1"),
    ("1-2-1/2 lb", "a range"),
    ("2 - 1/2 cups", "a range"),
    ("#10", "can number"),
    ("1 #10 can", "can number"),
    ("2 No. 10 cans", "can number"),
    ("2 😀", "plain signs"),
    ("😀", "plain signs"),
    ("2\u200bg", "plain signs"),
    ("1e3 g", "exponents"),
    ("10^3 g", "exponents"),
    ("10³ g", "raised"),
    ("1_000 g", "underscore"),
    ("٣ g", "figures 0 to 9"),
    ("8 oz milk", "oz is a weight"),
    ("8 oz of cold water", "oz is a weight"),
    ("1 lb 2 cups", "do not add up"),
    ("100 °C + 5 °C", "temperatures do not add up"),
    ("1 pt + 1 imperial pint", "different systems"),
    ("2 oz 1 lb", "not smaller"),
    ("1 lb 2 lb", "not smaller"),
    ("1 lb 2", "no unit"),
    ("1 lb - 2 oz", "taken away"),
    ("1 lb -2 oz", "taken away"),
    ("1 lb +", "missing at the end"),
    ("+5 g", "a plus"),
    ("510", "unit is missing"),
    ("1 1/2", "unit is missing"),
    ("1 500 g", "side by side"),
    ("", "nothing to read"),
    (" \t ", "nothing to read"),
    ("cups", "no number"),
    ("about 3 cups", "exact"),
    ("~3 cups", "exact"),
    ("3 cups flour", "“cups flour” is not a unit"),
    ("2 3/2 cups", "less than 1"),
    ("2.5 1/2 cups", "whole numbers only"),
    ("1.5/2 cups", "whole numbers only"),
    ("1/2/3 cup", "one number over another"),
    ("1..5 g", "points and commas"),
    ("1.2.3 g", "points and commas"),
    ("12x20 in", "area"),
    ("12x20x2.5 lb", "lengths"),
    ("12 lb x 20 in x 2 in", "lengths"),
    ("1 2 x 3 x 4 in", "side by side"),
    ("1:30 h", "clock"),
    ("$5 lb", "money stands alone"),
    ("1 (2 in) can", "weight or volume"),
    ("1 (x) can", "weight or volume"),
    ("1 (2 oz) gram", "is not a unit"),
    ("1 (2 oz) thingummy", "is not a unit"),
    ("-500 °C", "colder"),
    ("2 M", "not a unit"),
]


@pytest.mark.parametrize(("text", "rule"), REFUSED)
def test_what_is_no_quantity_is_refused_with_the_value_and_the_rule(text: str, rule: str) -> None:
    """The message holds both, and so do the fields."""
    with pytest.raises(NotAQuantity) as refused:
        parse_quantity(text)
    assert rule in english(refused.value.rule)
    assert refused.value.text in str(refused.value)
    assert english(refused.value.rule) in str(refused.value)


ASKED_BACK = [
    ("1,500 g", ("1.5 g", "1500 g")),
    ("1.500 g", ("1.5 g", "1500 g")),
    ("12,000 g", ("12 g", "12000 g")),
    ("2 (1.234 kg) cans", ("2 (1.2340 kg) cans", "2 (1234 kg) cans")),
    ("1:30", ("1 h 30 min", "1 min 30 s")),
    ("5 m", ("5 min", "5 meters")),
    ("5 gr", ("5 g", "5 grains")),
    ("5 G", ("5 g", "5 gallons")),
    ("20°", ("20°F", "20°C")),
    ("2 C", ("2 °C", "2 cups")),
    ("32 C", ("32 °C", "32 cups")),
    ("20 degrees", ("20 °F", "20 °C")),
]


@pytest.mark.parametrize(("text", "readings"), ASKED_BACK)
def test_what_has_two_readings_is_asked_back(text: str, readings: tuple[str, ...]) -> None:
    """Both readings are named; none is taken."""
    with pytest.raises(Ambiguous) as asked:
        parse_quantity(text)
    assert asked.value.readings == readings
    assert all(reading in str(asked.value) for reading in readings)
    assert text == asked.value.text


def test_the_decimal_mark_settles_what_three_figures_mean() -> None:
    """Point and comma are both right (22nd General Conference on Weights and Measures, 2003, Resolution 10)."""
    assert parse_quantity("1,500 g", decimal_mark=",") == Quantity.of("1.5", "g")
    assert parse_quantity("1,500 g", decimal_mark=".") == Quantity.of(1500, "g")
    assert parse_quantity("1.500 g", decimal_mark=".") == Quantity.of("1.5", "g")
    assert parse_quantity("1.500 g", decimal_mark=",") == Quantity.of(1500, "g")


@pytest.mark.parametrize(("text", "mark"), [("1,5 kg", "."), ("1.5 kg", ","), ("1.500,25 g", ".")])
def test_a_figure_that_breaks_the_decimal_mark_is_refused(text: str, mark: str) -> None:
    """A comma in a kitchen that writes points parts thousands only, and the other way round."""
    with pytest.raises(NotAQuantity, match="decimal mark"):
        parse_quantity(text, decimal_mark=mark)


def test_a_decimal_mark_is_a_point_or_a_comma() -> None:
    """Another sign is a caller's mistake."""
    with pytest.raises(ValueError, match="no decimal mark"):
        parse_quantity("1.5 g", decimal_mark=";")


def test_a_bare_number_takes_the_unit_asked_for() -> None:
    """It does so only when it stands alone."""
    assert parse_quantity("1½", default_unit="tsp") == Quantity.of("1.5", "tsp")
    assert parse_quantity("-5", default_unit="C") == Quantity.of(-5, "°C")
    assert parse_quantity("5", default_unit="$") == Quantity.of(5, "$")
    for text in ("4 lb 5", "2 1 oz", "2-3", "$4 5"):
        with pytest.raises(QuantityProblem):
            parse_quantity(text, default_unit="oz")


def test_a_unit_with_two_readings_takes_the_kind_asked_for() -> None:
    """The letter m is minutes where minutes are asked for, and C cups where a volume is."""
    assert parse_quantity("3 m 30 s", default_unit="min") == Quantity.of(210, "s")
    assert parse_quantity("2 m", default_unit="cm") == Quantity.of(200, "cm")
    assert parse_quantity("2 C", default_unit="mL") == Quantity.of(2, "cup")
    assert parse_quantity("57 C", default_unit="°F") == Quantity.of(57, "°C")
    assert parse_quantity("57 C", kind="temperature") == Quantity.of(57, "°C")
    assert parse_quantity("2 C", kind="volume") == Quantity.of(2, "cup")


def test_an_unknown_unit_asked_for_is_a_callers_mistake() -> None:
    """The text is not to blame, so it is not NotAQuantity."""
    with pytest.raises(UnknownUnit, match="blah"):
        parse_quantity("5", default_unit="blah")


def test_the_system_says_whose_pint_is_meant() -> None:
    """US 473.176473 mL, imperial 568.26125 mL (UCUM); a US label cup is 240 mL (21 CFR 101.9(b)(5)(viii))."""
    assert parse_quantity("1 pt").to("mL").amount == Fraction("473.176473")
    assert parse_quantity("1 pt", system="imperial").to("mL").amount == Fraction("568.26125")
    assert parse_quantity("1 cup", system="us_label").to("mL").amount == 240
    with pytest.raises(UnknownUnit, match="not a system"):
        parse_quantity("1 cup", system="martian")
    with pytest.raises(NotAQuantity):
        parse_quantity("1 cup", system="imperial")


def test_a_text_too_long_is_refused_unread_and_not_said_back() -> None:
    """The limit is 200 characters, whatever they are."""
    assert parse_quantity("2" + " " * 197 + "kg").amount == 2
    for text in ("9" * 201, "9" * 10_000_000, "😀" * 1000):
        with pytest.raises(NotAQuantity) as refused:
            parse_quantity(text)
        assert str(len(text)) in english(refused.value.rule)
        assert len(str(refused.value)) < 200


def test_a_plain_number_is_read_without_a_unit() -> None:
    """Whole, decimal, fraction or mixed; a minus is allowed."""
    assert parse_number("3.48") == Fraction("3.48")
    assert parse_number(" 2 3/4 ") == Fraction(11, 4)
    assert parse_number("-1½") == Fraction(-3, 2)
    assert parse_number("1,234", decimal_mark=".") == 1234
    with pytest.raises(NotAQuantity):
        parse_number("3 cups")
    with pytest.raises(Ambiguous):
        parse_number("1,234")


@pytest.mark.parametrize(
    ("typed", "amount", "symbol"),
    [
        # litre, gram and kilogram are named by the SI (BIPM SI brochure); the rest is common practice
        ("4 libras 8 onzas", "4.5", "lb"),
        ("1 1/2 galones", "1.5", "gal"),
        ("3 cdas", "3", "Tbsp"),
        ("1/2 cucharadita", "0.5", "tsp"),
        ("2 tazas", "2", "cup"),
        ("750 mililitros", "750", "mL"),
        ("2 h 15 minutos", "2.25", "h"),
        ("3 dias", "3", "days"),
        ("57 grados C", "57", "°C"),
        ("12 por ciento", "12", "%"),
        ("6 cajas", "6", "case"),
        ("5 PULGADAS", "5", "in"),
    ],
)
def test_units_are_read_in_spanish_as_well(typed: str, amount: str, symbol: str) -> None:
    """A cook answers in the words of the kitchen, with or without the accent."""
    assert parse_quantity(typed) == Quantity.of(amount, symbol)
