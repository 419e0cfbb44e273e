"""Amounts on an order: rounded up, never nothing, never spoons."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.printed import english
from trainer.recipe_math.order_text import on_order, rounded_up
from trainer.recipe_math.quantity import Quantity


@pytest.mark.parametrize(
    ("amount", "unit", "us", "metric"),
    [
        ("0.01", "oz", "1/4 oz", "1 g"),
        ("2.1", "oz", "2 1/4 oz", "60 g"),
        ("17.2", "oz", "1 lb 2 oz", "488 g"),
        ("2.5", "lb", "2 lb 8 oz", "1.14 kg"),
        ("1", "tsp", "1 fl oz", "5 mL"),
        ("40", "fl oz", "1 qt 8 fl oz", "1.19 L"),
        ("1", "gal", "1 gal", "3.79 L"),
        ("25.3", "egg", "26 eggs", "26 eggs"),
    ],
)
def test_an_amount_is_rounded_up_to_what_can_be_ordered(amount: str, unit: str, us: str, metric: str) -> None:
    """A quarter ounce, then an ounce; a gram, then ten; a fluid ounce; a millilitre, then ten: worked by hand."""
    much = Quantity.of(amount, unit)
    assert (english(on_order(much, "us")), english(on_order(much))) == (us, metric)


@given(st.fractions(min_value=Fraction(1, 10_000), max_value=5_000), st.sampled_from(["oz", "g", "lb", "tsp", "L"]))
def test_nothing_on_an_order_is_nothing_or_too_little(amount: Fraction, unit: str) -> None:
    """What is bought covers the need, and is above nothing, in both systems; no spoon is named."""
    much = Quantity.of(amount, unit)
    for system in ("us", "metric"):
        told = english(on_order(much, system))
        assert rounded_up(much, system) >= much
        assert not told.startswith("0 ")
        assert "tsp" not in told
        assert "Tbsp" not in told
