"""What was read stays in the book in the language it was read in, word for word as the page had it."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import Literal

import pytest

from tests.web.conftest import PIN
from tests.web.hands import Hands, take_all
from tests.web.small_content import CONTENT, NESTS
from tests.web.test_assessor import WEIGHTS, start_watching
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.kitchen.technique import Content

POINTS = ("La guarda está puesta.", "Los nidos pesan lo mismo.", "La charola lleva harina.")
TOLD = [replace(one, text=text) for one, text in zip(NESTS.checklist, POINTS, strict=True)]
NIDOS = replace(NESTS, title="Nidos de pasta", checklist=tuple(TOLD), words_edition="es")
SPANISH = replace(CONTENT, techniques=MappingProxyType({**CONTENT.techniques, "nests": NIDOS}))


def library(language: str, units: Literal["us", "metric"]) -> Content:
    """Return the content in a language; the units change nothing here."""
    del units
    return SPANISH if language == "es" else CONTENT


@pytest.fixture
def kitchen(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen with its content in two languages."""
    return Kitchen(kitchen.file, CONTENT, library)


def test_the_words_in_the_entry_are_those_the_assessor_read(bo: Hands, kitchen: Kitchen) -> None:
    """The first point in English, the others in Spanish: each as its page had it; the signed page has them so."""
    pages = [start_watching(bo, kitchen).heading]
    keep_own_language(kitchen, person="bo", language="es", units="")
    pages.append(bo.press("Meets it").heading)
    pages.append(take_all(bo, WEIGHTS, "Cumple").heading)
    bo.press("Cumple")
    page = bo.press("Firmar", {"Tu PIN": PIN})
    (entry,) = (one for one in kitchen.file.book.of_kind("practical_watched") if one.cook == "ana")
    assert [point["words"] for point in entry.body["points"]] == pages == ["The guard is on.", *POINTS[1:]]
    assert [point["language"] for point in entry.body["points"]] == ["en", "es", "es"]
    shown = [(one.get("lang"), one.get_text()) for one in page.soup.select(".kept-points span[lang]")]
    assert shown == list(zip(["en", "es", "es"], pages, strict=True))
    assert entry.body["titles"]["technique"] == "Pasta nesting"  # begun while reading English
