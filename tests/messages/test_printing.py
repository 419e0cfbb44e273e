"""A message printed: the catalogue's words, the values printed too, and English where that cannot be."""

from __future__ import annotations

import io
from collections.abc import Mapping
from fractions import Fraction
from gettext import GNUTranslations, NullTranslations
from pathlib import Path

import pytest
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from markupsafe import Markup, escape

from trainer.messages import Text, joined, message, plural, translate, translate_markup


class Catalogue(NullTranslations):
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


@pytest.fixture(scope="module")
def polish() -> GNUTranslations:
    """Return a Polish catalogue, read as the program reads its own."""
    out = io.BytesIO()
    with (Path(__file__).parent / "polish.po").open("rb") as file:
        write_mo(out, read_po(file, locale="pl"))
    return GNUTranslations(io.BytesIO(out.getvalue()))


@pytest.mark.parametrize(
    ("number", "printed"),
    [
        (1, "1 jajko"),
        (2, "2 jajka"),
        (4, "4 jajka"),
        (5, "5 jajek"),
        (12, "12 jajek"),
        (22, "22 jajka"),
        (0, "0 jajek"),
        (Fraction(3), "3 jajka"),
    ],
)
def test_a_language_counts_by_its_own_rule(polish: GNUTranslations, number: int | Fraction, printed: str) -> None:
    """Polish: one; few for 2 to 4 but 12 to 14; many for the rest (CLDR plural rules, pl)."""
    assert translate(plural("{number} egg", "{number} eggs", number), polish) == printed


def test_a_count_deep_in_a_sentence_is_counted_too(polish: GNUTranslations) -> None:
    """The order of the values is the language's."""
    eggs = plural("{number} egg", "{number} eggs", 3)
    assert translate(message("{eggs} for {food}", eggs=eggs, food=message("pasta")), polish) == "makaron: 3 jajka"


def test_in_english_one_is_told_apart_from_every_other_count() -> None:
    """A part of one is no one: 1/2 eggs."""
    counts = (0, 1, 2, Fraction(1), Fraction(1, 2), Fraction(3, 2))
    printed = [translate(plural("{number} egg", "{number} eggs", number)) for number in counts]
    assert printed == ["0 eggs", "1 egg", "2 eggs", "1 egg", "1/2 eggs", "3/2 eggs"]


def test_a_value_that_is_a_message_is_printed_in_the_same_language() -> None:
    """However deep it stands."""
    spanish = Catalogue({"{what} is missing.": "Falta {what}.", "the milk": "la leche", "the egg": "el huevo"})
    missing = joined([message("the milk"), message("the egg")], ", ")
    assert translate(message("{what} is missing.", what=missing), spanish) == "Falta la leche, el huevo."


def test_a_plain_text_is_nobodys_to_translate() -> None:
    """A name or a note stays, even where it reads like a sentence."""
    spanish = Catalogue({"the milk": "la leche", "{what} is missing.": "Falta {what}."})
    assert translate("the milk", spanish) == "the milk"
    assert translate(message("{what} is missing.", what="the milk"), spanish) == "Falta the milk."


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
def test_a_translation_whose_placeholders_do_not_match_is_english(pattern: str) -> None:
    """A slip in a catalogue never breaks a page."""
    spanish = Catalogue({"{what} is missing.": pattern})
    missing = message("{what} is missing.", what="Milk")
    assert translate(missing, spanish) == "Milk is missing."
    marked = message("{what} is missing.", what=Markup("<b>Milk</b>"))
    assert translate_markup(marked, spanish, escape) == "<b>Milk</b> is missing."


def test_a_count_whose_placeholders_do_not_match_is_counted_in_english() -> None:
    """One and many each fall back on their own words."""
    spanish = Catalogue({"{number} egg": "{n} huevo", "{number} eggs": "{n} huevos"})
    counts = [translate(plural("{number} egg", "{number} eggs", number), spanish) for number in (1, 2)]
    assert counts == ["1 egg", "2 eggs"]


def test_braces_in_a_value_are_no_pattern() -> None:
    """What a person typed is never filled in itself."""
    spanish = Catalogue({"{what} is missing.": "Falta {what}."})
    assert translate(message("{what} is missing.", what="{what} {0}"), spanish) == "Falta {what} {0}."


def test_braces_in_a_pattern_without_values_stay() -> None:
    """A text with nothing to fill in is taken as it is written."""
    assert translate(message("Write {name_of_the_line}.")) == "Write {name_of_the_line}."
    assert translate(joined([message("Milk"), message("Egg")], " {&} ")) == "Milk {&} Egg"


def test_nothing_is_asked_of_a_catalogue_for_an_empty_message() -> None:
    """Its answer would be the catalogue's head."""
    assert translate(message(""), Catalogue({"": "Content-Type: text/plain"})) == ""


def test_only_what_is_markup_already_stays_markup() -> None:
    """The pattern and plain values are escaped: a catalogue and a cook bring no tags onto a page."""
    spanish = Catalogue({"{who} saw {what}.": "{who} vio <i>{what}</i>."})
    seen = message("{who} saw {what}.", who="Ana <b>", what=Markup("<b>all</b>"))
    assert translate_markup(seen, spanish, escape) == "Ana &lt;b&gt; vio &lt;i&gt;<b>all</b>&lt;/i&gt;."


def test_markup_deep_in_a_sentence_stays_markup() -> None:
    """And what stands around it is escaped all the way up."""
    inner = message("<{what}>", what=Markup("<b>all</b>"))
    printed = translate_markup(message("{who} & {inner}", who="<i>", inner=inner), Catalogue({}), escape)
    assert printed == "&lt;i&gt; &amp; &lt;<b>all</b>&gt;"


def test_a_text_without_markup_is_left_to_the_template() -> None:
    """It comes back plain, so that it is escaped once."""
    printed = translate_markup(message("{who} & co", who="<i>"), Catalogue({}), escape)
    assert (printed, hasattr(printed, "__html__")) == ("<i> & co", False)


@pytest.mark.parametrize("text", [message("the {what}", what="milk"), plural("{number} egg", "{number} eggs", 2)])
def test_what_a_quiz_still_says_is_printed_too(text: Text) -> None:
    """A value that knows its own text is printed by that, although it is a plain text itself."""
    spanish = Catalogue({"the {what}": "la {what}", "milk": "leche", "{number} eggs": "{number} huevos"})
    assert translate(text, spanish) in ("la milk", "2 huevos")
