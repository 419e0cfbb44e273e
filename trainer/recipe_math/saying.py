"""A sentence that is its own English, and keeps its pattern and values so that it can be said in another language.

    >>> line = say("{food}: {weight} to buy", food="onions", weight="4 lb")
    >>> line
    'onions: 4 lb to buy'
    >>> line.pattern
    '{food}: {weight} to buy'

A saying is a plain text to whoever only reads it. Whoever knows a catalogue looks up the pattern there, says the values
that are sayings themselves in the same language, and fills them in. What is joined by `+` or an f-string is plain text
again: values go in by name.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Any

NO_VALUES: Mapping[str, Any] = MappingProxyType({})


class Saying(str):
    """An English text with the pattern it was filled from; `many` and `number` where a count chooses the words."""

    __slots__ = ("many", "number", "pattern", "values")

    pattern: str
    values: Mapping[str, Any]
    many: str
    number: int | Fraction | None

    def __str__(self) -> Saying:
        """Return the saying itself, so that an error that carries one gives it back whole."""
        return self

    def __deepcopy__(self, memo: dict[int, Any]) -> Saying:
        """Return the saying itself: it never changes, and what copies a record may meet one anywhere in it."""
        return self


def say(pattern: str, /, **values: Any) -> Saying:  # noqa: ANN401 - whatever can be printed
    """Return the pattern with its braces filled in.

    >>> say("Read edition {number} first.", number=2)
    'Read edition 2 first.'
    """
    saying = Saying(pattern.format_map(values) if values else pattern)
    saying.pattern, saying.values, saying.many, saying.number = pattern, values or NO_VALUES, "", None
    return saying


def say_many(one: str, many: str, number: int | Fraction, /, **values: Any) -> Saying:  # noqa: ANN401 - as `say`
    """Return the pattern for one or the one for many; `{number}` in either is the count.

    >>> say_many("{number} step", "{number} steps", 1), say_many("{number} step", "{number} steps", 12)
    ('1 step', '12 steps')
    """
    filled = {"number": number, **values}
    saying = Saying((one if number == 1 else many).format_map(filled))
    saying.pattern, saying.values, saying.many, saying.number = one, filled, many, number
    return saying


def joined(parts: Iterable[str], by: str = " ") -> Saying:
    """Return several texts as one, each still to be said in any language.

    >>> joined([say("Milk"), say("Egg")], ", ")
    'Milk, Egg'
    """
    values = {f"part{place}": part for place, part in enumerate(parts)}
    pattern = by.replace("{", "{{").replace("}", "}}").join(f"{{{name}}}" for name in values)
    return say(pattern, **values)


def retold(words: str, told: Mapping[str, str]) -> str:
    """Return a saying whose values that stand in a table are told in other words; everything else as it is.

    >>> found = retold(say("{name} is off {station}.", name="Ana", station="Grill"), {"Grill": "Parrilla"})
    >>> found, found.values["station"]
    ('Ana is off Grill.', 'Parrilla')
    """
    if not isinstance(words, Saying):
        return told.get(words, words)
    again = Saying(words)
    again.pattern, again.many, again.number = words.pattern, words.many, words.number
    again.values = {name: retold(v, told) if isinstance(v, str) else v for name, v in words.values.items()}
    return again


def in_other_words(text: str, told: str) -> Saying:
    """Return a text of the kitchen's own that a reader is told in other words, which stand in no catalogue.

    >>> in_other_words("carrots", "zanahorias"), in_other_words("carrots", "zanahorias").pattern
    ('carrots', 'zanahorias')
    """
    saying = Saying(text)
    saying.pattern, saying.values, saying.many, saying.number = told or text, NO_VALUES, "", None
    return saying
