"""The measured lines of one file worked out: each once, whatever order they stand in, and no line from itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from trainer.content.mapping_reader import nearest
from trainer.content.sums import Formula
from trainer.kitchen.technique import Limit
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension

COMPUTED = "computed"
TIDY = (("oz", "lb"), ("g", "kg"), ("mL", "L"))


@dataclass
class ComputedLines:
    """The lines of one file while those with a formula are worked out.

    `typed` and `amounts` are what they may name. None stands for what is there and has a problem of its own, told
    already, so that a sum over it stays silent.
    """

    formulas: Mapping[str, Formula]
    typed: Mapping[str, Limit | None]
    amounts: Mapping[str, Quantity | None]
    done: dict[str, Quantity | None] = field(default_factory=dict)

    def line(self, key: str) -> Limit | None:
        """Return the line with this id, worked out; None, with the reasons added, where it cannot be."""
        value, found = self._value(key, (), self.formulas[key]), self.formulas[key]
        if value is None:
            return None
        value = _tidy(value)
        if found.give_or_take is None:
            return Limit(key, None, None, value, COMPUTED, found.place)
        try:
            return Limit(key, value - found.give_or_take, value + found.give_or_take, value, COMPUTED, found.place)
        except WrongDimension as problem:
            found.at.add(f"{key}: {problem}", "Use units of one kind in one line.")
            return None

    def _value(self, key: str, path: tuple[str, ...], asking: Formula) -> Quantity | None:
        """Return the one number of a line; None, with a problem added to the line that asks, where it has none."""
        if key in path:
            around = " from ".join([*path[path.index(key) :], key])
            asking.at.add(f"A circle: {around}.", "Type the number of one of them, with its source.")
            return None
        if key in self.formulas:
            if key not in self.done:
                self.done[key] = self._worked(key, path)
            return self.done[key]
        if key in self.amounts:
            return self.amounts[key]
        return self._typed(key, asking)

    def _typed(self, key: str, asking: Formula) -> Quantity | None:
        """Return the target of a typed line."""
        if key not in self.typed:
            known = {*self.formulas, *self.typed, *self.amounts} - {asking.at.name}
            asking.at.add(f"{asking.at.name} names {key!r}, which is no line here.", nearest(key, known))
        limit = self.typed.get(key)
        if limit is None:
            return None
        if limit.target is None:
            problem = f"{asking.at.name} needs one number, and {key} runs from a lowest or to a highest value."
            asking.at.add(problem, f"Give {key} a target, or work with another line.")
        return limit.target

    def _worked(self, key: str, path: tuple[str, ...]) -> Quantity | None:
        """Return what a sum comes to: above nothing, since nobody weighs out less."""
        found = self.formulas[key]
        values = {name: self._value(name, (*path, key), found) for name in dict.fromkeys(found.names)}
        known = {name: value for name, value in values.items() if value is not None}
        if len(known) < len(values):
            return None
        try:
            value = found.result(known)
        except QuantityProblem as problem:
            found.at.add(f"{key} cannot be worked out ({found.words}): {problem}", "Look at the lines it names.")
            return None
        if value.amount <= 0 and not value.unit.dimension.startswith("temperature"):
            found.at.add(f"{key} ({found.words}) comes to {value}.", "Turn it around, or look at the lines it names.")
            return None
        return value


def _tidy(value: Quantity) -> Quantity:
    """Return the same amount in the larger or smaller unit a cook would say it in; 78 oz is a matter of pounds."""
    for small, large in TIDY:
        if value.unit.symbol in (small, large):
            in_large = value.to(large)
            return in_large if in_large.amount >= 1 else value.to(small)
    return value
