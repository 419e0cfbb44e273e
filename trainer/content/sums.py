"""How a measured line is worked out from other lines of the same file, so that no number is typed twice.

Units may differ within one kind; `in: fl oz` names the unit the result is told in.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import reduce

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.kinds import Kind
from trainer.content.lines import RecipeLine, TypedLine, amount
from trainer.content.mapping_reader import ID, SHORT, MappingReader, shown
from trainer.content.nodes import Node, ScalarNode, SequenceNode
from trainer.kitchen.tempering_bench import BASES, LIQUIDS, Food, grams_of
from trainer.recipe_math.estimates import in_celsius
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.heat import Part, mixed
from trainer.recipe_math.parsing import parse_number
from trainer.recipe_math.quantity import COUNT, Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.scaling import ratio
from trainer.recipe_math.units import UNITS

PLAIN = ("share", COUNT)
FOODS: Mapping[str, Food] = {**{name: base.food for name, base in BASES.items()}, **LIQUIDS}

Names = tuple[str, ...]
Values = Mapping[str, Quantity]


def line_names(fewest: int = 1) -> Kind:
    """Return the names of lines of the same file, one or a list; none where something else is written."""

    def read(node: Node, name: str, at: MappingReader) -> Names:
        items = node.items if isinstance(node, SequenceNode) else (node,)
        names = [item.value for item in items if isinstance(item, ScalarNode) and ID.fullmatch(item.value)]
        if len(names) == len(items) >= fewest:
            return tuple(names)
        what = "a line" if fewest == 1 else "two lines or more"
        message = f"{name} of {at.name} is {shown(node)}, which does not name {what}."
        at.diagnostics.add(node.line, message, "Name lines of this file: `[durum, water]`.")
        return ()

    one, several = kinds.own_id().schema, kinds.list_of(kinds.own_id(), fewest).schema
    if fewest > 1:
        return Kind("list: lines", read, several, ())
    return Kind("a line, or a list of lines", read, {"anyOf": [one, several]}, ())


def number_or_names() -> Kind:
    """Return a plain number above nothing, or the names of lines."""
    names = line_names()

    def read(node: Node, name: str, at: MappingReader) -> Fraction | Names:
        if not isinstance(node, ScalarNode) or ID.fullmatch(node.value):
            found: Names = names.read(node, name, at)
            return found
        try:
            value = parse_number(node.value, decimal_mark=".")
        except QuantityProblem:
            value = Fraction(0)
        if value <= 0:
            hint = "Write a number above nothing (12, 1/2, 2.5), or name a line."
            at.diagnostics.add(node.line, f"{name} of {at.name} is {shown(node)}.", hint)
        return value

    return Kind("a number, a line, or a list of lines", read, {"type": ["number", "string", "array"]}, ())


def unit_symbol() -> Kind:
    """Return the symbol of a unit; empty where there is no such unit."""

    def check(own: str, _node: Node, _name: str, at: MappingReader) -> str:
        if not own or own in UNITS:
            return own
        at.add(f"{own!r} is no unit.", "Name one the sum can be told in: fl oz, g, min.")
        return ""

    return kinds.text().then("unit", check)


class Formula(Block):
    """A line that is worked out."""

    own_unit: str = optional(unit_symbol(), "The unit the result is told in, such as fl oz.", name="in")
    give_or_take: Quantity | None = optional(amount(is_difference=True), "How far from the result is still right.")
    source: str = key(kinds.source(of="the give_or_take"), "Who says so.", beside=("give_or_take",), alone=False)

    @property
    def names(self) -> Names:
        """Return the lines it names."""
        return self._names()

    @property
    def words(self) -> str:
        """Return the formula as it would be written by hand: "durum + semolina", "water / (durum + semolina)"."""
        return self._words()

    def result(self, values: Values) -> Quantity:
        """Return the result, from the values of the lines it names, in the unit it is told in."""
        value = self._value(values)
        return value.to(self.own_unit) if self.own_unit else value

    def _names(self) -> Names:
        raise NotImplementedError

    def _words(self) -> str:
        raise NotImplementedError

    def _value(self, values: Values) -> Quantity:
        raise NotImplementedError

    @property
    def place(self) -> str:
        """Return how the line comes about, with the source of its tolerance."""
        return f"{self.words}; what it may give or take: {self.source}" if self.give_or_take else self.words


class Total(Formula):
    """All of them together."""

    told_by = "sum"

    sum: Names = key(line_names(2), "The lines.")

    def _names(self) -> Names:
        return self.sum

    def _words(self) -> str:
        return _written(self.sum)

    def _value(self, values: Values) -> Quantity:
        return _together(self.sum, values)


class Rest(Formula):
    """What is left."""

    told_by = "take"

    take: Names = key(line_names(), "What is taken away.")
    whole: Names = key(line_names(), "What it is taken from.", name="from")

    def _names(self) -> Names:
        return self.take + self.whole

    def _words(self) -> str:
        return f"{_written(self.whole)} - {_written(self.take, ' - ')}"

    def _value(self, values: Values) -> Quantity:
        return reduce(lambda left, name: left - values[name], self.take, _together(self.whole, values))


class Multiple(Formula):
    """So many times."""

    told_by = "times"

    times: Names = key(line_names(), "The lines.")
    by: Fraction | Names = key(number_or_names(), "How many times: 12, 1/2, or a line that is a count or a share.")

    def _names(self) -> Names:
        return self.times + (self.by if isinstance(self.by, tuple) else ())

    def _words(self) -> str:
        by = _bracketed(self.by) if isinstance(self.by, tuple) else number_text(self.by, 4)
        return f"{_bracketed(self.times)} × {by}"

    def _value(self, values: Values) -> Quantity:
        by = _plain(_together(self.by, values)) if isinstance(self.by, tuple) else self.by
        return _together(self.times, values) * by


class ShareOf(Formula):
    """One as a percentage of another."""

    told_by = "share"

    share: Names = key(line_names(), "The part.")
    of: Names = key(line_names(), "The whole.")

    def _names(self) -> Names:
        return self.share + self.of

    def _words(self) -> str:
        return f"{_bracketed(self.share)} / {_bracketed(self.of)}"

    def _value(self, values: Values) -> Quantity:
        return Quantity(100 * ratio(_together(self.share, values), _together(self.of, values)), UNITS["%"])


class MixPart(Block):
    """A part of the mix."""

    called = "a part of the mix"

    food: str = key(kinds.one_of(FOODS), "What it is.")
    amount: str = key(kinds.text(SHORT), "A line with its weight or volume.")
    heat: str = key(kinds.text(SHORT), "A line with its temperature.", name="at")


class Mix(Formula):
    """How warm things come out together, to a whole degree; an estimate: nothing is lost to bowl or air."""

    told_by = "mix"

    mix: tuple[MixPart, ...] = key(kinds.list_of(kinds.nested(MixPart), 2), "The parts.")

    def check(self) -> None:
        """Add a problem where nothing is mixed."""
        if len(self.mix) < 2:
            self.at.add(f"{self.at.name} mixes fewer than two things.", "Name two parts or more.")

    def _names(self) -> Names:
        return tuple(name for part in self.mix for name in (part.amount, part.heat))

    def _words(self) -> str:
        parts = " + ".join(f"{part.amount} at {part.heat}".replace("_", " ") for part in self.mix)
        return f"{parts}, an estimate by the heat of each"

    def _value(self, values: Values) -> Quantity:
        warm = [(FOODS[part.food], values[part.amount], in_celsius(values[part.heat])) for part in self.mix]
        together = mixed([Part.of_food(food.made_of, grams_of(amount, food, at), at) for food, amount, at in warm])
        return Quantity(Fraction(round(together.celsius)), UNITS["°C"])


LINE_SHAPES = (TypedLine, Total, Rest, Multiple, ShareOf, Mix, RecipeLine)
"""What a line of the standard may be; the first is one without any of the others' keys."""


def _together(names: Iterable[str], values: Values) -> Quantity:
    """Return what the lines come to together, in the unit of the first."""
    return reduce(lambda total, part: total + part, (values[name] for name in names))


def _plain(value: Quantity) -> Fraction:
    """Return how many times something is: a share or a count."""
    if not value.unit.dimension.startswith(PLAIN):
        raise WrongDimension(f"{value} is {value.unit.dimension}: multiply by a count or a share.")
    return value.base


def _written(names: Iterable[str], between: str = " + ") -> str:
    """Return names of lines as words."""
    return between.join(name.replace("_", " ") for name in names)


def _bracketed(names: Names) -> str:
    """Return one side of a formula, in brackets where it is a sum itself."""
    return f"({_written(names)})" if len(names) > 1 else _written(names)
