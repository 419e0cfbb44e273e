"""A step that times several things: a clock for each, told in the sentence of its line."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest

from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.small_content import CONTENT, SAUCE
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.technique import Step, Timer
from trainer.store.drafts import Draft
from trainer.store.kitchen_file import KitchenFile

TIMERS = (Timer("spinach", 20, "Spinach: from 20 seconds."), Timer("beans", 240, "Green beans: from 4 minutes."))
COOK = Step("cook", "time", "Start the clock of what is in the pot.", "", "", "", "", (), None, TIMERS)
BOILED = replace(SAUCE, steps=(COOK,))
PAGE = "/techniques/sauce/steps/1"


@pytest.fixture
def kitchen(prepared: Path, tmp_path: Path) -> Iterator[Kitchen]:
    """Return the invented kitchen with one step that times two vegetables."""
    folder = tmp_path / "kitchen"
    shutil.copytree(prepared, folder)
    file = KitchenFile.open(folder)
    techniques = MappingProxyType({**CONTENT.techniques, "sauce": BOILED})
    yield Kitchen(file, replace(CONTENT, techniques=techniques))
    file.close()


def test_each_line_has_its_own_clock(ana: Hands, clock: Clock) -> None:
    """Beans are not done when spinach is, and starting the one stops no other."""
    ana.open(PAGE)
    ana.press("4 min Green beans: from 4 minutes.")
    page = ana.press("20 s Spinach: from 20 seconds.")
    assert page.clocks == ["Spinach: from 20 seconds. and 1 more", "Green beans: from 4 minutes."]
    clock.pass_by(seconds=20)
    page = ana.open(PAGE)
    assert [line.startswith("Time is up") for line in page.clocks] == [True, False]
    ana.press("Seen")
    clock.pass_by(seconds=220)
    assert ana.open(PAGE).clocks == ["Time is up Green beans: from 4 minutes."]


def test_pressed_again_the_same_one_starts_anew(ana: Hands, clock: Clock) -> None:
    """A second batch of the same vegetable is one press: the step says until when, and the band has one clock."""
    ana.open(PAGE)
    ana.press("20 s Spinach: from 20 seconds.")
    clock.pass_by(seconds=15)
    page = ana.press("20 s Spinach: from 20 seconds. until 12:00:20")
    assert "until 12:00:35" in page.work
    assert page.clocks == ["Spinach: from 20 seconds."]
    page = ana.press("Stop")
    assert "until" not in page.work
    assert page.clocks == []


def test_a_clock_of_a_line_that_is_not_there_does_not_start(ana: Hands, kitchen: Kitchen) -> None:
    """A made-up name, and the start of a step with one clock, start nothing here."""
    for asked in ("celery", "start"):
        page = ana.open(PAGE)
        token = page.soup.select_one("form.clock input[name=csrf_token]")
        assert token is not None
        ana.client.post(f"{PAGE}/clock", data={"csrf_token": token["value"], "clock": asked})
        assert kitchen.file.drafts.list("clock") == ()


def test_a_clock_kept_before_there_were_several_is_let_be(ana: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """A clock that an earlier edition of the step started names no line: the choice is shown, and nothing breaks."""
    kitchen.file.drafts.put(Draft("clock:ana:sauce", "clock", "sauce", "ana", "ana", {"step": "cook"}, clock()))
    assert all(timer.text in ana.open(PAGE).work for timer in TIMERS)


def test_the_sheet_to_print_names_each_time(ana: Hands) -> None:
    """On paper there is no clock to press, so each line stands beside the step."""
    page = ana.open("/techniques/sauce/sheet")
    assert all(timer.text in page.work for timer in TIMERS)
