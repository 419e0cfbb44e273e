"""Amounts as an order says them: rounded up, never to nothing, and never in spoons.

Rounding up: USDA Food Buying Guide training slides, 27.6 cans: buy 28. The steps are common practice: a quarter ounce
below a pound, then an ounce; a gram below a kilogram, then ten; a fluid ounce; a millilitre below a litre, then ten.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from trainer.messages import Text, joined
from trainer.recipe_math.printing import written
from trainer.recipe_math.quantity import COUNT, Quantity
from trainer.recipe_math.rounding import up_to
from trainer.recipe_math.units import word_of

FL_OZ = {"gal": 128, "qt": 32, "fl oz": 1}


def on_order(quantity: Quantity, system: str = "metric", decimal_mark: str = ".") -> Text:
    """Return an amount to buy as an order says it, in "metric" or "us"; counts are whole and read alike in both.

    >>> on_order(Quantity.of("0.1", "oz"), "us"), on_order(Quantity.of("0.1", "oz"))
    ('1/4 oz', '3 g')
    >>> from trainer.messages import translate
    >>> translate(on_order(Quantity.of(3, "Tbsp"), "us")), translate(on_order(Quantity.of(41, "fl oz"), "us"))
    ('2 fl oz', '1 qt 9 fl oz')
    """
    dimension = quantity.unit.dimension
    if dimension.startswith(COUNT):
        return written(Quantity(up_to(quantity.amount), quantity.unit), system, decimal_mark)
    if dimension == "volume" and system == "us":
        return _poured(ceil(quantity.to("fl oz").amount))
    return written(rounded_up(quantity, system), system, decimal_mark)


def rounded_up(quantity: Quantity, system: str = "metric") -> Quantity:
    """Return a weight or a volume rounded up to what an order can say.

    >>> print(rounded_up(Quantity.of("1.2", "lb"), "us"), rounded_up(Quantity.of(1, "fl oz")))
    20 oz 30 mL
    """
    if quantity.unit.dimension.startswith(COUNT):
        return Quantity(up_to(quantity.amount), quantity.unit)
    small = {"mass": "oz" if system == "us" else "g", "volume": "mL"}[quantity.unit.dimension]
    amount, turn = quantity.to(small).amount, 16 if small == "oz" else 1000
    fine, coarse = (Fraction(1, 4), Fraction(1)) if small == "oz" else (Fraction(1), Fraction(10))
    return Quantity.of(up_to(amount, fine if amount < turn else coarse), small)


def _poured(fluid_ounces: int) -> Text:
    """Return so many fluid ounces in gallons, quarts and fluid ounces."""
    parts: list[Text] = []
    for symbol, holds in FL_OZ.items():
        number, fluid_ounces = divmod(fluid_ounces, holds)
        if number:
            parts += [str(number), word_of(symbol, number)]
    return joined(parts)
