"""The catalogues that come with the program, as the printer is given them."""

from __future__ import annotations

from trainer.messages import message, plural, translate
from trainer.store.catalogues import languages, name_of, translations


def test_a_language_without_a_catalogue_is_printed_in_english() -> None:
    """So is English itself, which needs none."""
    for language in ("en", "xx"):
        assert translate(message("Board"), translations(language)) == "Board"


def test_a_catalogue_is_asked_by_the_number() -> None:
    """Spanish has one form for one and one for every other count (CLDR plural rules, es)."""
    spanish = translations("es")
    counts = [translate(plural("{number} day", "{number} days", n), spanish) for n in (0, 1, 2)]
    assert counts == ["0 días", "1 día", "2 días"]
    assert {language: name_of(language) for language in languages()}["es"] == "Español"
