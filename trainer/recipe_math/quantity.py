"""Exact quantities: a number, a unit, and the dimension both belong to.

Every amount is a Fraction, so conversion loses nothing; rounding happens only where a number is printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import NoReturn, Self, overload

from trainer.messages import Text, message, translate
from trainer.recipe_math.figures import is_short_decimal, number_text

TEMPERATURE = "temperature"
TEMPERATURE_DIFFERENCE = "temperature difference"
COUNT = "count"
OWN_MEASURES = frozenset({"us_exact", "us_label", "imperial"})
"""The three systems whose pints and cups differ; amounts in two of them are never put together."""


class QuantityProblem(ValueError):
    """A text or a sum that is not a usable quantity; `reason` names the value and the rule."""

    def __init__(self, reason: Text) -> None:
        """Keep the reason, to be printed in any language."""
        super().__init__(reason)
        self.reason = reason

    def __str__(self) -> str:
        """Return the reason in English, for a log."""
        return translate(self.reason)


class WrongDimension(QuantityProblem):
    """A weight was met where a volume was wanted, or the like."""


class MixedSystems(QuantityProblem):
    """US, US label and imperial measures met in one sum."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: base = (amount + offset) x factor. Offset is zero except for temperatures in Fahrenheit.

    `system` is metric, customary (lb, oz, in and the like, one size everywhere), us_exact, us_label or imperial.
    A dimension such as "count:can" counts cans; plain "count" counts anything.
    """

    symbol: str
    dimension: str
    factor: Fraction
    offset: Fraction = Fraction(0)
    system: str = "metric"

    def is_same_kind(self, other: Unit) -> bool:
        """Return whether amounts in both units can be converted: one dimension, or a count and a count of things.

        >>> from trainer.recipe_math.units import unit
        >>> unit("dozen").is_same_kind(unit("can")), unit("egg").is_same_kind(unit("can"))
        (True, False)
        """
        if self.dimension == other.dimension:
            return True
        counts = self.dimension.startswith(COUNT) and other.dimension.startswith(COUNT)
        return counts and COUNT in (self.dimension, other.dimension)


@dataclass(frozen=True, slots=True, eq=False)
class Quantity:
    """An exact amount in a unit; two are equal when they are the same much, whatever the units.

    `each` is the size of one piece where the amount is a count with a size: 2 cans of 14.5 oz each. A float is refused
    (QuantityProblem): most decimals are not in it, only something near them.

    >>> from trainer.recipe_math.units import unit
    >>> Quantity(1.5, unit("cup"))
    Traceback (most recent call last):
    trainer.recipe_math.quantity.QuantityProblem: 1.5 is a float, which holds most decimals only nearly: give a whole \
number, a Fraction, or the figures as text.
    """

    amount: Fraction
    unit: Unit
    each: Quantity | None = None

    def __post_init__(self) -> None:
        """Refuse an amount that is not exact; a whole number becomes a Fraction."""
        if type(self.amount) is not Fraction:
            object.__setattr__(self, "amount", exactly(self.amount))

    @classmethod
    def of(cls, amount: Fraction | int | str, unit: Unit | str) -> Self:
        """Return a quantity from a number (or its text, as Fraction reads it) and a unit or its name.

        A text that is no number and a float are refused (QuantityProblem); what a cook wrote is read by
        `parsing.parse_quantity`.

        >>> print(Quantity.of("4.35", "lb"), "=", Quantity.of("69.6", "oz").to("lb"))
        4.35 lb = 4.35 lb
        """
        return cls(exactly(amount), _found(unit))

    @property
    def base(self) -> Fraction:
        """Return the amount in the base unit of the dimension: g, mL, mm, °C, s, one piece, one of the money.

        >>> Quantity.of(212, "°F").base
        Fraction(100, 1)
        """
        unit = self.unit
        return (self.amount + unit.offset if unit.offset else self.amount) * unit.factor

    def to(self, wanted: Unit | str) -> Quantity:
        """Return the same amount in another unit of the same kind, exactly.

        A weight never becomes a volume, a temperature never a difference of temperatures: WrongDimension. US label
        measures are rounded by law (a cup is 240 mL), so they convert to metric alone: MixedSystems.

        >>> Quantity.of(1, "lb").to("g").amount
        Fraction(45359237, 100000)
        """
        unit = _found(wanted)
        _refuse_other_kind(self.unit, unit)
        systems = {self.unit.system, unit.system}
        if "us_label" in systems and len(systems & OWN_MEASURES) > 1:
            raise MixedSystems(
                message(
                    "{quantity} to {unit}: a label measure is rounded by law and converts to metric only.",
                    quantity=self,
                    unit=unit.symbol,
                )
            )
        amount = self.base / unit.factor
        return Quantity(amount - unit.offset if unit.offset else amount, unit, self.each)

    def whole(self) -> Quantity:
        """Return how much a count with a size is altogether; any other quantity as it is.

        >>> from trainer.recipe_math.parsing import parse_quantity
        >>> print(parse_quantity("2 (14.5 oz) cans").whole())
        29 oz
        """
        return self if self.each is None else self.each * self.base

    def __add__(self, other: Quantity) -> Quantity:
        """Return the sum in this one's unit; a temperature takes only a difference."""
        if self.unit.dimension == TEMPERATURE:
            _refuse_not(
                other,
                TEMPERATURE_DIFFERENCE,
                message("{other} cannot be added to {quantity}: add a difference.", other=other, quantity=self),
            )
            return self._moved(other)
        self._refuse_mixing(other)
        if self.unit is other.unit:
            return Quantity(self.amount + other.amount, self.unit, self.each)
        return Quantity((self.base + other.base) / self.unit.factor, self.unit, self.each)

    def __sub__(self, other: Quantity) -> Quantity:
        """Return what is left in this one's unit; between two temperatures, the difference."""
        if self.unit.dimension == TEMPERATURE:
            if other.unit.dimension == TEMPERATURE:
                return self._apart_from(other)
            _refuse_not(
                other,
                TEMPERATURE_DIFFERENCE,
                message("{other} cannot be taken from {quantity}: take a difference.", other=other, quantity=self),
            )
            return self._moved(-other)
        self._refuse_mixing(other)
        if self.unit is other.unit:
            return Quantity(self.amount - other.amount, self.unit, self.each)
        return Quantity((self.base - other.base) / self.unit.factor, self.unit, self.each)

    def __neg__(self) -> Quantity:
        """Return the same amount the other way."""
        return Quantity(-self.amount, self.unit, self.each)

    def __radd__(self, other: int) -> Quantity:
        """Return this quantity: what `sum` begins with is nothing yet.

        >>> print(sum([Quantity.of(1, "lb"), Quantity.of(8, "oz")]))
        1.5 lb
        """
        if other != 0:
            raise QuantityProblem(message("{number} has no unit: write it as a quantity.", number=exactly(other)))
        return self

    def __mul__(self, times: Fraction | int) -> Quantity:
        """Return so many times this; a temperature has no double."""
        factor = times if type(times) is Fraction else exactly(times)
        if self.unit.dimension == TEMPERATURE:
            self._refuse_temperature(message("times {times}", times=factor))
        return Quantity(self.amount * factor, self.unit, self.each)

    __rmul__ = __mul__

    @overload
    def __truediv__(self, by: Quantity) -> Fraction: ...

    @overload
    def __truediv__(self, by: Fraction | int) -> Quantity: ...

    def __truediv__(self, by: Quantity | Fraction | int) -> Quantity | Fraction:
        """Return this shared out among a number; by another quantity, how many times that one goes into this.

        >>> print(Quantity.of(2, "lb") / 4, Quantity.of(2, "lb") / Quantity.of(8, "oz"))
        0.5 lb 4
        """
        if isinstance(by, Quantity):
            return self._over(by)
        share = exactly(by)
        if self.unit.dimension == TEMPERATURE:
            self._refuse_temperature(message("divided by {by}", by=share))
        if share == 0:
            raise QuantityProblem(message("{quantity} cannot be divided by zero.", quantity=self))
        return Quantity(self.amount / share, self.unit, self.each)

    def _over(self, other: Quantity) -> Fraction:
        self._refuse_mixing(other)
        if self.unit.dimension == TEMPERATURE:
            self._refuse_temperature(message("divided by {other}", other=other))
        one, two = (self.amount, other.amount) if self.unit is other.unit else (self.base, other.base)
        if not two:
            raise QuantityProblem(message("{quantity} cannot be divided by {other}.", quantity=self, other=other))
        return one / two

    def __eq__(self, other: object) -> bool:
        """Return whether both are the same much of the same kind."""
        if not isinstance(other, Quantity):
            return NotImplemented
        return self._sameness() == other._sameness()

    def __hash__(self) -> int:
        """Return a number that equal quantities share."""
        return hash(self._sameness())

    def __lt__(self, other: Quantity) -> bool:
        """Return whether this is less."""
        _refuse_other_kind(self.unit, other.unit)
        return self.base < other.base

    def __le__(self, other: Quantity) -> bool:
        """Return whether this is no more."""
        _refuse_other_kind(self.unit, other.unit)
        return self.base <= other.base

    def __gt__(self, other: Quantity) -> bool:
        """Return whether this is more."""
        return other < self

    def __ge__(self, other: Quantity) -> bool:
        """Return whether this is no less."""
        return other <= self

    def __str__(self) -> str:
        """Return the amount and the unit's symbol, plainly and exactly: a decimal where six places hold it."""
        number = number_text(self.amount, 6) if is_short_decimal(self.amount, 6) else str(self.amount)
        size = f" of {self.each}" if self.each is not None else ""
        return f"{number} {self.unit.symbol}{size}"

    def __format__(self, way: str) -> str:
        """Return the quantity in English, rounded as cooks read it: "us", "metric", or "both"; without a way, exactly.

        >>> f"{Quantity.of('4.35', 'lb'):us}, {Quantity.of('4.35', 'lb'):metric}, {Quantity.of('4.35', 'lb')}"
        '4 lb 5 1/2 oz, 1.973 kg, 4.35 lb'
        """
        from trainer.recipe_math import printing

        if not way:
            return str(self)
        return translate(printing.both_ways(self) if way == "both" else printing.written(self, way))

    def as_text(self) -> str:
        """Return the quantity as a refusal names it: plainly and exactly, in its own unit."""
        return str(self)

    def _sameness(self) -> tuple[str, Fraction, Quantity | None]:
        return (self.unit.dimension, self.base, self.each)

    def _moved(self, difference: Quantity) -> Quantity:
        return Quantity(self.amount + difference.base / self.unit.factor, self.unit)

    def _apart_from(self, other: Quantity) -> Quantity:
        symbol = f"{self.unit.symbol} difference"
        return Quantity((self.base - other.base) / self.unit.factor, _found(symbol))

    def _refuse_temperature(self, doing: Text) -> NoReturn:
        raise WrongDimension(
            message(
                "{quantity} {doing} means nothing: a temperature is a place, not an amount.",
                quantity=self,
                doing=doing,
            )
        )

    def _refuse_mixing(self, other: Quantity) -> None:
        if self.unit is other.unit and self.each is other.each:
            return
        _refuse_other_kind(self.unit, other.unit)
        if self.each != other.each:
            raise QuantityProblem(
                message(
                    "{quantity} and {other} are different sizes: turn both into weight or volume first.",
                    quantity=self,
                    other=other,
                )
            )
        if len({self.unit.system, other.unit.system} & OWN_MEASURES) > 1:
            raise MixedSystems(
                message(
                    "{quantity} and {other} belong to different systems of measures: convert one first.",
                    quantity=self,
                    other=other,
                )
            )


def exactly(number: Fraction | int | str) -> Fraction:
    """Return a number as an exact fraction, from a whole number, a fraction, a decimal or its figures.

    A float is refused, and so is a text that is no number (QuantityProblem).

    >>> exactly("4.35"), exactly("3/4")
    (Fraction(87, 20), Fraction(3, 4))
    """
    if not isinstance(number, int | str | Fraction | Decimal):
        raise QuantityProblem(
            message(
                "{number} is a {kind}, which holds most decimals only nearly: give a whole number, a Fraction, or the "
                "figures as text.",
                number=repr(number),
                kind=type(number).__name__,
            )
        )
    try:
        return Fraction(number)
    except (ValueError, OverflowError, ZeroDivisionError):
        raise QuantityProblem(
            message("{number} is no number: write figures, as in 4.35 or 3/4.", number=repr(number)[:60])
        ) from None


_KINDS = {
    "mass": message("mass"),
    "volume": message("volume"),
    "length": message("length"),
    "duration": message("duration"),
    "share": message("share"),
    COUNT: message("count"),
    TEMPERATURE: message("temperature"),
    TEMPERATURE_DIFFERENCE: message("temperature difference"),
}


def kind_word(unit: Unit) -> Text:
    """Return what a unit measures in one word, to be said in any language: mass, volume; things and money by name.

    >>> kind_word(Quantity.of(1, "lb").unit)
    message('mass')
    """
    return _KINDS.get(unit.dimension, unit.dimension)


def _found(unit: Unit | str) -> Unit:
    from trainer.recipe_math import units

    return unit if isinstance(unit, Unit) else units.unit(unit)


def _refuse_other_kind(one: Unit, other: Unit) -> None:
    if not one.is_same_kind(other):
        raise WrongDimension(
            message(
                "{one} is {kind}, {other} is {another}: they are not the same kind.",
                one=one.symbol,
                kind=kind_word(one),
                other=other.symbol,
                another=kind_word(other),
            )
        )


def _refuse_not(quantity: Quantity, dimension: str, message: Text) -> None:
    if quantity.unit.dimension != dimension:
        raise WrongDimension(message)
