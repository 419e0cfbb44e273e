"""Catalogues: the program's own sentences in other languages, read with the standard library's gettext.

`languages/<language>.po` is what a translator edits, and what is read here: there is no compiled file that could be
behind it. English needs no catalogue: it stands in the program.
"""

from __future__ import annotations

from functools import cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from pathlib import Path

from trainer.messages import message

FOLDER = Path(__file__).parent.parent / "languages"
ENGLISH = "en"
OWN_NAME = message("English")  # its translation in a catalogue is the name a language has in itself


def languages() -> tuple[str, ...]:
    """Return the languages the program speaks, English first."""
    return (ENGLISH, *sorted(path.stem for path in FOLDER.glob("*.po")))


def nearest_language(*wanted: str) -> str:
    """Return the first of the language tags (BCP 47) that is spoken, by its first part; English where none is."""
    spoken = languages()
    return next((tag.split("-")[0].lower() for tag in wanted if tag.split("-")[0].lower() in spoken), ENGLISH)


def name_of(language: str) -> str:
    """Return a language's name in itself: English, Español."""
    return OWN_NAME.pattern if language == ENGLISH else _translations(language).gettext(OWN_NAME.pattern)


def translations(language: str) -> NullTranslations:
    """Return a language's catalogue; one without sentences, which is English, where there is none."""
    return _translations(language)


@cache
def _translations(language: str) -> NullTranslations:
    """Return a language's catalogue, read once per process; one without sentences where there is no such file."""
    path = FOLDER / f"{language}.po"
    if not path.is_file():
        return NullTranslations()
    import polib  # here, so that a command in English does not pay for it

    return GNUTranslations(BytesIO(polib.pofile(str(path), encoding="utf-8").to_binary()))
