"""A sample is judged as inspectors of packages do it: by its mean against the error limit, and by single shortfalls."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.sampling import (
    BRITISH_LEVEL,
    Shortfall,
    judged_by_handbook,
    largest_division,
    moisture_allowance,
    sample_correction_factor,
    sample_error_limit,
    scale_is_fit,
    tolerable_negative_error,
)


def grams(amount: int | str) -> Quantity:
    return Quantity.of(amount, "g")


FACTORS = [
    (2, "8.9846"), (3, "2.4841"), (4, "1.5912"), (7, "0.9248"), (8, "0.8360"), (9, "0.7687"), (10, "0.7154"),
    (11, "0.6718"), (12, "0.6354"), (24, "0.4223"), (48, "0.2904"),
]  # fmt: skip


@pytest.mark.parametrize(("number", "factor"), FACTORS)
def test_the_correction_factor_is_t_over_the_root_of_the_number(number: int, factor: str) -> None:
    """NIST Handbook 133, Appendix A, Table 2-1 by its formula, computed with scipy 1.17.1; within 0.001."""
    assert abs(sample_correction_factor(number) - Fraction(factor)) <= Fraction("0.0001")


@pytest.mark.parametrize(("number", "factor"), [(30, "0.503"), (50, "0.379")])
def test_the_british_factor_is_the_same_formula_at_another_level(number: int, factor: str) -> None:
    """The Weights and Measures (Packaged Goods) Regulations 2006 (SI 2006/659), Schedule 2, paragraph 4, printed."""
    assert abs(sample_correction_factor(number, BRITISH_LEVEL) - Fraction(factor)) <= Fraction("0.0005")


def test_the_error_limit_is_the_spread_times_the_factor() -> None:
    """By hand with the factor for 12 above: 8.4 g x 0.6354 = 5.337 g."""
    limit = sample_error_limit(grams("8.4"), 12)
    assert abs(limit.amount - Fraction("5.337")) <= Fraction("0.001")
    with pytest.raises(QuantityProblem, match="not negative"):
        sample_error_limit(grams(-1), 12)


AGAINST = Shortfall(grams(100), grams(7))


def test_a_mean_a_little_low_may_be_chance() -> None:
    """By hand: errors -4, 0, 1: mean -1, deviation 2.646, factor 2.484: limit 6.57."""
    sample = judged_by_handbook([grams(96), grams(100), grams(101)], AGAINST)
    assert sample.mean_error == grams(-1)
    assert abs(sample.error_limit.amount - Fraction("6.57")) < Fraction("0.01")
    assert sample.passes()


def test_a_mean_low_by_more_than_the_limit_fails() -> None:
    """By hand: errors -5, -4, -6: mean -5, deviation 1, limit 2.48. Nobody is short by more than 7 g."""
    sample = judged_by_handbook([grams(95), grams(96), grams(94)], AGAINST)
    assert (sample.mean_is_good(), sample.short, sample.passes()) == (False, 0, False)


def test_a_mean_at_the_limit_still_passes() -> None:
    """NIST Handbook 133 (2026), 2.3.7.2: it fails where it exceeds the limit; all alike and right is at it."""
    assert judged_by_handbook([grams(100), grams(100)], AGAINST).passes()
    assert not judged_by_handbook([grams(99), grams(99)], AGAINST).passes()


def test_heavy_packages_pass() -> None:
    """NIST Handbook 133 (2026), 2.3.7.2: only a negative mean error fails."""
    assert judged_by_handbook([grams(140), grams(141)], AGAINST).passes()


def test_more_packages_short_than_allowed_fail() -> None:
    """NIST Handbook 133 (2026), 2.3.7.1; at the allowed shortfall exactly a package is not short."""
    weights = [grams(weight) for weight in (92, 93, 110, 110, 110)]
    sample = judged_by_handbook(weights, AGAINST)
    assert (sample.mean_is_good(), sample.short, sample.passes()) == (True, 1, False)
    assert judged_by_handbook(weights, Shortfall(grams(100), grams(7), allowed=1)).passes()


def test_a_moisture_allowance_widens_both_limits() -> None:
    """NIST Handbook 133 (2026), 2.3.8: 31.7 + 27 = 58.7 g; 0.023 + 0.06 = 0.083 lb. 3 percent of 907 g is 27 g."""
    assert round(moisture_allowance(grams(907)).amount) == 27
    assert Shortfall(grams(907), grams("31.7"), moisture=grams(27)).for_one() == grams("58.7")
    label = Quantity.of(2, "lb")
    weights = [Quantity.of(weight, "lb") for weight in ("1.90", "1.92", "1.94")]
    dry = judged_by_handbook(weights, Shortfall(label, Quantity.of("0.07", "lb")))
    damp = judged_by_handbook(weights, Shortfall(label, Quantity.of("0.07", "lb"), moisture=Quantity.of("0.06", "lb")))
    assert damp.error_limit - dry.error_limit == Quantity.of("0.06", "lb")
    assert (dry.short, damp.short) == (2, 0)


def test_a_label_and_a_shortfall_may_come_in_two_units() -> None:
    """By hand: 113 g under a label of 4 oz (113.398 g) is short by 0.4 g."""
    sample = judged_by_handbook([grams(113), grams(114)], Shortfall(Quantity.of(4, "oz"), grams("0.3")))
    assert sample.short == 1
    assert sample.mean_error.unit.symbol == "oz"


def test_a_scale_must_be_fine_enough() -> None:
    """NIST Handbook 133 (2026), 2.2.1: 7.2 g on a label of 113 g: a division of 1.2 g at most; 1 g is used."""
    assert largest_division(grams("7.2")) == grams("1.2")
    assert scale_is_fit(Quantity.of(3, "kg"), grams(1), grams("7.2"))
    assert not scale_is_fit(Quantity.of(3, "kg"), grams(2), grams("7.2"))
    assert not scale_is_fit(grams(99), grams(1), grams("7.2"))
    with pytest.raises(QuantityProblem, match="above zero"):
        largest_division(grams(0))
    with pytest.raises(QuantityProblem, match="weighs nothing"):
        scale_is_fit(grams(0), grams(1), grams(7))


EUROPEAN = [("25", "2.25"), ("75", "4.5"), ("150", "6.75"), ("250", "9"), ("400", "12"), ("750", "15"), ("2000", "30")]


@pytest.mark.parametrize(("nominal", "error"), EUROPEAN)
def test_the_tolerable_error_follows_the_directive(nominal: str, error: str) -> None:
    """Council Directive 76/211/EEC, Annex I 2.4: 9 %, 4.5, 4.5 %, 9, 3 %, 15, and from memory 1.5 %; by hand.

    Trading Standards, "What is the Average System?": 9 g on a 250 g pack.
    """
    assert tolerable_negative_error(grams(nominal)) == grams(error)
    assert tolerable_negative_error(Quantity.of(nominal, "mL")) == Quantity.of(error, "mL")


@pytest.mark.parametrize("edge", [50, 100, 200, 300, 500, 1000])
def test_the_directives_bands_meet(edge: int) -> None:
    """By hand: 9 % of 50 is 4.5, 4.5 % of 200 is 9, 3 % of 500 is 15: where two bands touch they say the same."""
    just_above = tolerable_negative_error(grams(f"{edge}.0001"))
    assert abs(just_above.amount - tolerable_negative_error(grams(edge)).amount) < Fraction("0.001")


def test_what_has_no_sense_is_refused() -> None:
    """The message names the value."""
    with pytest.raises(QuantityProblem, match="above zero"):
        Shortfall(grams(0), grams(1))
    with pytest.raises(QuantityProblem, match="not negative"):
        Shortfall(grams(100), grams(-1))
    with pytest.raises(QuantityProblem, match="none or more"):
        Shortfall(grams(100), grams(1), allowed=-1)
    with pytest.raises(QuantityProblem, match="moisture share"):
        moisture_allowance(grams(100), Fraction(3))
    for nominal in (grams(4), Quantity.of(11, "kg")):
        with pytest.raises(QuantityProblem, match="5 to 10,000"):
            tolerable_negative_error(nominal)
    with pytest.raises(WrongDimension, match="by weight or volume"):
        tolerable_negative_error(Quantity.of(3, "each"))
    with pytest.raises(QuantityProblem, match="at least two"):
        judged_by_handbook([grams(100)], AGAINST)
    with pytest.raises(WrongDimension):
        judged_by_handbook([Quantity.of(1, "cup")] * 2, AGAINST)
