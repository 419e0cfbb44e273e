"""The squared-thickness rule is a guess, and says so."""

from __future__ import annotations

from decimal import Decimal

import pytest

from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.thickness import guess_for_thickness


def test_twice_as_thick_takes_four_times_as_long() -> None:
    """By hand: 20 min x (50 / 25)^2 = 80 min; half as thick a quarter. Theory only, no published example was found."""
    assert guess_for_thickness(20, 25, 50).minutes == 80
    assert Decimal(guess_for_thickness(20, 50, 25).minutes) == 5


def test_it_says_on_what_it_rests() -> None:
    """Theory only."""
    guess = guess_for_thickness(20, 25, 50)
    assert "theory only" in guess.rests_on
    assert any("bone" in unknown for unknown in guess.not_known)


@pytest.mark.parametrize(("minutes", "old", "new"), [(0, 25, 50), (20, 0, 50), (20, 25, 0), (20, 25, float("inf"))])
def test_nothing_is_guessed_from_nothing(minutes: float, old: float, new: float) -> None:
    """All three are above zero."""
    with pytest.raises(QuantityProblem):
        guess_for_thickness(minutes, old, new)
