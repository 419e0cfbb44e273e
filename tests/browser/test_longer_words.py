"""Every page on a small phone in a language whose words are two fifths longer than English ones."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser import engine, looks
from tests.browser.conftest import FRIDAY_AT_SIX
from tests.browser.engine import Served
from tests.browser.lived_in import Work, pages_of, settle
from tests.browser.somebody import Somebody
from tests.browser.test_every_page import at_the_door
from tests.made_up_language import TAG, at_length, spoken
from trainer.actions.own_language import keep_own_language
from trainer.kitchen.technique import Content

SMALL = (320, 640)
PHONE = (360, 780)

# In the header: how high it is, and each control that lies outside the screen, with its drawer open.
HEADER = """() => {
  const top = document.querySelector("header.top"), found = [], wide = document.documentElement.clientWidth;
  const high = Math.round(top.getBoundingClientRect().height);
  if (high > 88) found.push(`the header is ${high} px high`);
  const drawer = top.querySelector("details");
  if (drawer && drawer.checkVisibility()) drawer.open = true;
  for (const e of top.querySelectorAll("a, button, summary, .tape")) {
    const box = e.getBoundingClientRect();
    if (e.checkVisibility() && (box.left < -1 || box.right > wide + 1)) found.push(`outside: ${e.textContent.trim()}`);
  }
  if (drawer) drawer.open = false;
  return found;
}"""
# Words that run over the edge of what is pressed, or are cut off there.
OVER_THE_EDGE = """() => {
  const found = [];
  for (const e of document.querySelectorAll("a[href], button, summary")) {
    if (!e.checkVisibility() || getComputedStyle(e).display === "inline" || e.closest(".tape")) continue;
    if (e.scrollWidth > e.clientWidth + 1) found.push(`${e.scrollWidth - e.clientWidth} px: ${e.textContent.trim()}`);
  }
  return found;
}"""
# Keys under the bar, or below the screen; under a record that is read first, counted from the field they write into.
KEYS = """() => {
  const keys = [...document.querySelectorAll(".keypad button")].filter((e) => e.checkVisibility());
  if (!keys.length) return [];
  const input = document.getElementById(keys[0].closest(".keypad").dataset.keypad);
  const field = input.closest(".field").getBoundingClientRect().top + scrollY;
  const above = document.querySelector(".kept-points") ? field : 0;
  const bar = [...document.querySelectorAll(".bar")].pop();
  const foot = innerHeight - (bar ? bar.getBoundingClientRect().height : 0);
  const low = Math.max(...keys.map((key) => key.getBoundingClientRect().bottom + scrollY));
  return low - above > foot ? [`the keys lie ${Math.round(low - above - foot)} px too low`] : [];
}"""


@dataclass
class Found:
    """What was found wrong on all pages, a list of lines a rule, and how many pages had keys."""

    faults: dict[str, list[str]] = field(default_factory=dict)
    pages: int = 0
    with_keys: int = 0

    def add(self, rule: str, where: str, told: list[str]) -> None:
        """Keep what was found wrong."""
        self.faults.setdefault(rule, []).extend(f"{where}: {line}" for line in told)


@pytest.fixture(scope="module")
def lived_in(made: Path, content: Content, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """Return the demo kitchen with work under way in it, served in that language too."""
    folder = tmp_path_factory.mktemp("longer")
    (folder / "languages").mkdir()
    shutil.copytree(made, folder / "kitchen")
    with (
        spoken(folder / "languages", at_length),
        engine.serving(folder / "kitchen", content, FRIDAY_AT_SIX) as served,
    ):
        yield served


@pytest.fixture(scope="module")
def walked(browser: Browser, lived_in: Served) -> Found:
    """Return what one walk of all people through all their pages found."""
    work, found = settle(lived_in), Found()
    for role, paths in pages_of(lived_in, work).items():
        who = reading_it(browser, lived_in, work, role)
        for path in dict.fromkeys(paths):
            look_at(who, path, f"{role} {path}", found)
        who.context.close()
    return found


def reading_it(browser: Browser, served: Served, work: Work, role: str) -> Somebody:
    """Return somebody signed in who reads that language; nobody is an enrolled device."""
    who = at_the_door(browser, served, role)
    who.context.add_cookies([{"name": "language", "value": TAG, "url": served.address}])
    for person in (work.hire, work.sous, work.manager):
        assert keep_own_language(served.kitchen, person=person, language=TAG, units="") is None
    return who


def look_at(who: Somebody, path: str, where: str, found: Found) -> None:
    """Look at one page on both phones."""
    who.open(path)
    assert who.page.locator("html").get_attribute("lang") == TAG
    found.pages += 1
    for width, height in (SMALL, PHONE):
        who.page.set_viewport_size({"width": width, "height": height})
        at = f"{where} at {width} px"
        found.add("sideways", at, looks.sideways(who.page))
        found.add("header", at, list(who.page.evaluate(HEADER)))
        found.add("over the edge", at, list(who.page.evaluate(OVER_THE_EDGE)))
    found.add("keys", where, list(who.page.evaluate(KEYS)))
    found.with_keys += who.page.locator(".keypad:visible").count() > 0


@pytest.mark.parametrize("rule", ["sideways", "header", "over the edge", "keys"])
def test_longer_words_fit(walked: Found, rule: str) -> None:
    """No page scrolls sideways, the header keeps its one row, words stay on their buttons, keys stay on the screen."""
    print(f"\n{walked.pages} pages, {walked.with_keys} with keys")
    assert walked.with_keys
    assert not walked.faults[rule], "\n".join(walked.faults[rule])
