"""Every page each of the three people can open, by day and by night, at every size: one walk, then the rules."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser import engine, looks
from tests.browser.conftest import FRIDAY_AT_SIX
from tests.browser.engine import Served
from tests.browser.journeys import step_in
from tests.browser.lived_in import Work, pages_of, settle
from tests.browser.somebody import Somebody
from tests.browser.weighing import Scales, Weight
from trainer.kitchen.technique import Content
from trainer.web.app import create_app

SIZES = ((360, 780), (768, 1024), (1280, 800))
NARROW = (320, 640)
NOT_PAGES = {"static", "screen.style"}


@dataclass
class Found:
    """What was found wrong on all pages, a list of lines a rule, and how much was looked at."""

    faults: dict[str, list[str]] = field(default_factory=dict)
    paths: list[str] = field(default_factory=list)
    axe_runs: int = 0
    by_eye: int = 0
    strangers: list[str] = field(default_factory=list)

    def add(self, rule: str, where: str, told: list[str]) -> None:
        """Keep what was found wrong."""
        self.faults.setdefault(rule, []).extend(f"{where}: {line}" for line in told)


@pytest.fixture(scope="module")
def lived_in(made: Path, content: Content, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """Return the demo kitchen with work under way in it, served."""
    folder = tmp_path_factory.mktemp("lived-in") / "kitchen"
    shutil.copytree(made, folder)
    with engine.serving(folder, content, FRIDAY_AT_SIX) as served:
        yield served


@pytest.fixture(scope="module")
def work(lived_in: Served) -> Work:
    """Return what is under way in the kitchen."""
    return settle(lived_in)


@pytest.fixture(scope="module")
def walked(browser: Browser, lived_in: Served, work: Work) -> Found:
    """Return what one walk of all people through all their pages found."""
    found = Found()
    for role, paths in pages_of(lived_in, work).items():
        who = at_the_door(browser, lived_in, role)
        for path in dict.fromkeys(paths):
            look_at(who, path, f"{role} {path}", found)
        found.add("complaints", role, who.faults)
        found.strangers += who.strangers
        who.context.close()
    return found


def at_the_door(browser: Browser, served: Served, role: str) -> Somebody:
    """Return somebody signed in; nobody is an enrolled device with nobody signed in."""
    who = Somebody(browser, served.address)
    step_in(who, served, "Manager" if role == "nobody" else role)
    if role == "nobody":
        who.context.clear_cookies(name=re.compile("^session"))
    return who


def look_at(who: Somebody, path: str, where: str, found: Found) -> None:
    """Look at one page at every size, by day and by night."""
    who.open(path)
    found.paths.append(path)
    who.page.set_viewport_size({"width": NARROW[0], "height": NARROW[1]})
    found.add("sideways", f"{where} at 320 px", looks.sideways(who.page) + looks.sideways_spaced(who.page))
    for width, height in SIZES:
        who.page.set_viewport_size({"width": width, "height": height})
        at = f"{where} at {width} px"
        found.add("sideways", at, looks.sideways(who.page) + looks.sideways_spaced(who.page))
        found.add("small", at, looks.small_controls(who.page) + looks.small_text(who.page))
        for scheme in ("light", "dark"):
            who.page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
            wrong, by_eye = looks.axe(who.page)
            found.axe_runs += 1
            found.by_eye += len(by_eye)
            found.add("axe", f"{at}, {scheme}", wrong)
            found.add("faint", f"{at}, {scheme}", looks.faint_text(who.page))
        if width == SIZES[0][0]:
            found.add("covered", at, looks.under_the_bar(who.page))


def test_every_page_there_is_was_looked_at(lived_in: Served, walked: Found) -> None:
    """The walk meets every route a GET can open; a new page must be added to it."""
    app = create_app(lived_in.kitchen)
    routes = {rule.endpoint for rule in app.url_map.iter_rules() if rule.methods and "GET" in rule.methods}
    at = app.url_map.bind("localhost")
    seen = {at.match(path.partition("?")[0])[0] for path in walked.paths if path != "/no-such-page"}
    assert routes - seen - NOT_PAGES == set()


def test_axe_finds_nothing_wrong(walked: Found) -> None:
    """WCAG 2.2 A and AA, contrast of AAA and target size, on every page x three sizes x day and night."""
    print(f"\n{len(walked.paths)} pages, {walked.axe_runs} runs of axe, {walked.by_eye} left to the eye")
    assert walked.faults["axe"] == []


@pytest.mark.parametrize("rule", ["sideways", "faint", "small", "covered", "complaints"])
def test_the_look_holds_on_every_page(walked: Found, rule: str) -> None:
    """No sideways scroll, text at 7:1, controls of 48 px, text of 18 px, nothing under the bar, no complaint."""
    assert walked.faults.get(rule, []) == []


def test_no_page_asks_another_site_for_anything(walked: Found) -> None:
    """Every request goes to the kitchen's own address."""
    assert walked.strangers == []


def test_pages_weigh_little(browser: Browser, lived_in: Served, work: Work) -> None:
    """A first view is at most 100 KiB, a later one 25 KiB, script 20 kB."""
    weights: dict[str, Weight] = {}
    for role, paths in pages_of(lived_in, work).items():
        who = at_the_door(browser, lived_in, role)
        scales = Scales(who.context)
        weights |= {f"{role} {path}": scales.weigh(path) for path in dict.fromkeys(paths)}
        who.context.close()
    first, later, script = (max(getattr(w, n) for w in weights.values()) for n in ("first", "later", "script"))
    print(f"\nheaviest first view {first} bytes, later {later} bytes, script {script} bytes")
    assert {at: w for at, w in weights.items() if w.first > 100 * 1024 or w.later > 25 * 1024} == {}
    assert script <= 20_000
