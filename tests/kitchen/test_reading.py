"""What an assessor types on a kitchen's tablet is read, whichever decimal mark their hand knows."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.kitchen.reading import read_number, read_quantity
from trainer.recipe_math.refusals import Ambiguous


@pytest.mark.parametrize("mark", [".", ",", None])
@pytest.mark.parametrize("text", ["4,4", "4.4", "4.4 oz", "4 2/5"])
def test_a_comma_and_a_point_both_mark_decimals(text: str, mark: str | None) -> None:
    """Both marks are correct: 22nd CGPM (2003), Resolution 10."""
    assert read_quantity(text, "oz", mark).amount == Fraction(22, 5)


@pytest.mark.parametrize(("mark", "grams"), [(".", 1500), (",", Fraction(3, 2))])
def test_the_kitchens_mark_settles_what_has_two_readings(mark: str, grams: Fraction) -> None:
    """1,500 g is one and a half grams or a kilo and a half, as the kitchen writes."""
    assert read_quantity("1,500 g", "g", mark).amount == grams


@pytest.mark.parametrize(("text", "mark", "value"), [("4,4", ".", "4.4"), ("4.4", ",", "4.4"), ("1,500", ".", "1500")])
def test_a_plain_number_is_read_the_same_way(text: str, mark: str, value: str) -> None:
    """A share in a hundred, which has no unit, follows the same rule."""
    assert read_number(text, mark) == Fraction(value)


def test_without_a_mark_two_readings_are_asked_back() -> None:
    """Nothing is guessed."""
    with pytest.raises(Ambiguous):
        read_quantity("1,500 g", "g")
