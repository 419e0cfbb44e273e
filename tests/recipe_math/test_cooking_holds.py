"""Printed tables of heat and time: looked up row by row, the cooler row counts."""

from __future__ import annotations

from math import log10

import pytest

from trainer.recipe_math.cooking_holds import TABLES, Meat, hold_at
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


def fahrenheit(degrees: int | str) -> Quantity:
    return Quantity.of(degrees, "°F")


@pytest.mark.parametrize(
    ("meat", "degrees", "seconds"),
    [
        # FDA Food Code 2022, section 3-401.11(B)(2): 112 min at 130 °F, 4 min at 145 °F, 22 s at 155 °F, none at 158 °F
        (Meat.ROAST, 130, 112 * 60),
        (Meat.ROAST, 145, 240),
        (Meat.ROAST, 146, 240),
        (Meat.ROAST, 155, 22),
        (Meat.ROAST, 158, 0),
        (Meat.ROAST, 200, 0),
        # section 3-401.11(A)(2): 3 min, 1 min, 17 s, at once
        (Meat.GROUND, 145, 180),
        (Meat.GROUND, 150, 60),
        (Meat.GROUND, "154.9", 60),
        (Meat.GROUND, 155, 17),
        (Meat.GROUND, 158, 0),
        (Meat.POULTRY, 165, 0),  # section 3-401.11(A)(3): at once
        (Meat.POULTRY_IN_PLANTS, 140, 1512),  # FSIS Appendix A, from memory: 25.2 min
    ],
)
def test_the_cooler_row_counts(meat: Meat, degrees: int | str, seconds: int) -> None:
    """Between two rows nothing is worked out: the longer time holds."""
    assert hold_at(meat, fahrenheit(degrees)).time == Quantity.of(seconds, "s")


@pytest.mark.parametrize(
    ("meat", "first"), [(Meat.ROAST, 130), (Meat.GROUND, 145), (Meat.POULTRY, 165), (Meat.POULTRY_IN_PLANTS, 136)]
)
def test_below_the_table_no_time_is_enough(meat: Meat, first: int) -> None:
    """Nothing is made up below the first row, and only a temperature is looked up."""
    with pytest.raises(QuantityProblem, match=f"the table begins at {first} °F"):
        hold_at(meat, fahrenheit(first) - Quantity.of("0.1", "°F difference"))
    with pytest.raises(WrongDimension, match="no temperature"):
        hold_at(meat, Quantity.of(5, "min"))


def test_rows_rise_and_times_fall_and_roasts_follow_one_line() -> None:
    """By least squares the rows of roasts have z = 10 °F (FSIS Appendix A, 6.5-log): each tenfold in 9 to 11 °F."""
    for table in TABLES.values():
        degrees, seconds = zip(*table.rows, strict=True)
        assert list(degrees) == sorted(degrees)
        assert list(seconds) == sorted(seconds, reverse=True)
    rows = TABLES[Meat.ROAST].rows
    (low, slow), (high, fast) = rows[0], rows[-2]
    assert (high - low) / log10(slow / fast) == pytest.approx(10, abs=0.5)
    assert [meat for meat, table in TABLES.items() if table.from_memory] == [Meat.POULTRY_IN_PLANTS]
