"""How this page is read: in which language, with which units first, and what the kitchen teaches in those words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from flask import g, request
from markupsafe import escape

from trainer.kitchen.currency import USD, in_currency
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Content, ContentName
from trainer.messages import Message, Printable, Text, Translations, translate, translate_markup, with_values
from trainer.store.catalogues import nearest_language, translations
from trainer.web import guard

LANGUAGE = "language"
Units = Literal["us", "metric"]


@dataclass(frozen=True, slots=True)
class ReaderSettings:
    """The language of a page (a BCP 47 tag), the units that stand first on it, and the currency of its money."""

    language: str
    units: Units
    currency: str = USD


def now() -> ReaderSettings:
    """Return how the person at this page reads.

    Who is not signed in reads as the owner of the phone does, else as this browser last chose, else as it asks for.
    """
    if "reading" not in g:
        g.reading = _reading()
    found: ReaderSettings = g.reading
    return found


def _reading() -> ReaderSettings:
    settings, signed = guard.kitchen().file.settings, guard.signed_in()
    if signed:
        return _as(signed.person)
    owner = guard.owner()
    if owner is not None:
        return _as(owner)
    language = nearest_language(guard.cookie(LANGUAGE), *_asked_for(), settings.language)
    return ReaderSettings(language, settings.units_first, settings.currency)


def read_as(person: Person) -> None:
    """Show the rest of this page as a person reads: at the door their name says who it is."""
    g.reading = _as(person)


def _as(person: Person) -> ReaderSettings:
    """Return how a person reads; where they have not chosen, as the kitchen does."""
    settings = guard.kitchen().file.settings
    units: Units = person.units or settings.units_first
    return ReaderSettings(nearest_language(person.language, settings.language), units, settings.currency)


def _asked_for() -> tuple[str, ...]:
    """Return the languages the browser asks for, the best first (RFC 9110, section 12.5.4)."""
    return tuple(tag for tag, weight in request.accept_languages if weight > 0)


def content() -> Content:
    """Return what the kitchen teaches, in the reader's words and units. Its rules are those of every other language."""
    reading = now()
    return guard.kitchen().content_for(reading.language, reading.units)


def named(value: Printable) -> Printable:
    """Return a value as this reader knows it: a name of the content in their words, anything else as it is.

    Rules are asked in the kitchen's own language; anyone who is refused reads the names as the pages give them.
    """
    return content().name_of(value) if isinstance(value, ContentName) else value


def _catalogue() -> Translations:
    """Return the reader's catalogue, with money in the kitchen's currency."""
    reading = now()
    return in_currency(translations(reading.language), reading.currency)


def plainly(words: Any, language: str = "") -> str:  # noqa: ANN401 - whatever a template prints
    """Return a message as plain text, without markup or escapes: in the reader's language, or in another."""
    known = named(words) if isinstance(words, ContentName) else words
    text: Any = known.as_text() if hasattr(type(known), "as_text") else known
    catalogue = in_currency(translations(language), now().currency) if language else _catalogue()
    return translate(with_values(text, named), catalogue) if text else ""


def said(words: Any) -> Any:  # noqa: ANN401 - whatever a template prints
    """Return a message in the reader's language, with markup in its values kept; anything else as it is.

    What is taught is called as the reader knows it: the rules of a standard know it by its id.
    Only what a template made is markup: the pattern and every plain value are escaped.
    """
    known = named(words) if isinstance(words, ContentName) else words
    text: Any = known.as_text() if hasattr(type(known), "as_text") else known  # a template may hand nothing over
    if not isinstance(text, Message):
        return text
    return translate_markup(with_values(text, named), _catalogue(), escape)


def printed(words: Text) -> str:
    """Return words as plain text in the reader's language, for a file."""
    return translate(with_values(words, named) if isinstance(words, Message) else words, _catalogue())
