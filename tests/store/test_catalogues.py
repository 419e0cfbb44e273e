"""A saying in another language: the catalogue's words, the values said too, and English where that cannot be."""

from __future__ import annotations

from collections.abc import Mapping
from gettext import NullTranslations

import pytest
from markupsafe import Markup, escape

from trainer.recipe_math.saying import joined, say, say_many
from trainer.store import catalogues
from trainer.store.catalogues import filled, said_in


class Told(NullTranslations):
    """A catalogue of a few sentences."""

    def __init__(self, sentences: Mapping[str, str]) -> None:
        """Keep them."""
        super().__init__()
        self.sentences = sentences

    def gettext(self, message: str) -> str:
        """Return a sentence of the catalogue, or the English."""
        return self.sentences.get(message, message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """Return a sentence of the catalogue for one or for many, or the English."""
        own = msgid1 if n == 1 else msgid2
        return self.sentences.get(own, own)


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> dict[str, str]:
    """Return the sentences of the one catalogue there is, to be filled by the test."""
    sentences: dict[str, str] = {}
    monkeypatch.setattr(catalogues, "_translations", lambda language: Told(sentences))
    return sentences


def test_a_value_that_is_a_sentence_is_told_too(told: dict[str, str]) -> None:
    """However deep it stands."""
    told |= {"{what} is missing.": "Falta {what}.", "the milk": "la leche", "the egg": "el huevo"}
    missing = joined([say("the milk"), say("the egg")], ", ")
    assert said_in(say("{what} is missing.", what=missing), "xx") == "Falta la leche, el huevo."


def test_what_is_no_sentence_of_the_program_stays(told: dict[str, str]) -> None:
    """A name or a note is nobody's to translate, even where it reads like a sentence."""
    told |= {"the milk": "la leche", "{what} is missing.": "Falta {what}."}
    assert said_in("the milk", "xx") == "the milk"
    assert said_in(say("{what} is missing.", what="the milk"), "xx") == "Falta the milk."


@pytest.mark.parametrize(
    "pattern",
    [
        "Falta {que}.",
        "Falta {what",
        "Falta {}.",
        "Falta {0}.",
        "Falta {what.name}.",
        "Falta {what[no]}.",
        "Falta {what:d}.",
    ],
)
def test_a_pattern_that_cannot_be_filled_is_told_in_english(told: dict[str, str], pattern: str) -> None:
    """A slip in a catalogue never breaks a page."""
    told["{what} is missing."] = pattern
    saying = say("{what} is missing.", what="Milk")
    assert said_in(saying, "xx") == "Milk is missing."
    assert filled(saying, "xx", {"what": Markup("<b>Milk</b>")}, escape) == "<b>Milk</b> is missing."


def test_a_count_that_cannot_be_told_is_counted_in_english(told: dict[str, str]) -> None:
    """One and many each fall back on their own words."""
    told |= {"{number} egg": "{n} huevo", "{number} eggs": "{n} huevos"}
    assert said_in(say_many("{number} egg", "{number} eggs", 1), "xx") == "1 egg"
    assert said_in(say_many("{number} egg", "{number} eggs", 2), "xx") == "2 eggs"


def test_braces_in_a_value_are_no_pattern(told: dict[str, str]) -> None:
    """What somebody typed is never filled in itself."""
    told["{what} is missing."] = "Falta {what}."
    assert said_in(say("{what} is missing.", what="{what} {0}"), "xx") == "Falta {what} {0}."


def test_only_what_is_markup_already_stays_markup(told: dict[str, str]) -> None:
    """The pattern and plain values are escaped: a catalogue and a cook bring no tags onto a page."""
    told["{who} saw {what}."] = "{who} vio <i>{what}</i>."
    saying = say("{who} saw {what}.", who="", what="")
    values = {"who": "Ana <b>", "what": Markup("<b>all</b>")}
    assert filled(saying, "xx", values, escape) == "Ana &lt;b&gt; vio &lt;i&gt;<b>all</b>&lt;/i&gt;."
