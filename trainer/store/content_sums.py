"""Measured lines that are worked out from other lines of the same file, so that no number is typed twice.

`{sum: [durum, water]}`, `{take: trim, from: bought}`, `{times: nest, by: 12}` and `{share: water, of: [durum]}` in
percent. Units may differ within one kind; all is exact until it is printed.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import reduce

from trainer.kitchen.technique import Limit
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.parsing import parse_number
from trainer.recipe_math.quantity import COUNT, Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.scaling import ratio
from trainer.recipe_math.units import UNITS
from trainer.store.content_limits import quantity_of, source_of
from trainer.store.content_nodes import Many, Text
from trainer.store.content_schema import ID, Fields, nearest, shown

COMPUTED = "computed"
PARTNERS = {"sum": None, "take": "from", "times": "by", "share": "of"}
"""The four sums, each with the key that goes with it."""
TIDY = (("oz", "lb"), ("g", "kg"), ("mL", "L"))
PLAIN = ("share", COUNT)
NAMES_MEND = "Name lines of this file: `[durum, water]`."


@dataclass(frozen=True, slots=True)
class Sum:
    """A line to be worked out: the names of lines on both sides, or a plain number to multiply by."""

    fields: Fields
    kind: str
    parts: tuple[str, ...]
    others: tuple[str, ...] = ()
    by: Fraction | None = None
    room: Quantity | None = None
    room_source: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """Return every line this one is worked out from."""
        return self.parts + self.others

    @property
    def place(self) -> str:
        """Return the sum as somebody would write it down: "durum + semolina", "water / (durum + semolina)"."""
        one, other = _written(self.parts), _written(self.others)
        match self.kind:
            case "take":
                sum_ = f"{other} - {_written(self.parts, ' - ')}"
            case "times":
                sum_ = f"{_bracketed(one)} × {_bracketed(other) or number_text(self.by or 0, 4)}"
            case "share":
                sum_ = f"{_bracketed(one)} / {_bracketed(other)}"
            case _:
                sum_ = one
        return f"{sum_}; what it may give or take: {self.room_source}" if self.room else sum_


def is_worked_out(fields: Fields) -> bool:
    """Return whether a line says how it is worked out, in place of a number."""
    return not PARTNERS.keys().isdisjoint(fields.nodes)


def sum_of(fields: Fields, sources: Collection[str]) -> Sum | None:
    """Return how a line is worked out; None, with the reasons noted, where that cannot be read."""
    before = len(fields.sheet.problems)
    kind = next(key for key in PARTNERS if key in fields.nodes)
    parts, partner = _names(fields, kind), PARTNERS[kind]
    by = _number(fields, partner) if partner == "by" else None
    others = _names(fields, partner) if partner and by is None else ()
    room = quantity_of(fields, "give_or_take")
    source = source_of(fields, "the give_or_take", sources) if room else ""
    fields.close()
    found = Sum(fields, kind, parts, others, by, room, source)
    return found if len(fields.sheet.problems) == before else None


@dataclass
class WorkedOut:
    """The lines of one file while those with a sum are worked out, each once, whatever order they stand in.

    `typed` and `amounts` are what they may name. None stands for what is there and has a problem of its own, told
    already, so that a sum over it stays silent.
    """

    sums: Mapping[str, Sum]
    typed: Mapping[str, Limit | None]
    amounts: Mapping[str, Quantity | None]
    done: dict[str, Quantity | None] = field(default_factory=dict)

    def line(self, key: str) -> Limit | None:
        """Return the line with this id, worked out; None, with the reasons noted, where it cannot be."""
        value, found = self._value(key, (), self.sums[key]), self.sums[key]
        if value is None:
            return None
        value = _tidy(value)
        if found.room is None:
            return Limit(key, None, None, value, COMPUTED, found.place)
        try:
            return Limit(key, value - found.room, value + found.room, value, COMPUTED, found.place)
        except WrongDimension as problem:
            _note(found, f"{key}: {problem}", "Use units of one kind in one line.")
            return None

    def _value(self, key: str, path: tuple[str, ...], asking: Sum) -> Quantity | None:
        """Return the one number of a line; None where it has none, noted at the line that asks for it."""
        if key in path:
            around = " from ".join([*path[path.index(key) :], key])
            _note(asking, f"A circle: {around}.", "Type the number of one of them, with its source.")
            return None
        if key in self.sums:
            if key not in self.done:
                self.done[key] = self._worked(key, path)
            return self.done[key]
        if key in self.amounts:
            return self.amounts[key]
        return self._typed(key, asking)

    def _typed(self, key: str, asking: Sum) -> Quantity | None:
        """Return the target of a typed line."""
        if key not in self.typed:
            known = {*self.sums, *self.typed, *self.amounts} - {asking.fields.name}
            _note(asking, f"{asking.fields.name} names {key!r}, which is no line here.", nearest(key, known))
        limit = self.typed.get(key)
        if limit is None:
            return None
        if limit.target is None:
            problem = f"{asking.fields.name} needs one number, and {key} runs from a lowest or to a highest value."
            _note(asking, problem, f"Give {key} a target, or work with another line.")
        return limit.target

    def _worked(self, key: str, path: tuple[str, ...]) -> Quantity | None:
        """Return what a sum comes to: above nothing, since nobody weighs out less."""
        found = self.sums[key]
        values = {name: self._value(name, (*path, key), found) for name in dict.fromkeys(found.names)}
        known = {name: value for name, value in values.items() if value is not None}
        if len(known) < len(values):
            return None
        try:
            value = _result(found, [known[name] for name in found.parts], [known[name] for name in found.others])
        except QuantityProblem as problem:
            _note(found, f"{key} cannot be worked out ({found.place}): {problem}", "Look at the lines it names.")
            return None
        if value.amount <= 0 and not value.unit.dimension.startswith("temperature"):
            _note(found, f"{key} ({found.place}) comes to {value}.", "Turn it around, or look at the lines it names.")
            return None
        return value


def _result(found: Sum, parts: list[Quantity], others: list[Quantity]) -> Quantity:
    """Return what the numbers come to, exactly; raises QuantityProblem where the units do not go together."""
    if found.kind == "sum":
        return _together(parts)
    if found.kind == "take":
        return reduce(lambda left, part: left - part, parts, _together(others))
    if found.kind == "share":
        return Quantity(100 * ratio(_together(parts), _together(others)), UNITS["%"])
    return _together(parts) * (found.by if found.by is not None else _plain(others[0]))


def _tidy(value: Quantity) -> Quantity:
    """Return the same amount in the larger or smaller unit a cook would say it in; 78 oz is a matter of pounds."""
    for small, large in TIDY:
        if value.unit.symbol in (small, large):
            in_large = value.to(large)
            return in_large if in_large.amount >= 1 else value.to(small)
    return value


def _together(parts: list[Quantity]) -> Quantity:
    return reduce(lambda total, part: total + part, parts)


def _plain(value: Quantity) -> Fraction:
    """Return how many times something is: a share or a count."""
    if not value.unit.dimension.startswith(PLAIN):
        raise WrongDimension(f"{value} is {value.unit.dimension}: multiply by a count or a share.")
    return value.base


def _names(fields: Fields, key: str) -> tuple[str, ...]:
    """Return the names of lines under a key, one or a list; anything else is noted."""
    node = fields.node(key)
    if node is None:
        return ()
    items = node.items if isinstance(node, Many) else (node,)
    names = [item.value for item in items if isinstance(item, Text) and ID.fullmatch(item.value)]
    if len(names) == len(items) and names and not (key == "sum" and len(names) == 1):
        return tuple(names)
    what = "two lines or more" if key == "sum" else "a line"
    fields.sheet.note(node.line, f"{key} of {fields.name} is {shown(node)}, which does not name {what}.", NAMES_MEND)
    return ()


def _number(fields: Fields, key: str) -> Fraction | None:
    """Return the plain number under a key; None where it names a line, or, noted, where it is neither."""
    node = fields.node(key)
    if not isinstance(node, Text) or ID.fullmatch(node.value):
        return None
    try:
        value = parse_number(node.value, decimal_mark=".")
    except QuantityProblem:
        value = Fraction(0)
    if value <= 0:
        mend = "Write a number above nothing (12, 1/2, 2.5), or name a line."
        fields.sheet.note(node.line, f"{key} of {fields.name} is {shown(node)}.", mend)
        return Fraction(1)
    return value


def _written(names: tuple[str, ...], between: str = " + ") -> str:
    """Return names of lines as words."""
    return between.join(name.replace("_", " ") for name in names)


def _bracketed(side: str) -> str:
    """Return one side of a sum, in brackets where it is a sum itself."""
    return f"({side})" if " + " in side else side


def _note(found: Sum, problem: str, mend: str) -> None:
    """Note a problem of a sum, at its own line."""
    found.fields.sheet.note(found.fields.line, problem, mend)
