"""Quantities for every input: what is printed reads back, conversion loses nothing, scaling composes."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from tests.printed import english
from trainer.recipe_math.parsing import Ambiguous, NotAQuantity, parse_number, parse_quantity
from trainer.recipe_math.printing import both_ways, cascade, fraction_text, number_text, written
from trainer.recipe_math.quantity import OWN_MEASURES, Quantity, QuantityProblem
from trainer.recipe_math.rounding import down_to, to_nearest, up_to
from trainer.recipe_math.scaling import factor_by_yield, scaled
from trainer.recipe_math.units import UNITS

AMOUNTS = st.fractions(min_value=0, max_value=10_000, max_denominator=1000)
FACTORS = st.fractions(min_value=Fraction(1, 1000), max_value=1000, max_denominator=1000)
KITCHEN_SIGNS = st.text(alphabet="0123456789 .,/½¼⅓-+()x:#°$€%glbozcupTtsmdFC\"'e_\u00a0１²😀", max_size=30)

TEMPERATURES = ("°C", "°F")
DIFFERENCES = ("°C difference", "°F difference")


def of_dimension(*dimensions: str) -> list[str]:
    return [s for s, made in UNITS.items() if made.dimension in dimensions and made.system != "us_label"]


def read_or_problem(text: str, default_unit: str | None = None) -> Quantity | NotAQuantity | Ambiguous:
    try:
        return parse_quantity(text, default_unit=default_unit)
    except (NotAQuantity, Ambiguous) as problem:
        return problem


def widest_rounding(quantity: Quantity, system: str) -> Fraction:
    """Return half the step that the head of the printing module states for a quantity, in its base unit."""
    kind, size = quantity.unit.dimension, abs(quantity.base)
    if kind == "mass" and system == "us":
        ounce = UNITS["oz"].factor
        return ounce / 200 if size < 2 * ounce else ounce / 8
    if kind == "volume" and system == "us":
        return UNITS["tsp"].factor / (16 if size < UNITS["Tbsp"].factor else 8)
    if kind == "length":
        inch = UNITS["in"].factor
        if system == "us":
            return inch / 200 if size < inch / 16 else inch / 32 if size < 72 * inch else inch / 8
        return Fraction(1, 20) if size < 10 else Fraction(1, 2) if size < 2000 else Fraction(5)
    if kind == "duration":
        return Fraction(1, 20) if size < 60 else Fraction(1, 2)
    steps = ((1, Fraction(1, 200)), (10, Fraction(1, 20)), (10_000, Fraction(1, 2)))
    return next((half for limit, half in steps if size < limit), Fraction(5))


@given(
    AMOUNTS, st.sampled_from(of_dimension("mass", "volume", "length", "duration")), st.sampled_from(["metric", "us"])
)
def test_what_is_printed_reads_back_within_the_stated_rounding(amount: Fraction, symbol: str, system: str) -> None:
    """Half a step of the printing module's table, once."""
    given_amount = Quantity(amount, UNITS[symbol])
    read = parse_quantity(english(written(given_amount, system)), decimal_mark=".")
    slack = widest_rounding(given_amount, system)
    if given_amount.unit.dimension == "duration":
        slack += Fraction(1, 20)
    assert abs(read.base - given_amount.base) <= slack


@given(st.fractions(min_value=-200, max_value=1000, max_denominator=100), st.sampled_from(TEMPERATURES))
def test_a_printed_temperature_reads_back_within_half_a_degree(degrees: Fraction, symbol: str) -> None:
    """Whole degrees of the scale printed."""
    given_degrees = Quantity(degrees, UNITS[symbol])
    for system, scale in (("metric", "°C"), ("us", "°F")):
        read = parse_quantity(english(written(given_degrees, system)))
        assert abs(read.to(scale).amount - given_degrees.to(scale).amount) <= Fraction(1, 2)


@given(AMOUNTS, st.data())
def test_a_conversion_and_back_changes_nothing(amount: Fraction, data: st.DataObject) -> None:
    """Exactly nothing, for every pair of units of one kind."""
    unit = data.draw(st.sampled_from(list(UNITS.values())))
    others = [
        made
        for made in UNITS.values()
        if made.is_same_kind(unit) and ("us_label" not in (unit.system, made.system) or made.system == unit.system)
    ]
    other = data.draw(st.sampled_from(others))
    there = Quantity(amount, unit).to(other)
    assert there.base == Quantity(amount, unit).base
    assert there.to(unit).amount == amount


@given(AMOUNTS, FACTORS, FACTORS)
def test_scaling_twice_is_scaling_by_the_product(amount: Fraction, one: Fraction, other: Fraction) -> None:
    """And back by the inverse changes nothing."""
    flour = Quantity(amount, UNITS["lb"])
    assert scaled(scaled(flour, one), other) == scaled(flour, one * other)
    assert scaled(scaled(flour, one), 1 / one) == flour


@given(FACTORS, FACTORS, FACTORS)
def test_factors_by_yield_chain(small: Fraction, middle: Fraction, large: Fraction) -> None:
    """Small to middle to large is small to large."""
    assert factor_by_yield(small, middle) * factor_by_yield(middle, large) == factor_by_yield(small, large)


@given(AMOUNTS, FACTORS)
def test_rounding_keeps_its_side_and_its_distance(value: Fraction, step: Fraction) -> None:
    """Down is at or below, up at or above, nearest within half a step."""
    assert value - step < down_to(value, step) <= value <= up_to(value, step) < value + step
    assert abs(to_nearest(value, step) - value) <= step / 2


@given(AMOUNTS)
def test_numbers_read_back_from_both_writings(value: Fraction) -> None:
    """A kitchen fraction exactly, a decimal to its places, under either mark."""
    assert parse_number(fraction_text(value)) == value
    for mark in (".", ","):
        read = parse_number(number_text(value, 4, mark), decimal_mark=mark)
        assert abs(read - value) <= Fraction(1, 20_000)


@given(AMOUNTS)
def test_a_cascade_reads_back(value: Fraction) -> None:
    """Within half of its last step."""
    read = parse_quantity(cascade(Quantity(value, UNITS["gal"])))
    assert abs(read.base - Quantity(value, UNITS["gal"]).base) <= UNITS["tsp"].factor / 8


@given(st.one_of(st.text(max_size=60), KITCHEN_SIGNS), st.sampled_from([None, "g", "cup", "°C", "$"]))
def test_any_text_is_read_refused_or_asked_back(text: str, default_unit: str | None) -> None:
    """Never another error, never less than nothing, never an endless message."""
    outcome = read_or_problem(text, default_unit)
    if isinstance(outcome, Quantity):
        assert outcome.amount >= 0 or outcome.unit.dimension.startswith("temperature")
    else:
        assert outcome.text in str(outcome)
        assert len(str(outcome)) < 800


@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from(".,"))
def test_each_reading_asked_back_reads_one_way_and_the_two_differ(whole: int, part: int, mark: str) -> None:
    """The person's choice settles it."""
    asked = read_or_problem(f"{whole}{mark}{part:03d} g")
    assert isinstance(asked, Ambiguous)
    amounts = [parse_quantity(reading).amount for reading in asked.readings]
    assert amounts == [whole + Fraction(part, 1000), whole * 1000 + part]


@given(AMOUNTS, AMOUNTS, st.data())
def test_two_systems_of_measures_never_add_up(one: Fraction, other: Fraction, data: st.DataObject) -> None:
    """Any measure of one with any of another."""
    units = [made for made in UNITS.values() if made.system in OWN_MEASURES and made.dimension == "volume"]
    first, second = data.draw(st.sampled_from(units)), data.draw(st.sampled_from(units))
    try:
        total = Quantity(one, first) + Quantity(other, second)
    except QuantityProblem:
        assert first.system != second.system
    else:
        assert first.system == second.system
        assert total.base == one * first.factor + other * second.factor


@given(AMOUNTS, st.sampled_from(sorted(set(UNITS) - set(DIFFERENCES))), st.sampled_from(["us", "metric"]))
def test_nothing_is_printed_with_an_exponent_or_an_endless_tail(amount: Fraction, symbol: str, first: str) -> None:
    """Every unit, both systems: short, and no E between figures."""
    shown = english(both_ways(Quantity(amount, UNITS[symbol]), first))
    assert len(shown) < 120
    assert "E+" not in shown
    assert "e-" not in shown
