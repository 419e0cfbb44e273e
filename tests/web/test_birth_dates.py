"""A station that begins to ask for an age: nobody loses it in silence for lack of a birth date."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest

from tests.web.conftest import NOON, PEOPLE
from tests.web.hands import Hands
from tests.web.kitchen_people import clear
from tests.web.small_content import CONTENT
from trainer.actions.confirming import confirm
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.actions.two_people import local_second, waiting
from trainer.store.kitchen_file import KitchenFile

REASON = "Your own labour law decides."
SAID = "No birth date is on record for these, and nothing else is missing."


@pytest.fixture
def kitchen(prepared: Path, tmp_path: Path) -> Iterator[Kitchen]:
    """Return the invented kitchen on the day its pasta room begins to ask for sixteen years; Ana has no birth date."""
    folder = tmp_path / "kitchen"
    shutil.copytree(prepared, folder)
    file = KitchenFile.open(folder)
    ana = next(one.person for one in file.people.listed() if one.person.id == "ana")
    file.people.change(replace(ana, born=None))
    asks = replace(CONTENT.stations["pasta_room"], minimum_age=16, age_reason=REASON)
    yield Kitchen(file, replace(CONTENT, stations=MappingProxyType({**CONTENT.stations, "pasta_room": asks})))
    file.close()


def test_who_was_cleared_and_has_no_birth_date_is_named_to_the_manager(cleo: Hands, kitchen: Kitchen) -> None:
    """The page of people says whom it bars, where, and what to do next; who has a birth date is not among them."""
    for cook in ("ana", "bo"):
        clear(kitchen, cook)
    page = cleo.open("/cooks")
    assert SAID in page.work
    assert "write the birth date down" in page.work
    assert [" ".join(each.get_text().split()) for each in page.soup.select(".band:not([data-waiting]) li")] == [
        "Ana Pardo: Pasta room"
    ]
    page = cleo.open("/cooks/ana")
    assert "not allowed" in page.work
    assert "no birth date on record" in page.work


def test_nothing_is_said_where_more_than_the_birth_date_is_missing(cleo: Hands, kitchen: Kitchen) -> None:
    """A new hire without a birth date is not at the end of the path yet."""
    clear(kitchen, "bo")
    assert SAID not in cleo.open("/cooks").work


def test_a_manager_writes_a_birth_date_down_with_the_paper_seen(cleo: Hands, kitchen: Kitchen) -> None:
    """From the list of those held up to the form; it frees, so it waits for a second; then nobody is held up."""
    clear(kitchen, "ana")
    cleo.open("/cooks")
    cleo.open(str(cleo.page.soup.select(".band:not([data-waiting]) a")[0]["href"]))
    page = cleo.press("Save this date", born="2005-03-04", seen="birth certificate", secret=PEOPLE["cleo"][2])
    assert "Birth date 2005-03-04, paper: birth certificate." in page.work
    assert SAID in cleo.open("/cooks").work
    (waits,) = waiting(kitchen)
    assert isinstance(confirm(kitchen, draft=waits.id, second=local_second(NOON), now=NOON), Saved)
    assert SAID not in cleo.open("/cooks").work
    (entry,) = kitchen.file.book.of_kind("age_seen")
    assert (entry.cook, entry.body["seen"]) == ("ana", "birth certificate")
    assert {"years": 16, "from": "joining"} in entry.body["bars"]
    told = cleo.open("/book").work
    assert "Paper: birth certificate" in told
    assert "16 years: reached before joining" in told
    assert "2005" not in told


def test_a_birth_date_asks_which_paper_was_seen(cleo: Hands, kitchen: Kitchen) -> None:
    """Nothing is chosen beforehand; a date that is none is refused and stays in its field."""
    cleo.open("/cooks/ana/age")
    page = cleo.press("Save this date", born="2005-03-04", secret=PEOPLE["cleo"][2])
    assert any("choose one from the list" in words for words in page.problems)
    page = cleo.press("Save this date", born="4.3.2005", seen="passport", secret=PEOPLE["cleo"][2])
    assert any("“4.3.2005” is not a day." in words for words in page.problems)
    assert page.field("Birth date")["value"] == "4.3.2005"
    assert kitchen.file.book.of_kind("age_seen") == []
