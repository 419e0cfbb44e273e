"""Messages printed: the pattern as a language has it, filled with values printed in the same language."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from gettext import NullTranslations
from math import ceil
from typing import Any, Protocol

from trainer.messages.message import PLAIN, Message, Printable, Text, Value


class Translations(Protocol):
    """A language's catalogue, as the standard library's `gettext` gives one."""

    def gettext(self, message: str, /) -> str:
        """Return a pattern in the language; the English where the catalogue has none."""
        ...

    def ngettext(self, msgid1: str, msgid2: str, n: int, /) -> str:
        """Return the pattern for a count by the language's own rule; the English where the catalogue has none."""
        ...


ENGLISH: Translations = NullTranslations()
"""The program's own language, for which no catalogue is needed."""


def translate(text: Text, translations: Translations = ENGLISH) -> str:
    """Return a text as one language has it: a message from the catalogue, a plain text as it is.

    Falls back to English where the translation's placeholders do not match the values.

    >>> from trainer.messages.message import message, plural
    >>> translate(message("{food}: {weight} to buy", food="onions", weight="4 lb"))
    'onions: 4 lb to buy'
    >>> translate(plural("{number} step", "{number} steps", 12))
    '12 steps'
    """
    return str(_printed(text, translations, str))


def translate_markup(text: Text, translations: Translations, escape: Callable[[str], str]) -> str:
    """Return a text as `translate` does, for a page: where any value is markup, all the rest is escaped.

    Only what a template made is markup (it has `__html__`): the pattern and every plain value are escaped by *escape*,
    which returns markup itself. A text without any markup in it comes back plain, for the template to escape.
    """
    printed: str = _printed(text, translations, escape)
    return printed


def _printed(value: Value, translations: Translations, escape: Callable[[str], str]) -> Any:  # noqa: ANN401 - markup, text or number
    """Return a value as it goes into a pattern: a number as it is, so that a pattern may format it."""
    if type(value) in PLAIN:
        return value
    if isinstance(value, Message):
        values = {name: _printed(inner, translations, escape) for name, inner in value.values.items()}
        has_markup = any(hasattr(inner, "__html__") for inner in values.values())
        return _filled(value, translations, values, escape if has_markup else str)
    if isinstance(value, Printable):
        return _printed(value.as_text(), translations, escape)
    return value


def _filled(found: Message, translations: Translations, values: Mapping[str, Any], of: Callable[[str], str]) -> str:
    """Return a message's pattern filled with printed values; the English one where the translation cannot be."""
    pattern = of(_pattern(found, translations))
    if not values:
        return pattern
    try:
        return pattern.format_map(values)
    except (LookupError, ValueError, AttributeError, TypeError):
        return of(_pattern(found, ENGLISH)).format_map(values)


def _pattern(found: Message, translations: Translations) -> str:
    """Return a message's pattern in a language. An empty one is never asked for: a catalogue's head stands there."""
    if not found.pattern:
        return ""
    if found.number is None:
        return translations.gettext(found.pattern)
    return translations.ngettext(found.pattern, found.many, _whole(found.number))


def _whole(number: int | Fraction) -> int:
    """Return the count that a language's rule is asked with: rules know whole numbers only.

    A part is counted with the next whole number, but never as one: half an egg is told as "1/2 eggs".
    """
    return int(number) if number == int(number) else max(2, ceil(number))
