"""Pages are told in the reader's own language and units; the record and the rules know nothing of it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.printed import english
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.own_language import keep_own_language


def language_of(hands: Hands) -> str:
    """Return the language the page in front of a person says it is in."""
    root = hands.page.soup.find("html")
    assert root is not None
    return str(root["lang"])


def look_of(hands: Hands) -> str:
    """Return by which light the page in front of a person is drawn; "" where the system says it."""
    root = hands.page.soup.find("html")
    assert root is not None
    return str(root.get("data-look", ""))


def test_a_cook_chooses_a_language_and_units(ana: Hands, kitchen: Kitchen) -> None:
    """What is chosen is kept with the person, and the next page is in that language."""
    ana.open("/language")
    ana.press("Save", language="es", units="metric")
    person = kitchen.people()["ana"]
    assert (person.language, person.units) == ("es", "metric")
    assert language_of(ana) == "es"


def test_a_cook_chooses_night(ana: Hands, kitchen: Kitchen) -> None:
    """By default the system says it; a choice is kept with the person, counts on every page, and can be taken back."""
    assert look_of(ana) == ""
    ana.open("/language")
    ana.press("Save", language="en", look="night")
    assert kitchen.people()["ana"].look == "night"
    assert look_of(ana) == "night"
    ana.open("/language")
    ana.press("Save", language="en", look="")
    ana.open("/record")
    assert look_of(ana) == ""


def test_a_light_there_is_not_is_refused(kitchen: Kitchen) -> None:
    """The refusal names the value; nothing is kept."""
    outcome = keep_own_language(kitchen, person="ana", language="en", units="", look="dusk")  # type: ignore[arg-type]
    assert isinstance(outcome, Refused)
    assert "dusk" in english(outcome.reason)
    assert kitchen.people()["ana"].look == ""


def test_the_other_language_stands_in_the_header_by_its_own_name(ana: Hands) -> None:
    """Who reads no English finds Español written in Spanish."""
    ana.open("/rail")
    ana.follow("Español")
    assert ana.page.path == "/language"


def test_a_browser_at_the_door_keeps_its_language(at_tablet: Callable[[], Hands]) -> None:
    """Before anybody signs in, the names are asked for in the language this browser chose."""
    hands = at_tablet()
    hands.open("/names")
    hands.press("Español")
    assert hands.page.path == "/names"
    assert language_of(hands) == "es"


def test_a_language_nobody_speaks_is_refused(kitchen: Kitchen) -> None:
    """The refusal names the value; nothing is kept."""
    outcome = keep_own_language(kitchen, person="ana", language="xx", units="")
    assert isinstance(outcome, Refused)
    assert "xx" in english(outcome.reason)
    assert kitchen.people()["ana"].language == "en"


@pytest.mark.parametrize("units", ["stone", "US"])
def test_units_nobody_uses_are_refused(kitchen: Kitchen, units: str) -> None:
    """Units come first as US or metric, or as the kitchen does."""
    outcome = keep_own_language(kitchen, person="ana", language="es", units=units)  # type: ignore[arg-type]
    assert isinstance(outcome, Refused)
    assert units in english(outcome.reason)
