"""Portions from a batch are whole; the batch for portions covers the loss."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.portions import batch_for, portions_from
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


def test_part_of_a_portion_is_no_portion() -> None:
    """By hand: 13 lb are 208 oz; 208 / 6 = 34.67, so 34; with 3 percent lost 201.76 / 6 = 33.6, so 33."""
    batch, portion = Quantity.of(13, "lb"), Quantity.of(6, "oz")
    assert portions_from(batch, portion) == 34
    assert portions_from(batch, portion, Fraction(3, 100)) == 33


def test_the_batch_for_portions_gives_exactly_those() -> None:
    """By hand: 40 x 6 oz = 240 oz; 240 / 0.96 = 250 oz = 15 lb 10 oz."""
    batch = batch_for(40, Quantity.of(6, "oz"), Fraction(4, 100))
    assert batch == Quantity.of("15.625", "lb")
    assert portions_from(batch, Quantity.of(6, "oz"), Fraction(4, 100)) == 40


@pytest.mark.parametrize("loss", [Fraction(-1, 100), Fraction(1), Fraction(3)])
def test_a_loss_is_a_share_below_all(loss: Fraction) -> None:
    """3 for 3 percent is refused."""
    with pytest.raises(QuantityProblem, match="loss"):
        portions_from(Quantity.of(1, "lb"), Quantity.of(1, "oz"), loss)


def test_no_portion_needs_no_batch_and_a_portion_is_no_volume_of_a_weight() -> None:
    """The message names the rule."""
    with pytest.raises(QuantityProblem, match="at least one"):
        batch_for(0, Quantity.of(6, "oz"))
    with pytest.raises(WrongDimension):
        portions_from(Quantity.of(1, "lb"), Quantity.of(1, "cup"))
