"""Chart factors as printed, and limits that follow from them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.control_chart import chart_factors, chart_limits
from trainer.recipe_math.quantity import QuantityProblem

PRINTED = [
    (2, {"c4": "0.7979"}),
    (3, {"a3": "1.954", "b3": "0", "b4": "2.568"}),
    (4, {"a3": "1.628", "b3": "0"}),
    (5, {"c4": "0.94", "a3": "1.427", "b3": "0"}),
    (6, {"c4": "0.9515", "b3": "0.03", "b4": "1.97"}),
    (7, {"c4": "0.9594", "a3": "1.182", "b3": "0.118", "b4": "1.882"}),
    (8, {"c4": "0.965", "b3": "0.185", "b4": "1.815"}),
    (9, {"c4": "0.9693", "a3": "1.032"}),
    (10, {"c4": "0.9727", "a3": "0.975", "b3": "0.284", "b4": "1.716"}),
    (15, {"b3": "0.428"}),
    (20, {"c4": "0.9869", "a3": "0.68", "b3": "0.51"}),
    (25, {"c4": "0.9896", "a3": "0.606", "b4": "1.435"}),
]


@pytest.mark.parametrize(("size", "printed"), PRINTED, ids=[str(row[0]) for row in PRINTED])
def test_the_factors_are_those_printed(size: int, printed: dict[str, str]) -> None:
    """The Handbook for Quality Management (Pyzdek), Appendix B, p. 414; formulas: e-Handbook 6.3.2.1; within 0.0006."""
    factors = chart_factors(size)
    for name, value in printed.items():
        assert abs(getattr(factors, name) - Fraction(value)) <= Fraction("0.0006"), name


def test_the_limits_are_the_middle_give_or_take_the_factors() -> None:
    """By hand with the printed factors of 3 (1.954, 0, 2.568): means 100 and 102, deviations 2 and 4."""
    limits = chart_limits([[Fraction(w) for w in (98, 100, 102)], [Fraction(w) for w in (98, 102, 106)]])
    assert limits.mean == 101
    assert limits.deviation == 3
    found = (limits.means.low, limits.means.high, limits.deviations.low, limits.deviations.high)
    for value, by_hand in zip(found, ("95.138", "106.862", "0", "7.704"), strict=True):
        assert abs(value - Fraction(by_hand)) <= Fraction("0.003")


def test_samples_are_all_of_one_size_and_of_two_at_least() -> None:
    """The message names the rule."""
    one, two = [Fraction(1)], [Fraction(1), Fraction(2)]
    for samples in ([], [one, two]):
        with pytest.raises(QuantityProblem, match="all of one size"):
            chart_limits(samples)
    for size in (1, 101):
        with pytest.raises(QuantityProblem, match="2 to 100"):
            chart_factors(size)
    with pytest.raises(QuantityProblem, match="2 to 100"):
        chart_limits([one])
