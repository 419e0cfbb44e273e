"""Entries about who people are in words: names, ages, what was erased, and for how long they are kept."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from trainer.actions.retention import kept_for
from trainer.kitchen.ages import JOINING
from trainer.messages import Text, message
from trainer.web.authority_words import second_told
from trainer.web.filters import weekday

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "person_named": message("Name written down"),
    "age_seen": message("Age written down"),
    "person_erased": message("Person erased"),
    "paper_dropped": message("Text erased"),
    "record_given": message("Record given"),
    "retention_set": message("Set how long names are kept"),
}
SEEN_WORDS: Mapping[str, Text] = {
    "passport": message("passport"),
    "birth certificate": message("birth certificate"),
    "licence": message("driving licence"),
    "not seen": message("none seen"),
}
WHY_ERASED: Mapping[str, Text] = {
    "asked for it": message("the person asked for it"),
    "kept long enough": message("kept long enough after leaving"),
    "entered by mistake": message("entered by mistake"),
}


def _named(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the digest of a name, which stands beside the book, and the entry of the name before."""
    del naming
    return [message("Digest {digest}", digest=body["name"][:12]), *_corrects(body)]


def _age(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the paper seen, and from when so many years are reached; never the birth date."""
    told = [message("Paper: {paper}", paper=SEEN_WORDS.get(body["seen"], body["seen"]))]
    return [*told, *(_bar(bar) for bar in body["bars"]), *_corrects(body), *second_told(body, naming)]


def _bar(bar: Mapping[str, Any]) -> Text:
    """Return from when so many years are reached."""
    if bar["from"] == JOINING:
        return message("{years} years: reached before joining", years=bar["years"])
    return message("{years} years: from {day}", years=bar["years"], day=weekday(date.fromisoformat(bar["from"])))


def _corrects(body: Mapping[str, Any]) -> list[Text]:
    """Return the entry that is corrected, where one is."""
    return [message("In place of entry {entry}", entry=body["corrects"])] if "corrects" in body else []


def _erased(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return why a person was erased."""
    del naming
    return [message("Reason: {reason}", reason=WHY_ERASED.get(body["why"], body["why"]))]


def _dropped(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the digest of the text that is gone."""
    del naming
    return [message("Digest {digest}", digest=body["digest"][:12])]


def _given(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return to whom a record was given, what for, and the digest of what stood in it."""
    del naming
    to, what_for = body["to"], body["for"]
    whom = message("To {whom}, for {purpose}", whom=to, purpose=what_for) if what_for else message("To {whom}", whom=to)
    return [whom, message("Digest {digest}", digest=body["record"][:12])]


def _retention(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return for how long people are kept after they left."""
    del naming
    return [kept_for(body["years"])]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "person_named": _named,
    "age_seen": _age,
    "person_erased": _erased,
    "paper_dropped": _dropped,
    "record_given": _given,
    "retention_set": _retention,
}
