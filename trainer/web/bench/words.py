"""How estimates in celsius, grams and minutes are written on the workbench: in the reader's own units first."""

from __future__ import annotations

from fractions import Fraction

from trainer.messages import Text, joined
from trainer.recipe_math.estimates import Writing
from trainer.recipe_math.printing import number_text, written
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.recipe_math.rounding_guide import by_guide
from trainer.web import guard, reading
from trainer.web.filters import NO_BREAK


def is_us_first() -> bool:
    """Return whether this reader reads US units first."""
    return reading.now().units == "us"


def writing() -> Writing:
    """Return how estimates are written for this reader."""
    return Writing(reading.now().units, decimal_mark())


def decimal_mark() -> str:
    """Return the kitchen's decimal mark."""
    return guard.kitchen().file.settings.decimal_mark


def degree_unit() -> str:
    """Return the degrees this reader reads first."""
    return "°F" if is_us_first() else "°C"


def degrees_of(celsius: float) -> float:
    """Return a temperature as a number of the reader's own degrees, for a plot."""
    return float(Quantity.of(Fraction(celsius), "°C").to(degree_unit()).amount)


def mass_unit() -> str:
    """Return the small weight this reader reads first."""
    return "oz" if is_us_first() else "g"


def mass_of(grams: float) -> float:
    """Return a weight as a number of the reader's own small weight, for a plot."""
    return float(Quantity.of(Fraction(grams), "g").to(mass_unit()).amount)


def in_celsius(celsius: float) -> Quantity:
    """Return an estimate in celsius as a quantity, to be written."""
    return Quantity.of(Fraction(celsius), "°C")


def in_grams(grams: float) -> Quantity:
    """Return an estimate in grams as a quantity, to be written."""
    return Quantity.of(Fraction(grams), "g")


def warmth(celsius: float) -> Text:
    """Return a temperature in whole degrees both ways, unbroken at its sign: 135 °F (57 °C)."""
    fahrenheit, metric = (f"{number(in_celsius(celsius).to(unit).amount, 0)}{NO_BREAK}{unit}" for unit in ("°F", "°C"))
    return beside(fahrenheit, metric) if is_us_first() else beside(metric, fahrenheit)


def finely(quantity: Quantity) -> Text:
    """Return a weighing to two decimals in its own unit, with the other system beside it: 6.55 oz (186 g)."""
    system = "us" if quantity.unit.system == "metric" else "metric"
    own = f"{number(quantity.amount, 2)} {quantity.unit.symbol}"
    return beside(own, written(quantity, system, decimal_mark()))


def both(quantity: Quantity) -> Text:
    """Return an amount rounded and written in both systems, the reader's own first; once where both read the same."""
    first, second = sides(quantity)
    return first if first == second else beside(first, second)


def beside(first: Text, second: Text) -> Text:
    """Return one writing with another in brackets behind it, each still to be said in any language."""
    return joined([first, joined(["(", second, ")"], "")])


def roughly(volume: Quantity) -> Text:
    """Return a volume both ways for filling a jug, US measures rounded by the published guide where it has a step."""
    metric = written(volume, "metric", decimal_mark())
    try:
        us = written(by_guide(volume, keeps_ratio=True), "us", decimal_mark())
    except QuantityProblem:
        us = written(volume, "us", decimal_mark())
    return beside(us, metric) if is_us_first() else beside(metric, us)


def sides(quantity: Quantity) -> tuple[Text, Text]:
    """Return an amount written in the reader's own system, and in the other."""
    systems = ("us", "metric") if is_us_first() else ("metric", "us")
    own, other = (written(quantity, system, decimal_mark()) for system in systems)
    return own, other


def number(value: Fraction | int, places: int = 1) -> str:
    """Return a number with so many decimals at most."""
    return number_text(value, places, decimal_mark())
