"""The band of clocks under the header: on every page of whoever started them, until they are stopped."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from shutil import copytree
from types import MappingProxyType

import pytest

from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.small_content import CONTENT, NESTS, SAUCE
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.technique import Step
from trainer.store.drafts import Draft
from trainer.store.kitchen_file import KitchenFile

REST = Step("rest", "time", "Let the dough rest.", "", "", "", "", (), 1800, name="Rest the dough")
WASH = Step("wash", "time", "Wash for 20 seconds.", "", "", "", "", (), 20, name="Wash hands")
RESTED, WASHED = replace(NESTS, steps=(REST, *NESTS.steps)), replace(SAUCE, steps=(WASH,))
PAGES = (
    "/rail",
    "/record",
    "/techniques/nests",
    "/techniques/nests/steps",
    "/techniques/nests/steps/2",
    "/techniques/sauce/steps/1",
    "/techniques/nests/after",
    "/techniques/nests/try/batch_amount",
    "/questions",
    "/paths",
    "/bench",
    "/bench/measures",
    "/language",
    "/no-such-page",
)


@pytest.fixture
def kitchen(prepared: Path, tmp_path: Path) -> Iterator[Kitchen]:
    """Return the invented kitchen with two techniques that have a clock each."""
    copytree(prepared, tmp_path / "kitchen")
    file = KitchenFile.open(tmp_path / "kitchen")
    techniques = MappingProxyType({**CONTENT.techniques, "nests": RESTED, "sauce": WASHED})
    yield Kitchen(file, replace(CONTENT, techniques=techniques))
    file.close()


def start(who: Hands, technique: str) -> None:
    """Start the clock of the first step of a technique."""
    who.open(f"/techniques/{technique}/steps/1")
    who.press("Start the clock")


def test_a_clock_goes_on_above_every_page(ana: Hands) -> None:
    """Whatever page its cook turns to says what runs, until when, and has its stop."""
    start(ana, "nests")
    for address in PAGES:
        page = ana.open(address)
        assert page.running == "Rest the dough until 12:30:00 Stop", address


def test_it_is_on_the_pages_of_an_assessor_too(bo: Hands) -> None:
    """Who is a cook and an assessor turns from a step to who waits, and back."""
    start(bo, "nests")
    for address in ("/ready", "/practicals/new", "/shifts-worked/new"):
        assert bo.open(address).running.startswith("Rest the dough"), address


def test_of_several_the_first_to_end_is_seen_and_how_many_more(ana: Hands) -> None:
    """Starting another loses none; all of them are one press away, each with its stop."""
    start(ana, "nests")
    start(ana, "sauce")
    assert ana.open("/rail").clocks == ["Wash hands and 1 more", "Rest the dough"]
    page = ana.follow("Wash hands and 1 more")
    assert (page.heading, page.running) == ("Clocks", "")
    assert page.work == "Clocks Wash hands until 12:00:20 Stop Rest the dough until 12:30:00 Stop Back to my start"
    ana.press("Stop")
    assert ana.open("/rail").clocks == ["Rest the dough"]


def test_at_the_end_it_says_so_until_somebody_has_seen_it(ana: Hands, clock: Clock) -> None:
    """The band and the title of every page say it; *Seen* ends it, and leads back to the same page."""
    start(ana, "sauce")
    clock.pass_by(seconds=19)
    assert not ana.open("/rail").title.startswith("Time is up")
    clock.pass_by(seconds=1)
    page = ana.open("/techniques/nests/steps?from=bench")
    assert page.title.startswith("Time is up: ")
    assert page.soup.select_one(".running .is-over")
    assert ana.press("Seen").running == ""
    assert ana.address == "/techniques/nests/steps?from=bench"


def test_stopped_on_a_page_that_was_sent_it_leads_to_one_that_can_be_opened(ana: Hands) -> None:
    """A page that only a form leads to cannot be opened again by its address."""
    start(ana, "nests")
    page = ana.open("/techniques/nests")
    token = page.soup.select_one("input[name=csrf_token]")
    assert token is not None
    ana._see(ana.client.post("/techniques/nests/ask", data={"csrf_token": token["value"], "key": "one"}))
    assert ana.page.status == 400
    assert ana.press("Stop").status == 200


def test_a_clock_of_a_day_ago_is_gone(
    ana: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """Nobody waits for it any more: it is shown no longer, and the next clock anybody starts puts it away."""
    start(ana, "sauce")
    clock.pass_by(days=1, seconds=19)
    dev = sign_in("dev")
    start(dev, "nests")
    assert len(kitchen.file.drafts.list("clock")) == 2
    clock.pass_by(seconds=1)
    assert sign_in("ana").open("/rail").running == ""
    dev.press("Again")
    assert [draft.cook for draft in kitchen.file.drafts.list("clock")] == ["dev"]


def test_a_clock_is_its_cooks_alone(ana: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """On a shared tablet nobody sees, or stops, the clock of somebody else."""
    start(ana, "nests")
    dev = sign_in("dev")
    assert dev.open("/rail").running == ""
    start(dev, "sauce")
    (clock,) = kitchen.file.drafts.list("clock", cook="ana")
    dev.press("Stop", clock=clock.id)
    assert kitchen.file.drafts.list("clock", cook="ana") == (clock,)


def test_a_clock_survives_its_step(ana: Hands, kitchen: Kitchen) -> None:
    """An edition without the step is published while it runs: the pot still boils, so the clock still says when."""
    start(ana, "nests")
    techniques = MappingProxyType({**kitchen.content.techniques, "nests": NESTS})
    kitchen.content = replace(kitchen.content, techniques=techniques)
    assert "until 12:30:00" in ana.open("/rail").running


def test_a_clock_kept_by_an_older_program_runs_on(ana: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """It kept no seconds, and one clock a technique: what is taught says how long."""
    kitchen.file.drafts.put(Draft("clock:ana:nests", "clock", "nests", "ana", "ana", {"step": "rest"}, clock()))
    assert ana.open("/rail").running == "Rest the dough until 12:30:00 Stop"
    ana.open("/techniques/nests/steps/1")
    ana.press("Again")
    assert len(kitchen.file.drafts.list("clock")) == 1


def test_nothing_of_it_is_a_record(ana: Hands, kitchen: Kitchen) -> None:
    """A clock is a help: the book has nothing of it."""
    before = kitchen.file.book.end()
    start(ana, "nests")
    ana.press("Stop")
    assert kitchen.file.book.end() == before


def test_in_spanish(ana: Hands, clock: Clock) -> None:
    """The band speaks as the page does."""
    start(ana, "sauce")
    ana.open("/language")
    ana.press("Save", language="es")
    assert ana.open("/rail").running == "Wash hands hasta las 12:00:20 Parar"
    clock.pass_by(seconds=20)
    assert ana.open("/rail").running == "Se acabó el tiempo Wash hands hasta las 12:00:20 Visto"


def test_a_page_that_a_phone_keeps_has_none(ana: Hands) -> None:
    """Shown later without network, it would tell the time of the day it was kept."""
    start(ana, "nests")
    assert "Rest the dough until" not in ana.client.get("/rail", headers={"Kept": "1"}).text
    assert "Rest the dough until" in " ".join(ana.open("/rail").running.split())
