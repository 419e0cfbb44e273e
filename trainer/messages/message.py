"""A message: an English pattern and the values it names, in no language until it is printed.

    >>> message("{food}: {weight} to buy", food="onions", weight="4 lb")
    message('{food}: {weight} to buy', food='onions', weight='4 lb')

The pattern is what a translator translates. A message is not a `str`: nothing can be added to it, cut from it or
compared with a sentence, and no f-string takes it. Anyone who needs the words prints it with `translate`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NoReturn, Protocol, final, runtime_checkable


@runtime_checkable
class Printable(Protocol):
    """A value that knows its own text: a unit, a measured line, a date."""

    def as_text(self) -> Text:
        """Return what a reader is shown of this value."""
        ...


@final
class Message:
    """A pattern with its values; `many` is the pattern for counts other than one, `number` the count itself.

    It never changes. It is no dataclass, so that `dataclasses.asdict` hands it on whole, and what writes JSON refuses
    it, in place of writing its parts down.
    """

    __slots__ = ("many", "number", "pattern", "values")

    pattern: str
    values: Mapping[str, Value]
    many: str
    number: int | Fraction | None

    def __init__(
        self, pattern: str, values: Mapping[str, Value], many: str = "", number: int | Fraction | None = None
    ) -> None:
        """Keep the parts; `message` and `plural` make one."""
        keep = object.__setattr__
        keep(self, "pattern", pattern)
        keep(self, "values", values)
        keep(self, "many", many)
        keep(self, "number", number)

    if not TYPE_CHECKING:  # a type checker that saw these would let a message be compared with a sentence, or changed

        def __eq__(self, other: object) -> bool:
            """Return whether two messages say the same."""
            return isinstance(other, Message) and self._parts() == other._parts()

        def __setattr__(self, name: str, value: object) -> NoReturn:
            """Refuse: a message never changes."""
            raise AttributeError(f"A message never changes: {name} of {self!r}")

    def __hash__(self) -> int:
        """Hash what is always hashable of a message; equal messages hash alike."""
        return hash((self.pattern, self.many, self.number, *self.values))

    def __reduce__(self) -> tuple[type[Message], tuple[str, dict[str, Value], str, int | Fraction | None]]:
        """Return what a copy is made from."""
        return Message, (self.pattern, dict(self.values), self.many, self.number)

    def _parts(self) -> tuple[str, Mapping[str, Value], str, int | Fraction | None]:
        return self.pattern, dict(self.values), self.many, self.number

    def __repr__(self) -> str:
        """Return the call that makes it."""
        call = "message" if self.number is None else "plural"
        patterns = [self.pattern] if self.number is None else [self.pattern, self.many]
        counted = [] if self.number is None else [f"{self.number}"]
        named = [f"{name}={value!r}" for name, value in self.values.items() if self.number is None or name != "number"]
        return f"{call}({', '.join([*map(repr, patterns), *counted, *named])})"

    def __str__(self) -> NoReturn:
        """Refuse: words made here would be in nobody's language, and would be kept where a value belongs."""
        raise TypeError(f"A message is printed by translate(), not by str(): {self!r}")

    def __format__(self, spec: str) -> NoReturn:
        """Refuse to be put into an f-string; a message goes into another one by name, as a value."""
        raise TypeError(f"A message goes into another one by name, not into an f-string: {self!r}")

    def __deepcopy__(self, memo: dict[int, Any]) -> Message:
        """Return the message itself: it never changes, and its values need not be copyable."""
        return self


Text = str | Message
Value = str | int | Fraction | Message | Printable

PLAIN = frozenset({str, int, Fraction})
"""Types with nothing to print in them, asked for first: nearly every value has one of these, and a protocol is slow."""
NO_VALUES: Mapping[str, Value] = MappingProxyType({})


def message(pattern: str, /, **values: Value) -> Message:
    """Return a pattern with the values its braces name; without values, braces are plain signs.

    >>> message("Read edition {number} first.", number=2).pattern
    'Read edition {number} first.'
    """
    return Message(pattern, values or NO_VALUES)


def plural(one: str, many: str, number: int | Fraction, /, **values: Value) -> Message:
    """Return a message with a pattern for one and one for other counts; `{number}` in either is the count.

    Each language has its own rule for which counts take which words: the printer asks it with the number itself.

    >>> plural("{number} step", "{number} steps", 12)
    plural('{number} step', '{number} steps', 12)
    """
    return Message(one, {"number": number, **values}, many, number)


def counted(found: Message, number: int | Fraction, /) -> Message:
    """Return a plural for another count, as a table of words has them; a message that counts nothing as it is.

    >>> counted(plural("{number} step", "{number} steps", 1), 12)
    plural('{number} step', '{number} steps', 12)
    """
    if found.number is None:
        return found
    return Message(found.pattern, {**found.values, "number": number}, found.many, number)


def joined(parts: Iterable[Text | Printable], by: str = " ") -> Text:
    """Return several texts as one, each still to be printed in any language; of nothing the empty text.

    >>> joined([message("Milk"), message("Egg")], ", ")
    message('{part0}, {part1}', part0=message('Milk'), part1=message('Egg'))
    """
    listed = list(parts)
    if len(listed) == 1 and isinstance(listed[0], str | Message):
        return listed[0]
    if all(type(part) is str for part in listed):  # nothing to translate, and no markup to keep
        return by.join(part for part in listed if isinstance(part, str))
    values: dict[str, Value] = {f"part{place}": part for place, part in enumerate(listed)}
    pattern = by.replace("{", "{{").replace("}", "}}").join(f"{{{name}}}" for name in values)
    return Message(pattern, values)


def with_values(text: Text, of: Callable[[Printable], Value]) -> Text:
    """Return a text in which every value that knows its own text is replaced by another, however deep it stands.

    So a name that the program's rules gave becomes the name a reader knows the same thing by.
    """
    if not isinstance(text, Message):
        return text
    values = {name: _with_value(value, of) for name, value in text.values.items()}
    return Message(text.pattern, values, text.many, text.number)


def _with_value(value: Value, of: Callable[[Printable], Value]) -> Value:
    if type(value) in PLAIN:
        return value
    if isinstance(value, Message):
        return with_values(value, of)
    return of(value) if isinstance(value, Printable) else value
