"""How many quantities a second are read and printed, on one core; printed as a table, never a pass or fail by time."""

from __future__ import annotations

from time import process_time

import pytest

from trainer.recipe_math.parsing import NotAQuantity, parse_quantity
from trainer.recipe_math.printing import both_ways
from trainer.recipe_math.quantity import Quantity

ROWS = {
    "a number and a unit": "510 g",
    "a whole number and a fraction": "2 1/2 cups",
    "a decimal": "1.25 kg",
    "a one-sign fraction": "1½ cups",
    "pounds and ounces": "1 lb 2 oz",
    "a sum": "1 Tbsp + 1 tsp",
    "a temperature": "350°F",
    "a can with its size": "1 (14.5 oz) can",
    "a box": "12x20x2.5 in",
}
TIMES = 5_000


def read(text: str) -> Quantity:
    return parse_quantity(text, decimal_mark=".")


def a_second(started: float, done: int) -> int:
    return round(done / (process_time() - started))


@pytest.mark.bench
def test_quantities_a_second() -> None:
    """Parsing: the figure the project is held to is 100,000 a second on one core."""
    print(f"\n{'what is read':<32}{'a second':>12}")
    for what, text in ROWS.items():
        started = process_time()
        for _ in range(TIMES):
            read(text)
        print(f"{what:<32}{a_second(started, TIMES):>12,}")
    mixed = [f"{n} 1/2 cups" if n % 3 else f"{n} lb {n % 16} oz" for n in range(1, TIMES)]
    started = process_time()
    for text in mixed:
        read(text)
    print(f"{'all different':<32}{a_second(started, len(mixed)):>12,}")
    assert read("2 1/2 cups").amount * 2 == 5


@pytest.mark.bench
def test_writings_and_refusals_a_second() -> None:
    """Printing in both systems, and refusing what is no quantity, however long or twisted."""
    dough = Quantity.of("4.35", "lb")
    started = process_time()
    for _ in range(TIMES):
        both_ways(dough)
    print(f"\n{'printed both ways':<40}{a_second(started, TIMES):>12,}")
    for what, text in {"a pinch": "a pinch", "10 MB of nines": "9" * 10_000_000, "spaces": "1" + " " * 198 + "x",
                       "slashes": "1/" * 100, "oz of spaces": "1 oz " * 39 + "w"}.items():  # fmt: skip
        started = process_time()
        for _ in range(50):
            with pytest.raises(NotAQuantity):
                read(text)
        print(f"{'refused: ' + what:<40}{a_second(started, 50):>12,}")
