"""How this page is read: in which language, with which units first, and what the kitchen teaches in those words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from flask import g
from markupsafe import escape

from trainer.kitchen.technique import Content
from trainer.recipe_math.saying import Saying
from trainer.store.catalogues import filled, nearest_language, said_in
from trainer.web import guard

LANGUAGE = "language"
Units = Literal["us", "metric"]


@dataclass(frozen=True, slots=True)
class Reading:
    """The language of a page (a BCP 47 tag) and the units that stand first on it."""

    language: str
    units: Units


def now() -> Reading:
    """Return how the person at this page reads; whoever is not signed in, as this browser last chose."""
    if "reading" not in g:
        g.reading = _reading()
    found: Reading = g.reading
    return found


def _reading() -> Reading:
    settings, signed = guard.kitchen().file.settings, guard.signed_in()
    if signed:
        units: Units = signed.person.units or settings.units_first
        return Reading(nearest_language(signed.person.language, settings.language), units)
    chosen = guard.cookie(LANGUAGE)
    return Reading(nearest_language(chosen or settings.language), settings.units_first)


def content() -> Content:
    """Return what the kitchen teaches, in the reader's words and units. Its rules are those of every other language."""
    reading = now()
    return guard.kitchen().taught_in(reading.language, reading.units)


def names_told() -> Mapping[str, str]:
    """Return what a refusal may name of the kitchen's content, each with the reader's words for it.

    Rules are asked in the kitchen's own language; whoever is refused reads the names as the page gives them.
    """
    own, told = guard.kitchen().content, content()
    if own is told:
        return {}
    words = dict(_names_in(told))
    return {name: words.get(what, name) for what, name in _names_in(own)}


def _names_in(taught: Content) -> Iterator[tuple[tuple[str, str], str]]:
    """Return every title, and every point of a checklist as a sentence names it, each with what it is the name of."""
    for station in taught.stations.values():
        yield ("station", station.id), station.title
        yield from ((("certificate", asked.id), asked.title) for asked in station.certificates)
    for technique in taught.techniques.values():
        yield ("technique", technique.id), technique.title
        yield from (((technique.id, point.id), point.text.rstrip(".")) for point in technique.checklist)


def said(words: Any) -> Any:  # noqa: ANN401 - whatever a template prints
    """Return a saying in the reader's language, with markup in its values kept; anything else as it is.

    Only what a template made is markup: the pattern and every plain value are escaped.
    """
    if not isinstance(words, Saying):
        return words
    language = now().language
    if not any(hasattr(value, "__html__") for value in words.values.values()):
        return said_in(words, language)
    return filled(words, language, {name: said(value) for name, value in words.values.items()}, escape)
