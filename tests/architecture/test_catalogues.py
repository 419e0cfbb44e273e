"""Every sentence the program says stands in every catalogue, whole, and is read from it as it was written."""

from __future__ import annotations

import pytest

from tests.architecture.catalogue import (
    braces,
    catalogue,
    gathered,
    sentence,
    told,
    written_anew,
)
from trainer.store import catalogues
from trainer.store.catalogues import ENGLISH, languages, name_of, nearest_language

OTHERS = [language for language in languages() if language != ENGLISH]


def test_spanish_is_spoken() -> None:
    """The program speaks English and Spanish, each called by its own name."""
    assert {language: name_of(language) for language in languages()} == {"en": "English", "es": "Español"}


@pytest.mark.parametrize("language", OTHERS)
def test_a_catalogue_holds_what_is_said_and_nothing_else(language: str) -> None:
    """No sentence is missing, none is left over from an earlier wording, none is a guess still to be looked at."""
    there = {sentence(message.id) for message in catalogue(language)} - {""}
    assert set(gathered()) - there == set()
    assert there - set(gathered()) == set()
    assert [m.id for m in catalogue(language) if m.id and (m.fuzzy or not all(told(m)))] == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_fills_in_the_same_values(language: str) -> None:
    """What stands in braces in English stands in braces in every language."""
    for message in catalogue(language):
        if message.id:
            ids = (message.id,) if isinstance(message.id, str) else message.id
            wanted = {name for text in ids for name in braces(text)}
            found = {name for text in told(message) for name in braces(text)}
            assert found | {"number"} == wanted | {"number"}, message.id


@pytest.mark.parametrize("language", OTHERS)
def test_what_is_read_is_what_was_written(language: str) -> None:
    """The program reads in a catalogue what Babel reads there, for one and for many."""
    read = catalogues._translations(language)
    for message in catalogue(language):
        if isinstance(message.id, tuple):
            one, many = message.id
            assert (read.ngettext(one, many, 1), read.ngettext(one, many, 2)) == told(message)
        elif message.id:
            assert (read.gettext(str(message.id)),) == told(message)


@pytest.mark.parametrize("language", OTHERS)
def test_a_catalogue_keeps_its_own_plural_forms(language: str) -> None:
    """A new release of the library that gathers may count plurals in another way; the catalogue's own stands."""
    anew, before = written_anew(language), catalogue(language)
    assert anew.plural_forms == before.plural_forms
    assert all(len(told(m)) == before.num_plurals for m in anew if m.pluralizable)


def test_a_language_nobody_speaks_here_becomes_english() -> None:
    """A roster may say de-AT; es-MX is Spanish; the second wish counts where the first is not spoken."""
    assert nearest_language("de-AT") == "en"
    assert nearest_language("es-MX") == "es"
    assert nearest_language("de", "es") == "es"
