"""How this page is read: in which language, with which units first, and what the kitchen teaches in those words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from flask import g
from markupsafe import escape

from trainer.kitchen.technique import Content, ContentName
from trainer.messages import Message, Printable, translate_markup, with_values
from trainer.store.catalogues import nearest_language, translations
from trainer.web import guard

LANGUAGE = "language"
Units = Literal["us", "metric"]


@dataclass(frozen=True, slots=True)
class ReaderSettings:
    """The language of a page (a BCP 47 tag) and the units that stand first on it."""

    language: str
    units: Units


def now() -> ReaderSettings:
    """Return how the person at this page reads; anyone who is not signed in, as this browser last chose."""
    if "reading" not in g:
        g.reading = _reading()
    found: ReaderSettings = g.reading
    return found


def _reading() -> ReaderSettings:
    settings, signed = guard.kitchen().file.settings, guard.signed_in()
    if signed:
        units: Units = signed.person.units or settings.units_first
        return ReaderSettings(nearest_language(signed.person.language, settings.language), units)
    chosen = guard.cookie(LANGUAGE)
    return ReaderSettings(nearest_language(chosen or settings.language), settings.units_first)


def content() -> Content:
    """Return what the kitchen teaches, in the reader's words and units. Its rules are those of every other language."""
    reading = now()
    return guard.kitchen().content_for(reading.language, reading.units)


def named(value: Printable) -> Printable:
    """Return a value as this reader knows it: a name of the content in their words, anything else as it is.

    Rules are asked in the kitchen's own language; anyone who is refused reads the names as the pages give them.
    """
    return content().name_of(value) if isinstance(value, ContentName) else value


def said(words: Any) -> Any:  # noqa: ANN401 - whatever a template prints
    """Return a message in the reader's language, with markup in its values kept; anything else as it is.

    What is taught is called as the reader knows it: the rules of a standard know it by its id.
    Only what a template made is markup: the pattern and every plain value are escaped.
    """
    known = named(words) if isinstance(words, ContentName) else words
    text: Any = known.as_text() if hasattr(type(known), "as_text") else known  # a template may hand nothing over
    if not isinstance(text, Message):
        return text
    return translate_markup(with_values(text, named), translations(now().language), escape)
