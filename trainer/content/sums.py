"""How a measured line is worked out from other lines of the same file, so that no number is typed twice.

`{sum: [durum, water]}`, `{take: trim, from: bought}`, `{times: nest, by: 12}`, `{share: water, of: [durum]}` in
percent, and `{mix: ...}`, how warm things come out together. Units may differ within one kind; `in: fl oz` names the
unit it is told in.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce

from trainer.content.limits import quantity_of, source_of
from trainer.content.mixes import mix_of
from trainer.content.nodes import Many, Text
from trainer.content.schema import ID, Fields, shown
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.parsing import parse_number
from trainer.recipe_math.quantity import COUNT, Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.scaling import ratio
from trainer.recipe_math.units import UNITS

KINDS = ("sum", "take", "times", "share", "mix")
PLAIN = ("share", COUNT)
NAMES_MEND = "Name lines of this file: `[durum, water]`."

Values = Mapping[str, Quantity]


@dataclass(frozen=True, slots=True)
class Sum:
    """A line to be worked out: the lines it names, the sum in words, and what it comes to once those are known.

    `room` is what the line may give or take, with the source of that tolerance.
    """

    fields: Fields
    names: tuple[str, ...]
    words: str
    comes_to: Callable[[Values], Quantity]
    room: Quantity | None = None
    room_source: str = ""

    @property
    def place(self) -> str:
        """Return the sum as somebody would write it down: "durum + semolina", "water / (durum + semolina)"."""
        return f"{self.words}; what it may give or take: {self.room_source}" if self.room else self.words

    def note(self, problem: str, mend: str) -> None:
        """Note a problem of this sum, at its own line."""
        self.fields.sheet.note(self.fields.line, problem, mend)


def is_worked_out(fields: Fields) -> bool:
    """Return whether a line says how it is worked out, in place of a number."""
    return not fields.nodes.keys().isdisjoint(KINDS)


def sum_of(fields: Fields, sources: Collection[str]) -> Sum | None:
    """Return how a line is worked out; None, with the reasons noted, where that cannot be read."""
    before = len(fields.sheet.problems)
    kind = next(key for key in KINDS if key in fields.nodes)
    names, words, comes_to = READERS[kind](fields)
    room = quantity_of(fields, "give_or_take")
    source = source_of(fields, "the give_or_take", sources) if room else ""
    own = unit_of(fields)
    fields.close()
    told = (lambda values: comes_to(values).to(own)) if own else comes_to
    found = Sum(fields, names, words, told, room, source)
    return found if len(fields.sheet.problems) == before else None


def unit_of(fields: Fields) -> str:
    """Return the unit a sum is told in, where it names one: `in: fl oz`."""
    own = fields.text("in", required=False)
    if own and own not in UNITS:
        fields.sheet.note(fields.line, f"{own!r} is no unit.", "Name one the sum can be told in: fl oz, g, min.")
        return ""
    return own


Read = tuple[tuple[str, ...], str, Callable[[Values], Quantity]]


def _sum(fields: Fields) -> Read:
    """Read `{sum: [one, another]}`."""
    parts = _names(fields, "sum", fewest=2)
    return parts, _written(parts), lambda values: _together(parts, values)


def _take(fields: Fields) -> Read:
    """Read `{take: trim, from: bought}`."""
    parts, whole = _names(fields, "take"), _names(fields, "from")

    def left(values: Values) -> Quantity:
        return reduce(lambda left, name: left - values[name], parts, _together(whole, values))

    return parts + whole, f"{_written(whole)} - {_written(parts, ' - ')}", left


def _share(fields: Fields) -> Read:
    """Read `{share: water, of: [durum, semolina]}`, in percent."""
    parts, whole = _names(fields, "share"), _names(fields, "of")

    def percent(values: Values) -> Quantity:
        return Quantity(100 * ratio(_together(parts, values), _together(whole, values)), UNITS["%"])

    return parts + whole, f"{_bracketed(parts)} / {_bracketed(whole)}", percent


def _times(fields: Fields) -> Read:
    """Read `{times: nest, by: 12}`; `by` may name a line that is a count or a share."""
    parts, by = _names(fields, "times"), _number(fields, "by")
    if by is not None:
        return parts, f"{_bracketed(parts)} × {number_text(by, 4)}", lambda values: _together(parts, values) * by
    named = _names(fields, "by")
    words = f"{_bracketed(parts)} × {_bracketed(named)}"
    return parts + named, words, lambda values: _together(parts, values) * _plain(_together(named, values))


READERS: Mapping[str, Callable[[Fields], Read]] = {
    "sum": _sum,
    "take": _take,
    "times": _times,
    "share": _share,
    "mix": mix_of,
}


def _together(names: Iterable[str], values: Values) -> Quantity:
    """Return what the lines come to together, in the unit of the first."""
    return reduce(lambda total, part: total + part, (values[name] for name in names))


def _plain(value: Quantity) -> Fraction:
    """Return how many times something is: a share or a count."""
    if not value.unit.dimension.startswith(PLAIN):
        raise WrongDimension(f"{value} is {value.unit.dimension}: multiply by a count or a share.")
    return value.base


def _names(fields: Fields, key: str, fewest: int = 1) -> tuple[str, ...]:
    """Return the names of lines under a key, one or a list; anything else is noted."""
    node = fields.node(key)
    if node is None:
        return ()
    items = node.items if isinstance(node, Many) else (node,)
    names = [item.value for item in items if isinstance(item, Text) and ID.fullmatch(item.value)]
    if len(names) == len(items) >= fewest:
        return tuple(names)
    what = "a line" if fewest == 1 else "two lines or more"
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
    return value


def _written(names: Iterable[str], between: str = " + ") -> str:
    """Return names of lines as words."""
    return between.join(name.replace("_", " ") for name in names)


def _bracketed(names: tuple[str, ...]) -> str:
    """Return one side of a sum, in brackets where it is a sum itself."""
    return f"({_written(names)})" if len(names) > 1 else _written(names)
