"""Quantities keep their exact amount and their kind through every sum."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import MixedSystems, Quantity, QuantityProblem, WrongDimension


def of(text: str) -> Quantity:
    return parse_quantity(text, decimal_mark=".")


def test_equal_quantities_are_the_same_much_whatever_the_unit() -> None:
    """A pound is sixteen ounces (NIST Handbook 44, Appendix C; from memory), and both go into a set once."""
    assert of("1 lb") == of("16 oz")
    assert len({of("1 lb"), of("16 oz"), of("15 oz")}) == 2
    assert of("1 lb") != of("1 cup")
    assert of("1 lb") != "1 lb"


def test_quantities_of_one_kind_are_compared_by_how_much_they_are() -> None:
    """Larger and smaller look through the units."""
    assert of("15 oz") < of("1 lb") <= of("16 oz")
    assert of("1 lb") > of("15 oz")
    assert of("1 lb") >= of("16 oz")
    assert of("33 °F") > of("0 °C")


@pytest.mark.parametrize(("one", "other"), [("1 lb", "1 cup"), ("10 °C", "10 °C difference"), ("1 egg", "1 can")])
def test_two_kinds_are_neither_compared_nor_added_nor_converted(one: str, other: str) -> None:
    """A weight is no volume, a temperature no difference, an egg no can."""
    first, second = of(one), of(other)
    with pytest.raises(WrongDimension, match="not the same kind"):
        first.to(second.unit)
    with pytest.raises(WrongDimension):
        assert first < second
    with pytest.raises(WrongDimension):
        assert second <= first
    with pytest.raises(WrongDimension):
        assert second + first


def test_a_plain_count_counts_anything() -> None:
    """Two dozen are 24 eggs."""
    assert of("2 dozen").to("egg").amount == 24


def test_sums_keep_the_unit_of_the_first() -> None:
    """The unit a cook began with is the one read back."""
    assert str(of("1 lb") + of("8 oz")) == "1.5 lb"
    assert str(of("1 lb") - of("8 oz")) == "0.5 lb"
    assert str(of("1 lb") * 3) == str(3 * of("1 lb")) == "3 lb"
    assert str(of("1 lb") / 3) == "1/3 lb"
    assert str(-of("1 lb")) == "-1 lb"


def test_one_quantity_over_another_is_a_plain_number() -> None:
    """OpenStax, Prealgebra 2e, section 7.5: a cup is 48 teaspoons."""
    assert of("1 cup") / of("1 tsp") == 48


def test_nothing_is_divided_by_zero() -> None:
    """The message names both."""
    with pytest.raises(QuantityProblem, match="1 lb cannot be divided by zero"):
        assert of("1 lb") / 0
    with pytest.raises(QuantityProblem, match="1 lb cannot be divided by 0 oz"):
        of("1 lb") / of("0 oz")


def test_temperatures_take_differences_only() -> None:
    """Common physics: 20 °C and 9 Fahrenheit degrees more are 25 °C; twice as warm means nothing."""
    assert of("20 °C") + of("9 °F difference") == of("25 °C")
    assert of("25 °C") - of("9 °F difference") == of("20 °C")
    assert of("212 °F") - of("0 °C") == of("180 °F difference")
    for doing in (
        lambda: of("20 °C") + of("5 °C"),
        lambda: of("20 °C") - of("5 g"),
        lambda: of("20 °C") * 2,
        lambda: of("20 °C") / 2,
        lambda: of("20 °C") / of("5 °C"),
    ):
        with pytest.raises(WrongDimension):
            doing()


def test_the_three_systems_of_measures_never_meet_in_one_sum() -> None:
    """US pint 473 mL, imperial pint 568 mL, label cup 240 mL: a sum of them would be a guess."""
    with pytest.raises(MixedSystems, match="different systems"):
        assert of("1 pt") + of("1 imperial pint")
    with pytest.raises(MixedSystems, match="different systems"):
        of("1 pt") / of("1 label cup")
    assert of("1 pt") + of("100 mL") > of("1 pt")


def test_a_label_measure_converts_to_metric_only() -> None:
    """It is rounded by law (21 CFR 101.9(b)(5)(viii)), so it is no exact cup."""
    assert of("2 label cups").to("mL").amount == 480
    with pytest.raises(MixedSystems, match="label measure"):
        of("1 label cup").to("cup")
    assert of("1 imperial pint").to("cup").amount == Fraction("568.26125") / Fraction("236.5882365")


def test_counts_with_a_size_add_up_only_in_one_size() -> None:
    """Three small cans and two large ones are not five cans."""
    small, large = of("3 (14.5 oz) cans"), of("2 (28 oz) cans")
    assert (small + small).whole() == of("87 oz")
    assert small.whole() + large.whole() == of("99.5 oz")
    assert of("2 lb").whole() == of("2 lb")
    assert small != of("3 cans")
    with pytest.raises(QuantityProblem, match="different sizes"):
        assert small + large


def test_a_quantity_prints_plainly_and_exactly() -> None:
    """Never an exponent; a fraction where six decimals do not hold it."""
    assert str(Quantity.of(5_000_000, "g")) == "5000000 g"
    assert str(Quantity.of("1/3", "cup")) == "1/3 cup"
    assert str(of("1 (14.5 oz) can")) == "1 can of 14.5 oz"


@pytest.mark.parametrize(
    "make",
    [
        lambda number: Quantity(number, Quantity.of(1, "cup").unit),
        lambda number: Quantity.of(number, "cup"),
        lambda number: Quantity.of(1, "cup") * number,
        lambda number: Quantity.of(1, "cup") / number,
    ],
    ids=["made", "made of", "times", "shared"],
)
def test_a_float_is_refused_at_every_door(make: Callable[[Any], Quantity]) -> None:
    """0.1 as a float is 3602879701896397/36028797018963968 (IEEE 754-2019, binary64): not the tenth meant."""
    with pytest.raises(QuantityProblem, match=r"0\.1 is a float, which holds most decimals only nearly"):
        make(0.1)
    assert make(Fraction(1, 10)).unit.symbol == "cup"


@pytest.mark.parametrize("number", ["nan", "inf", "1/0", "much", ""])
def test_figures_that_are_no_number_are_refused(number: str) -> None:
    """The value is named; nothing but QuantityProblem comes out of the door."""
    with pytest.raises(QuantityProblem, match="is no number: write figures"):
        Quantity.of(number, "g")


def test_a_quantity_over_a_quantity_is_a_plain_number() -> None:
    """How many 6 oz portions in 13 lb: 208 / 6 = 34 2/3, by hand."""
    assert of("13 lb") / of("6 oz") == Fraction(104, 3)
    assert isinstance(of("13 lb") / 2, Quantity)


def test_quantities_are_summed() -> None:
    """OpenStax, Prealgebra 2e, section 7.5: 3 lb 12 oz + 3 lb 3 oz + 2 lb 9 oz = 9 lb 8 oz."""
    total = sum([of("3 lb 12 oz"), of("3 lb 3 oz"), of("2 lb 9 oz")])
    assert total == of("9 lb 8 oz")
    with pytest.raises(QuantityProblem, match="5 has no unit"):
        5 + of("1 lb")


def test_a_quantity_in_a_text_is_written_the_way_that_is_asked_for() -> None:
    """Armed Forces Recipe Service, General Information No. 1: 4.35 lb is 4 lb 5 1/2 oz; 135 °F is 57 °C (Food Code)."""
    weight = of("4.35 lb")
    assert f"{weight}: {weight:us}, {weight:metric}" == "4.35 lb: 4 lb 5 1/2 oz, 1.973 kg"
    assert f"{of('135 °F'):both}" == "135 °F (57 °C)"
    with pytest.raises(ValueError, match="'loud' is not a way to write quantities"):
        f"{weight:loud}"
