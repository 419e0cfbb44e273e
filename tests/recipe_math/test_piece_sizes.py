"""Measured cuts pass where every side is inside, and the share of them comes with its interval."""

from __future__ import annotations

from fractions import Fraction

import pytest
from scipy.stats import binomtest

from trainer.recipe_math.piece_sizes import Side, check_pieces, side_around, side_between
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension

SMALL_DICE = side_around("side", Quantity.of("0.25", "in"), Fraction(1, 4))
JULIENNE = (
    side_around("thick", Quantity.of("0.125", "in"), Fraction(1, 4)),
    side_between("long", Quantity.of(1, "in"), Quantity.of(2, "in"), Fraction(1, 10)),
)


def mm(*sizes: int | str) -> tuple[Quantity, ...]:
    return tuple(Quantity.of(size, "mm") for size in sizes)


def test_a_small_dice_may_be_off_by_a_quarter_either_way() -> None:
    """List of culinary knife cuts: 1/4 in; the quarter is a house setting. By hand: 4.7625 to 7.9375 mm."""
    assert (SMALL_DICE.shortest, SMALL_DICE.longest) == mm("4.7625", "7.9375")
    assert SMALL_DICE.passes(*mm("4.7625"))
    assert SMALL_DICE.passes(*mm("7.9375"))
    assert not SMALL_DICE.passes(*mm("4.76"))
    assert not SMALL_DICE.passes(*mm("7.94"))


def test_ten_dice_are_counted_with_wilsons_interval() -> None:
    """By hand: 4 and 9 mm are outside, 8 of 10 pass. Interval: scipy.stats.binomtest, method wilson."""
    found = check_pieces([mm(size) for size in (6, 6, 5, 7, 4, 6, 9, 6, 5, 7)], (SMALL_DICE,))
    assert (found.measured, found.inside, found.share) == (10, 8, Fraction(4, 5))
    side = found.sides[0]
    assert (side.too_short, side.too_long) == (1, 1)
    assert side.mean == Quantity.of("6.1", "mm")
    expected = binomtest(8, 10).proportion_ci(method="wilson")
    assert (float(found.likely.low), float(found.likely.high)) == pytest.approx((expected.low, expected.high), abs=2e-9)


def test_a_julienne_passes_only_on_both_sides() -> None:
    """List of culinary knife cuts: 1/8 in, 1 to 2 in long. By hand: thick 2.38 to 3.97, long 22.86 to 55.88 mm."""
    found = check_pieces([mm(3, 40), mm(3, 60), mm(5, 40), mm(2, 20)], JULIENNE)
    assert found.inside == 1
    assert [(side.side.name, side.too_short, side.too_long) for side in found.sides] == [
        ("thick", 1, 1),
        ("long", 1, 1),
    ]


def test_the_confidence_is_the_house_s_choice() -> None:
    """Outside check: scipy.stats.binomtest at 80 percent, 3 of 4."""
    found = check_pieces([mm(6), mm(6), mm(6), mm(9)], (SMALL_DICE,), Fraction("0.80"))
    expected = binomtest(3, 4).proportion_ci(0.80, method="wilson")
    assert float(found.likely.low) == pytest.approx(expected.low, abs=2e-9)


def test_a_side_is_a_length_above_nothing() -> None:
    """The message names the side."""
    with pytest.raises(WrongDimension, match="a side is a length"):
        Side("side", Quantity.of(1, "g"), Quantity.of(2, "g"))
    for ends in (mm(0, 1), mm(3, 2)):
        with pytest.raises(QuantityProblem, match="side from"):
            Side("side", *ends)
    for tolerance in (Fraction(0), Fraction(1), Fraction(25)):
        with pytest.raises(QuantityProblem, match="tolerance of"):
            side_around("side", mm(6)[0], tolerance)


def test_every_piece_has_every_measurement() -> None:
    """The message numbers the piece."""
    with pytest.raises(QuantityProblem, match="nothing to check"):
        check_pieces([], (SMALL_DICE,))
    with pytest.raises(QuantityProblem, match="nothing to check"):
        check_pieces([mm(6)], ())
    with pytest.raises(QuantityProblem, match=r"Piece 2 has 1 measurements: give thick, long"):
        check_pieces([mm(3, 40), mm(3)], JULIENNE)
    with pytest.raises(QuantityProblem, match="Piece 1 was misread"):
        check_pieces([mm(0)], (SMALL_DICE,))
    with pytest.raises(WrongDimension):
        check_pieces([(Quantity.of(6, "g"),)], (SMALL_DICE,))
