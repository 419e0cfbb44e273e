"""A refusal in the reader's own words: the station it names is called as on every other page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType
from typing import Literal

import pytest

from tests.web.conftest import PIN
from tests.web.hands import Hands
from tests.web.kitchen_people import write
from tests.web.small_content import CONTENT
from tests.web.test_assessor import start_watching
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.kitchen.technique import Content

SPANISH = replace(
    CONTENT,
    stations=MappingProxyType(
        {**CONTENT.stations, "pasta_room": replace(CONTENT.stations["pasta_room"], title="Cuarto de pasta")}
    ),
)


def library(language: str, units: Literal["us", "metric"]) -> Content:
    """Return the content in a language; the units change nothing here."""
    del units
    return SPANISH if language == "es" else CONTENT


@pytest.fixture
def kitchen(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen with its stations named in two languages."""
    return Kitchen(kitchen.file, CONTENT, library)


def test_the_station_is_named_as_the_reader_knows_it(sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """Bo, reading Spanish, was taken off the pasta room in the middle: why not, with its Spanish name."""
    bo = sign_in("bo")
    start_watching(bo, kitchen)
    record = bo.page.path.rsplit("/", 1)[0] + "/record"
    write(kitchen, "stood_down", "bo", {"station": "pasta_room", "reason": "Cut hand."}, by="cleo", days=0)
    keep_own_language(kitchen, person="bo", language="es", units="")
    bo.open(record)
    page = bo.press("Firmar", {"Tu PIN": PIN})
    assert "Bo Lind está hoy fuera de la estación: Cuarto de pasta." in " ".join(page.problems)
