"""Catalogues: the program's own sentences in other languages, read with the standard library's gettext.

`languages/<language>.po` is what a translator edits, and what is read here: there is no compiled file that could be
behind it. English needs no catalogue: it stands in the program.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from pathlib import Path
from typing import Any

from trainer.recipe_math.saying import Saying, say

FOLDER = Path(__file__).parent.parent / "languages"
ENGLISH = "en"
OWN_NAME = say("English")  # its translation in a catalogue is the name a language has in itself


def languages() -> tuple[str, ...]:
    """Return the languages the program speaks, English first."""
    return (ENGLISH, *sorted(path.stem for path in FOLDER.glob("*.po")))


def nearest_language(*wanted: str) -> str:
    """Return the first of the language tags (BCP 47) that is spoken, by its first part; English where none is."""
    spoken = languages()
    return next((tag.split("-")[0].lower() for tag in wanted if tag.split("-")[0].lower() in spoken), ENGLISH)


def name_of(language: str) -> str:
    """Return a language's name in itself: English, Español."""
    return OWN_NAME.pattern if language == ENGLISH else _translations(language).gettext(OWN_NAME)


def said_in(words: str, language: str) -> str:
    """Return words in a language: a saying from its catalogue, anything else as it is."""
    if not isinstance(words, Saying):
        return words
    return filled(words, language, {name: said_in(value, language) for name, value in words.values.items()})


def filled(saying: Saying, language: str, values: Mapping[str, Any], of: Callable[[str], str] = str) -> str:
    """Return a saying's pattern in a language, made into *of* and filled with values that are said already.

    A pattern of the catalogue that these values cannot fill is put by for the English one: a page never breaks on it.
    """
    pattern = of(_pattern_in(saying, language))
    if not values:
        return pattern
    try:
        return pattern.format_map(values)
    except (LookupError, ValueError, AttributeError, TypeError):
        return of(_own_pattern(saying)).format_map(values)


def _pattern_in(saying: Saying, language: str) -> str:
    """Return a saying's pattern in a language, in English where the catalogue lacks it."""
    if not saying.pattern:
        return ""
    known = _translations(language)
    if saying.number is None:
        return known.gettext(saying.pattern)
    return known.ngettext(saying.pattern, saying.many, 1 if saying.number == 1 else 2)


def _own_pattern(saying: Saying) -> str:
    """Return a saying's pattern as the program has it."""
    return saying.pattern if saying.number in (None, 1) else saying.many


@cache
def _translations(language: str) -> NullTranslations:
    """Return a language's catalogue, read once per process; one without sentences where there is no such file."""
    path = FOLDER / f"{language}.po"
    if not path.is_file():
        return NullTranslations()
    import polib  # here, so that a command in English does not pay for it

    return GNUTranslations(BytesIO(polib.pofile(str(path), encoding="utf-8").to_binary()))
