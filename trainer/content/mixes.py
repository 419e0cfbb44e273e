"""How warm things come out when they are whisked together: a measured line worked out from weights and temperatures."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from trainer.content.schema import SHORT, Fields
from trainer.kitchen.tempering_bench import BASES, LIQUIDS, Food, grams_of
from trainer.recipe_math.estimates import in_celsius
from trainer.recipe_math.heat import Part, mixed
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS

FOODS: Mapping[str, Food] = {**{key: base.food for key, base in BASES.items()}, **LIQUIDS}
FEWEST = 2


def mix_of(fields: Fields) -> tuple[tuple[str, ...], str, Callable[[Mapping[str, Quantity]], Quantity]]:
    """Read `{mix: [{food: yolks, amount: yolks, at: cold}, {food: milk, amount: ladle, at: hot}]}`.

    Each part names its food, a line with its weight or volume, and a line with its temperature. What comes out is an
    estimate, to a whole degree: the heat of each food, and nothing lost to bowl or air.
    """
    parts = []
    for node in fields.many("mix"):
        inner = Fields.of(node, fields.sheet, "a part of the mix")
        food, amount, at = (
            inner.one_of("food", FOODS),
            inner.text("amount", longest=SHORT),
            inner.text("at", longest=SHORT),
        )
        inner.close()
        parts.append((food, amount, at))
    if len(parts) < FEWEST:
        fields.sheet.note(fields.line, f"{fields.name} mixes fewer than two things.", "Name two parts or more.")

    def warmth(values: Mapping[str, Quantity]) -> Quantity:
        return _mixed([(FOODS[food], values[amount], values[at]) for food, amount, at in parts])

    words = " + ".join(f"{amount} at {at}".replace("_", " ") for _, amount, at in parts)
    return tuple(name for part in parts for name in part[1:]), f"{words}, an estimate by the heat of each", warmth


def _mixed(parts: list[tuple[Food, Quantity, Quantity]]) -> Quantity:
    """Return how warm the parts come out together, in whole degrees Celsius."""
    warm = [(food, amount, in_celsius(at)) for food, amount, at in parts]
    together = mixed([Part.of_food(food.made_of, grams_of(amount, food, at), at) for food, amount, at in warm])
    return Quantity(Fraction(round(together.celsius)), UNITS["°C"])
