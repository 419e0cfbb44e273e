"""When to start each thing on a ticket so that all of it lands together.

Times are the house's own, from the start on the fire to the plate. What decides that food is done is its thermometer,
its look and its feel, never this clock; what must reach a temperature is measured.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from trainer.messages import message
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension, kind_word


@dataclass(frozen=True, slots=True)
class Item:
    """Something on a ticket: how long it takes on the fire, and how long it must rest before it is plated.

    Both durations (WrongDimension), not negative and not both nothing (QuantityProblem).
    """

    name: str
    takes: Quantity
    rests: Quantity = field(default_factory=lambda: Quantity.of(0, "min"))

    def __post_init__(self) -> None:
        """Refuse what is no time."""
        for given in (self.takes, self.rests):
            if given.unit.dimension != "duration":
                raise WrongDimension(
                    message(
                        "{name}: {given} is {kind}, not a time.",
                        name=self.name,
                        given=given,
                        kind=kind_word(given.unit),
                    )
                )
            if given.amount < 0:
                raise QuantityProblem(
                    message("{name}: a time of {given} is not possible.", name=self.name, given=given)
                )
        if self.takes.base + self.rests.base == 0:
            raise QuantityProblem(message("{name} takes no time: leave it out.", name=self.name))

    def altogether(self) -> Quantity:
        """Return the time from the start to the plate, rest included.

        >>> print(Item("steak", Quantity.of(9, "min"), Quantity.of(4, "min")).altogether())
        13 min
        """
        return self.takes + self.rests


@dataclass(frozen=True, slots=True)
class PickupStart:
    """When to start one thing: so long after the first, which is so long before the plate."""

    name: str
    after_first: Quantity
    before_plate: Quantity


def starts(items: Iterable[Item]) -> tuple[PickupStart, ...]:
    """Return when to start each thing so that all land together: the slowest first; ties keep the order given.

    Times are in minutes, exactly. There is at least one item, no two of one name (QuantityProblem). Common practice.

    >>> ticket = [Item("pasta", Quantity.of(3, "min")), Item("steak", Quantity.of(9, "min"), Quantity.of(4, "min"))]
    >>> [f"{start.name} after {start.after_first}" for start in starts(ticket)]
    ['steak after 0 min', 'pasta after 10 min']
    """
    ticket = _good(items)
    slowest = max(item.altogether() for item in ticket).to("min")
    by_need = sorted(ticket, key=lambda item: item.altogether(), reverse=True)
    return tuple(_start(item, slowest) for item in by_need)


def _start(item: Item, slowest: Quantity) -> PickupStart:
    need = item.altogether().to("min")
    return PickupStart(item.name, slowest - need, need)


def _good(items: Iterable[Item]) -> list[Item]:
    ticket = list(items)
    if not ticket:
        raise QuantityProblem(message("There is nothing to start: give at least one thing."))
    names = [item.name for item in ticket]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise QuantityProblem(
            message("{twice} is on the ticket twice: start two portions as one, or name them apart.", twice=twice)
        )
    return ticket
