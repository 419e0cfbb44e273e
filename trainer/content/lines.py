"""Measured lines as they are typed in content files: a target with its tolerance, a lowest and a highest value."""

from __future__ import annotations

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.kinds import Kind, Written
from trainer.content.mapping_reader import SHORT, MappingReader, shown
from trainer.content.nodes import Node, ScalarNode
from trainer.kitchen.technique import Limit
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import TEMPERATURE, Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.units import unit

VALUES = {"target", "give_or_take", "lowest", "highest", "within"}
SHAPES = ({"target"}, {"target", "give_or_take"}, {"lowest"}, {"highest"}, {"lowest", "highest"}, {"within"})
SHAPES_HINT = "Write target (with give_or_take), lowest, highest, lowest and highest, or within."
AMOUNT_HINT = "Write a number and a unit: 4.5 oz, 57 C, 2 h."


def amount(*, is_difference: bool = False) -> Kind:
    """Return a number and a unit; of temperatures a difference, where it is what may be given or taken."""

    def read(node: Node, name: str, at: MappingReader) -> Quantity | None:
        if not isinstance(node, ScalarNode):
            at.diagnostics.add(node.line, f"{name} is {shown(node)}, not a quantity.", AMOUNT_HINT)
            return None
        try:
            read = parse_quantity(node.value, decimal_mark=".", kind=TEMPERATURE)
        except QuantityProblem as problem:
            at.diagnostics.add(node.line, f"{name} is {shown(node)}. {problem}", AMOUNT_HINT)
            return None
        if is_difference and read.unit.dimension == TEMPERATURE:
            return Quantity(read.amount, unit(f"{read.unit.symbol} difference"))
        return read

    return Kind("amount, 4.5 oz", read, {**kinds.text(SHORT).schema, kinds.AMOUNT: True})


class TypedLine(Block):
    """A measured line as it is typed, with its source."""

    some_of = ("target", "lowest", "highest", "within")

    target: Quantity | None = optional(amount(), "The value itself; alone it is named and never judged.")
    give_or_take: Quantity | None = optional(amount(is_difference=True), "How far from the target is still right.")
    lowest: Quantity | None = optional(amount(), "The lowest value that is right.")
    highest: Quantity | None = optional(amount(), "The highest value that is right.")
    within: Quantity | None = optional(amount(is_difference=True), "How far off a tool may be.")
    source: str = key(kinds.source(), "Who says so; house where the kitchen itself does.")
    place: str = optional(kinds.text(), "Where in the source, or how it was found.")

    def limit(self) -> Limit | None:
        """Return the line; None, with a problem, where what is typed is no line to measure by."""
        id, at = self.at.name, self.at
        given = {name for name in VALUES if getattr(self, name) is not None}
        if not self.source or given != at.nodes.keys() & VALUES:
            return None
        if given not in SHAPES:
            what = " and ".join(sorted(given)) or "nothing"
            at.add(f"{id} says {what}, which is no line to measure by.", SHAPES_HINT)
            return None
        try:
            lowest, highest = self._ends()
            if lowest is not None and highest is not None and lowest > highest:
                at.add(f"{id} runs from {lowest} to {highest}.", "Write the lower value first.")
                return None
        except WrongDimension as problem:
            at.add(f"{id}: {problem}", "Use units of one kind in one line.")
            return None
        return Limit(id, lowest, highest, self.target, self.source, self.place)

    def _ends(self) -> tuple[Quantity | None, Quantity | None]:
        """Return the lowest and the highest value the line admits."""
        if self.target is not None and self.give_or_take is not None:
            return self.target - self.give_or_take, self.target + self.give_or_take
        return self.lowest, self.within if self.within is not None else self.highest


class RecipeLine(Block):
    """A line of a recipe, written there and named here."""

    told_by = "recipe"

    recipe: Written | None = key(
        kinds.placed_text(SHORT), "A recipe and its line, an ingredient's weight, or its portion: durum_dough.boil."
    )
    give_or_take: Quantity | None = optional(amount(is_difference=True), "How far from its target is still right.")
    source: str = key(kinds.source(of="the give_or_take"), "Who says so.", beside=("give_or_take",), alone=False)
